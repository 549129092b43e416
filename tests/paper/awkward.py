"""Kits that are awkward on paper: many things, many gaps, many bags, strange names, every kind of bank."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

from kitlist.base.terms import (
    BatteryPlace,
    FireRules,
    RodStorage,
    StartBatteries,
    Steel,
    ToolKind,
)
from kitlist.kit import Bag, Ballast, Battery, Kit, Repair, Tool, Vehicle
from kitlist.readiness import Readiness, assess
from kitlist.rules import example
from paper import built

SCRIPTS = {
    "cyrillic and greek": ("Цапля главная", "Зуёк главный", "Ερωδιός κύρια", "Χαραδριός δεύτερη"),
    "chinese": ("車載用電池一号", "車載用電池二号", "溶接棒用電池", "予備電池"),
    "hebrew and arabic": ("סוללה ראשית", "סוללה שניה", "بطارية رئيسية", "بطارية ثانية"),
    "mixed": ("עורב ראשית", "車載用 main", "بطارية", "Цапля"),
}

TAIL = "which is the name that somebody thought would help to find this very thing again in the dark and wet, always"


def judged(kit: Kit, it: example.Example, **trip: object) -> Readiness:
    """The kit judged for that example's trip, changed as said."""
    return assess(kit, replace(it.trip, **trip), on=it.on)  # type: ignore[arg-type]


def more_things(kit: Kit, count: int, *, bags: int = 0) -> Kit:
    """The kit with plain things until it holds so many lines; over so many bags, if any."""
    have = len(kit.gear) + len(kit.leads) + len(kit.clamps) + len(kit.rods) + len(kit.tools) + len(kit.items)
    names = tuple(f"Bag {number}" for number in range(1, bags + 1)) or tuple(bag.name for bag in kit.bags)
    own = tuple(Bag(name=name, place=f"Vehicle {n % 3 + 1}, shelf {n}") for n, name in enumerate(names)) if bags else ()
    tools = tuple(
        Tool(name=f"thing number {number + 1}", what=ToolKind.OTHER, bag=names[number % len(names)])
        for number in range(max(0, count - have))
    )
    kit = replace(kit, tools=(*kit.tools, *tools), bags=own or kit.bags)
    if not bags:
        return kit
    return replace(
        kit,
        tools=tuple(replace(x, bag=names[n % bags]) for n, x in enumerate(kit.tools)),
        gear=tuple(replace(x, bag=names[n % bags]) for n, x in enumerate(kit.gear)),
        leads=tuple(replace(x, bag=names[n % bags]) for n, x in enumerate(kit.leads)),
        rods=tuple(replace(x, bag=names[n % bags]) for n, x in enumerate(kit.rods)),
    )


_BREAKS: tuple[Callable[[Kit], Kit], ...] = (
    lambda kit: _gear(kit, "second helmet", shade=9),
    lambda kit: _gear(kit, "gloves", sound=False),
    lambda kit: _gear(kit, "masks", protection=""),
    lambda kit: _gear(kit, "jacket", sound=None),
    lambda kit: _tool(kit, "extinguisher", expires_on=example.ON.replace(year=2026)),
    lambda kit: _tool(kit, "eye wash", expires_on=example.ON.replace(year=2026)),
    lambda kit: _tool(kit, "burns kit", expires_on=example.ON.replace(year=2026)),
    lambda kit: _tool(kit, "chocks", count=0),
    lambda kit: _tool(kit, "stands", count=0),
    lambda kit: _tool(kit, "shovel", count=0),
    lambda kit: _tool(kit, "stub tin", count=0),
    lambda kit: _tool(kit, "water", volume_l=3),
    lambda kit: _tool(kit, "clamp meter", accuracy_ratio=None, rating_a=100),
    lambda kit: _tool(kit, "post brush", count=0),
    lambda kit: _tool(kit, "fuse", rating_v=32),
    lambda kit: _tool(kit, "isolator", rating_a=100, rating_v=32),
    lambda kit: _tool(kit, "battery covers", count=1),
    lambda kit: _tool(kit, "spanner", insulating=False, count=1),
    lambda kit: _tool(kit, "chipping hammer", count=0),
    lambda kit: _tool(kit, "wire brush", count=0),
    lambda kit: _tool(kit, "scrap plate", count=0),
    lambda kit: _tool(kit, "blanket", count=0),
    lambda kit: _tool(kit, "file", count=0),
    lambda kit: _tool(kit, "satellite phone", count=0),
    lambda kit: replace(kit, readings=kit.readings[1:]),
    lambda kit: replace(kit, rods=tuple(replace(r, storage=RodStorage.UNKNOWN) for r in kit.rods)),
    lambda kit: replace(kit, leads=tuple(replace(x, count=min(2, x.count)) for x in kit.leads)),
    lambda kit: replace(kit, vehicles=tuple(replace(v, crank_a=None) for v in kit.vehicles)),
    lambda kit: replace(kit, batteries=(replace(kit.batteries[0], in_service_since=None), *kit.batteries[1:])),
    lambda kit: replace(kit, leads=tuple(replace(x, insulation_limit_c=None) for x in kit.leads)),
)


