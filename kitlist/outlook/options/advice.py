"""Which one change would help most: a thicker rod, charge, another battery, ballast."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.span import Span
from kitlist.outlook.ballasts import strips_for
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Traveller, refusal_of
from kitlist.outlook.options.planner import Option, Plan, plan_bank, rig_of
from kitlist.physics.arc.arc import arc_for, arc_through, ballast_for
from kitlist.physics.bank.network import thevenin
from kitlist.physics.bank.verdict import Fit

_FULL = Span(0.95, 1.0, 1.0)
_FEW_LIKE = 4
_NO_STRIP = "no usual strip bears it: a thicker rod, or fewer batteries"


class Effort(IntEnum):
    """What a change asks of the crew, least first."""

    CHARGE = 0
    ROD = 1
    BATTERY = 2
    BALLAST = 3


@dataclass(frozen=True, slots=True)
class Change:
    """One change, the bank that the planner would then put first, and what the change is about.

    `rod` is the packet to pack, `batteries` those to charge, or the one to bring another of, `heat_w` of a ballast.
    """

    words: str
    option: Option
    effort: Effort
    heat_w: float = 0.0
    rod: PackedRod | None = None
    batteries: tuple[str, ...] = ()


@sourced(PRACTICE)
def what_would_help(
    travellers: Sequence[Traveller],
    demand: Demand,
    plan: Plan,
    *,
    other_rods: Sequence[PackedRod] = (),
    strips: bool = True,
) -> tuple[Change, ...]:
    """Changes that would give a better first choice, the most helpful first; none where none helps.

    Ordered by how well the current would then fit, then by effort, then as banks are ranked; ballast comes last.

    Tried one at a time: each of `other_rods` packed as well, each battery of the present best bank or refused for its
    charge brought to full, one more battery like those, ballast for the middle of a rod's range. Where no bank serves,
    all that are low are brought to full together too, and charging comes before bringing more. Not `strips`, ballast is
    left to those who look for it on the kit itself.

    >>> from kitlist.outlook.options.invented import demand, travellers
    >>> few = travellers(2)
    >>> [change.words for change in what_would_help(few, demand(), plan_bank(few, demand()))][1:]
    ['bring one more battery like battery 1']
    """
    changes = [*_rods(travellers, demand, other_rods), *_charges(travellers, demand, plan)]
    if not plan.feasible and not any(change.effort is Effort.CHARGE for change in changes):
        changes += _charges_together(travellers, demand)
    changes += _more(travellers, demand, plan)
    if strips:
        changes += _ballasts(travellers, demand, plan)
    better = [change for change in changes if plan.best is None or change.option.key < plan.best.key]

    def order(change: Change) -> tuple[object, ...]:
        brings = not plan.feasible and change.effort is not Effort.CHARGE
        last = change.effort is Effort.BALLAST  # live, hot and heavy: whatever else helps at all comes before it
        return brings, last, change.option.key[:2], change.effort, change.option.key

    return tuple(sorted(better, key=order))


def _rods(travellers: Sequence[Traveller], demand: Demand, others: Sequence[PackedRod]) -> Iterator[Change]:
    for rod in others:
        best = plan_bank(travellers, replace(demand, rods=(*demand.rods, rod)), few=1).best
        if best is not None and best.rod == rod.name:
            yield Change(f"pack {rod.name} as well", best, Effort.ROD, rod=rod)


def _charges(travellers: Sequence[Traveller], demand: Demand, plan: Plan) -> Iterator[Change]:
    low = {entry.name for entry in plan.refused if entry.why.why.by_charge}
    names = low | set(plan.best.names if plan.best else ())
    for place, battery in enumerate(travellers):
        if battery.name not in names or battery.charge.best >= _FULL.best - 0.02:
            continue
        full = replace(battery, soc_ratio=_FULL, ocv_25_v=None, may_freeze=False)
        best = plan_bank([*travellers[:place], full, *travellers[place + 1 :]], demand, few=1).best
        if best is not None and battery.name in best.names:
            yield Change(f"charge {battery.name} to full, alone", best, Effort.CHARGE, batteries=(battery.name,))


def _charges_together(travellers: Sequence[Traveller], demand: Demand) -> Iterator[Change]:
    """The bank of batteries charged full of which no single one makes a bank; those that were low are to be charged."""
    names = [battery.name for battery in travellers]
    chargeable = [b for b, full in zip(travellers, _charged(travellers, names), strict=True) if not refusal_of(full)]
    low = {battery.name for battery in chargeable if refusal_of(battery)}
    every = {battery.name for battery in chargeable if battery.charge.best < _FULL.best - 0.02}
    for charged in (low, every):
        best = plan_bank(_charged(travellers, charged), demand, few=1).best
        named = [name for name in best.names if name in charged] if best else []
        alone = plan_bank(_charged(travellers, named), demand, few=1).best if named else None
        if alone is not None:
            which = f"{', '.join(named[:-1])} and {named[-1]}" if named[1:] else named[0]
            yield Change(f"charge {which} full, each alone", alone, Effort.CHARGE, batteries=tuple(named))
            return


def _charged(travellers: Sequence[Traveller], names: Collection[str]) -> list[Traveller]:
    return [replace(b, soc_ratio=_FULL, ocv_25_v=None, may_freeze=False) if b.name in names else b for b in travellers]


def _more(travellers: Sequence[Traveller], demand: Demand, plan: Plan) -> Iterator[Change]:
    """One more like each battery of the present best bank; without one, like each of the fullest few usable."""
    out = {entry.name for entry in plan.refused}
    usable = sorted((b for b in travellers if b.name not in out), key=lambda b: -b.charge.best * (b.capacity_ah or 0.0))
    likes = [b for b in travellers if b.name in plan.best.names] if plan.best else usable[:_FEW_LIKE]
    seen: set[Traveller] = set()
    for battery in likes:
        # New and full: of batteries that differ in their charge or their vehicle alone one more is the same thing.
        like = replace(battery, name="", starts_engine=False, soc_ratio=_FULL, ocv_25_v=None, may_freeze=False)
        same = replace(like, reserve_ratio=0.0)
        if same in seen:
            continue
        seen.add(same)
        more = replace(like, name=f"one more like {battery.name}")
        best = plan_bank([*travellers, more], demand, few=1).best
        if best is not None and any(name == more.name for name in best.names):
            yield Change(f"bring one more battery like {battery.name}", best, Effort.BATTERY, batteries=(battery.name,))


def _ballasts(travellers: Sequence[Traveller], demand: Demand, plan: Plan) -> Iterator[Change]:
    hottest = plan.best or plan_bank(travellers, replace(demand, worst_fit=Fit.TOO_HOT), few=1).best
    if hottest is None or hottest.fit not in (Fit.WARM, Fit.HOT, Fit.TOO_HOT):
        return
    seen = thevenin(rig_of(hottest, travellers, demand).network())
    burned = next(rod for rod in demand.rods if rod.name == hottest.rod)
    met = arc_through(
        source_v=seen.emf_v, source_ohm=seen.ohm, current_a=hottest.middle_a, arc=arc_for(burned.covering)
    )
    for rod in demand.rods:
        target_a = (rod.range_low_a + rod.range_high_a) / 2
        higher_v = arc_for(rod.covering).foot_v - arc_for(burned.covering).foot_v
        arc = replace(met, foot_v=met.foot_v + higher_v)
        ballast = ballast_for(source_v=seen.emf_v, source_ohm=seen.ohm, target_a=target_a, arc=arc)
        if ballast.add_ohm <= 0.0:
            continue
        leads = replace(demand.leads, ballast_ohm=demand.leads.ballast_ohm + ballast.add_ohm)
        best = plan_bank(travellers, replace(demand, leads=leads), few=1).best
        if best is not None:
            mohm, kilowatt = ballast.add_ohm * 1000, ballast.heat_w / 1000
            strip = next(strips_for(ohm=ballast.add_ohm, current_a=target_a), None)
            which = strip.words if strip else _NO_STRIP
            words = f"{mohm:.0f} mΩ of ballast for {rod.name}, {kilowatt:.1f} kW of heat: {which}"
            yield Change(words, best, Effort.BALLAST, ballast.heat_w)
