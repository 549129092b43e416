"""Taking in what a phone brings back: each entry once by its word, what is in doubt asked, nothing silently won."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from kitlist.base.errors import KitlistError, NotFound
from kitlist.kit import Reading
from kitlist.kit.checked import Answer
from kitlist.kit.digest import kit_digest
from kitlist.store import changes, checked_off, clock, readings, rows, snapshot, trip_use, welds
from kitlist.store.opening import Store
from kitlist.store.pocket_text import PocketEntry, PocketKind, PocketText
from kitlist.trips import check_off

if TYPE_CHECKING:
    import sqlite3

    from kitlist.store.writer import Writer

_ANSWERS = frozenset(str(answer) for answer in Answer)
TAKEN_BACK = "taken back"  # the answer that takes the last one back


@dataclass(frozen=True, slots=True)
class _When:
    """The moment of an entry by this machine's clock, and the clock's own."""

    at: datetime
    now: datetime
    as_it_comes: bool


class Fate(StrEnum):
    """What became of an entry."""

    TAKEN = "taken"
    ALREADY = "already"  # its word was here before
    ASKED = "asked"  # somebody must look again: see `sentence`
    REFUSED = "refused"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one entry, in a sentence, and what it was about."""

    entry: PocketEntry
    fate: Fate
    sentence: str
    reading: Reading | None = None


def take(
    store: Store, text: PocketText, *, now: datetime, as_it_comes: bool = False, dry_run: bool = False
) -> tuple[Outcome, ...]:
    """Take in the entries of a text, in one transaction, and say of each what became of it.

    `as_it_comes`: the phone sends it this moment, so that its clock is put right by this machine's. A text that was
    written later than this machine's clock allows is put right too: a moment to come would hide what is read later.
    """
    ahead = text.written_at - now
    shift = ahead if as_it_comes or ahead > timedelta(0) else timedelta(0)
    latest = now if as_it_comes else now - timedelta(seconds=1)  # written before it came: not the clock's own moment
    with store.writing() as change:
        change.noting.by(next((entry.by for entry in text.entries if entry.by), ""))
        done = tuple(
            _taken(change, entry, _When(min(entry.at - shift, latest), now, as_it_comes)) for entry in text.entries
        )
        if dry_run:
            change.roll_back()
    return done


def changed_since(store: Store, text: PocketText) -> bool:
    """Whether the kit is another one than the page was made from; one that says of none has not changed."""
    kit = snapshot.snapshot(store, trip=text.trip)
    trip = next((trip for trip in kit.trips if trip.name == text.trip), None)
    return bool(text.kit) and (trip is None or kit_digest(kit, trip) != text.kit)


