"""Batteries, leads, arc and bank as pure functions: floats in, frozen values out, no clock, no file, no database.

Read in this order: `figures` (every uncertain input, with its range and source) and `span` (low, best, high);
`charge`, `standing`, `resistance`, `cranking`, `capacity`, `charging`, `gas` (one battery); `cable`, `heat` (leads);
`arc`; `bank` (the network as one set of numbers), `rig` (the same with all that is not known), `band` (the 10-50-90 %
current over it, on the points of `lattice`), `verdict` (against a rod); `bead`, `learned` (a practice weld narrows it);
`endurance` (rod by rod); `demand`, `fleet`, `quickband`, `weighing`, `planner`, `advice`, `linking` (choosing a bank).
`provenance` lists where every figure, formula and table comes from; `examples` holds invented banks.
"""
