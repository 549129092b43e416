"""A trip's life: what is to be done when, going through the bags, what was used, what goes back. Pure, like the rules.

Each module takes a readiness, or a kit and what the store kept, and gives plain data; it draws nothing.
"""
