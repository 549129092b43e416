"""The bank on the sheet: its drawing, its batteries, its current, each packed rod on it, a ballast strip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime

from kitlist.base.measures import spelled
from kitlist.base.terms import Units
from kitlist.faces.paper.build_words import asks, bank_words, capital, in_holder, steel_words
from kitlist.faces.paper.charts import Chart, Trend
from kitlist.faces.paper.document import (
    BankPanel,
    BatteryLine,
    Box,
    Fact,
    Hookup,
    LeadLine,
    RodLine,
    RodTable,
    SheetItem,
)
from kitlist.outlook import BatteryOutlook, RodOutlook
from kitlist.outlook.ballasts import ON_EARTH, BallastOutlook
from kitlist.outlook.card import CardFacts
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.history import BatteryHistory, history_of
from kitlist.outlook.leads import opened_by, parts_in_work_lead
from kitlist.outlook.procedure_steps import also_off
from kitlist.outlook.rods import best_of
from kitlist.physics.bank.verdict import Fit
from kitlist.readiness import Readiness
from kitlist.welding.rods.storage import Fitness

COUNTED_AT_DEPARTURE = "Rods: for departure. The card's quick reading is sure of fewer."
MODEL = "Computed from labels and readings, not measured: a band, not a promise. A practice bead narrows it."


def bank_panel(
    readiness: Readiness,
    *,
    card: CardFacts | None = None,
    names: Mapping[str, str] | None = None,
    drawn: bool = True,
    units: Units = Units.METRIC,
) -> BankPanel:
    """The chosen bank: drawing, batteries, current and rods; without its chart where nothing is drawn.

    Go volts and least steel are the card's, which holds for a full bank too: the two papers lie side by side.
    """
    go_v = tuple(b.go_v for b in card.procedure.bank) if card else ()
    steel = {rod.words: rod.steel_mm for rod in card.rods} if card else {}
    trip, bank = readiness.trip, readiness.outlook.bank
    if bank is None:
        return BankPanel(title="The bank", none_because="No bank is chosen for this trip.")
    rows = tuple(
        _battery_row(
            number,
            readiness.outlook.batteries[name],
            history_of(readiness.kit, name),
            go_v[number - 1 : number],
            drawn=drawn,
            called=names or {},
            leaves_on=trip.starts_on,
        )
        for number, name in enumerate(trip.bank, start=1)
        if name in readiness.outlook.batteries
    )
    return BankPanel(
        title=f"The bank: {bank_words(trip.strings)}",
        hookup=_hookup(readiness, card) if len(rows) == len(trip.bank) else None,
        batteries=rows,
        battery_headings=tuple(_headings(carded=bool(go_v))),
        facts=tuple(_bank_facts(readiness)),
        count_note=COUNTED_AT_DEPARTURE if any(rod.rods for rod in readiness.outlook.rods) else "",
        joins=tuple(_joins(readiness)),
        rods=RodTable(
            rows=tuple(_rod_rows(readiness.outlook.rods, steel, units)), note=_hot_note(readiness.outlook.rods)
        ),
        chart=_chart(readiness) if drawn else None,
        remarks=(
            *_not_known(tuple(map(str, bank.not_known))),
            *_losing(readiness),
            *_left_on(readiness),
            *_strip_words(bank.ballast),
            MODEL,
        ),
    )


def _chart(readiness: Readiness) -> Chart | None:
    from kitlist.faces.paper.build_chart import build_chart

    return build_chart(readiness)


def _hookup(readiness: Readiness, card: CardFacts | None) -> Hookup:
    """The drawing of the bank in linking order, each battery by its own name with what it is."""
    kit, trip = readiness.kit, readiness.trip
    numbers = {name: str(number) for number, name in enumerate(trip.bank, start=1)}
    return Hookup(
        strings=tuple(
            tuple(Box(name, numbers[name], _detail(readiness, name)) for name in string) for string in trip.strings
        ),
        polarity=said_polarity(readiness.outlook.rods),
        opening=opened_by(kit),
        opening_in=LeadLine.WORK if parts_in_work_lead(kit) else LeadLine.HOLDER,
        in_holder=in_holder(card.procedure) if card else (("ballast",) if trip.ballast else ()),
    )


def _joins(readiness: Readiness) -> Iterator[SheetItem]:
    """Each connection of the circuit, by which packed leads it is made, and what is missing for it."""
    joining = readiness.outlook.joining
    for join in joining.joins if joining else ():
        by = ", ".join((*join.leads, *join.fittings)) or "nothing"
        yield SheetItem(what=f"{join.start} to {join.end}", see=by, gap_word=join.missing)


def _detail(readiness: Readiness, name: str) -> str:
    battery = readiness.kit.battery[name]
    size = f"{battery.c20_ah:g} Ah " if battery.c20_ah else ""
    return f"{size}{battery.chemistry.words}"


def _left_on(readiness: Readiness) -> Iterator[str]:
    if others := [name for _, names in also_off(readiness.kit, readiness.trip) for name in names]:
        yield f"Off too, both leads, while their vehicle is welded on: {', '.join(others)}."


def _not_known(missing: tuple[str, ...]) -> tuple[str, ...]:
    return (f"The current cannot be predicted; not known: {', '.join(missing)}.",) if missing else ()


def _losing(readiness: Readiness) -> Iterator[str]:
    """What the readings of each travelling battery say over time, where they say something."""
    for name in readiness.outlook.batteries:
        if told := history_of(readiness.kit, name).trend_words:
            yield f"{name}: {' '.join(told)}"


def _trend(name: str, history: BatteryHistory) -> Trend | None:
    from kitlist.faces.paper.build_trend import build_trend

    return build_trend(name, history)


def _battery_row(
    number: int,
    outlook: BatteryOutlook,
    history: BatteryHistory,
    go_v: tuple[float, ...],
    *,
    drawn: bool,
    called: Mapping[str, str],
    leaves_on: date,
) -> BatteryLine:
    battery, reading, soc = outlook.battery, outlook.reading, outlook.charge.soc_ratio
    size = f" {battery.c20_ah:g} Ah" if battery.c20_ah else ""
    where = called.get(battery.vehicle, battery.vehicle) if battery.vehicle else "loose"
    return BatteryLine(
        (
            str(number),
            ", ".join((called.get(battery.name, battery.name), where, f"{battery.chemistry.words}{size}")),
            f"{reading.volts_v:.2f} V" if reading else "no reading",
            f"{soc.low * 100:.0f}–{soc.high * 100:.0f} %" if soc else "not known",
            *(f"≥ {volts:.2f} V" for volts in go_v),
            read_at(reading.taken_at, leaves_on=leaves_on) if reading else "",
        ),
        trend=_trend(battery.name, history) if drawn else None,
    )


def _headings(*, carded: bool) -> Iterator[str]:
    """Over the batteries' rows; without go volts where there is no card, whose they are."""
    yield from ("", "Battery", "Rested volts", "At departure")
    if carded:
        yield "Go at"
    yield "Read on"


