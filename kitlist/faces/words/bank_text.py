"""The planner's answer, the charge plan and practice welds as lines for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from kitlist.base.measures import counted
from kitlist.base.sources import row_source, sources_of, table
from kitlist.faces.words.summary import stops_in_short
from kitlist.outlook.beads import BeadOutlook
from kitlist.outlook.charging import ChargeLine, ChargePlan
from kitlist.outlook.options.advice import why_lost
from kitlist.outlook.options.plan import BankPlan, is_chosen
from kitlist.outlook.options.planner import Option
from kitlist.outlook.procedure import Procedure
from kitlist.outlook.procedure_words import (
    Worded,
    WordedBehind,
    WordedStep,
    WordedTrouble,
    WordedWarning,
    always,
    why_barred,
    worded,
)
from kitlist.readiness import Readiness

_INDENT = "    "


def plan_lines(answer: BankPlan, *, columns: int) -> Iterator[str]:
    """The best few banks, why each is behind the first, who was refused, what else is out, what would help."""
    if answer.plan is None:
        yield f"No bank can be looked for; not known: {', '.join(answer.not_known)}."
        yield from _refused(answer, columns)
        return
    if not answer.plan.feasible:
        yield "No bank of these batteries serves:"
    for number, option in enumerate(answer.plan.options, start=1):
        yield from _option(number, option, columns, chosen=is_chosen(option, answer.trip))
        if number > 1:
            yield from _wrapped(f"behind 1: {why_lost(option, answer.plan.options[0])}", columns)
    yield from _refused(answer, columns)
    for missed in answer.plan.missed:
        names = [name for string in missed.nearest for name in string]
        nearest = f"; nearest {' | '.join(' → '.join(string) for string in missed.nearest)}"
        if len(set(names)) < len(names):
            nearest = ""  # a group ruled out by its bound before anybody looked which batteries it would take
        yield from _wrapped(f"out: {missed.count} more, {missed.why}{nearest}", columns, first="", rest=_INDENT)
    yield from _chosen(answer, columns)
    if answer.changes:
        yield "What one change would do:"
    for change in answer.changes[:4]:
        words = f"{change.words}: {change.option.fit} with {change.option.rod}, {counted(change.option.rods, 'rod')}"
        yield from _wrapped(words, columns, first="  - ", rest=_INDENT)


def _chosen(answer: BankPlan, columns: int) -> Iterator[str]:
    """What the chosen bank's arc and its band hang on."""
    bank = answer.outlook.bank
    if bank is None or bank.longest_mm is None:
        return
    yield from _wrapped(
        f"chosen: holds an arc of {bank.longest_mm:.0f} mm at the most", columns, first="", rest=_INDENT
    )
    band = bank.band(None)
    for unknown in band.matter_most if band is not None else ():
        yield from _wrapped(
            f"matters most: {unknown}; to narrow it, {unknown.measure}", columns, first="", rest=_INDENT
        )


def _option(number: int, option: Option, columns: int, *, chosen: bool) -> Iterator[str]:
    order = " | ".join(" → ".join(string) for string in option.strings)
    yield from _wrapped(f"{order}{'  (chosen)' if chosen else ''}", columns, first=f"{number}.  ")
    shares = (
        f", strings share {' and '.join(f'{s * 100:.0f} %' for s in option.shares)}" if len(option.shares) > 1 else ""
    )
    yield from _wrapped(
        f"{option.ocv_v:.1f} V at rest; {option.low_a:.0f} to {option.high_a:.0f} A, likely {option.middle_a:.0f}; "
        f"{option.fit} with {option.rod}; {counted(option.rods, 'rod')} to the reserve; "
        f"{counted(option.links, 'link')}{shares}",
        columns,
    )
    for warning in option.warnings:
        yield from _wrapped(f"warning: {warning}", columns)


def _refused(answer: BankPlan, columns: int) -> Iterator[str]:
    for entry in answer.refused:
        yield from _wrapped(f"refused: {entry.name}, {entry.why}", columns, first="", rest=_INDENT)


def before_linking(answer: BankPlan, readiness: Readiness, *, columns: int) -> Iterator[str]:
    """Why the chosen bank is not to be linked as it stands; nothing where it may be."""
    why = ""
    if stops := stops_in_short(readiness):
        why = f"Do not link it: {stops}. kitlist ready says what to do."
    elif answer.plan is None or not answer.plan.feasible:
        why = "Do not link it: no bank of these batteries serves."
    if why:
        yield from _wrapped(f"{why} For when that is mended:", columns, first="", rest="")


