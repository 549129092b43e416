from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from kitlist.readiness import assess
from kitlist.rules import RULES, Case, Gap, Severity, run
from kitlist.rules.core import quoted
from kitlist.rules.doing import Doing
from kitlist.rules.example import whole


def judged(severity: Severity | None, *, breaks: bool = False) -> Gap:
    """The gap of a rule of severity fix whose check asks for another severity."""

    def check(case: Case) -> Iterator[Gap]:
        if breaks:
            raise ValueError("no such battery")
        yield Gap(subject="thing", what="It falls short.", remedy="Mend it.", severity=severity)

    example = whole()
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    case = Case(kit=example.kit, trip=example.trip, on=example.on, outlook=outlook)
    (gap,) = run((replace(RULES[0], name="thing-short", severity=Severity.FIX, check=check),), case)
    return gap


@pytest.mark.parametrize(
    ("asked", "weight"),
    [(None, Severity.FIX), (Severity.NOTE, Severity.NOTE), (Severity.FIX, Severity.FIX), (Severity.STOP, Severity.FIX)],
)
def test_a_check_may_make_a_gap_milder_than_its_rule_and_never_graver(asked: Severity | None, weight: Severity) -> None:
    gap = judged(asked)
    assert (gap.weight, gap.rule, gap.checked, gap.known) == (weight, "thing-short", True, True)


def test_a_check_may_say_what_its_gap_asks_and_the_rule_says_it_where_the_check_does_not() -> None:
    def check(case: Case) -> Iterator[Gap]:
        yield Gap(subject="a", what="It falls short.", remedy="Mend it.", doing=Doing.BAKE)
        yield Gap(subject="b", what="It falls short.", remedy="Mend it.")

    example = whole()
    outlook = assess(example.kit, example.trip, on=example.on).outlook
    case = Case(kit=example.kit, trip=example.trip, on=example.on, outlook=outlook)
    found = run((replace(RULES[0], doing=Doing.ASK, check=check),), case)
    assert [gap.asks for gap in found] == [Doing.BAKE, Doing.ASK]


def test_a_check_that_breaks_is_a_gap_that_says_so_and_is_not_known() -> None:
    gap = judged(None, breaks=True)
    assert (gap.weight, gap.checked, gap.known) == (Severity.FIX, False, False)
    assert gap.what == "Not checked: ValueError: no such battery"


@pytest.mark.parametrize(("name", "typed"), [("dry lake", '"dry lake"'), ("heron-main", "heron-main")])
def test_a_name_is_quoted_only_where_it_has_a_space(name: str, typed: str) -> None:
    assert quoted(name) == typed
