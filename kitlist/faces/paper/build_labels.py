"""Labels of one kit: a label for each bag, and one for each packet of rods with its polarity and its history."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from kitlist.base.terms import Polarity, RodStorage, Units
from kitlist.faces.paper.build_items import NO_BAG, bags
from kitlist.faces.paper.build_words import capital
from kitlist.faces.paper.called import names_on_labels
from kitlist.faces.paper.document import Fact, Marks, SheetItem
from kitlist.faces.paper.labels import Label, Labels
from kitlist.outlook import RodOutlook
from kitlist.outlook.hardware import one_polarity
from kitlist.readiness import Readiness
from kitlist.welding.rods.storage import Fitness

WHERE_BLANK = ("Where",)
ROD_BLANKS = ("Opened again", "Baked on")
TIMES = {0: "never", 1: "once", 2: "twice"}


def build_labels(
    readiness: Readiness,
    *,
    baked_on: Mapping[str, Sequence[date]] | None = None,
    gaps: bool = False,
    units: Units = Units.METRIC,
) -> Labels:
    """The labels: bags in walking order, then rods. `baked_on` gives the days on which each packet was baked.

    A label lasts: it says what belongs in the bag, by the sheet's numbers, with its need and the state to see; what is
    wrong today stands on it only with `gaps`.
    """
    trip = readiness.trip
    stowed = tuple(
        Label(
            title=bag.title,
            note=bag.note,
            items=bag.items if gaps else tuple(_lasting(item) for item in bag.items),
            blanks=() if bag.note else WHERE_BLANK,
        )
        for bag in bags(readiness, called=names_on_labels(readiness.kit), units=units)
        if bag.title != NO_BAG
    )
    polarity = one_polarity(readiness.outlook.rods)
    rods = tuple(
        _rod(rod, polarity, (baked_on or {}).get(rod.rod.name, ()), gaps=gaps) for rod in readiness.outlook.rods
    )
    marks = Marks(printed_on=readiness.on, valid_to=max(readiness.on, trip.ends_on) if gaps else None)
    return Labels(kit=trip.crew or trip.name, labels=(*stowed, *rods), marks=marks)


def _lasting(item: SheetItem) -> SheetItem:
    """A thing as it belongs in its bag, whatever there is of it today."""
    return replace(item, have="", short_by=0, gap_word="", stays=False)


def _rod(outlook: RodOutlook, card: Polarity, baked_on: Sequence[date], *, gaps: bool) -> Label:
    return Label(
        title=outlook.words,
        polarity=_polarity(outlook, card),
        facts=tuple(_facts(outlook, baked_on, gaps=gaps)),
        blanks=ROD_BLANKS,
    )


def _polarity(outlook: RodOutlook, card: Polarity) -> Polarity | None:
    """The card's one polarity where this rod bears it, else the rod's own; None where the packet must be read."""
    allowed = outlook.designation.polarities if outlook.designation else ()
    if card in allowed:
        return card
    return next((polarity for polarity in Polarity if polarity in allowed), None)


def _facts(outlook: RodOutlook, baked_on: Sequence[date], *, gaps: bool) -> Iterator[Fact]:
    rod, packet = outlook.rod, outlook.packet
    yield Fact("Packet", capital(rod.name))
    if outlook.designation is None or not outlook.designation.polarities:
        yield Fact("Polarity", "not known: read the packet")
    sealed = rod.storage is RodStorage.SEALED
    opened = "sealed" if sealed else rod.opened_on.isoformat() if rod.opened_on else "not known"
    yield Fact("Opened on", opened)
    yield Fact("Baked", _baked(rod.bakes, baked_on))
    if packet is not None and not packet.usable and (gaps or packet.fitness is Fitness.SCRAP):
        yield Fact("Now", packet.fitness.value)
    if packet is not None and packet.limit_h is not None:
        yield Fact("In open air", f"{packet.limit_h:g} h at most")


def _baked(bakes: int, baked_on: Sequence[date]) -> str:
    times = TIMES.get(bakes, f"{bakes} times")
    return f"{times}, {max(baked_on).isoformat()}" if bakes and baked_on else times
