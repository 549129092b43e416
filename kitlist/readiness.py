"""The judgement: a frozen kit, a trip and a day go in; a verdict, the gaps and what was computed come out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from kitlist.errors import NotFound
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook, look_out
from kitlist.rules import RULES
from kitlist.rules.core import Case, Gap, Severity, run


class Verdict(StrEnum):
    """May this kit weld on this trip?"""

    READY = "ready"
    READY_WITH_GAPS = "ready with gaps"
    NOT_READY = "not ready"

    @property
    def exit_code(self) -> int:
        """What `kitlist ready` ends with."""
        return {Verdict.READY: 0, Verdict.READY_WITH_GAPS: 11, Verdict.NOT_READY: 10}[self]

    @property
    def meaning(self) -> str:
        """What it asks of the crew."""
        return {
            Verdict.READY: "Every rule passes. Tick the bags off and go.",
            Verdict.READY_WITH_GAPS: "It can weld; mend what is marked fix before leaving.",
            Verdict.NOT_READY: "Do not weld until every stop is mended. Whether to travel is the crew's decision.",
        }[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """How a kit stands for a trip on a day."""

    kit: Kit
    trip: Trip
    on: date
    outlook: Outlook
    gaps: tuple[Gap, ...]

    @property
    def verdict(self) -> Verdict:
        """Not ready with any stop; ready with no gap at all."""
        if any(gap.weight is Severity.STOP for gap in self.gaps):
            return Verdict.NOT_READY
        if any(not gap.checked for gap in self.gaps) or self.gaps:
            return Verdict.READY_WITH_GAPS
        return Verdict.READY

    @property
    def counts(self) -> dict[Severity, int]:
        """How many gaps of each severity."""
        counted = Counter(gap.weight for gap in self.gaps)
        return {severity: counted[severity] for severity in Severity}


def assess(kit: Kit, trip: Trip, *, on: date) -> Readiness:
    """Judge a kit for a trip on a day. Pure: the same kit, trip and day give the same readiness."""
    outlook = look_out(kit, trip, on=on)
    gaps = run(RULES, Case(kit=kit, trip=trip, on=on, outlook=outlook))
    return Readiness(kit=kit, trip=trip, on=on, outlook=outlook, gaps=gaps)


def next_trip(kit: Kit, *, on: date) -> Trip:
    """The trip under way or next to start; else the last one. Raises NotFound where there is none."""
    ahead = sorted((t for t in kit.trips if t.ends_on >= on), key=lambda t: t.starts_on)
    if ahead:
        return ahead[0]
    if not kit.trips:
        raise NotFound(
            "there is no trip yet",
            hint='kitlist trip add "Dry lake" starts-on=2027-05-08 ends-on=2027-05-16 vehicles=Heron',
        )
    return max(kit.trips, key=lambda t: t.ends_on)
