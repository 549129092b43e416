"""Papers from the real builders: the demo crew, and kits that are awkward to print. Nothing is laid out by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

from kitlist.base import resources
from kitlist.base.terms import Fitting, LeadUse, ToolKind
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.build_form import build_form
from kitlist.faces.paper.build_labels import build_labels
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.html import Document
from kitlist.kit import Bag, Ballast, Kit, Tool
from kitlist.readiness import Readiness, assess
from kitlist.rules import example
from kitlist.rules.example import whole
from kitlist.store import start
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import snapshot
from paper.samples import HOSTILE

LONG = (
    "The name that somebody thought would help everybody find this very thing again in the dark on a wet night of rain"
)
NAMES = (LONG.ljust(120, "x"), "🔥🧰 fire kit 👩🏽‍🔧", "車載用バッテリー溶接棒", HOSTILE[0], HOSTILE[2], "W" * 120)


@cache
def demo() -> Readiness:
    """The demo crew three days before its trip."""
    import tempfile
    from datetime import date
    from pathlib import Path

    with tempfile.TemporaryDirectory() as folder:
        store = start(Path(folder) / "kit.db")
        import_toml(store, resources.folder("seed_data") / "demo" / "kit.toml")
        kit = snapshot(store)
    return assess(kit, kit.trips[0], on=date(2027, 5, 5))


def judged(it: example.Example) -> Readiness:
    return assess(it.kit, it.trip, on=it.on)


def with_bank(readiness: Readiness, *bank: str, strings: int = 1) -> Readiness:
    trip = replace(readiness.trip, bank=bank, bank_strings=strings)
    return assess(readiness.kit, trip, on=readiness.on)


def with_rods(readiness: Readiness, *designations: str) -> Readiness:
    """The first packet of the kit as packets of these rods, and no other."""
    packet = readiness.kit.rods[0]
    rods = tuple(replace(packet, name=each, designation=each) for each in designations)
    return assess(replace(readiness.kit, rods=rods), readiness.trip, on=readiness.on)


def guests(names: tuple[str, ...], *, strings: int) -> Readiness:
    """The demo's trip with a bank of the first battery's twins, of these names."""
    kit = demo().kit
    first = kit.batteries[0]
    reading = next(r for r in kit.readings if r.battery == first.name)
    kit = replace(
        kit,
        batteries=(*(replace(first, name=name) for name in names), *kit.batteries),
        readings=(*(replace(reading, battery=name) for name in names), *kit.readings),
    )
    return with_bank(replace(demo(), kit=kit), *names, strings=strings)


@cache
def crowded() -> Readiness:
    """Forty items in one bag."""
    tools = tuple(
        Tool(name=f"thing number {n}", what=ToolKind.OTHER, count=n % 3, bag="Everything bag") for n in range(40)
    )
    kit = replace(whole().kit, bags=(Bag(name="Everything bag", place="Behind the seat"),))
    return judged(replace(whole(), kit=replace(kit, tools=(*kit.tools, *tools))))


@cache
def hostile() -> Readiness:
    """Names of 120 characters, emoji, Chinese and Japanese, markup, and text that runs backwards, for everything."""
    it = whole()
    bags = tuple(Bag(name=name, place=NAMES[number - 1]) for number, name in enumerate(NAMES))
    named = dict(zip(it.kit.battery, NAMES, strict=False))

    def renamed(things: tuple) -> tuple:  # type: ignore[type-arg]
        return tuple(
            replace(thing, name=NAMES[n % len(NAMES)], bag=NAMES[n % len(NAMES)]) for n, thing in enumerate(things)
        )

    kit = replace(
        it.kit,
        bags=bags,
        batteries=tuple(replace(b, name=named[b.name]) for b in it.kit.batteries),
        readings=tuple(replace(r, battery=named[r.battery]) for r in it.kit.readings),
        leads=renamed(it.kit.leads),
        gear=renamed(it.kit.gear),
        tools=renamed(it.kit.tools),
        rods=renamed(it.kit.rods),
    )
    trip = replace(it.trip, name=NAMES[3], crew=NAMES[1], bank=tuple(named[name] for name in it.trip.bank))
    return assess(kit, trip, on=it.on)


@cache
def empty() -> Readiness:
    """Nothing but a trip."""
    trip = replace(whole().trip, bank=(), vehicles=())
    return assess(Kit(trips=(trip,)), trip, on=whole().on)


@cache
def small() -> Readiness:
    """A whole kit in which nothing is wrong."""
    return judged(whole())


def with_ballast(readiness: Readiness) -> Readiness:
    """The kit with a strip of bare metal in the bank's circuit."""
    strip = Ballast(name="strip", measured_mohm=74)
    kit = replace(readiness.kit, ballasts=(strip,))
    return assess(kit, replace(readiness.trip, ballast="strip"), on=readiness.on)


