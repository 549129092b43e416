"""stands-missing: no stands or chocks: a jack alone lets go."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import counted, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where stands or chocks are not packed, or too few."""
    stands, chocks = (counted(tools(case.kit, kind)) for kind in (ToolKind.STANDS, ToolKind.CHOCKS))
    least, least_chocks = case.limits.stands_least, case.limits.chocks_least
    lacking = [
        (f"no {words}" if have == 0 else f"{have} of {needed} {words}", words, have, needed)
        for words, have, needed in (("stands", stands, least), ("chocks", chocks, least_chocks))
        if have < needed
    ]
    if lacking:
        _, words, have, needed = lacking[0]
        yield Gap(
            subject=words,
            what=f"{' and '.join(said for said, *_ in lacking)} packed".capitalize(),
            remedy="Pack two stands with a base board each and two pairs of chocks; nobody goes under a jack.",
            measured=have,
            required=needed,
            unit=words,
            severity=None if stands == 0 else Severity.FIX,
        )


RULE = Rule(
    name="stands-missing",
    title="Nothing to hold the vehicle up",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Most breaks are under the vehicle. A jack on sand settles while someone lies beneath it.",
    remedy="Chocked, on stands with boards, shaken before anybody goes under.",
    sources=(PRACTICE,),
    check=check,
    numbers=("stands_least", "chocks_least"),
    mark="missing",
    asks_for=(ToolKind.STANDS, ToolKind.CHOCKS),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.STANDS),
)
