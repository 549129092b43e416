"""Two kits as people have them, from file to verdict: a careful one is ready, a club's has few gaps."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from kitlist.kit.checked import Answer
from kitlist.readiness import Readiness, Verdict, assess
from kitlist.rules.core import Severity
from kitlist.store import Store
from kitlist.store import checked_off as answers
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import snapshot

KITS = Path(__file__).with_name("kits")


def imported(store: Store, name: str, *, on: date) -> Readiness:
    """The kit of a file, imported once, every bag gone through with everything there."""
    import_toml(store, KITS / f"{name}.toml")
    trip = snapshot(store).trips[0]
    told = [(line.kind, line.name, Answer.THERE, line.thing.count) for line in answers.progress(store, trip.name)]
    answers.record(store, trip.name, told, by="Ada", at=datetime(on.year, on.month, on.day, 6, 0))  # noqa: DTZ001
    return assess(snapshot(store, trip=trip.name), trip, on=on)


def test_a_sound_careful_kit_is_ready_at_its_first_import_and_check_off(store: Store) -> None:
    readiness = imported(store, "careful", on=date(2027, 6, 11))
    assert [f"{gap.rule}: {gap.what}" for gap in readiness.gaps if gap.weight is not Severity.NOTE] == []
    assert readiness.verdict is Verdict.READY


def test_a_typical_club_kit_has_no_more_than_three_gaps_and_may_go(store: Store) -> None:
    readiness = imported(store, "club", on=date(2027, 9, 3))
    gaps = [f"{gap.rule}: {gap.what}" for gap in readiness.gaps if gap.weight is not Severity.NOTE]
    assert len(gaps) <= 3, gaps
    assert readiness.verdict is not Verdict.NOT_READY
