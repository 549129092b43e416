"""Batteries, leads, arc and bank as pure functions: floats in, frozen values out, no clock, no file, no database.

Read in this order: `figures` (every uncertain input, with its range and source), `span` (low, best, high),
`charge`, `standing`, `resistance`, `cranking` (one battery), `cable`, `joints`, `heat` (leads), `arc`, `bank` (the
network), `band` (the 10-50-90 % band), `verdict` (against a rod), `endurance`, `bead`, `planner`.
"""
