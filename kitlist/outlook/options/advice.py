"""Which one change would help most: a thicker rod, charge, another battery. Strips are `shaping`'s."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

from kitlist.base.sources import PRACTICE, sourced
from kitlist.base.span import Span
from kitlist.outlook.options.demand import Demand, PackedRod
from kitlist.outlook.options.fleet import Traveller, refusal_of
from kitlist.outlook.options.planner import Option, Plan, plan_bank

_FULL = Span(0.95, 1.0, 1.0)
_FEW_LIKE = 4


class Effort(IntEnum):
    """What a change asks of the crew, least first."""

    CHARGE = 0
    ROD = 1
    BATTERY = 2


@dataclass(frozen=True, slots=True)
class Change:
    """One change, the bank that the planner would then put first, and what the change is about.

    `rod` is the packet to pack, `batteries` those to charge, or the one to bring another of.
    """

    words: str
    option: Option
    effort: Effort
    rod: PackedRod | None = None
    batteries: tuple[str, ...] = ()


@sourced(PRACTICE)
def what_would_help(
    travellers: Sequence[Traveller],
    demand: Demand,
    plan: Plan,
    *,
    other_rods: Sequence[PackedRod] = (),
) -> tuple[Change, ...]:
    """Changes that would give a better first choice, the most helpful first; none where none helps.

    Ordered by how well the current would then fit, then by effort, then as banks are ranked.

    Tried one at a time: each of `other_rods` packed as well, each battery of the present best bank or refused for its
    charge brought to full, one more battery like those. Where no bank serves, all that are low are brought to full
    together too, and charging comes before bringing more. A ballast strip is looked for on the kit itself, `shaping`.

    >>> from kitlist.outlook.options.invented import demand, travellers
    >>> few = travellers(2)
    >>> [change.words for change in what_would_help(few, demand(), plan_bank(few, demand()))]
    ['bring one more battery like battery 1']
    """
    changes = [*_rods(travellers, demand, other_rods), *_charges(travellers, demand, plan)]
    if not plan.feasible and not any(change.effort is Effort.CHARGE for change in changes):
        changes += _charges_together(travellers, demand)
    changes += _more(travellers, demand, plan)
    better = [change for change in changes if plan.best is None or change.option.key < plan.best.key]

    def order(change: Change) -> tuple[object, ...]:
        brings = not plan.feasible and change.effort is not Effort.CHARGE
        return brings, change.option.key[:2], change.effort, change.option.key

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
