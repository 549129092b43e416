"""What the guided start asks: the questions that are still open, from the kit as it is and what was answered.

A question is put once. What is written on a thing, measured or dated is never filled in: Enter leaves it not known.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, MutableMapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from kitlist.base import names
from kitlist.base.errors import BadData
from kitlist.base.fields import fields_of
from kitlist.base.terms import BatteryPlace, Chemistry, Fitting, LeadUse, StartBatteries
from kitlist.faces.cli import guide_words as words
from kitlist.faces.cli import one_line
from kitlist.faces.cli.asking import a_name
from kitlist.faces.cli.one_line import Asked

if TYPE_CHECKING:
    from kitlist.kit import Battery, Kit, Lead, Rod, Vehicle
    from kitlist.store.settings import Settings
    from kitlist.store.writer import Writer

Answers = MutableMapping[str, str]
Keep = Callable[["Writer", str, Answers], str]
DONE = "-"  # what is kept of a question that was passed over
SAME = re.compile(r"(?:=|same(?: label)?(?: as)?)\s*(.*)", re.IGNORECASE)
ON_ONE_LABEL = ("chemistry", "c20_ah", "cranking_a", "cranking_standard", "terminals", "mass_kg", "built_in_cutoff")
COPIED = "as "  # before the name of the battery whose label was copied


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its key among the answers, its words, where to look, and what keeps an answer.

    `called` has the words for the fields that an answer sets, so that what is wrong with one is said in them.
    """

    key: str
    text: str
    more: str
    keep: Keep
    called: Mapping[str, str] = field(default_factory=dict)


def waiting(kit: Kit, kept: Settings, answers: Answers, again: str = "", said: str = "") -> Iterator[Question]:
    """The questions still open, in order; `again` is the key of one that is put once more, `said` its answer."""
    if again.startswith(("more ", "start ")) and said not in ("", DONE):
        kind = "vehicle" if again.startswith("more vehicle ") else "battery"
        yield Question(again, f"Its name ({said}):", "", _keep_name(kind, said))
        return
    for question in _all(kit, kept, answers, again, said):
        if question.key not in answers and (question.key == again or not again):
            yield question


def _all(kit: Kit, kept: Settings, answers: Answers, again: str, said: str) -> Iterator[Question]:
    from kitlist.faces.cli import guide_trip, settings_asked

    vehicles = [v for v in kit.vehicles if not v.guest_of]
    for vehicle in vehicles:
        yield from _vehicle(kit, vehicle, answers, again)
    yield from _things(answers, "vehicle", "The first vehicle's name", [v.name for v in vehicles], {})
    loose = [b.name for b in kit.batteries if b.place is BatteryPlace.LOOSE]
    first = "A loose battery that is carried? Its name, or Enter for none"
    yield from _things(answers, "battery", first, loose, {"place": "loose"})
    for battery in kit.batteries:
        if battery.place is BatteryPlace.LOOSE:
            yield from _battery(kit, battery, answers, again)
    for lead in kit.leads:
        yield from _lead(lead, answers, again)
    for rod in kit.rods:
        yield from _rod(rod, answers, again)
    yield from guide_trip.questions(kit, answers, again, said)
    yield from settings_asked.questions(kept)


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
        return str(changes.add_within(change, kind, {"name": a_name(text, of=f"a {kind}")} | more).name)

    hint = f"A short name for the {kind}, as heron or heron-main: every command knows it by that. Enter alone: no more."
    yield Question(f"more {prefix}{len(there) + 1}", text, hint, keep)


def _vehicle(kit: Kit, vehicle: Vehicle, answers: Answers, again: str) -> Iterator[Question]:
    for question in alone("vehicle", vehicle, (words.VEHICLE,), answers, again, known_too=True):
        yield Question(question.key, question.text, question.more, _keep_system(vehicle.name), question.called)
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

        name = a_name(text, of="a battery") if text else usual
        values = {"name": name, "vehicle": vehicle.name, "place": "start"}
        return str(changes.add_within(change, "battery", values).name)

    which = "starting battery" if of == 1 else f"starting battery {number} of {of}"
    hint = f"A short name for this one battery. Enter takes the name in brackets, {usual}."
    return Question(f"start {vehicle.name} {number}", f"A name for {vehicle.name}'s {which} ({usual}):", hint, keep)


