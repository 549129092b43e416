"""own-item-missing: something that the owner said must be carried, and is not, or not in full."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.kit import Item
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap for each own item of which fewer are packed than must be carried."""
    for item in case.kit.items:
        if item.count < item.must_carry:
            yield Gap(
                subject=item.name,
                what=f"{item.count} of {item.must_carry} {item.name} packed{f' in {item.bag}' if item.bag else ''}",
                remedy=f"Pack {item.must_carry - item.count} more.",
                command=f"kitlist item edit {quoted(item.name)} count=NUMBER",
                measured=item.count,
                required=item.must_carry,
                unit="pieces",
            )


def _belts(count: int) -> Example:
    return example.with_kit(items=(Item(name="fan belt", must_carry=2, count=count, bag=example.BAG),))


RULE = Rule(
    name="own-item-missing",
    title="An own item missing",
    severity=Severity.FIX,
    doing=Doing.GET,
    why="Its owner put it on the list for a reason.",
    remedy="Pack it, or lower the number that must be carried.",
    sources=(Source(Tag.PRACTICE, "the owner's own list"),),
    check=check,
    mark="short",
    good=lambda: _belts(2),
    bad=lambda: _belts(1),
)
