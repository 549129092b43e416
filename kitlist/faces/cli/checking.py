"""check-off: going through the bags, key by key in a terminal, or typed from the paper sheet."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.judgement import Json
from kitlist.faces.cli.talk import not_one, now, open_store, say, show, show_json, today, who, width
from kitlist.faces.judging import judged

if TYPE_CHECKING:
    from kitlist.store import Store

WORDS_HINT = "From the sheet: kitlist check-off --sheet HASH --by NAME 1-12=there 13=missing 14=2"


def check_off(
    context: typer.Context,
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[TRIP] [ANSWER...]", help="The trip, else the next one; answers.", show_default=False),
    ] = None,
    by: Annotated[str | None, typer.Option(help="Who checks.", show_default=False)] = None,
    sheet: Annotated[str | None, typer.Option(help="The hash on the paper sheet.", show_default=False)] = None,
    listed: Annotated[bool, typer.Option("--list", help="List every number with its answer; ask nothing.")] = False,
    again: Annotated[bool, typer.Option("--again", help="Ask everything anew.")] = False,
    as_json: Json = False,
) -> None:
    """Go through the bags before a trip, thing by thing.

    Each answer is kept before the next is asked: stop where you like, and the same command goes on there. Typed
    answers are NUMBER=ANSWER from a printed sheet, or NAME=ANSWER; an answer is there, missing, damaged,
    home (left there on purpose, for this trip) or a count.

    Example: kitlist check-off --list
    """
    from kitlist.faces.words import trip_text
    from kitlist.store import checked_off as kept

    store = open_store(context)
    answers = [word for word in words or () if "=" in word]
    names = [word for word in words or () if "=" not in word]
    trip, numbers = _trip(store, names, sheet)
    if answers:
        _typed(store, trip, answers, numbers, by=by or who(context, store))
    elif sheet is not None:
        raise UsageError("no answers from the sheet", hint=WORDS_HINT)
    elif not (listed or as_json):
        _walk(store, trip, by=by or who(context, store), again=again)
    checked = kept.progress(store, trip)
    if as_json:
        show_json(trip_text.plain_check_off(trip, checked))
    elif listed:
        show("\n".join(trip_text.check_off_lines(checked, columns=min(width(), 100))))
    else:
        show("\n".join(trip_text.left_lines(trip, checked, columns=min(width(), 100))))


def _trip(store: Store, named: list[str], sheet: str | None) -> tuple[str, dict[int, tuple[str, str]]]:
    """The trip that is meant, and what the numbers of a sheet are."""
    from kitlist.base import names
    from kitlist.kit import next_trip
    from kitlist.store import checked_off as kept
    from kitlist.store.snapshot import trips

    if len(named) > 1:
        raise not_one(named, "trip", [t.name for t in trips(store)])
    known = trips(store)
    given = names.resolve(named[0], [t.name for t in known], what="trip") if named else None
    if sheet is None:
        return given or next_trip(known, on=today()).name, {}
    trip, numbers = kept.sheet(store, sheet)
    if given is not None and given != trip:
        raise UsageError(f"the sheet {sheet} is of {trip}, not of {given}")
    return trip, numbers


def _typed(store: Store, trip: str, words: list[str], numbers: dict[int, tuple[str, str]], *, by: str | None) -> None:
    from kitlist.store import checked_off as kept
    from kitlist.trips import check_off as checks

    by = by or kept.last_by(store, trip)
    if not by:
        raise UsageError("who checked is not said", hint=WORDS_HINT)
    if numbers:
        told = checks.typed(words, numbers)
    else:
        told = checks.named(words, kept.progress(store, trip), sheets=kept.sheets_of(store, trip))
    kept.record(store, trip, told, by=by, at=now())
    say(f"Kept {len(told)} answer{'' if len(told) == 1 else 's'} of {by}.")


def _walk(store: Store, trip: str, *, by: str | None, again: bool) -> None:
    """Ask line by line; the gaps of an answer follow at once."""
    from kitlist.faces.cli.walk import Walk
    from kitlist.store import checked_off as kept

    if not sys.stdin.isatty():
        raise UsageError("no terminal to ask at", hint=WORDS_HINT)
    if again:
        kept.begin_again(store, trip)
    if not kept.progress(store, trip):
        say("Nothing is stowed yet. kitlist import --starter has the usual things, every count at 0.")
        return
    while not by:
        by = typer.prompt("Who checks", default=kept.last_by(store, trip), show_default=True).strip()
    Walk(store, trip, by=by, columns=min(width(), 100), gaps=lambda: judged(store, trip, on=today()).gaps).go()
