"""The arc on a bank of batteries, and what a practice weld teaches of it."""
