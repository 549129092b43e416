"""How the sheet comes to stand on its leaf: what else side 1 has room for, and whether the bags begin on side 2.

Heights are reckoned from the type's own widths, so that one layout is enough; `templates/sheet.css` has the same
numbers, and the tests hold the two together on awkward kits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import ceil

from kitlist.base.terms import Paper
from kitlist.faces.paper import chart, hookup, typeface
from kitlist.faces.paper.document import BankPanel, Fact, GapLine, Hookup, Section, Sheet, SheetItem
from kitlist.faces.paper.figure import Drawing

LIVE_WIDE_MM = {Paper.A4: 178.0, Paper.LETTER: 183.9}
LIVE_HIGH_MM = {Paper.A4: 273.0, Paper.LETTER: 255.4}  # between the margins of 12 mm
HOOKUP_MM, HOOKUP_PT = 150.0, 10.0  # of the drawing on the sheet: as wide as it needs, and no higher for it
EXTRAS = ("days", "joins", "chart", "trends", "remarks", "sources")
"""Parts of the annex, in the order in which side 1 takes them in."""
BLANK_MOST_MM = 40.0  # more than that left of a side has rules to write on
RULE_MM = 9.0
CREW_MM = 20.0  # of a crew's name in the head at the least; more where its line has room
FACT_GAP_MM = 4.0
MEND_IN_MM = 23.0  # from the edge to the words of a gap
GAP_MM, COLUMN_GAP_MM, ITEM_IN_MM, DOOR_IN_MM = 0.55, 6.0, 13.2, 8.5
_NARROWEST_MM = (min(LIVE_WIDE_MM.values()) - COLUMN_GAP_MM) / 2 - max(ITEM_IN_MM, DOOR_IN_MM)  # of a column's words
COUNT_IN_MM = 1.5  # from the words of a line to its count
_POINT = typeface.MM_A_POINT
_BOLD_LINE, _SMALL_LINE = 12 * 1.15 * _POINT, 10 * 1.12 * _POINT
_ROW_LEAST, _ROW_PAD = 7.5, 0.9
_ITEM_LINE, _BOXED_LINE, _SEE_LINE = 12 * 1.14 * _POINT, 12 * 1.1 * _POINT + 1.2, 10 * 1.14 * _POINT
_BOX_MM, _NOTE_BELOW = 3.2, 4.3  # of the box round a gap's word; of a bag's place that has no room beside its name
_HEADING, _ROW, _CHART_ROW = 8.2, 4.7, 6.6
_CAUTIONS_LINE = 10 * 1.2 * _POINT
_COMPLETION, _DOOR_HEADING = 10.9, 7.2
_OVER_MM = 8.0  # by which side 1 may come out lower than it is reckoned
_SLACK_MM = 0.5  # rounding, and what kerning and line breaks may add up to
_PACK_SLACK_MM = 0.3  # the same over two columns of lines, which are reckoned for the wider way


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """Where things come to stand. `flows`: side 1 holds more than a page, and the bags follow on where it ends."""

    flows: bool
    close: bool = False  # gaps with what to do behind what is wrong, where both fit on a line
    beside: tuple[str, ...] = ()  # parts of the annex below the bank
    cautions_first: bool = False  # on side 1, where side 2 has no room left for them
    turn: tuple[int, int] | None = None  # part and item with which the right column of the bags begins
    door_turn: int | None = None  # the same of the recheck; None: they go over pages, and the layout evens them out
    rules: int = 0  # lines to write on below all of it


def plan(sheet: Sheet, *, paper: Paper) -> SheetPlan:
    """The plan of a sheet whose texts are as they are drawn."""
    wide_mm, high_mm = LIVE_WIDE_MM[paper], LIVE_HIGH_MM[paper]
    free_mm = high_mm - decide_mm(sheet, wide_mm=wide_mm) - _SLACK_MM
    close = free_mm < 0
    if close:
        free_mm = high_mm - decide_mm(sheet, wide_mm=wide_mm, close=True) - _SLACK_MM
    if free_mm < 0:
        return SheetPlan(flows=True, close=True)
    cautions_mm = _cautions(sheet, wide_mm)
    packed_mm = pack_mm(sheet, wide_mm=wide_mm) + _PACK_SLACK_MM
    first = packed_mm + cautions_mm > high_mm and cautions_mm <= free_mm
    if first:
        free_mm -= cautions_mm
    whole = packed_mm + (0.0 if first else cautions_mm) <= high_mm
    beside = []
    for name, needed_mm in _extras(sheet, wide_mm).items():
        if needed_mm <= free_mm:
            beside.append(name)
            free_mm -= needed_mm
    rules = int((free_mm - _HEADING) / RULE_MM) if free_mm > BLANK_MOST_MM - _OVER_MM else 0
    return SheetPlan(
        flows=False,
        close=close,
        beside=tuple(beside),
        cautions_first=first,
        rules=rules,
        turn=_bag_columns(sheet, wide_mm).turn if whole else None,
        door_turn=_door_columns(sheet, wide_mm).turn[1] or None if whole and len(sheet.recheck.parts()) == 1 else None,
    )


def about_line(sheet: Sheet, *, wide_mm: float) -> str:
    """Crew and trip in a line; the crew's name is cut to leave the rest whole."""
    left_mm = wide_mm - typeface.width_mm("".join(f" · {part}" for part in sheet.about), size_pt=10)
    crew = typeface.cut(sheet.kit, width_max_mm=max(CREW_MM, left_mm), size_pt=10)
    return " · ".join(filter(None, (crew, *sheet.about)))


