"""Fields of things as people read them: one value, a table that fits the screen, what a typed value was taken for."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from kitlist.base import resources
from kitlist.base.fields import Field, fields_of, named_by
from kitlist.base.measures import imperial, with_unit
from kitlist.base.terms import Units

_GAP = 2  # blanks between two columns
_NOTHING = ("", "unknown", "none")


def cell(field: Field, value: Any, *, units: Units = Units.METRIC) -> str:
    """A field's value in words, with the owner's units beside the metric; "" where there is none."""
    if value is None or value == "" or value == []:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(value)
    if field.unit == "%":
        return f"{value * 100:g} %"
    if isinstance(value, float):
        unit = field.unit.replace("mm2", "mm²")
        beside = imperial(value, unit) if units is Units.IMPERIAL else ""
        return with_unit(value, unit).rstrip() + (f" ({beside})" if beside else "")
    return f"{value} {field.unit}".rstrip() if isinstance(value, int) else str(value)


def table(
    things: Sequence[Any],
    *,
    columns: int,
    units: Units = Units.METRIC,
    extra: Mapping[str, Sequence[str]] | None = None,
) -> tuple[str, tuple[str, ...]]:
    """The fields that any of the things has, as many whole ones as fit, and the words of those that are left out.

    Where not all fit, those that decide most go first (`seed_data/words/columns.toml`); they stand in their usual
    order. `extra` are columns of a face's own, behind the name, each with a cell a thing. The name is never cut: a
    table of one column is as wide as it must be.
    """
    kind = things[0].__class__
    fields = fields_of(kind)
    made = {f.word: [f.label, *(cell(f, getattr(t, f.name), units=units) for t in things)] for f in fields}
    first = fields[0].word
    whole = {first: made.pop(first)} | {word: [word, *cells] for word, cells in (extra or {}).items()} | made
    used = [word for word, column in whole.items() if any(text not in _NOTHING for text in column[1:])]
    width = {word: max(map(len, whole[word])) for word in used}
    by_worth = list(dict.fromkeys((*(w for w in (first, *(extra or {}), *_worth(kind)) if w in used), *used)))
    shown: set[str] = set()
    taken = -_GAP
    for word in by_worth:
        if not shown or taken + _GAP + width[word] <= columns:
            shown.add(word)
            taken += _GAP + width[word]
        elif word not in _worth(kind):
            break
    kept = [word for word in used if word in shown]
    rows = zip(*(whole[word] for word in kept), strict=True)
    lines = [(" " * _GAP).join(t.ljust(width[w]) for t, w in zip(row, kept, strict=True)).rstrip() for row in rows]
    return "\n".join(lines), tuple(word for word in used if word not in shown)


@cache
def _worth(kind: type) -> tuple[str, ...]:
    """The words of the columns of a kind that decide most, the first of them first."""
    path = resources.folder("seed_data") / "words" / "columns.toml"
    return tuple(tomllib.loads(path.read_text(encoding="utf-8")).get(kind.__name__.casefold(), ()))


def understood(thing: Any, given: Mapping[str, Any], *, units: Units = Units.METRIC) -> tuple[str, ...]:
    """What was understood where it was written otherwise than it is kept: `area=4 AWG: 21.1 mm²`, a line each."""
    fields = {field.name: field for field in fields_of(thing.__class__)}
    lines = []
    for word, value in given.items():
        names = named_by(thing.__class__).get(word.replace("-", "_").casefold(), ())
        kept = [fields[name] for name in names if len(names) == 1 or getattr(thing, name) is not None]
        for field in kept:
            text = cell(field, getattr(thing, field.name), units=units) or "not known"
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
