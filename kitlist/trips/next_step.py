"""The next thing to do, whatever there is: no kit, no trip, a trip ahead, under way or past."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from kitlist.base.names import quoted
from kitlist.kit import Kit, Trip
from kitlist.readiness import Readiness
from kitlist.trips.timeline import Action

ADD_TRIP = "kitlist trip add NAME starts-on=DATE ends-on=DATE vehicles=NAME"


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """Where things stand, the one thing to do, the command for it, and what comes after.

    `command` is "" where hands do it, away from the keyboard: `do` then says how, and no line only explains.
    """

    stands: str
    do: str
    command: str
    trip: str = ""
    days_to_go: int | None = None
    verdict: str = ""
    counts: str = ""
    due_on: date | None = None
    then: str = ""


def no_store(*, somebody_to_ask: bool = False) -> NextStep:
    """Nothing is kept yet: where there is somebody to ask, being asked is the shortest way to a verdict."""
    if somebody_to_ask:
        return NextStep(
            stands="No kit is kept here yet.",
            do="Be asked for it: vehicles, batteries, leads, rods, the trip. Stop where you like and go on later.",
            command="kitlist start",
            then="Without questions, to fill in the usual bags and things: kitlist start --starter. "
            "kitlist demo shows an invented crew's kit first.",
        )
    return NextStep(
        stands="No kit is kept here yet.",
        do="Make a store, with the usual bags and things to fill in.",
        command="kitlist start --starter",
        then="kitlist start at a terminal asks for everything; kitlist demo shows an invented crew's kit first.",
    )


def no_trip(kit: Kit, last: Trip | None, *, on: date, used: bool = False) -> NextStep:
    """No trip is ahead: what the kit still lacks, or what the last trip left to do, or the next trip."""
    if not kit.vehicles:
        stands, do, command = "The kit has no vehicle yet.", "Add the first.", "kitlist vehicle add NAME"
    elif not kit.batteries:
        stands, do = "The kit has no battery yet.", "Add one: its label says the rest."
        command = f"kitlist battery add NAME vehicle={quoted(kit.vehicles[0].name)} chemistry=KIND c20=CAPACITY"
    elif last is None:
        stands, do, command = "There is no trip yet.", "Add the next one.", ADD_TRIP
    else:
        since = (on - last.ends_on).days
        stands = f"{last.name} ended {since} day{'' if since == 1 else 's'} ago; no trip is ahead."
        if used:
            do, command = "Recharge and put back what it took, then add the next trip.", "kitlist restock"
        else:
            do, command = "Record what it took.", "kitlist used"
        command = f"{command} {quoted(last.name)}"
    return NextStep(stands=stands, do=do, command=command)


def of_trip(readiness: Readiness, actions: Sequence[Action]) -> NextStep:
    """The next step of a trip that is ahead or under way."""
    trip, on = readiness.trip, readiness.on
    days = (trip.starts_on - on).days
    counts = ", ".join(f"{count} {severity}" for severity, count in readiness.counts.items() if count)
    if days <= 0:
        do, command, due = (
            "After a weld, and at the end: record what it took.",
            f"kitlist used {quoted(trip.name)}",
            None,
        )
        stands = f"{trip.name}: day {1 - days} of {(trip.ends_on - trip.starts_on).days + 1}, to {trip.ends_on}."
        then = "The volts of each battery before it welds: kitlist volts."
    else:
        do, command, due = _first(readiness, actions)
        stands = f"{trip.name}: leaves in {days} day{'' if days == 1 else 's'}, {trip.starts_on} to {trip.ends_on}."
        waiting = sum(1 for action in actions if not action.done)
        then = f"All {waiting} things to do, by day: kitlist next --all {quoted(trip.name)}"
    return NextStep(
        trip=trip.name,
        days_to_go=days,
        verdict=readiness.word,
        counts=counts,
        stands=stands,
        do=do,
        command=command,
        due_on=due,
        then=then,
    )


def _first(readiness: Readiness, actions: Sequence[Action]) -> tuple[str, str, date | None]:
    """What is due today or late and takes a day by itself, else the gravest gap, else what is due first."""
    trip, on = readiness.trip, readiness.on
    waiting = [a for a in actions if not a.done and a.command and a.due_on <= trip.starts_on]
    due = [a for a in waiting if a.due_on <= on and not a.of_gaps]
    gap = next((g for g in readiness.gaps if g.open), None)
    if due:
        return due[0].what, due[0].command, due[0].due_on
    if gap is not None:
        return f"{gap.what}. {gap.remedy}", gap.command, None
    if waiting:
        return waiting[0].what, waiting[0].command, waiting[0].due_on
    return (
        "Nothing is left to do before leaving but the recheck at the door.",
        f"kitlist ready {quoted(trip.name)}",
        None,
    )
