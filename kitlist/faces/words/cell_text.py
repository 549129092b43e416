"""Fields of things as people read them: one value, a table that fits the screen, what a typed value was taken for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from kitlist.base.fields import Field, fields_of, named_by
from kitlist.base.measures import told

_GAP = 2  # blanks between two columns
_NOTHING = ("", "unknown", "none")


def cell(field: Field, value: Any) -> str:
    """A field's value in words; "" where there is none."""
    if value is None or value == "" or value == []:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(value)
    if field.unit == "%":
        return f"{value * 100:g} %"
    if isinstance(value, float):
        return told(value, field.unit.replace("mm2", "mm²")).rstrip()
    return f"{value} {field.unit}".rstrip() if isinstance(value, int) else str(value)


def table(things: Sequence[Any], *, columns: int) -> tuple[str, tuple[str, ...]]:
    """The fields that any of the things has, as many whole ones as fit, and the words of those that are left out.

    The name is never cut: a table of one column is as wide as it must be.
    """
    fields = fields_of(things[0].__class__)
    used = [f for f in fields if any(cell(f, getattr(t, f.name)) not in _NOTHING for t in things)]
    shown: list[list[str]] = []
    left_out: list[str] = []
    for field in used:
        column = [field.label, *(cell(field, getattr(thing, field.name)) for thing in things)]
        wide = sum(max(map(len, other)) + _GAP for other in shown) + max(map(len, column))
        if shown and (wide > columns or left_out):
            left_out.append(field.word)
        else:
            shown.append(column)
    widths = [max(map(len, column)) for column in shown]
    rows = zip(*shown, strict=True)
    lines = [(" " * _GAP).join(text.ljust(w) for text, w in zip(row, widths, strict=True)).rstrip() for row in rows]
    return "\n".join(lines), tuple(left_out)


def understood(thing: Any, given: Mapping[str, Any]) -> tuple[str, ...]:
    """What was understood where it was written otherwise than it is kept: `area=4 AWG: 21.1 mm²`, a line each."""
    fields = {field.name: field for field in fields_of(thing.__class__)}
    lines = []
    for word, value in given.items():
        names = named_by(thing.__class__).get(word.replace("-", "_").casefold(), ())
        kept = [fields[name] for name in names if len(names) == 1 or getattr(thing, name) is not None]
        for field in kept:
            text = cell(field, getattr(thing, field.name)) or "not known"
            own_word = word.replace("_", "-") in (field.word, field.name.replace("_", "-"))
            if not (own_word and _same(str(value), text, field)):
                called = "" if own_word else f"{field.label} "
                lines.append(f"{word}={value}: {called}{text}{_test(thing, field, given)}")
    return tuple(lines)


def _test(thing: Any, field: Field, given: Mapping[str, Any]) -> str:
    """The test behind a cranking rating, where the rating's own words named it."""
    if field.name != "cranking_a" or {"cranking_standard", "cranking-standard", "standard"} & set(given):
        return ""
    return f" by the {thing.cranking_standard.upper()} test"


def _same(typed: str, kept: str, field: Field) -> bool:
    """Whether both are the same but for case, blanks, the unit and the form of a sign."""
    plain = [_plain(typed), _plain(kept)]
    unit = _plain(field.unit)
    return plain[0] == plain[1] or plain[0] + unit == plain[1] or (plain[0] in ("none", "?") and kept == "not known")


def _plain(text: str) -> str:
    folded = text.casefold().replace(",", ".").replace("²", "2").replace("−", "-").replace("°", "")
    return "".join(folded.split()).replace("t", "").removesuffix(":00")
