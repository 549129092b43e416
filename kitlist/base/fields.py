"""How a kind describes its own fields: help, unit, range, what it refers to.

The frozen dataclasses of `kitlist.kit` carry these descriptions in their annotations. The command line, the file
import, the listings and the store's checks all read them from there: each kind is described once.
"""

from __future__ import annotations

import dataclasses
import types
import typing
from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

UNIT_SUFFIXES = {
    "_ah": "Ah", "_a": "A", "_v": "V", "_mohm": "mohm", "_mm2": "mm2", "_mm": "mm", "_m": "m",
    "_h": "h", "_c": "°C", "_kg": "kg", "_l": "l", "_w": "W", "_ratio": "%",
}  # fmt: skip


def plural(kind: str) -> str:
    """The word for several things of a kind.

    >>> plural("battery"), plural("lead"), plural("gear")
    ('batteries', 'leads', 'gear')
    """
    return {"battery": "batteries", "gear": "gear"}.get(kind, f"{kind}s")


@dataclass(frozen=True, slots=True)
class About:
    """What one field is for: `help` in trade words, with range (in the field's unit) or the kind it names.

    `also` are other words that labels and people have for the field itself.
    """

    help: str
    low: float | None = None
    high: float | None = None
    refers: str = ""
    example: str = ""
    also: tuple[str, ...] = ()


@cache
def _unit_in(name: str) -> str:
    return next((unit for suffix, unit in UNIT_SUFFIXES.items() if name.endswith(suffix)), "")


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a kind, as the faces need it."""

    name: str
    about: About
    type: Any  # the plain type: str, float, int, bool, date, datetime, an enum, or tuple
    optional: bool
    required: bool
    default: Any
    word: str  # the one spelling that faces show and people type: without its unit where no other field has that name

    @property
    def unit(self) -> str:
        """The unit that the field's own name carries, or nothing."""
        return _unit_in(self.name) if self.type in (float, int) else ""

    @property
    def short_name(self) -> str:
        """The name without its unit: `area_mm2` is `area`, for a value that brings its own unit."""
        for suffix in UNIT_SUFFIXES:
            if self.unit and self.name.endswith(suffix):
                return self.name[: -len(suffix)]
        return self.name

    @property
    def label(self) -> str:
        """The field's name for people."""
        return self.word.replace("-", " ")

    @property
    def allowed(self) -> str:
        """What may stand in this field, in words."""
        if isinstance(self.type, type) and issubclass(self.type, StrEnum):
            return "one of " + ", ".join(self.type)
        if self.about.refers:
            what = f"the name of a {self.about.refers}"
            return f"a list, each {what}" if self.type is tuple else what
        low, high = self.about.low, self.about.high
        if self.type in (float, int):
            kind = "a whole number" if self.type is int else "a number"
            scale = 100 if self.unit == "%" else 1
            if low is not None and high is not None:
                return f"{kind} from {low * scale:g} to {high * scale:g} {self.unit}".rstrip()
            return kind
        return {
            "bool": "yes or no",
            "date": "a date like 2026-11-25",
            "datetime": "a time like 2026-11-25T07:30",
        }.get(getattr(self.type, "__name__", ""), "text of at most 120 characters, on one line")


def _plain(annotation: Any) -> tuple[Any, bool]:
    """The plain type behind `X | None` or `tuple[...]`, and whether None is allowed."""
    if typing.get_origin(annotation) in (types.UnionType, typing.Union):
        inner = [a for a in typing.get_args(annotation) if a is not types.NoneType]
        return _plain(inner[0])[0], True
    if typing.get_origin(annotation) is tuple:
        return tuple, False
    return annotation, False


@cache
def fields_of(kind: type) -> tuple[Field, ...]:
    """The described fields of a kind's dataclass, in order."""
    hints = typing.get_type_hints(kind, include_extras=True)
    found: list[Field] = []
    for field in dataclasses.fields(kind):
        annotation = hints[field.name]
        arguments = typing.get_args(annotation)
        about = next(a for a in arguments[1:] if isinstance(a, About))
        plain, optional = _plain(arguments[0])
        required = field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING
        found.append(Field(field.name, about, plain, optional, required, None if required else field.default, ""))
    taken = Counter(word for field in found for word in {field.name, field.short_name})
    return tuple(
        dataclasses.replace(
            field, word=(field.short_name if taken[field.short_name] == 1 else field.name).replace("_", "-")
        )
        for field in found
    )


@cache
def named_by(kind: type) -> dict[str, tuple[str, ...]]:
    """The fields of a kind by every word that names one, with `_` for `-`; more than one where a word names two.

    >>> from kitlist.kit import Tool
    >>> named_by(Tool)["rating"], named_by(Tool)["rating_v"]
    (('rating_a', 'rating_v'), ('rating_v',))
    """
    fields = fields_of(kind)
    words: dict[str, tuple[str, ...]] = {}
    for field in fields:
        for word in {field.short_name, *field.about.also}:
            words[word] = (*words.get(word, ()), field.name)
    return words | {field.name: (field.name,) for field in fields}
