"""What a shell completes: the names that the store has, and the fields of a kind."""

from __future__ import annotations

from collections.abc import Callable

import typer

from kitlist.base.errors import KitlistError
from kitlist.base.fields import fields_of

Complete = Callable[[typer.Context, str], list[str]]


def names_of(kind: str) -> Complete:
    """The names of a kind in the store of this command; none where there is no store."""

    def complete(context: typer.Context, incomplete: str) -> list[str]:
        from kitlist.store import Store, changes, default_path

        try:
            path = context.find_root().params.get("store") or default_path()
            found = [str(thing.name) for thing in changes.listed(Store(path), kind)] if path.is_file() else []
        except KitlistError:
            return []
        return [name for name in found if name.casefold().startswith(incomplete.casefold())]

    return complete


def fields_of_kind(kind: type) -> Complete:
    """The words of a kind's fields, each with the `=` that its value follows."""

    def complete(context: typer.Context, incomplete: str) -> list[str]:
        return [f"{field.word}=" for field in fields_of(kind) if f"{field.word}=".startswith(incomplete)]

    return complete
