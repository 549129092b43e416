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


def working_rules(part_name: str, *, steel: Steel) -> tuple[WorkingRule, ...]:
    """The rules for a part (by its name in `parts`) and its steel: particular first, then general.

    >>> [r.words.split(":")[0] for r in working_rules("frame rail", steel=Steel.MILD)][1]
    'No weld square across the rail'
    """
    rows = table("working_rules")
    own = [row for row in rows if part_name in row["parts"].split("; ")]
    general = [row for row in rows if row["parts"] == "*"]
    return (*_rules(own), *rules_of_steel(steel), *_rules(general))


def rules_of_steel(steel: Steel) -> tuple[WorkingRule, ...]:
    """The rules that go with a steel alone, whatever the part is.

    >>> [r.words.split(" mm")[0] for r in rules_of_steel(Steel.GALVANISED)]
    ['Grind the zinc off to bare steel 50']
    """
    return _rules([row for row in table("working_rules") if steel in row["steels"].split()])


def _rules(rows: Sequence[Mapping[str, str]]) -> tuple[WorkingRule, ...]:
    return tuple(WorkingRule(row["rule"], row_source(row)) for row in rows)
