"""The steps of one kit's procedure, built phase by phase from kit, trip and what its hardware promises."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise
from math import ceil, inf
from typing import TYPE_CHECKING

from kitlist.base.errors import KitlistError
from kitlist.base.terms import StartBatteries, ToolKind
from kitlist.kit import Battery, Kit, Tool, Trip
from kitlist.outlook.fire_water import fire_water
from kitlist.outlook.hardware import HardwareOutlook, hardware_outlook, said_polarity
from kitlist.outlook.leads import opened_by, parts_at_plug, parts_in_work_lead
from kitlist.outlook.linkable import Bar
from kitlist.outlook.procedure import (
    AGAIN_H,
    BANK_M,
    BLEED_MIN,
    CLEAR_M,
    LEAST_WATER_L,
    RECOVER_MIN,
    SETTLE_MIN,
    TIE_V,
    VENT_M,
    WATCH_MIN,
    Behind,
    Deed,
    Entry,
    IfThen,
    Numbered,
    Procedure,
    Stage,
    Warn,
)
from kitlist.outlook.procedure_terms import Barred, Hazard, Phase, Task, Trouble
from kitlist.outlook.second_way import SecondWay, clearing_fuse, second_way
from kitlist.outlook.starters import lent
from kitlist.physics.bank.rods_by_volts import SCREEN_V
from kitlist.physics.bank.verdict import Fit
from kitlist.physics.leads.link_readings import readings
from kitlist.welding.repairs.parts import RepairClass, part

if TYPE_CHECKING:
    from kitlist.outlook import Outlook


def procedure(
    kit: Kit, trip: Trip, hardware: HardwareOutlook, *, read_v: Sequence[tuple[str, float]] = ()
) -> Procedure:
    """The procedure for the trip's bank, which must be chosen. `read_v` has rested volts by battery."""
    return _Builder(kit, trip, hardware, tuple(read_v)).built()


def procedure_for(kit: Kit, trip: Trip, outlook: Outlook, *, on: date) -> Procedure:
    """The same with the volts that each link should show by the batteries' own readings."""
    read = [outlook.batteries[name] for name in trip.bank if name in outlook.batteries]
    known = [(b.battery.name, b.reading.volts_v) for b in read if b.reading and b.charge_when_read.known]
    hardware = hardware_outlook(kit, trip, on=on)
    seen = tuple(bar for bar in outlook.bank.bars if bar.for_today) if outlook.bank else ()
    return procedure(kit, trip, replace(hardware, bars=tuple(dict.fromkeys((*hardware.bars, *seen)))), read_v=known)


def barred(kit: Kit, trip: Trip, hardware: HardwareOutlook) -> tuple[Barred, ...]:
    """Every reason why the trip's bank may not be linked at all, whatever its readings."""
    travelling = {battery.name for battery in kit.travelling(trip)}
    bars = {bar.bar for bar in hardware.bars}
    fits = [rod.fit for rod in hardware.rods if rod.fit is not None]
    found = {
        Barred.ONE: Bar.ONE_BATTERY in bars,
        Barred.AWAY: not travelling.issuperset(trip.bank),
        Barred.REFUSED: Bar.BATTERY in bars,
        Barred.NOTHING_OPENS: not opened_by(kit),
        Barred.WET: bool(bars & {Bar.WET, Bar.WET_NOT_SAID}),
        Barred.FOUR: Bar.BALLAST in bars,
        Barred.APART: bool(bars & {Bar.APART, Bar.MIXED}),
        Barred.NO_ARC: bool(fits) and all(fit is Fit.NO_ARC for fit in fits),
    }
    return tuple(reason for reason, holds in found.items() if holds)


