"""What a trip took: rods and consumables, and the charge of the linked batteries against what was predicted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from itertools import pairwise

from kitlist.base.errors import BadData
from kitlist.base.span import Span
from kitlist.kit import Kit, Reading, Rod, Tool, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.battery import when_read
from kitlist.outlook.rods import rod_outlook


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """So much of one thing was used (`unit` is "" for pieces, "l" for litres); `put_back` is what is missing by it.

    `put_back` is more than was used where the thing was short already. `back_on` is the day it was put back.
    """

    trip: str
    kind: str
    name: str
    used: float
    put_back: float
    unit: str
    used_on: date
    back_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Linked:
    """A battery that was in a bank of `strings` parallel strings on a day."""

    trip: str
    battery: str
    linked_on: date
    strings: int


class Against(StrEnum):
    """The charge taken by the readings, against what was predicted."""

    AS_PREDICTED = "as predicted"
    MORE = "more than predicted: test this battery, or the rods burnt long"
    LESS = "less than predicted: was it charged or driven before it was read?"
    NOT_READ = "no reading since"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryUse:
    """What one linked battery gave, Ah. `predicted_ah` and `taken_ah` are (low, best, high), None where not known.

    `read_since` says whether a rested reading was taken after it had welded.
    """

    name: str
    linked_on: date
    predicted_ah: Span | None
    taken_ah: Span | None
    read_since: bool = True

    @property
    def against(self) -> Against:
        """How the two spans lie: apart, they differ; touching, they agree."""
        if not self.read_since:
            return Against.NOT_READ
        if self.predicted_ah is None or self.taken_ah is None:
            return Against.NOT_KNOWN
        if self.taken_ah.low > self.predicted_ah.high:
            return Against.MORE
        return Against.LESS if self.taken_ah.high < self.predicted_ah.low else Against.AS_PREDICTED


def amount_of(text: str, thing: object) -> tuple[float, str]:
    """So much by what was typed: `2` pieces, `8L` litres. Raises BadData.

    >>> amount_of("2", None)
    (2.0, '')
    """
    from kitlist.base import quantities

    bare = text.strip()
    if bare.isascii() and bare.isdigit() and 1 <= int(bare[:6]) <= 5000:
        return float(bare[:6]), ""
    if not (isinstance(thing, Tool) and thing.volume_l is not None):
        raise BadData(f"{text[:20]!r}: a whole number from 1, or damaged, or missing")
    litres = quantities.parse(bare, "l")
    if not 0 < litres <= 500:
        raise BadData(f"{text[:20]!r}: more than 0 and at most 500 l")
    return litres, "l"


def doubts(trip: Trip, *, on: date) -> tuple[str, ...]:
    """What can be true of a day of use but is more likely a slip, as questions."""
    if on < trip.starts_on:
        return (f"{trip.name} starts on {trip.starts_on}, and this is {on}: is it the right trip and the right day?",)
    return ()


def battery_uses(
    kit: Kit, trip: Trip, outlook: Outlook, *, uses: Iterable[Use], linked: Sequence[Linked]
) -> tuple[BatteryUse, ...]:
    """Every linked battery with what the burnt rods should have taken of it and what the readings say they took.

    The rods are taken to be shared evenly among parallel strings, and to have been burnt on every linking alike.
    Readings: the last from before the day of the first linking, else the first of that day, against the first from
    after the day of the last one, else one of that day whose rest began after the reading before: only then did the
    battery work in between. Charge by rested volts is known to a few points only, so that short work is rarely told
    from none.
    """
    predicted = _rods_ah(kit, trip, outlook, [use for use in uses if use.kind == "rod"])
    found = []
    for name in dict.fromkeys(link.battery for link in linked):
        own = [link for link in linked if link.battery == name]
        share = 1 / max(link.strings for link in own)
        before, after = _around(_rested(kit, name), min(o.linked_on for o in own), max(o.linked_on for o in own))
        found.append(
            BatteryUse(
                name=name,
                linked_on=max(link.linked_on for link in own),
                predicted_ah=None if predicted is None else _times(predicted, share),
                taken_ah=_taken_ah(kit, name, before, after),
                read_since=after is not None,
            )
        )
    return tuple(found)


def _rods_ah(kit: Kit, trip: Trip, outlook: Outlook, uses: Sequence[Use]) -> Span | None:
    """The charge of all burnt rods together; None where one packet's is not known, or none was burnt."""
    packets: dict[str, Rod] = {rod.name: rod for rod in kit.rods}
    total = Span(0.0, 0.0, 0.0)
    for use in uses:
        rod = packets.get(use.name)
        one = None if rod is None else rod_outlook(replace(rod, count=max(1, rod.count)), outlook.bank, trip).burn
        if one is None:
            return None
        charge = one.charge_ah
        more = _times(charge, use.used)
        total = Span(total.low + more.low, total.best + more.best, total.high + more.high)
    return total if uses else None


def _times(span: Span, factor: float) -> Span:
    return Span(span.low * factor, span.best * factor, span.high * factor)


def _rested(kit: Kit, name: str) -> list[Reading]:
    """The readings of a battery that tell its charge, the oldest first."""
    battery = kit.battery.get(name)
    if battery is None:
        return []
    return [r for r in reversed(kit.readings_of.get(name, ())) if when_read(battery, r).soc_ratio is not None]


def _taken_ah(kit: Kit, name: str, before: Reading | None, after: Reading | None) -> Span | None:
    battery = kit.battery.get(name)
    if battery is None or battery.c20_ah is None or before is None or after is None:
        return None
    full, left = when_read(battery, before).soc_ratio, when_read(battery, after).soc_ratio
    if full is None or left is None:
        return None
    return Span(
        max(0.0, full.low - left.high) * battery.c20_ah,
        max(0.0, full.best - left.best) * battery.c20_ah,
        max(0.0, full.high - left.low) * battery.c20_ah,
    )


def _around(oldest_first: Sequence[Reading], first: date, last: date) -> tuple[Reading | None, Reading | None]:
    """The reading before the first linking and the one after the last, None where there is none."""
    earlier = [r for r in oldest_first if r.taken_at.date() < first]
    on_first = [r for r in oldest_first if r.taken_at.date() == first]
    before = earlier[-1] if earlier else on_first[0] if on_first else None
    later = [r for r in oldest_first if r.taken_at.date() > last]
    if later:
        return before, later[0]
    on_last = [r for r in oldest_first if r.taken_at.date() == last]
    worked = [later for earlier, later in pairwise(on_last) if _worked_between(earlier, later)]
    return before, worked[-1] if worked else None


def _worked_between(earlier: Reading, later: Reading) -> bool:
    """Whether the rest of a reading began after the one before it was taken."""
    return later.rested_h is not None and later.taken_at - timedelta(hours=later.rested_h) >= earlier.taken_at
