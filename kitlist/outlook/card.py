"""All that a glovebox card is made from. It holds no reading, so that a lamination stays true."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections import Counter
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from math import inf

from kitlist.base import resources
from kitlist.base.errors import PrintError
from kitlist.base.terms import Polarity, ToolKind
from kitlist.kit import Kit, Trip
from kitlist.outlook.hardware import HardwareOutlook, hardware_outlook, polarity_not_said
from kitlist.outlook.leads import opened_by, parts_at_plug, parts_in_work_lead


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRod:
    """One kind of rod against the bank: the steel it is for, its range, and what the bank is for it."""

    words: str
    steel_mm: tuple[float, float] | None
    range_a: tuple[float, float] | None
    fit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFacts:
    """The facts. `shown` calls each battery as the crew does: by its vehicle where that says which one it is.

    `isolator_breaks` says whether a packed isolator is rated for this bank's stuck-rod current, `far_plug` whether
    an arc lead parts at a plug, `opens_in_work` whether only the work lead does. `low_hydrogen` holds the designations
    of the packed rods that must be dry, whatever becomes of a packet after the card is laminated.
    """

    crew: str
    strings: tuple[tuple[str, ...], ...]
    shown: tuple[tuple[str, ...], ...]
    polarity: Polarity
    isolator: bool
    far_plug: bool
    opens_in_work: bool = False
    isolator_breaks: bool
    over_wet_limit: bool
    go_v: float
    stop_v: float
    shade: int
    water_l: float
    rods: tuple[CardRod, ...]
    low_hydrogen: tuple[str, ...] = ()

    @property
    def basis(self) -> str:
        """Sixteen hex digits of these facts and the fixed wording: while they stay, a printed card holds."""
        text = json.dumps(dataclasses.asdict(self), sort_keys=True, ensure_ascii=False)
        return hashlib.sha256(text.encode("utf-8", "surrogatepass") + _wording()).hexdigest()[:16]


def card_facts(kit: Kit, trip: Trip, *, on: date, wet_limit_v: float) -> CardFacts:
    """The facts for the trip's bank; `on` decides nothing of them. Raises PrintError where there is no card to make."""
    if not trip.bank:
        raise PrintError(
            f"no bank is chosen for {trip.name}, and a card is made for a bank",
            hint="kitlist trip edit TRIP bank=FIRST,SECOND,THIRD",
        )
    outlook = hardware_outlook(kit, trip, on=on)
    if outlook.bars:
        raise PrintError(
            f"a lamination is a promise, and this bank may not be linked: {'; '.join(map(str, outlook.bars))}",
            hint="kitlist bank shows those that may.",
        )
    if outlook.bank.rig is None:
        raise PrintError(
            f"the bank's current cannot be foretold; not known: {', '.join(map(str, outlook.bank.not_known))}",
            hint="kitlist ready says what to write down.",
        )
    if unsaid := polarity_not_said(outlook.rods):
        raise PrintError(
            f"the card shows one polarity, and {unsaid}",
            hint="Read the packet and write a designation that states it, kitlist rod edit; or leave the rods at home.",
        )
    if not opened_by(kit):
        raise PrintError(
            "nothing opens this circuit: no isolator is packed, and no lead to rod or work parts at a plug",
            hint="Pack an isolator, kitlist tool add NAME what=isolator; or give the holder lead a plug.",
        )
    water_l = sum((tool.volume_l or 0) * tool.count for tool in kit.tools if tool.what is ToolKind.WATER)
    isolators = [tool for tool in kit.tools if tool.what is ToolKind.ISOLATOR and tool.count]
    stuck_a = inf if outlook.bank.stuck_a is None else outlook.bank.stuck_a
    return CardFacts(
        crew=trip.crew or trip.name,
        strings=trip.strings,
        shown=shown_names(kit, trip),
        polarity=outlook.polarity,
        isolator=bool(isolators),
        far_plug=parts_at_plug(kit),
        opens_in_work=parts_in_work_lead(kit),
        isolator_breaks=any(
            (tool.rating_v or 0) >= kit.limits.isolator_least_v and (tool.rating_a or 0) >= stuck_a
            for tool in isolators
        ),
        over_wet_limit=outlook.bank.full_v > wet_limit_v,
        go_v=max((mark.full_v if mark.go_v is None else mark.go_v for mark in outlook.marks.values()), default=0.0),
        stop_v=outlook.stop_v,
        shade=outlook.shade,
        water_l=max(water_l, kit.limits.water_least_l),
        rods=tuple(_rods(outlook)),
        low_hydrogen=tuple(
            sorted({r.designation.text for r in outlook.rods if r.designation and r.designation.low_hydrogen})
        ),
    )


def for_bank(trip: Trip, strings: tuple[tuple[str, ...], ...]) -> Trip:
    """The same trip with another bank."""
    return replace(trip, bank=tuple(name for string in strings for name in string), bank_strings=max(1, len(strings)))


def shown_names(kit: Kit, trip: Trip) -> tuple[tuple[str, ...], ...]:
    """Each battery of the bank by its vehicle's name, if the vehicle carries no other battery; else by its own."""
    aboard = Counter(battery.vehicle for battery in kit.batteries)

    def shown(name: str) -> str:
        vehicle = kit.battery[name].vehicle
        return vehicle if vehicle and aboard[vehicle] == 1 else name

    return tuple(tuple(shown(name) for name in string) for string in trip.strings)


def _rods(outlook: HardwareOutlook) -> tuple[CardRod, ...]:
    """Every packed kind of rod once, thin steel first."""
    kinds = {
        CardRod(
            words=rod.words,
            steel_mm=rod.steel_mm,
            range_a=(rod.range.low_a, rod.range.high_a) if rod.range else None,
            fit=str(rod.fit) if rod.fit else "not known",
        )
        for rod in outlook.rods
    }
    return tuple(sorted(kinds, key=lambda rod: (rod.steel_mm or (99.0, 99.0), rod.words)))


@cache
def _wording() -> bytes:
    return (resources.folder("seed_data") / "words" / "card.toml").read_bytes()
