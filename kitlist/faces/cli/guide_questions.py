"""What the guided start asks: the questions that are still open, from the kit as it is and what was answered.

A question is put once. What is written on a thing, measured or dated is never filled in: Enter leaves it not known.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, MutableMapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.base.terms import BatteryPlace, Chemistry, StartBatteries

if TYPE_CHECKING:
    from kitlist.kit import Battery, Kit, Vehicle
    from kitlist.store.writer import Writer

Answers = MutableMapping[str, str]
Keep = Callable[["Writer", str, Answers], str]
DONE = "-"  # what is kept of a question that was passed over
SAME = re.compile(r"(?:=|same(?: label)?(?: as)?)\s*(.*)", re.IGNORECASE)
ON_ONE_LABEL = ("chemistry", "c20_ah", "cranking_a", "cranking_standard", "terminals", "mass_kg", "built_in_cutoff")

BATTERY = (
    ("chemistry", "what is inside: agm, calcium, flooded, efb, gel, lithium; or = NAME for the same label",
     "On the top or front label: AGM, Ca or Ca/Ca, EFB, GEL, LiFePO4. Caps that open: flooded."),
    ("c20_ah", "capacity, 75Ah", "On the label as Ah, with 20h, C20 or K20 where it says more than one."),
    ("cranking_a", "cranking, 680CCA or 640A EN", "On the label: CCA, or A with EN, SAE, DIN or JIS beside it."),
    ("condition", "look at its case: sound, cracked, leaking, swollen, frozen", "All sides and round the posts."),
    ("terminals", "its terminals: post, m8, m10, m6, post-and-stud, side", "What the cables are on."),
    ("sits", "where it sits: bonnet, tray, chassis, boot, cabin, under-seat", "Where the vehicle carries it."),
    ("stays_connected", "connected between trips (y/n)", "Whether a fridge, tracker or the vehicle draws on it."),
)  # fmt: skip
LEAD = (
    ("count", "how many like this are there (0: none)", "Only those with the same ends, section and length."),
    ("area_mm2", "section: 35 mm2, 4 AWG, 378x0.3 (strands), bundle 7.7mm",
     "Printed on the cable as 1x35 or 35 mm²; else cut one end back: count the strands and measure one, or measure "
     "the bundle of bare strands. The outside of the insulation says nothing."),
    ("length_m", "length end to end, 3m", "Of the conductor itself."),
    ("conductor", "copper, tinned-copper, aluminium, copper-clad", "Scratch a strand: silver all through: aluminium."),
)  # fmt: skip
ROD = (
    ("designation", "as the packet has it, E6013", "The classification in large letters: E6013, E7018-1 H4R."),
    ("diameter_mm", "diameter, 3.2mm or 1/8 in", "On the packet, or a gauge on the bare end."),
    ("count", "how many rods are left", "Count them."),
    ("condition", "bend one, tap two: dry, damp, wet, damaged", "A dry coating rings, a damp one is dull and flakes."),
)
TRIP = (
    ("people", "how many people go", ""),
    ("coldest_c", "coldest expected, -6 or 20F", "The coldest hour at the places you sleep: it starts the engines."),
    ("hottest_c", "hottest expected", ""),
    ("days_from_help", "days until help could come", "From the farthest point, with nobody passing by."),
    ("wet", "may the welding be in the wet, sweaty or cramped (y/n)", "Over 35 V is not for the wet."),
    ("parked_apart_m", "how near can the vehicles park, 1m", "From battery to battery the links must reach."),
)


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its key among the answers, its words, where to look, and what keeps an answer."""

    key: str
    text: str
    more: str
    keep: Keep


def waiting(kit: Kit, answers: Answers, again: str = "", said: str = "") -> Iterator[Question]:
    """The questions still open, in order; `again` is the key of one that is put once more, `said` its answer."""
    if again.startswith(("more ", "start ")) and said not in ("", DONE):
        kind = "vehicle" if again.startswith("more vehicle ") else "battery"
        yield Question(again, f"Its name ({said}), Enter keeps it:", "", _keep(kind, said, "name", kept=said))
        return
    for question in _all(kit, answers, again):
        if question.key not in answers and (question.key == again or not again):
            yield question


def _all(kit: Kit, answers: Answers, again: str) -> Iterator[Question]:
    vehicles = [v for v in kit.vehicles if not v.guest_of]
    for vehicle in vehicles:
        yield from _vehicle(kit, vehicle, answers, again)
    yield from _things(answers, "vehicle", "The first vehicle's name", [v.name for v in vehicles], {})
    loose = [b.name for b in kit.batteries if b.place is BatteryPlace.LOOSE]
    yield from _things(answers, "battery", "A loose battery that is carried", loose, {"place": "loose"})
    for battery in kit.batteries:
        if battery.place is BatteryPlace.LOOSE:
            yield from _battery(kit, battery, answers, again)
    for lead in kit.leads:
        asked = LEAD if lead.count or again or f"lead {lead.name} count" not in answers else LEAD[:1]
        yield from fields_asked("lead", lead, asked, answers, again)
    for rod in kit.rods:
        yield from fields_asked("rod", rod, ROD, answers, again, known_too=not rod.count)


