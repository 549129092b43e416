"""auto-darkening-doubtful: an auto-darkening helmet that is untried, old in its cell, or too cold for this trip."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.rules.packing import gear
from kitlist.welding.rods.skin import doubts_of_auto_darkening


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed auto-darkening helmet with what stands against trusting it."""
    start = case.trip.starts_on
    for helmet in gear(case.kit, GearKind.HELMET_AUTO):
        doubts = doubts_of_auto_darkening(
            darkest_shade=helmet.shade or 0,
            needed_shade=0,  # filter-too-light looks at the shade
            tested_days_ago=None if helmet.tested_on is None else (start - helmet.tested_on).days,
            cell_changed_days_ago=None if helmet.cell_changed_on is None else (start - helmet.cell_changed_on).days,
            lowest_c=helmet.lowest_c,
            coldest_c=case.trip.coldest_c,
            days_per_test=case.limits.auto_test_days,
            days_per_cell=case.limits.auto_cell_days,
        )
        if doubts:
            yield Gap(
                subject=helmet.name,
                what=f"{helmet.name}: {'; '.join(doubt.why for doubt in doubts)}",
                remedy=" ".join(dict.fromkeys(doubt.remedy for doubt in doubts)),
                command=f"kitlist gear edit {quoted(helmet.name)} tested-on=DATE cell-changed-on=DATE",
                known=helmet.tested_on is not None and helmet.cell_changed_on is not None,
            )


def _auto(tested_on: date) -> Example:
    fields = {"shade": 11, "count": 2, "lowest_c": -10, "cell_changed_on": date(2026, 6, 1), "tested_on": tested_on}
    return example.without_gear(*COVERS_FACE, also=(example.gear("auto helmet", GearKind.HELMET_AUTO, **fields),))


RULE = Rule(
    name="auto-darkening-doubtful",
    title="A filter that may not darken",
    severity=Severity.FIX,
    doing=Doing.CHECK,
    why="A filter that does not darken in the first millisecond is clear glass before the arc.",
    remedy="Try it at home against a grinder's spark, change the cell, and carry a passive filter.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: _auto(date(2026, 12, 6)),
    bad=lambda: _auto(date(2026, 12, 5)),
    numbers=("auto_test_days", "auto_cell_days"),
)
