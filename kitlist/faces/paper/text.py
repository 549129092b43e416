"""The same documents as plain text for a terminal: 60 columns are enough, and nothing is drawn with characters."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base import clean
from kitlist.faces.paper import hookup
from kitlist.faces.paper.card_document import Bars, Blanks, Card, Face, Grid, IfThenLine, Lines, PolarityBanner, Step
from kitlist.faces.paper.document import (
    BankPanel,
    Caution,
    Fact,
    GapLine,
    Hookup,
    RodTable,
    Section,
    Sheet,
    SheetItem,
)
from kitlist.faces.paper.form import Form
from kitlist.faces.paper.html import Document, marks_line
from kitlist.faces.paper.labels import Label, Labels
from kitlist.faces.paper.lines import gap_lines, verdict_lines, wrapped
from kitlist.faces.paper.stickers import Stickers

COLUMNS = 60
BLANK = "______"
REASONS_SHOWN = 3


def render(document: Document, *, columns: int = COLUMNS) -> str:
    """The document as lines of at most `columns` characters."""
    shown = clean.for_terminal(document)
    marks = marks_line(document)
    lines = [*_parts(shown, columns), "", *wrapped(marks, columns)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _parts(document: Document, columns: int) -> Iterator[str]:
    match document:
        case Sheet():
            yield from _sheet(document, columns)
        case Card():
            yield from _card(document, columns)
        case Labels():
            for label in document.labels:
                yield from _label(label, columns)
        case Stickers():
            for sticker in document.stickers:
                yield from wrapped(f"{sticker.mark}  {sticker.words}", columns)
            yield ""
            yield from wrapped(document.defer, columns)
        case Form():
            yield from _form(document, columns)


def _heading(title: str, columns: int) -> list[str]:
    lines = wrapped(title.upper(), columns)
    return ["", *lines, "-" * max(len(line) for line in lines)]


def _sheet(sheet: Sheet, columns: int) -> Iterator[str]:
    yield from wrapped(f"{sheet.title}: {sheet.trip}", columns)
    if sheet.kit:
        yield from wrapped(sheet.kit, columns)
    yield ""
    yield from verdict_lines(sheet.verdict, columns)
    for number, reason in enumerate(sheet.verdict.reasons[:REASONS_SHOWN], start=1):
        yield from wrapped(reason, columns, first=f"{number}. ")
    left = len(sheet.verdict.reasons[REASONS_SHOWN:])
    if left:
        yield f"and {left} more, below."
    if sheet.facts:
        yield ""
        yield from _facts(sheet.facts, columns)
    if sheet.bank:
        yield from _bank(sheet.bank, columns)
    for title, gaps in (("Gaps: what to do", sheet.gaps), ("Accepted gaps", sheet.accepted)):
        if gaps:
            yield from _heading(title, columns)
            yield from _gaps(gaps, columns)
    if sheet.days:
        yield from _heading("What is left to do, by day", columns)
        for line in sheet.days:
            mark, state = "*" if line.changed else "", "  late" if line.late else ""
            yield from wrapped(line.what, columns, first=f"{mark}{line.day}{state}  ", rest=" " * 12)
    for block in (*sheet.bags, sheet.recheck):
        for part in block.parts() if block.items else ():
            yield from _section(part, columns)
    yield ""
    for caution in (sheet.defer, *sheet.cautions):
        yield from wrapped(caution, columns)
    if sheet.thresholds:
        yield from wrapped(f"Changed in this crew's rulebook: {'; '.join(sheet.thresholds)}.", columns)
    if sheet.sources:
        yield from wrapped(f"Sources: {'; '.join(sheet.sources)}.", columns)
    if sheet.changes_since:
        gone = f" Lines gone since then: {sheet.gone}." if sheet.gone else ""
        yield from wrapped(f"An asterisk marks what changed since {sheet.changes_since}.{gone}", columns)
    if sheet.card_hash:
        yield f"Card {sheet.card_hash}"


def _label(label: Label, columns: int) -> Iterator[str]:
    yield from _heading(label.title, columns)
    for line in (label.polarity.words if label.polarity else "", label.note):
        if line:
            yield from wrapped(line, columns)
    for item in label.items:
        yield from _item(item, columns)
    if label.facts:
        yield from _facts(label.facts, columns)
    for blank in label.blanks:
        yield from wrapped(f"{blank}: {BLANK}", columns)


def _form(form: Form, columns: int) -> Iterator[str]:
    yield from wrapped(f"{form.title}: {form.trip}" if form.trip else form.title, columns)
    for table in form.tables:
        yield from _heading(table.title, columns)
        if table.note:
            yield from wrapped(table.note, columns)
        for blank in table.blanks:
            yield from wrapped(f"{blank}: {BLANK}", columns)
        for place, row in enumerate(table.filled()):
            ticks = "".join(f"[ ] {choice} " for choice in table.choices_of(place)).strip() or BLANK
            cells = (f"{heading}: {cell or ticks}" for heading, cell in zip(table.headings, row, strict=True))
            yield from wrapped("; ".join(cells), columns, first="- ")
    yield ""
    yield from wrapped(form.defer, columns)


def _facts(facts: tuple[Fact, ...], columns: int) -> Iterator[str]:
    wide = min(24, max(len(fact.label) for fact in facts) + 2)
    for fact in facts:
        label = f"*{fact.label}" if fact.changed else fact.label
        yield from wrapped(fact.value, columns, first=label[: wide - 1].ljust(wide))


def _section(section: Section, columns: int) -> Iterator[str]:
    yield from _heading(section.title, columns)
    if section.note:
        yield from wrapped(section.note, columns)
    for item in section.items:
        yield from _item(item, columns)


def _item(item: SheetItem, columns: int) -> Iterator[str]:
    mark, box = "*" if item.changed else " ", "   " if item.left_home else "[ ]"
    numbers = f"need {item.need}, have {item.have or '0'}" if item.need else item.have
    gap = " ".join(filter(None, (f"[−{item.short_by}]" if item.short_by else "", item.gap_word)))
    count = "leave at home" if item.left_home else numbers
    tail = ", ".join(filter(None, (item.see, count, gap)))
    number = f"{item.number}. " if item.number else ""
    yield from wrapped(f"{item.what}: {tail}" if tail else item.what, columns, first=f"{mark}{box} {number}")


def _gaps(gaps: tuple[GapLine, ...], columns: int) -> Iterator[str]:
    for gap in gaps:
        yield from gap_lines(gap, columns)


def _bank(bank: BankPanel, columns: int) -> Iterator[str]:
    yield from _heading(bank.title, columns)
    if bank.none_because:
        yield from wrapped(bank.none_because, columns)
    for caution in bank.cautions:
        yield from wrapped(f"{caution.signal}: {caution.sentences}", columns)
    if bank.hookup:
        yield from wrapped(hookup.in_words(bank.hookup), columns)
    for row in bank.batteries:
        first = "* " if row.changed else "  "
        yield from wrapped("  ".join(filter(None, row.cells)), columns, first=first, rest="     ")
    if bank.facts:
        yield from _facts(bank.facts, columns)
    if bank.rods:
        yield from _rods(bank.rods, columns)
    for join in bank.joins:
        words = f"{join.what}: {join.see}{f', {join.gap_word}' if join.gap_word else ''}"
        yield from wrapped(words, columns, first="* " if join.changed else "  ", rest="     ")
    if bank.chart:
        yield from wrapped(bank.chart.summary, columns)
    for remark in bank.remarks:
        yield from wrapped(remark, columns, first="- ")


def _rods(rods: RodTable, columns: int) -> Iterator[str]:
    for row in rods.rows:
        words = f"{row.steel}: {row.rod}, {row.amps}: {row.verdict}"
        yield from wrapped(words, columns, first="* " if row.changed else "  ", rest="     ")
    if rods.note:
        yield from wrapped(rods.note, columns)


def _card(card: Card, columns: int) -> Iterator[str]:
    yield from wrapped(f"{card.title}: {card.bank}", columns)
    if card.kit:
        yield from wrapped(card.kit, columns)
    for place, face in enumerate(card.faces, start=1):
        yield from _face(face, f"{place} of {len(card.faces)}", columns)
    yield ""
    yield from wrapped(card.defer, columns)


def _face(face: Face, place: str, columns: int) -> Iterator[str]:
    yield from _heading(f"{face.number} {face.title} ({place})", columns)
    yield from wrapped(face.when, columns)
    number = face.first_step - 1
    for block in face.blocks:
        match block:
            case Step():
                number += 1
                text = f"{block.text}: {block.see}" if block.see else block.text
                yield from wrapped(text, columns, first=f"{number}. ")
            case Caution():
                yield from wrapped(f"{block.signal}: {block.sentences}", columns, first="   ")
            case Hookup():
                yield from wrapped(hookup.in_words(block), columns)
            case Grid():
                yield from _grid(block, columns)
            case Bars():
                yield from wrapped(f"{block.chart.title}: {block.chart.summary}", columns)
            case PolarityBanner():
                yield from wrapped(block.polarity.words, columns)
            case IfThenLine():
                yield from wrapped(f"{block.trigger}: {block.then}", columns, rest="   ")
            case Blanks():
                for word in block.words:
                    yield from wrapped(f"{word}: {BLANK}", columns)
            case Lines():
                words = f"{block.title} {' '.join(block.lines)}".strip()
                yield from wrapped(words, columns, first="   ")
    yield from wrapped(face.next, columns)


def _grid(grid: Grid, columns: int) -> Iterator[str]:
    if grid.title:
        yield from wrapped(f"{grid.title}:", columns)
    notes = grid.notes or ("",) * len(grid.rows)
    for row, note in zip(grid.rows, notes, strict=True):
        cells = "; ".join(f"{heading}: {cell}" for heading, cell in zip(grid.headings[1:], row[1:], strict=True))
        yield from wrapped(" ".join(filter(None, (f"{row[0]}; {cells}.", note))), columns, rest="   ")
