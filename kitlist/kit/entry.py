"""The one way in for outside data: a mapping of raw values becomes a kit dataclass, or a list of what is wrong.

Values come from a TOML or CSV file, from JSON or from the command line. Numbers may be given as numbers in the
field's own unit (`area_mm2 = 25`) or as text with a unit under the short name (`area = "4 AWG"`).
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Annotated, Any

from kitlist.base import sayings
from kitlist.base.errors import BadData
from kitlist.base.fields import Field, fields_of, named_by
from kitlist.kit import KINDS, label_words, raw_values

if TYPE_CHECKING:
    from pydantic import BaseModel


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

    fields, lists = _fields(kind)
    named, typed, problems = _by_field(kind, fields, values)
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
def _fields(kind: str) -> tuple[dict[str, Field], tuple[Field, ...]]:
    """The fields of a kind by name, and those that are lists."""
    fields = {f.name: f for f in fields_of(KINDS[kind])}
    return fields, tuple(f for f in fields.values() if f.type is tuple)


def _between_fields(thing: Any, lists: tuple[Field, ...]) -> list[Problem]:
    """What does not hold together although each value may be taken for itself."""
    problems = [Problem(*p) for p in getattr(thing, "problems", tuple)()]
    for field in lists:
        members = [member.casefold() for member in getattr(thing, field.name)]
        if len(set(members)) != len(members) and all(p.field != field.name for p in problems):
            problems.append(Problem(field.name, f"{field.word}: a {field.about.refers} stands in it twice"))
    return problems


def _title(kind: str, values: Mapping[str, Any]) -> str:
    name = values.get("name", values.get("battery"))
    return f"{kind} {name!r}" if isinstance(name, str) else kind


def _by_field(
    kind: str, fields: Mapping[str, Field], values: Mapping[str, Any]
) -> tuple[dict[str, Any], dict[str, str], list[Problem]]:
    """Raw values under their fields' own names, the word that each was given under, and what cannot be taken."""
    named: dict[str, Any] = {}
    typed: dict[str, str] = {}
    problems = []
    for word, value in label_words.spelled_out(named_by(KINDS[kind]), values).items():
        names = _named(kind, word)
        if not names:
            problems.append(Problem(word, _no_such_field(kind, word, fields)))
            continue
        try:
            name = names[0] if len(names) == 1 else label_words.one_of(fields, names, word, value)
        except BadData as error:
            problems.append(Problem(names[0], f"{word} = {shown(value)}: {error.hint}"))
            continue
        field = fields[name]
        if name in named:
            problems.append(Problem(word, f"{word}: {field.word} is given twice"))
        elif value is not None:
            named[name], typed[name] = None if _is_none(field, value) else value, word
            if word != name and _bare(value) and (units := _units_of(field, value.strip())):
                problems.append(Problem(name, f"{word} = {shown(value)}: say the unit: {units}"))
    return named, typed, problems


@lru_cache(maxsize=1000)
def _named(kind: str, word: str) -> tuple[str, ...]:
    """The fields that a word names."""
    return named_by(KINDS[kind]).get(word.replace("-", "_").casefold(), ())


def _no_such_field(kind: str, word: str, fields: Mapping[str, Field]) -> str:
    words = [field.word for field in fields.values()]
    near = difflib.get_close_matches(word.replace("_", "-").casefold(), words, n=1, cutoff=0.7)
    asked = f"; is it {near[0]}?" if near else ""
    return f"{shown(word)[1:-1]}: a {kind} has no such field{asked}; it has {', '.join(words)}"


def _is_none(field: Field, value: Any) -> bool:
    """Whether a value says that an optional field is empty, or that nobody knows it."""
    if not field.optional or not isinstance(value, str) or value[:1].isdigit():  # most values of an import are numbers
        return False
    return value.strip().casefold() == "none" or (field.type is not str and sayings.is_not_known(value))


def _bare(value: Any) -> bool:
    """Whether a value is a number without a unit."""
    return isinstance(value, str) and raw_values.PLAIN_NUMBER.fullmatch(value.strip()) is not None


def _units_of(field: Field, number: str) -> str:
    """What a number without a unit can mean, where it can mean two things: an area or a gauge, a ratio or percent."""
    if field.unit == "mm2":
        return f"{number} mm2 or {number} AWG"
    ratio, high = float(number), field.about.high
    if field.unit != "%" or high is None or not _ALWAYS_RATIO <= ratio <= high:
        return ""  # less is no percentage of a meter, and more no ratio: `raw_values` takes it for percent
    return f"{number} % or {ratio * 100:g} %"


_ALWAYS_RATIO = 0.01  # no meter of the trade is as good as a hundredth of a percent


def _problem(field: Field, named: Mapping[str, Any], typed: Mapping[str, str], error: str, message: str) -> Problem:
    if error == "missing":
        return Problem(field.name, f"{field.word} is missing: {field.about.help}; {field.allowed}")
    said = message.removeprefix("Value error, ")
    why = f" ({said})" if error == "value_error" and field.type is str else ""
    if error == "value_error" and said.startswith("write "):
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
            rules = (float, limits, BeforeValidator(raw_values.number(field)))
        elif field.type is int:
            rules = (int, Rule(ge=field.about.low, le=field.about.high), BeforeValidator(raw_values.number(field)))
        elif field.type is bool:
            rules = (bool, Strict(), BeforeValidator(raw_values.yes_no(field)))
        elif field.type is tuple:
            rules = (tuple[Annotated[str, Strict()], ...], BeforeValidator(raw_values.names))
        elif field.type in (date, datetime):
            day_or_moment = date if field.type is date else NaiveDatetime
            rules = (day_or_moment, AfterValidator(raw_values.meant), BeforeValidator(raw_values.moment(field)))
        elif issubclass(field.type, StrEnum):
            rules = (field.type, BeforeValidator(raw_values.choice(field)))
        else:
            rules = (str, Strict(), AfterValidator(raw_values.only_name if field.required else raw_values.one_line))
        rule: Any = Annotated[rules]
        columns[field.name] = (rule | None if field.optional else rule, ... if field.required else field.default)
    return create_model(f"{kind}_values", __config__=ConfigDict(extra="forbid"), **columns)
