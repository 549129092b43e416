"""The journal: every change is in it, before and after, and a command is taken back as a whole or not at all."""

from __future__ import annotations

import json
import os
import random
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from kitlist.base.errors import BadData, BadFile, KitlistError, NotFound
from kitlist.base.terms import RodStorage
from kitlist.kit import Acceptance
from kitlist.kit.checked import Answer
from kitlist.store import (
    Store,
    accepted_gaps,
    changes,
    checked_off,
    guests,
    journalled,
    noting,
    opening,
    papers_kept,
    readings,
    rod_events,
    rows,
    settings,
    trip_use,
    undoing,
)
from kitlist.store.exporting import export
from kitlist.store.importing import import_file
from kitlist.store.noting import Signature
from kitlist.store.updating import update
from new_store import demo_store, new_store

SEQUENCES = int(os.environ.get("KITLIST_TEST_SEQUENCES", "2"))
COMMANDS = 200
DAY = date(2027, 5, 1)
TRIP = "Dry lake survey"


def state(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table but the journal's."""
    with closing(sqlite3.connect(path)) as connection:
        names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            name: sorted(connection.execute(f"SELECT * FROM {name}").fetchall(), key=repr)
            for name in names
            if not name.startswith(("journal", "_", "sqlite"))
        }


def exported(store: Store, file: Path) -> dict[str, Any]:
    export(store, file, replace=True)
    found: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return {kind: things for kind, things in found.items() if kind != "journal"}


