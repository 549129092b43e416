"""A paper that was printed, as the kit remembers it: enough to tell a card in a glovebox that no longer holds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedPaper:
    """The newest print of a trip's sheet, or of its card or pocket page for one bank (`strings`, in linking order).

    `content_hash` stands on the paper. `basis` is a digest of what the card was made from, or of the readings
    on the sheet; "" on papers printed before it was kept.
    """

    paper: str
    trip: str
    content_hash: str
    revision: int
    printed_on: date
    strings: tuple[tuple[str, ...], ...] = ()
    basis: str = ""
