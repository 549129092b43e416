"""The guided start's questions about the trip: its name and days make it, the rest is asked like any other thing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from kitlist.base import days
from kitlist.base.errors import BadData
from kitlist.faces.cli import guide_words as words
from kitlist.faces.cli.asking import a_name
from kitlist.faces.cli.talk import today

if TYPE_CHECKING:
    from kitlist.faces.cli.guide_questions import Answers, Keep, Question
    from kitlist.kit import Kit, Trip
    from kitlist.store.writer import Writer

MADE_OF = (
    ("name", "The trip's name", "A short name: every command, the sheet and the card know the trip by it."),
    ("starts_on", "Day of departure, for example tomorrow or 8 May 2027", "The day on which the first vehicle leaves."),
    ("ends_on", "Day of return", "The last day on which the kit is away."),
)
_CALLED = {"starts_on": "day of departure", "ends_on": "day of return", "name": "the trip's name"}


def questions(kit: Kit, answers: Answers, again: str, said: str) -> Iterator[Question]:
    """What makes the next trip, where none is ahead; then what is not known of it."""
    from kitlist.faces.cli.guide_questions import alone
    from kitlist.kit import next_trip

    ahead = [trip for trip in kit.trips if trip.ends_on >= today()]
    done = sum(1 for key in answers if key.startswith("trip-made ") and key.endswith(" ends_on"))
    if again.startswith("trip-made "):
        number, field = again.split()[1:]
        yield _making(kit, int(number), field, said)
    elif not ahead:
        for field, _, _ in MADE_OF:
            yield _making(kit, done + 1, field)
    if ahead:
        yield from alone("trip", next_trip(ahead, on=today()), words.TRIP, answers, again)


def _making(kit: Kit, number: int, field: str, said: str = "") -> Question:
    from kitlist.faces.cli.guide_questions import Question

    _, text, more = next(row for row in MADE_OF if row[0] == field)
    now = f" ({said})" if said else ""
    keep = _keep_making(kit, number, field, said)
    return Question(f"trip-made {number} {field}", f"{text}{now}:", more, keep, _CALLED)


def _keep_making(kit: Kit, number: int, field: str, said: str) -> Keep:
    """Keep one of the three; with the last of them the trip is made, and later ones change it."""

    def keep(change: Writer, text: str, answers: Answers) -> str:
        from kitlist.store import changes, rows

        if not text and not said:
            raise BadData("a trip needs its name and its two days", hint="? says more; stop ends, and answers stay.")
        if field == "name":
            value = a_name(text or said, of="a trip")
            there = {name.casefold() for name in rows.names_of(change.connection, "trip", where="1")}
            if value.casefold() in there - {said.casefold()}:
                raise BadData(f"there was a trip called {value!r} already", hint="Choose another name.")
        else:
            value = days.day(text or said, today=today()).isoformat()
        given = {part: answers.get(f"trip-made {number} {part}", "") for part, _, _ in MADE_OF}
        made = _named(kit, said if field == "name" else given["name"])
        given[field] = value
        if made is not None:
            changes.edit_within(change, "trip", made.name, {field: value})
        elif all(given.values()):
            vehicles = [vehicle.name for vehicle in kit.vehicles if not vehicle.guest_of]
            changes.add_within(change, "trip", given | {"vehicles": vehicles})
        return value

    return keep


def _named(kit: Kit, name: str) -> Trip | None:
    return next((trip for trip in kit.trips if name and trip.name == name), None)
