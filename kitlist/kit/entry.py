"""The one way in for outside data: a mapping of raw values becomes a kit dataclass, or a list of what is wrong.

Values come from a TOML or CSV file, from JSON or from the command line. Numbers may be given as numbers in the
field's own unit (`area_mm2 = 25`) or as text with a unit under the short name (`area = "4 AWG"`).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any

from kitlist.base import quantities
from kitlist.base.errors import BadData
from kitlist.base.fields import Field, fields_of
from kitlist.kit import KINDS

if TYPE_CHECKING:
    from pydantic import BaseModel

MAX_TEXT = 120
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_PLAIN_NUMBER = re.compile(r"-?[0-9]{1,12}(\.[0-9]{1,20})?([eE][+-]?[0-9]{1,3})?")
_YES_NO = {
    "yes": True,
    "y": True,
    "true": True,
    "1": True,
    "no": False,
    "n": False,
    "false": False,
    "0": False,
}


@dataclass(frozen=True, slots=True)
class Problem:
    """One value that cannot be taken."""

    field: str
    sentence: str


class BadEntry(BadData):
    """The values of one thing cannot be taken; `problems` lists every reason."""

    def __init__(self, what: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{what}: " + "; ".join(p.sentence for p in problems))
        self.problems = problems


def build(kind: str, values: Mapping[str, Any]) -> Any:
    """The kit dataclass of `kind` from raw values. Raises BadEntry with every problem at once.

    >>> build("rod", {"name": "tube", "designation": "E6013", "diameter": "1/8 in", "count": 20}).diameter_mm
    3.2
    """
    from pydantic import ValidationError

    fields, by_word, lists = _words(kind)
    named, typed, problems = _by_field(kind, fields, by_word, values)
    try:
        checked = _model(kind).model_validate(named)
    except ValidationError as error:
        for detail in error.errors(include_url=False, include_context=False):
            name = str(detail["loc"][0])
            if all(p.field != name for p in problems):
                problems.append(_problem(fields[name], named, typed, detail["type"], detail["msg"]))
        raise BadEntry(_title(kind, values), tuple(problems)) from None
    if not problems:
        thing = KINDS[kind](**vars(checked))
        problems = _between_fields(thing, lists)
        if not problems:
            return thing
    raise BadEntry(_title(kind, values), tuple(problems))


@cache
def _words(kind: str) -> tuple[dict[str, Field], dict[str, str], tuple[Field, ...]]:
    """The fields of a kind by name, the name behind every word that names one, and those that are lists."""
    fields = {f.name: f for f in fields_of(KINDS[kind])}
    by_word = {f.short_name: f.name for f in fields.values()} | {name: name for name in fields}
    return fields, by_word, tuple(f for f in fields.values() if f.type is tuple)


def _between_fields(thing: Any, lists: tuple[Field, ...]) -> list[Problem]:
    """What does not hold together although each value may be taken for itself."""
    problems = [Problem(*p) for p in getattr(thing, "problems", tuple)()]
    for field in lists:
        members = [member.casefold() for member in getattr(thing, field.name)]
        if len(set(members)) != len(members) and all(p.field != field.name for p in problems):
            problems.append(Problem(field.name, f"{field.name}: a {field.about.refers} stands in it twice"))
    return problems


def _title(kind: str, values: Mapping[str, Any]) -> str:
    name = values.get("name", values.get("battery"))
    return f"{kind} {name!r}" if isinstance(name, str) else kind


def _by_field(
    kind: str, fields: Mapping[str, Field], by_word: Mapping[str, str], values: Mapping[str, Any]
) -> tuple[dict[str, Any], dict[str, str], list[Problem]]:
    """Raw values under their fields' own names, the word that each was given under, and what cannot be taken."""
    named: dict[str, Any] = {}
    typed: dict[str, str] = {}
    problems = []
    for word, value in values.items():
        field = by_word.get(word.replace("-", "_"))
        if field is None:
            sentence = f"{shown(word)[1:-1]}: a {kind} has no such field; it has {', '.join(fields)}"
            problems.append(Problem(word, sentence))
        elif field in named:
            problems.append(Problem(word, f"{word}: {field} is given twice"))
        elif value is not None:
            named[field], typed[field] = value, word
            if word != field and fields[field].unit == "mm2" and _bare(value):
                problems.append(Problem(field, f"{word} = {shown(value)}: say the unit: {value} mm2 or {value} AWG"))
    return named, typed, problems


def _bare(value: Any) -> bool:
    """Whether a value is a number without a unit."""
    return isinstance(value, str) and _PLAIN_NUMBER.fullmatch(value.strip()) is not None


