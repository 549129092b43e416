"""stands-missing: no stands or chocks: a jack alone lets go."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where stands or chocks are not packed."""
    lacking = [
        words for kind, words in ((ToolKind.STANDS, "stands"), (ToolKind.CHOCKS, "chocks")) if not tools(case.kit, kind)
    ]
    if lacking:
        yield Gap(
            subject=lacking[0],
            what=f"No {' and no '.join(lacking)} packed",
            remedy="Pack two stands with a base board each and two pairs of chocks; nobody goes under a jack.",
            measured=2 - len(lacking),
            required=2,
            unit="kinds",
            severity=None if "stands" in lacking else Severity.FIX,
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
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.STANDS),
)