class Hand:
    """Somebody who gives one command after another, of every sort that writes."""

    def __init__(self, store: Store, chance: random.Random, folder: Path) -> None:
        self.store = store
        self.chance = chance
        self.folder = folder
        self.count = 0
        self.commands: tuple[Callable[[], object], ...] = (
            self.add, self.edit, self.rename, self.remove, self.restore, self.read, self.remove_reading,
            self.use, self.put_back, self.check, self.uncheck, self.again, self.bake, self.accept, self.import_,
            self.join, self.plan, self.weld, self.update, self.set,
        )  # fmt: skip

    def one(self, kind: str, where: str = "removed_at IS NULL") -> str:
        with self.store.viewing() as connection:
            return self.chance.choice(rows.names_of(connection, kind, where=where) or ["none"])

    def new(self) -> str:
        self.count += 1
        return f"{self.chance.choice(('Émeu', 'brolga', 'a, b', '=1'))} {self.count}"

    def at(self) -> datetime:
        return datetime.fromisoformat("2026-01-01T00:00") + timedelta(minutes=self.chance.randrange(90_000))

    def add(self) -> object:
        kind = self.chance.choice(("bag", "vehicle", "item", "battery"))
        values = {"place": "loose"} if kind == "battery" else {}
        return changes.add(self.store, kind, {"name": self.new()} | values)

    def edit(self) -> object:
        kind = self.chance.choice(("tool", "gear", "lead", "item"))
        values = {"count": self.chance.randrange(6), "note": self.chance.choice(("", "seen", "none"))}
        return changes.edit(self.store, kind, self.one(kind), values)

    def rename(self) -> object:
        kind = self.chance.choice(("battery", "vehicle", "bag", "trip", "rod", "tool"))
        name = self.one(kind)
        return changes.edit(self.store, kind, name, {"name": self.chance.choice((self.new(), name.swapcase()))})

    def remove(self) -> object:
        kind = self.chance.choice(("bag", "tool", "item", "battery", "gear", "repair"))
        return changes.remove(self.store, kind, self.one(kind))

    def restore(self) -> object:
        kind = self.chance.choice(("bag", "tool", "item", "battery", "gear", "repair"))
        return changes.restore(self.store, kind, self.one(kind, "removed_at IS NOT NULL"))

    def read(self) -> object:
        values = {"battery": self.one("battery"), "volts": 12.1 + self.chance.random() / 2, "taken_at": self.at()}
        return changes.add(self.store, "reading", values)

    def remove_reading(self) -> object:
        found = readings.listed(self.store, None, count=50)
        one = self.chance.choice(found)
        done = readings.remove(self.store, one.battery, str(one.taken_at))
        return readings.restore(self.store, one.battery, str(one.taken_at)) if self.chance.random() < 0.3 else done

    def use(self) -> object:
        words = [f"{self.one(self.chance.choice(('rod', 'tool', 'gear')))}={self.chance.choice(('1', '2', 'damaged'))}"]
        linked = [self.one("battery")]
        return trip_use.record(self.store, self.one("trip"), words, linked=linked, on=DAY, by="Ada", at=self.at())

    def put_back(self) -> object:
        return trip_use.put_back(self.store, self.one("trip"), [], on=DAY)

    def check(self) -> object:
        kind = self.chance.choice(("tool", "gear"))
        told = (kind, self.one(kind), self.chance.choice(list(Answer)), 1)
        return checked_off.record(self.store, self.one("trip"), [told], by="Ada", at=self.at())

    def uncheck(self) -> object:
        return checked_off.undo(self.store, self.one("trip"), at=self.at())

    def again(self) -> object:
        return checked_off.begin_again(self.store, self.one("trip"))

    def bake(self) -> object:
        rod = self.one("rod")
        if self.chance.random() < 0.5:
            return rod_events.opened(self.store, rod, on=DAY, storage=RodStorage.DRY_TUBE)
        return rod_events.baked(self.store, rod, on=DAY)

    def accept(self) -> object:
        trip = self.one("trip")
        if self.chance.random() < 0.3:
            return accepted_gaps.take_back(self.store, rule="spare-rods", trip=trip)
        one = Acceptance(
            name=f"spare-rods {trip}"[:100], rule="spare-rods", subject="rods", severity="fix", trip=trip,
            accepted_by="Ada", reason="near home", accepted_on=DAY, until=DAY,
        )  # fmt: skip
        return accepted_gaps.accept(self.store, [one])

    def import_(self) -> object:
        file = self.folder / "more.toml"
        lines = [
            f"[[reading]]\nbattery = '{self.one('battery')}'\nvolts_v = 12.5\ntaken_at = {self.at():%Y-%m-%dT%H:%M:%S}"
        ]
        lines += [f'[[item]]\nname = "{self.new()}"' for _ in range(3)]
        file.write_text("\n".join(lines), encoding="utf-8")
        return import_file(self.store, file)

    def update(self) -> object:
        file = self.folder / "all.json"
        export(self.store, file, replace=True)
        kit = json.loads(file.read_text(encoding="utf-8"))
        for kind in ("tool", "gear", "battery", "reading"):
            self.chance.choice(kit[kind])["note"] = self.chance.choice(("looked at", ""))
        kit["item"].append({"name": self.new()})
        file.write_text(json.dumps(kit), encoding="utf-8")
        return update(self.store, file, expected=update(self.store, file))

    def set(self) -> object:
        return settings.edit(self.store, {"paper": self.chance.choice(("A4", "letter")), "by": "Ada"})

    def join(self) -> object:
        file = self.folder / "guest.toml"
        name = self.chance.choice(("Gull", "Tern"))
        file.write_text(
            f'[[vehicle]]\nname = "{name}"\nguest_of = "Bo"\n[[battery]]\nname = "b"\nplace = "start"\n'
            f"condition = '{self.chance.choice(('sound', 'cracked'))}'\n",
            encoding="utf-8",
        )
        return guests.join(self.store, file, self.one("trip"))

    def plan(self) -> object:
        kinds = {"vehicles": "vehicle", "bank": "battery", "repairs": "repair"}
        field = self.chance.choice(list(kinds))
        members = list({self.one(kinds[field]) for _ in range(self.chance.randrange(4))})
        return changes.edit(self.store, "trip", self.one("trip"), {field: members})

    def weld(self) -> object:
        values = {"name": self.new(), "part": "bracket", "welded_on": DAY, "bank": [self.one("battery")]}
        return changes.add(self.store, "mend", values)


def last_number(store: Store) -> int:
    with store.viewing() as connection:
        return int(connection.execute("SELECT coalesce(max(id), 0) FROM journal").fetchone()[0])


