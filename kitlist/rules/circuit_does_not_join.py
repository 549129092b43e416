"""circuit-does-not-join: packed leads whose ends, plugs or lengths cannot make the circuit."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ClampKind, Fitting, LeadUse
from kitlist.outlook.joining import Short
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.links_too_few import links_needed, links_packed
from kitlist.rules.packing import listed


def check(case: Case) -> Iterator[Gap]:
    """A gap for each piece of the smallest missing set; one where terminals or distance are not known."""
    joining = case.outlook.joining
    if joining is None:
        return
    too_few = links_packed(case.kit) < links_needed(case.trip)
    for join, connection in zip(joining.joins, joining.asked, strict=True):
        by_count = (
            join.missing
            and not join.leads
            and (too_few if connection.use is LeadUse.LINK else _no_arc_lead(case, connection.use))
        )
        if join.missing and not by_count:
            yield Gap(
                subject=f"{join.start} to {join.end}",
                what=f"The circuit does not join: {join.missing}",
                remedy=_remedy(join.short),
                command=_to_add(join.short) if join.short else "",
                measured=0,
                required=1,
                unit="pieces",
            )
    if joining.unknown:
        yield Gap(
            subject="circuit",
            what=f"Whether the leads join up is not sure; not known: {listed(list(joining.unknown))}",
            remedy="Lay the circuit out once at home, vehicles parked as at the track, and write down what you find.",
            command=_to_type(joining.unknown[0], case.trip.name),
            known=False,
            severity=Severity.FIX,
        )


def _no_arc_lead(case: Case, use: LeadUse) -> bool:
    """Whether arc-lead-missing says it already."""
    return not any(lead.use is use and lead.count > 0 for lead in case.kit.leads)


def _remedy(short: Short | None) -> str:
    if short is None or short.use is None:
        return "Pack it, or change an end of a lead at home, and write it down."
    if short.length_m:
        return "Pack one that reaches, or park nearer, and write it down."
    return "Pack one whose ends fit, and write it down."


def _to_add(short: Short) -> str:
    """What to type when the piece is in the bag: a lead with its length, or a fitting with both its sides."""
    one, other = short.ends
    if short.use is not None:
        length = f"{short.length_m:g}m" if short.length_m else "LENGTH"
        return f"kitlist lead add NAME use={short.use} end-a={one} end-b={other} length={length} area=AREA"
    what = str(other) if str(other) in set(ClampKind) else str(ClampKind.ADAPTOR)
    pattern = " pattern-a=PATTERN" if one is Fitting.PLUG else ""
    return f"kitlist clamp add NAME what={what} joins-a={one} joins-b={other}{pattern}"


def _to_type(unknown: str, trip: str) -> str:
    if unknown.startswith("the terminals of "):
        return f"kitlist battery edit {quoted(unknown.removeprefix('the terminals of '))} terminals=TERMINAL"
    return f"kitlist trip edit {quoted(trip)} parked-apart=METRES"


RULE = Rule(
    name="circuit-does-not-join",
    title="The circuit does not join up",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Clamps, lugs, studs and plugs of another pattern: the leads are all there, and none fits the next.",
    remedy="Lay the whole circuit out at home, pole by pole, with the vehicles parked as they would be.",
    sources=(PRACTICE,),
    check=check,
    mark="does not fit",
    good=lambda: example.with_trip(parked_apart_m=2),
    bad=lambda: example.with_trip(parked_apart_m=2.1),
    numbers=("vehicle_reach_m",),
)
