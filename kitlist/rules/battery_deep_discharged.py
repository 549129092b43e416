"""battery-deep-discharged: a travelling battery that was found flat, and has not been tested under load since."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from kitlist.base.days import said
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import Chemistry
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each battery with a rested reading under the limit and no reading under load after it."""
    limit_v = case.limits.deep_discharged_v
    for name, outlook in case.outlook.batteries.items():
        found = outlook.flat
        if found is None or outlook.battery.chemistry is Chemistry.LITHIUM or outlook.refusal:
            continue
        most_a = "" if outlook.battery.c20_ah is None else f" {outlook.battery.c20_ah / 10:.0f} A at the most"
        yield Gap(
            subject=name,
            what=f"{name} read {found.volts_v:.2f} V at rest on {said(found.taken_at)}: deep-discharged, and not "
            "tested under load since",
            remedy=f"Slow charge only,{most_a or ' a tenth of its size in A'}, 24 h or more, no quick charge; rest it, "
            "then load-test it: half its cold-cranking amps for 15 s. Till then it stays out of the bank.",
            command=f"kitlist volts {quoted(name)} VOLTS --load AMPS",
            measured=found.volts_v,
            required=limit_v,
            unit="V",
        )


def _once(volts_v: float) -> Example:
    kit = example.whole().kit
    low = example.reading("north-main", volts_v=volts_v, taken_at=datetime(2027, 2, 20, 8, 0))  # noqa: DTZ001
    return example.with_kit(readings=(*kit.readings, low))


RULE = Rule(
    name="battery-deep-discharged",
    title="A battery that was flat",
    severity=Severity.FIX,
    doing=Doing.CHARGE,
    why="A flat battery takes a surface charge, shows full volts, and gives out under the first rod.",
    remedy="Slow charge, rest, load test; a good reading alone proves nothing.",
    sources=(Source(Tag.SECOND_HAND, "three vehicle makers' manuals: under 11.6 V slow charge only"), PRACTICE),
    check=check,
    numbers=("deep_discharged_v",),
    good=lambda: _once(11.6),
    bad=lambda: _once(11.59),
)
