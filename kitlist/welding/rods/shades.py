"""Filter shades: the least that each standard asks for at a current, the strictest of them, and what to suggest.

The current governs, not the rod's size. Below the strictest minimum is a gap; a suggested shade is advice, since
too dark a filter makes people lift the helmet to see.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, Tag, row_source, sourced, table

OSHA = Source(Tag.READ, "29 CFR 1910.133(a)(5)")
AS_NZS = Source(Tag.SECOND_HAND, "AS/NZS 1338.1")
EN_169 = Source(Tag.DERIVED, "guide of EN 169 less the one shade its note allows; it sets no minimum")
GUIDE = Source(Tag.SECOND_HAND, "EN 169, the guide as a welding-machine manual prints it")
RULES = ("OSHA", "AS/NZS", "EN")
MOST_A = 550.0


@dataclass(frozen=True, slots=True)
class Minimum:
    """The least shade that one rule asks for at a current."""

    rule: str
    shade: int
    source: Source


def _holds(row: Mapping[str, str], current_a: float) -> bool:
    low_a = float(row["above_a"])
    above = current_a > low_a or (row["includes_low"] == "1" and current_a == low_a)
    if not row["to_a"]:
        return above
    high_a = float(row["to_a"])
    return above and (current_a < high_a or (row["includes_high"] == "1" and current_a == high_a))


def _check(current_a: float) -> None:
    if not 0 < current_a <= MOST_A:
        raise OutOfRange(f"{current_a:g} A: shades are tabled for more than 0 to {MOST_A:g} A")


@sourced(OSHA, AS_NZS, EN_169)
def minimum_shade(rule: str, *, current_a: float) -> Minimum:
    """The least shade of one rule, OSHA, AS/NZS or EN, at more than 0 to 550 A; at an edge of EN the darker.

    >>> minimum_shade("OSHA", current_a=160.0).shade, minimum_shade("OSHA", current_a=161.0).shade
    (8, 10)
    """
    _check(current_a)
    if rule not in RULES:
        raise OutOfRange(f"rule {rule!r}: {', '.join(RULES)} are held")
    row = next(
        row
        for row in table("eye_shades")
        if row["rule"] == rule and row["kind"] == "minimum" and _holds(row, current_a)
    )
    return Minimum(rule, int(row["shade"]), row_source(row))


@sourced(OSHA, AS_NZS, EN_169)
def strictest_minimum(*, current_a: float) -> Minimum:
    """The darkest of the three minimums at a current.

    >>> strictest_minimum(current_a=110.0)
    Minimum(rule='AS/NZS', shade=10, source=Source(tag=<Tag.SECOND_HAND: 'S'>, where='AS/NZS 1338.1'))
    """
    return max((minimum_shade(rule, current_a=current_a) for rule in RULES), key=lambda least: least.shade)


@sourced(GUIDE, PRACTICE)
def advised_shade(*, current_a: float) -> int:
    """The shade to start with: that of the guide of EN 169, 9 under its 20 A, never under the strictest minimum.

    Advice, shown beside the stop: one shade lighter is glare and no hidden harm, and too dark a filter makes people
    lift the helmet. Start dark, lighten until the pool can be seen, never under the minimum.

    >>> advised_shade(current_a=55.0), advised_shade(current_a=110.0), advised_shade(current_a=200.0)
    (10, 11, 12)
    """
    _check(current_a)
    rows = [row for row in table("eye_shades") if row["kind"] == "guide" and _holds(row, current_a)]
    guide = int(rows[0]["shade"]) if rows else 9
    return max(guide, strictest_minimum(current_a=current_a).shade)
