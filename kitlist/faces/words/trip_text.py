"""A trip's life as lines for a terminal: the next step, the days, what was checked, used and goes back."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from kitlist.base import clean
from kitlist.base.names import quoted
from kitlist.base.span import Span
from kitlist.faces.paper.build_items import wording
from kitlist.trips.check_off import Line, left
from kitlist.trips.next_step import NextStep
from kitlist.trips.restock import Recharge, Restock
from kitlist.trips.timeline import Action
from kitlist.trips.used import Against, BatteryUse, Use

_LONGEST_DO = 150  # three lines of 60 columns, so that the next step stays within ten
_LONGEST_NAME = 60
_UNDER = 19  # where the words of an action of the days begin, under its day and its state


def next_lines(step: NextStep, *, columns: int) -> Iterator[str]:
    """Ten lines or fewer at 60 columns: where things stand, the verdict, what to do, what to type, what comes after."""
    yield from _wrapped(clean.plain(step.stands, longest=2 * _LONGEST_NAME), columns)
    if step.verdict:
        yield f"{step.verdict.upper()}{f' ({step.counts})' if step.counts else ''}"
    by = f" (by {step.due_on})" if step.due_on else ""
    yield from _wrapped(f"Next: {_whole_sentences(clean.plain(step.do))}{by}", columns, rest="      ")
    if step.command:
        yield f"    > {clean.plain(step.command)}"
    if step.then:
        yield from _wrapped(_whole_sentences(clean.plain(step.then)), columns)


def _whole_sentences(text: str) -> str:
    """The first sentence, and as many more as fit into a few lines: none is cut.

    >>> _whole_sentences("Charge it. Rest it. " + "Then read " * 20 + "it.")
    'Charge it. Rest it.'
    """
    sentences = re.split(r"(?<=[.!?]) ", text)
    kept = sentences[0]
    for sentence in sentences[1:]:
        if len(kept) + 1 + len(sentence) > _LONGEST_DO:
            break
        kept = f"{kept} {sentence}"
    return kept.strip()


def plain_next(step: NextStep) -> dict[str, Any]:
    """The next step as JSON has it."""
    return {
        "trip": step.trip or None,
        "days_to_go": step.days_to_go,
        "verdict": step.verdict or None,
        "stands": step.stands,
        "do": step.do,
        "command": step.command,
        "due_on": step.due_on.isoformat() if step.due_on else None,
    }


def timeline_lines(actions: Sequence[Action], *, columns: int) -> Iterator[str]:
    """Every action by day, each with its state in a word first."""
    for action in actions:
        state = "done" if action.done else "LATE" if action.late else "to do"
        yield from _wrapped(f"{action.due_on}  {state:5}  {clean.plain(action.what)}", columns, rest=" " * _UNDER)
        if action.command and not action.done:
            command = f"> {clean.plain(action.command)}"
            yield f"{' ' * (_UNDER if _UNDER + len(command) <= columns else 4)}{command}"


def plain_timeline(actions: Sequence[Action]) -> list[dict[str, Any]]:
    """The actions as JSON has them."""
    return [
        {
            "word": action.word,
            "due_on": action.due_on.isoformat(),
            "what": action.what,
            "command": action.command,
            "done": action.done,
            "late": action.late,
        }
        for action in actions
    ]


def _wrapped(text: str, columns: int, *, first: str = "", rest: str = "") -> list[str]:
    return textwrap.wrap(text, columns, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)


def line_words(line: Line, *, of: int) -> str:
    """One thing to look at: its number, its name, how many are recorded, the state to see."""
    see = wording()["see"].get(_kind_word(line), "")
    count = "" if line.thing.count == 1 else f", {line.thing.count} recorded"
    return f"{line.number} of {of}: {clean.plain(line.name)}{count}.{f' See: {see}.' if see else ''}"


def check_off_lines(checked: Sequence[Line], *, columns: int) -> Iterator[str]:
    """Every line bag by bag with its number and its answer."""
    bag = None
    for line in checked:
        if line.bag != bag:
            bag = line.bag
            yield from _wrapped(f"{clean.plain(bag)}{f', {clean.plain(line.place)}' if line.place else ''}:", columns)
        answer = "not looked at" if line.answer is None else line.answer.words
        yield from _wrapped(f"{line.number:4}  {clean.plain(line.name)}: {answer}", columns, rest=" " * 6)


def left_lines(trip: str, checked: Sequence[Line], *, columns: int) -> Iterator[str]:
    """How many were looked at, what was found short, what is left by bag, and how to go on."""
    waiting = left(checked)
    yield from _wrapped(f"{clean.plain(trip)}: {len(checked) - len(waiting)} of {len(checked)} looked at.", columns)
    for line in checked:
        if line.answer is not None and line.answer.short:
            yield from _wrapped(f"Short: {clean.plain(line.name)}, {line.answer.words}.", columns, rest="  ")
    for bag in dict.fromkeys(line.bag for line in waiting):
        names = [clean.plain(line.name) for line in waiting if line.bag == bag]
        yield from _wrapped(f"Left in {clean.plain(bag)}: {', '.join(names)}.", columns, rest="  ")
    yield f"kitlist check-off {quoted(trip)} goes on." if waiting else "Everything was looked at."


def plain_check_off(trip: str, checked: Sequence[Line]) -> dict[str, Any]:
    """The check-off as JSON has it."""
    return {
        "trip": trip,
        "left": len(left(checked)),
        "lines": [
            {
                "number": line.number,
                "bag": line.bag,
                "kind": line.kind,
                "name": line.name,
                "recorded": line.thing.count,
                "answer": str(line.answer.answer) if line.answer else None,
                "count": line.answer.count if line.answer else None,
                "checked_by": line.answer.checked_by if line.answer else None,
                "checked_at": line.answer.checked_at.isoformat() if line.answer else None,
            }
            for line in checked
        ],
    }


def used_lines(trip: str, uses: Sequence[Use], compared: Sequence[BatteryUse], *, columns: int) -> Iterator[str]:
    """What a trip took, and each linked battery against what was predicted."""
    if not uses and not compared:
        yield from _wrapped(f"Nothing is recorded of {clean.plain(trip)} yet. Type what was used:", columns)
        yield f'    > kitlist used {quoted(trip)} "general rods=5" --linked bank'
        return
    for use in uses:
        back = f", put back {use.back_on}" if use.back_on else ""
        yield from _wrapped(f"Used: {clean.plain(use.name)}, {_amount(use.used, use.unit)}{back}.", columns)
    for battery in compared:
        name = clean.plain(battery.name)
        said = f"{name}: predicted {_span(battery.predicted_ah)}; {_against(battery)}"
        yield from _wrapped(said if said.endswith("?") else f"{said}.", columns, rest="  ")
        if battery.taken_ah is None:
            yield f"    > kitlist volts {quoted(battery.name)} VOLTS --rested HOURS --temp DEGREES"
    if uses or compared:
        yield f"kitlist restock {quoted(trip)} says what goes back."


def _against(battery: BatteryUse) -> str:
    if battery.against is Against.NOT_READ:
        return f"{battery.against}: read it after {battery.linked_on}, rested 6 h or more, before it is charged"
    return f"by the readings {_span(battery.taken_ah)}: {battery.against}"


def plain_used(trip: str, uses: Sequence[Use], compared: Sequence[BatteryUse]) -> dict[str, Any]:
    """The same as JSON has it."""
    return {
        "trip": trip,
        "used": [
            {
                "kind": use.kind,
                "name": use.name,
                "litres" if use.unit else "pieces": use.used,
                "used_on": use.used_on.isoformat(),
                "back_on": use.back_on.isoformat() if use.back_on else None,
            }
            for use in uses
        ],
        "batteries": [
            {
                "name": battery.name,
                "linked_on": battery.linked_on.isoformat(),
                "predicted_ah": _triple(battery.predicted_ah),
                "taken_ah": _triple(battery.taken_ah),
                "against": str(battery.against),
            }
            for battery in compared
        ],
    }


def restock_lines(trip: str, lines: Sequence[Restock], charge: Sequence[Recharge], *, columns: int) -> Iterator[str]:
    """What to recharge, then what to get, by where, each with its bag."""
    for battery in charge:
        when = f"LATE, it was due by {battery.by}" if battery.late else f"by {battery.by}"
        yield from _wrapped(
            f"Read rested, recharge alone, read again: {clean.plain(battery.battery)}, {when}.", columns, rest="  "
        )
    for where in dict.fromkeys(line.where for line in lines):
        yield f"From {where}:"
        for line in (other for other in lines if other.where == where):
            said = f"{_amount(line.amount, line.unit)} of {clean.plain(line.name)} ({line.why})"
            yield from _wrapped(f"  {said}, into {clean.plain(line.bag)}", columns, rest="    ")
    if lines:
        yield f"kitlist restock {quoted(trip)} --done, when what was used is back in its bags."
    if not lines and not charge:
        yield from _wrapped(f"{clean.plain(trip)}: nothing is left to put back.", columns)


def plain_restock(trip: str, lines: Sequence[Restock], charge: Sequence[Recharge]) -> dict[str, Any]:
    """The same as JSON has it."""
    return {
        "trip": trip,
        "get": [
            {
                "where": line.where,
                "name": line.name,
                "litres" if line.unit else "pieces": line.amount,
                "why": line.why,
                "bag": line.bag,
            }
            for line in lines
        ],
        "recharge": [{"battery": b.battery, "by": b.by.isoformat(), "late": b.late} for b in charge],
    }


def _amount(amount: float, unit: str) -> str:
    return f"{amount:g} {unit}".rstrip()


def _span(span: Span | None) -> str:
    return "not known" if span is None else f"{span.best:.1f} Ah ({span.low:.1f} to {span.high:.1f})"


def _triple(span: Span | None) -> list[float] | None:
    return None if span is None else [span.low, span.best, span.high]


def _kind_word(line: Line) -> str:
    """The word under which the sheet's wording has what to see."""
    if line.kind in ("rod", "item"):
        return line.kind
    if line.kind == "ballast":
        return "ballast-strip"
    return str(line.thing.use if line.kind == "lead" else line.thing.what)
