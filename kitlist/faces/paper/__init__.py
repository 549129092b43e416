"""The papers: plain documents (`document`), then HTML, PDF and text. Nothing here judges a kit."""
