"""What changed since the last print: digests of a sheet's lines, kept with the print, and the bars beside new ones."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Iterator
from datetime import date
from typing import Any

from kitlist.faces.paper.document import Section, Sheet, SheetItem, plain


def lines(sheet: Sheet) -> frozenset[str]:
    """Eight hex digits for each line that could have a change bar, whatever its place on the page."""
    return frozenset(digest for digest, _ in _pieces(sheet, ""))


def marked(sheet: Sheet, before: frozenset[str], *, revision: int, on: date) -> Sheet:
    """The sheet with a bar at each line that the earlier print did not have, and how many of its lines are gone."""
    changed: Sheet = _marked(sheet, "", before)
    return dataclasses.replace(
        changed,
        changes_since=f"revision {revision} of {on.isoformat()}",
        gone=len(before - lines(sheet)),
    )


def _pieces(value: Any, where: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, tuple):
        for entry in value:
            yield from _pieces(entry, where)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        if hasattr(value, "changed"):
            yield _digest(value, where), value
        for name, inner in _inner(value, where):
            yield from _pieces(getattr(value, name), inner)


def _marked(value: Any, where: str, before: frozenset[str]) -> Any:
    if isinstance(value, tuple):
        return tuple(_marked(entry, where, before) for entry in value)
    if not dataclasses.is_dataclass(value) or isinstance(value, type):
        return value
    new = {name: _marked(getattr(value, name), inner, before) for name, inner in _inner(value, where)}
    if hasattr(value, "changed"):
        new["changed"] = _digest(value, where) not in before
    return dataclasses.replace(value, **new)


def _inner(value: Any, where: str) -> Iterator[tuple[str, str]]:
    """The fields of a piece, each with the place that its lines belong to: the field's name, or a section's title."""
    for field in dataclasses.fields(value):
        yield field.name, value.title if isinstance(value, Section) else f"{where}.{field.name}"


def _digest(piece: Any, where: str) -> str:
    if getattr(piece, "number", 0) and isinstance(piece, SheetItem):
        piece = dataclasses.replace(piece, number=0)  # it moves when something is stowed before it
    text = json.dumps([where, plain(piece)], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]
