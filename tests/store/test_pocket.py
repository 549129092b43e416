"""What a pocket page brings back: welds, practice beads and what was used, each once; another kit is said."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from kitlist.base import resources
from kitlist.kit.digest import kit_digest
from kitlist.store import Store, changes, pocket_taken, pocket_text, welded
from kitlist.store.importing import import_toml
from kitlist.store.pocket_taken import Fate
from kitlist.store.snapshot import snapshot

NOW = datetime(2027, 5, 9, 18)  # noqa: DTZ001 - the store keeps local time
TRIP = "Dry lake survey"
BANK = '["heron-main", "plover-main", "plover-second"]'


def demo(store: Store) -> Store:
    import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
    return store


def text_of(*entries: str, kit: str = "") -> str:
    head = f'[pocket]\nformat = 1\nwritten_at = {NOW.isoformat()}\ntrip = "{TRIP}"\nkit = "{kit}"\n'
    return head + "\n".join(entries)


def entry(kind: str, word: str, lines: str) -> str:
    return f'[[{kind}]]\nword = "{word}"\nat = 2027-05-09T17:00:00\nby = "Ada"\n{lines}\n'


def take(store: Store, text: str, *, dry_run: bool = False) -> list[Fate]:
    found = pocket_taken.take(store, pocket_text.read(text), now=NOW, dry_run=dry_run)
    return [outcome.fate for outcome in found]


WELD = entry("weld", "weldweld1", f'rod = "general rods"\nrods = 4\nbank = {BANK}\nbank_strings = 1\nbefore_v = 38.1')
BEAD = entry("bead", "beadbead1", f"bank = {BANK}\nbank_strings = 1\nrest_v = 38.1\nbank_v = 33.0\ncurrent_a = 150.0")
USED = entry("used", "usedused1", 'thing = "fire water"\namount = "4L"')


def test_a_weld_takes_its_rods_once_and_links_its_batteries(store: Store) -> None:
    demo(store)
    assert take(store, text_of(WELD), dry_run=True) == [Fate.TAKEN]
    assert changes.one(store, "rod", "general rods").count == 28
    assert take(store, text_of(WELD)) == [Fate.TAKEN]
    assert take(store, text_of(WELD)) == [Fate.ALREADY]
    assert changes.one(store, "rod", "general rods").count == 24
    assert [str(day) for day in welded.welded_on(store, "heron-main")] == ["2027-05-09"]
    (weld,) = snapshot(store).welds
    assert (weld.rods, weld.trip, weld.before_v) == (4, TRIP, 38.1)


def test_a_bead_and_what_was_used_come_in_once(store: Store) -> None:
    demo(store)
    for fates in ([Fate.TAKEN, Fate.TAKEN], [Fate.ALREADY, Fate.ALREADY]):
        assert take(store, text_of(BEAD, USED)) == fates
    (bead,) = [bead for bead in snapshot(store).beads if bead.name.startswith("phone 2027-05-09")]
    assert (bead.current_a, bead.bank) == (150.0, ("heron-main", "plover-main", "plover-second"))
    assert changes.one(store, "tool", "fire water").volume_l == 6


def test_readings_that_no_bead_can_have_and_rods_that_are_not_there_are_refused(store: Store) -> None:
    demo(store)
    nonsense = BEAD.replace("33.0", "39.0")
    too_many = WELD.replace("rods = 4", "rods = 400")
    assert take(store, text_of(nonsense, too_many)) == [Fate.REFUSED, Fate.REFUSED]
    assert changes.one(store, "rod", "general rods").count == 28
    assert snapshot(store).welds == ()


def test_a_page_of_another_kit_is_known_by_its_digest_and_ticks_and_readings_change_none(store: Store) -> None:
    demo(store)

    def digest() -> str:
        kit = snapshot(store, trip=TRIP)
        return kit_digest(kit, next(trip for trip in kit.trips if trip.name == TRIP))

    made = pocket_text.read(text_of(WELD, kit=digest()))
    take(store, text_of(WELD, USED))
    changes.add(store, "reading", {"battery": "heron-main", "volts": 12.5, "taken_at": NOW})
    assert not pocket_taken.changed_since(store, made)
    assert not pocket_taken.changed_since(store, pocket_text.read(text_of(WELD)))
    changes.edit(store, "battery", "heron-main", {"c20": "60"})
    assert pocket_taken.changed_since(store, made)


def test_the_command_takes_it_in_and_says_what_was_not(store: Store, tmp_path: Path) -> None:
    import running

    demo(store)
    file = tmp_path / "pocket.toml"
    file.write_text(text_of(WELD, USED.replace("fire water", "nothing such"), kit="00000000"), encoding="utf-8")
    first = running.kitlist("import", str(file), store=store.path)
    assert first.returncode == 3
    assert "The kit was changed since" in first.stderr
    assert "Took in 1 of 2; 0 were taken in before" in first.stderr
    assert "1 of 2 were not taken in" in first.stderr
    file.write_text(text_of(WELD), encoding="utf-8")
    again = running.kitlist("import", str(file), store=store.path)
    assert (again.returncode, "1 were taken in before" in again.stderr) == (0, True)


def test_a_reading_of_a_phone_whose_clock_is_ahead_is_taken_where_the_store_holds_a_later_one(store: Store) -> None:
    """It is put back to this machine's clock, and is still not the clock's own, which would be refused there."""
    demo(store)
    now = datetime(2026, 11, 27, 4, 24)  # noqa: DTZ001 - months before the demo's own readings
    late = entry("reading", "readread1", 'battery = "heron-main"\nvolts = "12.71"').replace("17:00:00", "18:00:00")
    text = pocket_text.read(text_of(late))
    (done,) = pocket_taken.take(store, text, now=now)
    assert done.fate is Fate.TAKEN, done.sentence
    assert done.reading is not None
    assert done.reading.taken_at < now
