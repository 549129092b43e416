"""Rods, joints and repairs: designations, currents, consumption, storage, shades, and what may be welded at all.

Pure functions: text and numbers in, frozen dataclasses out. Reference tables come through `kitlist.base.sources.table`.
"""
