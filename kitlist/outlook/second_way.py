"""The second way to break a stuck rod's current, for an isolator that may weld shut: one owner for card and rules."""

from __future__ import annotations

from enum import StrEnum

from kitlist.base.sources import Figure, Source, Tag, sourced
from kitlist.base.terms import LeadUse, ToolKind
from kitlist.kit import Kit, Tool

FUSE_CLEARS = Figure(
    "of its rating, the current from which a bolted strip fuse clears within 5 s",
    3.5,
    "times",
    Source(Tag.MEMORY, "ISO 8820-5: 0.3 to 5 s at 350 %"),
)


class SecondWay(StrEnum):
    """What breaks the current when the isolator does not; never the jaws, never a post."""

    FUSE = "fuse"
    PLUG = "plug"


@sourced(FUSE_CLEARS.source)
def clearing_fuse(kit: Kit, *, stuck_a: float, likely_a: float) -> Tool | None:
    """The packed fuse that bears the welding current and the bank's volts, and that a stuck rod blows within 5 s."""
    for fuse in kit.tools:
        if fuse.what is not ToolKind.FUSE or fuse.count < 1 or fuse.rating_a is None or fuse.dc_v is None:
            continue
        bears = fuse.dc_v >= kit.limits.fuse_least_v and fuse.rating_a >= round(likely_a)
        if bears and fuse.rating_a <= stuck_a / FUSE_CLEARS.value:
            return fuse
    return None


def second_way(kit: Kit, *, stuck_a: float, likely_a: float) -> SecondWay | None:
    """What is packed that breaks a stuck rod's current; None where nothing is known to.

    A fuse counts that bears the welding current and the bank's volts, and that the stuck rod blows within 5 s by its
    curve; a plug counts whose breaking current is written down.
    """
    if clearing_fuse(kit, stuck_a=stuck_a, likely_a=likely_a) is not None:
        return SecondWay.FUSE
    arc = (lead for lead in kit.leads if lead.count > 0 and lead.use is not LeadUse.JUMPER)
    if any(lead.plug_breaks_a is not None and lead.plug_breaks_a >= stuck_a for lead in arc):
        return SecondWay.PLUG
    return None
