"""What papers say and where it stands: texts, drawings, heights. `python -m tests.paper.written_out` writes it.

The file beside this one is read and corrected by people; the test holds the papers to it, word for word.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from kitlist.base import clean
from kitlist.base.terms import Paper, Polarity, Units
from kitlist.faces.judging import in_units
from kitlist.faces.paper import (
    card_split,
    chart,
    furniture,
    hookup,
    html,
    sheet_fit,
    since_last,
    text,
    trend,
    typeface,
)
from kitlist.faces.paper.build_chart import build_chart
from kitlist.faces.paper.build_companion_form import build_companion_form
from kitlist.faces.paper.build_labels import build_labels
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.build_stickers import build_stickers
from kitlist.faces.paper.build_trend import build_trend, levels_of
from kitlist.faces.paper.document import Box, Hookup, LeadLine, Sheet
from kitlist.faces.paper.figure import Block, Dot, Drawing, Stroke, Text
from kitlist.faces.paper.html import Document
from kitlist.kit import Kit, Trip
from kitlist.outlook.history import history_of
from kitlist.readiness import Readiness, assess
from kitlist.trips.timeline import Action
from paper import awkward, built, samples

FILE = Path(__file__).with_suffix(".txt")
RULE = "=" * 8


def demo_sheet() -> Sheet:
    """The demo's with everything that can stand on a sheet: days, annex, a bar beside what is new, something gone."""
    case = built.demo()
    actions = (
        Action(word="read", due_on=case.on, what="read all batteries", command="kitlist volts", late=True),
        Action(word="print sheet", due_on=case.on, what="print the sheet", command="kitlist print sheet"),
        Action(
            word="pack", due_on=case.on + timedelta(days=1), what="pack what is done already", command="", done=True
        ),
        Action(word="charge", due_on=case.on + timedelta(days=2), what="charge stilt-main", command="kitlist volts"),
    )
    sheet = build_sheet(case, actions=actions, annex=True)
    before = {line for number, line in enumerate(sorted(since_last.lines(sheet))) if number % 2}
    return since_last.marked(sheet, frozenset(before | {"00000000"}), revision=3, on=date(2027, 5, 1))


def imperial_sheet() -> Sheet:
    """The demo's of an owner who wants inches beside the millimetres."""
    return build_sheet(in_units(built.demo(), Units.IMPERIAL), units=Units.IMPERIAL)


SHEETS: dict[str, Callable[[], Sheet]] = {
    "demo": demo_sheet,
    "demo, imperial": imperial_sheet,
    **{
        name: lambda name=name: build_sheet(awkward.KITS[name]())  # type: ignore[misc]
        for name in ("minimal", "seventy-two-gaps", "long-names", "four-ballast", "parallel", "empty", "cold",
                     "twelve-repairs", "hostile")
    },
}  # fmt: skip
OTHERS: dict[str, Callable[[], Document]] = {
    **{
        f"card of {name}": lambda name=name: built.card(awkward.KITS[name]())  # type: ignore[misc]
        for name in ("demo", "twelve-repairs", "parallel", "alone")
    },
    "labels of demo with gaps": lambda: build_labels(
        built.demo(), baked_on={"general rods": (date(2027, 4, 1), date(2027, 3, 1))}, gaps=True
    ),
    "labels of long-names": lambda: build_labels(awkward.long_names()),
    "labels of crowded": lambda: build_labels(built.crowded()),
    "labels of empty": lambda: build_labels(built.empty()),
    "labels of a packet baked once, of one scrapped and of one nobody can read": lambda: build_labels(_rods()),
    "stickers of parallel": lambda: _stickers("parallel"),
    "form of demo": lambda: built.form(built.demo()),
    "form of a companion": lambda: build_companion_form(built.demo().trip, on=built.demo().on),
    "form of any companion": lambda: build_companion_form(None, on=built.demo().on),
}


def _rods() -> Readiness:
    case = built.demo()
    one, two = case.kit.rods[:2]
    rods = (
        replace(one, bakes=1),
        replace(two, bakes=3),
        replace(one, name="odd", designation="X99", opened_on=None),
        replace(one, name="minus only", designation="E6012"),
    )
    return assess(replace(case.kit, rods=rods), case.trip, on=case.on)


def _stickers(name: str) -> Document:
    case = awkward.KITS[name]()
    return build_stickers(case.kit, case.trip, on=case.on)