@pytest.mark.parametrize("seed", range(SEQUENCES))
def test_random_commands_undone_one_by_one_give_every_state_again_and_redone_too(
    tmp_path: Path, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "SYNCHRONOUS", "OFF")  # nothing is killed here
    store = demo_store(tmp_path / "kit.db")
    hand = Hand(store, random.Random(seed), tmp_path)
    before: list[dict[str, Any]] = []
    refused, now = 0, state(store.path)
    while len(before) < COMMANDS:
        then, number, taken = now, last_number(store), True
        try:
            hand.chance.choice(hand.commands)()
        except KitlistError:
            refused, taken = refused + 1, False
        now = state(store.path)
        assert taken or now == then
        made = last_number(store) - number
        assert made == (now != then) or made == 2, "a change that is not in the journal"
        if made == 1:
            before.append(then)
        elif made == 2:  # a reading removed and brought back: two commands
            before += [then, None]  # type: ignore[list-item]
    after = [*before[1:], now]
    last = exported(store, tmp_path / "last.json")
    numbers = []
    for then in reversed(before):
        numbers.append(undoing.undo(store).number)
        assert then is None or state(store.path) == then
    assert exported(store, tmp_path / "first.json") == exported(
        demo_store(tmp_path / "other.db"), tmp_path / "demo.json"
    )
    for number, then in zip(reversed(numbers), after, strict=True):
        undoing.undo(store, number)
        assert then is None or state(store.path) == then
    assert exported(store, tmp_path / "again.json") == last
    assert refused < COMMANDS * 3


def test_the_journal_says_when_by_which_command_who_and_from_what_to_what(tmp_path: Path) -> None:
    path = demo_store(tmp_path / "kit.db").path
    store = Store(path, signature=Signature("battery edit heron-main condition=cracked", "Ada"))
    changes.edit(store, "battery", "heron-main", {"condition": "cracked", "tester_mohm": 5.5})
    ((entry, changed),) = journalled.listed(store, "heron-main", count=1)
    assert (entry.words, entry.who) == ("battery edit heron-main condition=cracked", "Ada")
    assert abs(datetime.fromisoformat(entry.at) - datetime.now()) < timedelta(minutes=2)  # noqa: DTZ005
    assert [journalled.in_words(c) for c in changed] == [
        "battery heron-main: condition sound -> cracked, tester not known -> 5.5"
    ]


def test_a_thing_is_followed_back_under_its_former_names(tmp_path: Path) -> None:
    store = demo_store(tmp_path / "kit.db")
    changes.edit(store, "battery", "heron-main", {"condition": "swollen"})
    changes.edit(store, "battery", "heron-main", {"name": "old one"})
    told = [journalled.in_words(c[0]) for _, c in journalled.listed(store, "old one")]
    assert told[:2] == [
        "battery heron-main: name heron-main -> old one",
        "battery heron-main: condition sound -> swollen",
    ]
    assert len(told) == 3  # and the import that brought it
    with pytest.raises(NotFound, match="no thing is called 'nothing of that name'"):
        journalled.listed(store, "nothing of that name")


def test_what_later_stands_on_a_command_refuses_its_undo_in_a_sentence(store: Store) -> None:
    changes.add(store, "vehicle", {"name": "Heron"})
    changes.add(store, "battery", {"name": "main", "vehicle": "Heron"})
    changes.edit(store, "battery", "main", {"condition": "cracked"})
    with pytest.raises(BadData, match="battery main stands on vehicle Heron"):
        undoing.undo(store, 1)
    with pytest.raises(BadData, match=r"battery main was changed since by 'a change' \(3\)") as caught:
        undoing.undo(store, 2)
    assert caught.value.hint == "Take that back first: kitlist undo 3"
    undoing.undo(store, 3)
    undoing.undo(store, 2)
    undoing.undo(store, 1)
    with pytest.raises(NotFound, match="nothing to take back"):
        undoing.undo(store)
    with pytest.raises(BadData, match="was taken back already, by 6"):
        undoing.undo(store, 1)
    with pytest.raises(BadData, match="what it refers to is not there now"):
        undoing.undo(store, 5)


def test_an_undo_that_would_leave_a_trip_with_a_removed_battery_is_refused(store: Store) -> None:
    changes.add(store, "battery", {"name": "spare", "place": "loose"})
    changes.remove(store, "battery", "spare")
    changes.restore(store, "battery", "spare")
    dates = {"starts_on": "2027-05-08", "ends_on": "2027-05-16"}
    changes.add(store, "trip", {"name": "lake", "bank": "spare"} | dates)
    before = state(store.path)
    with pytest.raises(BadData, match="trip lake refers to battery spare"):
        undoing.undo(store, 3)
    assert state(store.path) == before