def _battery(kit: Kit, battery: Battery, answers: Answers, again: str) -> Iterator[Question]:
    is_lithium = battery.chemistry is Chemistry.LITHIUM
    label = [part for part in words.LABEL.parts if not (is_lithium and part.field == "cranking_a")]
    look = [part for part in words.LOOK.parts if battery.vehicle or part.field != "sits"]
    others = [b for b in kit.batteries if b.name != battery.name and (b.c20_ah or b.cranking_a)]
    yield from _on_one_line("battery", battery, words.LABEL, label, answers, again, others=others)
    if is_lithium:
        yield from alone("battery", battery, (words.CUTOFF,), answers, again)
    yield from _on_one_line("battery", battery, words.LOOK, look, answers, again)
    if battery.vehicle:
        yield from alone("battery", battery, (words.CONNECTED,), answers, again)


def _lead(lead: Lead, answers: Answers, again: str) -> Iterator[Question]:
    yield from alone("lead", lead, (words.HOW_MANY,), answers, again)
    if not lead.count:
        return
    called = {"end_a": "one end", "end_b": "the other end"}
    kinds = ", ".join(fitting for fitting in Fitting if fitting != "unknown")
    key = f"lead {lead.name} ends"
    text = f"{lead.name}, what is on the two ends ({lead.end_a} and {lead.end_b}):"
    yield Question(key, text, f"One of {kinds}, for each end: lug-m8 and post-clamp.", _keep_ends(lead), called)
    yield from _on_one_line("lead", lead, words.CABLE, words.CABLE.parts, answers, again)


def _keep_ends(lead: Lead) -> Keep:
    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.base.sayings import meant
        from kitlist.store import changes

        if not text:
            return DONE
        ends = [end for end in re.split(r"\s*(?:,|/|\+|\band\b)\s*", text) if end]
        if len(ends) == 1 and meant(Fitting, ends[0]) is None and len(ends[0].split()) == 2:
            ends = ends[0].split()
        if len(ends) > 2:
            raise BadData("a lead has two ends", hint="For example: lug-m8 and post-clamp.")
        if len(ends) == 1 and lead.use is LeadUse.LINK:
            ends *= 2
        changes.edit_within(change, "lead", lead.name, dict(zip(("end_a", "end_b"), ends, strict=False)))
        return text

    return keep


def _rod(rod: Rod, answers: Answers, again: str) -> Iterator[Question]:
    """A packet; what the starter kit says of one counts for nothing until somebody has read it off."""
    key = f"rod {rod.name} {words.PACKET.key}"
    if (not rod.count and f"rod {rod.name} count" not in answers) or key == again:
        parts = words.PACKET.parts
        text = (
            f"{rod.name}, {words.PACKET.leads_in}: {one_line.called(parts)}; for example {one_line.example(parts)}; "
            "Enter for none packed:"
        )
        keep = _keep_line("rod", rod.name, words.PACKET, parts, ())
        yield Question(key, text, _more(parts), keep, _called(parts))
    if answers.get(key) != DONE:
        yield from alone("rod", rod, words.ROD, answers, again)


