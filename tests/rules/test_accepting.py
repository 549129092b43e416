from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from kitlist.base.errors import BadData, NotFound
from kitlist.base.terms import GearKind, Mark, ToolKind
from kitlist.kit import Acceptance
from kitlist.readiness import Readiness, Verdict, assess
from kitlist.rules import RULES, Example, Severity
from kitlist.rules.example import with_kit, with_lead, with_trip, without_gear, without_tool
from kitlist.store import Store, accepted_gaps, changes
from kitlist.store.snapshot import snapshot
from kitlist.trips.accepting import acceptances

NEVER = {
    "eye-protection-missing",
    "face-uncovered",
    "filter-too-light",
    "battery-refused",
    "fire-ban",
    "pack-behind-the-weld",
    "four-without-ballast",
    "parallel-strings-apart",
    "bystander-unprotected",
    "repair-never",
    "wet-over-35-v",
}


def judged(example: Example) -> Readiness:
    return assess(example.kit, example.trip, on=example.on)


def taking(example: Example, accepted: str, /, **changes: Any) -> Example:
    """The example with the gaps of a rule accepted to the end of the trip."""
    taken = acceptances(judged(example), accepted, by="Ada", reason="it comes later", until=date(2027, 3, 9))
    return with_acceptances(example, *(replace(one, **changes) for one in taken))


def with_acceptances(example: Example, *taken: Acceptance) -> Example:
    return replace(example, kit=replace(example.kit, acceptances=taken))


def spare_missing() -> Example:
    return with_lead("link", count=2)


def test_the_gaps_that_can_never_be_accepted_are_eyes_batteries_fire_the_wet_and_never_repairs() -> None:
    assert {rule.name for rule in RULES if not rule.acceptable} == NEVER


def test_an_accepted_fix_is_shown_and_no_longer_counts() -> None:
    readiness = judged(taking(spare_missing(), "link-without-spare"))
    assert (readiness.verdict, readiness.word, readiness.gaps) == (Verdict.READY, "ready", ())
    (gap,) = readiness.accepted
    assert gap.accepted is not None
    assert (gap.rule, gap.accepted.accepted_by, gap.accepted.reason) == ("link-without-spare", "Ada", "it comes later")
    assert readiness.plain()["accepted"][0]["until"] == "2027-03-09"
    assert readiness.states["link-without-spare"] == "accepted"


def test_an_accepted_stop_is_still_not_ready_and_names_who_took_it_on() -> None:
    readiness = judged(taking(without_gear(GearKind.GLOVES), "gloves-missing"))
    assert (readiness.verdict.exit_code, readiness.word) == (10, "not ready, stop accepted by Ada")
    assert readiness.plain()["verdict"] == "not ready, stop accepted by Ada"


def test_another_stop_beside_an_accepted_one_reads_plain_not_ready() -> None:
    example = without_gear(GearKind.GLOVES)
    example = replace(example, kit=replace(example.kit, rods=()))
    assert judged(taking(example, "gloves-missing")).word == "not ready"


@pytest.mark.parametrize("rule", sorted(NEVER))
def test_what_can_never_be_accepted_counts_even_when_the_store_says_so(rule: str) -> None:
    bad = next(r for r in RULES if r.name == rule).bad()
    before = judged(bad)
    with pytest.raises(BadData, match="never be accepted"):
        acceptances(before, rule, by="Ada", reason="x", until=date(2027, 3, 9))
    forced = with_acceptances(
        bad,
        *(
            Acceptance(
                name=gap.subject,
                rule=rule,
                subject=gap.subject,
                severity=str(gap.weight),
                trip=bad.trip.name,
                accepted_by="Ada",
                reason="x",
                accepted_on=bad.on,
                until=bad.trip.ends_on,
            )
            for gap in before.gaps
        ),
    )
    assert judged(forced).gaps == before.gaps


