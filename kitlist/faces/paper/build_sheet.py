"""The readiness sheet of one judged trip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta

from kitlist.base.errors import PrintError
from kitlist.base.measures import counted, told
from kitlist.base.sources import PRACTICE, Tag
from kitlist.base.terms import FireRules
from kitlist.faces.paper.build_items import NO_BAG, bags, recheck, wording
from kitlist.faces.paper.build_words import asks, bank_words, capital, steel_words
from kitlist.faces.paper.charts import Chart, Trend
from kitlist.faces.paper.document import (
    BankPanel,
    BatteryLine,
    Box,
    DayLine,
    Fact,
    GapLine,
    Hookup,
    LeadLine,
    Marks,
    RodLine,
    RodTable,
    Section,
    Sheet,
    SheetItem,
    VerdictBox,
)
from kitlist.outlook import BatteryOutlook, RodOutlook
from kitlist.outlook.ballasts import ON_EARTH, BallastOutlook
from kitlist.outlook.card import CardFacts, card_facts
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.history import BatteryHistory, history_of
from kitlist.outlook.leads import opened_by, parts_in_work_lead
from kitlist.outlook.procedure_steps import also_off
from kitlist.outlook.rods import best_of
from kitlist.physics.bank.verdict import Fit
from kitlist.readiness import Readiness
from kitlist.rules import RULES
from kitlist.trips.timeline import Action
from kitlist.welding.rods.storage import Fitness

WHERE = "where? " + "_" * 20
MODEL = (
    "Computed from labels and readings, not measured while welding: a band, not a promise. A practice bead narrows it."
)


def build_sheet(
    readiness: Readiness,
    *,
    revision: int = 1,
    actions: Iterable[Action] = (),
    annex: bool = False,
    for_screen: bool = False,
) -> Sheet:
    """The sheet of a readiness, in the order in which it is read; `actions` are what is to be done by which day.

    A screen shows verdict, gaps and bank: the drawn parts and the card take as long again as the judgement.
    """
    card_hash, facts = ("", None) if for_screen else _card(readiness)
    trip = readiness.trip
    return Sheet(
        kit=trip.crew,
        trip=trip.name,
        verdict=_verdict(readiness),
        facts=tuple(_facts(readiness)),
        about=tuple(_about(readiness)),
        bank=bank_panel(readiness, card=facts, drawn=not for_screen),
        mend=() if for_screen else _mend(readiness),
        gaps=tuple(GapLine(severity=str(gap.weight), what=gap.what, do=gap.remedy) for gap in readiness.gaps),
        accepted=tuple(_accepted(readiness)),
        days=tuple(_days(actions)),
        book=tuple(_book(readiness)) if annex else (),
        bags=() if for_screen else tuple(_with_place(section) for section in bags(readiness)),
        recheck=Section(
            title="Recheck at the door", items=() if for_screen else recheck(readiness, card_hash=card_hash)
        ),
        cautions=tuple(wording()["cautions"]),
        thresholds=readiness.changes,
        sources=tuple(_sources(readiness)),
        card_hash=card_hash,
        annex=annex,
        marks=Marks(printed_on=readiness.on, revision=revision, valid_to=valid_to(readiness)),
    )


def _mend(readiness: Readiness) -> tuple[GapLine, ...]:
    from kitlist.faces.paper.build_mend import mend_lines  # measures its lines, and reads the typeface for that

    return mend_lines(readiness)


def _with_place(bag: Section) -> Section:
    """A bag whose place nobody has written down has room for it."""
    return bag if bag.note or bag.title == NO_BAG else replace(bag, note=WHERE)


def _days(actions: Iterable[Action]) -> Iterator[DayLine]:
    """What is left to do, by day; printing this sheet is done by it."""
    for action in actions:
        if not action.done and action.word != "print sheet":
            yield DayLine(day=action.due_on.isoformat(), what=action.what, late=action.late)


def _book(readiness: Readiness) -> Iterator[str]:
    """The day's book: what is sure over the reserve, then each repair in its turn, then what is not in it."""
    from kitlist.outlook.days_book import day_book

    book = day_book(readiness.kit, readiness.trip, readiness.outlook)
    if book is not None:
        yield f"{book.words}."
        yield from (f"{number}. {turn.words}." for number, turn in enumerate(book.turns, start=1))
        yield from (f"{words}." for words in book.left_out_words)


def _accepted(readiness: Readiness) -> Iterator[GapLine]:
    for gap in readiness.accepted:
        if taken := gap.accepted:
            who = f"Accepted by {taken.accepted_by} until {taken.until.isoformat()}: {taken.reason}"
            yield GapLine(severity=str(gap.weight), what=gap.what, do=gap.remedy, accepted=who)


def valid_to(readiness: Readiness) -> date:
    """The first day on which a reading goes stale, or a thing or an acceptance expires; else the end of the trip."""
    stale = timedelta(days=readiness.kit.limits.stale_after_days)
    readings = [b.reading.taken_at.date() + stale for b in readiness.outlook.batteries.values() if b.reading]
    dated = [tool.expires_on for tool in readiness.kit.tools if tool.expires_on and tool.count]
    dated += [gear.expires_on for gear in readiness.kit.gear if gear.expires_on and gear.count]
    dated += [gap.accepted.until for gap in readiness.accepted if gap.accepted]
    return min((day for day in (*readings, *dated) if day >= readiness.on), default=readiness.trip.ends_on)


def _card(readiness: Readiness) -> tuple[str, CardFacts | None]:
    """The hash of the card that goes with this sheet, and its facts; nothing where no card can be made yet."""
    try:
        facts = card_facts(readiness.kit, readiness.trip, on=readiness.on)
        return _hash_of(facts, readiness.on), facts
    except PrintError:
        return "", None


