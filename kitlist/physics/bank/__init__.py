"""Batteries joined: the network as one set of numbers, the band over all that is not known, rod after rod."""
