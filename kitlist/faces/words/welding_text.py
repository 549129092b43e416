"""A decoded designation, the repairs matrix and a packet's history as lines for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from kitlist.base.measures import counted
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import Steel
from kitlist.welding.designation.designation import Designation
from kitlist.welding.repairs.steel import CADMIUM, cadmium_named, zinc_named
from kitlist.welding.repairs.working_rules import general_rules, rules_of_part, rules_of_steel

if TYPE_CHECKING:
    from kitlist.kit import Repair
    from kitlist.outlook.days_book import DayBook
    from kitlist.outlook.repairs import Cell, RepairOutlook
    from kitlist.welding.repairs.typical import TypicalRepair

_INDENT = "    "


def designation_lines(rod: Designation, *, columns: int, sources: bool) -> Iterator[str]:
    """What a designation says, line by line, with the source of each where asked."""
    yield rod.text
    for fact in rod.facts():
        tail = f" [{fact.source}]" if sources else ""
        yield from textwrap.wrap(f"{fact.label}: {fact.words}{tail}", columns, subsequent_indent=_INDENT)


def polarity_words(rod: Designation, *, holder: str | None, work: str | None, said: str | None) -> str:
    """What the rod needs against how it was wired and what that was called. Raises BadData for a pole that is none."""
    from kitlist.base.errors import BadData
    from kitlist.welding.designation.polarity import check_polarity, of_holder, of_name, of_work

    wired = of_holder(holder) if holder else of_work(work or "")
    if holder and work and of_work(work) is not wired:
        raise BadData(f"holder on {holder} and work clamp on {work}: they cannot both be on one pole")
    return check_polarity(rod, wired, said=of_name(said) if said else None).words


def plain_designation(rod: Designation) -> dict[str, Any]:
    """What a designation says, for a script."""
    return {
        "designation": rod.text,
        "system": str(rod.system),
        "covering": str(rod.covering),
        "positions": [str(p) for p in rod.positions],
        "polarities": [str(p) for p in rod.polarities],
        "low_hydrogen": rod.low_hydrogen,
        "tensile_mpa": rod.strength.tensile_mpa,
        "yield_mpa": rod.strength.yield_mpa,
        "elongation_ratio": rod.strength.elongation_ratio,
        "impact_j": rod.toughness.energy_j,
        "impact_at_c": rod.toughness.at_c,
        "hydrogen_ml_100g": rod.hydrogen_ml_100g,
        "storage": str(rod.storage),
        "facts": [{"label": f.label, "words": f.words, "source": str(f.source)} for f in rod.facts()],
    }


def repair_lines(outlooks: Iterable[RepairOutlook], *, columns: int) -> Iterator[str]:
    """The matrix, repair by repair: its class, the rules of its part and steel, each packed rod with a verdict."""
    welded = False
    for outlook in outlooks:
        repair = outlook.repair
        kind = outlook.repair_class or "not known"
        yield from _wrapped(f"{repair.name}: {kind.upper()}", columns, first="", rest=_INDENT)
        yield from _wrapped(outlook.part.rule if outlook.part else outlook.not_known, columns)
        for words in (*_of_part(outlook), *_of_steel(repair)) if kind != "never" else ():
            yield from _wrapped(words, columns)
        for cell in outlook.cells if kind != "never" else ():
            mark = "take" if cell is outlook.best else "-"
            why = f"{cell.fit.why[0].upper()}{cell.fit.why[1:].rstrip('.')}."
            yield from _wrapped(f"{cell.rod.words}: {cell.fit.suits}. {why}", columns, first=f"  {mark} ")
            yield from _needs(cell, columns)
        if kind != "never" and outlook.best is None:
            yield from _wrapped("No packed rod is for this. Bolt, strap or splint it, or pack another rod.", columns)
        if outlook.typical is not None and kind != "never":
            stock = f" Stock: {', '.join(outlook.typical.stock)}."
            words = f"Prepare: {outlook.typical.preparation}. Do: {outlook.typical.approach}.{stock} (common practice)"
            yield from _wrapped(words, columns)
        yield ""
        welded = welded or kind != "never"
    if welded:
        yield "Every weld:"
        for rule in general_rules():
            yield from _wrapped(f"{rule.words} [{rule.source}]", columns)
        yield ""


def book_lines(book: DayBook, *, columns: int) -> Iterator[str]:
    """The day's book: which repair first, what each leaves, where the reserve is met and what is put back before it."""
    yield from _wrapped(book.words, columns, first="", rest=_INDENT)
    for number, turn in enumerate(book.turns, start=1):
        yield from _wrapped(turn.words, columns, first=f"  {number}. ", rest="     ")
    for words in book.left_out_words:
        yield from _wrapped(words, columns, first="  -  ", rest="     ")


