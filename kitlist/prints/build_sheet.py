"""The readiness sheet of one judged trip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from kitlist.errors import PrintError
from kitlist.outlook import BatteryOutlook, RodOutlook, hardware_outlook
from kitlist.physics.verdict import Fit
from kitlist.prints.build_card import build_card, hookup
from kitlist.prints.build_chart import build_chart
from kitlist.prints.build_items import bags, must_carry, recheck, wording
from kitlist.prints.build_words import bank_words
from kitlist.prints.document import (
    BankPanel,
    Fact,
    GapLine,
    Marks,
    RodRow,
    RodTable,
    Section,
    Sheet,
    Verdict,
)
from kitlist.readiness import Readiness
from kitlist.rules.rulebook import STALE_AFTER_DAYS
from kitlist.terms import FireRules

MODEL = (
    "Computed from labels and readings, not measured while welding: a band, not a promise. A practice bead narrows it."
)


def build_sheet(readiness: Readiness, *, revision: int = 1) -> Sheet:
    """The sheet of a readiness, in the order in which it is read."""
    card_hash = _card_hash(readiness)
    trip = readiness.trip
    return Sheet(
        kit=trip.crew,
        trip=trip.name,
        verdict=_verdict(readiness),
        facts=tuple(_facts(readiness)),
        must_carry=Section(title="Must carry", items=must_carry(readiness, card_hash=card_hash)),
        bank=bank_panel(readiness),
        gaps=tuple(GapLine(severity=str(gap.weight), what=gap.what, do=gap.remedy) for gap in readiness.gaps),
        bags=bags(readiness),
        recheck=Section(title="Recheck at the door", items=recheck(readiness, card_hash=card_hash)),
        cautions=tuple(wording()["cautions"]),
        card_hash=card_hash,
        marks=Marks(printed_on=readiness.on, revision=revision, valid_to=valid_to(readiness)),
    )


def valid_to(readiness: Readiness) -> date:
    """The first day on which a reading goes stale or something expires; at the latest the end of the trip."""
    stale = timedelta(days=STALE_AFTER_DAYS.value)
    readings = [b.reading.taken_at.date() + stale for b in readiness.outlook.batteries.values() if b.reading]
    dated = [tool.expires_on for tool in readiness.kit.tools if tool.expires_on and tool.count]
    dated += [gear.expires_on for gear in readiness.kit.gear if gear.expires_on and gear.count]
    return min((day for day in (*readings, *dated) if day >= readiness.on), default=readiness.trip.ends_on)


def _card_hash(readiness: Readiness) -> str:
    """The hash of the card that goes with this sheet; nothing where no card can be made yet."""
    try:
        return build_card(readiness.kit, readiness.trip, on=readiness.on).content_hash()
    except PrintError:
        return ""


def _verdict(readiness: Readiness) -> Verdict:
    return Verdict(
        word=str(readiness.verdict),
        counts=tuple(Fact(str(severity), str(count)) for severity, count in readiness.counts.items()),
        reasons=tuple(gap.what for gap in readiness.gaps),
        meaning=readiness.verdict.meaning,
    )


def _facts(readiness: Readiness) -> Iterator[Fact]:
    trip = readiness.trip
    yield Fact("Dates", f"{trip.starts_on.isoformat()} to {trip.ends_on.isoformat()}")
    yield Fact("Vehicles", ", ".join(trip.vehicles) or "none named")
    yield Fact("Cold, hot", f"{_degrees(trip.coldest_c)} to {_degrees(trip.hottest_c)}")
    yield Fact("From help", "not known" if trip.days_from_help is None else f"{trip.days_from_help:g} days")
    asked = f" ({trip.fire_rules_asked_on.isoformat()})" if trip.fire_rules_asked_on else ""
    yield Fact("Fire rules", f"{_fire(trip.fire_rules)}{asked}")


def _fire(rules: FireRules) -> str:
    return str(rules).replace("-", " ")


def _degrees(celsius: float | None) -> str:
    return "not known" if celsius is None else f"{celsius:g} °C"


def bank_panel(readiness: Readiness) -> BankPanel:
    """The chosen bank: drawing, batteries, current and rods."""
    trip, bank = readiness.trip, readiness.outlook.bank
    if bank is None:
        return BankPanel(title="The bank", none_because="No bank is chosen for this trip.")
    hardware = hardware_outlook(readiness.kit, trip, on=readiness.on)
    rows = tuple(
        _battery_row(number, readiness.outlook.batteries[name])
        for number, name in enumerate(trip.bank, start=1)
        if name in readiness.outlook.batteries
    )
    return BankPanel(
        title=f"The bank: {bank_words(trip)}",
        hookup=hookup(readiness.kit, hardware, trip) if len(rows) == len(trip.bank) else None,
        batteries=rows,
        facts=tuple(_bank_facts(readiness)),
        rods=RodTable(rows=tuple(_rod_rows(readiness.outlook.rods)), note=_hot_note(readiness.outlook.rods)),
        chart=build_chart(readiness),
        remarks=(*_not_known(bank.not_known), MODEL),
    )


def _not_known(missing: tuple[str, ...]) -> tuple[str, ...]:
    return (f"The current cannot be foretold; not known: {', '.join(missing)}.",) if missing else ()


def _battery_row(number: int, outlook: BatteryOutlook) -> tuple[str, ...]:
    battery, reading, soc = outlook.battery, outlook.reading, outlook.charge.soc_ratio
    size = f" {battery.c20_ah:g} Ah" if battery.c20_ah else ""
    return (
        str(number),
        f"{battery.name}, {battery.chemistry.words}{size}",
        f"{reading.volts_v:.2f} V" if reading else "no reading",
        f"{soc.low * 100:.0f}–{soc.high * 100:.0f} %" if soc else "not known",
        reading.taken_at.date().isoformat() if reading else "",
    )


def _bank_facts(readiness: Readiness) -> Iterator[Fact]:
    bank = readiness.outlook.bank
    if bank is None or bank.rested_v is None or bank.stuck_a is None:
        return
    yield Fact("At rest", f"{bank.rested_v:.1f} V")
    bands = [rod.band for rod in readiness.outlook.rods if rod.band]
    if bands:
        yield Fact("Current, 10 to 90 %", f"{bands[0].low_a:.0f}–{bands[0].high_a:.0f} A")
        yield Fact("Most likely", f"{bands[0].middle_a:.0f} A")
        if bands[0].no_arc_ratio >= 0.005:
            yield Fact("No arc in", f"{bands[0].no_arc_ratio * 100:.0f} %")
    if bank.bead:
        yield Fact("Practice weld", bank.bead.name)
    yield Fact("Rod stuck", f"{round(bank.stuck_a, -2):.0f} A")
    lasting = [rod for rod in readiness.outlook.rods if rod.endurance]
    if lasting and lasting[0].endurance:
        yield Fact("Rods to reserve", f"{lasting[0].endurance.rods} of {lasting[0].words}")


def _rod_rows(rods: Iterable[RodOutlook]) -> Iterator[RodRow]:
    for rod in rods:
        steel = f"{rod.steel_mm[0]:g}–{rod.steel_mm[1]:g} mm" if rod.steel_mm else "not known"
        amps = f"{rod.range.low_a:.0f}–{rod.range.high_a:.0f} A" if rod.range else "see packet"
        yield RodRow(steel=steel, rod=rod.words, amps=amps, verdict=str(rod.fit) if rod.fit else "not known")


def _hot_note(rods: Iterable[RodOutlook]) -> str:
    """What the gravest fit among the rods means at the arc."""
    fits = [rod.fit for rod in rods if rod.fit and rod.fit is not Fit.IN_RANGE]
    if not fits:
        return ""
    worst = max(fits, key=lambda fit: fit.rank)
    return worst.words[0].upper() + worst.words[1:] + "."
