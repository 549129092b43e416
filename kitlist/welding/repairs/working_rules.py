"""How a part and a steel are gone about: stop holes, distances, zinc, heat, looking again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kitlist.base.sources import Source, row_source, table
from kitlist.base.terms import Steel


@dataclass(frozen=True, slots=True)
class WorkingRule:
    """One thing to do or to leave, and where it comes from."""

    words: str
    source: Source


HARDENABLE = (Steel.SPRING, Steel.HARDENED)


def rules_of_part(part_name: str) -> tuple[WorkingRule, ...]:
    """The rules that go with a part alone, by its name in the table of parts.

    >>> [r.words.split(":")[0] for r in rules_of_part("frame rail")][1]
    'No weld square across the rail'
    """
    return _rules([row for row in table("working_rules") if part_name in row["parts"].split("; ")])


def general_rules() -> tuple[WorkingRule, ...]:
    """The rules of every weld, whatever the part and the steel.

    >>> general_rules()[0].words
    'Bolt, strap or splint first, if that holds.'
    """
    return rules_of_part("*")


def rules_of_steel(steel: Steel) -> tuple[WorkingRule, ...]:
    """The rules that go with a steel alone, whatever the part is.

    >>> [r.words.split(" mm")[0] for r in rules_of_steel(Steel.GALVANISED)]
    ['Grind the zinc off to bare steel 50']
    """
    return _rules([row for row in table("working_rules") if steel in row["steels"].split()])


def _rules(rows: Sequence[Mapping[str, str]]) -> tuple[WorkingRule, ...]:
    return tuple(WorkingRule(row["rule"], row_source(row)) for row in rows)
