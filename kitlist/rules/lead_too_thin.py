"""lead-too-thin: a lead that the arc takes over its rating or its insulation's limit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kitlist.base.errors import KitlistError
from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import Conductor
from kitlist.kit import Lead
from kitlist.outlook.leads import INSULATION_C
from kitlist.physics.leads.warming import duty_rating, rise_per_rod
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each lead of the circuit that the current overloads: by duty, or in one rod."""
    current_a = case.outlook.likely_a
    bank = case.outlook.bank
    if not current_a or bank is None:
        return
    burn_s = max((rod.burn.burn_s.best for rod in case.outlook.rods if rod.burn is not None), default=60.0)
    for lead in dict.fromkeys(bank.leads_used):
        if lead.conductor is Conductor.UNKNOWN and lead.measured_mohm is None:
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: copper or aluminium is not known; it may get too hot at {current_a:.0f} A",
                remedy="Scrape a strand: copper is red right through. Write down what it is.",
                command=f"kitlist lead edit {quoted(lead.name)} conductor=METAL",
                known=False,
            )
        elif lead.area_mm2 is None:
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}: its area is not known; it may get too hot at {current_a:.0f} A",
                remedy="Read the size off its sheath, or measure the bare copper; write it down.",
                command=f"kitlist lead edit {quoted(lead.name)} area=AREA",
                known=False,
            )
        elif why := _too_hot(case, lead, lead.area_mm2, current_a, burn_s):
            yield Gap(
                subject=lead.name,
                what=f"{lead.name}, {with_unit(lead.area_mm2, 'mm²')} {lead.conductor}: {why.words}",
                remedy=f"Take a thicker copper lead in its place; {why.until_then}.",
                measured=why.measured,
                required=why.required,
                unit=why.unit,
            )


@dataclass(frozen=True, slots=True)
class _TooHot:
    """What overloads a lead, and what holds until a thicker one is there."""

    words: str
    measured: float
    required: float
    unit: str
    until_then: str


_NO_ROD = "not one rod on this one"
_REST = "until then rest longer between rods, feel it often"


def _too_hot(case: Case, lead: Lead, area_mm2: float, current_a: float, burn_s: float) -> _TooHot | None:
    """The first that overloads a lead: its insulation within one rod, else its duty."""
    ambient_c = min(60.0, max(-20.0, 30.0 if case.trip.hottest_c is None else case.trip.hottest_c))
    limit_c = lead.insulation_limit_c or INSULATION_C
    duty = case.limits.duty_ratio
    try:
        rise_k = rise_per_rod(
            current_a=current_a, burn_s=burn_s, area_mm2=area_mm2, start_c=ambient_c, conductor=lead.conductor
        )
    except KitlistError:  # past the model: no formula holds for a lead that is so much too thin
        melts = f"its insulation melts within one rod at {current_a:.0f} A"
        return _TooHot(melts, round(current_a), 0.0, "A", _NO_ROD)
    if ambient_c + rise_k > limit_c:
        reached = f"{ambient_c + rise_k:.0f} °C after one rod at {current_a:.0f} A, its insulation bears {limit_c:g} °C"
        return _TooHot(reached, round(ambient_c + rise_k), limit_c, "°C", _NO_ROD)
    try:
        rated_a = duty_rating(
            area_mm2=area_mm2, duty_ratio=duty, ambient_c=ambient_c, insulation_c=limit_c, conductor=lead.conductor
        ).current_a
    except KitlistError as error:  # thinner than any welding cable, or in more heat than its insulation bears
        return _TooHot(error.message, round(current_a), 0.0, "A", _NO_ROD)
    if round(rated_a) < round(current_a):  # as it is shown: "good for 202 A, 202 A is likely" is no gap
        words = f"good for {rated_a:.0f} A at {duty * 100:.0f} % duty, {current_a:.0f} A is likely"
        return _TooHot(words, round(current_a), round(rated_a), "A", _REST)
    return None


RULE = Rule(
    name="lead-too-thin",
    title="A lead that gets too hot",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("A thin lead is no ballast: it passes its insulation's limit within a rod, melts on the grass, and shorts."),
    remedy="Copper of 25 mm² or more for two or three batteries, 35 mm² for links of the hottest banks.",
    sources=(
        Source(Tag.MEMORY, "BS 638-4; EN 50525-2-81 with HD 516 (H01N2-D)"),
        Source(Tag.MEMORY, "IEC 60949, adiabatic"),
        PRACTICE,
    ),
    check=check,
    mark="too thin",
    good=lambda: example.with_lead("work lead", area_mm2=25),
    bad=lambda: example.with_lead("work lead", area_mm2=20),
    numbers=("duty_ratio",),
)
