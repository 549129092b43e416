"""Every trap draws the gap that the trade expects, as grave as it expects, and a sound variant draws none."""

from __future__ import annotations

import pytest
from traps import Trap, behind, named_parts, said, things, trips

from kitlist.readiness import assess
from kitlist.rules import RULES

ALL: tuple[Trap, ...] = (*behind.TRAPS, *named_parts.TRAPS, *trips.TRAPS, *things.TRAPS, *said.TRAPS)


@pytest.mark.parametrize("trap", ALL, ids=lambda trap: trap.change)
def test_a_trap_is_seen_for_what_it_is(trap: Trap) -> None:
    example = trap.build()
    gaps = assess(example.kit, example.trip, on=example.on).gaps
    found = {gap.rule: gap for gap in reversed(gaps)}
    if trap.rule is None:
        assert [f"{gap.rule}: {gap.what}" for gap in gaps] == [], trap.why
    else:
        assert trap.rule in found, f"{trap.why}; found {sorted(found)}"
        assert found[trap.rule].weight is trap.severity, trap.why


def test_the_table_names_rules_that_exist_and_no_trap_twice() -> None:
    names = {rule.name for rule in RULES}
    assert {trap.rule for trap in ALL} <= names | {None}
    assert len({trap.change for trap in ALL}) == len(ALL)
    assert all(trap.why for trap in ALL)
