"""Every uncertain input of the physics in one place: value to start from, plausible range, unit and source.

Nothing here was measured on the owner's own kit. What the owner measures replaces the figure.
"""

from __future__ import annotations

from kitlist.base.sources import PRACTICE, Figure, Source, Tag

_FIT = Source(Tag.FITTED, "PyBaMM lead_acid.Full with Sulzer2019, scaled to size")
_LOAD_TEST = Source(Tag.DERIVED, "SAE J537 (7.2 V, -18 °C, 30 s) and TM 5-4210-230-14&P-1, Table 5")
_LOAD_LINE = Source(Tag.SECOND_HAND, "IEC 60974-1, conventional load voltage 20 + 0.04 I")

# One battery
CRANK_VOLTS = Figure("source resistance times cranking amps (SAE)", 3.0, "V", _LOAD_TEST, 2.6, 3.8)
CAPACITY_OHM_AH = Figure("source resistance times 20 h capacity", 0.45, "ohm Ah", PRACTICE, 0.30, 0.70)
COLD_SLOPE = Figure("rise of source resistance as it gets colder", 0.011, "1/K", _LOAD_TEST, 0.007, 0.016)
FLAT_RISE = Figure("rise of source resistance from full to flat", 0.6, "ratio", PRACTICE, 0.3, 1.0)
AGE_FACTOR = Figure("source resistance against new", 1.15, "ratio", Source(Tag.DERIVED, "half-CCA load test"), 1.0, 1.6)
ACTIVATION_V = Figure("activation drop of a battery under welding current", 0.40, "V", _FIT, 0.25, 0.55)
ACTIVATION_SLOPE_V = Figure("activation drop, asinh slope", 0.33, "V", _FIT)
ACTIVATION_HOURS = Figure("20 h capacity over the current where activation bends", 1.48, "h", _FIT)
SLOW_RATIO = Figure("slow polarisation against source resistance, settled", 0.35, "ratio", _FIT, 0.15, 0.8)
SLOW_TAU_S = Figure("time constant of slow polarisation", 120.0, "s", _FIT, 40.0, 250.0)
SLOW_SHARE = Figure("slow polarisation met within a rod, against source resistance", 0.2, "ratio", _FIT, 0.0, 0.4)
OCV_SLOPE = Figure("rested volts of a 12 V battery against temperature", 0.00125, "V/K", PRACTICE, 0.0011, 0.0015)
SURFACE_V = Figure("surface charge left in the rested volts", 0.05, "V", PRACTICE, -0.05, 0.15)
BLED_V = Figure("surface charge left after a bleed", 0.05, "V", PRACTICE)
COLD_NOT_KNOWN_C = Figure("coldest night where nobody said", -10.0, "°C", PRACTICE)
CHARGE_NOT_KNOWN = Figure("charge of a battery nobody measured", 0.75, "ratio", PRACTICE, 0.5, 1.0)
CHARGE_BEFORE_TRIP = Figure("charge of a sound battery in use", 0.875, "ratio", PRACTICE, 0.75, 1.0)
BATTERY_TEMP_C = Figure("battery temperature when nobody wrote it down", 15.0, "°C", PRACTICE, -5.0, 35.0)
METER_RATIO = Figure("accuracy of a fair voltmeter", 0.005, "ratio", PRACTICE)
TESTER_RATIO = Figure("a battery tester's milliohms against the welding resistance", 1.0, "ratio", PRACTICE, 0.8, 1.3)
PARASITIC_A = Figure("drain of a parked vehicle", 0.030, "A", PRACTICE, 0.020, 0.050)
SELF_DISCHARGE_DOUBLING_K = Figure(
    "self-discharge doubles every", 10.0, "K", Source(Tag.PRACTICE, "TM 9-6140-200-14 §4-8 gives 2.1-2.3 per 10 °C")
)

# Limits of a battery
REJECT_CRANK_VOLTS = Figure("source resistance times CCA, reject above", 6.0, "V", _LOAD_TEST)
SHORTED_CELL_V = Figure("rested volts under which a cell is taken as shorted", 10.7, "V", PRACTICE)
LOAD_STOP_V = Figure("volts on load, stop", 9.6, "V", Source(Tag.PRACTICE, "load-test limit of TM 5-4210-230-14&P-1"))
RESERVE_WARM = Figure("charge to keep, warm", 0.50, "ratio", PRACTICE)
CRANK_SHARE = Figure("cranking current when the vehicle's own is not known, against CCA", 0.5, "ratio", PRACTICE)

# Charging
CHARGE_RETURN = Figure("ampere-hours put in for each that comes back", 1.15, "ratio", PRACTICE, 1.05, 1.25)
GAS_CLEARS_H = Figure(
    "wait after charging before linking or striking",
    1.0,
    "h",
    Source(Tag.PRACTICE, "gassing goes on up to an hour after charge"),
)

