"""How many rods of one kind a bank gives, sure and likely, and what ends them: one owner behind every face."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.outlook.battery import BatteryOutlook, meter_of
from kitlist.physics.arc.arc import Arc, arc_for
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.endurance import (
    Burn,
    Ending,
    LeadHeat,
    LoadLimits,
    RodUse,
    arc_of_band,
    first_rod,
    load_limits,
    rods_by_leads,
    shares_of,
)
from kitlist.physics.bank.rig import Rig
from kitlist.physics.bank.rods_by_volts import (
    PAPER_V,
    RodBattery,
    SureLikely,
    VoltMarks,
    VoltRow,
    marks,
    rods_by_volts,
    rows,
    spare_ratio,
)
from kitlist.physics.battery.charge import Way, doubt_v
from kitlist.physics.battery.cold import WARM_C

CARD_WAY = Way.BLED
"""How the card has the batteries read: nobody waits six hours beside a track."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodsInHand:
    """Rods that the readings show down to what is kept. `ended_by` says what ends them, `on` on which battery."""

    count: SureLikely
    ended_by: Ending
    on: str

    @property
    def sure(self) -> int:
        """Rods that can be counted on."""
        return self.count.sure

    @property
    def likely(self) -> int:
        """Rods to be expected."""
        return self.count.likely


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """One kind of rod on a bank, from the hardware alone: what each battery keeps, and what ends it before that.

    `in_a_row` is how many rods the leads bear with the usual pause between them; None where they bear all.
    """

    kept: Mapping[str, RodBattery]
    charge_ah: Span
    coldest_c: float
    ended_by: Mapping[str, Ending]
    in_a_row: int | None

    def rods(self, batteries: Mapping[str, BatteryOutlook]) -> RodsInHand | None:
        """What the readings show of the rods; None where a battery's charge is not known."""
        found = [(self._of(name, kept, batteries[name]), name) for name, kept in self.kept.items() if name in batteries]
        if len(found) < len(self.kept):
            return None
        counts = [(count, name) for count, name in found if count is not None]
        if len(counts) < len(found):
            return None
        sure, on = min((count.sure, name) for count, name in counts)
        likely = min(count.likely for count, _ in counts)
        row = likely if self.in_a_row is None else self.in_a_row
        count = SureLikely(min(sure, row), min(likely, row))
        if row < sure or row == 0 < likely:
            # One after the other: with a longer rest the leads cool, and the charge would give more.
            return RodsInHand(count=count, ended_by=Ending.LEAD_HEAT, on="")
        return RodsInHand(count=count, ended_by=self.ended_by[on], on=on)

    def _of(self, name: str, kept: RodBattery, battery: BatteryOutlook) -> SureLikely | None:
        reading = battery.reading
        if reading is None or battery.way is None or not battery.charge.known:
            return None
        try:
            return rods_by_volts(
                _as_read(kept, battery),
                volts_v=reading.volts_v,
                charge_ah=self.charge_ah,
                way=battery.way,
                temp_c=self.coldest_c,
                battery_temp_c=reading.battery_temp_c,
            )
        except OutOfRange:
            return SureLikely(0, 0)  # colder than anybody knows what a battery gives

    def spare_ah(self, batteries: Mapping[str, BatteryOutlook], *, sure: bool) -> float | None:
        """Charge over what is kept, Ah through the whole bank: of the battery that has least; None where not known."""
        least: float | None = None
        for name, kept in self.kept.items():
            battery = batteries.get(name)
            if battery is None or battery.reading is None or battery.way is None or not battery.charge.known:
                return None
            as_read = _as_read(kept, battery)
            doubt = doubt_v(chemistry=kept.chemistry, way=battery.way, meter_ratio=as_read.meter_ratio)
            try:
                spare = spare_ratio(
                    as_read,
                    volts_v=battery.reading.volts_v,
                    less_v=doubt if sure else 0.0,
                    temp_c=self.coldest_c,
                    battery_temp_c=battery.reading.battery_temp_c,
                )
            except OutOfRange:
                return 0.0
            ah = spare * kept.capacity_ah / kept.share_ratio if kept.share_ratio > 0 else float("inf")
            least = ah if least is None else min(least, ah)
        return least

    def marks(self, name: str, *, rods: int, way: Way = CARD_WAY, step_v: float = PAPER_V) -> VoltMarks:
        """Go and after volts of one battery for so many rods, read in a way, as cold as the trip's coldest."""
        temp_c = self.coldest_c
        return marks(
            self.kept[name],
            rods=rods,
            charge_ah=self.charge_ah.high,
            way=way,
            temp_c=temp_c,
            battery_temp_c=temp_c,
            step_v=step_v,
        )

    def shows_a_rod(self, *, way: Way = CARD_WAY) -> bool:
        """Whether a reading, taken as the card asks, can be sure of one rod: the battery that shows least governs."""
        return all(any(row.rods[0] for row in table([self], name, way=way)) for name in self.kept)

    def rods_shown(self, name: str, *, volts_v: float, way: Way = CARD_WAY, battery_temp_c: float | None = None) -> int:
        """Sure rods that one battery shows at a reading, as the card asks for it."""
        own_c = self.coldest_c if battery_temp_c is None else battery_temp_c
        return rods_by_volts(
            self.kept[name],
            volts_v=volts_v,
            charge_ah=self.charge_ah,
            way=way,
            temp_c=self.coldest_c,
            battery_temp_c=own_c,
        ).sure