def decide_mm(sheet: Sheet, *, wide_mm: float, close: bool = False) -> float:
    """How high what one decides by comes out: head, verdict, gaps, bank."""
    head = _lines(f"{sheet.title}: {sheet.trip or 'no trip'}", wide_mm, 19, bold=True) * 19 * 1.05 * _POINT
    about = _lines(about_line(sheet, wide_mm=wide_mm), wide_mm, 10) * 10 * 1.25 * _POINT
    verdict = 16.6 if sheet.verdict.meaning else 11.4
    gaps = sum(_gap(gap, wide_mm, close=close) for gap in sheet.mend)
    return head + about + 1.0 + verdict + (_HEADING + gaps if sheet.mend else 0.0) + _bank(sheet.bank, wide_mm)


def _gap(gap: GapLine, wide_mm: float, *, close: bool) -> float:
    room_mm = wide_mm - MEND_IN_MM
    do = " ".join(filter(None, (gap.do, gap.accepted)))
    what = _lines(gap.what, room_mm, 12, bold=True)
    beside = typeface.width_mm(gap.what, size_pt=12, bold=True) + 1.5 + typeface.width_mm(do, size_pt=10) <= room_mm
    small = 0 if close and beside else _lines(do, room_mm, 10)
    return max(_ROW_LEAST, what * _BOLD_LINE + small * _SMALL_LINE + GAP_MM)


def _bank(bank: BankPanel | None, wide_mm: float) -> float:
    if bank is None:
        return 0.0
    drawn = drawing(bank.hookup).height + 1.6 if bank.hookup else 0.0
    why = _lines(bank.none_because, wide_mm, 12) * 12 * 1.27 * _POINT
    cautions = sum(_lines(f"{c.signal} {c.sentences}", wide_mm - 6, 12) * 12 * 1.25 * _POINT + 5 for c in bank.cautions)
    batteries = sum(max(1, _lines(row.cells[1], 72.0, 10)) * 4.05 + 0.6 for row in bank.batteries)
    rods = sum(max(1, _lines(row.asks, 80.0, 10)) * 4.05 + 0.6 for row in bank.rods.rows) if bank.rods else 0.0
    return (
        _HEADING
        + _note_below(bank.title, bank.count_note, wide_mm)
        + drawn
        + why
        + cautions
        + (batteries + 5.7 if bank.batteries else 0.0)
        + 9.9 * len(fact_rows(bank.facts, wide_mm=wide_mm))
        + (rods + 0.8 if rods else 0.0)
    )


def _note_below(title: str, note: str, wide_mm: float) -> float:
    """How high the note of a heading comes out where it has no room beside it."""
    beside_mm = typeface.width_mm(title, size_pt=14, bold=True) + typeface.width_mm(note, size_pt=10)
    return _NOTE_BELOW if note and beside_mm > wide_mm else 0.0


