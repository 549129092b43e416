"""The guided start: from nothing to a verdict and a sheet, one question at a time, each answer on disk at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from kitlist.base.errors import BadData, KitlistError
from kitlist.base.measures import counted
from kitlist.faces.cli.asking import (
    WAYS,
    YES_OR_NO,
    BackOne,
    Stopped,
    ask,
    ask_until,
    ask_yes,
    in_words,
    say_wrapped,
    say_wrong,
)
from kitlist.faces.cli.talk import say, show, today, width

if TYPE_CHECKING:
    from kitlist.kit import Trip
    from kitlist.store import Store

GOES_ON = "Everything answered is kept. kitlist start goes on here."


def guided(store: Store) -> None:
    """Ask for what is not known yet: vehicles, batteries, leads, rods, the trip, what is packed, readings, the bank.

    `<` at the first question of a part goes back into the one before it.
    """
    say_wrapped(WAYS)
    parts = (_questions, _count, _read, _bank, _verdict)
    at, back = 0, False
    try:
        while at < len(parts):
            try:
                asked = parts[at](store, back)
                if back and not asked and at:
                    at -= 1
                else:
                    at, back = at + 1, False
            except BackOne:
                at, back = max(at - 1, 0), True
    except Stopped:
        say_wrapped(GOES_ON)


def _questions(store: Store, back: bool) -> bool:
    """Put the open questions one by one; `<` puts the one before once more. Says whether any was put."""
    from kitlist.faces.cli.guide_questions import waiting
    from kitlist.store import guide_answers, settings
    from kitlist.store.snapshot import snapshot

    again = said = ""
    asked = False
    while True:
        answers = guide_answers.answers(store)
        if back and answers:
            again, said = _taken_out(store, answers)
        back = False
        question = next(waiting(snapshot(store), settings.of(store), answers, again, said), None)
        if question is None:
            if not again:
                return asked
            again = ""
            continue
        asked = True
        try:
            text = ask(question.text, more=question.more)
            before = dict(answers)
            with store.writing() as change:
                answers[question.key] = question.keep(change, text, answers)
                guide_answers.keep_within(change, before, answers)
            again = ""
        except BackOne:
            back = True
        except KitlistError as error:
            say_wrong(in_words(error, question.called), error.hint)


def _taken_out(store: Store, answers: dict[str, str]) -> tuple[str, str]:
    """The newest answer, which is to be given once more, as its question and what was said."""
    from kitlist.store import guide_answers

    before = dict(answers)
    newest = answers.popitem()
    with store.writing() as change:
        guide_answers.keep_within(change, before, answers)
    return newest


def _count(store: Store, back: bool) -> bool:
    """The walk through what stands at 0, with the number of people of the trip in view."""
    from kitlist.faces.cli.counting_walk import CountWalk
    from kitlist.store.snapshot import snapshot
    from kitlist.trips.counting import to_count

    kit = snapshot(store)
    packed = [line for line in to_count(kit) if line.kind not in ("lead", "rod")]
    if packed and ask_yes(f"Count what is packed now: {len(packed)} things, one key each?"):
        CountWalk(store, packed, people=_trip(store).people).go()
    return bool(packed)


def _trip(store: Store) -> Trip:
    """The next trip."""
    from kitlist.kit import next_trip
    from kitlist.store.snapshot import trips

    return next_trip(trips(store), on=today())


def _read(store: Store, back: bool) -> bool:
    """The walk round the batteries with a meter."""
    from kitlist.faces.cli.walk_round import walk_round
    from kitlist.store.snapshot import snapshot

    kit = snapshot(store)
    unread = [battery for battery in kit.batteries if not kit.readings_of.get(battery.name)]
    many = counted(len(kit.batteries), "battery", "batteries")
    if unread and ask_yes(f"Read the volts now, with the meter in hand: {many}?"):
        walk_round(store, {"rested": None, "battery_temp": None})
    return bool(unread)


def _bank(store: Store, back: bool) -> bool:
    """The best banks, one of them to keep."""
    from kitlist.faces.cli.banking import choose_bank
    from kitlist.faces.judging import judged
    from kitlist.faces.words import bank_text
    from kitlist.outlook.options.plan import plan_for

    readiness = judged(store, _trip(store).name, on=today())
    if readiness.trip.bank:
        return False
    answer = plan_for(readiness.kit, readiness.trip, on=readiness.on)
    many = len(answer.offers)
    show("\n".join(bank_text.plan_lines(answer, outlook=readiness.outlook, columns=min(width(), 100))))

    def take(text: str) -> int:
        if many == 1 and text.casefold() in YES_OR_NO:
            return int(text.casefold().startswith("y"))
        if text and not (text.isdigit() and 1 <= int(text) <= many):
            raise BadData(f"there is no bank {text[:20]!r}", hint=f"1 to {many}, or Enter for none yet.")
        return int(text or 0)

    if not many:
        return False
    question = "Take this bank for the trip? y or n:" if many == 1 else f"Which bank, 1 to {many}, Enter for none yet:"
    if number := ask_until(question, take, more="The trip's sheet and card are made for the bank that is kept."):
        choose_bank(store, answer, number)
    return True


def _verdict(store: Store, back: bool) -> bool:
    """The verdict, and the sheet where it is wanted."""
    from kitlist.faces.cli import press
    from kitlist.faces.judging import judged
    from kitlist.faces.paper.build_sheet import build_sheet
    from kitlist.faces.words import by_doing
    from kitlist.faces.words.summary import summary

    readiness = judged(store, _trip(store).name, on=today())
    said = by_doing.page if by_doing.is_long(readiness) else summary
    show(said(readiness, sheet=build_sheet(readiness, for_screen=True), columns=min(width(), 100)))
    path = Path("sheet.pdf")
    there = f" {path} is there already and is written over." if path.exists() else ""
    if ask_yes(f"Print the sheet now, into {path} here?{there}"):
        written = press.press_sheet(store, readiness, path, size=press.paper_of(store, None), replace=True)
        say(written.told or f"Wrote {written.path}.")
    say_wrapped("kitlist says what to do next; kitlist start asks again for what is still open.")
    return True