def test_an_import_of_thousands_of_readings_is_one_line_and_goes_and_comes_back_whole(tmp_path: Path) -> None:
    store = demo_store(tmp_path / "kit.db")
    before = state(store.path)
    moments = [datetime.fromisoformat("2020-01-01T00:00") + timedelta(minutes=n) for n in range(7000)]
    lines = "".join(f"heron-main,12.5,{at.isoformat()}\n" for at in moments)
    (tmp_path / "reading.csv").write_text("battery,volts_v,taken_at\n" + lines, encoding="utf-8")
    import_file(store, tmp_path / "reading.csv")
    ((_, changed),) = journalled.listed(store, "heron-main", count=1)
    assert [journalled.in_words(c) for c in changed] == ["7000 readings: added"]
    after = state(store.path)
    readings.remove(store, "heron-main", str(moments[10]))
    with pytest.raises(BadData, match="7000 readings were changed since by"):
        undoing.undo(store, 2)
    undoing.undo(store)
    number = undoing.undo(store).number
    assert state(store.path) == before
    undoing.undo(store, number)
    assert state(store.path) == after


def test_a_printed_paper_is_in_the_journal_and_stays_printed(tmp_path: Path) -> None:
    store = demo_store(tmp_path / "kit.db")
    changes.edit(store, "battery", "heron-main", {"condition": "cracked"})
    papers_kept.remember(store, paper="sheet", trip=TRIP, content_hash="0" * 8, revision=1, on=DAY)
    done = undoing.undo(store)
    assert done.entry.number == 2
    assert state(store.path)["printed"] != []
    with pytest.raises(BadData, match="cannot be taken back"):
        undoing.undo(store, 3)


def test_the_journal_is_bounded_and_keeps_the_newest_command_whole(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(noting, "KEPT", 5)
    for number in range(9):
        changes.add(store, "bag", {"name": f"bag {number}"})
    assert [entry.number for entry, _ in journalled.listed(store)] == [9, 8, 7, 6, 5]
    monkeypatch.setattr(noting, "KEPT_BYTES", 150)
    changes.add(store, "bag", {"name": "one more"})
    assert [entry.number for entry, _ in journalled.listed(store)] == [10]
    undoing.undo(store)
    assert len(changes.listed(store, "bag")) == 9


def test_an_export_carries_the_journal_into_an_empty_store_as_history(tmp_path: Path) -> None:
    store = demo_store(tmp_path / "kit.db")
    changes.edit(Store(store.path, signature=Signature("by hand", "Ada")), "tool", "chocks", {"note": "worn"})
    export(store, tmp_path / "kit.json")
    new = new_store(tmp_path / "new.db")
    import_file(new, tmp_path / "kit.json")
    (_, (old, changed), _) = journalled.listed(new)
    assert (old.words, old.who, [journalled.in_words(c) for c in changed]) == (
        "by hand",
        "Ada",
        ["tool chocks: note nothing -> worn"],
    )
    with pytest.raises(BadData, match="cannot be taken back"):
        undoing.undo(new, old.number)
    undoing.undo(new)
    assert changes.listed(new, "tool") == ()
    import_file(store, tmp_path / "kit.json")
    assert last_number(store) == 2


@pytest.mark.parametrize(
    "line",
    ['{"at": 5, "words": "", "who": "", "changes": []}', '{"at": "2027-01-01 07:00:00", "words": 1, "who": ""}', "{}",
     '{"at": "2027-01-01 07:00:00", "words": "a", "who": "b", "changes": [1]}', "7"],
)  # fmt: skip
def test_a_journal_that_is_none_is_refused_with_its_line(store: Store, tmp_path: Path, line: str) -> None:
    (tmp_path / "kit.json").write_text(f'{{"kitlist": 2,\n"journal": [\n{line}\n]}}', encoding="utf-8")
    with pytest.raises(BadFile) as caught:
        import_file(store, tmp_path / "kit.json")
    assert caught.value.lines[0].startswith("kit.json:3: ")