def _on_one_line(
    kind: str,
    thing: Any,
    line: words.OneLine,
    parts: Sequence[Asked],
    answers: Answers,
    again: str,
    *,
    others: Sequence[Battery] = (),
) -> Iterator[Question]:
    """Parts that are read in one place in one question, and alone what an answer left out."""
    key = f"{kind} {thing.name} {line.key}"
    before = answers.get(key, "")
    if before == DONE or before.startswith(COPIED):
        return
    open_ = [p for p in parts if _is_unknown(thing, p.field) and f"{kind} {thing.name} {p.field}" not in answers]
    if key != again and (before or len(open_) < 2):
        yield from alone(kind, thing, open_, answers, again)
        return
    asked = parts if key == again else open_
    fields = {f.name: f for f in fields_of(thing.__class__)}
    now = one_line.known(fields, asked, thing)
    same = f"; or = {others[0].name} for the same label" if others else ""
    text = f"{thing.name}, {line.leads_in}: {one_line.called(asked)}; for example {one_line.example(asked)}{same}"
    keep = _keep_line(kind, thing.name, line, asked, others)
    yield Question(key, f"{text}{f' ({now})' if now else ''}:", _more(asked), keep, _called(asked))


def _keep_line(kind: str, name: str, line: words.OneLine, parts: Sequence[Asked], others: Sequence[Battery]) -> Keep:
    def keep(change: Writer, text: str, answers: Answers) -> str:
        from kitlist.kit import KINDS
        from kitlist.store import changes

        if not text:
            return DONE
        if others and (match := SAME.fullmatch(text)):
            return _copied(change, name, match[1], others)
        fields = {f.name: f for f in fields_of(KINDS[kind])}
        given = one_line.taken_apart(fields, parts, text, passed_over=line.passed_over)
        if line.whole and (left_out := [part.called for part in parts if part.field not in given]):
            example = one_line.example(parts)
            raise BadData(f"the {' and the '.join(left_out)} too, please", hint=f"For example {example}.")
        changes.edit_within(change, kind, name, given)
        return text

    return keep


def _copied(change: Writer, name: str, wanted: str, others: Sequence[Battery]) -> str:
    """Copy what stands on another battery's label, and nothing that the eye sees."""
    from kitlist.kit import plain
    from kitlist.store import changes

    by_name = {b.name: b for b in others}
    if not wanted and len(by_name) != 1:
        raise BadData("the same label as which battery?", hint=f"= {' or = '.join(by_name)}")
    other = by_name[names.resolve(wanted, by_name, what="battery") if wanted else next(iter(by_name))]
    values = {f: plain(getattr(other, f)) for f in ON_ONE_LABEL if getattr(other, f) is not None}
    changes.edit_within(change, "battery", name, values)
    return f"{COPIED}{other.name}"


def alone(
    kind: str, thing: Any, parts: Sequence[Asked], answers: Answers, again: str, *, known_too: bool = False
) -> Iterator[Question]:
    """A question for every field that nobody knows yet, for one that is put again, and with `known_too` for all."""
    from kitlist.faces.words.cell_text import cell

    fields = {f.name: f for f in fields_of(thing.__class__)}
    for part in parts:
        key = f"{kind} {thing.name} {part.field}"
        if _is_unknown(thing, part.field) or known_too or key == again:
            known = cell(fields[part.field], getattr(thing, part.field))
            now = f" ({known})" if known not in ("", "unknown", "0") else ""
            more = part.more or f"{fields[part.field].about.help}: {fields[part.field].allowed}".capitalize()
            text = f"{thing.name}, {part.alone}{now}:"
            yield Question(key, text, more, _keep(kind, thing.name, part.field), _called((part,)))


def _is_unknown(thing: Any, field: str) -> bool:
    value = getattr(thing, field)
    return value in (None, "", "unknown") or (field == "count" and not value)


def _more(parts: Sequence[Asked]) -> str:
    return "\n".join(part.more for part in parts)


def _called(parts: Sequence[Asked]) -> dict[str, str]:
    return {part.field: part.called for part in parts}


def _keep(kind: str, name: str, field: str) -> Keep:
    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.store import changes

        if text:
            changes.edit_within(change, kind, name, {field: text})
        return text or DONE

    return keep


def _keep_name(kind: str, name: str) -> Keep:
    def keep(change: Writer, text: str, _: Answers) -> str:
        from kitlist.store import changes

        if text:
            changes.edit_within(change, kind, name, {"name": a_name(text, of=f"a {kind}")})
        return text or name

    return keep
