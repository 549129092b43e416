"""behind-the-weld-not-read: words for what lies behind a weld that nobody can read as a danger or as nothing."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.behind import what_lies_behind
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair with a word that is not known, or that only says what does not lie there."""
    for outlook in case.outlook.repairs:
        repair, read = outlook.repair, what_lies_behind(outlook.repair.behind)
        if outlook.repair_class is RepairClass.NEVER or not read.asked:
            continue
        if read.unread:
            yield Gap(
                subject=repair.name,
                what=f"Behind {repair.name}: {_listed(read.unread)}: not known whether it burns, bursts or is live",
                remedy="Say it in words of the trade, what it is and what it holds; where there is nothing, 'nothing'.",
                command=f"kitlist repair edit {quoted(repair.name)} behind=WORDS",
                known=False,
            )
        elif read.denied and not read.nothing and not read.hazards:
            yield Gap(
                subject=repair.name,
                what=f"Behind {repair.name}: {_listed(read.denied)}: it says what is not there, and not what is",
                remedy="Look and feel behind it, both sides and 300 mm round; then write it down, or 'nothing'.",
                command=f"kitlist repair edit {quoted(repair.name)} behind=WORDS",
                known=False,
            )


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(f"'{word}'" for word in words)


RULE = Rule(
    name="behind-the-weld-not-read",
    title="What lies behind the weld not understood",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="A word that is passed over is a danger that is passed over.",
    remedy="Only an explicit 'nothing' passes; everything else is named as the trade names it.",
    sources=(PRACTICE,),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(behind="a gizmo"),
)
