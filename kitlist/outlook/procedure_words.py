"""The procedure in words, from `seed_data/words/procedure.toml`: the one wording that every face shows.

A face may leave out `more`, where it has no room, and call a battery by a shorter name; it words nothing itself.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from kitlist.base import resources
from kitlist.base.terms import Polarity
from kitlist.outlook.procedure import (
    BLEED_A,
    BYSTANDER_M,
    GAS_H,
    VENT_M,
    Behind,
    Deed,
    Entry,
    IfThen,
    Numbered,
    Procedure,
    Warn,
)
from kitlist.outlook.procedure_terms import Phase, Task, Trouble

_LINKS = (Task.LINK,)


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedStep:
    """A step to read: what to do, the answer to see, a line below it, and what a screen has room for."""

    do: Task
    text: str
    see: str = ""
    note: str = ""
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedWarning:
    """A warning to read, before the step it is for."""

    signal: str
    hazard: str
    result: str
    avoid: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedTrouble:
    """If this happens, then that."""

    trouble: Trouble
    trigger: str
    then: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedBehind:
    """What was recorded behind the weld of a repair, or that it is never welded."""

    repair: str
    behind: str


Worded = WordedStep | WordedWarning | WordedTrouble | WordedBehind


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedStage:
    """A phase to read: its title, when it begins, and its entries in order."""

    phase: Phase
    title: str
    when: str
    entries: tuple[Worded, ...]

    @property
    def steps(self) -> tuple[WordedStep, ...]:
        """The steps alone, in order."""
        return tuple(entry for entry in self.entries if isinstance(entry, WordedStep))


@cache
def wording() -> Mapping[str, Any]:
    """The wording as it stands in its file."""
    path = resources.folder("seed_data") / "words" / "procedure.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def worded(procedure: Procedure, *, called: Mapping[str, str] | None = None) -> tuple[WordedStage, ...]:
    """Every phase in words; `called` has a shorter name for some batteries and vehicles, where a face needs one."""
    names = called or {}
    return tuple(
        WordedStage(
            phase=stage.phase,
            title=wording()["phase"][stage.phase]["title"],
            when=wording()["phase"][stage.phase]["when"].format_map(_everywhere(procedure)),
            entries=tuple(_entry(entry, procedure, names) for entry in stage.entries),
        )
        for stage in procedure.stages
    )


def why_barred(procedure: Procedure) -> Iterator[tuple[str, str]]:
    """Why the bank may not be linked, and what helps: two sentences each."""
    refused = "; ".join(f"{name}, {why}" for name, why in procedure.refused)
    for reason in procedure.barred:
        words = wording()["barred"][reason]
        yield words["why"].format(wet_limit_v=f"{procedure.wet_limit_v:g}", refused=refused), words["cure"]


def always() -> str:
    """What stands before the first step on every screen."""
    return str(wording()["caution"])


def _entry(entry: Entry, procedure: Procedure, called: Mapping[str, str]) -> Worded:
    match entry:
        case Warn(hazard):
            words = {
                name: text.format_map(_everywhere(procedure)) for name, text in wording()["hazard"][hazard].items()
            }
            return WordedWarning(**words)
        case IfThen(trouble):
            words = wording()["trouble"][trouble]
            filled = _everywhere(procedure) | wording()["call"]["alone" if procedure.alone else "crew"]
            return WordedTrouble(
                trouble=trouble, trigger=words["if"].format_map(filled), then=words["then"].format_map(filled)
            )
        case Behind(repair, behind, never):
            words = wording()["behind"]
            said = words["never"] if never else behind or words["unasked"]
            return WordedBehind(repair=called.get(repair, repair), behind=said)
        case Deed():
            return _step(entry, procedure, called)


def _everywhere(procedure: Procedure) -> dict[str, str]:
    return {
        "gas_h": f"{GAS_H.value:g}",
        "bleed_a": f"{BLEED_A.value:g}",
        "vent_m": f"{VENT_M.value:g}",
        "bystander_m": f"{BYSTANDER_M.value:g}",
        "wet_limit_v": f"{procedure.wet_limit_v:g}",
        "stop_v": f"{procedure.stop_v:g}",
        "opened": wording()["opened"][procedure.opening],
        "low_hydrogen": "rods" if len(procedure.low_hydrogen) > 1 else "".join(procedure.low_hydrogen),
    }


def _step(deed: Deed, procedure: Procedure, called: Mapping[str, str]) -> WordedStep:
    words = wording()["step"][deed.do]
    values = _everywhere(procedure) | _values(deed, procedure, called)
    text, see, more = words["do"], words.get("see", ""), words.get("more", "")
    if deed.do is Task.POLARITY and procedure.polarity is None:
        text = words["unsaid"]
    if deed.do is Task.SCRAP and procedure.low_hydrogen:
        see = words["dry"]
    only_full = [battery for battery in procedure.bank if battery.only_full]
    note = words.get("note", "")
    if (deed.do is Task.READ_ALL and only_full) or (deed.battery is not None and deed.battery.only_full):
        note = words.get("only_full", note)
    if deed.do in (Task.READ_AFTER, Task.READ_AFTER_ALL):
        asked = (deed.battery,) if deed.battery else procedure.bank
        note = words["over_full"] if any(battery.over_full for battery in asked) else note
    if deed.do is Task.PUT_BACK and deed.names:
        note = words["pair"]
    if deed.expected_v is not None:
        more = f"{more} {words['expected']}"
    return WordedStep(
        do=deed.do,
        text=text.format_map(values),
        see=see.format_map(values),
        note=note.format_map(values),
        more=more.format_map(values),
    )


def _values(deed: Deed, procedure: Procedure, called: Mapping[str, str]) -> dict[str, str]:
    values = {
        "names": ", ".join(called.get(name, name) for name in deed.names),
        "vehicle": called.get(deed.vehicle, deed.vehicle),
        "first": deed.names[0] if deed.names else "",
        "polarity": procedure.polarity.words if procedure.polarity else "",
        "amount": "" if deed.amount is None else f"{deed.amount:g}",
        "expected": "" if deed.expected_v is None else f"{deed.expected_v:.1f} V",
    }
    if deed.at_least_v is not None:
        values["at_least"] = f"{deed.at_least_v:.{1 if deed.do in _LINKS else 2}f} V"
    for key, battery in (("", deed.battery), ("to_", deed.to)):
        if battery is not None:
            values |= _battery(key, battery, called)
    if deed.battery is not None and deed.to is not None:
        plus, minus = f"{deed.battery.number} +", f"{deed.to.number} −"
        to_plus = procedure.polarity is not Polarity.DCEN
        values |= {"plus_at": plus, "minus_at": minus}
        values |= {"holder_at": plus if to_plus else minus, "work_at": minus if to_plus else plus}
    return values


def _battery(key: str, battery: Numbered, called: Mapping[str, str]) -> dict[str, str]:
    number = f"{battery.number}"
    name = called.get(battery.name, battery.name)
    if key:
        return {"to": number, "to_name": battery.name}
    return {"n": number, "name": battery.name, "battery": f"{number} {name}"}
