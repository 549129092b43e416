"""The guided start: from nothing to a verdict and a sheet, one question at a time, each answer on disk at once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from kitlist.base import days
from kitlist.base.errors import BadData, KitlistError, NotFound
from kitlist.faces.cli.asking import WAYS, BackOne, Stopped, ask, ask_until, ask_yes, say_wrapped
from kitlist.faces.cli.talk import say, show, today, width

if TYPE_CHECKING:
    from kitlist.faces.cli.guide_questions import Question
    from kitlist.kit import Kit, Trip
    from kitlist.store import Store

GOES_ON = "Everything answered is kept. kitlist start goes on here."


def guided(store: Store) -> None:
    """Ask for what is not known yet: vehicles, batteries, leads, rods, what is packed, the trip, readings, the bank."""
    say_wrapped(WAYS)
    try:
        _questions(store)
        _count(store)
        trip = _trip(store)
        _trip_questions(store, trip)
        _read(store)
        _bank(store, trip)
        _verdict(store, trip)
    except Stopped:
        say_wrapped(GOES_ON)


def _questions(store: Store, more: Callable[[Kit, dict[str, str], str, str], list[Question]] | None = None) -> None:
    """Put the open questions one by one; `<` puts the one before once more."""
    from kitlist.faces.cli.guide_questions import waiting
    from kitlist.store import guide_answers
    from kitlist.store.snapshot import snapshot

    again = said = ""
    while True:
        answers = guide_answers.answers(store)
        open_ = more or (lambda kit, answers, again, said: list(waiting(kit, answers, again, said)))
        found = open_(snapshot(store), answers, again, said)
        if not found:
            if not again:
                return
            again = ""
            continue
        question = found[0]
        try:
            text = ask(question.text, more=question.more)
            before = dict(answers)
            with store.writing() as change:
                answers[question.key] = question.keep(change, text, answers)
                guide_answers.keep_within(change, before, answers)
            again = ""
        except BackOne:
            if not answers:
                continue
            before = dict(answers)
            again, said = answers.popitem()
            with store.writing() as change:
                guide_answers.keep_within(change, before, answers)
        except KitlistError as error:
            say_wrapped(error.message.partition(": ")[2] or error.message)
            if error.hint:
                say_wrapped(error.hint)


def _count(store: Store) -> None:
    """The walk through what stands at 0."""
    from kitlist.faces.cli.counting_walk import CountWalk
    from kitlist.store.snapshot import snapshot
    from kitlist.trips.counting import to_count

    packed = [line for line in to_count(snapshot(store)) if line.kind not in ("lead", "rod")]
    if packed and _yes(f"Count what is packed now: {len(packed)} things, one key each?"):
        CountWalk(store, packed).go()


def _yes(question: str) -> bool:
    while True:
        try:
            return bool(ask_yes(question))
        except BackOne:
            say("Each of these can be done again: say y or n.")


def _trip(store: Store) -> Trip:
    """The next trip, asked for where there is none."""
    from kitlist.kit import next_trip
    from kitlist.store import changes
    from kitlist.store.snapshot import snapshot

    kit = snapshot(store)
    ahead = [trip for trip in kit.trips if trip.ends_on >= today()]
    if ahead:
        return next_trip(ahead, on=today())
    answers: dict[str, str] = {}
    wanted = (
        ("name", "The trip's name:", lambda text: text or _refuse("a trip needs a name")),
        ("starts_on", "Day of departure (8 May 2027, tomorrow):", _day),
        ("ends_on", "Day of return:", _day),
    )
    at = 0
    while at < len(wanted):
        field, question, take = wanted[at]
        try:
            answers[field] = ask_until(question, take)
            at += 1
            if at == len(wanted):
                vehicles = [vehicle.name for vehicle in kit.vehicles if not vehicle.guest_of]
                added: Trip = changes.add(store, "trip", answers | {"vehicles": vehicles})
                return added
        except BackOne:
            at = max(at - 1, 0)
        except KitlistError as error:
            say_wrapped(error.message)
            at = 1
    raise NotFound("there is no trip yet")


def _day(text: str) -> str:
    return days.day(text, today=today()).isoformat()


def _refuse(sentence: str) -> str:
    raise BadData(sentence)


def _trip_questions(store: Store, trip: Trip) -> None:
    from kitlist.faces.cli import guide_questions as guide

    def open_(kit: Kit, answers: dict[str, str], again: str, said: str) -> list[Question]:
        mine = next(t for t in kit.trips if t.name == trip.name)
        asked = guide.fields_asked("trip", mine, guide.TRIP, answers, again)
        found = [q for q in asked if q.key not in answers and (q.key == again or not again)]
        return found or (list(guide.waiting(kit, answers, again, said)) if again else [])

    _questions(store, open_)


def _read(store: Store) -> None:
    """The walk round the batteries with a meter."""
    from kitlist.faces.cli.walk_round import walk_round
    from kitlist.store.snapshot import snapshot

    kit = snapshot(store)
    unread = [battery for battery in kit.batteries if not kit.readings_of.get(battery.name)]
    if unread and _yes(f"Read the volts now, with the meter in hand: {len(kit.batteries)} batteries?"):
        walk_round(store, {"rested": None, "battery_temp": None})


def _bank(store: Store, trip: Trip) -> None:
    """The best banks, one of them to keep."""
    from kitlist.faces.cli.banking import choose_bank
    from kitlist.faces.judging import judged
    from kitlist.faces.words import bank_text
    from kitlist.outlook.options.plan import plan_for

    readiness = judged(store, trip.name, on=today())
    if readiness.trip.bank:
        return
    answer = plan_for(readiness.kit, readiness.trip, on=readiness.on)
    many = len(answer.offers)
    show("\n".join(bank_text.plan_lines(answer, outlook=readiness.outlook, columns=min(width(), 100))))

    def take(text: str) -> int:
        if text and not (text.isdigit() and 1 <= int(text) <= many):
            raise BadData(f"there is no bank {text[:20]!r}", hint=f"1 to {many}, or Enter for none yet.")
        return int(text or 0)

    try:
        if many and (number := ask_until(f"Which bank, 1 to {many}? Enter: none yet.", take)):
            choose_bank(store, answer, number)
    except BackOne:
        return


def _verdict(store: Store, trip: Trip) -> None:
    """The verdict, and the sheet where it is wanted."""
    from kitlist.faces.cli import press
    from kitlist.faces.judging import judged
    from kitlist.faces.paper.build_sheet import build_sheet
    from kitlist.faces.words import by_doing
    from kitlist.faces.words.summary import summary

    readiness = judged(store, trip.name, on=today())
    said = by_doing.page if by_doing.is_long(readiness) else summary
    show(said(readiness, sheet=build_sheet(readiness, for_screen=True), columns=min(width(), 100)))
    if _yes("Print the sheet now, into sheet.pdf here?"):
        written = press.press_sheet(store, readiness, Path("sheet.pdf"), size="A4")
        say(written.told or f"Wrote {written.path}.")
    say("kitlist says what to do next; kitlist start asks again for what is still open.")