@pytest.mark.parametrize(
    ("change", "counts"),
    [
        ({}, False),
        ({"until": date(2027, 3, 4)}, False),
        ({"until": date(2027, 3, 3)}, True),
        ({"accepted_on": date(2027, 3, 5)}, True),
        ({"trip": "Another"}, True),
        ({"subject": "other links"}, True),
        ({"rule": "links-too-few"}, True),
        ({"severity": "note"}, True),
        ({"severity": "stop"}, False),
        ({"short_by": 1.0}, False),
        ({"short_by": None}, False),
        ({"short_by": 0.9}, True),  # one link short is over a tenth more than 0.9
        ({"short_by": 0.92}, False),
    ],
)
def test_an_acceptance_covers_its_own_gap_trip_and_days_and_no_graver_gap(change: dict[str, Any], counts: bool) -> None:
    readiness = judged(taking(spare_missing(), "link-without-spare", **change))
    assert ("link-without-spare" in {gap.rule for gap in readiness.gaps}) is counts


def test_past_its_end_date_the_gap_is_back_and_the_end_is_a_gap_of_its_own() -> None:
    readiness = judged(taking(spare_missing(), "link-without-spare", until=date(2027, 3, 3)))
    assert {gap.rule for gap in readiness.gaps} == {"link-without-spare", "acceptance-past-its-date"}


@pytest.mark.parametrize(
    ("rule", "fields", "error"),
    [
        ("fuse-missing", {}, NotFound),
        ("link-without-spare", {"by": " "}, BadData),
        ("link-without-spare", {"reason": ""}, BadData),
        ("link-without-spare", {"until": date(2027, 3, 3)}, BadData),
    ],
)
def test_an_acceptance_needs_a_gap_a_name_a_reason_and_an_end_ahead(
    rule: str, fields: dict[str, Any], error: type[Exception]
) -> None:
    given = {"by": "Ada", "reason": "later", "until": date(2027, 3, 9)} | fields
    with pytest.raises(error):
        acceptances(judged(spare_missing()), rule, **given)


def test_a_group_of_things_that_has_grown_counts_again() -> None:
    one = taking(with_lead("link", mark=Mark.NONE), "polarity-not-marked")
    assert judged(one).verdict is Verdict.READY
    leads = tuple(replace(x, mark=Mark.NONE) if x.name in ("link", "work lead") else x for x in one.kit.leads)
    assert {gap.rule for gap in judged(replace(one, kit=replace(one.kit, leads=leads))).gaps} == {"polarity-not-marked"}


def test_every_gap_of_a_rule_is_accepted_by_itself() -> None:
    example = with_kit(rods=())
    example = replace(example, trip=replace(with_trip(days_from_help=None).trip))
    taken = acceptances(judged(example), "help-distance-not-known", by="Ada", reason="x", until=date(2027, 3, 9))
    assert [one.subject for one in taken] == ["Example"]
    assert all(Severity(one.severity) is Severity.FIX for one in taken)


def test_the_store_keeps_takes_back_and_takes_again(store: Store) -> None:
    changes.add(store, "trip", {"name": "Example", "starts_on": "2027-03-06", "ends_on": "2027-03-09"})
    (one,) = acceptances(judged(spare_missing()), "link-without-spare", by="Ada", reason="x", until=date(2027, 3, 9))
    accepted_gaps.accept(store, (one,))
    assert snapshot(store).acceptances == (one,)
    accepted_gaps.accept(store, (replace(one, accepted_by="Bea"),))
    assert [a.accepted_by for a in snapshot(store).acceptances] == ["Bea"]
    assert accepted_gaps.take_back(store, rule="link-without-spare", trip="Example") == ("links",)
    assert snapshot(store).acceptances == ()
    assert accepted_gaps.take_back(store, rule="link-without-spare", trip="Example") == ()
    accepted_gaps.accept(store, (one,))
    assert snapshot(store).acceptances == (one,)


def test_what_was_not_checked_is_not_accepted() -> None:
    def broken(case: object) -> list[Any]:
        raise ZeroDivisionError

    from kitlist.rules.core import Case, run

    example = taking(without_tool(ToolKind.ISOLATOR), "isolator-missing")
    rule = next(r for r in RULES if r.name == "isolator-missing")
    case = Case(kit=example.kit, trip=example.trip, on=example.on, outlook=judged(example).outlook)
    (gap,) = run((replace(rule, check=broken, title="isolator"),), case)
    assert gap.accepted is None
