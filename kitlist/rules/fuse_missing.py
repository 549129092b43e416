"""fuse-missing: no fuse near a post, or none that fits the bank: its volts, the arc's current, a short's."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.kit import Tool
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed fuse bears the bank's volts and the arc's current, and blows in a short."""
    packed = tools(case.kit, ToolKind.FUSE)
    least_v, likely_a = case.limits.fuse_least_v, case.outlook.likely_a or 0.0
    stuck_a = (case.outlook.bank.stuck_a if case.outlook.bank else None) or inf
    bears_v = [fuse for fuse in packed if fuse.rating_v is not None and fuse.rating_v >= least_v]
    bears_a = [fuse for fuse in bears_v if fuse.rating_a is not None and fuse.rating_a >= round(likely_a)]
    if not packed:
        yield missing("fuse", "Pack one of 250 to 300 A, 58 V DC or more, breaking 2 kA or more, with spares.")
    elif not bears_v:
        known = [fuse.rating_v for fuse in packed if fuse.rating_v is not None]
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: {f'{max(known):g} V' if known else 'its DC volts are not known'}; "
            f"{least_v:g} V DC at the least",
            remedy="Read its DC rating; one for 12 V or for AC only goes on arcing inside.",
            command=f"kitlist tool edit {quoted(packed[0].name)} rating-v=VOLTS",
            measured=max(known, default=None),
            required=least_v,
            unit="V DC",
            known=bool(known),
        )
    elif not bears_a:
        amps = [fuse.rating_a for fuse in bears_v if fuse.rating_a is not None]
        yield _wrong_amperes(
            bears_v[0],
            f"{f'{max(amps):g} A' if amps else 'its amperes are not known'}; {likely_a:.0f} A is likely at the arc",
            "Pack one of 250 to 300 A: a lighter one blows at the first bead.",
            measured=max(amps, default=None),
            required=round(likely_a),
        )
    elif all((fuse.rating_a or 0.0) >= stuck_a for fuse in bears_a):
        least = min(bears_a, key=lambda fuse: fuse.rating_a or 0.0)
        yield _wrong_amperes(
            least,
            f"{least.rating_a:g} A; a short through the leads, about {round(stuck_a, -2):.0f} A, does not blow it",
            "Pack one of 250 to 300 A: over the arc's current, well under a short's.",
            measured=least.rating_a,
            required=round(stuck_a),
        )


def _wrong_amperes(fuse: Tool, what: str, remedy: str, *, measured: float | None, required: float) -> Gap:
    return Gap(
        subject=fuse.name,
        what=f"{fuse.name}: {what}",
        remedy=remedy,
        command=f"kitlist tool edit {quoted(fuse.name)} rating-a=AMPS",
        measured=measured,
        required=required,
        unit="A",
        known=measured is not None,
    )


RULE = Rule(
    name="fuse-missing",
    title="No fuse that suits the bank",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=(
        "Nothing in the bank protects a short by itself: a dropped spanner draws one to three thousand "
        "amperes until something burns."
    ),
    remedy="A fuse near the post of one battery. A stuck rod may blow it: carry spares.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: example.with_tool(ToolKind.FUSE, rating_v=58),
    bad=lambda: example.with_tool(ToolKind.FUSE, rating_v=57),
    numbers=("fuse_least_v",),
)
