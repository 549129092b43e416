"""One rod for one repair: right, low end, too thick, wrong position, wrong steel, ... each with its reason."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from kitlist.base.errors import NotFound, OutOfRange
from kitlist.base.sources import PRACTICE, Source, sourced
from kitlist.base.terms import Polarity, Position
from kitlist.physics.bank.verdict import Fit, top_ratio
from kitlist.welding.designation.designation import POSITION_WORDS, Designation
from kitlist.welding.designation.polarity import Wired, check_polarity
from kitlist.welding.repairs.joints import passes
from kitlist.welding.repairs.parts import RepairClass, allowed, part
from kitlist.welding.repairs.plate import Size, fit_diameter, steel_when_hot
from kitlist.welding.repairs.steel import steel_suits
from kitlist.welding.repairs.typical import Job, weld_metal
from kitlist.welding.rods.currents import (
    MACHINERYS,
    THIN_MM,
    CurrentChoice,
    CurrentRange,
    choose_current,
    current_range,
)
from kitlist.welding.rods.storage import Fitness, PacketVerdict


class Suits(StrEnum):
    """How a rod suits a repair, best first. From `TOO_HOT` on the rod is not to be used for it."""

    RIGHT = "right"
    LOW_END = "right, low end of its range"
    ONLY_JUST = "only just"
    HOT = "hot"
    TOO_THIN = "rod too thin"
    TOO_HOT = "too hot"
    COLD = "too cold"
    TOO_THICK = "rod too thick"
    STEEL_TOO_THIN = "steel too thin"
    NOT_KNOWN = "not known"
    NOT_DRY = "not dry"
    WRONG_POLARITY = "wrong polarity"
    WRONG_POSITION = "wrong position"
    WRONG_STEEL = "wrong steel"
    NO_ARC = "no arc"
    NEVER = "never"

    @property
    def rank(self) -> int:
        """0 is best."""
        return tuple(Suits).index(self)

    @property
    def usable(self) -> bool:
        """The rod may be used for the repair, with what its reasons say."""
        return self.rank <= Suits.TOO_THIN.rank


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that speaks for or against."""

    suits: Suits
    words: str
    source: Source


@dataclass(frozen=True, slots=True)
class RodFit:
    """The worst of the reasons is the verdict; `reasons` has it first. `passes` None: not known."""

    suits: Suits
    reasons: tuple[Reason, ...]
    current: CurrentChoice | None
    passes: int | None
    repair_class: RepairClass | None

    @property
    def why(self) -> str:
        """The reason behind the verdict."""
        return self.reasons[0].words


@sourced(MACHINERYS, PRACTICE)
def fit(
    job: Job,
    rod: Designation,
    *,
    rod_mm: float,
    packet: PacketVerdict | None = None,
    wired: Polarity | None = None,
    packet_range_a: tuple[float, float] | None = None,
) -> RodFit:
    """How one rod suits one repair: part, steel, thickness, position, polarity, dryness, in one verdict with reasons.

    `packet_range_a` is the range printed on the packet, where no source has the rod. The bank comes after, with
    `with_bank`. Whatever is not known is a reason of its own.

    >>> from kitlist.base.terms import Steel
    >>> from kitlist.welding.designation.designations import decode
    >>> hanger = Job(part="spring hanger", steel=Steel.MILD, thickness_mm=5.0)
    >>> fit(hanger, decode("E6013"), rod_mm=3.2).suits.value, fit(hanger, decode("E6013"), rod_mm=4.0).suits.value
    ('right', 'only just')
    """
    found: list[Reason] = []
    repair_class = _judge_part(job, found)
    if repair_class is RepairClass.NEVER:
        return RodFit(Suits.NEVER, tuple(found), None, None, repair_class)
    if steel := steel_suits(rod, job.steel, load_bearing=job.load_bearing):
        found.append(Reason(Suits(steel.suits), steel.words, steel.source))
    _judge_size(job, rod_mm, found)
    _judge_position(job, rod, rod_mm, found)
    _judge_dryness(packet, found)
    if wired is not None:
        _judge_polarity(rod, wired, job.position, found)
    current = _judge_current(job, rod, rod_mm, packet_range_a, found)
    return RodFit(_verdict(found), _sorted(found), current, _passes(job, rod_mm), repair_class)