def _taken(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    from kitlist.store.tables import PocketTakenRow

    connection = change.connection
    if connection.execute("SELECT 1 FROM pocket_taken WHERE word = ?", (entry.word,)).fetchone():
        return Outcome(entry=entry, fate=Fate.ALREADY, sentence="was taken in before")
    connection.execute("SAVEPOINT one_entry")
    try:
        done = _BY_KIND[entry.kind](change, entry, when)
    except KitlistError as error:
        connection.execute("ROLLBACK TO one_entry")
        connection.execute("RELEASE one_entry")
        hint = f". {error.hint}" if error.hint else ""
        return Outcome(entry=entry, fate=Fate.REFUSED, sentence=f"{error.message}{hint}")
    connection.execute("RELEASE one_entry")
    if done.fate is Fate.TAKEN:
        change.insert(PocketTakenRow(word=entry.word, kind=str(entry.kind), taken_at=when.now))
    return done


def _check(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    kind, name = entry.values["kind"], entry.values["thing"]
    _known_trip(change, entry.trip)
    if kind not in check_off.KINDS or name not in rows.names_of(change.connection, kind):
        raise NotFound(f"no {kind[:20]} is called {name[:80]!r}", hint="It is gone meanwhile: load the page again.")
    thing = changes.find(change.connection, kind, name)
    given = _answer(entry, thing)
    before = _before(change.connection, entry.trip, kind, name, thing)
    if given is None:
        return _take_back(change, entry, before, when.now)
    answer, count = given
    of = entry.values.get("of")
    if of is not None and of != thing.count:
        return _outcome(entry, Fate.ASKED, f"{thing.count} are recorded now, not {of}: look again")
    doubt = check_off.contested(before, counted=count, by=entry.by, at=when.at, sure=entry.values.get("sure", ""))
    if doubt:
        return _outcome(entry, Fate.ASKED, doubt)
    checked_off.insert(change, entry.trip, [(kind, name, answer, count)], by=entry.by, at=when.at)
    return _outcome(entry, Fate.TAKEN, _what_stood(before, entry, answer, count))


def _what_stood(before: Any, entry: PocketEntry, answer: Answer, count: int) -> str:
    """What somebody had answered that this phone had not seen, so that it never gives way in silence."""
    said = f"{entry.values['thing']}: {count if answer is Answer.COUNTED else answer}"
    if before is None or check_off.state(before) == entry.values.get("was", "") or before.answer is answer:
        return said
    return f"{said}; {before.checked_by} had said {before.words} meanwhile, and {entry.by}'s counts now"


def _answer(entry: PocketEntry, thing: Any) -> tuple[Answer, int] | None:
    """The answer with its number; None where one is taken back."""
    told = entry.values["answer"]
    if told == TAKEN_BACK:
        return None
    if told not in _ANSWERS:
        raise NotFound(f"{told[:40]!r} is no answer", hint="there, missing, damaged, home or counted")
    answer = Answer(told)
    return answer, check_off.counted(thing, answer, entry.values.get("count"))


def _take_back(change: Writer, entry: PocketEntry, before: Any, now: datetime) -> Outcome:
    name = entry.values["thing"]
    if before is None:
        return _outcome(entry, Fate.TAKEN, f"{name}: there was nothing to take back")
    if check_off.state(before) != entry.values.get("was", ""):
        said = f"{name} has another answer meanwhile, {before.words} by {before.checked_by}: nothing was taken back"
        return _outcome(entry, Fate.REFUSED, said)
    checked_off.take_back(change, entry.trip, at=now, thing=(entry.values["kind"], name))
    return _outcome(entry, Fate.TAKEN, f"Taken back: {name}, {before.words}")


def _before(connection: sqlite3.Connection, trip: str, kind: str, name: str, thing: Any) -> Any:
    """The answer of this trip about a thing that holds, if there is one."""
    newest = checked_off.newest(connection, trip)
    return next((a for a in newest if (a.kind, a.name, a.expected) == (kind, name, thing.count)), None)


def _reading(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    given = {word: value for word, value in entry.values.items() if value not in ("", False)}
    if not given.get("volts"):
        raise NotFound("amperes without volts", hint="Type what the meter showed.")
    if given["battery"] not in rows.names_of(change.connection, "battery"):
        raise NotFound(f"no battery is called {given['battery'][:80]!r}")
    reading = changes.add_within(change, "reading", {"taken_at": when.at} | given, by_clock=when.now)
    if when.as_it_comes:  # its moment is by this machine's clock: refused like the clock's own where that is behind
        clock.refuse_impossible(change.connection, replace(reading, taken_at=when.now), by_clock=when.now)
    return Outcome(entry=entry, fate=Fate.TAKEN, sentence=f"{reading.battery}: {reading.volts_v:g} V", reading=reading)


def _reading_back(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    gone = readings.remove_within(change, entry.values["battery"], entry.values["taken_at"])
    return _outcome(entry, Fate.TAKEN, f"Taken back: {gone.battery}, {gone.volts_v:g} V")


def _known_trip(change: Writer, trip: str) -> None:
    known: Sequence[str] = rows.names_of(change.connection, "trip")
    if trip not in known:
        raise NotFound(f"no trip is called {trip[:80]!r}", hint="Load the page again.")


def _outcome(entry: PocketEntry, fate: Fate, sentence: str) -> Outcome:
    return Outcome(entry=entry, fate=fate, sentence=sentence)


def _bead(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    values = {"name": _name(entry, when), "welded_on": when.at.date(), **entry.values}
    bead = changes.add_within(change, "bead", values)
    return _outcome(entry, Fate.TAKEN, f"practice weld {bead.name}: {bead.current_a:g} A at {bead.bank_v:g} V")


def _weld(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    _known_trip(change, entry.trip)
    named = {"name": _name(entry, when), "welded_on": when.at.date(), "trip": entry.trip}
    given = {field: value for field, value in entry.values.items() if value != ""}
    given |= {field: welds.added_up(given[field]) for field in ("before", "after") if field in given}
    done = welds.add_weld_within(change, {**named, **given})
    said = f"weld {done.weld.name}: {done.weld.rods} rods, {done.rods_off} taken off {done.weld.rod}"
    if "name" in given:  # of its own form: what follows is said there
        said = ". ".join((said, *welds.what_follows(done)))
    return _outcome(entry, Fate.TAKEN, said)


def _used(change: Writer, entry: PocketEntry, when: _When) -> Outcome:
    _known_trip(change, entry.trip)
    thing, amount = entry.values["thing"], entry.values["amount"]
    trip_use.record_within(change, entry.trip, [f"{thing}={amount}"], on=when.at.date(), by=entry.by, at=when.at)
    return _outcome(entry, Fate.TAKEN, f"{thing}: {amount} used")


def _name(entry: PocketEntry, when: _When) -> str:
    """A name of its own for what nobody named: when it was, and its word's beginning."""
    return f"phone {when.at:%Y-%m-%d %H.%M} {entry.word[:4]}"


_BY_KIND = {
    PocketKind.CHECK: _check,
    PocketKind.READING: _reading,
    PocketKind.READING_BACK: _reading_back,
    PocketKind.BEAD: _bead,
    PocketKind.WELD: _weld,
    PocketKind.USED: _used,
}
