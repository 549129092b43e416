"""Auto-darkening filters, gloves, clothing, masks, bystanders: what is asked, and what an owner falls short of."""

from __future__ import annotations

import re
from dataclasses import dataclass

from kitlist.base.measures import with_unit
from kitlist.base.sources import PRACTICE, Source, Tag, sourced
from kitlist.base.terms import Covering, Position

EN_12477 = Source(Tag.SECOND_HAND, "EN 12477")
ISO_11611 = Source(Tag.SECOND_HAND, "ISO 11611")
GLOVES = "EN 12477 type A, 340 mm or longer, dry; type B is for TIG"
GOGGLES = "Goggles leave face, neck and ears to burn and stop no spatter: a helmet or a hand shield"
COLDEST_AUTO_C = -5.0
"""Where the helmet's own lowest temperature is not recorded, colder than this is doubted. Common practice."""


MASK_CLASS_LEAST = 2
"""Against welding fume and zinc: P2 or FFP2 at the least. Common practice."""
_MASK_CLASSES = (
    (re.compile(r"(?:(?<![a-z])|(?<=ff))p\s?([123])(?!\d)"), {"1": 1, "2": 2, "3": 3}),  # EN 149, EN 143, AS/NZS 1716
    (re.compile(r"(?<![a-z])k?[nrp]\s?(95|99|100)(?!\d)"), {"95": 2, "99": 3, "100": 3}),  # nearest, common practice
    (re.compile(r"(?<![a-z])t[hm]([123])(?!\d)"), {"1": 1, "2": 2, "3": 3}),  # powered: EN 12941, EN 12942
)


@dataclass(frozen=True, slots=True)
class Clothing:
    """The ISO 11611 class that a job asks for, and why."""

    class_number: int
    why: str
    source: Source


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing wrong, or not known, about an auto-darkening filter."""

    about: str
    why: str
    remedy: str


@sourced(ISO_11611)
def clothing_class(covering: Covering, *, position: Position = Position.FLAT, confined: bool = False) -> Clothing:
    """Class 1 for rutile with light spatter; class 2 for basic, cellulosic, overhead and cramped work.

    >>> clothing_class(Covering.RUTILE).class_number, clothing_class(Covering.BASIC).class_number
    (1, 2)
    """
    reasons = []
    if covering in (Covering.BASIC, Covering.CELLULOSIC):
        reasons.append(f"{covering} rods spit")
    if position is Position.OVERHEAD:
        reasons.append("overhead, it falls on you")
    if confined:
        reasons.append("cramped, you cannot step back")
    if reasons:
        return Clothing(2, "; ".join(reasons), ISO_11611)
    return Clothing(1, "light spatter", ISO_11611)


@sourced(PRACTICE)
def mask_class(label: str) -> int | None:
    """The class of particle filter, 1 to 3, that a mask's label says; the lowest of several, None where it says none.

    >>> mask_class("FFP2 NR D"), mask_class("A2P3"), mask_class("P1"), mask_class("N95"), mask_class("dust mask")
    (2, 3, 1, 2, None)
    """
    text = label.casefold()
    return min((number[hit] for pattern, number in _MASK_CLASSES for hit in pattern.findall(text)), default=None)


@sourced(PRACTICE)
def doubts_of_auto_darkening(
    *,
    darkest_shade: float | None,
    needed_shade: float,
    tested_days_ago: float | None,
    cell_changed_days_ago: float | None,
    lowest_c: float | None,
    coldest_c: float | None,
    days_per_test: float = 90.0,
    days_per_cell: float = 730.0,
) -> tuple[Doubt, ...]:
    """What stands against trusting an auto-darkening filter on a trip: shade, test, cell, cold. Empty: nothing.

    Days are counted to the departure. Not known counts as a doubt. It slows and may fail in the cold; a passive filter
    as a spare has no cell to fail.

    >>> [d.about for d in doubts_of_auto_darkening(darkest_shade=11, needed_shade=10, tested_days_ago=3,
    ...     cell_changed_days_ago=100, lowest_c=-10, coldest_c=-15)]
    ['cold']
    """
    found = []
    if darkest_shade is None:
        found.append(Doubt("shade", "its darkest shade is not recorded", "Read it on the filter and record it."))
    elif darkest_shade < needed_shade:
        why = f"its darkest is {darkest_shade:g}; {needed_shade:g} is needed"
        found.append(Doubt("shade", why, "Fit or pack a darker filter."))
    if tested_days_ago is None or tested_days_ago > days_per_test:
        last = "no test is recorded"
        when = last if tested_days_ago is None else f"last tested {tested_days_ago:.0f} days before departure"
        found.append(Doubt("test", when, "Try it against a spark of a grinder or a bright lamp, and record the day."))
    if cell_changed_days_ago is None or cell_changed_days_ago > days_per_cell:
        age = "the cell's age is not known" if cell_changed_days_ago is None else "the cell is over two years old"
        found.append(Doubt("cell", age, "Change the cell, or pack a spare cell and a passive filter."))
    if coldest_c is not None:
        limit_c = COLDEST_AUTO_C if lowest_c is None else lowest_c
        if coldest_c < limit_c:
            known = (
                "its lowest temperature is not recorded"
                if lowest_c is None
                else f"rated to {with_unit(lowest_c, '°C')}"
            )
            why = f"{known}, and {with_unit(coldest_c, '°C')} is expected"
            found.append(Doubt("cold", why, "Carry it inside your jacket; pack a passive filter as a spare."))
    return tuple(found)