def _hash_of(facts: CardFacts, on: date) -> str:
    from kitlist.faces.paper.build_card import card_of

    return card_of(facts, on=on).content_hash()


def _verdict(readiness: Readiness) -> VerdictBox:
    return VerdictBox(
        word=readiness.word,
        counts=tuple(Fact(str(severity), str(count)) for severity, count in readiness.counts.items()),
        reasons=tuple(gap.what for gap in readiness.gaps),
        meaning=readiness.meaning,
    )


def _facts(readiness: Readiness) -> Iterator[Fact]:
    trip = readiness.trip
    yield Fact("Dates", f"{trip.starts_on.isoformat()} to {trip.ends_on.isoformat()}")
    yield Fact("Vehicles", ", ".join(trip.vehicles) or "none named")
    yield Fact("Cold, hot", f"{_degrees(trip.coldest_c)} to {_degrees(trip.hottest_c)}")
    yield Fact("From help", "not known" if trip.days_from_help is None else counted(trip.days_from_help, "day"))
    asked = f" ({trip.fire_rules_asked_on.isoformat()})" if trip.fire_rules_asked_on else ""
    yield Fact("Fire rules", f"{_fire(trip.fire_rules)}{asked}")
    if trip.fire_answer:
        yield Fact("The fire authority's words", trip.fire_answer)
    elif trip.fire_authority:
        yield Fact("Fire rules: ask", trip.fire_authority)


def _about(readiness: Readiness) -> Iterator[str]:
    trip = readiness.trip
    starts, ends = trip.starts_on, trip.ends_on
    yield f"{starts.day} {starts:%b} to {ends.day} {ends:%b %Y}"
    yield ", ".join(trip.vehicles) or "no vehicle named"
    yield f"{_degrees(trip.coldest_c)} to {_degrees(trip.hottest_c)}"
    yield "help not known" if trip.days_from_help is None else f"help {counted(trip.days_from_help, 'day')}"
    yield f"fire rules {_fire(trip.fire_rules)}"


def _fire(rules: FireRules) -> str:
    return str(rules).replace("-", " ")


def _degrees(celsius: float | None) -> str:
    return "not known" if celsius is None else told(celsius, "°C")


def bank_panel(readiness: Readiness, *, card: CardFacts | None = None, drawn: bool = True) -> BankPanel:
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
        )
        for number, name in enumerate(trip.bank, start=1)
        if name in readiness.outlook.batteries
    )
    return BankPanel(
        title=f"The bank: {bank_words(trip.strings)}",
        hookup=_hookup(readiness) if len(rows) == len(trip.bank) else None,
        batteries=rows,
        facts=tuple(_bank_facts(readiness)),
        joins=tuple(_joins(readiness)),
        rods=RodTable(rows=tuple(_rod_rows(readiness.outlook.rods, steel)), note=_hot_note(readiness.outlook.rods)),
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


def _hookup(readiness: Readiness) -> Hookup:
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


def _sources(readiness: Readiness) -> Iterator[str]:
    """Where the figures of this sheet come from, by how they are known: of the gaps found, and of the rods' ranges."""
    fired = {gap.rule for gap in (*readiness.gaps, *readiness.accepted)}
    found = [source for rule in RULES if rule.name in fired for source in rule.sources]
    found += [source for rod in readiness.outlook.rods if rod.range for source in rod.range.sources]
    grouped: dict[Tag, dict[str, None]] = {}
    for source in (*found, PRACTICE):
        grouped.setdefault(source.tag, {})[source.where] = None
    for tag in Tag:
        if named := ", ".join(filter(None, grouped.get(tag, ()))):
            yield f"{tag.words}: {named}"
        elif tag in grouped:
            yield tag.words


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
    number: int, outlook: BatteryOutlook, history: BatteryHistory, go_v: tuple[float, ...], *, drawn: bool
) -> BatteryLine:
    battery, reading, soc = outlook.battery, outlook.reading, outlook.charge.soc_ratio
    size = f" {battery.c20_ah:g} Ah" if battery.c20_ah else ""
    return BatteryLine(
        (
            str(number),
            f"{battery.name}, {battery.chemistry.words}{size}",
            f"{reading.volts_v:.2f} V" if reading else "no reading",
            f"{soc.low * 100:.0f}–{soc.high * 100:.0f} %" if soc else "not known",
            "".join(f"≥ {volts:.2f} V" for volts in go_v),
            reading.taken_at.date().isoformat() if reading else "",
        ),
        trend=_trend(battery.name, history) if drawn else None,
    )


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
        yield Fact("Rods to reserve", f"{shown.rods.count.words}, of {shown.words}")


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


def _rod_rows(rods: Iterable[RodOutlook], steel: Mapping[str, tuple[float, float] | None]) -> Iterator[RodLine]:
    for rod in rods:
        steel_mm = steel.get(rod.words) or rod.steel_mm
        amps = f"{rod.range.low_a:.0f}–{rod.range.high_a:.0f} A" if rod.range else "see packet"
        first = f"; {rod.packet.fitness}" if rod.packet and rod.packet.fitness is not Fitness.GOOD else ""
        yield RodLine(
            steel=steel_words(steel_mm),
            rod=rod.words,
            amps=amps,
            verdict=f"{rod.fit or 'not known'}{first}",
            asks=asks(rod.fit, steel_mm),
        )


def _hot_note(rods: Iterable[RodOutlook]) -> str:
    """What the gravest fit among the rods means at the arc."""
    fits = [rod.fit for rod in rods if rod.fit and rod.fit is not Fit.IN_RANGE]
    if not fits:
        return ""
    worst = max(fits, key=lambda fit: fit.rank)
    return f"{capital(worst.words)}."
