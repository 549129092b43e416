"""joint-drop-too-high: a lead whose measured resistance is more than its conductor and two good joints."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.physics.leads import cable
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each lead measured end to end whose joints take more than the limit, and one for a practice weld's."""
    yield from _welded(case)
    limit_mohm = case.limits.joint_limit_mohm
    for lead in case.kit.leads:
        if lead.measured_mohm is None or lead.area_mm2 is None or lead.length_m is None or lead.count == 0:
            continue
        conductor_mohm = 1000 * lead.length_m * cable.ohm_per_m(area_mm2=lead.area_mm2, conductor=lead.conductor)
        joint_mohm = (lead.measured_mohm - conductor_mohm) / 2
        if joint_mohm > limit_mohm:
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: {joint_mohm:.1f} mΩ a joint ({joint_mohm / 10:.2f} V at 100 A), "
                f"{limit_mohm:g} mΩ at the most",
                remedy="Brush and tighten both ends, crimp or solder the poor one anew, and measure again.",
                command=f"kitlist lead edit {quoted(lead.name)} measured-mohm=MILLIOHM",
                measured=round(joint_mohm, 2),
                required=limit_mohm,
                unit="mΩ",
            )


def _welded(case: Case) -> Iterator[Gap]:
    """Where a practice weld found more between bank and arc than leads with poor joints have."""
    bank = case.outlook.bank
    if bank is None or bank.bead is None or bank.external_ohm is None:
        return
    found_mohm, most_mohm = (1000 * ohm for ohm in bank.external_ohm)
    if found_mohm > most_mohm:
        lost_w = bank.bead.current_a**2 * (found_mohm - most_mohm) / 1000
        yield Gap(
            subject=bank.bead.name,
            what=f"Practice weld {bank.bead.name}: {found_mohm:.0f} mΩ between bank and arc, {most_mohm:.0f} mΩ at the "
            f"most with leads like these; {lost_w:.0f} W more than those heat a joint",
            remedy="Run one more bead, open the circuit, feel every joint: brush, tighten or crimp the hot one anew. "
            "A hot joint at a post lights battery gas.",
            command="kitlist bead add NAME",
            measured=round(found_mohm, 1),
            required=round(most_mohm, 1),
            unit="mΩ",
        )


RULE = Rule(
    name="joint-drop-too-high",
    title="A poor joint in a lead",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="A loose or dirty joint takes volts that the arc needs, gets hot, and is worst where nobody looks.",
    remedy="No joint over 0.1 V at 100 A.",
    sources=(
        Source(Tag.READ, "TM 10-3930-671-24: post to clamp about 0 V; any reading means clean it"),
        PRACTICE,
    ),
    check=check,
    mark="poor joint",
    good=lambda: example.with_lead("link", measured_mohm=3.6),
    bad=lambda: example.with_lead("link", measured_mohm=3.8),
    numbers=("joint_limit_mohm",),
)
