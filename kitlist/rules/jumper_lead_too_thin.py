"""jumper-lead-too-thin: a jumper lead that would be tempting in the arc circuit and must not be there."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import Conductor, Fitting, LeadUse
from kitlist.physics.leads.warming import jumper_limit
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_SOLID = (Conductor.COPPER, Conductor.TINNED_COPPER, Conductor.ALUMINIUM)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed jumper lead that may carry no arc at all."""
    for lead in case.kit.leads:
        if lead.use is not LeadUse.JUMPER or lead.count == 0:
            continue
        if lead.area_mm2 is None:
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: its section is not known; 25 mm² of copper at the least",
                remedy="Write it down, or keep it for starting engines alone.",
                command=f"kitlist lead edit {quoted(lead.name)} area=AREA conductor=METAL",
                known=False,
            )
            continue
        limit = jumper_limit(area_mm2=lead.area_mm2, conductor=lead.conductor, marked=lead.conductor in _SOLID)
        if limit.allowed_a == 0:
            yield Gap(
                subject=lead.name,
                what=f"{lead.name} must carry no arc: {limit.reason}",
                remedy="Tie a tag on it: for starting engines only.",
                measured=lead.area_mm2,
                required=25,
                unit="mm²",
            )


def _jumper(area_mm2: float) -> Example:
    jumper = example.lead("jumper lead", LeadUse.JUMPER, Fitting.SPRING_CLAMP, area_mm2=area_mm2)
    return example.with_kit(leads=(*example.whole().kit.leads, jumper))


RULE = Rule(
    name="jumper-lead-too-thin",
    title="Jumper lead too thin",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why="Jumper leads are made for a crank of seconds, not minutes of arc; thin copper-clad ones melt.",
    remedy="25 mm² of copper to 120 A, 35 mm² to 150 A; nothing thinner in the circuit.",
    sources=(
        Source(Tag.SECOND_HAND, "DIN 72553: 25 mm² petrol, 35 mm² diesel"),
        PRACTICE,
    ),
    check=check,
    mark="start only",
    good=lambda: _jumper(25),
    bad=lambda: _jumper(24.9),
)
