"""The planner's answer, the charge plan and practice welds as lines for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from kitlist.base.measures import counted
from kitlist.base.names import quoted
from kitlist.base.sources import row_source, sources_of, table
from kitlist.faces.words.summary import stops_in_short
from kitlist.outlook import Outlook
from kitlist.outlook.beads import BeadOutlook
from kitlist.outlook.charging import ChargeLine, ChargePlan
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options.offer import Offer, why_behind
from kitlist.outlook.options.plan import BankPlan, is_chosen
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
from kitlist.outlook.shaping import ShapedWay
from kitlist.physics.bank.band import Band
from kitlist.readiness import Readiness

if TYPE_CHECKING:
    from kitlist.faces.words.provenance import Provenance

_INDENT = "    "


def plan_lines(answer: BankPlan, *, outlook: Outlook, columns: int) -> Iterator[str]:
    """The best few banks, why each is behind the first, who was refused, what else is out, what would help."""
    if not answer.begun:
        yield f"No bank can be looked for; not known: {', '.join(answer.not_known)}."
        yield from _refused(answer, columns)
        return
    if not answer.offers:
        yield "No bank of these batteries serves:"
    for number, offer in enumerate(answer.offers, start=1):
        yield from _offer(number, offer, columns, chosen=is_chosen(offer, answer.trip))
        if number > 1:
            yield from _wrapped(f"behind 1: {why_behind(offer, answer.offers[0])}", columns)
    yield from _refused(answer, columns)
    for missed in answer.missed:
        names = [name for string in missed.nearest for name in string]
        nearest = f"; nearest {' | '.join(' → '.join(string) for string in missed.nearest)}"
        if not names or len(set(names)) < len(names):
            nearest = ""  # a group ruled out by its bound before anybody looked which batteries it would take
        yield from _wrapped(f"out: {missed.count} more, {missed.why}{nearest}", columns, first="", rest=_INDENT)
    if any(missed.why is Lost.WET_NOT_SAID for missed in answer.missed):
        wet = f"Write down whether the welding may be wet: kitlist trip edit {quoted(answer.trip.name)} wet=ANSWER"
        yield from _wrapped(wet, columns, first="", rest=_INDENT)
    yield from _chosen(outlook, columns)
    if answer.changes:
        yield "What one change would do:"
    for found in answer.changes:
        offer = found.offer
        test = f"; load-test {', '.join(offer.flat)} first" if offer.flat else ""
        words = f"{found.change.words}; then {offer.words}: {fit_words(offer)}, {offer.best.rods_words}{test}"
        yield from _wrapped(words, columns, first="  - ", rest=_INDENT)


def way_lines(ways: Mapping[str, Sequence[ShapedWay]], *, columns: int) -> Iterator[str]:
    """For each repair that has no rod in range as things are: the few best ways to one, with what each costs."""
    if ways:
        yield "A rod in range for each repair:"
    for name, few in ways.items():
        yield from _wrapped(name, columns, first="  ", rest=_INDENT)
        for way in few:
            yield from _wrapped(way.words, columns, first="  - ", rest=_INDENT)


def _chosen(outlook: Outlook, columns: int) -> Iterator[str]:
    """What the chosen bank's arc and its band hang on."""
    bank = outlook.bank
    if bank is None or bank.holds_mm is None:
        return
    yield from _wrapped(f"chosen: holds an arc of {bank.holds_mm:g} mm at the most", columns, first="", rest=_INDENT)
    if bank.ballast is not None:
        words = f"ballast: {bank.ballast.words}; on bare earth, live, hands off for 10 min after"
        yield from _wrapped(words, columns, first="", rest=_INDENT)
    band = bank.band(None)
    for unknown in band.matter_most if band is not None else ():
        yield from _wrapped(
            f"matters most: {unknown}; to narrow it, {unknown.measure}", columns, first="", rest=_INDENT
        )