def _tool(kit: Kit, name: str, **fields: object) -> Kit:
    return replace(kit, tools=tuple(replace(x, **fields) if x.name == name else x for x in kit.tools))  # type: ignore[arg-type]


def _gear(kit: Kit, name: str, **fields: object) -> Kit:
    return replace(kit, gear=tuple(replace(x, **fields) if x.name == name else x for x in kit.gear))  # type: ignore[arg-type]


def with_gaps(readiness: Readiness, most: int) -> Readiness:
    """The same with one thing after another spoiled, until it has as many gaps, or the most under it."""
    for spoil in _BREAKS:
        worse = assess(spoil(readiness.kit), readiness.trip, on=readiness.on)
        if len(worse.gaps) <= most:
            readiness = worse
        if len(readiness.gaps) == most:
            break
    return readiness


@cache
def minimal() -> Readiness:
    """Two batteries, three leads, rods and a helmet, in one bag: what somebody has on the first evening."""
    it = example.whole()
    kit = replace(
        it.kit,
        bags=it.kit.bags[:1],
        vehicles=it.kit.vehicles[:2],
        batteries=tuple(x for x in it.kit.batteries if x.name in ("north-main", "south-main")),
        readings=tuple(x for x in it.kit.readings if x.battery in ("north-main", "south-main")),
        leads=tuple(replace(x, bag=example.BAG) for x in it.kit.leads),
        gear=it.kit.gear[:1],
        tools=(),
    )
    return judged(kit, it, bank=("north-main", "south-main"))


@cache
def sound() -> Readiness:
    """A whole kit with no gap and all its repairs asked about."""
    it = example.with_repair()
    return judged(it.kit, it)


@cache
def forty_two() -> Readiness:
    it = example.whole()
    return with_gaps(judged(more_things(it.kit, 42), it), 14)


@cache
def twelve_bags() -> Readiness:
    it = example.whole()
    return with_gaps(judged(more_things(it.kit, 61, bags=12), it), 8)


@cache
def seventy_four() -> Readiness:
    it = example.whole()
    return with_gaps(judged(more_things(it.kit, 74), it), 25)


@cache
def seventy_two_gaps() -> Readiness:
    """Everything is spoiled, and eight repairs wait that nobody described."""
    it = example.whole()
    kit = it.kit
    for spoil in _BREAKS:
        kit = spoil(kit)
    repairs = tuple(Repair(name=f"break {n}", part=part) for n, part in enumerate(
        ("spring hanger", "wheel rim", "bull bar", "tow hitch", "fuel tank", "steering arm", "roof rack leg",
         "brake pedal", "thing nobody knows", "exhaust bracket", "axle tube", "bash plate", "chassis rail"), start=1)
    )  # fmt: skip
    batteries = tuple(Battery(name=f"guest-{n}", vehicle="North", place=BatteryPlace.SECOND) for n in range(1, 7))
    kit = replace(kit, repairs=repairs, batteries=(*kit.batteries, *batteries))
    return judged(
        kit,
        it,
        repairs=tuple(r.name for r in repairs),
        fire_rules=FireRules.NOT_ASKED,
        fire_rules_asked_on=None,
        people=None,
        coldest_c=None,
        hottest_c=None,
        days_from_help=None,
        wet=None,
        parked_apart_m=None,
    )


@cache
def six_rods() -> Readiness:
    return built.with_rods(built.demo(), "E6013", "E7018", "E6011", "E6010", "E7016", "E7024")


@cache
def long_names() -> Readiness:
    """Names of 120 characters for everything, in Latin script, of which a card can be made."""
    it = example.with_repair(
        name="the left rear spring hanger that cracked in the river last year and again this year, by the old weld"
    )

    def long(name: str) -> str:
        return f"{name} {TAIL}"[:120]

    kit = it.kit
    named = {b.name: long(b.name) for b in kit.batteries}
    vehicles = {v.name: long(v.name) for v in kit.vehicles}
    bags = {b.name: long(b.name) for b in kit.bags}

    def stowed(things: tuple) -> tuple:  # type: ignore[type-arg]
        return tuple(replace(x, name=long(x.name), bag=bags[x.bag]) for x in things)

    kit = replace(
        kit,
        bags=tuple(replace(b, name=bags[b.name], place=long(b.place)) for b in kit.bags),
        vehicles=tuple(replace(v, name=vehicles[v.name]) for v in kit.vehicles),
        batteries=tuple(replace(b, name=named[b.name], vehicle=vehicles[b.vehicle]) for b in kit.batteries),
        readings=tuple(replace(r, battery=named[r.battery]) for r in kit.readings),
        repairs=tuple(replace(r, vehicle=vehicles[r.vehicle]) for r in kit.repairs if r.vehicle),
        leads=stowed(kit.leads),
        gear=stowed(kit.gear),
        tools=stowed(kit.tools),
        rods=stowed(kit.rods),
    )
    return judged(
        kit, it, name=long(it.trip.name), crew=long("The crew"), vehicles=tuple(vehicles.values()),
        bank=tuple(named[name] for name in it.trip.bank),
    )  # fmt: skip


