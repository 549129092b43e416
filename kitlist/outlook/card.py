"""All that a glovebox card is made from. It holds no reading, so that a lamination stays true."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.errors import PrintError
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.hardware import HardwareOutlook, hardware_outlook, polarity_not_said
from kitlist.outlook.lasting import Lasting, table
from kitlist.outlook.procedure import Procedure
from kitlist.outlook.procedure_steps import procedure
from kitlist.outlook.procedure_words import Worded, WordedBehind, WordedStep, WordedTrouble, why_barred, worded
from kitlist.outlook.repairs import RepairOutlook, repair_outlooks
from kitlist.outlook.rods import RodOutlook
from kitlist.physics.bank.verdict import Fit
from kitlist.welding.repairs.parts import RepairClass

FORMAT = 2
"""The layout that cards are printed in. It goes up when a card that still says the same would be read otherwise.

1 were four faces, whose digest hung on a file's bytes; no card of it can be told from its facts any more.
"""
BASIS_LONG = 16  # characters of a basis, as the store keeps it


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRod:
    """One kind of rod against the bank: the steel it is for, its range, the bank's current, how that fits."""

    words: str
    steel_mm: tuple[float, float] | None
    range_a: tuple[float, float] | None
    band_a: tuple[float, float, float] | None  # 10, 50 and 90 % value
    fit: Fit | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRepair:
    """One of the trip's repairs: its class, its rule, and with which rod, in how many runs, of how many rods.

    `prepare` and `stock` are those of a like repair, common practice; `behind` is what was recorded behind the weld.
    """

    name: str
    repair_class: RepairClass | None  # None where the part is in no table
    rule: str
    rod: str  # "" where no packed rod may be used
    runs: int | None
    rods: int | None
    prepare: str = ""
    stock: tuple[str, ...] = ()
    behind: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardVolts:
    """What each battery's volts show, of rods that show the same: a row each 0.05 V, a column each battery."""

    rods: tuple[str, ...]
    rows: tuple[tuple[float, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFacts:
    """The facts."""

    crew: str
    strings: tuple[tuple[str, ...], ...]
    details: tuple[str, ...]  # chemistry and size of each battery, in linking order
    procedure: Procedure
    rods: tuple[CardRod, ...]
    repairs: tuple[CardRepair, ...]
    volts: tuple[CardVolts, ...] = ()

    @property
    def basis(self) -> str:
        """A digest of what is printed: the format and every text. While it stays, a printed card holds.

        A comment in a wording file or a field that nothing prints changes nothing.
        """
        import hashlib  # what loads the cryptography of this machine, for a card alone
        import json

        said = [
            FORMAT,
            self.crew,
            self.strings,
            self.details,
            str(self.procedure.polarity),
            self.procedure.opening,
            self.procedure.opens_in_work,
            [[stage.title, stage.when, [_said(entry) for entry in stage.entries]] for stage in worded(self.procedure)],
            [[rod.words, rod.steel_mm, rod.range_a, _whole(rod.band_a), str(rod.fit)] for rod in self.rods],
            [[table.rods, table.rows] for table in self.volts],
            [
                [r.name, str(r.repair_class), r.rule, r.rod, r.runs, r.rods, r.prepare, r.stock, r.behind]
                for r in self.repairs
            ],
        ]
        text = json.dumps(said, ensure_ascii=False, separators=(",", ":"))
        return f"{FORMAT}:{hashlib.sha256(text.encode('utf-8', 'surrogatepass')).hexdigest()}"[:BASIS_LONG]


def card_facts(kit: Kit, trip: Trip, *, on: date) -> CardFacts:
    """The facts for the trip's bank; `on` decides nothing of them. Raises PrintError where there is no card to make."""
    if not trip.bank:
        raise PrintError(
            f"no bank is chosen for {trip.name}, and a card is made for a bank",
            hint="kitlist trip edit TRIP bank=FIRST,SECOND,THIRD",
        )
    hardware = hardware_outlook(kit, trip, on=on)
    steps = procedure(kit, trip, hardware)
    _refuse(hardware, steps)
    outlook = Outlook(batteries={}, bank=hardware.bank, rods=hardware.rods, hot_limit_ratio=kit.limits.hot_limit_ratio)
    return CardFacts(
        crew=trip.crew or trip.name,
        strings=trip.strings,
        details=tuple(detail_of(kit, name) for name in trip.bank),
        procedure=steps,
        rods=tuple(_rods(hardware)),
        volts=tuple(_volts(trip, hardware)),
        repairs=tuple(_repair(repair) for repair in repair_outlooks(kit, trip, outlook)),
    )


def _refuse(hardware: HardwareOutlook, steps: Procedure) -> None:
    """A lamination is a promise: there is none for a bank that may not be linked, or whose current is not known."""
    for why, cure in why_barred(steps):
        raise PrintError(f"no card is printed for this bank: {why}", hint=cure)
    if hardware.bank.rig is None:
        raise PrintError(
            f"the bank's current cannot be predicted; not known: {', '.join(map(str, hardware.bank.not_known))}",
            hint="kitlist ready says what to write down.",
        )
    if unsaid := polarity_not_said(hardware.rods):
        raise PrintError(
            f"the card shows one polarity, and {unsaid}",
            hint="Read the packet and write a designation that states it, kitlist rod edit; or leave the rods at home.",
        )


def for_bank(trip: Trip, strings: tuple[tuple[str, ...], ...]) -> Trip:
    """The same trip with another bank."""
    return replace(trip, bank=tuple(name for string in strings for name in string), bank_strings=max(1, len(strings)))


def detail_of(kit: Kit, name: str) -> str:
    """A battery's size and kind: 75 Ah calcium."""
    battery = kit.battery[name]
    size = f"{battery.c20_ah:g} Ah " if battery.c20_ah else ""
    return f"{size}{battery.chemistry.words}"


def _said(entry: Worded) -> list[str]:
    """What a card prints of an entry: all but the sentence that only screens have room for."""
    match entry:
        case WordedStep():
            return [entry.text, entry.see, entry.note]
        case WordedTrouble():
            return [entry.trigger, entry.then]
        case WordedBehind():
            return [entry.repair, entry.behind]
    return [entry.signal, entry.hazard, entry.result, entry.avoid]


def _whole(band_a: tuple[float, float, float] | None) -> list[int] | None:
    """The band in whole amperes, as it is printed."""
    return None if band_a is None else [round(value) for value in band_a]


def _volts(trip: Trip, outlook: HardwareOutlook) -> Iterator[CardVolts]:
    """The tables of the rods that this bank welds with; kinds whose rows are the same share one."""
    found: dict[tuple[tuple[float, tuple[int, ...]], ...], list[str]] = {}
    for rod in outlook.rods:
        if rod.lasting is None or not rod.lasting.shows_a_rod():
            continue  # a table of zeros would read as "none", where it means "not for sure"
        if rod.fit is not None and rod.fit.welds:
            found.setdefault(_rows(trip, rod.lasting), []).append(rod.words)
    for rows, words in found.items():
        yield CardVolts(rods=tuple(dict.fromkeys(words)), rows=rows)


def _rows(trip: Trip, lasting: Lasting) -> tuple[tuple[float, tuple[int, ...]], ...]:
    """From the highest volts at which any battery of the bank shows a rod down to where none shows any."""
    shown = {name: {row.volts_v: row.rods[0] for row in table([lasting], name)} for name in trip.bank}
    rows = []
    for volts_v in sorted({volts for own in shown.values() for volts in own}, reverse=True):
        counts = tuple(_at(own, volts_v) for own in shown.values())
        rows.append((volts_v, counts))
        if not any(counts):
            break
    return tuple(rows)


def _at(rows: Mapping[float, int], volts_v: float) -> int:
    """What a battery shows at the row at or under some volts; nothing under its lowest row."""
    under = [volts for volts in rows if volts <= volts_v]
    return rows[max(under)] if under else 0


def _rods(outlook: HardwareOutlook) -> tuple[CardRod, ...]:
    """Every packed kind of rod once, thin steel first."""
    kinds = {_rod(rod): None for rod in outlook.rods}
    return tuple(sorted(kinds, key=lambda rod: (rod.steel_mm or (99.0, 99.0), rod.words)))


def _rod(rod: RodOutlook) -> CardRod:
    return CardRod(
        words=rod.words,
        steel_mm=rod.steel_mm,
        range_a=(rod.range.low_a, rod.range.high_a) if rod.range else None,
        band_a=(rod.band.low_a, rod.band.middle_a, rod.band.high_a) if rod.band else None,
        fit=rod.fit,
    )


def _repair(outlook: RepairOutlook) -> CardRepair:
    best = outlook.best
    needs = best.needs if best else None
    typical = None if outlook.repair_class is RepairClass.NEVER else outlook.typical
    return CardRepair(
        name=outlook.repair.name,
        repair_class=outlook.repair_class,
        rule=outlook.part.rule if outlook.part else outlook.not_known,
        rod=best.rod.words if best else "",
        runs=needs.passes if needs else None,
        rods=needs.rods.to_pack if needs else None,
        prepare=typical.preparation if typical else "",
        stock=typical.stock if typical else (),
        behind=outlook.repair.behind,
    )
