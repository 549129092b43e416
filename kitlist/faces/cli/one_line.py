"""Several facts in one answer: `Ca/Ca 75Ah 720A EN` is what is inside, a capacity and a rating, in any order.

Each word or few words must fit one part alone, and all of them must fit; what can be read two ways is asked again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from kitlist.base import quantities, sayings
from kitlist.base.errors import BadData
from kitlist.base.fields import Field
from kitlist.kit import label_words, raw_values

LONGEST = 7  # words that one part may take, as of a rod that its packet calls E 42 4 B 42 H5
MOST = 14  # words of an answer: a longer one is no list of facts
_APART = re.compile(r"\s+|\s*;\s*|,\s+|,(?=\D)|(?<=\D),")
_BETWEEN = ("and", "/", "-", "+", "&")


@dataclass(frozen=True, slots=True)
class Asked:
    """One field of a line: what it is called in the question, an example of it, and the question for it alone."""

    field: str
    called: str
    example: str
    alone: str
    more: str = ""


def taken_apart(
    fields: Mapping[str, Field], parts: Sequence[Asked], text: str, *, passed_over: re.Pattern[str] | None = None
) -> dict[str, str]:
    """The text of each field that an answer names, by field. Raises BadData for a word that fits none, or two.

    What `passed_over` matches stands on labels and is nobody's answer, as the 12 V of every battery.
    """
    plain = passed_over.sub(" ", text) if passed_over else text
    words = [word for word in _APART.split(plain.strip()) if word and word.casefold() not in _BETWEEN]
    if len(words) > MOST:
        raise BadData("that is more than was asked", hint=_wanted(parts))
    found: list[tuple[int, dict[str, str]]] = []
    for reading in _readings(fields, tuple(parts), words):
        free = sum(len(value.split()) for field, value in reading.items() if fields[field].type is str)
        if (free, reading) not in found:
            found.append((free, reading))
    found.sort(key=lambda pair: (pair[0], -len(pair[1])))
    if not found:
        raise BadData(_what_fits_none(fields, parts, words), hint=_wanted(parts))
    if len(found) > 1 and found[0][0] == found[1][0] and found[0][1] != found[1][1]:
        raise BadData(f"{text[:60]!r} can be read two ways", hint=_wanted(parts))
    return found[0][1]


def _readings(fields: Mapping[str, Field], parts: tuple[Asked, ...], words: Sequence[str]) -> Iterator[dict[str, str]]:
    """Every way to give all words to parts, each part once."""
    if not words:
        yield {}
        return
    for many in range(1, min(LONGEST, len(words)) + 1):
        text = " ".join(words[:many])
        for part in parts:
            if _takes(fields[part.field], text):
                rest = tuple(other for other in parts if other is not part)
                for reading in _readings(fields, rest, words[many:]):
                    yield {part.field: text, **reading}


def _takes(field: Field, text: str) -> bool:
    """Whether words can be a field's value by their own form: a number must bring its unit."""
    if isinstance(field.type, type) and issubclass(field.type, StrEnum):
        try:
            return sayings.meant(field.type, text) is not None
        except BadData:
            return True  # a word of it that means two things: the entry says how to write it
    if field.name == "cranking_a":
        return label_words.cranking("cranking", text)[1] is not None or _measures(text, field)
    if field.type in (float, int):
        bare = field.name == "diameter_mm" and raw_values.PLAIN_NUMBER.fullmatch(text.replace(",", ".")) is not None
        return bare or _measures(text, field)  # a rod of 3.2 is one of 3.2 mm to everybody
    return True


def _measures(text: str, field: Field) -> bool:
    if raw_values.PLAIN_NUMBER.fullmatch(text.replace(",", ".")):
        return False
    try:
        quantities.parse(text, field.unit)
    except BadData:
        return False
    return True


def _what_fits_none(fields: Mapping[str, Field], parts: Sequence[Asked], words: Sequence[str]) -> str:
    alone = [w for w in words if not any(_takes(fields[p.field], w) for p in parts)]
    bare = next((w for w in alone if raw_values.PLAIN_NUMBER.fullmatch(w.replace(",", "."))), "")
    if bare and len(alone) == 1:
        return f"{bare} of what? Say the unit"
    for word in alone:
        for part in parts:
            if how := _how_to_write(fields[part.field], word):
                return f"{word[:40]!r}: {how}"
    unread = alone[0] if alone else " ".join(words)
    return f"{unread[:40]!r} is not understood here"


def _how_to_write(field: Field, word: str) -> str:
    """What is said of a word that can mean two things, as 2/0; "" for the rest."""
    try:
        if field.type in (float, int):
            quantities.parse(word, field.unit)
    except BadData as error:
        return error.hint
    return ""


def _wanted(parts: Sequence[Asked]) -> str:
    return f"Wanted: {called(parts)}; for example {example(parts)}."


def called(parts: Sequence[Asked]) -> str:
    """The parts as a question names them."""
    return ", ".join(part.called for part in parts)


def example(parts: Sequence[Asked]) -> str:
    """An answer as one would type it."""
    return " ".join(part.example for part in parts)


def known(fields: Mapping[str, Field], parts: Sequence[Asked], thing: Any) -> str:
    """What is known of the parts already, as an answer shows it; "" where nothing is."""
    from kitlist.faces.words.cell_text import cell

    cells = [cell(fields[part.field], getattr(thing, part.field)) for part in parts]
    return ", ".join(text for text in cells if text not in ("", "unknown"))