def _things(
    answers: Answers, kind: str, first: str, there: list[str], more: dict[str, str], within: str = ""
) -> Iterator[Question]:
    """Names of things of a kind one after another, until Enter alone says that there are no more."""
    prefix = f"{within or kind} "
    ended = any(key.startswith(f"more {prefix}") and answer == DONE for key, answer in answers.items())
    if ended:
        return
    where = f" in {within}" if within else ""
    text = f"Another {kind}{where}? Its name, or Enter for no more:" if there else f"{first}:"

    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.store import changes

        if not text:
            return DONE
        return str(changes.add_within(change, kind, {"name": text} | more).name)

    yield Question(f"more {prefix}{len(there) + 1}", text, "A short name: every command knows it by that.", keep)


def _vehicle(kit: Kit, vehicle: Vehicle, answers: Answers, again: str) -> Iterator[Question]:
    asked = (
        (
            "start_batteries",
            "starting batteries: single or twin (12 V), pair (24 V)",
            "Look for two: joined plus to plus they are a twin, bridged plus to minus a pair for 24 V.",
        ),
    )
    for question in fields_asked("vehicle", vehicle, asked, answers, again, known_too=True):
        yield Question(question.key, question.text, question.more, _keep_system(vehicle.name))
    own = [b for b in kit.batteries if b.vehicle == vehicle.name]
    starting = [b for b in own if b.place is BatteryPlace.START]
    wanted = 1 if vehicle.start_batteries is StartBatteries.SINGLE else 2
    if len(starting) < wanted and f"start {vehicle.name} {len(starting) + 1}" not in answers:
        yield _starting(vehicle, len(starting) + 1, of=wanted)
    for battery in own:
        yield from _battery(kit, battery, answers, again)
    second = {"vehicle": vehicle.name, "place": "second"}
    there = [b.name for b in own]
    if there:
        yield from _things(answers, "battery", "", there, second, within=vehicle.name)


def _keep_system(name: str) -> Keep:
    """How its starting batteries are joined says what its system is: 24 V is a pair."""

    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.base.sayings import meant
        from kitlist.store import changes

        if text:
            volts = 24 if meant(StartBatteries, text) is StartBatteries.PAIR else 12
            changes.edit_within(change, "vehicle", name, {"start_batteries": text, "system_v": volts})
        return text or DONE

    return keep


def _starting(vehicle: Vehicle, number: int, *, of: int) -> Question:
    usual = f"{vehicle.name.casefold().replace(' ', '-')}-{'main' if of == 1 else number}"

    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.store import changes

        values = {"name": text or usual, "vehicle": vehicle.name, "place": "start"}
        return str(changes.add_within(change, "battery", values).name)

    which = "starting battery" if of == 1 else f"starting battery {number} of {of}"
    return Question(f"start {vehicle.name} {number}", f"A name for {vehicle.name}'s {which} ({usual}):",
                    "Enter takes the name in brackets.", keep)  # fmt: skip


def _battery(kit: Kit, battery: Battery, answers: Answers, again: str) -> Iterator[Question]:
    asked = BATTERY if battery.vehicle else tuple(row for row in BATTERY if row[0] not in ("sits", "stays_connected"))
    if battery.chemistry is Chemistry.LITHIUM:
        row = ("built_in_cutoff", "does electronics inside cut it off (y/n)", "The leaflet calls it BMS.")
        asked = (asked[0], row, *asked[1:])
    for question in fields_asked("battery", battery, asked, answers, again):
        if question.key == f"battery {battery.name} chemistry":
            yield Question(question.key, question.text, question.more, _or_same_label(kit, battery, question.keep))
        else:
            yield question


def _or_same_label(kit: Kit, battery: Battery, keep: Keep) -> Keep:
    """As `keep`, and `= NAME` copies what stands on another battery's label."""

    def keep_or_copy(change: Writer, text: str, answers: Answers) -> str:
        from kitlist.kit import plain
        from kitlist.store import changes

        match = SAME.fullmatch(text)
        others = {b.name: b for b in kit.batteries if b.name != battery.name}
        if not match:
            return keep(change, text, answers)
        if not match[1] and len(others) != 1:
            raise BadData("the same label as which battery?", hint=f"= {' or = '.join(others)}")
        other = others[names.resolve(match[1], others, what="battery") if match[1] else next(iter(others))]
        values = {field: plain(getattr(other, field)) for field in ON_ONE_LABEL if getattr(other, field) is not None}
        changes.edit_within(change, "battery", battery.name, values)
        for field in ON_ONE_LABEL:
            answers[f"battery {battery.name} {field}"] = f"as {other.name}"
        return f"as {other.name}"

    return keep_or_copy


def fields_asked(
    kind: str,
    thing: Any,
    asked: tuple[tuple[str, str, str], ...],
    answers: Answers,
    again: str,
    *,
    known_too: bool = False,
) -> Iterator[Question]:
    """A question for every field that nobody knows yet, for one that is put again, and with `known_too` for all."""
    from kitlist.base.fields import fields_of
    from kitlist.faces.words.cell_text import cell

    fields = {field.name: field for field in fields_of(thing.__class__)}
    for field, words, more in asked:
        key = f"{kind} {thing.name} {field}"
        known = cell(fields[field], getattr(thing, field))
        unknown = known in ("", "unknown") or (field == "count" and not thing.count)
        if unknown or known_too or key == again:
            now = f" ({known})" if known not in ("", "unknown", "0") else ""
            text = f"{thing.name}, {words}{now}:"
            yield Question(key, text, more or fields[field].about.help, _keep(kind, thing.name, field))


def _keep(kind: str, name: str, field: str, *, kept: str = DONE) -> Keep:
    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.store import changes

        if text:
            changes.edit_within(change, kind, name, {field: text})
        return text or kept

    return keep