def fact_rows(facts: Sequence[Fact], *, wide_mm: float) -> tuple[tuple[Fact, ...], ...]:
    """Facts side by side, each whole on its line, in as many rows as they take."""
    rows: list[list[Fact]] = []
    used_mm = wide_mm
    for fact in facts:
        label_mm = typeface.width_mm(fact.label, size_pt=10)
        long_mm = max(label_mm, typeface.width_mm(fact.value, size_pt=12, bold=True)) + FACT_GAP_MM
        if used_mm + long_mm > wide_mm:
            rows.append([])
            used_mm = 0.0
        rows[-1].append(fact)
        used_mm += long_mm
    return tuple(map(tuple, rows))


@cache
def drawing(joined: Hookup) -> Drawing:
    """The bank as the sheet draws it: numbers in the boxes, names in the table below."""
    return hookup.draw(replace(joined, numbers_only=True), width_mm=HOOKUP_MM, size_pt=HOOKUP_PT, abbreviate=True)


def _extras(sheet: Sheet, wide_mm: float) -> dict[str, float]:
    """How high each part of the annex comes out, in the order in which they are taken in."""
    bank = sheet.bank
    found = {"days": _HEADING + _ROW * (1 + sum(_lines(day.what, wide_mm - 38, 10) for day in sheet.days))}
    if not sheet.days:
        found = {}
    if bank and bank.joins:
        found["joins"] = _HEADING + _ROW * (1 + sum(_join(join, wide_mm) for join in bank.joins))
    if bank and bank.chart:
        found["chart"] = _HEADING + chart.draw(bank.chart, width_mm=wide_mm).height
    if trends := [row for row in (bank.batteries if bank else ()) if row.trend]:
        found["trends"] = _HEADING + _CHART_ROW * len(trends)
    if bank and bank.remarks:
        found["remarks"] = _HEADING + _paragraphs(bank.remarks, wide_mm)
    if sheet.thresholds or sheet.sources:
        found["sources"] = 2.0 + _paragraphs(("; ".join(sheet.thresholds), "; ".join(sheet.sources)), wide_mm)
    return found


def _join(join: SheetItem, wide_mm: float) -> int:
    missing = _lines(join.gap_word, 42.0, 10, bold=True)
    return max(_lines(join.what, 60.0, 10), _lines(join.see, wide_mm - 110, 10), missing)


def _paragraphs(texts: Sequence[str], wide_mm: float) -> float:
    return sum(_lines(text, wide_mm, 10) for text in texts) * 10 * 1.3 * _POINT


@dataclass(frozen=True, slots=True, kw_only=True)
class _Columns:
    """Two columns as even as they come: how high the higher one is, which part and item the right one begins with."""

    high_mm: float
    turn: tuple[int, int]


def _evened(parts: Sequence[tuple[float, Sequence[float]]]) -> _Columns:
    """Parts with the height of their heading and of each of their items, evened out; no heading ends a column."""
    whole_mm = sum(heading + sum(items) for heading, items in parts)
    found = _Columns(high_mm=whole_mm, turn=(len(parts), 0))
    left_mm = 0.0
    for part, (heading, items) in enumerate(parts):
        for item, high_mm in enumerate(items):
            higher_mm = max(left_mm, whole_mm - left_mm)
            if higher_mm < found.high_mm:
                found = _Columns(high_mm=higher_mm, turn=(part, item))
            left_mm += high_mm + (0.0 if item else heading)
    return found


def in_columns(
    parts: Sequence[Section], turn: tuple[int, int] | None
) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
    """The parts of the left and of the right column; the one that goes on in the right has its heading in the left."""
    if turn is None:
        return tuple(parts), ()
    part, item = turn
    if not item:
        return tuple(parts[:part]), tuple(parts[part:])
    begun = replace(parts[part], items=parts[part].items[:item])
    rest = replace(parts[part], title="", note="", items=parts[part].items[item:])
    return (*parts[:part], begun), (rest, *parts[part + 1 :])


def _bag_columns(sheet: Sheet, wide_mm: float) -> _Columns:
    column_mm = (wide_mm - COLUMN_GAP_MM) / 2
    return _evened([_section(part, column_mm) for bag in sheet.bags for part in bag.parts()])


