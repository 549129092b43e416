"""import --update: the table of what a changed file would make of the kit, asked about, then written as one change."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from kitlist.base import clean
from kitlist.base.measures import counted
from kitlist.faces.cli.asking import BackOne, Stopped, ask_yes, at_terminal
from kitlist.faces.cli.talk import now, open_store, say, show, width

if TYPE_CHECKING:
    from collections.abc import Iterator

    from kitlist.base.fields import Field
    from kitlist.store.updating import Differing, Update

NOT_WRITTEN = 1  # nobody has agreed to what was shown
LEFT_OUT_SHOWN = 12  # names that are listed; the rest are counted


def update(context: typer.Context, file: Path, *, kind: str | None, remove: bool, yes: bool, dry_run: bool) -> None:
    """Show what the file changes; write it where somebody agrees. Ends with 1 where nobody has."""
    from kitlist.store import clock, updating

    store = open_store(context)
    found = updating.update(store, file, kind=kind, remove=remove)
    for line in _lines(found, file):
        show(line)
    if found.is_empty:
        say("Nothing to change.")
        return
    if clock.too_late(found.newest_reading, by_clock=now()):
        say(f"Its newest reading, {found.newest_reading}, is later than this machine's clock. Is the clock right?")
    if dry_run or not (yes or _agreed()):
        say("Nothing was written." + ("" if dry_run or at_terminal() else " Write it with --yes."))
        if not dry_run:
            raise typer.Exit(NOT_WRITTEN)
        return
    updating.update(store, file, kind=kind, remove=remove, expected=found)
    say(f"Written: {_in_short(found)}. kitlist undo takes all of it back.")


def _agreed() -> bool:
    if not at_terminal():
        return False
    try:
        return bool(ask_yes("Write this?"))
    except (BackOne, Stopped):
        return False


def _in_short(found: Update) -> str:
    many = [(becomes, sum(1 for d in found.differing if d.becomes is becomes)) for becomes in _becomes()]
    said = [f"{count} {becomes}" for becomes, count in many if count]
    return ", ".join([*said, *(["settings"] if found.settings else [])])


def _becomes() -> list[str]:
    from kitlist.store.updating import Becomes

    return list(Becomes)


def _lines(found: Update, file: Path) -> Iterator[str]:
    """The table: what is added, changed, removed, a thing a line; then what stays, and why."""
    columns = min(width(), 100)
    for one in found.differing:
        yield from _wrapped(f"{one.becomes}: {one.kind} {clean.plain(one.name)}{_fields(one)}", columns)
    for word, (before, after) in found.settings.items():
        yield from _wrapped(f"changed: settings: {word} {before or 'nobody'} -> {after or 'nobody'}", columns)
    for words in found.kept:
        yield from _wrapped(f"stays as changed here since the export: {clean.plain(words)}", columns)
    if found.left_out:
        named = [f"{kind} {clean.plain(name)}" for kind, name in found.left_out]
        rest = len(named) - LEFT_OUT_SHOWN
        more = f" and {rest} more" if rest > 0 else ""
        words = f"left out of the file, and stays (--remove takes it out): {', '.join(named[:LEFT_OUT_SHOWN])}{more}"
        yield from _wrapped(words, columns)
    if found.unchanged:
        yield f"the same: {counted(found.unchanged, 'thing')}"
    if not found.is_empty and not found.dated:
        words = f"{file.name} does not say from when it is: look whether the kit was changed since, line by line."
        yield from _wrapped(words, columns)


def _fields(one: Differing) -> str:
    said = [f"{f.label} {_cell(f, before)} -> {_cell(f, after)}" for f, before, after in one.fields]
    return f": {', '.join(said)}" if said else ""


def _cell(field: Field, value: object) -> str:
    from kitlist.faces.words.cell_text import cell

    return clean.plain(cell(field, value)) or ("not known" if value is None else "nothing")


def _wrapped(text: str, columns: int) -> list[str]:
    return textwrap.wrap(text, columns, subsequent_indent="    ", break_on_hyphens=False)
