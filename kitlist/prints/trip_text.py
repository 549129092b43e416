"""A trip's life as lines for a terminal: the next step, the days, what was checked, used and goes back."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from kitlist.prints import clean
from kitlist.trips.next_step import NextStep
from kitlist.trips.timeline import Action

_LONGEST_DO = 150  # three lines of 60 columns, so that the next step stays within ten
_LONGEST_NAME = 60


def next_lines(step: NextStep, *, columns: int) -> Iterator[str]:
    """Ten lines or fewer at 60 columns: where things stand, the verdict, what to do, what to type, what comes after."""
    yield from _wrapped(clean.plain(step.stands, longest=2 * _LONGEST_NAME), columns)
    if step.verdict:
        yield f"{step.verdict.upper()}{f' ({step.counts})' if step.counts else ''}"
    by = f" (by {step.due_on})" if step.due_on else ""
    yield from _wrapped(f"Next: {clean.plain(step.do, longest=_LONGEST_DO)}{by}", columns, rest="      ")
    yield f"    > {clean.plain(step.command)}"
    if step.then:
        yield from _wrapped(clean.plain(step.then, longest=_LONGEST_DO), columns)


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
        yield from _wrapped(f"{action.due_on}  {state:5}  {clean.plain(action.what)}", columns, rest=" " * 19)
        if action.command and not action.done:
            yield f"{' ' * 19}> {clean.plain(action.command)}"


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