def plain_book(book: DayBook) -> dict[str, Any]:
    """The day's book, for a script."""
    return {
        "spare_ah": book.spare_ah,
        "total_ah": book.total_ah,
        "turns": [
            {
                "repair": turn.line.job.name,
                "rod": turn.rod,
                "rods": turn.line.job.rods,
                "takes_ah": turn.line.job.takes_ah,
                "rods_sure": turn.line.can,
                "rods_short": turn.line.short,
                "left_ah": turn.line.left_ah,
                "put_back_ah": turn.line.put_back_ah,
            }
            for turn in book.turns
        ],
        "left_out": [{"repair": name, "why": why} for name, why in book.left_out],
    }


def _of_part(outlook: RepairOutlook) -> Iterator[str]:
    """What the part asks, whatever its steel and rod: stop holes, distances from edges, where to unload."""
    if outlook.part is not None:
        yield from (f"{rule.words} [{rule.source}]" for rule in rules_of_part(outlook.part.name))


def _of_steel(repair: Repair) -> Iterator[str]:
    """What its steel asks, whatever rod it is; an unknown steel is spoken of by every rod."""
    if cadmium_named(f"{repair.name} {repair.part}"):
        yield f"{CADMIUM[0].upper()}{CADMIUM[1:]}. [{PRACTICE}]"
    zinc = Steel.GALVANISED if zinc_named(f"{repair.name} {repair.part}") else repair.steel
    for steel in dict.fromkeys((repair.steel, zinc)):
        if steel is not Steel.UNKNOWN:
            yield from (f"{rule.words} [{rule.source}]" for rule in rules_of_steel(steel))


def _needs(cell: Cell, columns: int) -> Iterator[str]:
    if cell.needs is None:
        return
    needs = cell.needs
    short = "" if cell.enough else f", {cell.rod.rod.count} packed"
    passes = f"{needs.passes} run{'s' if needs.passes != 1 else ''}, " if needs.passes else ""
    heat = f", {needs.heat_input_kj_per_mm:.1f} kJ/mm" if needs.heat_input_kj_per_mm else ""
    yield from _wrapped(
        f"{passes}pack {counted(needs.rods.to_pack, 'rod')}{short}; {needs.rods.charge_ah.best:.1f} Ah "
        f"({needs.rods.charge_ah.low:.1f} to {needs.rods.charge_ah.high:.1f}){heat}",
        columns,
        first="      ",
        rest="      ",
    )


def plain_repair(outlook: RepairOutlook) -> dict[str, Any]:
    """One row of the matrix, for a script."""
    return {
        "repair": outlook.repair.name,
        "class": None if outlook.repair_class is None else str(outlook.repair_class),
        "rule": outlook.part.rule if outlook.part else outlook.not_known,
        "best_rod": outlook.best.rod.rod.name if outlook.best else None,
        "rods": [
            {
                "rod": cell.rod.rod.name,
                "suits": str(cell.fit.suits),
                "reasons": [reason.words for reason in cell.fit.reasons],
                "rods_needed": cell.needs.rods.to_pack if cell.needs else None,
                "charge_ah": cell.needs.rods.charge_ah.best if cell.needs else None,
                "heat_input_kj_per_mm": cell.needs.heat_input_kj_per_mm if cell.needs else None,
            }
            for cell in outlook.cells
        ],
    }


def typical_lines(repairs: Iterable[TypicalRepair], *, columns: int) -> Iterator[str]:
    """The starter list of typical repairs."""
    for repair in repairs:
        span = ""
        if repair.thickness_from_mm and repair.thickness_to_mm:
            span = f", {repair.thickness_from_mm:g} to {repair.thickness_to_mm:g} mm"
        if repair.rod_from_mm and repair.rod_to_mm:
            sizes = dict.fromkeys((f"{repair.rod_from_mm:g}", f"{repair.rod_to_mm:g}"))
            span += f", rods of {' to '.join(sizes)} mm"
        yield from _wrapped(f"{repair.name}{span}: {repair.part.repair_class}", columns, first="", rest=_INDENT)
    yield from _wrapped("Thicknesses are usual, not measured (common practice): calipers decide.", columns, first="")


def _wrapped(text: str, columns: int, *, first: str = _INDENT, rest: str = _INDENT) -> list[str]:
    return textwrap.wrap(text, columns, initial_indent=first, subsequent_indent=rest)