def table(lastings: Sequence[Lasting], name: str, *, way: Way = CARD_WAY) -> Iterator[VoltRow]:
    """The printed table of one battery: its volts, each 0.05 V, and the sure rods of each kind by itself.

    What a kind's load asks of the battery is its own: each kind is looked up with what it leaves.
    """
    first = lastings[0]
    found = [
        list(
            rows(
                lasting.kept[name],
                charges_ah=[lasting.charge_ah.high],
                way=way,
                temp_c=first.coldest_c,
                battery_temp_c=first.coldest_c,
            )
        )
        for lasting in lastings
    ]
    for place in range(max(len(column) for column in found)):
        volts_v = next(column[place].volts_v for column in found if place < len(column))
        yield VoltRow(volts_v, tuple(column[place].rods[0] if place < len(column) else 0 for column in found))


def _as_read(kept: RodBattery, battery: BatteryOutlook) -> RodBattery:
    meter = kept.meter_ratio if battery.reading is None else meter_of(battery.reading)
    return replace(kept, meter_ratio=meter, loss=battery.loss)


def lasting(
    rig: Rig,
    batteries: Mapping[str, BatteryOutlook],
    use: RodUse,
    band: Band,
    *,
    lead: LeadHeat | None,
    taught: bool = False,
) -> Lasting | None:
    """What ends the rods of one kind on a rig; None where a battery's capacity is not known, or there is no arc.

    Rods are burned once from full, at the trip's coldest, down to what each battery keeps anyway. Where volts on load
    or the charge at hand give out before, the charge at which they do is what that battery keeps for this rod. All of
    it hangs on the hardware and on how cold and hot it gets, not on the charge: a bank that is read lower, or that is
    colder, so never gives more. Where a practice weld `taught` how this bank burns, its arc is that of the band.
    """
    if band.middle_a <= 0.0 or any(battery.capacity_ah is None for battery in rig.batteries):
        return None
    coldest_c = min(battery.coldest_c for battery in batteries.values())
    arc = arc_of_band(rig, use.covering, middle_a=band.middle_a) if taught else arc_for(use.covering)
    use = replace(use, count=0)  # how many are packed changes nothing of it
    run = _from_full(rig, batteries, use, arc, coldest_c)
    hot = _hot(_full(rig, temp_c=max(WARM_C, rig.temp_c.high)), use, arc)
    ended_by = {battery.name: Ending.RESERVE for battery in rig.batteries}
    raised: Mapping[str, float] = {}
    if run is not None:
        ended_by |= run.ended_by
        raised = run.soc_ratio
    kept = {}
    for battery in rig.batteries:
        name = battery.name
        floor = batteries[name].floor
        floor = replace(floor, always_ratio=max(floor.always_ratio, raised.get(name, 0.0)))
        # Unlike strings share the current otherwise in the cold than in the warm: the larger part at either.
        shares = [seen.share_ratio.get(name) for seen in (run, hot) if seen is not None]
        share = max((share for share in shares if share is not None), default=1.0) if rig.groups[1:] else 1.0
        kept[name] = RodBattery(
            chemistry=battery.chemistry, capacity_ah=battery.capacity_ah or 0.0, floor=floor, share_ratio=share
        )
    return Lasting(
        kept=kept,
        charge_ah=use.charge_ah,
        coldest_c=coldest_c,
        ended_by=ended_by,
        in_a_row=rods_by_leads(hot.burn, lead) if lead is not None and hot.burn is not None else None,
    )


def _full(rig: Rig, *, temp_c: float) -> Rig:
    groups = tuple(
        tuple(replace(battery, soc_ratio=Span.exactly(1.0), ocv_25_v=None) for battery in group) for group in rig.groups
    )
    return replace(rig, groups=groups, temp_c=Span.exactly(temp_c))


def _from_full(
    rig: Rig, batteries: Mapping[str, BatteryOutlook], use: RodUse, arc: Arc, coldest_c: float
) -> LoadLimits | None:
    """The rods burned from full at the coldest; None where it is colder than anything is known."""
    reserves = tuple((battery.name, batteries[battery.name].reserve_ratio) for battery in rig.batteries)
    try:
        return _burned(_full(rig, temp_c=coldest_c), use, reserves, arc)
    except OutOfRange:
        return None


@dataclass(frozen=True, slots=True)
class _Hot:
    """The first rod of a full bank on the hottest day, which warms the leads most; and how the current is shared."""

    burn: Burn | None
    share_ratio: Mapping[str, float]


@lru_cache(maxsize=512)
def _hot(full: Rig, use: RodUse, arc: Arc) -> _Hot:
    return _Hot(first_rod(full, use, arc=arc), shares_of(full, arc))


@lru_cache(maxsize=512)
def _burned(rig: Rig, use: RodUse, reserves: tuple[tuple[str, float], ...], arc: Arc) -> LoadLimits:
    """Remembered: bank, sheet, card and steps of one trip ask for the same rods, and this is most of their work."""
    return load_limits(rig, use, reserves=dict(reserves), arc=arc)
