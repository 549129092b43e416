"""find: anything by a word of it, with where it lies."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.faces.cli.talk import columns, open_store, say, show, show_json

if TYPE_CHECKING:
    from kitlist.kit import Kit


def find(
    context: typer.Context,
    word: Annotated[str, typer.Argument(metavar="WORD", help="Any part of it.", show_default=False)],
    as_json: Annotated[bool, typer.Option("--json", help="For a script.")] = False,
) -> None:
    """Find anything by a word of it, with where it lies.

    Example: kitlist find filter
    """
    from kitlist.store.snapshot import snapshot

    found = _found(snapshot(open_store(context)), word)
    if as_json:
        show_json([dict(zip(("kind", "name", "where", "says"), row, strict=True)) for row in found])
    elif found:
        show(columns(found, ("kind", "name", "where", "says"), cut_last=True))
    else:
        say(f"Nothing in the kit has {word[:40]!r} in it.")
    raise typer.Exit(0 if found else 4)


def _found(kit: Kit, word: str) -> list[tuple[str, str, str, str]]:
    """Everything with the word in its name or in another of its texts: kind, name, where it lies, what says so."""
    from kitlist.base.fields import fields_of
    from kitlist.faces.words.cell_text import cell
    from kitlist.kit import KINDS, PLURALS

    folded = word.casefold()
    found = []
    for kind in KINDS:
        for thing in getattr(kit, PLURALS[kind]) if kind != "reading" else ():
            texts = {field.word: cell(field, getattr(thing, field.name)) for field in fields_of(thing.__class__)}
            says = [f"{field}: {text}" for field, text in texts.items() if folded in text.casefold()]
            if says:
                mine = "" if folded in thing.name.casefold() else says[0]
                found.append((kind, thing.name, _where(kit, thing), mine))
    return found


def _where(kit: Kit, thing: Any) -> str:
    """Where a thing lies: its bag with the bag's place, or its vehicle."""
    bag = getattr(thing, "bag", None)
    if bag:
        place = next((b.place for b in kit.bags if b.name == bag), "")
        return f"{bag}, {place}" if place else str(bag)
    vehicle = getattr(thing, "vehicle", None)
    return str(vehicle or getattr(thing, "place", "") or "")