def without_isolator(readiness: Readiness) -> Readiness:
    """The kit with a holder lead that parts at a plug in place of an isolator."""
    tools = tuple(tool for tool in readiness.kit.tools if tool.what is not ToolKind.ISOLATOR)
    leads = tuple(replace(x, end_a=Fitting.PLUG) if x.use is LeadUse.HOLDER else x for x in readiness.kit.leads)
    return assess(replace(readiness.kit, tools=tools, leads=leads), readiness.trip, on=readiness.on)


def strange() -> Readiness:
    """Vehicles and batteries whose names are short and strange: those that a card can hold."""
    it = whole()
    short = dict(zip(it.kit.battery, ("Ж🔥", "<b>x</b>", "\u202eeno", "Łódź & co"), strict=True))
    kit = replace(
        it.kit,
        batteries=tuple(replace(b, name=short[b.name]) for b in it.kit.batteries),
        readings=tuple(replace(r, battery=short[r.battery]) for r in it.kit.readings),
    )
    return assess(kit, replace(it.trip, crew="{{ 7*7 }}", bank=tuple(short[n] for n in it.trip.bank)), on=it.on)


def card(readiness: Readiness) -> Card:
    return build_card(readiness.kit, readiness.trip, on=readiness.on)


def form(readiness: Readiness) -> Document:
    return build_form(readiness.kit, readiness.trip, on=readiness.on)


FOUR = ("north-main", "north-second", "south-main", "south-second")
PAPERS: dict[str, Callable[[], Document]] = {
    "BUILT_DEMO_SHEET": lambda: build_sheet(demo()),
    "BUILT_SMALL_SHEET": lambda: build_sheet(small()),
    "BUILT_CROWDED_SHEET": lambda: build_sheet(crowded()),
    "BUILT_LONG_SHEET": lambda: build_sheet(hostile()),
    "BUILT_EMPTY_SHEET": lambda: build_sheet(empty()),
    "BUILT_DEMO_CARD": lambda: card(demo()),
    "BUILT_FOUR_CARD": lambda: card(with_ballast(with_bank(small(), *FOUR))),
    "BUILT_MINUS_CARD": lambda: card(with_rods(small(), "E6012")),
    "BUILT_PARALLEL_CARD": lambda: card(with_rods(with_bank(small(), *FOUR, strings=2), "E6013")),
    "BUILT_PARALLEL_PLUG_CARD": lambda: card(without_isolator(with_bank(small(), *FOUR, strings=2))),
    "BUILT_STRANGE_CARD": lambda: card(strange()),
    "BUILT_DEMO_LABELS": lambda: build_labels(demo()),
    "BUILT_CROWDED_LABELS": lambda: build_labels(crowded()),
    "BUILT_LONG_LABELS": lambda: build_labels(hostile()),
    "BUILT_EMPTY_LABELS": lambda: build_labels(empty()),
    "BUILT_DEMO_FORM": lambda: form(demo()),
    "BUILT_LONG_FORM": lambda: form(hostile()),
}


def names(kind: str) -> tuple[str, ...]:
    """The names of all built papers of one kind."""
    return tuple(name for name in PAPERS if name.endswith(kind))