def _offer(number: int, offer: Offer, columns: int, *, chosen: bool) -> Iterator[str]:
    yield from _wrapped(f"{offer.words}{'  (chosen)' if chosen else ''}", columns, first=f"{number}.  ")
    shares = (
        f", strings share {' and '.join(f'{s * 100:.0f} %' for s in offer.shares)}" if len(offer.shares) > 1 else ""
    )
    yield from _wrapped(
        f"{offer.rested_v:.1f} V at rest; {band_words(offer.band)}; {fit_words(offer)}; "
        f"{offer.best.rods_words}; {counted(offer.option.links, 'link')}{shares}",
        columns,
    )
    for lent in offer.parted:
        yield from _wrapped(f"warning: {lent}; both or neither", columns)
    for name in offer.flat:
        yield from _wrapped(f"warning: {name} was flat, and stays out of the bank until it is load-tested", columns)
    for warning in offer.option.warnings:
        yield from _wrapped(f"warning: {warning}", columns)


def fit_words(offer: Offer) -> str:
    """How a bank runs the rod that it suits best, and how long an arc it lets be held where that is short."""
    arc = "" if offer.short_mm is None else f", short arc only, up to {offer.short_mm:g} mm"
    return f"{offer.fit} with {offer.best.words}{arc}"


def band_words(band: Band) -> str:
    """A band as every face says it: 158 to 252 A, likely 201."""
    return f"{band.low_a:.0f} to {band.high_a:.0f} A, likely {band.middle_a:.0f}"


def _refused(answer: BankPlan, columns: int) -> Iterator[str]:
    for entry in answer.refused:
        yield from _wrapped(f"refused: {entry.name}, {entry.why}", columns, first="", rest=_INDENT)


def before_linking(readiness: Readiness, *, columns: int) -> Iterator[str]:
    """Why the chosen bank is not to be linked as it stands; nothing where it may be."""
    if stops := stops_in_short(readiness.stops):
        why = f"Do not link it: {stops}. kitlist ready says what to do. For when that is mended:"
        yield from _wrapped(why, columns, first="", rest="")


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


def source_lines(stands_on: Provenance, *, columns: int) -> Iterator[str]:
    """Every figure, formula and table row that an answer stands on, and where it comes from."""
    yield "Figures, their ranges and sources:"
    for figure in stands_on.figures:
        span = "" if figure.low is None or figure.high is None else f" ({figure.low:g} to {figure.high:g})"
        text = f"{figure.name}: {figure.value:g}{span} {figure.unit}. {figure.source}"
        yield from _wrapped(text, columns, first="- ", rest="  ")
    yield "Formulas and their sources:"
    for formula in stands_on.formulas:
        title = (formula.__doc__ or "").strip().partition("\n")[0].rstrip(".:")
        sources = "; ".join(str(source) for source in sources_of(formula))
        yield from _wrapped(f"{title}. {sources}", columns, first="- ", rest="  ")
    yield "Tables, row by row:"
    for name in stands_on.tables:
        rows = dict.fromkeys(str(row_source(row)) for row in table(name))
        yield from _wrapped(f"{name.replace('_', ' ')}: {'; '.join(rows)}", columns, first="- ", rest="  ")


def bead_lines(outlooks: Iterable[BeadOutlook], *, columns: int) -> Iterator[str]:
    """Practice welds, predicted against measured."""
    for outlook in outlooks:
        bead, result, band = outlook.bead, outlook.result, outlook.predicted
        yield from _wrapped(f"{bead.name}, {bead.welded_on}: {' → '.join(bead.bank)}", columns, first="", rest=_INDENT)
        predicted = "the band could not be predicted"
        if band is not None:
            predicted = f"predicted {band.low_a:.0f} to {band.high_a:.0f} A, likely {band.middle_a:.0f}"
        where = {True: "inside the band", False: "OUTSIDE the band", None: "not compared"}[outlook.inside]
        yield from _wrapped(f"measured {bead.current_a:.0f} A, {predicted}: {where}", columns)
        learned = f"bank {result.source_ohm * 1000:.1f} mΩ"
        if result.external_ohm is not None and result.arc_level_v is not None:
            leads = "leads and strip" if bead.ballast else "leads"
            learned += f", {leads} {result.external_ohm * 1000:.1f} mΩ, arc {result.arc_level_v:.1f} V before current"
        yield from _wrapped(learned, columns)