def texts() -> Iterator[tuple[str, list[str]]]:
    """Each paper as text."""
    for name in ("demo", "minimal", "long-names", "four-ballast", "parallel", "empty", "cold"):
        yield f"text of sheet {name}", text.render(SHEETS[name]()).splitlines()
    yield "text of a sheet of odd rods", text.render(build_sheet(_rods())).splitlines()
    bare = replace(samples.EMPTY_SHEET, bank=None, sources=(), cautions=())
    yield "text of a sheet with nothing on it", text.render(bare).splitlines()
    for name, paper in OTHERS.items():
        yield f"text of {name}", text.render(paper()).splitlines()


def _bank(*strings: int, **more: object) -> Hookup:
    names = iter(("heron-main", "plover-main", "plover-second", "stilt", "tern-main", "tern-second"))
    numbers = iter("123456")
    made = tuple(tuple(Box(next(names), next(numbers), "80 Ah AGM") for _ in range(size)) for size in strings)
    return Hookup(strings=made, **({"polarity": Polarity.DCEP} | more))  # type: ignore[arg-type]


def drawings() -> Iterator[tuple[str, Drawing]]:
    """Everything that is drawn."""
    banks = {
        "two": _bank(2, polarity=Polarity.DCEN, opening="far plug", opening_in=LeadLine.WORK),
        "three": _bank(3),
        "three, work lead opens": _bank(3, opening_in=LeadLine.WORK),
        "three, nobody knows the polarity": _bank(3, polarity=None),
        "four with fuse and ballast": _bank(4, in_holder=("fuse", "ballast")),
        "two strings of two, nothing opens": _bank(2, 2, opening=""),
        "two strings of three": _bank(3, 3),
    }
    for name, bank in banks.items():
        yield f"card's drawing of {name}", hookup.draw(bank, width_mm=86, size_pt=12)
        yield f"sheet's drawing of {name}", sheet_fit.drawing(bank)
    yield "a drawing with short names", hookup.draw(_bank(4), width_mm=86, size_pt=10, abbreviate=True)
    for paper in Paper:
        for faces in (2, 4):
            yield f"cuts of {faces} faces on {paper}", furniture.card(faces=faces, paper=paper)
        yield f"cuts of labels on {paper}", furniture.labels(paper)
    case = built.demo()
    if (bars := build_chart(case)) is not None:
        yield "the chart of demo", chart.draw(bars, width_mm=178)
    history = history_of(case.kit, "stilt-main")
    levels = levels_of(case.kit.battery["stilt-main"], case.kit.limits)
    if (line := build_trend("stilt-main", history, levels=levels)) is not None:
        yield "stilt-main over time", trend.draw(line, width_mm=120)
        yield "stilt-main over time, small", trend.small(line)


def shape_words(drawing: Drawing) -> list[str]:
    """A drawing, a shape a line."""
    found = [f"{drawing.width:g} x {drawing.height:g}: {drawing.title}"]
    for shape in drawing.shapes:
        match shape:
            case Stroke():
                found.append(f"{shape.kind} {shape.path} {shape.width:g}{f' dash {shape.dash}' if shape.dash else ''}")
            case Block():
                fill = "full" if shape.filled else "empty"
                place = f"{shape.x:.2f} {shape.y:.2f} {shape.width:.2f} x {shape.height:.2f}"
                found.append(f"{shape.kind} {place} {shape.line:g} {fill}{f' dash {shape.dash}' if shape.dash else ''}")
            case Dot():
                found.append(f"{shape.kind} {shape.x:.2f} {shape.y:.2f} r {shape.radius:g}")
            case Text():
                weight = " bold" if shape.bold else ""
                found.append(f"“{shape.text}” {shape.x:.2f} {shape.y:.2f} {shape.size_pt:g}{weight} {shape.anchor}")
    return found


