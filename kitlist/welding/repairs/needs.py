"""What one job takes of one rod: weld metal, passes, rods, charge, arc time, run-out and heat input."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.terms import Joint
from kitlist.welding.designation.designation import Designation
from kitlist.welding.repairs.heat_input import EN_1011_1, arc_energy_kj, heat_input_of_rod_kj_per_mm, short_arc_v
from kitlist.welding.repairs.joints import GEOMETRY, WeldMetal, passes
from kitlist.welding.repairs.plate import single_pass_leg_mm
from kitlist.welding.repairs.typical import Job, weld_metal, weld_metal_g
from kitlist.welding.rods.consumption import SPOILED, STEEL_G_MM3, STUB, RodBurn, RodsNeeded, burn, rods_needed


@dataclass(frozen=True, slots=True)
class JobNeeds:
    """One job with one rod.

    `weld_g` is what the joint asks for, `laid_g` what the rod lays: no rod lays a fillet under its own least leg.
    `run_out_mm` is the bead that one rod lays in a pass; None (and no heat input) for a plug, or where it is not known
    what the rod lays in one pass.
    """

    weld_g: float
    laid_g: float
    passes: int | None
    one: RodBurn
    rods: RodsNeeded
    arc_v: float
    run_out_mm: float | None
    arc_energy_kj_per_mm: float | None
    heat_input_kj_per_mm: float | None


@sourced(GEOMETRY, EN_1011_1, PRACTICE)
def job_needs(
    job: Job,
    rod: Designation,
    *,
    rod_mm: float,
    length_mm: float,
    current_a: float,
    stub_mm: float = STUB.value,
    spoiled_ratio: float = SPOILED.value,
    arc_v: float | None = None,
) -> JobNeeds:
    """What a job takes of a rod at a current, best values and spreads.

    `arc_v` None: a short arc as long as the rod is thick. Every pass is taken as the same share of the section. Raises
    OutOfRange where thickness, weld length or the rod's deposit is not known.

    >>> from kitlist.base.terms import Steel
    >>> from kitlist.welding.designation.designations import decode
    >>> hanger = Job(part="spring hanger", steel=Steel.MILD, thickness_mm=5.0, weld_length_mm=160.0)
    >>> need = job_needs(hanger, decode("E6013"), rod_mm=3.2, length_mm=350, current_a=110)
    >>> need.passes, need.rods.to_pack, round(need.run_out_mm or 0), round(need.heat_input_kj_per_mm or 0, 2)
    (1, 2, 161, 0.82)
    """
    metal = weld_metal(job)
    one = burn(rod.table_class, diameter_mm=rod_mm, length_mm=length_mm, current_a=current_a, stub_mm=stub_mm)
    weld_g = weld_metal_g(job)
    if arc_v is None:
        arc_v = short_arc_v(current_a=current_a, arc_mm=rod_mm, covering=rod.covering)
    count = run_out_mm = energy = heat = None
    laid_g = weld_g
    if job.joint is not Joint.PLUG and (laid_mm2 := _laid_mm2(metal, rod_mm)) is not None:
        count = passes(metal, rod_mm=rod_mm)
        laid_g = weld_g * laid_mm2 * count / metal.section_mm2
        run_out_mm = one.deposit_g.best / (laid_mm2 * STEEL_G_MM3)
        energy = arc_energy_kj(voltage_v=arc_v, charge_ah=one.charge_ah.best) / run_out_mm
        heat = heat_input_of_rod_kj_per_mm(voltage_v=arc_v, charge_ah=one.charge_ah.best, run_out_mm=run_out_mm)
    elif job.joint is Joint.PLUG:
        count = 1
    rods = rods_needed(laid_g, one, spoiled_ratio=spoiled_ratio)
    return JobNeeds(weld_g, laid_g, count, one, rods, arc_v, run_out_mm, energy, heat)


def _laid_mm2(metal: WeldMetal, rod_mm: float) -> float | None:
    """The section of one pass as the rod lays it; None where its single-pass leg is not known."""
    try:
        least_mm, _ = single_pass_leg_mm(rod_mm)
    except OutOfRange:
        return None
    share_mm2 = metal.section_mm2 / passes(metal, rod_mm=rod_mm)
    if metal.joint in (Joint.FILLET, Joint.LAP):
        return max(share_mm2, least_mm**2 / 2)
    return share_mm2
