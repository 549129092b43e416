"""What the answers make of the kit."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from kitlist.base.errors import BadFile
from kitlist.base.terms import GearKind, RodCondition, ToolKind
from kitlist.kit import Bag, Kit
from kitlist.kit.checked import Answer, CheckedOff
from kitlist.rules import example
from kitlist.trips import check_off


def answer(kind: str, name: str, what: Answer, count: int, *, expected: int = 1) -> CheckedOff:
    at = datetime(2027, 3, 4, 18, 0)  # noqa: DTZ001 - answers are kept in local time
    return CheckedOff(
        trip="Example",
        kind=kind,
        name=name,
        answer=what,
        count=count,
        expected=expected,
        checked_by="Ada",
        checked_at=at,
    )


def found(*answers: CheckedOff) -> Kit:
    return check_off.as_checked(replace(example.whole().kit, checked=answers))


def test_lines_run_by_bag_in_walking_order_and_what_has_no_bag_comes_last() -> None:
    kit = Kit(
        bags=(Bag(name="A", walk_order=2), Bag(name="B", walk_order=1)),
        gear=(example.gear("one", GearKind.APRON, bag="A"), example.gear("two", GearKind.BOOTS, bag=None)),
        tools=(example.tool("three", ToolKind.JACK, bag="B"), example.tool("four", ToolKind.FILE, bag="A")),
    )
    assert [(line.number, line.name) for line in check_off.lines(kit)] == [
        (1, "three"),
        (2, "one"),
        (3, "four"),
        (4, "two"),
    ]


def test_missing_takes_the_count_away_and_there_leaves_it() -> None:
    kit = found(answer("tool", "shovel", Answer.MISSING, 0), answer("tool", "file", Answer.THERE, 1))
    counts = {tool.name: tool.count for tool in kit.tools}
    assert (counts["shovel"], counts["file"]) == (0, 1)


def test_damaged_gear_is_unsound_damaged_rods_are_damaged_and_other_things_are_not_there() -> None:
    kit = found(
        answer("gear", "helmet", Answer.DAMAGED, 0),
        answer("rod", "thick rods", Answer.DAMAGED, 0, expected=6),
        answer("tool", "shovel", Answer.DAMAGED, 0),
    )
    assert next(g for g in kit.gear if g.name == "helmet").sound is False
    assert kit.rods[0].condition is RodCondition.DAMAGED
    assert next(t for t in kit.tools if t.name == "shovel").count == 0


def test_there_is_a_look_it_makes_gear_sound_that_nobody_had_looked_at_and_dates_a_tool() -> None:
    bare = example.with_gear(GearKind.JACKET, sound=None).kit
    kit = check_off.as_checked(
        replace(bare, checked=(answer("gear", "jacket", Answer.THERE, 1), answer("tool", "file", Answer.THERE, 1)))
    )
    assert next(g for g in kit.gear if g.name == "jacket").sound is True
    assert next(t for t in kit.tools if t.name == "file").checked_on == date(2027, 3, 4)


def test_gear_that_is_known_to_be_unsound_is_not_made_sound_by_a_tick() -> None:
    bad = example.with_gear(GearKind.JACKET, sound=False).kit
    kit = check_off.as_checked(replace(bad, checked=(answer("gear", "jacket", Answer.THERE, 1),)))
    assert next(g for g in kit.gear if g.name == "jacket").sound is False


def test_an_answer_for_another_count_than_is_recorded_holds_no_more() -> None:
    kit = found(answer("tool", "shovel", Answer.MISSING, 0, expected=2))
    assert next(t for t in kit.tools if t.name == "shovel").count == 1
    assert kit.checked == ()
    assert check_off.lines(kit, [answer("tool", "shovel", Answer.MISSING, 0, expected=2)])[0].answer is None


def test_the_newest_answer_counts() -> None:
    kit = found(answer("tool", "shovel", Answer.MISSING, 0), answer("tool", "shovel", Answer.THERE, 1))
    assert next(t for t in kit.tools if t.name == "shovel").count == 1


def test_typed_answers_are_read_as_ranges_letters_words_and_counts() -> None:
    numbers = {1: ("tool", "a"), 2: ("tool", "b"), 3: ("gear", "c")}
    assert check_off.typed(["1-2=t", "3=12"], numbers) == (
        ("tool", "a", Answer.THERE, 0),
        ("tool", "b", Answer.THERE, 0),
        ("gear", "c", Answer.COUNTED, 12),
    )


@pytest.mark.parametrize("word", ["", "1", "=there", "1=", "0=there", "3-1=there", "1=-2", "1=5001", "9" * 5000 + "=t"])
def test_what_is_no_answer_is_refused(word: str) -> None:
    with pytest.raises(BadFile):
        check_off.typed([word], {1: ("tool", "a"), 2: ("tool", "b"), 3: ("gear", "c")})