def also_off(kit: Kit, trip: Trip) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Every vehicle of the trip that could be welded on, with its batteries outside the bank: they come off too.

    A vehicle with a repair on the trip comes first. Any vehicle may break, so all that travel are here: through a
    battery that stays on, the arc's current finds the vehicle's wiring.
    """
    repaired = {repair.vehicle for repair in kit.repairs if repair.name in trip.repairs}
    left: dict[str, list[str]] = {}
    for battery in (*kit.travelling(trip), *(b for b in kit.batteries if b.vehicle in repaired)):
        if battery.vehicle and battery.name not in trip.bank and battery.name not in left.get(battery.vehicle, ()):
            left.setdefault(battery.vehicle, []).append(battery.name)
    ordered = sorted(left.items(), key=lambda entry: entry[0] not in repaired)
    return tuple((vehicle, tuple(names)) for vehicle, names in ordered)


def _never(named: str) -> bool:
    """Whether a part is never welded; one that is in no table is not known, and its own rule says so."""
    try:
        return part(named).repair_class is RepairClass.NEVER
    except KitlistError:
        return False


def floor_to(volts: float) -> float:
    """Volts rounded down to 0.1, so that no link asks for more than the batteries' own go volts make.

    >>> floor_to(25.2), floor_to(37.84)
    (25.2, 37.8)
    """
    return -ceil(-round(volts, 6) * 10) / 10


class _Builder:
    """The procedure while it is built: one generator a phase."""

    def __init__(self, kit: Kit, trip: Trip, hardware: HardwareOutlook, read_v: tuple[tuple[str, float], ...]) -> None:
        self.kit, self.trip, self.hardware = kit, trip, hardware
        self.read_v = dict(read_v)
        self.bank = tuple(self._numbered(place, name) for place, name in enumerate(trip.bank, start=1))
        by_name = {battery.name: battery for battery in self.bank}
        self.strings = tuple(tuple(by_name[name] for name in string) for string in trip.strings)
        self.opening = opened_by(kit)
        self.isolator = self.opening == "isolator"
        self.alone = trip.people == 1
        self.polarity = said_polarity(hardware.rods)
        touched = {battery.vehicle for battery in self.bank} | {vehicle for vehicle, _ in also_off(kit, trip)}
        self.pairs = tuple(
            v.name for v in kit.vehicles if v.name in touched and v.start_batteries is StartBatteries.PAIR
        )
        # A pair that lends nothing is opened only where its vehicle is welded on: halves that are not level may not be
        # joined again, and it may be the one vehicle left that starts.
        self.lending = frozenset(one.vehicle.name for one in lent(kit, trip))
        water_l = fire_water(kit, until=trip.ends_on).litres_l
        self.water_l = max(water_l, LEAST_WATER_L.value, kit.limits.water_least_l)

    def built(self) -> Procedure:
        reasons = barred(self.kit, self.trip, self.hardware)
        phases = {
            Phase.MAKE_SAFE: self._make_safe,
            Phase.READ: self._read,
            Phase.LINK: self._link,
            Phase.ARC: self._arc,
            Phase.UNDO: self._undo,
            Phase.AFTER: self._after,
            Phase.WRONG: self._wrong,
        }
        stages = () if reasons else tuple(Stage(phase, tuple(build())) for phase, build in phases.items())
        runs = [r for r in self.hardware.rods if r.fit is None or r.fit.welds]  # on scrap nobody runs one that sticks
        rods = {r.designation.text for r in runs if r.designation and r.designation.low_hydrogen}
        return Procedure(
            bank=self.bank,
            strings=self.strings,
            polarity=self.polarity,
            opening=self.opening,
            opens_in_work=parts_in_work_lead(self.kit),
            alone=self.alone,
            stages=stages,
            stop_v=self.hardware.stop_v,
            shade=self.hardware.shade,
            water_l=self.water_l,
            low_hydrogen=tuple(sorted(rods)),
            barred=reasons,
            refused=tuple((bar.battery, str(bar.refusal)) for bar in self.hardware.bars if bar.refusal is not None),
            wet_limit_v=self.kit.limits.wet_limit_v,
        )

    def _numbered(self, number: int, name: str) -> Numbered:
        battery = self.kit.battery.get(name) or Battery(name=name)
        marks = self.hardware.marks.get(name)
        if marks is None:
            return Numbered(number, name, battery.vehicle or "", 0.0, 0.0)
        go_v = marks.full_v if marks.go_v is None else marks.go_v
        over_full = marks.shows_v > marks.full_v + 1.5 * SCREEN_V  # not by the one step that rounding makes
        only_full = marks.go_v is None
        vehicle = battery.vehicle or ""
        return Numbered(number, name, vehicle, go_v, marks.shows_v, over_full=over_full, only_full=only_full)

    def _make_safe(self) -> Iterator[Entry]:
        yield Deed(do=Task.ASK_HOT_WORK)
        if self.hardware.bank.full_v > self.kit.limits.wet_limit_v:
            yield Deed(do=Task.DRY)  # a day can turn wet after the trip was judged dry
        if self.alone:
            yield Warn(Hazard.ALONE)
        yield Deed(do=Task.WATCH_ALONE if self.alone else Task.NAME_WATCHER)
        yield Deed(do=Task.WATER_AT_PART, amount=self.water_l)
        yield Deed(do=Task.BARE_EARTH, amount=CLEAR_M.value)
        yield Deed(do=Task.ENGINES_OFF)
        yield Deed(do=Task.FEEDS_OUT)  # before the load: a solar panel would charge against it
        if any(battery.vehicle for battery in self.bank):
            yield Deed(do=Task.SURFACE_LOAD, amount=BLEED_MIN.value)
            yield Deed(do=Task.SURFACE_WAIT, amount=SETTLE_MIN.value)
        if any(not battery.vehicle for battery in self.bank):
            yield Deed(do=Task.SURFACE_LOOSE, amount=BLEED_MIN.value)
        yield Warn(Hazard.FALLS)
        yield Deed(do=Task.STANDS)
        yield Deed(do=Task.LOOK_BEHIND)
        for repair in self.kit.repairs:
            if repair.name in self.trip.repairs:
                yield Behind(repair.name, repair.behind, never=_never(repair.part))
        yield Deed(do=Task.KEYS_OUT)

    def _read(self) -> Iterator[Entry]:
        yield Deed(do=Task.GOGGLES)
        yield Warn(Hazard.LEFT_ON)
        for vehicle in self.pairs:  # before its batteries: chassis side, bridge and + come off in that order
            if vehicle in self.lending:
                yield Deed(do=Task.FREE_BRIDGE, vehicle=vehicle)
        for battery in self.bank:
            if battery.vehicle:
                yield Deed(do=Task.FREE, battery=battery)
        beside = dict.fromkeys(self.pairs, ()) | dict(also_off(self.kit, self.trip))
        for vehicle, names in beside.items():
            if vehicle in self.pairs and vehicle not in self.lending:
                yield Deed(do=Task.FREE_BRIDGE_WELDED, vehicle=vehicle)
            for name in names:
                yield Deed(do=Task.FREE_WELDED, vehicle=vehicle, names=(name,))
        yield Deed(do=Task.COVER)
        if len({battery.go_v for battery in self.bank}) == 1:
            yield Deed(do=Task.READ_ALL, at_least_v=self.bank[0].go_v)
        else:
            for battery in self.bank:
                yield Deed(do=Task.READ, battery=battery, at_least_v=battery.go_v)
        if any(rod.lasting is not None and rod.lasting.shows_a_rod() for rod in self.hardware.rods):
            yield Deed(
                do=Task.LOOK_UP_RODS
            )  # else the table would be zeros, and the sheet's likely rods are all there is

    def _link(self) -> Iterator[Entry]:
        if self.isolator:
            yield Deed(do=Task.OPEN_ISOLATOR)
        else:
            yield Deed(do=Task.PART_WORK_PLUG if parts_in_work_lead(self.kit) else Task.PART_PLUG)
        if self._stuck() is Trouble.STUCK_THEN_FUSE and (fuse := self._fuse()) is not None:
            yield Deed(do=Task.FUSE_IN, amount=fuse.rating_a)  # it can blow only where it is in the circuit
        yield Deed(do=Task.CLAMP_WORK)
        for string in self.strings:
            yield from self._links(string)
        yield from self._ties()
        if self.trip.ballast is not None or len(self.strings[0]) > 3:
            yield Deed(do=Task.BALLAST)
        yield Warn(Hazard.GAS)
        # The holder is joined last: with the circuit open at the isolator nothing sparks at a post, and whoever
        # joins it looks at a holder that hangs free.
        plus, minus = self.strings[0][-1], self.strings[0][0]
        yield Deed(do=Task.JOIN_WORK if self.polarity else Task.READ_PACKET, battery=plus, to=minus)
        if self.polarity:
            yield Deed(do=Task.JOIN_HOLDER, battery=plus, to=minus)

    def _links(self, string: tuple[Numbered, ...]) -> Iterator[Deed]:
        known = [(battery.name, self.read_v[battery.name]) for battery in string if battery.name in self.read_v]
        expected = [step.expected_v for step in readings(known)] if len(known) == len(string) else [None] * len(string)
        at_least = string[0].go_v
        for place, (one, other) in enumerate(pairwise(string), start=1):
            at_least += other.go_v
            yield Deed(
                do=Task.LINK,
                battery=one,
                to=other,
                at_least_v=floor_to(at_least),
                expected_v=expected[place],
                names=(string[0].name,),
            )

    def _ties(self) -> Iterator[Deed]:
        """Parallel strings: minus to minus, then the meter, and only then plus to plus."""
        first = self.strings[0]
        for string in self.strings[1:]:
            yield Deed(do=Task.TIE_MINUS, battery=first[0], to=string[0])
            yield Deed(do=Task.METER_TIE, battery=first[-1], to=string[-1], amount=TIE_V.value)
            yield Deed(do=Task.TIE_PLUS, battery=first[-1], to=string[-1])

    def _arc(self) -> Iterator[Entry]:
        yield Deed(do=Task.POLARITY)
        yield Warn(Hazard.ARC_LIGHT)
        yield Deed(do=Task.HELMET_ALONE if self.alone else Task.HELMETS, amount=self.hardware.shade)
        if self.alone:
            yield Deed(do=Task.ISOLATOR_IN_REACH if self.isolator else Task.PLUG_IN_REACH, amount=VENT_M.value)
        else:
            yield Deed(do=Task.WATCHER_AT_ISOLATOR if self.isolator else Task.WATCHER_AT_PLUG)
        yield Deed(do=Task.ROD_IN)
        if self.alone:
            yield Deed(do=Task.CLOSE_ALONE if self.isolator else Task.PLUG_ALONE)
        else:
            yield Deed(do=Task.SAY_CLOSE if self.isolator else Task.SAY_CLOSE_PLUG)
        yield Deed(do=Task.SCRAP)
        yield Deed(do=Task.NEW_ROD_ALONE if self.alone else Task.NEW_ROD)
        yield Deed(do=Task.REST, amount=BANK_M.value)

    def _undo(self) -> Iterator[Entry]:
        if self.alone:
            yield Deed(do=Task.OPEN_ALONE if self.isolator else Task.UNPLUG_ALONE)
        else:
            yield Deed(do=Task.SAY_OPEN)
        yield Deed(do=Task.ROD_OUT)
        yield Deed(do=Task.START_WATCH_ALONE if self.alone else Task.START_WATCH, amount=WATCH_MIN.value)
        yield Deed(do=Task.GOGGLES)  # the helmet came off, and gas explodes at a post as it did before
        yield Deed(do=Task.LEADS_OFF)
        if len(self.strings) > 1:
            yield Deed(do=Task.UNTIE)
        yield Deed(do=Task.UNLINK)
        yield Warn(Hazard.LINK_LEFT_ON)
        yield Deed(do=Task.PUT_BACK, names=self.pairs)
        yield Deed(do=Task.WAIT_AFTER, amount=RECOVER_MIN.value)
        if len({battery.after_v for battery in self.bank}) == 1:
            yield Deed(do=Task.READ_AFTER_ALL, at_least_v=self.bank[0].after_v)
        else:
            for battery in self.bank:
                yield Deed(do=Task.READ_AFTER, battery=battery, at_least_v=battery.after_v)
        yield Deed(do=Task.CHARGE_LOW)
        for vehicle in self.pairs:
            yield Deed(do=Task.REJOIN_BRIDGE, vehicle=vehicle)
        yield Deed(do=Task.START_ENGINES)

    def _after(self) -> Iterator[Entry]:
        yield Deed(do=Task.CHIP)
        yield Deed(do=Task.LOOK_FOR_CRACKS)
        yield Deed(do=Task.CLIP_BACK)
        yield Deed(do=Task.END_WATCH, amount=WATCH_MIN.value)
        yield Deed(do=Task.LOOK_AGAIN, amount=AGAIN_H.value)
        yield Warn(Hazard.WELD_BREAKS)
        yield Deed(do=Task.WALKING_PACE)
        yield Deed(do=Task.LOOK_ON_THE_WAY)
        yield Deed(do=Task.CHARGE_ALONE)

    def _wrong(self) -> Iterator[Entry]:
        yield IfThen(self._stuck())
        for trouble in Trouble:
            if not trouble.is_stuck:
                yield IfThen(trouble)

    def _stuck(self) -> Trouble:
        """What frees a stuck rod: an isolator that breaks its current, else that and a second way, if there is one."""
        stuck_a, likely_a = self._currents_a()
        breaks = any(
            (tool.dc_v or 0) >= self.kit.limits.isolator_least_v and (tool.rating_a or 0) >= stuck_a
            for tool in self.kit.tools
            if tool.what is ToolKind.ISOLATOR and tool.count
        )
        if not self.isolator:
            return Trouble.STUCK_PLUG
        if breaks:
            return Trouble.STUCK
        if second_way(self.kit, stuck_a=stuck_a, likely_a=likely_a) is SecondWay.FUSE:
            return Trouble.STUCK_THEN_FUSE
        return Trouble.STUCK_THEN_PLUG if parts_at_plug(self.kit) else Trouble.STUCK_NO_SECOND_WAY

    def _fuse(self) -> Tool | None:
        stuck_a, likely_a = self._currents_a()
        return clearing_fuse(self.kit, stuck_a=stuck_a, likely_a=likely_a)

    def _currents_a(self) -> tuple[float, float]:
        """What a stuck rod draws, and the most that an arc does."""
        stuck_a = inf if self.hardware.bank.stuck_a is None else self.hardware.bank.stuck_a
        return stuck_a, max((rod.band.middle_a for rod in self.hardware.rods if rod.band is not None), default=0.0)