# Limits about people
WET_LIMIT_V = Figure(
    "rested volts of a bank in the wet, most",
    35.0,
    "V",
    Source(Tag.SECOND_HAND, "AS 1674.2:2003, category C environment"),
)

# Leads and joints
COPPER_TEMP = Figure("rise of conductor resistance", 0.00393, "1/K", Source(Tag.MEMORY, "IEC 60228, IEC 60287"))
ALUMINIUM_FACTOR = Figure(
    "aluminium against copper, same area",
    1.64,
    "ratio",
    Source(Tag.DERIVED, "IEC 60287 resistivities 2.84 and 1.7241e-8 ohm m"),
)
COPPER_CLAD_FACTOR = Figure("copper-clad aluminium against copper, same area", 1.6, "ratio", PRACTICE, 1.4, 1.7)
LEAD_LENGTH = Figure("lead length against what was written down", 1.0, "ratio", PRACTICE, 0.9, 1.1)
LEAD_AREA = Figure("true conductor area against the stated", 0.875, "ratio", PRACTICE, 0.75, 1.0)
LEAD_TEMP_C = Figure("lead temperature while welding", 45.0, "°C", PRACTICE, 15.0, 75.0)
POST_JOINT_MOHM = Figure("one joint at a battery post", 0.95, "mohm", PRACTICE, 0.3, 3.0)
HOLDER_AND_CLAMP_MOHM = Figure("holder and work clamp together", 2.05, "mohm", PRACTICE, 0.7, 6.0)

# The arc
ARC_FOOT_V = Figure("arc volts at no length", 17.0, "V", _LOAD_LINE, 15.5, 18.5)
ARC_SLOPE_V_PER_MM = Figure("arc volts a millimetre", 1.0, "V/mm", PRACTICE, 0.7, 1.4)
ARC_LENGTH_MM = Figure("arc length held", 3.0, "mm", PRACTICE, 1.5, 5.0)
ARC_RISE_OHM = Figure("rise of arc volts with current, hot rod included", 0.040, "V/A", _LOAD_LINE, 0.025, 0.050)
ARC_C_W = Figure("low-current term of the arc", 9.44, "W", PRACTICE, 4.72, 18.88)
ARC_D_W_PER_MM = Figure("low-current term of the arc a millimetre", 15.02, "W/mm", PRACTICE, 7.51, 30.04)
CELLULOSIC_V = Figure("extra arc volts of a cellulosic covering", 3.5, "V", PRACTICE, 3.0, 4.0)
HAND_MM = Figure("arc length from one bead to the next, same hand", 0.0, "mm", PRACTICE, -1.75, 1.75)
HELD_POOR = Figure("longest arc over arc length: poor under", 1.5, "ratio", PRACTICE)
HELD_FAIR = Figure("longest arc over arc length: fair under", 2.5, "ratio", PRACTICE)
WARM_LIMIT = Figure("likely current over the rod's top: hot above", 1.15, "ratio", PRACTICE)
VERTICAL_TOP = Figure(
    "top of a rod's range welding upright, against flat",
    0.87,
    "ratio",
    Source(Tag.READ, "TM 5-4210-230-14&P-1: 10 to 15 % less"),
    0.85,
    0.90,
)
OVERHEAD_TOP = Figure("top of a rod's range overhead, against flat", 0.95, "ratio", PRACTICE)
SHORT_ARC_MM = Figure("longest arc under which an arc is a short one", 5.0, "mm", PRACTICE)
HOT_LIMIT = Figure("10 % current over the rod's top: too hot above", 1.5, "ratio", PRACTICE)

# Burning rods
KINETIC_C = Figure("share of the charge at hand at once", 0.30, "ratio", _FIT, 0.18, 0.45)
KINETIC_K_PER_H = Figure("rate at which the rest comes forward", 7.0, "1/h", _FIT, 5.0, 8.0)
KINETIC_COLD_PER_K = Figure("fall of that rate as it gets colder", 0.035, "1/K", _FIT)


# Choosing a bank
PARALLEL_GAP_V = Figure("rested volts between parallel strings, most", 0.2, "V", PRACTICE)
MATCH_CAPACITY = Figure("20 h capacity apart in one bank, most", 0.20, "ratio", PRACTICE)
MATCH_CHARGE = Figure("charge apart in one bank, most", 0.10, "ratio", PRACTICE)
MATCH_RESISTANCE = Figure("source resistance apart in one bank, most", 0.25, "ratio", PRACTICE)
MISMATCH_COST = Figure("rods that one mismatch in a bank counts for, of its rods", 0.10, "ratio", PRACTICE)
MATCH_AGE_YEARS = Figure("age apart in one bank, most", 1.0, "years", PRACTICE)

# A bead
CLAMP_METER_RATIO = Figure("accuracy of a clamp meter", 0.03, "ratio", PRACTICE)

ALL: tuple[Figure, ...] = tuple(value for value in list(globals().values()) if isinstance(value, Figure))
