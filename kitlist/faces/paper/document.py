"""What a sheet consists of, as plain data, and the pieces that papers share. Every text comes ready to read.

Nothing here judges or computes; the only arithmetic is counting. Texts may hold anything a user typed: they are
cleaned when they are drawn (`kitlist.base.clean`), so a builder passes them through as they are.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from kitlist.base.terms import Polarity
from kitlist.faces.paper.charts import Chart, Trend

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

ITEMS_A_SECTION = 9  # ten or more are split by place (CAP 676 style of short groups)
DEFER = "Local codes and licensed practice come first."


class Signal(StrEnum):
    """Signal words, by severity only (ANSI Z535.6). DANGER: death or grave injury unless avoided."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"


class LeadLine(StrEnum):
    """One of the two leads of the arc circuit."""

    HOLDER = "holder"
    WORK = "work"


# ------------------------------------------------------------------ pieces that both papers use


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What stands at the foot of every page and face; the hash is counted from the document itself."""

    printed_on: date
    revision: int = 1
    valid_to: date | None = None  # None: until hardware, rods or rules change


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and its value with its unit: Fact("Coldest night", "-6 °C")."""

    label: str
    value: str
    changed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A boxed warning: what the hazard is, what it does to you, how to avoid it. It stands right before its step."""

    signal: Signal
    hazard: str
    result: str
    avoid: str

    @property
    def sentences(self) -> str:
        """Hazard, result and avoidance as one paragraph, without the signal word."""
        return f"{self.hazard} {self.result} {self.avoid}"


@dataclass(frozen=True, slots=True)
class Box:
    """One battery of the drawing. `number` is what steps may call it by; `detail` is drawn on the sheet only."""

    name: str
    number: str
    detail: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hookup:
    """The drawing. Each string runs from its − end to its + end: the + of each box is linked to the − of the next.

    More than one string means parallel strings, joined at both ends. `opening` is the place that is opened to
    break the circuit ("isolator" or, without one, "far plug"), in the lead named by `opening_in`; "" draws none.
    `numbers_only` leaves the names out of the boxes, to make room. Without a `polarity` the ends do not say which of
    them is the holder's.
    """

    strings: tuple[tuple[Box, ...], ...]
    polarity: Polarity | None
    opening: str = "isolator"
    opening_in: LeadLine = LeadLine.HOLDER
    in_holder: tuple[str, ...] = ()  # what else is in the holder's lead, from the battery on: "fuse", "ballast"
    numbers_only: bool = False

    @property
    def boxes(self) -> tuple[Box, ...]:
        """All batteries, string by string."""
        return tuple(box for string in self.strings for box in string)


@dataclass(frozen=True, slots=True, kw_only=True)
class RodLine:
    """One packed rod against this bank: RodLine(steel="3–5 mm", rod="3.2 mm E6013", amps="80–130 A", verdict="hot")."""

    steel: str
    rod: str
    amps: str
    verdict: str
    asks: str = ""  # what that verdict asks of steel and hand
    changed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RodTable:
    """Rods by steel thickness, with the range of each and what this bank is for it."""

    rows: tuple[RodLine, ...]
    note: str = ""


# ------------------------------------------------------------------ the sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """One thing to tick: a tick means safe and present.

    `see` is the state or value to see ("gauge in green", "2 of 2"), never "OK". `short_by` is printed as a boxed
    bold −N with `gap_word` ("short"); a gap that is no count has `gap_word` alone ("expired"). `number` is what the
    item is called when its answer is typed in from the paper; 0 where it has none.
    """

    what: str
    see: str = ""
    need: str = ""
    have: str = ""
    short_by: int = 0
    gap_word: str = ""
    place: str = ""
    number: int = 0
    first: bool = False  # nobody leaves without it
    stays: bool = False  # as it is, it is left at home: it has no box to tick
    changed: bool = False

    @property
    def left_home(self) -> bool:
        """Whether it is there and stays at home: then it has neither box nor count."""
        return self.stays and not self.short_by

    @property
    def word(self) -> str:
        """What stands beside it on a screen: its gap, and whether it is left at home."""
        return ", ".join(filter(None, (self.gap_word, "leave at home" if self.left_home else "")))


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A block of items under one heading: a bag, the recheck at the door."""

    title: str
    items: tuple[SheetItem, ...]
    note: str = ""

    def parts(self) -> tuple[Section, ...]:
        """This section, or, with ten items or more, several: by place, and a crowded place into even parts.

        >>> crowd = Section(title="Red bag", items=tuple(SheetItem(what=str(n)) for n in range(20)))
        >>> [(part.title, len(part.items)) for part in crowd.parts()]
        [('Red bag, part 1 of 3', 7), ('Red bag, part 2 of 3', 7), ('Red bag, part 3 of 3', 6)]
        """
        if len(self.items) <= ITEMS_A_SECTION:
            return (self,)
        return tuple(self._by_place())

    def _by_place(self) -> Iterator[Section]:
        places: dict[str, list[SheetItem]] = {}
        for item in self.items:
            places.setdefault(item.place, []).append(item)
        note = self.note
        for place, items in places.items():
            title = f"{self.title}: {place}" if place else self.title
            count = -(-len(items) // ITEMS_A_SECTION)
            size, rest = divmod(len(items), count)
            start = 0
            for number in range(count):
                end = start + size + (1 if number < rest else 0)
                heading = f"{title}, part {number + 1} of {count}" if count > 1 else title
                yield Section(title=heading, items=tuple(items[start:end]), note=note)
                start, note = end, ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictBox:
    """The first thing read: the word, how many gaps of each severity, the first reasons (three are shown)."""

    word: str
    counts: tuple[Fact, ...] = ()  # Fact("stop", "2")
    reasons: tuple[str, ...] = ()
    meaning: str = ""  # one line: what the word asks of the crew
    changed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GapLine:
    """A gap: what is wrong with value and limit, and what to do. An accepted one says who, why and until when."""

    severity: str
    what: str
    do: str
    accepted: str = ""
    changed: bool = False


@dataclass(frozen=True, slots=True)
class BatteryLine:
    """One battery of the bank as a row under the panel's headings, with its volts over time where there are some."""

    cells: tuple[str, ...]
    trend: Trend | None = None
    changed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DayLine:
    """What is to be done by a day; `late` is past it."""

    day: str
    what: str
    late: bool = False
    changed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BankPanel:
    """The chosen bank, or in `none_because` why there is none."""

    title: str
    hookup: Hookup | None = None
    facts: tuple[Fact, ...] = ()
    batteries: tuple[BatteryLine, ...] = ()
    battery_headings: tuple[str, ...] = ()
    joins: tuple[SheetItem, ...] = ()  # each connection of the circuit and the leads that make it; no boxes to tick
    count_note: str = ""  # what the count of rods is for, where the card's table counts otherwise
    rods: RodTable | None = None
    chart: Chart | None = None
    cautions: tuple[Caution, ...] = ()
    remarks: tuple[str, ...] = ()  # warnings of the planner, assumptions
    none_because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The readiness sheet: pack from the bags, then check."""

    kit: str
    trip: str
    verdict: VerdictBox
    marks: Marks
    facts: tuple[Fact, ...] = ()
    about: tuple[str, ...] = ()  # the same in a line for the head of side 1
    bank: BankPanel | None = None
    mend: tuple[GapLine, ...] = ()  # every gap once, in one line each and what to do: side 1
    gaps: tuple[GapLine, ...] = ()  # the same in full, for screens and the annex
    accepted: tuple[GapLine, ...] = ()
    days: tuple[DayLine, ...] = ()  # what is left to do, by day
    book: tuple[str, ...] = ()  # the day's book for the annex: what it begins from, then each repair in its turn
    bags: tuple[Section, ...] = ()
    recheck: Section = Section(title="Recheck at the door", items=())
    cautions: tuple[str, ...] = ()  # general cautions: one unboxed block
    thresholds: tuple[str, ...] = ()  # what the owner's rulebook says otherwise than the one that ships
    sources: tuple[str, ...] = ()  # where the figures come from, and what is only common practice
    card_hash: str = ""
    changes_since: str = ""  # "revision 3 of 2026-02-20"; "" hides the explanation of the change bars
    annex: bool = False  # whether all that is not needed to decide or to pack is printed behind both sides
    gone: int = 0  # how many of its lines are not here any more
    untyped: tuple[str, ...] = ()  # words of names that would be printed alike, for want of letters
    defer: str = DEFER
    title: str = "Readiness sheet"

    def sections(self) -> tuple[Section, ...]:
        """Every block of ticks in the order of the sheet."""
        blocks = (*self.bags, self.recheck)
        return tuple(part for block in blocks if block.items for part in block.parts())

    def content_hash(self) -> str:
        """Eight hex digits of what the sheet says, whatever its revision and date."""
        return hash_of(self, "sheet", leave_out=("marks", "changes_since", "gone", "annex", "untyped", "book"))


def hash_of(document: DataclassInstance, kind: str, *, leave_out: tuple[str, ...]) -> str:
    """Eight hex digits of SHA-256 over the document as canonical JSON, without its marks and change bars."""
    fields = {
        field.name: getattr(document, field.name)
        for field in dataclasses.fields(document)
        if field.name not in leave_out
    }
    text = json.dumps(
        {"kind": kind} | {name: plain(value) for name, value in fields.items()},
        sort_keys=True,
        ensure_ascii=False,
        separators=(",", ":"),
    )
    import hashlib  # loads the cryptography of this machine: a screen has no digest

    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def plain(value: object) -> object:
    """JSON's own types, with the kind of each piece and without the change bars."""
    if dataclasses.is_dataclass(value):
        pieces = {
            field.name: plain(getattr(value, field.name))
            for field in dataclasses.fields(value)
            if field.name != "changed"
        }
        return {"is": type(value).__name__} | pieces
    if isinstance(value, tuple):
        return [plain(entry) for entry in value]
    if isinstance(value, date):
        return value.isoformat()
    return value
