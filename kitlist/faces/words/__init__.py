"""Judgements, banks, trips and rods as text and JSON for a terminal."""
