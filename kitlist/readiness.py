"""The judgement: a frozen kit, a trip and a day go in; a verdict, the gaps and what was computed come out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from kitlist.base.measures import counted
from kitlist.kit import Kit, Trip, next_trip
from kitlist.outlook import BankOutlook, BatteryOutlook, Outlook, RodOutlook, look_out
from kitlist.rules import RULES
from kitlist.rules.core import Gap, Severity, case_of, run

__all__ = ["Readiness", "Verdict", "assess", "next_trip"]


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
    """How a kit stands for a trip on a day. `gaps` are those that count, `accepted` those that somebody accepted."""

    kit: Kit
    trip: Trip
    on: date
    outlook: Outlook
    gaps: tuple[Gap, ...]
    accepted: tuple[Gap, ...] = ()

    @property
    def verdict(self) -> Verdict:
        """Not ready with any stop, accepted or not; ready with notes at the most: those are for knowing."""
        if any(gap.weight is Severity.STOP for gap in (*self.gaps, *self.accepted)):
            return Verdict.NOT_READY
        if any(gap.weight is Severity.FIX or not gap.checked for gap in self.gaps):
            return Verdict.READY_WITH_GAPS
        return Verdict.READY

    @property
    def stops(self) -> tuple[Gap, ...]:
        """The gaps that stop the weld, but for those that somebody accepted."""
        return tuple(gap for gap in self.gaps if gap.weight is Severity.STOP)

    @property
    def word(self) -> str:
        """The verdict as it is read: notes are counted, and a stop that somebody accepted is named with whoever did."""
        if self.verdict is Verdict.READY and self.gaps:
            return f"{self.verdict}, {counted(len(self.gaps), 'note')}"
        if self.stops:
            return str(self.verdict)
        by = [gap.accepted.accepted_by for gap in self.accepted if gap.weight is Severity.STOP and gap.accepted]
        return f"{self.verdict}, stop accepted by {' and '.join(dict.fromkeys(by))}" if by else str(self.verdict)

    @property
    def meaning(self) -> str:
        """What the verdict asks of the crew; accepted gaps are never passed over."""
        if self.verdict is Verdict.READY and self.accepted:
            count = len(self.accepted)
            gaps = f"{count} gap{'s' if count > 1 else ''}"
            return f"It can weld, with {gaps} that somebody accepted: read who, why and until when."
        if self.verdict is Verdict.READY and self.gaps:
            return "It can weld: read the notes, tick the bags off and go."
        return self.verdict.meaning

    @property
    def changes(self) -> tuple[str, ...]:
        """Every threshold that the owner has changed, one line each."""
        return tuple(change.words for change in self.kit.rulebook.changes)

    @property
    def counts(self) -> dict[Severity, int]:
        """How many gaps of each severity."""
        numbers = Counter(gap.weight for gap in self.gaps)
        return {severity: numbers[severity] for severity in Severity}

    @property
    def states(self) -> dict[str, str]:
        """What each rule says: fires, accepted, quiet, or not checked."""
        found = {rule.name: "quiet" for rule in RULES}
        found |= {gap.rule: "accepted" for gap in self.accepted}
        return found | {gap.rule: "fires" if gap.checked else "not checked" for gap in self.gaps}

    def plain(self) -> dict[str, Any]:
        """The judgement as JSON has it; every number's key carries its unit."""
        return {
            "trip": self.trip.name,
            "judged_on": self.on.isoformat(),
            "verdict": self.word,
            "exit_code": self.verdict.exit_code,
            "counts": {str(severity): count for severity, count in self.counts.items()},
            "gaps": [_plain_gap(gap) for gap in self.gaps],
            "accepted": [_plain_gap(gap) | _plain_acceptance(gap) for gap in self.accepted],
            "rulebook_changes": list(self.changes),
            "batteries": [_plain_battery(battery) for battery in self.outlook.batteries.values()],
            "bank": _plain_bank(self.outlook.bank),
            "circuit": [join.words for join in self.outlook.joining.joins] if self.outlook.joining else None,
            "rods": [_plain_rod(rod) for rod in self.outlook.rods],
        }


