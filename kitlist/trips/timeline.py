"""What must be done by when: from weeks before a trip to the day after it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from kitlist.base.names import quoted
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.terms import FireRules
from kitlist.kit.printed import PrintedPaper
from kitlist.outlook.charging import ChargeDo, ChargePlan, charge_plan
from kitlist.readiness import Readiness
from kitlist.rules.card_out_of_date import RULE as CARD
from kitlist.rules.core import Gap
from kitlist.rules.doing import Doing
from kitlist.rules.fire_rules_not_asked import RULE as FIRE_RULES
from kitlist.rules.packing import listed

RECHARGE_WITHIN_DAYS = Figure("batteries that welded are recharged after the return", 1, "days", PRACTICE)

_LISTED = {  # charge, read and print have actions of their own: the charge plan's, and the papers'
    Doing.GET: "Get what is missing",
    Doing.CHECK: "Look, measure or count, and write it down",
    Doing.MEND: "Put right",
    Doing.ASK: "Ask, and write the answer down",
    Doing.BAKE: "Dry or bake",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing to do: the last day for it, what, and what to type when it is done. `late` is past that day."""

    word: str
    due_on: date
    what: str
    command: str
    done: bool = False
    late: bool = False
    of_gaps: bool = False  # it gathers gaps, each of which says better by itself what to do


def timeline(readiness: Readiness, *, checked_off: bool = False, used: bool = False) -> tuple[Action, ...]:
    """Every action of a trip by its day, as things stand on the day of the readiness.

    `checked_off` says that every bag was gone through, `used` that what the trip took was recorded. A battery's day
    that is past is today; the other days stay, and what is not done by them is late. Lead times are common practice.
    """
    plan = charge_plan(readiness.trip, readiness.outlook, on=readiness.on)
    actions = [*_before(readiness, plan), *_at_the_door(readiness, checked_off=checked_off), *_after(readiness, used)]
    shown = [replace(action, late=not action.done and action.due_on < readiness.on) for action in actions]
    return tuple(sorted(shown, key=lambda action: action.due_on))


def _before(readiness: Readiness, plan: ChargePlan) -> Iterator[Action]:
    trip = readiness.trip
    yield Action(
        word="ask",
        due_on=Doing.ASK.due_on(trip.starts_on),
        what=f"Ask {trip.fire_authority or 'the fire authority'} whether welding is allowed there on those days.",
        command=f"kitlist trip edit {quoted(trip.name)} fire-rules=ANSWER fire-rules-asked-on=DATE",
        done=trip.fire_rules is not FireRules.NOT_ASKED,
    )
    for doing, words in _LISTED.items():
        asking = [gap for gap in readiness.gaps if gap.open and gap.asks is doing and gap.rule != FIRE_RULES.name]
        if asking:
            yield Action(
                word=str(doing),
                due_on=doing.due_on(trip.starts_on),
                what=f"{words}: {listed(_ways(asking) if doing is Doing.MEND else _subjects(asking))}.",
                command="kitlist ready",
                of_gaps=True,
            )
    yield from _batteries(readiness, plan)


def _batteries(readiness: Readiness, plan: ChargePlan) -> Iterator[Action]:
    """Charge, rest, read: done where the plan asks for none of it."""
    name = quoted(plan.trip)
    to_charge = [line.name for line in plan.lines if line.do.charges]
    to_read = [line.name for line in plan.lines if line.do is ChargeDo.READ]
    if to_charge:
        yield Action(
            word="charge",
            due_on=plan.charge_by,
            what=f"Charge each alone, in open air: {listed(to_charge)}.",
            command=f"kitlist charge {name}",
        )
        yield Action(
            word="rest",
            due_on=plan.read_on,
            what=f"Let them rest, nothing connected: {listed(to_charge)}; {plan.rest.worth}.",
            command="",
        )
    yield Action(
        word="read",
        due_on=plan.read_on,
        what=f"Read the volts: {listed([*to_charge, *to_read]) or 'every battery'}.",
        command="kitlist volts",
        done=not to_charge and not to_read,
    )


def _at_the_door(readiness: Readiness, *, checked_off: bool) -> Iterator[Action]:
    trip = readiness.trip
    name = quoted(trip.name)
    day = Doing.PRINT.due_on(trip.starts_on)
    printed = {paper.paper: paper for paper in readiness.kit.printed if paper.trip == trip.name}
    stale = any(gap.rule == CARD.name for gap in readiness.gaps)
    yield Action(
        word="check off",
        due_on=day,
        what="Go through every bag.",
        command=f"kitlist check-off {name}",
        done=checked_off,
    )
    yield Action(
        word="print card",
        due_on=day,
        what="Print the glovebox card, and laminate it.",
        command=f"kitlist print card {name}",
        done="card" in printed and not stale,
    )
    yield Action(
        word="print sheet",
        due_on=day,
        what="Print the sheet, after the last reading.",
        command=f"kitlist print sheet {name}",
        done="sheet" in printed and _shows_newest(printed["sheet"], readiness),
    )


def readings_basis(readiness: Readiness) -> str:
    """Sixteen hex digits of the newest reading of every battery that travels: what a printed sheet was made from."""
    newest = {name: b.reading for name, b in readiness.outlook.batteries.items() if b.reading}
    told = [(name, reading.taken_at.isoformat(), reading.volts_v) for name, reading in sorted(newest.items())]
    import hashlib  # loads the cryptography of this machine: only what was printed is compared by it

    return hashlib.sha256(json.dumps(told, ensure_ascii=False).encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _shows_newest(sheet: PrintedPaper, readiness: Readiness) -> bool:
    """Whether the sheet shows the newest readings; of one printed before that was kept, by the day it was printed."""
    if sheet.basis:
        return sheet.basis == readings_basis(readiness)
    days = [b.reading.taken_at.date() for b in readiness.outlook.batteries.values() if b.reading]
    return sheet.printed_on >= max(days, default=sheet.printed_on)


def _after(readiness: Readiness, used: bool) -> Iterator[Action]:
    trip = readiness.trip
    yield Action(
        word="used",
        due_on=trip.ends_on,
        what="Record what was used, which batteries were linked, what was damaged.",
        command=f"kitlist used {quoted(trip.name)}",
        done=used,
    )
    yield Action(
        word="recharge",
        due_on=trip.ends_on + timedelta(days=RECHARGE_WITHIN_DAYS.value),
        what="Read what welded, rested; recharge each alone within the day, read again; put back what was used.",
        command=f"kitlist restock {quoted(trip.name)}",
        done=False,
    )


def _subjects(gaps: Iterable[Gap]) -> list[str]:
    return list(dict.fromkeys(gap.subject for gap in gaps))


def _ways(gaps: Iterable[Gap]) -> list[str]:
    """What each gap is about, with how it is put right: mending is another thing each time."""
    found: dict[str, str] = {}
    for gap in gaps:
        how = re.split(r"[.;:] ", gap.remedy)[0].rstrip(".")
        found.setdefault(gap.subject, f"{gap.subject} ({how[:1].lower()}{how[1:]})")
    return list(found.values())
