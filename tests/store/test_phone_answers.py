"""What a phone answered while others answered too: nothing silently wins, and what is wrong is refused whole."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from kitlist.base.errors import BadFile
from kitlist.kit.checked import Answer
from kitlist.store import Store, changes, checked_off, pocket_taken, pocket_text
from kitlist.store.pocket_taken import Fate, Outcome
from new_store import demo_store

NOW = datetime(2027, 5, 9, 18)  # noqa: DTZ001 - the store keeps local time
TRIP = "Dry lake survey"


@pytest.fixture
def demo(tmp_path: Path) -> Store:
    return demo_store(tmp_path / "kit.db")


def text_of(*entries: str, written_at: datetime = NOW) -> str:
    return f'[pocket]\nformat = 1\nwritten_at = {written_at.isoformat()}\ntrip = "{TRIP}"\n' + "\n".join(entries)


def check(word: str, thing: str, answer: str, lines: str = "", *, kind: str = "tool", by: str = "Ada") -> str:
    return (
        f'[[check]]\nword = "{word}"\nat = 2027-05-09T17:00:00\nby = "{by}"\nkind = "{kind}"\nthing = "{thing}"\n'
        f'answer = "{answer}"\n{lines}\n'
    )


def take(store: Store, *entries: str, **how: bool) -> list[Outcome]:
    return list(pocket_taken.take(store, pocket_text.read(text_of(*entries)), now=NOW, **how))


def answers(store: Store) -> dict[str, tuple[Answer, int]]:
    return {
        line.name: (line.answer.answer, line.answer.count) for line in checked_off.progress(store, TRIP) if line.answer
    }


def test_an_answer_counts_once_and_is_taken_back_only_as_the_phone_saw_it(demo: Store) -> None:
    (done,) = take(demo, check("checkcheck1", "chocks", "there"))
    assert (done.fate, done.sentence) == (Fate.TAKEN, "chocks: there")
    count = changes.one(demo, "tool", "chocks").count
    assert answers(demo) == {"chocks": (Answer.THERE, count)}
    (other,) = take(demo, check("backback01", "chocks", "taken back", 'was = "missing/0"'))
    assert other.fate is Fate.REFUSED
    assert "chocks has another answer meanwhile, there by Ada" in other.sentence
    assert answers(demo) == {"chocks": (Answer.THERE, count)}
    (back,) = take(demo, check("backback02", "chocks", "taken back", f'was = "there/{count}"'))
    assert (back.fate, back.sentence) == (Fate.TAKEN, "Taken back: chocks, there")
    assert answers(demo) == {}
    (nothing,) = take(demo, check("backback03", "chocks", "taken back", 'was = ""'))
    assert (nothing.fate, nothing.sentence) == (Fate.TAKEN, "chocks: there was nothing to take back")


def test_where_another_number_is_recorded_now_somebody_must_look_again(demo: Store) -> None:
    count = changes.one(demo, "tool", "chocks").count
    (right,) = take(demo, check("rightright", "chocks", "there", f"of = {count}"))
    assert right.fate is Fate.TAKEN
    changes.edit(demo, "tool", "chocks", {"count": str(count + 3)})
    (asked,) = take(demo, check("wrongwrong", "chocks", "there", f"of = {count}"))
    assert (asked.fate, asked.sentence) == (
        Fate.ASKED,
        f"{count + 3} are recorded now, not {count}: look again",
    )
    assert answers(demo) == {}


def test_what_is_there_over_somebody_s_missing_is_asked_and_a_new_missing_says_whose_answer_it_ends(
    demo: Store,
) -> None:
    take(demo, check("boboboboo1", "shovel", "missing", by="Bo"))
    (asked,) = take(demo, check("adaadaada1", "shovel", "there"))
    assert asked.fate is Fate.ASKED
    assert answers(demo)["shovel"] == (Answer.MISSING, 0)
    take(demo, check("chockchock", "chocks", "there", by="Bo"))
    (done,) = take(demo, check("adaadaada2", "chocks", "missing"))
    assert done.sentence == "chocks: missing; Bo had said there meanwhile, and Ada's counts now"


def test_a_thing_that_is_gone_or_of_another_kind_and_an_answer_that_is_none_are_refused(demo: Store) -> None:
    found = take(
        demo,
        check("gonegone01", "no such thing", "there"),
        check("kindkind01", "chocks", "there", kind="vehicle"),
        check("wordword01", "chocks", "perhaps"),
    )
    assert [one.fate for one in found] == [Fate.REFUSED] * 3
    assert "no tool is called 'no such thing'. It is gone meanwhile" in found[0].sentence
    assert "no vehicle is called" in found[1].sentence
    assert "'perhaps' is no answer" in found[2].sentence
    assert answers(demo) == {}


def test_a_phone_s_clock_is_put_right_where_it_sends_at_once_or_is_ahead_and_else_left(demo: Store) -> None:
    entry = check("checkcheck1", "chocks", "there")
    for ahead, how, taken_at in (
        (timedelta(hours=2), {}, NOW - timedelta(hours=3)),  # answered an hour before it was written, as its clock says
        (timedelta(hours=-5), {}, NOW - timedelta(hours=1)),  # behind, or written long ago: as it says
        (timedelta(hours=-5), {"as_it_comes": True}, NOW),
    ):
        text = pocket_text.read(text_of(entry, written_at=NOW + ahead))
        (done,) = pocket_taken.take(demo, text, now=NOW, **how)
        assert done.fate is Fate.TAKEN
        (line,) = [line for line in checked_off.progress(demo, TRIP) if line.answer]
        assert line.answer is not None
        assert line.answer.checked_at == taken_at
        checked_off.undo(demo, TRIP, at=NOW)
        entry = entry.replace("checkcheck", "checkcheckc")


def test_one_bad_entry_and_nothing_is_taken() -> None:
    there = check("checkcheck1", "chocks", "there")
    for entry, why in (
        (there.replace("checkcheck1", "short"), "check 2: word must be 8 to 40 letters and digits"),
        (there + 'colour = "red"', "check 2: has no field 'colour'"),
        (there + 'of = "two"', "check 2: of = 'two' is not of the right kind"),
        (there + "of = true", "check 2: of = 'True' is not of the right kind"),
        (there.replace("17:00:00", "17:00:00Z"), "check 2: at must be a moment"),
        (there.replace('answer = "there"', ""), "check 2: answer is missing"),
        ('[[bead]]\nword = "beadbead1"\nat = 2027-05-09T17:00:00\nbank = ["a", 2]\n', "bead 1: bank = "),
        ('[[poem]]\nword = "poempoem1"\n', "[[poem]] must be one of"),
    ):
        with pytest.raises(BadFile, match="1 entries cannot be read; nothing was taken") as caught:
            pocket_text.read(text_of(check("goodgood01", "shovel", "there"), entry))
        assert [line.startswith(why) for line in caught.value.lines] == [True], caught.value.lines


def test_a_reading_sent_at_once_is_refused_where_this_machine_s_clock_is_behind_and_one_written_before_is_not(
    demo: Store,
) -> None:
    """The demo's readings are of May: in March the clock's own moment would stand before them."""
    behind = datetime(2027, 3, 1, 12)  # noqa: DTZ001 - the store keeps local time
    lines = 'battery = "heron-main"\nvolts = "12.71"\n'
    entry = f'[[reading]]\nword = "readread1"\nat = 2027-03-01T11:00:00\nby = "Ada"\n{lines}'
    text = pocket_text.read(text_of(entry, written_at=behind))
    (refused,) = pocket_taken.take(demo, text, now=behind, as_it_comes=True)
    assert (refused.fate, "clock is behind" in refused.sentence) == (Fate.REFUSED, True)
    (taken,) = pocket_taken.take(demo, text, now=behind)
    assert taken.fate is Fate.TAKEN
    empty = entry.replace("12.71", "").replace("readread1", "readread2")
    (none,) = pocket_taken.take(demo, pocket_text.read(text_of(empty)), now=NOW)
    assert (none.fate, "amperes without volts" in none.sentence) == (Fate.REFUSED, True)
