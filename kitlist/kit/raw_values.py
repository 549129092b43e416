"""One raw value as a field takes it: numbers with their units, choices by the words people have for them, days."""

from __future__ import annotations

import re
import unicodedata
from datetime import date, datetime
from typing import Any

from kitlist.base import days, quantities, sayings
from kitlist.base.errors import BadData
from kitlist.base.fields import Field

MAX_TEXT = 120
PLAIN_NUMBER = re.compile(r"-?[0-9]{1,12}(\.[0-9]{1,20})?([eE][+-]?[0-9]{1,3})?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_YES_NO = {
    **dict.fromkeys(("yes", "y", "true", "1", "yep", "yeah"), True),
    **dict.fromkeys(("no", "n", "false", "0", "nope"), False),
}
_YES_NO_OF = {"built_in_cutoff": {"bms": True, "no bms": False}, "wet": {"wet": True, "dry": False}}


def one_line(text: str) -> str:
    """Text as it may be kept: one line, at most 120 characters, without control or direction-changing characters."""
    text = text.strip() if text.isascii() else unicodedata.normalize("NFC", text).strip()
    for character in "" if text.isprintable() else text:
        if unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") and character != "\u200d":
            raise ValueError(f"it holds the invisible character U+{ord(character):04X}")
    if len(text) > MAX_TEXT:
        raise ValueError(f"it is {len(text)} characters long")
    return text


def only_name(value: str) -> str:
    """Text that can be a name: not empty, and no option of a command line."""
    name = one_line(value)
    if not name:
        raise ValueError("it is empty")
    if name.startswith("-"):
        raise ValueError("a leading dash would be taken for an option")
    return name


def number(field: Field) -> Any:
    """A number in the field's own unit, from a number or from text with a unit."""

    def convert(value: Any) -> Any:
        if isinstance(value, bool):
            raise ValueError("a yes or no is not a number")
        if isinstance(value, str):
            if PLAIN_NUMBER.fullmatch(value):
                text, value = value, float(value)
                high = field.about.high
                if field.unit == "%" and high is not None and high < value <= high * 100:
                    raise ValueError(f"write {text}%")  # a bare number is a share, as files keep it: 0.005 is 0.5 %
            else:
                try:
                    text, value = value, quantities.parse(value, field.unit)
                except BadData as error:
                    raise ValueError(error.hint) from None
                if field.name == "volts_v" and value < 1 and text.casefold().rstrip().endswith("mv"):
                    bare = text.strip()[:-2].strip()  # a battery is read in volts, and so was this one
                    raise ValueError(f"write {bare}V for volts; a battery that truly shows so little is {value:g}V")
                if field.name == "thickness_mm":  # 1/16 in is the trade's 1.6, as of a rod
                    value = quantities.rod_diameter_mm(value)
        if field.name == "diameter_mm" and isinstance(value, int | float):
            return quantities.rod_diameter_mm(value)
        return value

    return convert


def yes_no(field: Field) -> Any:
    """Yes or no, in the usual words."""
    words = _YES_NO | _YES_NO_OF.get(field.name, {})

    def convert(value: Any) -> Any:
        return words.get(sayings.plain(value), value) if isinstance(value, str) else value

    return convert


def choice(field: Field) -> Any:
    """One of a term's members, by its own word or by another that people have for it."""

    def convert(value: Any) -> Any:
        if not isinstance(value, str):
            return value
        try:
            found = sayings.meant(field.type, value)
        except BadData as error:
            raise ValueError(error.hint) from None
        return value if found is None else found

    return convert


def names(value: Any) -> Any:
    """A list of names, from a list or from text with commas; `none` is the empty one."""
    if isinstance(value, str):
        value = [] if value.strip().casefold() == "none" else [part for part in value.split(",") if part.strip()]
    return [one_line(v) if isinstance(v, str) else v for v in value] if isinstance(value, list | tuple) else value


def moment(field: Field) -> Any:
    """A day, or a day with its hour, as people write it."""

    def convert(value: Any) -> Any:
        if isinstance(value, int | float):
            raise ValueError("a number is not a date")
        if field.name == "driven_at" and (_DAY.fullmatch(value.strip()) if isinstance(value, str) else _is_day(value)):
            raise ValueError("the hour is missing")  # at which of that day's readings it counts
        if not isinstance(value, str) or _is_standard(value):
            return value
        try:
            return days.day(value) if field.type is date else days.moment(value)
        except BadData as error:
            raise ValueError(error.hint) from None

    return convert


def meant(value: date) -> date:
    """A day or a moment of a year that somebody can mean."""
    if not days.is_meant(value):
        raise ValueError(f"write a year from {days.FIRST_YEAR} to {days.LAST_YEAR}")
    return value


def _is_standard(value: str) -> bool:
    """Whether a day or a moment is written as the standard has it, to the microsecond: that needs no understanding."""
    try:
        datetime.fromisoformat(value.strip())
    except ValueError:
        return False
    return True


def _is_day(value: Any) -> bool:
    return isinstance(value, date) and not isinstance(value, datetime)
