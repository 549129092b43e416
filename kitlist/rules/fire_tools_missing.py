"""fire-tools-missing: blanket, shovel or stub tin left at home."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools

_TOOLS = (
    (ToolKind.FIRE_BLANKET, "fire blanket"),
    (ToolKind.SHOVEL, "shovel"),
    (ToolKind.STUB_TIN, "tin for hot stubs"),
)


def check(case: Case) -> Iterator[Gap]:
    """One gap that names every fire tool that is not packed."""
    lacking = [words for kind, words in _TOOLS if not tools(case.kit, kind)]
    if lacking:
        yield Gap(
            subject=lacking[0],
            what=f"Not packed: {', '.join(lacking)}",
            remedy="Pack them where they can be reached from the weld.",
            measured=len(_TOOLS) - len(lacking),
            required=len(_TOOLS),
            unit="fire tools",
        )


RULE = Rule(
    name="fire-tools-missing",
    title="Fire tools missing",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=("Hot stubs, slag and grinder sparks start most fires; a shovel and earth end them while they are small."),
    remedy="Blanket over hoses and wiring, shovel in the ground beside you, stubs into a tin.",
    sources=(PRACTICE,),
    check=check,
    asks_for=tuple(kind for kind, _ in _TOOLS),
    good=example.whole,
    bad=lambda: example.without_tool(ToolKind.STUB_TIN),
)
