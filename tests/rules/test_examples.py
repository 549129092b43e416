"""Every rule's own examples are its first test: the bad one fires it and no other, the good one fires none."""

from __future__ import annotations

import pytest

from kitlist.readiness import Verdict, assess
from kitlist.rules import RULES, Example, Rule, Severity
from kitlist.rules.example import whole

each_rule = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)


def fired(example: Example) -> set[str]:
    return {gap.rule for gap in assess(example.kit, example.trip, on=example.on).gaps}


def test_the_whole_kit_is_ready() -> None:
    example = whole()
    assert assess(example.kit, example.trip, on=example.on).verdict is Verdict.READY


@each_rule
def test_the_bad_example_fires_its_rule_and_no_other(rule: Rule) -> None:
    assert fired(rule.bad()) == {rule.name}


@each_rule
def test_the_good_example_fires_nothing(rule: Rule) -> None:
    assert fired(rule.good()) == set()


@each_rule
def test_a_rule_says_all_that_a_crew_needs(rule: Rule) -> None:
    assert rule.sources
    assert rule.why.endswith(".")
    assert rule.remedy.endswith(".")
    assert rule.name == rule.name.lower().replace(" ", "-")
    for gap in assess(rule.bad().kit, rule.bad().trip, on=rule.bad().on).gaps:
        assert gap.subject
        assert gap.what
        assert gap.remedy[0].isupper()
        assert gap.weight.rank >= rule.severity.rank


def test_names_are_unique_and_each_stands_in_a_file_of_its_own_or_in_the_table_of_what_is_packed() -> None:
    assert len({rule.name for rule in RULES}) == len(RULES)
    alike = {rule.name for rule in RULES if rule.check.__module__ == "kitlist.rules.is_it_packed"}
    own = [rule for rule in RULES if rule.name not in alike]
    assert all(rule.check.__module__ == f"kitlist.rules.{rule.name.replace('-', '_')}" for rule in own)
    assert all(name.endswith("-missing") for name in alike)


@each_rule
def test_a_stop_makes_the_verdict_not_ready_a_fix_ready_with_gaps_and_notes_alone_ready(rule: Rule) -> None:
    bad = rule.bad()
    readiness = assess(bad.kit, bad.trip, on=bad.on)
    gravest = min((gap.weight for gap in readiness.gaps), key=lambda weight: weight.rank)
    expected = {
        Severity.STOP: Verdict.NOT_READY,
        Severity.FIX: Verdict.READY_WITH_GAPS,
        Severity.NOTE: Verdict.READY,
    }
    assert readiness.verdict is expected[gravest]
    assert (", 1 note" in readiness.word) == (gravest is Severity.NOTE and len(readiness.gaps) == 1)


def test_the_never_accepted_are_eyes_the_refused_what_may_not_be_linked_a_ban_a_never_and_the_wet() -> None:
    never = {rule.name for rule in RULES if not rule.acceptable}
    assert never >= {
        "battery-refused",
        "eye-protection-missing",
        "face-uncovered",
        "filter-too-light",
        "fire-ban",
        "repair-never",
        "wet-over-35-v",
    }
    assert "sweating-over-35-v" not in never
