"""Labels of A7 size, eight to A4, six to US Letter: one for each bag (what belongs in it), one for each rod tube."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from kitlist.base.terms import Polarity
from kitlist.faces.paper import typeface
from kitlist.faces.paper.document import Fact, Marks, SheetItem, hash_of

LABELS_A_ROW = 2
WIDE_MM = 105.0  # A7 upright is 74 × 105 mm; a label lies
LIVE_WIDE_MM = WIDE_MM - 2 * 7.0
LINES_A_LABEL = 7
NUMBER_MM = 9.0  # the sheet's number, before the thing
TITLE_PT, LINE_PT = 18.0, 12.0
COUNT_MM, GAP_MM, FACT_MM = 18.0, 26.0, 38.0  # columns beside the item, as in templates/labels.css


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label. A bag has `items`; a rod tube has `polarity`, `facts` and `blanks` to write on by hand."""

    title: str
    note: str = ""  # where it is stowed
    items: tuple[SheetItem, ...] = ()
    polarity: Polarity | None = None
    facts: tuple[Fact, ...] = ()
    blanks: tuple[str, ...] = ()

    def cut_to_size(self) -> Iterator[Label]:
        """This label with every text on one line, as several of even length where it has too many; gaps come first."""
        gaps_first = sorted(self.items, key=lambda item: not (item.short_by or item.gap_word))
        count = max(1, -(-len(gaps_first) // LINES_A_LABEL))
        even, more = divmod(len(gaps_first), count)
        ends = [(number + 1) * even + min(number + 1, more) for number in range(count)]
        groups = [gaps_first[start:end] for start, end in zip((0, *ends), ends, strict=False)]
        note = typeface.cut(self.note, width_max_mm=LIVE_WIDE_MM, size_pt=LINE_PT)
        for number, group in enumerate(groups, start=1):
            part = f" {number} of {len(groups)}" if len(groups) > 1 else ""
            room = LIVE_WIDE_MM - typeface.width_mm(part, size_pt=TITLE_PT, bold=True)
            title = typeface.cut(self.title, width_max_mm=room, size_pt=TITLE_PT, bold=True) + part
            facts = tuple(replace(fact, value=_beside_its_label(fact.value)) for fact in self.facts)
            yield replace(self, title=title, note=note, facts=facts, items=tuple(_on_one_line(item) for item in group))


def _beside_its_label(value: str) -> str:
    return typeface.cut(value, width_max_mm=LIVE_WIDE_MM - FACT_MM, size_pt=LINE_PT, bold=True)


def _on_one_line(item: SheetItem) -> SheetItem:
    room = LIVE_WIDE_MM - 2
    room -= COUNT_MM if item.need or item.have else 0
    room -= GAP_MM if item.short_by or item.gap_word else 0
    room -= NUMBER_MM if item.number else 0
    what = _whole_parts(item.what, width_max_mm=room)
    left = room - typeface.width_mm(f"{what} · ", size_pt=LINE_PT) - 1
    see = item.see if typeface.width_mm(item.see, size_pt=LINE_PT) <= left else ""
    return replace(item, what=what, see=see)


def _whole_parts(what: str, *, width_max_mm: float) -> str:
    """As many of its parts between commas as fit, at least the first: a date cut in half would mislead."""
    shown = what
    while ", " in shown and typeface.width_mm(shown, size_pt=LINE_PT) > width_max_mm:
        shown = shown.rpartition(", ")[0]
    return typeface.cut(shown, width_max_mm=width_max_mm, size_pt=LINE_PT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """A run of labels; a bag that holds more than fits on one has several."""

    kit: str
    labels: tuple[Label, ...]
    marks: Marks
    title: str = "Labels"

    def content_hash(self) -> str:
        """Eight hex digits of what the labels say."""
        return hash_of(self, "labels", leave_out=("marks",))
