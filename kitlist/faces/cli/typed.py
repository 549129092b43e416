"""FIELD=VALUE as it is typed: words that a clock gives their meaning become days, and what was understood is shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from kitlist.base import days
from kitlist.base.errors import BadData, UsageError
from kitlist.base.fields import Field, fields_of, named_by
from kitlist.faces.cli.talk import now, say

if TYPE_CHECKING:
    from kitlist.store import Store


def pairs(values: Iterable[str] | None) -> dict[str, str]:
    """The fields and values of a command line as typed. Raises UsageError for a word that is no FIELD=VALUE."""
    found: dict[str, str] = {}
    for given in values or ():
        word, equals, value = given.partition("=")
        if not equals or not word.strip():
            raise UsageError(
                f"{given!r} is not FIELD=VALUE", hint='Put quotes round a value with spaces: place="left locker"'
            )
        found[word.strip()] = value
    return found


def by_the_clock(kind: type, given: Mapping[str, str]) -> dict[str, str]:
    """Typed values in which `today`, `yesterday` or an hour alone has become a day."""
    fields = {field.name: field for field in fields_of(kind)}
    found = dict(given)
    for word, value in given.items():
        names = named_by(kind).get(word.replace("-", "_").casefold(), ())
        if len(names) == 1:
            found[word] = _by_the_clock(fields[names[0]], value)
    return found


def _by_the_clock(field: Field, value: str) -> str:
    try:
        if field.type is date:
            return days.day(value, today=now().date()).isoformat()
        if field.type is datetime:
            return days.moment(value, now=now()).isoformat()
    except BadData:
        pass  # the entry says it, with the field and what is allowed
    return value


def say_understood(store: Store, thing: Any, given: Mapping[str, Any]) -> None:
    """Show what was understood of values that were written otherwise than they are kept."""
    from kitlist.faces.words.cell_text import understood
    from kitlist.store import settings

    for line in understood(thing, given, units=settings.of(store).units):
        say(f"  {line}")