def _door_columns(sheet: Sheet, wide_mm: float) -> _Columns:
    column_mm = (wide_mm - COLUMN_GAP_MM) / 2
    return _evened([(0.0, [_item(item, column_mm - DOOR_IN_MM, counted=False) for item in sheet.recheck.items])])


def pack_mm(sheet: Sheet, *, wide_mm: float) -> float:
    """How high what is packed and ticked comes out, without the cautions: the bags' two columns, the door, the line."""
    door_mm = _DOOR_HEADING + _door_columns(sheet, wide_mm).high_mm
    return _bag_columns(sheet, wide_mm).high_mm + door_mm + _COMPLETION


def _section(section: Section, column_mm: float) -> tuple[float, list[float]]:
    """How high its heading and each of its items come out; a place beside a long name comes below it."""
    title = max(1, _lines(section.title, column_mm, 14, bold=True)) * 14 * 1.1 * _POINT + 1.7
    title += _note_below(section.title, section.note, column_mm)
    return title, [
        _item(item, column_mm - ITEM_IN_MM, counted=bool(item.have) and not item.left_home) for item in section.items
    ]


def whole_gap(item: SheetItem) -> bool:
    """Whether its gap has room on one line in any column; the layout need not try how narrow it could come out."""
    return typeface.width_mm(_lacking(item), size_pt=12, bold=True) + _BOX_MM <= _NARROWEST_MM


def whole_see(item: SheetItem) -> bool:
    """The same of what to see."""
    return typeface.width_mm(item.see, size_pt=10) <= _NARROWEST_MM


def _lacking(item: SheetItem) -> str:
    return f"−{item.short_by}  {item.gap_word}" if item.short_by else item.gap_word


def _item(item: SheetItem, room_mm: float, *, counted: bool) -> float:
    """One line to tick: its name, behind it its gap and what to see, each whole on a line; its count at the right."""
    gap = _lacking(item)
    leave = "leave at home" if item.left_home else ""
    digits = "0" * len(item.have + item.need)  # of one width, as in a table
    count_mm = typeface.width_mm(f"{digits} of ", size_pt=12, bold=True) + COUNT_IN_MM if counted else 0.0
    words = [(word, 12.0, item.first, _ITEM_LINE) for word in item.what.split()]
    words += [(gap, 12.0, True, _BOXED_LINE), (leave, 12.0, True, _ITEM_LINE), (item.see, 10.0, False, _SEE_LINE)]
    lines: list[float] = []
    left_mm = 0.0
    for text, size_pt, bold, high_mm in words:
        if not text:
            continue
        long_mm = typeface.width_mm(text, size_pt=size_pt, bold=bold) + (_BOX_MM if high_mm == _BOXED_LINE else 0.0)
        if not lines or long_mm > left_mm:
            lines.append(high_mm)
            left_mm = room_mm - (count_mm if len(lines) == 1 else 0.0)
        lines[-1] = max(lines[-1], high_mm)
        left_mm -= long_mm + typeface.width_mm(" ", size_pt=size_pt)
    return max(_ROW_LEAST, sum(lines) + _ROW_PAD)


def _cautions(sheet: Sheet, wide_mm: float) -> float:
    bold_mm, thin_mm = (typeface.width_mm(sheet.defer, size_pt=10, bold=bold) for bold in (True, False))
    wider = "." * ceil((bold_mm - thin_mm) / typeface.width_mm(".", size_pt=10))  # what its bold letters take more
    words = _lines(f"{sheet.defer}{wider} {' '.join(sheet.cautions)}", wide_mm, 10)
    return (words + bool(sheet.changes_since)) * _CAUTIONS_LINE + 1.4


def _lines(text: str, wide_mm: float, size_pt: float, *, bold: bool = False) -> int:
    """How many lines a text takes; one without a space that is too long for a line breaks where it must."""
    wrapped = typeface.wrap(text, width_max_mm=wide_mm, size_pt=size_pt, bold=bold)
    return sum(max(1, -int(-typeface.width_mm(x, size_pt=size_pt, bold=bold) // wide_mm)) for x in wrapped)
