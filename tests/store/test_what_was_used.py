"""What a trip took and what went back, a packet's life, and the bags gone through: counts are right afterwards."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import pytest

from kitlist.base.errors import BadData, NotFound
from kitlist.base.terms import RodStorage
from kitlist.kit.checked import Answer
from kitlist.store import Store, accepted_gaps, changes, checked_off, rod_events, trip_use
from new_store import demo_store

ON = date(2027, 5, 9)
AT = datetime(2027, 5, 9, 18)  # noqa: DTZ001 - the store keeps local time
TRIP = "Dry lake survey"


@pytest.fixture
def demo(tmp_path: Path) -> Store:
    return demo_store(tmp_path / "kit.db")


def count(store: Store, kind: str, name: str) -> int:
    return int(changes.one(store, kind, name).count)


def test_what_was_used_comes_off_and_goes_back_all_or_what_is_named(demo: Store) -> None:
    before = count(demo, "rod", "general rods"), changes.one(demo, "tool", "fire water").volume_l
    assert trip_use.record(demo, TRIP, ["general rods=5", "fire water=2.5L"], on=ON) == 2
    assert count(demo, "rod", "general rods") == before[0] - 5
    assert changes.one(demo, "tool", "fire water").volume_l == before[1] - 2.5
    (one,) = trip_use.put_back(demo, TRIP, ["general rods"], on=ON)
    assert (one.name, one.used, one.put_back) == ("general rods", 5, 5)
    assert count(demo, "rod", "general rods") == before[0]
    assert changes.one(demo, "tool", "fire water").volume_l == before[1] - 2.5
    (rest,) = trip_use.put_back(demo, TRIP, [], on=ON)
    assert rest.name == "fire water"
    assert changes.one(demo, "tool", "fire water").volume_l == before[1]
    assert trip_use.put_back(demo, TRIP, [], on=ON) == ()


def test_unequal_strings_more_than_is_there_and_damage_by_nobody_are_refused_and_nothing_is_kept(demo: Store) -> None:
    before = count(demo, "rod", "general rods")
    linked = ("heron-main", "plover-main", "plover-second")
    for words, how, why in (
        (["general rods=2"], {"linked": linked, "strings": 2}, "3 batteries do not make 2 equal strings"),
        (["general rods=2", "chocks=400"], {}, "400 of chocks: "),
        (["general rods=2", "chocks=damaged"], {}, "who noted the damage is not said"),
        (["general rods=2", "chocks"], {}, "'chocks' is not NAME=AMOUNT"),
    ):
        with pytest.raises(BadData, match=why):
            trip_use.record(demo, TRIP, words, on=ON, **how)
    assert count(demo, "rod", "general rods") == before
    assert not trip_use.of_trip(demo, TRIP).any
    for word, hint in (("fire water=40", "If 40 litres were meant, write 40L."), ("chocks=40", "Count what is left.")):
        with pytest.raises(BadData) as caught:
            trip_use.record(demo, TRIP, [word], on=ON)
        assert caught.value.hint == hint
    with pytest.raises(BadData, match="400 L of fire water: 10 are recorded") as caught:
        trip_use.record(demo, TRIP, ["fire water=400L"], on=ON)
    assert caught.value.hint == "Count what is left."
    trip_use.record(demo, TRIP, [], linked=linked, strings=3, on=ON)
    assert [(one.battery, one.strings) for one in trip_use.of_trip(demo, TRIP).linked] == [(n, 3) for n in linked]


def test_what_welds_and_used_both_say_counts_once_and_a_recount_bounds_it(demo: Store) -> None:
    before = count(demo, "rod", "general rods")
    done = trip_use.used_rods(demo, "general rods", 4, on=ON, trip=TRIP)
    assert (done.off, done.trip, done.rod.count) == (4, TRIP, before - 4)
    assert trip_use.used_rods(demo, "general rods", 1, on=date(2031, 1, 1)).trip is None
    with pytest.raises(BadData, match=f"{before} rods of general rods: it holds {before - 5}"):
        trip_use.used_rods(demo, "general rods", before, on=ON)
    with pytest.raises(BadData, match="0 rods of general rods"):
        trip_use.used_rods(demo, "general rods", 0, on=ON)
    checked_off.record(demo, TRIP, [("rod", "general rods", Answer.COUNTED, 3)], by="Ada", at=AT)
    with pytest.raises(BadData, match="4 of general rods: 3 are recorded"):
        trip_use.used_rods(demo, "general rods", 4, on=date(2031, 1, 1))


def test_a_packet_is_opened_once_baked_again_and_its_history_has_it_all(demo: Store) -> None:
    changes.add(
        demo, "rod", {"name": "basic", "designation": "E7018", "diameter": "3.2", "count": 20, "storage": "sealed"}
    )
    with pytest.raises(BadData, match="a packet that was opened is not sealed"):
        rod_events.opened(demo, "basic", on=ON, storage=RodStorage.SEALED)
    assert rod_events.opened(demo, "basic", on=ON, storage=RodStorage.CARTON).storage is RodStorage.CARTON
    with pytest.raises(BadData, match="basic was opened on 2027-05-09"):
        rod_events.opened(demo, "basic", on=ON)
    bakes = changes.one(demo, "rod", "basic").bakes
    assert rod_events.baked(demo, "basic", on=ON).bakes == bakes + 1
    assert rod_events.baked(demo, "basic", on=ON).bakes == bakes + 2
    trip_use.used_rods(demo, "basic", 2, on=ON)
    assert [(e.what, e.count) for e in rod_events.history(demo, "basic")] == [
        ("opened", None),
        ("baked", None),
        ("baked", None),
        ("used", 2),
    ]
    assert rod_events.baked_on(demo, "basic") == (ON, ON)


def test_answers_are_kept_together_taken_back_one_by_one_and_asked_anew(demo: Store) -> None:
    chocks = count(demo, "tool", "chocks")
    kept = checked_off.record(
        demo, TRIP, [("tool", "chocks", Answer.THERE, 0), ("tool", "shovel", Answer.MISSING, 0)], by=" Ada ", at=AT
    )
    assert [(a.name, a.count, a.expected, a.checked_by) for a in kept] == [
        ("chocks", chocks, chocks, "Ada"),
        ("shovel", 0, count(demo, "tool", "shovel"), "Ada"),
    ]
    with pytest.raises(NotFound):
        checked_off.record(
            demo, TRIP, [("tool", "grinder", Answer.THERE, 1), ("tool", "none", Answer.THERE, 1)], by="Bo", at=AT
        )
    assert checked_off.last_by(demo, TRIP) == "Ada"
    assert checked_off.last_by(demo, "another") == ""
    word = checked_off.version(demo, TRIP)
    gone = checked_off.undo(demo, TRIP, at=AT, thing=("tool", "chocks"))
    assert gone is not None
    assert (gone.name, checked_off.version(demo, TRIP) != word) == ("chocks", True)
    assert checked_off.undo(demo, TRIP, at=AT, thing=("tool", "chocks")) is None
    assert [line.name for line in checked_off.progress(demo, TRIP) if line.answer] == ["shovel"]
    checked_off.begin_again(demo, TRIP)
    assert [line.name for line in checked_off.progress(demo, TRIP) if line.answer] == []
    with demo.viewing() as connection:
        assert [a.name for a in checked_off.newest(connection)] == ["shovel"]  # what was short stays short
    assert checked_off.undo(demo, TRIP, at=AT) is None
    for nobody in ("", "  ", "a\x00b"):
        with pytest.raises(BadData, match="who checked"):
            checked_off.record(demo, TRIP, [("tool", "chocks", Answer.THERE, 1)], by=nobody, at=AT)


def test_what_is_left_at_home_holds_for_the_trip_that_goes_alone(demo: Store) -> None:
    checked_off.record(demo, TRIP, [("tool", "shovel", Answer.HOME, 0)], by="Ada", at=AT)
    with demo.viewing() as connection:
        found = [[a.name for a in checked_off.newest(connection, going=trip)] for trip in (TRIP, "another", None)]
    assert found == [["shovel"], [], []]


def test_an_accepted_gap_is_taken_back_by_its_subject_or_all_of_its_rule_on_that_trip_alone(demo: Store) -> None:
    from kitlist.kit import Acceptance

    def accept(name: str, trip: str, subject: str, rule: str = "reading-stale") -> Acceptance:
        return Acceptance(
            name=name, trip=trip, rule=rule, subject=subject, severity="fix", reason="known", accepted_by="Ada",
            accepted_on=ON, until=ON,
        )  # fmt: skip

    changes.add(demo, "trip", {"name": "other", "starts_on": "2027-06-01", "ends_on": "2027-06-02"})
    taken = [
        accept("1", TRIP, "a"),
        accept("2", TRIP, "b"),
        accept("3", "other", "a"),
        accept("4", TRIP, "a", "rod-damp"),
    ]
    accepted_gaps.accept(demo, taken)
    with pytest.raises(NotFound):
        accepted_gaps.take_back(demo, rule="reading-stale", trip=TRIP, subject="zzz")
    assert accepted_gaps.take_back(demo, rule="reading-stale", trip=TRIP, subject="b") == ("b",)
    assert accepted_gaps.take_back(demo, rule="reading-stale", trip=TRIP) == ("a",)
    assert accepted_gaps.take_back(demo, rule="reading-stale", trip=TRIP, subject="a") == ()
    assert {a.name for a in changes.listed(demo, "acceptance")} == {"3", "4"}


def test_what_came_back_damaged_or_not_at_all_is_none_that_counts_and_stays_in_the_kit(demo: Store) -> None:
    before = count(demo, "tool", "chocks")
    trip_use.record(demo, TRIP, ["chocks=damaged", "shovel=Missing"], on=ON, by="Ada", at=AT)
    found = {line.name: line.answer for line in checked_off.progress(demo, TRIP) if line.answer}
    assert {name: (a.answer, a.count, a.checked_by) for name, a in found.items() if a} == {
        "chocks": (Answer.DAMAGED, 0, "Ada"),
        "shovel": (Answer.MISSING, 0, "Ada"),
    }
    assert count(demo, "tool", "chocks") == before
    assert not trip_use.of_trip(demo, TRIP).any