def heights(sheet: Sheet, paper: Paper) -> list[str]:
    """How a sheet comes to stand: its plan, and every height that the plan is made of, mm."""
    shown = clean.for_paper(sheet, has=typeface.has)
    wide_mm = sheet_fit.LIVE_WIDE_MM[paper]
    column_mm = (wide_mm - sheet_fit.COLUMN_GAP_MM) / 2
    bank, parts = shown.bank, [part for bag in shown.bags for part in bag.parts()]
    found = [
        str(sheet_fit.plan(shown, paper=paper)),
        f"decide {sheet_fit.decide_mm(shown, wide_mm=wide_mm):.2f}, "
        f"closer {sheet_fit.decide_mm(shown, wide_mm=wide_mm, close=True):.2f}, "
        f"bank {sheet_fit._bank(bank, wide_mm):.2f}, pack {sheet_fit.pack_mm(shown, wide_mm=wide_mm):.2f}, "
        f"cautions {sheet_fit._cautions(shown, wide_mm):.2f}",
        f"gaps {[round(sheet_fit._gap(gap, wide_mm, close=False), 2) for gap in shown.mend]}",
        f"gaps, closer {[round(sheet_fit._gap(gap, wide_mm, close=True), 2) for gap in shown.mend]}",
        f"more { ({name: round(high, 2) for name, high in sheet_fit._extras(shown, wide_mm).items()}) }",
    ]
    if bank:
        rows = sheet_fit.fact_rows(bank.facts, wide_mm=wide_mm)
        found.append(f"facts {[[fact.label for fact in row] for row in rows]}")
    for part in parts:
        heading, items = sheet_fit._section(part, column_mm)
        found.append(f"{part.title}: {heading:.2f}, {[round(high, 2) for high in items]}")
    return found


def faces_mm(name: str) -> list[str]:
    """How high, how full of words and of how many lines each block of a card is."""
    return [
        f"{face.number} {type(block).__name__} {card_split.high_mm(block):.2f} {card_split.words_of(block)} "
        f"{card_split.head_mm(block):.2f}"
        for face in built.card(awkward.KITS[name]()).faces
        for block in face.blocks
    ]


def places() -> Iterator[tuple[str, list[str]]]:
    """What of each paper has a place of its own: as its page says it."""
    papers: dict[str, Callable[[], Document]] = {
        "sheet of demo": demo_sheet,
        "card of demo": lambda: built.card(built.demo()),
        "labels of long-names": lambda: build_labels(awkward.long_names()),
        "labels of crowded": lambda: build_labels(built.crowded()),
        "labels of empty": lambda: build_labels(built.empty()),
        "stickers of two strings of three": lambda: build_stickers(*_six()[:2], on=_six()[2]),
        "form of long names": lambda: built.form(awkward.long_names()),
        "form of demo": lambda: built.form(built.demo()),
    }
    for name, paper in papers.items():
        for size in Paper:
            if size is Paper.LETTER and name in ("sheet of demo", "form of demo"):
                continue
            page = html.render(paper(), paper=size, fonts_inside=False)
            bare = re.sub("<svg.*?</svg>", "", page, flags=re.DOTALL)
            placed = re.findall("<(?:section|h1|table)[^>]*>[^<]*|<[^>]* id=[^>]*>", bare)
            yield f"places of {name} on {size}", [" ".join(place.split()) for place in placed]


def _six() -> tuple[Kit, Trip, date]:
    case = built.guests(tuple(f"guest {number}" for number in range(6)), strings=2)
    return case.kit, case.trip, case.on


def parts() -> dict[str, list[str]]:
    """Every part by its name."""
    found = dict(texts())
    found |= {name: shape_words(drawing) for name, drawing in drawings()}
    found |= {
        f"heights of sheet {name} on {size}": heights(sheet(), size) for name, sheet in SHEETS.items() for size in Paper
    }
    found["heights of a sheet without a bank"] = heights(replace(samples.EMPTY_SHEET, bank=None), Paper.A4)
    found["corners"] = [f"{furniture.corner(size)} {furniture.labels_corner(size)}" for size in Paper]
    found["heights of an early sample"] = heights(samples.DEMO_SHEET, Paper.A4)
    found |= {f"heights of card {name}": faces_mm(name) for name in ("demo", "twelve-repairs", "parallel", "alone")}
    return found | dict(places())


def written() -> dict[str, list[str]]:
    """Every part as the file has it."""
    found: dict[str, list[str]] = {}
    name = ""
    for line in FILE.read_text(encoding="utf-8").splitlines():
        if line.startswith(RULE):
            name = line.removeprefix(RULE).strip()
        found.setdefault(name, [])
        if not line.startswith(RULE):
            found[name].append(line)
    return found


if __name__ == "__main__":
    whole = "\n".join("\n".join((f"{RULE} {name}", *lines)) for name, lines in parts().items())
    FILE.write_text(f"{whole}\n", encoding="utf-8")
