"""What the welding room says over a wide grid of questions, a line each. `python -m tests.welding.spelt_out` writes it.

The file beside this one is read and corrected by people; the test holds the room to it, word for word.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from itertools import product
from pathlib import Path
from typing import Any

from kitlist.base.errors import KitlistError
from kitlist.base.sources import Source
from kitlist.base.span import Span
from kitlist.base.terms import Covering, Joint, Polarity, Position, RodCondition, RodStorage, Steel
from kitlist.physics.bank.verdict import Fit
from kitlist.welding.designation.designation import StorageFamily
from kitlist.welding.designation.designations import decode, known_designations
from kitlist.welding.designation.polarity import check_polarity
from kitlist.welding.repairs.behind import still_there, what_lies_behind
from kitlist.welding.repairs.joints import fillet, lap, passes, plug, single_v, square_butt, usual_leg_mm
from kitlist.welding.repairs.needs import job_needs
from kitlist.welding.repairs.parts import part
from kitlist.welding.repairs.plate import fit_diameter, plate_for_rod, single_pass_leg_mm, steel_when_hot
from kitlist.welding.repairs.steel import steel_named, steel_suits
from kitlist.welding.repairs.suitability import fit, with_bank
from kitlist.welding.repairs.typical import Job, typical_repairs
from kitlist.welding.rods.consumption import burn, rods_needed
from kitlist.welding.rods.currents import choose_current, current_range
from kitlist.welding.rods.shades import advised_shade, strictest_minimum
from kitlist.welding.rods.skin import clothing_class, doubts_of_auto_darkening, mask_class
from kitlist.welding.rods.storage import Packet, judge_packet
from kitlist.welding.rods.striking import strikes

sys.path.insert(0, str(Path(__file__).parents[1] / "rules"))

FILE = Path(__file__).with_name("spelt_out.txt")
MARKED = (
    "E7018-1 H4R", "E7018 H8", "E7016 H16", "E7018 R", "E7018M H4R", "E7024-1", "AWS A5.1M: E4918-1 H4R", "E4918M",
    "AWS A5.1M: E4313", "B-E4918-1 A U H5", "B-E4913 A", "B-E5518-N2 P H10", "B-E4303", "B-E5716-G AP U H15",
    "E4113", "E4816-3 H10", "E4818-0 H5", "E4824", "E 35 A C 2 1", "E 38 0 RC 11", "E 42 0 RR 12", "E 42 0 RR 53",
    "E 46 4 B 42 H5", "E 50 6 1Ni B 32 H10", "E 38 3 C 21", "E 42 Z A 11", "E 42 4 B 12 H15", "E 38 2 RB 12",
    "E 38 0 RA 73", "E 46 5 Mn1Ni B 83 H5", "E309L-16", "E312-17", "E308L-15", "E310-16", "E6O13", "E7081", "E6013X",
    "E 42 9 B 42", "E8018-B2", "ENiFe-CI", "ER70S-6", "E4918 H7", "E", "",
)  # fmt: skip
RODS = ("E6010", "E6011", "E6013", "E6012", "E7014", "E7018", "E7024", "E7048", "E312-16", "E 42 0 RR 12", "E308L-17")


def told(value: Any) -> str:
    """A value as a line has it: numbers to six digits, sources by tag and begin."""
    if isinstance(value, Source):
        return f"{value.tag.value} {value.where[:9]}".strip()
    if isinstance(value, Span):
        return "..".join(f"{x:.6g}" for x in (value.low, value.best, value.high))
    if isinstance(value, Enum):
        return str(value.value)
    if is_dataclass(value) and not isinstance(value, type):
        named = (f.name for f in fields(value) if not f.name.endswith(("source", "sources")))
        return f"({', '.join(f'{name} {told(getattr(value, name))}' for name in named)})"
    if isinstance(value, tuple | list):
        return f"[{'; '.join(map(told, value))}]"
    return f"{value:.6g}" if isinstance(value, float) else str(value)


def tried(ask: Callable[[], Any]) -> str:
    """The answer, or the refusal with its hint."""
    try:
        return told(ask())
    except KitlistError as error:
        return f"refused: {error.message} {error.hint}".rstrip()


def _designations() -> Iterator[str]:
    for text in (*known_designations(), *MARKED):
        yield f"decode {text!r}: {tried(lambda text=text: decode(text))}"
    for text in ("E6010", "E6013", "E6020", "E7018-1 H4R", "E312-16", "B-E4918-1 A U H5", "E 38 3 C 21"):
        rod = decode(text)
        yield f"words {text}: {rod.hydrogen_words} | {rod.position_words} | {rod.current_words} | {told(rod.facts())}"
        for wired, said, position in product(Polarity, (None, *Polarity), (None, Position.FLAT)):
            found = check_polarity(rod, wired, said=said, position=position)
            yield f"polarity {text} {wired} called {said} {position}: {told(found)}"


def _packets() -> Iterator[str]:
    ages: tuple[dict[str, Any], ...] = (
        {},
        {"open_h": 1.0, "humid": False},
        {"open_h": 3.0, "humid": None},
        {"open_h": 30.0, "exposed_h": 2.0, "humid": True},
        {"open_h": 30.0, "exposed_h": 5.0, "humid": False, "moisture_resistant": True},
        {"open_h": 200.0, "bakes": 1},
        {"open_h": 1.0, "bakes": 2},
    )
    words: dict[str, None] = {}
    for family, storage, condition in product(StorageFamily, RodStorage, RodCondition):
        found = [judge_packet(Packet(family=family, storage=storage, condition=condition, **age)) for age in ages]
        yield f"packet {family} {storage} {condition}: {', '.join(f'{v.fitness} {v.limit_h}' for v in found)}"
        words |= dict.fromkeys(f"packet says {told(verdict)}" for verdict in found)
    yield from words


def _rods() -> Iterator[str]:
    for amps in (
        20,
        39.9,
        40,
        59.9,
        60,
        79.9,
        80,
        99,
        100,
        101,
        159,
        160,
        161,
        174.9,
        175,
        200,
        250,
        299.9,
        300,
        400,
        499,
    ):
        least = tried(lambda a=amps: strictest_minimum(current_a=a))
        yield f"shade at {amps:g} A: {least} {advised_shade(current_a=amps)}"
    for name, mm in product(
        ("E6010", "E6013", "E7018", "E7024", "stainless", None), (1.6, 2.0, 2.4, 2.6, 3.2, 4.0, 4.8, 6.0)
    ):
        yield f"range {name} {mm:g}: {tried(lambda n=name, m=mm: current_range(n, diameter_mm=m))}"
        yield f"burn {name} {mm:g}: {tried(lambda n=name, m=mm: burn(n, diameter_mm=m, length_mm=350, current_a=110))}"
    full = current_range("E6013", diameter_mm=3.2)
    for thick, position in product((None, 3.3, 3.4, 8.0), Position):
        yield f"current {thick} {position}: {told(choose_current(full, thickness_mm=thick, position=position))}"
    one = burn("E6013", diameter_mm=3.2, length_mm=350, current_a=110)
    for grams in (1.0, 17.0, 18.0, 100.0):
        yield f"rods for {grams:g} g: {told(rods_needed(grams, one))}"
    for covering, volts in product(Covering, (12.0, 23.9, 24.0, 25.3, 29.9, 30.0, 35.9, 36.0, 38.0, 44.9, 45.0, 50.0)):
        yield f"strikes {covering} {volts:g}: {tried(lambda c=covering, v=volts: strikes(c, rested_v=v))}"
    for covering, position, confined in product(Covering, (Position.FLAT, Position.OVERHEAD), (False, True)):
        asked = clothing_class(covering, position=position, confined=confined)
        yield f"clothing {covering} {position} {confined}: {told(asked)}"
    for label in (
        "FFP1",
        "ff p2",
        "P3",
        "N95",
        "KN95",
        "R99",
        "p 100",
        "TH2",
        "TM3P",
        "FFP3 beside FFP1",
        "dust",
        "AP2X",
        "P22",
    ):
        yield f"mask {label}: {mask_class(label)}"
    words: dict[str, None] = {}
    for shade, needed, tested, cell, lowest, coldest in product(
        (None, 10.0, 11.0),
        (11.0,),
        (None, 90.0, 91.0),
        (None, 730.0, 731.0),
        (None, -10.0),
        (None, -5.0, -6.0, -10.0, -11.0),
    ):
        found = doubts_of_auto_darkening(
            darkest_shade=shade,
            needed_shade=needed,
            tested_days_ago=tested,
            cell_changed_days_ago=cell,
            lowest_c=lowest,
            coldest_c=coldest,
        )
        words |= dict.fromkeys(f"auto says {d.about}: {d.why}: {d.remedy}" for d in found)
        yield f"auto {shade} {tested} {cell} {lowest} {coldest}: {', '.join(d.about for d in found)}"
    yield from words


def _joints() -> Iterator[str]:
    for leg in (0.9, 1.0, 3.0, 5.0, 25.0, 25.1):
        yield f"fillet {leg:g}: {tried(lambda x=leg: fillet(leg_mm=x))} {tried(lambda x=leg: fillet(throat_mm=x))}"
    yield f"fillet both: {tried(lambda: fillet(leg_mm=3, throat_mm=3))} {tried(fillet)}"
    for thick in (0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 20.0, 26.0):
        for name, ask in (
            ("lap", lambda t=thick: lap(thickness_mm=t)),
            ("lap both", lambda t=thick: lap(thickness_mm=t, sides=2)),
            ("butt", lambda t=thick: square_butt(thickness_mm=t, gap_mm=1.5)),
            ("v", lambda t=thick: single_v(thickness_mm=t)),
            ("plug", lambda t=thick: plug(hole_mm=10, thickness_mm=t)),
            ("leg", lambda t=thick: usual_leg_mm(t)),
        ):
            yield f"{name} {thick:g}: {tried(ask)}"
        for rod, joint, position in product(
            (2.0, 2.5, 3.2, 5.0), (Joint.FILLET, Joint.SINGLE_V), (Position.FLAT, Position.OVERHEAD)
        ):
            given = {"rod_mm": rod, "thickness_mm": thick, "joint": joint, "position": position}
            yield f"size {rod:g} on {thick:g} {joint} {position}: {tried(lambda g=given: fit_diameter(**g))}"
    for rod in (1.6, 2.0, 2.5, 3.2, 4.0, 5.0, 6.0):
        plate = tried(lambda r=rod: plate_for_rod(rod_mm=r))
        legs = tried(lambda r=rod: single_pass_leg_mm(r))
        yield f"rod {rod:g}: {plate} {legs} {tried(lambda r=rod: passes(fillet(leg_mm=8), rod_mm=r))}"
        for likely in (100.0, 150.0, 204.0):
            steel = tried(lambda r=rod, a=likely: steel_when_hot(rod_mm=r, likely_a=a, top_a=130))
            yield f"hot {rod:g} at {likely:g}: {steel}"
    for typical in typical_repairs():
        yield f"typical {told(typical)}"


def _repairs() -> Iterator[str]:
    for name, steel, bears in product(("E6010", "E6013", "E7018", "E312-16", "E308L-17"), Steel, (None, False, True)):
        yield f"steel {name} {steel} {bears}: {told(steel_suits(decode(name), steel, load_bearing=bears))}"
    usual: dict[str, Any] = {
        "part": "spring hanger",
        "steel": Steel.MILD,
        "thickness_mm": 6.0,
        "load_bearing": True,
        "weld_length_mm": 120.0,
    }
    jobs: tuple[dict[str, Any], ...] = (
        {},
        {"part": "wheel"},
        {"part": "gizmo"},
        {"part": "gizmo", "allowed_by": "Ada"},
        {"part": "tie rod"},
        {"thickness_mm": 1.5},
        {"thickness_mm": 3.0},
        {"thickness_mm": None},
        {"thickness_mm": 12.0},
        {"position": Position.OVERHEAD},
        {"position": Position.VERTICAL_DOWN},
        {"joint": Joint.SINGLE_V},
        {"steel": Steel.SPRING},
        {"weld_length_mm": None},
        {"leg_mm": 8.0},
    )
    packets = (None, judge_packet(Packet(family=StorageFamily.BASIC, storage=RodStorage.LOOSE, open_h=40)))
    for change, name, rod_mm in product(jobs, ("E6013", "E7018", "E7024", "E312-16", "E 42 0 RR 12"), (2.5, 4.0)):
        job, rod = Job(**(usual | change)), decode(name)
        for packet, wired in ((packets[0], None), (packets[1], Polarity.DCEN)):
            found = fit(job, rod, rod_mm=rod_mm, packet=packet, wired=wired)
            said = f"{found.suits} {found.suits.rank} {found.suits.usable} {found.why}"
            yield f"fit {told(change)} {name} {rod_mm:g} {wired}: {said} {told(found.current)} {found.passes}"
            if wired is None and not change:
                for bank in Fit:
                    on = with_bank(found, bank, job=job, rod_mm=rod_mm, likely_a=150, top_a=130)
                    yield f"  on a bank {bank}: {on.suits} {on.why}"
        burned = {"rod_mm": rod_mm, "length_mm": 350, "current_a": 110}
        yield f"  needs: {tried(lambda j=job, r=rod, b=burned: job_needs(j, r, **b))}"


def _words() -> Iterator[str]:
    from traps import behind, named_parts, said

    spoken = [words for words, *_ in behind.WORDS] + [w for _, _, _, many in said.BEHIND for w in many]
    for words in dict.fromkeys(
        (
            *spoken,
            "propan bottle",
            "patrol tank",
            "airbga",
            "fuell",
            "fuel, diesel",
            "0.5 m of hose",
            "tank of 60 l",
            "nothing 5 cm off",
        )
    ):
        read = what_lies_behind(words)
        hazards = "; ".join(f"{h.danger} {h.tier} {h.name} {h.words}" for h in read.hazards)
        yield f"behind {words!r}: {read.asked} {read.nothing} [{hazards}] denied {read.denied} unread {read.unread}"
    cleared = (
        *(row[:3] for row in said.CLEARED),
        ("fuel line, fuel tank", "fuel", "Jo"),
        ("high voltage", "high voltage", "Jo"),
        ("wiring", "loom", "Jo"),
    )
    for lies, gone, by in cleared:
        there, away = still_there(lies, cleared=gone, cleared_by=by)
        yield f"cleared {lies!r} {gone!r} by {by!r}: there {[h.words for h in there]} away {[h.words for h in away]}"
    named = [name for name, *_ in named_parts.PARTS] + [w for _, _, _, many in (*said.PARTS, *said.STEEL) for w in many]
    for name in dict.fromkeys(named):
        yield f"part {name!r}: {tried(lambda n=name: part(n))} steel {told(steel_named(name))}"


def shown() -> Iterator[str]:
    """Every line."""
    for group in (_designations, _packets, _rods, _joints, _repairs, _words):
        yield from group()


if __name__ == "__main__":
    FILE.write_text("\n".join(shown()) + "\n", encoding="utf-8")
