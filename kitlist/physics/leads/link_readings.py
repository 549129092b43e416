"""What the voltmeter must show at each link."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kitlist.base.errors import BadData
from kitlist.base.sources import PRACTICE, sourced


@dataclass(frozen=True, slots=True)
class LinkReading:
    """After one battery is linked: volts expected from the free end to the first post."""

    name: str
    expected_v: float


@sourced(PRACTICE)
def readings(rested_v: Sequence[tuple[str, float]]) -> tuple[LinkReading, ...]:
    """The reading to expect as each battery of a series string is linked in turn, from (name, rested volts).

    >>> [round(step.expected_v, 2) for step in readings([("a", 12.65), ("b", 12.60), ("c", 12.70)])]
    [12.65, 25.25, 37.95]
    """
    if not rested_v:
        raise BadData("no battery to link")
    steps, so_far = [], 0.0
    for name, volts in rested_v:
        so_far += volts
        steps.append(LinkReading(name, so_far))
    return tuple(steps)