def read_at(taken_at: datetime, *, leaves_on: date) -> str:
    """When a battery was read: the day; on the trip itself with the hour, for a day of welding has several readings.

    >>> read_at(datetime(2027, 5, 5, 7), leaves_on=date(2027, 5, 8))
    '2027-05-05'
    >>> read_at(datetime(2027, 5, 9, 7, 10), leaves_on=date(2027, 5, 8))
    '05-09 07:10'
    """
    return f"{taken_at:%m-%d %H:%M}" if taken_at.date() >= leaves_on else taken_at.date().isoformat()


def _bank_facts(readiness: Readiness) -> Iterator[Fact]:
    bank = readiness.outlook.bank
    if bank is None or bank.rested_v is None or bank.stuck_a is None:
        return
    yield Fact("At rest", f"{bank.rested_v:.1f} V")
    best = best_of(readiness.outlook.rods) or next((rod for rod in readiness.outlook.rods if rod.band), None)
    if best is not None and (band := best.band) is not None:
        yield Fact("8 times in 10", f"{band.low_a:.0f}–{band.high_a:.0f} A")
        yield Fact("Most likely", f"{band.middle_a:.0f} A")
        if band.no_arc_ratio >= 0.005:
            yield Fact("No arc in", f"{band.no_arc_ratio * 100:.0f} %")
    if bank.bead:
        yield Fact("Practice weld", bank.bead.name)
    yield Fact("Rod stuck", f"{round(bank.stuck_a, -2):.0f} A")
    if bank.ballast is not None:
        yield from _strip_facts(bank.ballast)
    lasting = [rod for rod in readiness.outlook.rods if rod.rods]
    shown = best_of(lasting) or next(iter(lasting), None)
    if shown is not None and shown.rods:
        # of a rod that melts in badly or not at all the count alone would read as rods to weld with
        unfit = f", but {shown.fit}" if shown.fit and not shown.fit.welds else ""
        yield Fact("Rods, at departure", f"{shown.rods.count.words}, of {shown.words}{unfit}")


def _strip_words(strip: BallastOutlook | None) -> tuple[str, ...]:
    """All that is known of a ballast strip, and how it lies."""
    return () if strip is None else (f"Ballast: {strip.words}. {ON_EARTH}.",)


def _strip_facts(strip: BallastOutlook) -> Iterator[Fact]:
    """A ballast strip in a few words: what it takes, how hot it gets at which duty, and where it lies."""
    name = f"Strip {strip.ballast.name}"
    if strip.melts:
        yield Fact(name, f"burns through at {strip.current_a:.0f} A")
        return
    yield Fact(name, f"{strip.hot_ohm * 1000:.0f} mΩ, {strip.heat_w / 1000:.1f} kW")
    heat = "not known" if strip.heat is None else f"{strip.heat.peak_c:.0f} °C, 1 min on, 2 off"
    yield Fact("It gets", heat)
    yield Fact("It lies", "bare earth, 3 m off, hands off 10 min")


def _rod_rows(
    rods: Iterable[RodOutlook], steel: Mapping[str, tuple[float, float] | None], units: Units
) -> Iterator[RodLine]:
    for rod in rods:
        steel_mm = steel.get(rod.words) or rod.steel_mm
        amps = f"{rod.range.low_a:.0f}–{rod.range.high_a:.0f} A" if rod.range else "see packet"
        first = f"; {rod.packet.fitness}" if rod.packet and rod.packet.fitness is not Fitness.GOOD else ""
        yield RodLine(
            steel=steel_words(steel_mm),
            rod=rod.words,
            amps=amps,
            verdict=f"{rod.fit or 'not known'}{first}",
            asks=spelled(asks(rod.fit, steel_mm), units=units),
        )


def _hot_note(rods: Iterable[RodOutlook]) -> str:
    """What the gravest fit among the rods means at the arc."""
    fits = [rod.fit for rod in rods if rod.fit and rod.fit is not Fit.IN_RANGE]
    if not fits:
        return ""
    worst = max(fits, key=lambda fit: fit.rank)
    return f"{capital(worst.words)}."
