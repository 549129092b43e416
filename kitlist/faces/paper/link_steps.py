"""Linking the chosen bank step by step with the reading to expect, and undoing it, in this bank's own names."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

from kitlist.base import resources
from kitlist.base.terms import Polarity
from kitlist.kit import Kit, Trip
from kitlist.outlook import Outlook
from kitlist.outlook.hardware import said_polarity
from kitlist.outlook.leads import opened_by
from kitlist.physics.leads.link_readings import readings


@dataclass(frozen=True, slots=True)
class Linking:
    """The steps in order, and the steps that undo them."""

    caution: str
    link: tuple[str, ...]
    undo: tuple[str, ...]


@cache
def _wording() -> Mapping[str, Any]:
    path = resources.folder("seed_data") / "words" / "linking.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def linking(kit: Kit, trip: Trip, outlook: Outlook) -> Linking:
    """The steps for the trip's bank; there must be one."""
    polarity = said_polarity(outlook.rods)
    plus, minus = f"{trip.strings[0][-1]} +", f"{trip.strings[0][0]} −"
    holder, work = (minus, plus) if polarity is Polarity.DCEN else (plus, minus)
    values = {"polarity": polarity.words, "holder_post": holder, "work_post": work} if polarity else {}
    others = left_on(kit, trip)
    values |= {
        "plus": plus,
        "minus": minus,
        "others": f" ({', '.join(others)})" if others else "",
        "keeps": _keeps(trip, outlook),
    }
    opening = opened_by(kit)
    if not opening:
        return Linking(caution=_wording()["caution"], link=(_wording()["never"],), undo=())
    flags = {opening.replace(" ", "_")} | ({"parallel"} if len(trip.strings) > 1 else set())
    flags.add("polarity" if polarity else "no_polarity")
    if len(trip.strings[0]) > 3:
        flags.add("four")
    repeats = {
        "battery": [{"battery": name} for name in trip.bank],
        "link": [entry for string in trip.strings for entry in _links(string, outlook)],
    }
    wording = _wording()
    return Linking(
        caution=wording["caution"],
        link=tuple(_steps(wording["link"], values, repeats, flags)),
        undo=tuple(_steps(wording["undo"], values, repeats, flags)),
    )


def left_on(kit: Kit, trip: Trip) -> tuple[str, ...]:
    """The batteries outside the bank in a vehicle with a repair on the trip: off too while it is welded on."""
    welded = {repair.vehicle for repair in kit.repairs if repair.name in trip.repairs}
    return tuple(b.name for b in kit.batteries if b.vehicle in welded and b.vehicle and b.name not in trip.bank)


def _keeps(trip: Trip, outlook: Outlook) -> str:
    """What each battery must show afterwards to have kept its reserve; "its reserve" where that is not known."""
    lasting = next((rod.lasting for rod in outlook.rods if rod.lasting is not None), None)
    if lasting is None:
        return "its reserve"
    volts = {name: lasting.marks(name, rods=0).shows_v for name in trip.bank if name in lasting.kept}
    if len(set(volts.values())) == 1:
        return f"{min(volts.values()):.2f} V"
    return ", ".join(f"{each:.2f} V ({name})" for name, each in volts.items())


def _links(string: Sequence[str], outlook: Outlook) -> Iterator[dict[str, str]]:
    """Every link of a string with the volts to expect, from the batteries' own readings where they have one."""
    known = [(name, _volts(outlook, name)) for name in string]
    if any(volts is None for _, volts in known):
        expected = ["what all linked batteries read, added up"] * len(string)
    else:
        steps = readings([(name, volts) for name, volts in known if volts is not None])
        expected = [f"{x.expected_v:.1f} V, give or take {x.within_v:g}; or what each reads now, summed" for x in steps]
    for (one, other), expect in zip(pairwise(string), expected[1:], strict=True):
        yield {"from": one, "to": other, "first": string[0], "expect_v": expect}


def _volts(outlook: Outlook, name: str) -> float | None:
    battery = outlook.batteries.get(name)
    if battery is None or battery.reading is None or not battery.charge_when_read.known:
        return None
    return battery.reading.volts_v


def _steps(
    steps: Sequence[Mapping[str, str]],
    values: Mapping[str, str],
    repeats: Mapping[str, Sequence[Mapping[str, str]]],
    flags: set[str],
) -> Iterator[str]:
    for step in steps:
        if ("only_if" in step and step["only_if"] not in flags) or step.get("unless") in flags:
            continue
        for own in repeats[step["for_each"]] if "for_each" in step else ({},):
            yield step["text"].format_map({**values, **own})
