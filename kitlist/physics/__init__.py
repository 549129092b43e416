"""Batteries, leads, arc and bank as pure functions: floats in, frozen values out, no clock, no file, no database.

`figures` holds every uncertain input with its range and source. Read the rooms in this order: `battery`,
`leads`, `arc`, `bank`.
"""
