"""behind-the-weld-not-asked: a repair of which nobody has said what lies behind it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed
from kitlist.welding.repairs.behind import what_lies_behind
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """One gap that names every repair without an answer."""
    unasked = [
        o.repair.name
        for o in case.outlook.repairs
        if not what_lies_behind(o.repair.behind).asked and o.repair_class is not RepairClass.NEVER
    ]
    if unasked:
        yield Gap(
            subject=unasked[0],
            what=f"Nobody has looked what lies behind the weld: {listed(unasked)}",
            remedy="Look and feel behind each, both sides and 300 mm round: fuel, brake line, wiring, airbag, battery, "
            "a closed tube. Write it down, or 'nothing'.",
            command=f"kitlist repair edit {quoted(unasked[0])} behind=WORDS",
            also=tuple(unasked[1:]),
            measured=len(unasked),
            required=0,
            unit="repairs not looked at",
            known=False,
        )


RULE = Rule(
    name="behind-the-weld-not-asked",
    title="What lies behind the weld not asked",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="Heat goes through the plate: a fuel line boils, a brake line bursts, a loom burns, an airbag fires.",
    remedy="Ask it of each repair at home, on a dry ramp with a lamp.",
    sources=(PRACTICE,),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(behind=""),
)
