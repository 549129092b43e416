"""reading-too-soon: a reading that tells nothing, taken too soon after charge, drive or load."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.rulebook import GOOD_REST_H, LEAST_REST_H
from kitlist.sources import Source, Tag


def check(case: Case) -> Iterator[Gap]:
    """A gap for each travelling battery whose newest reading does not tell its charge."""
    for name, battery in case.outlook.batteries.items():
        if battery.reading is None or battery.refusal or battery.charge_when_read.known:
            continue
        rested_h = battery.reading.rested_h
        yield Gap(
            subject=name,
            what=f"{name}: the reading of {battery.reading.taken_at:%d %b} does not tell its charge: "
            f"{battery.charge_when_read.reason}",
            remedy="Let it stand 6 h or more with nothing connected and read again; or draw 10 A for 15 s, "
            "wait 3 min, and read with --quick-load.",
            measured=rested_h,
            required=LEAST_REST_H.value,
            unit="h",
            known=False,
            severity=None if name in case.trip.bank else Severity.FIX,
        )


RULE = Rule(
    name="reading-too-soon",
    title="Reading that tells nothing",
    severity=Severity.STOP,
    why="Surface charge makes a half-empty battery look full for hours after charge or drive.",
    remedy="Read at rest: 6 h or more, or the quick-load method.",
    sources=(
        LEAST_REST_H.source,
        GOOD_REST_H.source,
        Source(Tag.READ, "TM 9-6115-730-24: 3 h, better 8 h"),
        Source(Tag.READ, "TM 5-3805-262-20: 15 s of load, 3 min of rest"),
    ),
    check=check,
    good=lambda: example.with_reading("north-main", rested_h=2.5),
    bad=lambda: example.with_reading("north-main", rested_h=0.5),
)
