"""The glovebox card of one trip: the procedure and the tables of its hardware, laid on faces. It holds no reading."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.terms import Units
from kitlist.faces.paper import called, card_split
from kitlist.faces.paper.build_words import asks, bank_words, in_holder
from kitlist.faces.paper.card_document import (
    Bars,
    Blanks,
    Block,
    Card,
    Face,
    Grid,
    IfThenLine,
    Lines,
    PolarityBanner,
    Step,
)
from kitlist.faces.paper.card_units import in_units
from kitlist.faces.paper.charts import Chart, ChartBar
from kitlist.faces.paper.document import Box, Caution, Hookup, LeadLine, Marks, Signal
from kitlist.kit import Kit, Trip
from kitlist.outlook.card import CardFacts, CardRepair, CardVolts, card_facts
from kitlist.outlook.procedure_terms import Phase, Task, Trouble
from kitlist.outlook.procedure_words import (
    Worded,
    WordedBehind,
    WordedStage,
    WordedStep,
    WordedTrouble,
    WordedWarning,
    worded,
    wording,
)
from kitlist.welding.repairs.parts import RepairClass

TABLES_FACE, WRONG_FACE, HURT_LABEL = 7, 8, "8b"
FACES_A_LEAF = 2
WORDS_LOOKED_UP = 1000  # on a face that nobody reads aloud: its height is what bounds it
BLANKS_MOST = 9  # rules to write on that a face holds
BEHIND_WORDS_MOST = 25  # recorded behind the welds: more of it is looked up beside the repairs, not read aloud


@dataclass(frozen=True, slots=True)
class _Draft:
    """A face before it knows which is next."""

    number: int
    title: str
    when: str
    blocks: tuple[Block, ...]
    label: str = ""  # its own number, where it does not come from its place


def build_card(kit: Kit, trip: Trip, *, on: date, revision: int = 1, units: Units = Units.METRIC) -> Card:
    """The card. Raises PrintError where no bank is chosen, or it may not be linked, or its current is not known."""
    return card_of(card_facts(kit, trip, on=on), on=on, revision=revision, units=units)


def card_of(facts: CardFacts, *, on: date, revision: int = 1, units: Units = Units.METRIC) -> Card:
    """The card of these facts and of nothing else, so that their digest tells whether a printed one still holds."""
    drawing = hookup_of(facts)
    *stages, wrong = worded(facts.procedure, called=called.names_for(facts))
    drafts: list[_Draft] = []
    for number, stage in enumerate(stages, start=1):
        drafts += _of_stage(number, stage, facts, drawing, units)
        if stage.phase is Phase.ARC:
            blocks = (*_rods(facts, stage), *_troubles(wrong, lambda trouble: trouble.is_of_the_weld))
            title = wording()["card"]["rods_title"]
            drafts += [_Draft(number, title, stage.when, part) for part in _looked_up(blocks, units)]
    drafts += _tables(facts, units)
    last = tuple(_wrong(wrong, units))
    if (len(drafts) + len(last)) % FACES_A_LEAF:
        drafts.append(_notes(facts))
    return Card(
        kit=facts.crew,
        bank=bank_words(facts.strings),
        faces=tuple(_numbered([*drafts, *last])),
        marks=Marks(printed_on=on, revision=revision),
        untyped=called.untyped(facts),
    )


def hookup_of(facts: CardFacts) -> Hookup:
    """The drawing of the bank in linking order: each battery by number and name, its vehicle below."""
    steps = facts.procedure
    drawing = Hookup(
        strings=tuple(tuple(Box(b.name, str(b.number), b.vehicle) for b in string) for string in steps.strings),
        polarity=steps.polarity,
        opening=steps.opening,
        opening_in=LeadLine.WORK if steps.opens_in_work else LeadLine.HOLDER,
        in_holder=in_holder(steps),
    )
    room = called.box_room(drawing)
    short = called.told_apart([box.name for box in drawing.boxes], room)
    vehicles = [box.detail for box in drawing.boxes if box.detail]
    below = called.told_apart(vehicles, replace(room, bold=False, lines=1))
    loose = wording()["card"]["loose"]
    strings = tuple(
        tuple(Box(short[box.name], box.number, below.get(box.detail, loose)) for box in string)
        for string in drawing.strings
    )
    return replace(drawing, strings=strings)


def _of_stage(number: int, stage: WordedStage, facts: CardFacts, drawing: Hookup, units: Units) -> Iterator[_Draft]:
    """The faces of one phase."""
    blocks = [in_units(block, units) for block in _blocks(stage.entries, facts)]
    if stage.phase is Phase.LINK:
        blocks.insert(0, drawing)
    spoken = len(f"{stage.title} {stage.when}".split())
    for part in card_split.parted(blocks, spoken=spoken):
        yield _Draft(number, stage.title, stage.when, part)


def _troubles(stage: WordedStage, which: Callable[[Trouble], bool]) -> Iterator[IfThenLine]:
    for entry in stage.entries:
        if isinstance(entry, WordedTrouble) and which(entry.trouble):
            yield IfThenLine(entry.trigger, entry.then)


def _wrong(stage: WordedStage, units: Units) -> Iterator[_Draft]:
    """The last leaf: who is hurt on its inner side, and what cannot wait on the back cover."""
    words = wording()["card"]
    hurt = tuple(in_units(line, units) for line in _troubles(stage, lambda trouble: trouble.is_first_aid))
    rest = tuple(_troubles(stage, lambda trouble: not trouble.is_first_aid and not trouble.is_of_the_weld))
    yield _Draft(WRONG_FACE, words["hurt"], words["hurt_when"], hurt, label=HURT_LABEL)
    where = Lines(words["hurt_at"], (words["hurt_see"].format(number=HURT_LABEL),))
    cover: tuple[Block, ...] = (*rest, where)
    blocks = tuple(in_units(block, units) for block in cover)
    yield _Draft(WRONG_FACE, stage.title, stage.when, blocks, label=str(WRONG_FACE))


def _blocks(entries: Sequence[Worded], facts: CardFacts) -> Iterator[Block]:
    behind = [f"{entry.repair}: {entry.behind}" for entry in entries if isinstance(entry, WordedBehind)]
    recorded = f"{'; '.join(behind)}."
    if len(recorded.split()) > BEHIND_WORDS_MOST:
        recorded = wording()["behind"]["elsewhere"].format(number=TABLES_FACE)
    for entry in entries:
        match entry:
            case WordedStep(do=Task.REST):
                pass  # beside the rods, where a rod has just burned
            case WordedStep(do=Task.POLARITY):
                if facts.procedure.polarity:
                    yield PolarityBanner(facts.procedure.polarity)
            case WordedStep():
                yield Step(entry.text, see=entry.see)
                if entry.note:
                    yield Lines("", (entry.note,))
            case WordedWarning():
                signal = Signal(entry.signal)
                yield Caution(signal=signal, hazard=entry.hazard, result=entry.result, avoid=entry.avoid)
            case WordedBehind() if behind:  # all of them in one paragraph, where the first stands
                yield Lines(wording()["behind"]["title"], (recorded,))
                behind = []


def _rods(facts: CardFacts, stage: WordedStage) -> Iterator[Block]:
    """Each kind of rod, what this bank is for it, and what that asks of steel and hand."""
    words = [wording()["fit"][str(rod.fit) if rod.fit else "unknown"] for rod in facts.rods]
    yield Grid(
        title="",
        headings=("Rod", "This bank"),
        rows=tuple((rod.words, said["says"]) for rod, said in zip(facts.rods, words, strict=True)),
        notes=tuple(asks(rod.fit, rod.steel_mm) for rod in facts.rods),
    )
    stop = wording()["card"]["stop"].format(stop_v=f"{facts.procedure.stop_v:g}")
    yield Lines(wording()["card"]["stop_title"], (stop,))
    for step in stage.steps:
        if step.do is Task.REST:
            yield Lines(wording()["card"]["rest_title"], (f"{step.text[:1].lower()}{step.text[1:]}.",))


def _tables(facts: CardFacts, units: Units) -> Iterator[_Draft]:
    """What is looked up: the bank's current against each rod's range, and the trip's repairs."""
    words = wording()["card"]
    blocks: list[Block] = []
    if drawn := _chart(facts):
        blocks.append(Bars(drawn))
    for volts in facts.volts:
        blocks.append(_by_volts(facts, volts))
        blocks.append(Lines("", (words["volts_note"],)))
    if not facts.volts:
        none = words["volts_none"].format(stop_v=f"{facts.procedure.stop_v:g}")
        blocks.append(Lines(words["volts_none_title"], (none,)))
    blocks += _repairs(facts)
    for part in _looked_up(blocks, units):
        yield _Draft(TABLES_FACE, words["tables"], words["tables_when"], part)


