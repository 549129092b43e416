"""Labels of one kit: a label for each bag, and one for each packet of rods with its polarity and its history."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from kitlist.base.terms import Polarity, RodStorage
from kitlist.faces.paper.build_items import NO_BAG, bags
from kitlist.faces.paper.build_words import capital
from kitlist.faces.paper.document import Fact, Marks
from kitlist.faces.paper.labels import Label, Labels
from kitlist.outlook import RodOutlook
from kitlist.outlook.hardware import one_polarity
from kitlist.readiness import Readiness

WHERE_BLANK = ("Where",)
ROD_BLANKS = ("Opened again", "Baked on")
TIMES = {0: "never", 1: "once", 2: "twice"}


def build_labels(readiness: Readiness, *, baked_on: Mapping[str, Sequence[date]] | None = None) -> Labels:
    """The labels: bags in walking order, then rods. `baked_on` gives the days on which each packet was baked."""
    trip = readiness.trip
    stowed = tuple(
        Label(title=bag.title, note=bag.note, items=bag.items, blanks=() if bag.note else WHERE_BLANK)
        for bag in bags(readiness)
        if bag.title != NO_BAG
    )
    polarity = one_polarity(readiness.outlook.rods)
    rods = tuple(_rod(rod, polarity, (baked_on or {}).get(rod.rod.name, ())) for rod in readiness.outlook.rods)
    marks = Marks(printed_on=readiness.on, valid_to=max(readiness.on, trip.ends_on))
    return Labels(kit=trip.crew or trip.name, labels=(*stowed, *rods), marks=marks)


def _rod(outlook: RodOutlook, card: Polarity, baked_on: Sequence[date]) -> Label:
    return Label(
        title=outlook.words,
        polarity=_polarity(outlook, card),
        facts=tuple(_facts(outlook, baked_on)),
        blanks=ROD_BLANKS,
    )


def _polarity(outlook: RodOutlook, card: Polarity) -> Polarity | None:
    """The card's one polarity where this rod bears it, else the rod's own; None where the packet must be read."""
    allowed = outlook.designation.polarities if outlook.designation else ()
    if card in allowed:
        return card
    return next((polarity for polarity in Polarity if polarity in allowed), None)


def _facts(outlook: RodOutlook, baked_on: Sequence[date]) -> Iterator[Fact]:
    rod, packet = outlook.rod, outlook.packet
    yield Fact("Packet", capital(rod.name))
    if outlook.designation is None or not outlook.designation.polarities:
        yield Fact("Polarity", "not known: read the packet")
    sealed = rod.storage is RodStorage.SEALED
    opened = "sealed" if sealed else rod.opened_on.isoformat() if rod.opened_on else "not known"
    yield Fact("Opened on", opened)
    yield Fact("Baked", _baked(rod.bakes, baked_on))
    if packet is not None and not packet.usable:
        yield Fact("Now", packet.fitness.value)
    elif packet is not None and packet.limit_h is not None:
        yield Fact("In open air", f"{packet.limit_h:g} h at most")


def _baked(bakes: int, baked_on: Sequence[date]) -> str:
    times = TIMES.get(bakes, f"{bakes} times")
    return f"{times}, {max(baked_on).isoformat()}" if bakes and baked_on else times