def _problem(field: Field, named: Mapping[str, Any], typed: Mapping[str, str], error: str, message: str) -> Problem:
    if error == "missing":
        return Problem(field.name, f"{field.name} is missing: {field.about.help}; {field.allowed}")
    said = message.removeprefix("Value error, ")
    why = f" ({said})" if error == "value_error" and field.type is str else ""
    if error == "value_error" and field.type in (float, int) and said.startswith("write "):
        return Problem(field.name, f"{typed[field.name]} = {shown(named[field.name])}: {said}")
    return Problem(field.name, f"{typed[field.name]} = {shown(named[field.name])}: must be {field.allowed}{why}")


def shown(value: Any) -> str:
    """A raw value as a message may show it: short, on one line, what is invisible written out."""
    if isinstance(value, str):
        return repr(value[:60] + ("…" if len(value) > 60 else ""))
    try:
        text = str(value)[:60]
    except ValueError:  # Python writes no whole number of more than 4300 digits
        return "a number of thousands of digits"
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)


def one_line(text: str) -> str:
    """Text as it may be kept: one line, at most 120 characters, without control or direction-changing characters."""
    text = text.strip() if text.isascii() else unicodedata.normalize("NFC", text).strip()
    for character in "" if text.isprintable() else text:
        if unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") and character != "\u200d":
            raise ValueError(f"it holds the invisible character U+{ord(character):04X}")
    if len(text) > MAX_TEXT:
        raise ValueError(f"it is {len(text)} characters long")
    return text


def _number(field: Field) -> Any:
    def convert(value: Any) -> Any:
        if isinstance(value, bool):
            raise ValueError("a yes or no is not a number")
        if isinstance(value, str):
            if _PLAIN_NUMBER.fullmatch(value):
                value = float(value)
            else:
                try:
                    value = quantities.parse(value, field.unit)
                except BadData as error:
                    raise ValueError(error.hint) from None
                if field.name == "thickness_mm":  # 1/16 in is the trade's 1.6, as of a rod
                    value = quantities.rod_diameter_mm(value)
        if field.name == "diameter_mm" and isinstance(value, int | float):
            return quantities.rod_diameter_mm(value)
        return value

    return convert


def _yes_no(value: Any) -> Any:
    return _YES_NO.get(value.strip().casefold(), value) if isinstance(value, str) else value


def _choice(value: Any) -> Any:
    return value.strip().casefold().replace(" ", "-") if isinstance(value, str) else value


def _list(value: Any) -> Any:
    if isinstance(value, str):
        value = [] if value.strip().casefold() == "none" else [part for part in value.split(",") if part.strip()]
    return [one_line(v) if isinstance(v, str) else v for v in value] if isinstance(value, list | tuple) else value


def _moment(field: Field) -> Any:
    def convert(value: Any) -> Any:
        if isinstance(value, int | float):
            raise ValueError("a number is not a date")
        if field.name == "driven_at" and (_DAY.fullmatch(value.strip()) if isinstance(value, str) else _is_day(value)):
            raise ValueError("the hour is missing")  # at which of that day's readings it counts
        return value

    return convert


def _is_day(value: Any) -> bool:
    return isinstance(value, date) and not isinstance(value, datetime)


def _only_name(value: str) -> str:
    name = one_line(value)
    if not name:
        raise ValueError("it is empty")
    if name.startswith("-"):
        raise ValueError("a leading dash would be taken for an option")
    return name


@cache
def _model(kind: str) -> type[BaseModel]:
    """A validating model for one kind, made from the kind's own description."""
    from pydantic import AfterValidator, BeforeValidator, ConfigDict, NaiveDatetime, Strict, create_model
    from pydantic import Field as Rule

    columns: dict[str, Any] = {}
    for field in fields_of(KINDS[kind]):
        rules: tuple[Any, ...]
        if field.type is float:
            limits = Rule(ge=field.about.low, le=field.about.high, allow_inf_nan=False)
            rules = (float, limits, BeforeValidator(_number(field)))
        elif field.type is int:
            rules = (int, Rule(ge=field.about.low, le=field.about.high), BeforeValidator(_number(field)))
        elif field.type is bool:
            rules = (bool, Strict(), BeforeValidator(_yes_no))
        elif field.type is tuple:
            rules = (tuple[Annotated[str, Strict()], ...], BeforeValidator(_list))
        elif field.type in (date, datetime):
            rules = (date if field.type is date else NaiveDatetime, BeforeValidator(_moment(field)))
        elif issubclass(field.type, StrEnum):
            rules = (field.type, BeforeValidator(_choice))
        else:
            rules = (str, Strict(), AfterValidator(_only_name if field.required else one_line))
        rule: Any = Annotated[rules]
        columns[field.name] = (rule | None if field.optional else rule, ... if field.required else field.default)
    return create_model(f"{kind}_values", __config__=ConfigDict(extra="forbid"), **columns)
