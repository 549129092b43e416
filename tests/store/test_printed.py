"""What was printed is numbered, remembered, and found again with the kit."""

from __future__ import annotations

import sqlite3
from datetime import date

import pytest

from kitlist.store import Store, changes, papers_kept
from kitlist.store.snapshot import snapshot

ON, LATER = date(2027, 3, 4), date(2027, 3, 5)
BANK = (("one", "two"),)
OTHER = (("two", "one"),)


@pytest.fixture
def kept(store: Store) -> Store:
    """A store with one trip."""
    changes.add(store, "trip", {"name": "Lake", "starts_on": "2027-03-06", "ends_on": "2027-03-09"})
    return store


def press(store: Store, content_hash: str, *, on: date = ON, **more: object) -> int:
    """Print a paper of this content as the command does; returns its revision."""
    strings = more.get("strings", ())
    paper = "card" if strings else "sheet"
    about = {"paper": paper, "trip": "Lake", "content_hash": content_hash}
    revision = papers_kept.numbering(store, **about, strings=strings).revision  # type: ignore[arg-type]
    papers_kept.remember(store, **about, revision=revision, on=on, **more)  # type: ignore[arg-type]
    return revision


def test_new_content_gets_the_next_number_and_the_same_content_keeps_its_own(kept: Store) -> None:
    assert [press(kept, h) for h in ("aaaaaaaa", "aaaaaaaa", "bbbbbbbb", "aaaaaaaa", "aaaaaaaa")] == [1, 1, 2, 3, 3]


def test_a_sheet_is_compared_with_the_last_one_that_said_something_else(kept: Store) -> None:
    def before(content_hash: str) -> papers_kept.Before | None:
        return papers_kept.numbering(kept, paper="sheet", trip="Lake", content_hash=content_hash).before

    assert before("aaaaaaaa") is None
    press(kept, "aaaaaaaa", lines=frozenset({"11111111"}))
    assert before("aaaaaaaa") is None
    assert before("bbbbbbbb") == papers_kept.Before(1, ON, frozenset({"11111111"}))
    press(kept, "bbbbbbbb", lines=frozenset({"22222222"}), on=LATER)
    assert before("bbbbbbbb") == papers_kept.Before(1, ON, frozenset({"11111111"}))
    assert before("cccccccc") == papers_kept.Before(2, LATER, frozenset({"22222222"}))


def test_the_cards_of_two_banks_share_one_count_and_both_stand_in_the_kit(kept: Store) -> None:
    numbers = [press(kept, "aaaaaaaa", strings=BANK), press(kept, "bbbbbbbb", strings=OTHER)]
    numbers += [press(kept, "aaaaaaaa", strings=BANK), press(kept, "cccccccc", strings=BANK, basis="0" * 16)]
    assert numbers == [1, 2, 1, 3]
    assert [(p.strings, p.revision, p.content_hash, p.basis) for p in snapshot(kept, trip="Lake").printed] == [
        (BANK, 3, "cccccccc", "0" * 16),
        (OTHER, 2, "bbbbbbbb", ""),
    ]


def test_papers_follow_their_trip_when_it_is_renamed(kept: Store) -> None:
    press(kept, "aaaaaaaa", strings=BANK)
    changes.edit(kept, "trip", "Lake", {"name": "Dry lake"})
    assert [p.trip for p in snapshot(kept, trip="Dry lake").printed] == ["Dry lake"]


def test_a_card_printed_before_banks_were_kept_is_known_until_it_is_printed_anew(kept: Store) -> None:
    with sqlite3.connect(kept.path) as db:
        db.execute(
            "INSERT INTO printed (paper, trip, content_hash, revision, printed_on) "
            "VALUES ('card', 'Lake', 'aaaaaaaa', 1, '2027-03-01')"
        )
    (old,) = snapshot(kept, trip="Lake").printed
    assert (old.strings, old.basis) == ((), "")
    assert press(kept, "bbbbbbbb", strings=BANK) == 2
    assert [p.content_hash for p in snapshot(kept, trip="Lake").printed] == ["bbbbbbbb"]


def test_printing_the_very_same_card_again_fills_in_what_was_not_kept(kept: Store) -> None:
    with sqlite3.connect(kept.path) as db:
        db.execute(
            "INSERT INTO printed (paper, trip, content_hash, revision, printed_on) "
            "VALUES ('card', 'Lake', 'aaaaaaaa', 1, '2027-03-01')"
        )
    assert press(kept, "aaaaaaaa", strings=BANK, basis="f" * 16) == 1
    (card,) = snapshot(kept, trip="Lake").printed
    assert (card.strings, card.basis, card.printed_on) == (BANK, "f" * 16, date(2027, 3, 1))