def procedure_lines(procedure: Procedure, *, columns: int) -> Iterator[str]:
    """Every step with this bank, phase by phase, as the card has them, with more said at each."""
    for why, cure in why_barred(procedure):
        yield from _wrapped(f"Do not link it: {why}. {cure}", columns, first="", rest=_INDENT)
    if procedure.barred:
        return
    yield from _wrapped(always(), columns, first="", rest="")
    for stage in worded(procedure):
        yield from _wrapped(f"{stage.title}. {stage.when}:", columns, first="", rest=_INDENT)
        number = 0
        for entry in stage.entries:
            number += isinstance(entry, WordedStep)
            first = f"{number:2}. " if isinstance(entry, WordedStep) else _INDENT
            yield from _wrapped(_entry_words(entry), columns, first=first)


def _entry_words(entry: Worded) -> str:
    match entry:
        case WordedStep():
            step = f"{entry.text}: {entry.see}." if entry.see else f"{entry.text}."
            return " ".join(filter(None, (step, entry.note, entry.more)))
        case WordedWarning():
            return f"{entry.signal}: {entry.hazard} {entry.result} {entry.avoid}"
        case WordedTrouble():
            return f"{entry.trigger}: {entry.then}"
        case WordedBehind():
            return f"{entry.repair}: {entry.behind}."


def charge_lines(plan: ChargePlan, *, columns: int) -> Iterator[str]:
    """Which batteries to charge, by when, how long to rest, when to read."""
    for line in plan.lines:
        yield from _wrapped(f"{line.name}: {_charge(line)}", columns, first="", rest=_INDENT)
    yield from _wrapped(
        f"Charge by {plan.charge_by}, rest {plan.rest_h:g} h or more with nothing connected, read on {plan.read_on}: "
        f"the reading that counts; {plan.rest.worth}."
        if plan.rest_h
        else f"Charge now, unlinked, and read on {plan.read_on}: {plan.rest.worth}.",
        columns,
        first="",
        rest="",
    )
    for caution in plan.cautions:
        yield from _wrapped(caution, columns, first="", rest="")


def _charge(line: ChargeLine) -> str:
    at = "charge not known" if line.soc_ratio is None else f"{line.soc_ratio * 100:.0f} % at departure"
    back = "" if line.back_ah is None else f", about {line.back_ah:.0f} Ah to put back"
    most = "" if line.most_v is None else f" At most {line.most_v:g} V"
    amps = "" if not most or line.most_a is None else f" and {line.most_a:.0f} A"
    return f"{line.do} ({at}{back}). {line.why}{f'{most}{amps}.' if most else ''}"


def _wrapped(text: str, columns: int, *, first: str = _INDENT, rest: str = _INDENT) -> list[str]:
    return textwrap.wrap(text, columns, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)


def source_lines(*, columns: int) -> Iterator[str]:
    """Every figure, formula and table row that the computation stands on, and where it comes from."""
    from kitlist.faces.words.provenance import FIGURES, FORMULAS, TABLES

    yield "Figures, their ranges and sources:"
    for figure in FIGURES:
        span = "" if figure.low is None or figure.high is None else f" ({figure.low:g} to {figure.high:g})"
        text = f"{figure.name}: {figure.value:g}{span} {figure.unit}. {figure.source}"
        yield from _wrapped(text, columns, first="- ", rest="  ")
    yield "Formulas and their sources:"
    for formula in FORMULAS:
        title = (formula.__doc__ or "").strip().partition("\n")[0].rstrip(".:")
        told = "; ".join(str(source) for source in sources_of(formula))
        yield from _wrapped(f"{title}. {told}", columns, first="- ", rest="  ")
    yield "Tables, row by row:"
    for name in TABLES:
        rows = dict.fromkeys(str(row_source(row)) for row in table(name))
        yield from _wrapped(f"{name.replace('_', ' ')}: {'; '.join(rows)}", columns, first="- ", rest="  ")


def bead_lines(outlooks: Iterable[BeadOutlook], *, columns: int) -> Iterator[str]:
    """Practice welds, foretold against measured."""
    for outlook in outlooks:
        bead, result, band = outlook.bead, outlook.result, outlook.foretold
        yield from _wrapped(f"{bead.name}, {bead.welded_on}: {' → '.join(bead.bank)}", columns, first="", rest=_INDENT)
        foretold = "the band could not be foretold"
        if band is not None:
            foretold = f"foretold {band.low_a:.0f} to {band.high_a:.0f} A, likely {band.middle_a:.0f}"
        where = {True: "inside the band", False: "OUTSIDE the band", None: "not compared"}[outlook.inside]
        yield from _wrapped(f"measured {bead.current_a:.0f} A, {foretold}: {where}", columns)
        learned = f"bank {result.source_ohm * 1000:.1f} mΩ"
        if result.external_ohm is not None and result.arc_level_v is not None:
            learned += f", leads {result.external_ohm * 1000:.1f} mΩ, arc {result.arc_level_v:.1f} V before current"
        yield from _wrapped(learned, columns)