def assess(kit: Kit, trip: Trip, *, on: date) -> Readiness:
    """Judge a kit for a trip on a day. Pure: the same kit, trip and day give the same readiness."""
    outlook = look_out(kit, trip, on=on)
    found = run(RULES, case_of(kit, trip, on=on, outlook=outlook))
    return Readiness(
        kit=kit,
        trip=trip,
        on=on,
        outlook=outlook,
        gaps=tuple(gap for gap in found if gap.accepted is None),
        accepted=tuple(gap for gap in found if gap.accepted is not None),
    )


def stops(kit: Kit, trip: Trip, *, on: date) -> tuple[Gap, ...]:
    """The stops that stand, by the rules that can be one: the same as `assess` has, in half its time."""
    can_stop = [rule for rule in RULES if rule.severity is Severity.STOP]
    found = run(can_stop, case_of(kit, trip, on=on, outlook=look_out(kit, trip, on=on)))
    return tuple(gap for gap in found if gap.accepted is None and gap.weight is Severity.STOP)


def _plain_gap(gap: Gap) -> dict[str, Any]:
    return {
        "rule": gap.rule,
        "severity": str(gap.weight),
        "subject": gap.subject,
        "what": gap.what,
        "remedy": gap.remedy,
        "command": gap.command,
        "doing": str(gap.asks),
        "measured": gap.measured,
        "required": gap.required,
        "unit": gap.unit,
        "known": gap.known,
        "checked": gap.checked,
    }


def _plain_acceptance(gap: Gap) -> dict[str, Any]:
    taken = gap.accepted
    if taken is None:
        return {}
    return {"accepted_by": taken.accepted_by, "reason": taken.reason, "until": taken.until.isoformat()}


def _plain_battery(outlook: BatteryOutlook) -> dict[str, Any]:
    soc = outlook.charge.soc_ratio
    return {
        "name": outlook.battery.name,
        "read_v": outlook.reading.volts_v if outlook.reading else None,
        "read_at": outlook.reading.taken_at.isoformat() if outlook.reading else None,
        "soc_at_departure_ratio": [soc.low, soc.best, soc.high] if soc else None,
        "not_known": "" if soc else outlook.charge.reason,
        "floor_ratio": outlook.floor_ratio,
        "reserve_ratio": outlook.reserve_ratio,
        "spare_ah": outlook.spare_ah,
        "starts_engine": outlook.crank.cranks if outlook.crank else None,
        "refused": str(outlook.refusal) if outlook.refusal else "",
    }


def _plain_bank(bank: BankOutlook | None) -> dict[str, Any] | None:
    if bank is None:
        return None
    return {
        "batteries": [list(string) for string in bank.trip.strings],
        "rested_v": bank.rested_v,
        "stuck_rod_a": bank.stuck_a,
        "not_known": [str(missing) for missing in bank.not_known],
    }


def _plain_rod(rod: RodOutlook) -> dict[str, Any]:
    return {
        "name": rod.rod.name,
        "rod": rod.words,
        "range_a": [rod.range.low_a, rod.range.high_a] if rod.range else None,
        "current_a": [rod.band.low_a, rod.band.middle_a, rod.band.high_a] if rod.band else None,
        "no_arc_ratio": rod.band.no_arc_ratio if rod.band else None,
        "fit": str(rod.fit) if rod.fit else None,
        "charge_per_rod_ah": rod.burn.charge_ah.best if rod.burn else None,
        "rods_sure": rod.rods.sure if rod.rods else None,
        "rods_likely": rod.rods.likely if rod.rods else None,
        "rods_ended_by": str(rod.rods.ended_by) if rod.rods else None,
        "not_known": list(rod.not_known),
    }
