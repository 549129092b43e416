"""pack-behind-the-weld: a high-voltage or lithium pack behind a repair."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.repair_never import without_command
from kitlist.welding.repairs.behind import Tier, what_lies_behind


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair with a pack behind it; taken away or not, no field kit welds there."""
    for outlook in case.outlook.repairs:
        packs = [hazard for hazard in what_lies_behind(outlook.repair.behind).hazards if hazard.tier is Tier.NEVER]
        if packs:
            yield Gap(
                subject=outlook.repair.name,
                what=f"Behind {outlook.repair.name}: {', '.join(pack.words for pack in packs)}",
                remedy=packs[0].remedy,
                command=without_command(case, outlook.repair.name),
            )


RULE = Rule(
    name="pack-behind-the-weld",
    title="A high-voltage or lithium pack behind the weld",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="A traction pack kills by its volts, a lithium pack burns for hours once heat has set it off.",
    remedy="No weld on that vehicle; be fetched.",
    sources=(PRACTICE,),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(behind="traction pack"),
    acceptable=False,
)