def with_bank(result: RodFit, fit: Fit, *, job: Job, rod_mm: float, likely_a: float, top_a: float) -> RodFit:
    """The same with what the bank does to this rod: `fit` is judged for the job's own position.

    `likely_a` and `top_a` are the bank's likely current and the top of the rod's range. Over the top the steel must be
    thick enough to take it; upright and overhead nothing over the top is used.

    >>> from kitlist.base.terms import Steel
    >>> from kitlist.welding.designation.designations import decode
    >>> thin = Job(part="mudguard stay", steel=Steel.MILD, thickness_mm=3.0)
    >>> seen = fit(thin, decode("E6013"), rod_mm=2.6)
    >>> with_bank(seen, Fit.HOT, job=thin, rod_mm=2.6, likely_a=150.0, top_a=100.0).suits.value
    'too hot'
    """
    if result.suits is Suits.NEVER or fit is Fit.IN_RANGE:
        return result
    reason = _over(fit, job, rod_mm, likely_a, top_a) if fit in (Fit.WARM, Fit.HOT) else _off(fit)
    reasons = _sorted([*result.reasons, reason])
    return replace(result, suits=reasons[0].suits, reasons=reasons)


def _over(fit: Fit, job: Job, rod_mm: float, likely_a: float, top_a: float) -> Reason:
    """A rod that the bank runs over its top, on this steel and in this position."""
    over = f"{likely_a:.0f} A is likely, {top_a * top_ratio(job.position):.0f} A the most"
    if job.position in (Position.VERTICAL, Position.VERTICAL_DOWN, Position.OVERHEAD):
        words = f"the bank runs it over its range, and {POSITION_WORDS[job.position]} that is not to be held: {over}"
        return Reason(Suits.TOO_HOT, words, PRACTICE)
    if fit is Fit.WARM:
        return Reason(Suits.HOT, f"the bank runs it a little hot, {over}: short runs, let it cool between", PRACTICE)
    least_mm = steel_when_hot(rod_mm=rod_mm, likely_a=likely_a, top_a=top_a)
    if job.thickness_mm is not None and job.thickness_mm >= least_mm - 1e-9:
        return Reason(Suits.HOT, f"the bank runs it hot, {over}: one short run, let it cool", PRACTICE)
    return Reason(
        Suits.TOO_HOT, f"the bank runs it hot, {over}: it burns through under {least_mm:g} mm steel", PRACTICE
    )


def _off(fit: Fit) -> Reason:
    """A rod with which the bank does not weld."""
    return {
        Fit.TOO_HOT: Reason(Suits.TOO_HOT, "the bank is far over its range: rod and plate burn", PRACTICE),
        Fit.COLD: Reason(Suits.COLD, "the bank is under its range: it sticks, and lies on top", PRACTICE),
        Fit.NO_ARC: Reason(Suits.NO_ARC, "the bank holds no arc with it", PRACTICE),
    }[fit]


def _judge_part(job: Job, found: list[Reason]) -> RepairClass | None:
    try:
        known = part(job.part)
    except NotFound as unknown:
        if job.allowed_by:
            return allowed(job.part, job.allowed_by).repair_class
        found.append(Reason(Suits.NOT_KNOWN, unknown.message, PRACTICE))
        return None
    if known.repair_class is RepairClass.NEVER:
        found.append(Reason(Suits.NEVER, f"{known.name}: {known.rule}", known.source))
    return known.repair_class


