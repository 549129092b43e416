"""fuse-missing: no fuse near a post, or one that is not rated for direct current."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.packing import missing, tools
from kitlist.sources import PRACTICE
from kitlist.terms import (
    ToolKind,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap where no fuse, or none of known and sufficient DC rating, is packed."""
    packed = tools(case.kit, ToolKind.FUSE)
    least_v = case.book["fuse_least_v"]
    if not packed:
        yield missing("fuse", "Pack one of 250 to 300 A, 58 V DC or more, breaking 2 kA or more, with spares.")
    elif not any(fuse.rating_v is not None and fuse.rating_v >= least_v for fuse in packed):
        known = [fuse.rating_v for fuse in packed if fuse.rating_v is not None]
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: {f'{max(known):g} V' if known else 'its DC volts are not known'}; "
            f"{least_v:g} V DC at the least",
            remedy="Read its DC rating; one for 12 V or for AC only goes on arcing inside.",
            command=f"kitlist tool edit {quoted(packed[0].name)} rating-v=58",
            measured=max(known, default=None),
            required=least_v,
            unit="V DC",
            known=bool(known),
        )
    elif (likely_a := case.outlook.likely_a) and all((fuse.rating_a or 0) < likely_a for fuse in packed):
        amps = [fuse.rating_a for fuse in packed if fuse.rating_a is not None]
        yield Gap(
            subject=packed[0].name,
            what=f"{packed[0].name}: {f'{max(amps):g} A' if amps else 'its amperes are not known'}; "
            f"{likely_a:.0f} A is likely at the arc",
            remedy="Pack one of 250 to 300 A: a lighter one blows at the first bead.",
            command=f"kitlist tool edit {quoted(packed[0].name)} rating-a=300",
            measured=max(amps, default=None),
            required=round(likely_a),
            unit="A",
            known=bool(amps),
        )


RULE = Rule(
    name="fuse-missing",
    title="No fuse that suits the bank",
    severity=Severity.NOTE,
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