def _repairs(facts: CardFacts) -> Iterator[Grid]:
    """A table for each class, best first: rod, runs, rods, and below what to heed, prepare, bring and look for."""
    names = called.names_for(facts)
    for repair_class in (*RepairClass, None):
        found = tuple(repair for repair in facts.repairs if repair.repair_class is repair_class)
        if found:
            yield Grid(
                title=wording()["card"]["repairs"][repair_class or "unknown"],
                headings=("Repair", "Rod", "Runs", "Rods"),
                rows=tuple((names[r.name], _with_rod(r), _count(r.runs), _count(r.rods)) for r in found),
                notes=tuple(" ".join(_about(repair)) for repair in found),
            )


def _about(repair: CardRepair) -> Iterator[str]:
    words = wording()["card"]
    yield repair.rule
    if repair.prepare:
        yield words["prepare"].format(text=repair.prepare)
    if repair.stock:
        yield words["stock"].format(text=", ".join(repair.stock))
    if repair.repair_class is not RepairClass.NEVER:
        yield words["behind"].format(text=repair.behind or wording()["behind"]["unasked"])


def _by_volts(facts: CardFacts, volts: CardVolts) -> Grid:
    """The sure rods at each reading, a column for each battery by its number."""
    numbers = tuple(str(battery.number) for battery in facts.procedure.bank)
    return Grid(
        title=str(wording()["card"]["volts_title"]).format(rods=", ".join(volts.rods)),
        headings=(wording()["card"]["volts"], *numbers),
        rows=tuple((f"{row:.2f} V", *(str(count) for count in counts)) for row, counts in volts.rows),
        numbers=True,
    )


