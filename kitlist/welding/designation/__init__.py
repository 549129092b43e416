"""What stands on a packet of rods, and which pole the rod wants."""
