"""The glovebox card of one trip: what its hardware, bank and rods make of the fixed wording. It holds no reading."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import count, pairwise
from math import ceil

from kitlist.base.errors import PrintError
from kitlist.base.terms import Polarity
from kitlist.faces.paper import hookup, overflow, typeface
from kitlist.faces.paper.build_words import COUNTS, bank_words, steel_words
from kitlist.faces.paper.card_words import card_faces
from kitlist.faces.paper.document import Box, Card, Hookup, LeadLine, Marks, PolarityBanner, RodLine, RodTable, Step
from kitlist.kit import Kit, Trip
from kitlist.outlook.card import CardFacts, card_facts
from kitlist.physics.bank.verdict import Fit

NAME_MOST, NAME_LEAST = 20, 12  # characters of a battery that goes by its number
NAMES_PT, NAMES_LINES = 12.0, 2  # of the list of such names, on the first face
FACE_BATTERIES = 3  # more than these are freed in one step, to keep to nine steps a face
TIE_LIMIT = "≤ 0.2 V"  # between strings about to be joined: 0.2 V is some 14 A through 14 mΩ
VALUES = {
    "clear_m": "11 m",
    "wait_h": "1 h",
    "vent_m": "0.5 m",
    "arc_m": "3 m",
    "bystander_m": "10 m",
    "watch_min": "60 min",
    "watch_again_h": "3 h",
    "recover_min": "30 min",
}
"""Distances and times, common practice (11 m: NFPA 51B, from memory; 10 m and back turned; arc 3 m from a battery)."""


def build_card(kit: Kit, trip: Trip, *, on: date, revision: int = 1) -> Card:
    """The card. Raises PrintError where no bank is chosen, or its current cannot be foretold."""
    return card_of(card_facts(kit, trip, on=on, wet_limit_v=kit.limits.wet_limit_v), on=on, revision=revision)


def card_of(facts: CardFacts, *, on: date, revision: int = 1) -> Card:
    """The card of these facts and of nothing else, so that their digest tells whether a printed one still holds."""
    if sum(map(len, facts.strings)) < 2:
        raise PrintError("one battery never holds an arc", hint="A bank has two or three batteries in series.")
    drawing = hookup_of(facts)
    faces = card_faces(
        values=_values(facts, drawing),
        for_each={"battery": _batteries(facts, drawing), "link": _links(facts, drawing), "tie": list(_ties(drawing))},
        inserts={"hookup": drawing, "rods": rod_table(facts), "polarity": PolarityBanner(facts.polarity)},
        flags=set(_flags(facts, drawing)),
    )
    return Card(
        kit=facts.crew,
        bank=bank_words(facts.strings),
        faces=faces,
        marks=Marks(printed_on=on, revision=revision),
    )


def no_arc(card: Card) -> bool:
    """Whether no rod of the card finds an arc on its bank: such a card is printed, but not without a word."""
    tables = [block for face in card.faces for block in face.blocks if isinstance(block, RodTable)]
    rows = [row for table in tables for row in table.rows]
    return bool(rows) and all(row.verdict == Fit.NO_ARC for row in rows)


def hookup_of(facts: CardFacts) -> Hookup:
    """The drawing of the bank in linking order.

    By number alone for parallel strings, to leave room for their steps, and where a name does not fit its box.
    """
    number = count(1)
    drawing = Hookup(
        strings=tuple(tuple(Box(name, str(next(number))) for name in string) for string in facts.shown),
        polarity=facts.polarity,
        opening="isolator" if facts.isolator else "far plug",
        opening_in=LeadLine.WORK if facts.opens_in_work else LeadLine.HOLDER,
        numbers_only=len(facts.strings) > 1,
    )
    return drawing if hookup.fits(drawing, width_mm=overflow.LIVE_WIDE_MM) else replace(drawing, numbers_only=True)


def rod_table(facts: CardFacts) -> RodTable:
    """Every packed kind of rod by the steel it is for, its range, and what this bank is for it."""
    return RodTable(
        rows=tuple(
            RodLine(
                steel=steel_words(rod.steel_mm),
                rod=rod.words,
                amps=f"{rod.range_a[0]:.0f}–{rod.range_a[1]:.0f} A" if rod.range_a else "see packet",
                verdict=rod.fit,
            )
            for rod in facts.rods
        )
    )


def _dry(facts: CardFacts) -> str:
    """Which rods must be dry: the one low-hydrogen rod by its designation where that is short, else rods."""
    return f"{facts.low_hydrogen[0]} dry" if [len(name) <= 5 for name in facts.low_hydrogen] == [True] else "rods dry"


def _flags(facts: CardFacts, drawing: Hookup) -> Iterator[str]:
    many = sum(map(len, facts.strings)) > FACE_BATTERIES
    if facts.isolator:
        yield "isolator"
        yield "weak_isolator" if facts.far_plug and not facts.isolator_breaks else "sure_isolator"
    if facts.low_hydrogen:
        yield "low_hydrogen"
    if facts.over_wet_limit:
        yield "over_35_v"
    if many:
        yield "many"
    if len(facts.strings) > 1:
        yield "parallel"
    if drawing.numbers_only:
        yield "named_here" if len(facts.strings) > 1 else "named_below"
    yield f"{'many' if many else 'few'}_{'isolator' if facts.isolator else 'plug'}"


def _values(facts: CardFacts, drawing: Hookup) -> dict[str, str]:
    minus, plus = f"{drawing.strings[0][0].number} −", f"{drawing.strings[0][-1].number} +"
    to_plus = facts.polarity is Polarity.DCEP
    return VALUES | {
        "go_v": f"{facts.go_v:.2f} V",
        "rest_v": f"{facts.go_v:.2f} V",
        "water_l": f"{facts.water_l:g} L",
        "shade": f"{facts.shade}",
        "dry": _dry(facts),
        "stop_v": f"{facts.stop_v:g} V",
        "first": drawing.strings[0][0].number,
        "holder_at": plus if to_plus else minus,
        "work_at": minus if to_plus else plus,
        "numbered": _listed(drawing, _called(drawing)),
    }


def _called(drawing: Hookup) -> tuple[str, ...]:
    """The names for their list: whole where they take two lines, else shortened as little as brings them to two.

    Short forms must tell the batteries apart, by how the names begin or else by how they begin and end; where none
    do, the names stay whole, and the card may be refused for it.
    """
    whole = tuple(box.name for box in drawing.boxes)
    short = [
        names
        for most in range(NAME_MOST, NAME_LEAST - 1, -2)
        for tail in (0, most // 2)
        if len(set(names := tuple(_shortened(name, most, tail=tail) for name in whole))) == len(set(whole))
    ]
    return next((names for names in (whole, *short) if _short_enough(drawing, names)), short[-1] if short else whole)


def _shortened(name: str, most: int, *, tail: int) -> str:
    """The name in at most that many characters, the last `tail` of them from its end.

    >>> _shortened("the blue ute, second battery", 14, tail=0), _shortened("the blue ute, second battery", 14, tail=7)
    ('the blue ute,…', 'the bl…battery')
    """
    if len(name) <= most:
        return name
    return f"{name[: most - 1 - tail].rstrip()}…{name[len(name) - tail :].lstrip()}"


def _short_enough(drawing: Hookup, names: tuple[str, ...]) -> bool:
    words = f"They are {_listed(drawing, names)}"
    return len(typeface.wrap(words, width_max_mm=overflow.LIVE_WIDE_MM, size_pt=NAMES_PT)) <= NAMES_LINES


def _listed(drawing: Hookup, names: tuple[str, ...]) -> str:
    words = ", ".join(f"{box.number} {name}" for box, name in zip(drawing.boxes, names, strict=True))
    return words if words.endswith("…") else f"{words}."


def _batteries(facts: CardFacts, drawing: Hookup) -> list[dict[str, str]]:
    """What to free: each battery, or all of them in one step; "Heron battery" where the drawing says "Heron".

    Where a name is too long for its step, all go by the numbers of the drawing on the next face.
    """
    own = [name for string in facts.strings for name in string]
    if len(own) > FACE_BATTERIES or drawing.numbers_only:
        return [{"battery": f"all {COUNTS.get(len(own), len(own))}", "leads": str(2 * len(own))}]
    shown = [name for string in facts.shown for name in string]
    called = [name if name == alone else f"{name} battery" for name, alone in zip(shown, own, strict=True)]
    if any(overflow.lines_of(Step(f"Free {name}", see="2 leads off")) > 1 for name in called):
        called = [f"battery {number}" for number in range(1, len(called) + 1)]
    return [{"battery": name, "leads": "2"} for name in called]


def _links(facts: CardFacts, drawing: Hookup) -> list[dict[str, str]]:
    """One entry a link: which battery's + to whose −, and the volts to expect over all that is linked by then.

    Names stand in the steps where all fit on one line, else the numbers of the drawing. Parallel strings are alike:
    one step links them all.
    """
    (string, *more) = drawing.strings
    if more:
        volts = f"{floor_to(len(string) * facts.go_v):.1f} V"
        return [{"link": "Link each string, + to −", "link_v": volts}] if len(string) > 1 else []
    named, numbered = (
        [
            {"link": f"Link {one} + to {other} −", "link_v": f"{floor_to(linked * facts.go_v):.1f} V"}
            for linked, (one, other) in enumerate(pairwise(called), start=2)
        ]
        for called in ([box.name for box in string], [box.number for box in string])
    )
    fits = all(overflow.lines_of(Step(entry["link"], see=f"≥ {entry['link_v']}")) == 1 for entry in named)
    return named if fits else numbered


def _ties(drawing: Hookup) -> Iterator[dict[str, str]]:
    """How parallel strings are joined: − to − first, then the meter from + to +, and only then + to +."""
    if len(drawing.strings) > 1:
        minus = " − to ".join(string[0].number for string in drawing.strings) + " −"
        plus = " + to ".join(string[-1].number for string in drawing.strings) + " +"
        yield {"tie": f"Tie {minus}", "tie_see": ""}
        yield {"tie": f"Meter {plus}", "tie_see": TIE_LIMIT}
        yield {"tie": f"Tie {plus}", "tie_see": ""}


def floor_to(volts: float) -> float:
    """Volts rounded down to 0.1, so that the card never asks for more than the batteries' floor makes.

    >>> floor_to(25.2), floor_to(37.84)
    (25.2, 37.8)
    """
    return -ceil(-round(volts, 6) * 10) / 10
