"""The second way to break a stuck rod's current, for an isolator that may weld shut: one owner for card and rules."""

from __future__ import annotations

from enum import StrEnum
from math import ceil, floor

from kitlist.base.sources import Figure, Source, Tag, sourced
from kitlist.base.terms import LeadUse, ToolKind
from kitlist.kit import Kit, Tool

FUSE_CLEARS = Figure(
    "of its rating, the current from which a bolted strip fuse clears within 5 s",
    3.5,
    "times",
    Source(Tag.MEMORY, "ISO 8820-5: 0.3 to 5 s at 350 %"),
)


_USUAL_A = (250, 300)  # where the bank's currents allow it, or are not known; common practice


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


def fuse_size(*, stuck_a: float, likely_a: float) -> str:
    """The size of fuse to pack, in words: one that bears the arc's current, and that a stuck rod clears.

    >>> fuse_size(stuck_a=1400, likely_a=0), fuse_size(stuck_a=934, likely_a=203)
    ('250 to 300 A', '250 A')
    >>> fuse_size(stuck_a=700, likely_a=70), fuse_size(stuck_a=1100, likely_a=312)
    ('70 to 170 A', '320 A')
    """
    least, usual = _USUAL_A
    most_a = stuck_a / FUSE_CLEARS.value
    if likely_a <= least <= most_a:
        return f"{least} to {usual} A" if usual <= most_a else f"{least} A"
    low = max(ceil(likely_a / 10) * 10, 10)
    high = floor(min(most_a, low + 100) / 10) * 10  # a range that a shop has one of
    return f"{low} to {high} A" if low < high else f"{low} A"


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