def _looked_up(blocks: Sequence[Block], units: Units) -> Iterator[tuple[Block, ...]]:
    """Blocks that are looked up and not read aloud, on as few faces as hold them; a table parts between its rows."""
    split = [part for block in blocks for part in _short_grids(in_units(block, units))]
    for part in card_split.parted(split, high_most_mm=card_split.LIVE_HIGH_MM, words_most=WORDS_LOOKED_UP):
        yield tuple(_rejoined(part))


def _short_grids(block: Block) -> Iterator[Block]:
    """A table as tables of one row, so that they part between rows; each keeps the title that its table has."""
    if not isinstance(block, Grid) or len(block.rows) < 2:
        yield block
        return
    for place, row in enumerate(block.rows):
        first = place == 0
        notes = block.notes[place : place + 1]
        yield replace(block, rows=(row,), notes=notes, headed=first)


def _rejoined(blocks: Sequence[Block]) -> Iterator[Block]:
    """The rows of one table that came to stand on one face, as one table again, under title and headings there too."""
    rows: list[Grid] = []
    for block in (*blocks, None):
        if rows and not (isinstance(block, Grid) and not block.headed):
            first = rows[0]
            yield replace(
                first,
                rows=tuple(row for grid in rows for row in grid.rows),
                notes=tuple(note for grid in rows for note in grid.notes),
                headed=True,
            )
            rows = []
        if isinstance(block, Grid):
            rows.append(block)
        elif block is not None:
            yield block


def _with_rod(repair: CardRepair) -> str:
    if repair.repair_class is RepairClass.NEVER:
        return str(wording()["behind"]["never"])
    return repair.rod or str(wording()["card"]["no_rod"])


def _count(number: int | None) -> str:
    return "" if number is None else str(number)


def _chart(facts: CardFacts) -> Chart | None:
    ranges = [(rod.words, rod.range_a) for rod in facts.rods if rod.range_a]
    bands = [rod.band_a for rod in facts.rods if rod.band_a]
    if not ranges or not bands:
        return None
    low_a, middle_a, high_a = (float(round(value)) for value in bands[0])
    return Chart(
        title=wording()["card"]["current_title"],
        summary=f"{low_a:.0f} to {high_a:.0f} A, most likely {middle_a:.0f}; {_in_words(ranges)}",
        banks=(ChartBar(label="This bank", low_a=low_a, best_a=middle_a, high_a=high_a, chosen=True),),
        rods=tuple(ChartBar(label=words, low_a=low, high_a=high) for words, (low, high) in ranges),
    )


def _in_words(ranges: Sequence[tuple[str, tuple[float, float]]]) -> str:
    return "; ".join(f"{words} {low:.0f} to {high:.0f} A" for words, (low, high) in ranges) + "."


def _notes(facts: CardFacts) -> _Draft:
    """A face to write on, where the number of faces would else be odd: a leaf has two."""
    words = wording()["card"]
    batteries = (words["notes_battery"].format(number=battery.number) for battery in facts.procedure.bank)
    blanks = (*words["notes_first"], *batteries, *words["notes_last"])
    return _Draft(TABLES_FACE, words["notes"], words["notes_when"], (Blanks(blanks[:BLANKS_MOST]),))


def _numbered(drafts: Sequence[_Draft]) -> Iterator[Face]:
    """The faces with their numbers (1, 1b, 2 ...), and at the foot of each which one is next."""
    numbers = []
    for place, draft in enumerate(drafts):
        later = sum(1 for other in drafts[:place] if other.number == draft.number)
        numbers.append(draft.label or f"{draft.number}{'' if not later else 'bcdefghijkl'[later - 1]}")
    words = wording()["card"]
    steps = [sum(isinstance(block, Step) for block in draft.blocks) for draft in drafts]
    firsts = _first_steps(list(zip(numbers, steps, strict=True)))
    for place, (draft, number) in enumerate(zip(drafts, numbers, strict=True)):
        last = place + 1 == len(drafts)
        after = drafts[0] if last else drafts[place + 1]
        target = numbers[0] if last else numbers[place + 1]
        yield Face(
            number=number,
            title=draft.title,
            when=draft.when if number.isdigit() or draft.label else words["goes_on"].format(number=numbers[place - 1]),
            blocks=draft.blocks,
            next=words["last" if last else "next"].format(number=target, title=after.title),
            wrong="" if last else words["wrong"].format(number=numbers[-1]),
            first_step=firsts[place],
            back_cover=last,
        )


def _first_steps(faces: Sequence[tuple[str, int]]) -> list[int]:
    """For each face, given its number and how many steps it has: the number of its first step.

    >>> _first_steps([("1", 6), ("1b", 5), ("2", 8)])
    [1, 7, 1]
    """
    found: list[int] = []
    for number, _ in faces:
        going_on = bool(found) and not number.isdigit()
        found.append(found[-1] + faces[len(found) - 1][1] if going_on else 1)
    return found
