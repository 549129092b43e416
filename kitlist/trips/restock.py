"""What goes back after a trip: by where to get it, into which bag; which batteries to recharge within the day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from kitlist.base.sources import table
from kitlist.kit import PLURALS, Kit
from kitlist.kit.checked import Answer
from kitlist.outlook.battery import when_read
from kitlist.outlook.charging import TOP_UP_BELOW
from kitlist.trips.check_off import NO_BAG
from kitlist.trips.timeline import RECHARGE_WITHIN_DAYS
from kitlist.trips.used import Linked, Use


@dataclass(frozen=True, slots=True, kw_only=True)
class Restock:
    """One thing to get: how much (`unit` is "" for pieces, "l" for litres), why, and the bag it goes into."""

    where: str
    kind: str
    name: str
    amount: float
    unit: str
    why: str
    bag: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Recharge:
    """A battery that welded and was not read full since: recharge it by a day."""

    battery: str
    by: date
    late: bool


def restock(kit: Kit, uses: Iterable[Use]) -> tuple[Restock, ...]:
    """All that is to be put back, by where to get it: what was used, and what was found damaged or missing.

    `kit` is the kit as the newest check-off found it. Where to get things is common practice.
    """
    things = {(kind, t.name): t for kind, plural in PLURALS.items() if kind in _KINDS for t in getattr(kit, plural)}
    wanted: dict[tuple[str, str, str], tuple[float, str]] = {}
    for use in uses:
        if use.back_on is None:
            amount, _ = wanted.get((use.kind, use.name, use.unit), (0.0, ""))
            wanted[use.kind, use.name, use.unit] = (amount + use.put_back, "used")
    for found in kit.checked:
        if found.short and found.answer is not Answer.HOME:  # what is at home need not be got
            wanted[found.kind, found.name, ""] = (float(found.expected - found.count), found.words)
    lines = [
        Restock(
            where=where_to_get(kind, str(getattr(thing, "what", ""))),
            kind=kind,
            name=name,
            amount=amount,
            unit=unit,
            why=why,
            bag=thing.bag or NO_BAG,
        )
        for (kind, name, unit), (amount, why) in wanted.items()
        if (thing := things.get((kind, name))) is not None
    ]
    return tuple(sorted(lines, key=lambda line: (line.where, line.bag, line.name)))


_KINDS = ("gear", "lead", "ballast", "clamp", "rod", "tool", "item")


def recharge(kit: Kit, linked: Sequence[Linked], *, on: date) -> tuple[Recharge, ...]:
    """The linked batteries that no rested reading since says are full again."""
    found = []
    for name in dict.fromkeys(link.battery for link in linked):
        last = max(link.linked_on for link in linked if link.battery == name)
        if name in kit.battery and not _full_since(kit, name, last):
            by = last + timedelta(days=RECHARGE_WITHIN_DAYS.value)
            found.append(Recharge(battery=name, by=by, late=on > by))
    return tuple(found)


def _full_since(kit: Kit, name: str, day: date) -> bool:
    for reading in kit.readings_of.get(name, ()):
        if reading.taken_at.date() > day:
            soc = when_read(kit.battery[name], reading).soc_ratio
            if soc is not None and soc.best >= TOP_UP_BELOW.value:
                return True
    return False


@cache
def where_to_get(kind: str, what: str = "") -> str:
    """Where a thing is bought, in trade words; common practice.

    >>> where_to_get("tool", "stock-flat"), where_to_get("rod")
    ('steel merchant', 'welding supplier')
    """
    rows = {(row["kind"], row["what"]): row["where"] for row in table("where_to_get")}
    return rows.get((kind, what)) or rows[kind, ""]
