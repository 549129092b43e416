"""extinguisher-wrong-kind: no packed extinguisher that is right and large enough for a vehicle and its batteries."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Extinguishant, ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools

RIGHT_AGENTS = (Extinguishant.POWDER,)  # CO2 alone does not hold outdoors: the wind takes it off the flame


def check(case: Case) -> Iterator[Gap]:
    """A gap where no extinguisher is powder of known and sufficient size."""
    packed = tools(case.kit, ToolKind.EXTINGUISHER)
    least_kg = case.limits.extinguisher_least_kg
    right = [t for t in packed if t.agent in RIGHT_AGENTS]
    if not packed or any(t.amount_kg is not None and t.amount_kg >= least_kg for t in right):
        return
    first = right[0] if right else packed[0]
    if first.agent is None or (right and first.amount_kg is None):
        lacks = "what it throws" if first.agent is None else "how much it holds"
        yield Gap(
            subject=first.name,
            what=f"{first.name}: {lacks} is not known; {least_kg:g} kg of powder at the least",
            remedy="Read it off its body, and write it down.",
            command=f"kitlist tool edit {quoted(first.name)} agent=WORD amount=KG",
            known=False,
        )
    else:
        said = f"{first.amount_kg:g} kg" if right else f"{first.agent} alone"
        yield Gap(
            subject=first.name,
            what=f"{first.name}: {said}; {least_kg:g} kg of powder at the least for vehicle and wiring",
            remedy="Pack ABE powder of 1 to 2.3 kg; water is for grass, never alone on a battery or on wiring; "
            "CO2 alone does not hold outdoors.",
            measured=first.amount_kg if right else None,
            required=least_kg,
            unit="kg",
        )


RULE = Rule(
    name="extinguisher-wrong-kind",
    title="Extinguisher of the wrong kind",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("Water on burning wiring or a battery conducts and spatters acid; half a kilo is gone in three seconds."),
    remedy="Powder for the vehicle, water for the grass.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: example.with_tool(ToolKind.EXTINGUISHER, amount_kg=1),
    bad=lambda: example.with_tool(ToolKind.EXTINGUISHER, amount_kg=0.9),
    numbers=("extinguisher_least_kg",),
)
