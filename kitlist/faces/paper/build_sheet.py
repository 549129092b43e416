"""The readiness sheet of one judged trip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta

from kitlist.base.errors import PrintError
from kitlist.base.measures import counted, spelled, with_unit
from kitlist.base.sources import PRACTICE, Tag
from kitlist.base.terms import FireRules, Units
from kitlist.faces.paper.build_bank import bank_panel
from kitlist.faces.paper.build_items import NO_BAG, bags, recheck, wording
from kitlist.faces.paper.document import (
    DayLine,
    Fact,
    GapLine,
    Marks,
    Section,
    Sheet,
    VerdictBox,
)
from kitlist.kit import Kit
from kitlist.outlook.card import CardFacts, card_facts
from kitlist.readiness import Readiness
from kitlist.rules import RULES
from kitlist.trips.timeline import Action

WHERE = "where? " + "_" * 20


def build_sheet(
    readiness: Readiness,
    *,
    revision: int = 1,
    actions: Iterable[Action] = (),
    annex: bool = False,
    for_screen: bool = False,
    units: Units = Units.METRIC,
) -> Sheet:
    """The sheet of a readiness, in the order in which it is read; `actions` are what is to be done by which day.

    A screen shows verdict, gaps and bank: the drawn parts and the card take as long again as the judgement.
    """
    card_hash, facts = ("", None) if for_screen else _card(readiness, units)
    names = {} if for_screen else _names(readiness.kit)
    trip = readiness.trip
    return Sheet(
        kit=trip.crew,
        trip=trip.name,
        verdict=_verdict(readiness),
        facts=tuple(_facts(readiness)),
        about=tuple(_about(readiness, names, units)),
        bank=bank_panel(readiness, card=facts, names=names, drawn=not for_screen, units=units),
        mend=() if for_screen else _mend(readiness, units),
        gaps=tuple(GapLine(severity=str(gap.weight), what=gap.what, do=gap.remedy) for gap in readiness.gaps),
        accepted=tuple(_accepted(readiness)),
        days=tuple(_days(actions)),
        book=tuple(_book(readiness)) if annex else (),
        bags=()
        if for_screen
        else tuple(_with_place(section) for section in bags(readiness, called=names, units=units)),
        recheck=Section(
            title="Recheck at the door",
            items=() if for_screen else recheck(readiness, card_hash=card_hash, called=names, units=units),
        ),
        cautions=tuple(wording()["cautions"]),
        thresholds=readiness.changes,
        sources=tuple(_sources(readiness)),
        card_hash=card_hash,
        annex=annex,
        untyped=() if for_screen else _untyped(readiness),
        marks=Marks(printed_on=readiness.on, revision=revision, valid_to=valid_to(readiness)),
    )


def _names(kit: Kit) -> dict[str, str]:
    from kitlist.faces.paper.called import names_on_sheet  # measures names, and reads the typeface for that

    return names_on_sheet(kit)


def _untyped(readiness: Readiness) -> tuple[str, ...]:
    from kitlist.faces.paper.called import untyped_on_sheet

    return untyped_on_sheet(readiness.kit)


def _mend(readiness: Readiness, units: Units) -> tuple[GapLine, ...]:
    from kitlist.faces.paper.build_mend import mend_lines  # measures its lines, and reads the typeface for that

    return mend_lines(readiness, units=units)


def _with_place(bag: Section) -> Section:
    """A bag with its place, cut to a line; one whose place nobody has written down has room for it."""
    if not bag.note and bag.title != NO_BAG:
        return replace(bag, note=WHERE)
    from kitlist.faces.paper import called, typeface

    return replace(bag, note=typeface.cut(bag.note, width_max_mm=called.SHEET_PLACE_MM, size_pt=10))


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


def _card(readiness: Readiness, units: Units) -> tuple[str, CardFacts | None]:
    """The hash of the card that goes with this sheet, and its facts; nothing where no card can be made yet."""
    try:
        facts = card_facts(readiness.kit, readiness.trip, on=readiness.on)
        return _hash_of(facts, readiness.on, units), facts
    except PrintError:
        return "", None


def _hash_of(facts: CardFacts, on: date, units: Units) -> str:
    from kitlist.faces.paper.build_card import card_of

    return card_of(facts, on=on, units=units).content_hash()


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


def _about(readiness: Readiness, called: Mapping[str, str], units: Units) -> Iterator[str]:
    trip = readiness.trip
    starts, ends = trip.starts_on, trip.ends_on
    yield f"{starts.day} {starts:%b} to {ends.day} {ends:%b %Y}"
    yield ", ".join(called.get(name, name) for name in trip.vehicles) or "no vehicle named"
    yield _span(trip.coldest_c, trip.hottest_c, units)
    yield "help not known" if trip.days_from_help is None else f"help {counted(trip.days_from_help, 'day')}"
    yield f"fire rules {_fire(trip.fire_rules)}"


def _fire(rules: FireRules) -> str:
    return str(rules).replace("-", " ")


def _degrees(celsius: float | None) -> str:
    return "not known" if celsius is None else with_unit(celsius, "°C")


def _span(coldest_c: float | None, hottest_c: float | None, units: Units) -> str:
    if coldest_c is None or hottest_c is None:
        return f"cold {_degrees(coldest_c)}, hot {_degrees(hottest_c)}"
    return spelled(f"{coldest_c:g} to {hottest_c:g} °C".replace("-", "−"), units=units)


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