def _judge_size(job: Job, rod_mm: float, found: list[Reason]) -> None:
    if job.thickness_mm is None:
        found.append(Reason(Suits.NOT_KNOWN, "the steel's thickness is not known: calipers", PRACTICE))
        return
    try:
        size = fit_diameter(rod_mm=rod_mm, thickness_mm=job.thickness_mm, joint=job.joint, position=job.position)
    except OutOfRange as outside:
        found.append(Reason(Suits.NOT_KNOWN, outside.message, PRACTICE))
        return
    suits = {
        Size.RIGHT: Suits.LOW_END if job.thickness_mm < THIN_MM else Suits.RIGHT,
        Size.STRETCH: Suits.ONLY_JUST,
        Size.TOO_THICK: Suits.TOO_THICK,
        Size.TOO_THIN: Suits.TOO_THIN,
        Size.STEEL_TOO_THIN: Suits.STEEL_TOO_THIN,
    }[size.size]
    tail = ", at the low end of its range" if suits is Suits.LOW_END else ""
    found.append(Reason(suits, size.why + tail, size.source))


def _judge_position(job: Job, rod: Designation, rod_mm: float, found: list[Reason]) -> None:
    where = POSITION_WORDS[job.position]
    if not rod.positions:
        found.append(Reason(Suits.NOT_KNOWN, f"{rod.text} does not say its positions: read the packet", PRACTICE))
        return
    able = set(rod.positions)
    if Position.HORIZONTAL in able:
        able.add(Position.HORIZONTAL_FILLET)
    if job.position not in able:
        words = f"{rod.text} is not for {where}: {rod.position_words}"
        found.append(Reason(Suits.WRONG_POSITION, words, rod.position_source))
    elif (
        job.position in (Position.VERTICAL, Position.VERTICAL_DOWN, Position.OVERHEAD)
        and rod.largest_all_position_mm is not None
        and rod_mm > rod.largest_all_position_mm + 0.05
    ):
        words = f"over {rod.largest_all_position_mm:.1f} mm {rod.text} is for flat and horizontal only"
        found.append(Reason(Suits.WRONG_POSITION, words, rod.position_source))


def _judge_dryness(packet: PacketVerdict | None, found: list[Reason]) -> None:
    if packet is None or packet.usable:
        return
    suits = Suits.NOT_KNOWN if packet.fitness is Fitness.TEST else Suits.NOT_DRY
    found.append(Reason(suits, f"{packet.why} {packet.remedy}", packet.source))


def _judge_polarity(rod: Designation, wired: Polarity, position: Position, found: list[Reason]) -> None:
    check = check_polarity(rod, wired, position=position)
    if check.result is Wired.NOT_KNOWN:
        found.append(Reason(Suits.NOT_KNOWN, check.words, rod.current_source))
    elif check.result is not Wired.RIGHT:
        found.append(Reason(Suits.WRONG_POLARITY, check.words, rod.current_source))


def _judge_current(
    job: Job,
    rod: Designation,
    rod_mm: float,
    packet_range_a: tuple[float, float] | None,
    found: list[Reason],
) -> CurrentChoice | None:
    try:
        if packet_range_a is not None:
            full = CurrentRange(*packet_range_a, (Source(PRACTICE.tag, "the packet"),), (packet_range_a,))
        else:
            full = current_range(rod.table_class, diameter_mm=rod_mm)
    except OutOfRange as outside:
        found.append(Reason(Suits.NOT_KNOWN, f"{outside.message}", PRACTICE))
        return None
    return choose_current(full, thickness_mm=job.thickness_mm, position=job.position)


def _passes(job: Job, rod_mm: float) -> int | None:
    try:
        return passes(weld_metal(job), rod_mm=rod_mm)
    except OutOfRange:
        return None


def _sorted(found: list[Reason]) -> tuple[Reason, ...]:
    return tuple(sorted(found, key=lambda reason: -reason.suits.rank))


def _verdict(found: list[Reason]) -> Suits:
    return _sorted(found)[0].suits
