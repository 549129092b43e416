"""journal and undo: what was changed, by which command and by whom; and taking a command back."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.faces.cli.judgement import Json
from kitlist.faces.cli.talk import open_store, say, show, show_json, width

if TYPE_CHECKING:
    from kitlist.store.journalled import Given, RowChange

SHOWN = 6  # changes of one command that are listed; an import has thousands


def journal(
    context: typer.Context,
    thing: Annotated[str | None, typer.Argument(help="Only what changed this.", show_default=False)] = None,
    count: Annotated[int, typer.Option(min=1, max=1000, help="How many commands.")] = 20,
    every: Annotated[bool, typer.Option("--all", help="Every change of each command.")] = False,
    as_json: Json = False,
) -> None:
    """Show what was changed, the newest first.

    When, by which command, by whom, and from what to what. Who it was is kept where --by or KITLIST_BY says it.

    Example: kitlist journal heron-main
    """
    from kitlist.store import journalled

    found = journalled.listed(open_store(context), thing, count=count)
    if as_json:
        show_json([_plain(entry, changes) for entry, changes in found])
        return
    if not found:
        say("Nothing was changed since the journal began.")
    for entry, changes in found:
        show(textwrap.fill(_heading(entry), min(width(), 100), subsequent_indent="    ", break_on_hyphens=False))
        lines = [journalled.in_words(change) for change in changes]
        for line in lines if every else lines[:SHOWN]:
            show(textwrap.fill(line, min(width(), 100), initial_indent="    ", subsequent_indent="      "))
        if not every and len(lines) > SHOWN:
            show(f"    and {len(lines) - SHOWN} more (--all)")


def _heading(entry: Given) -> str:
    what = f"takes back {entry.undoes}" if entry.undoes else entry.words
    who = f", {entry.who}" if entry.who else ""
    state = f" [taken back by {entry.undone_by}]" if entry.undone_by else ""
    return f"{entry.number}  {entry.at[:16]}{who}  {what}{state}".rstrip()


def _plain(entry: Given, changes: tuple[RowChange, ...]) -> dict[str, Any]:
    from kitlist.store import journalled

    return {
        "number": entry.number,
        "at": entry.at,
        "words": entry.words,
        "who": entry.who,
        "undoes": entry.undoes,
        "undone_by": entry.undone_by,
        "changes": [journalled.in_words(change) for change in changes],
    }


def undo(
    context: typer.Context,
    number: Annotated[
        int | None,
        typer.Argument(min=1, max=10**15, help="A command's number in the journal; else the last.", show_default=False),
    ] = None,
) -> None:
    """Take back the last command; again, the one before.

    Each goes back as a whole. Refused where something later stands on it. Taking back can itself be taken back.
    Printed papers stay printed.

    Example: kitlist undo
    """
    from kitlist.store import undoing

    done = undoing.undo(open_store(context), number)
    what = f"the taking back of {done.entry.undoes}" if done.entry.undoes else done.entry.words or "a change"
    say(f"Took back {what} ({done.entry.number}, {done.entry.at[:16]}).")
    say(f"To have it again: kitlist undo {done.number}")