@cache
def script(which: str) -> Readiness:
    """Batteries named in another script, and with them the trip and the crew."""
    it = example.whole()
    named = dict(zip((b.name for b in it.kit.batteries), SCRIPTS[which], strict=True))
    kit = replace(
        it.kit,
        batteries=tuple(replace(b, name=named[b.name]) for b in it.kit.batteries),
        readings=tuple(replace(r, battery=named[r.battery]) for r in it.kit.readings),
    )
    return judged(kit, it, bank=tuple(named[name] for name in it.trip.bank), crew=SCRIPTS[which][0])


@cache
def guests() -> Readiness:
    """A companion's vehicle with a battery in the bank."""
    it = example.with_repair()
    vehicles = (it.kit.vehicles[0], replace(it.kit.vehicles[1], guest_of="Ines"))
    return judged(replace(it.kit, vehicles=vehicles), it)


@cache
def pairs() -> Readiness:
    """A vehicle of 24 V and one with twins, all four in the bank but one."""
    it = example.with_repair()
    kit = replace(
        it.kit,
        vehicles=(
            Vehicle(name="North", crank_a=250, system_v=24, start_batteries=StartBatteries.PAIR),
            Vehicle(name="South", crank_a=250, start_batteries=StartBatteries.TWIN, starts_on_one=True),
        ),
        batteries=tuple(replace(b, place=BatteryPlace.START) for b in it.kit.batteries),
    )
    return judged(kit, it)


@cache
def two_pairs() -> Readiness:
    """Two vehicles of 24 V, each with its pair."""
    it = example.with_repair()
    kit = replace(
        it.kit,
        vehicles=tuple(replace(v, system_v=24, start_batteries=StartBatteries.PAIR) for v in it.kit.vehicles),
        batteries=tuple(replace(b, place=BatteryPlace.START) for b in it.kit.batteries),
    )
    return judged(kit, it)


@cache
def four_with_ballast() -> Readiness:
    """Four in series through a strip of stainless steel."""
    it = example.with_repair()
    strip = Ballast(name="strip", metal="stainless", width_mm=20, thickness_mm=2, length_m=4, bag=example.BAG)  # type: ignore[arg-type]
    kit = replace(it.kit, ballasts=(strip,))
    return judged(kit, it, bank=built.FOUR, ballast="strip")


@cache
def wet_pair() -> Readiness:
    """Two in series, in the wet, with a plug in place of an isolator."""
    it = example.with_repair()
    return judged(it.kit, it, bank=built.FOUR[:2], wet=True)


@cache
def alone() -> Readiness:
    it = example.with_repair()
    return judged(it.kit, it, people=1)


@cache
def parallel() -> Readiness:
    it = example.with_repair()
    return judged(it.kit, it, bank=built.FOUR, bank_strings=2)


@cache
def twelve_repairs() -> Readiness:
    """Twelve repairs of all classes, with what lies behind them."""
    parts = ("spring hanger", "wheel rim", "bull bar", "tow hitch", "fuel tank", "steering arm", "roof rack leg",
             "brake pedal", "exhaust bracket", "axle tube", "bash plate", "chassis rail")  # fmt: skip
    it = example.with_repair()
    behind = ("brake line, wiring", "nothing", "", "fuel line")
    repairs = tuple(
        Repair(
            name=f"north {part}", part=part, vehicle="North", steel=Steel.MILD, thickness_mm=4 + n % 5,
            weld_length_mm=40 + 10 * n, load_bearing=True, behind=behind[n % 4],
        )
        for n, part in enumerate(parts)
    )  # fmt: skip
    return judged(replace(it.kit, repairs=repairs), it, repairs=tuple(r.name for r in repairs))


@cache
def cold() -> Readiness:
    """So cold that no reading shows a rod."""
    it = example.with_repair()
    return judged(it.kit, it, coldest_c=-25, hottest_c=-5)


KITS: dict[str, Callable[[], Readiness]] = {
    "demo": built.demo,
    "minimal": minimal,
    "sound": sound,
    "forty-two": forty_two,
    "twelve-bags": twelve_bags,
    "seventy-four": seventy_four,
    "seventy-two-gaps": seventy_two_gaps,
    "six-rods": six_rods,
    "long-names": long_names,
    "cyrillic": lambda: script("cyrillic and greek"),
    "chinese": lambda: script("chinese"),
    "hebrew": lambda: script("hebrew and arabic"),
    "mixed-scripts": lambda: script("mixed"),
    "guests": guests,
    "pairs": pairs,
    "two-pairs": two_pairs,
    "four-ballast": four_with_ballast,
    "wet-pair": wet_pair,
    "alone": alone,
    "parallel": parallel,
    "twelve-repairs": twelve_repairs,
    "cold": cold,
    "empty": built.empty,
    "crowded": built.crowded,
    "hostile": built.hostile,
}
