"""Arc energy and heat input, and the arc volts that go into them.

The volts here are for energy and for rating; how a bank feeds an arc is another model.
"""

from __future__ import annotations

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, Tag, sourced
from kitlist.base.terms import Covering

EN_1011_1 = Source(Tag.MEMORY, "EN 1011-1, ISO/TR 17671-1")
ISO_18491 = Source(Tag.MEMORY, "ISO/TR 18491")
EFFICIENCY_111 = 0.8
CELLULOSIC_MORE_V = (3.0, 4.0)


def _speed(speed_mm_s: float) -> None:
    if not 0.2 <= speed_mm_s <= 30:
        raise OutOfRange(f"a travel speed of {speed_mm_s:g} mm/s: 0.2 to 30 mm/s")


@sourced(ISO_18491)
def arc_energy_kj_per_mm(*, voltage_v: float, current_a: float, speed_mm_s: float) -> float:
    """Arc energy, kJ/mm, with no efficiency in it; volts measured near the arc.

    >>> round(arc_energy_kj_per_mm(voltage_v=23.0, current_a=110.0, speed_mm_s=2.5), 3)
    1.012
    """
    _speed(speed_mm_s)
    return voltage_v * current_a / speed_mm_s / 1000


@sourced(EN_1011_1)
def heat_input_kj_per_mm(*, voltage_v: float, current_a: float, speed_mm_s: float) -> float:
    """Heat input of stick welding, kJ/mm: arc energy times 0.8. Some codes leave the 0.8 out.

    >>> round(heat_input_kj_per_mm(voltage_v=23.0, current_a=110.0, speed_mm_s=2.5), 2)
    0.81
    """
    return EFFICIENCY_111 * arc_energy_kj_per_mm(voltage_v=voltage_v, current_a=current_a, speed_mm_s=speed_mm_s)


@sourced(EN_1011_1)
def heat_input_of_rod_kj_per_mm(*, voltage_v: float, charge_ah: float, run_out_mm: float) -> float:
    """Heat input, kJ/mm, from a rod's charge, Ah, and the length of bead that it ran out, mm.

    >>> round(heat_input_of_rod_kj_per_mm(voltage_v=22.5, charge_ah=2.05, run_out_mm=150.0), 2)
    0.89
    """
    if not 10 <= run_out_mm <= 1000:
        raise OutOfRange(f"a run-out of {run_out_mm:g} mm: 10 to 1000 mm")
    return EFFICIENCY_111 * arc_energy_kj(voltage_v=voltage_v, charge_ah=charge_ah) / run_out_mm


@sourced(Source(Tag.DERIVED, "volts times charge"))
def arc_energy_kj(*, voltage_v: float, charge_ah: float) -> float:
    """Energy of an arc, kJ: 3.6 U Q.

    >>> round(arc_energy_kj(voltage_v=22.5, charge_ah=2.05))
    166
    """
    return 3.6 * voltage_v * charge_ah


@sourced(PRACTICE)
def short_arc_v(*, current_a: float, arc_mm: float, covering: Covering = Covering.RUTILE) -> float:
    """Volts of a hand-held arc, V: 15 + 2 L + 0.01 I, ±2 V; cellulosic 3.5 V more. Not a published equation.

    Rutile and basic rods, arc of 1 to 8 mm (about the core diameter), 20 to 300 A. Short arcs on rutile are
    reported 0.5 to 4 V lower, more so with thick rods.

    >>> round(short_arc_v(current_a=110.0, arc_mm=3.2), 1)
    22.5
    """
    if not (20 <= current_a <= 300 and 1 <= arc_mm <= 8):
        raise OutOfRange(f"{current_a:g} A over {arc_mm:g} mm: 20 to 300 A and 1 to 8 mm")
    more_v = sum(CELLULOSIC_MORE_V) / 2 if covering is Covering.CELLULOSIC else 0.0
    return 15 + 2.0 * arc_mm + 0.01 * current_a + more_v
