"""The kit as it would be after one change, so that the change is judged by the same computation as the kit itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time

from kitlist.base.terms import BatteryPlace, RodCondition, RodStorage
from kitlist.kit import Ballast, Battery, Kit, Reading, Rod, Trip
from kitlist.outlook.options.advice import Change, Effort
from kitlist.physics.battery.charge import kinds_of, ocv_points

_PACKET = 20  # rods in a packet that is not packed yet: enough that it is not the packet that ends them
_RESTED_H, _TEMP_C = 24.0, 25.0


def supposed(kit: Kit, trip: Trip, change: Change, *, on: date) -> Kit | None:
    """The kit after a change; None for a change that no thing of the kit stands for (ballast)."""
    if change.effort is Effort.ROD and change.rod is not None:
        packet = Rod(
            name=change.rod.name,
            designation=change.rod.designation,
            diameter_mm=change.rod.diameter_mm,
            length_mm=change.rod.length_mm,
            count=_PACKET,
            condition=RodCondition.DRY,
            storage=RodStorage.SEALED,
        )
        return replace(kit, rods=(*kit.rods, packet))
    if change.effort is Effort.CHARGE:
        charged = [kit.battery[name] for name in change.batteries if name in kit.battery]
        return _with_readings(kit, *(_full(battery, on) for battery in charged))
    if change.effort is Effort.BATTERY and change.batteries and change.batteries[0] in kit.battery:
        like = kit.battery[change.batteries[0]]
        more = replace(like, name=f"one more like {like.name}", vehicle=None, place=BatteryPlace.LOOSE)
        return _with_readings(replace(kit, batteries=(*kit.batteries, more)), _full(more, on))
    return None


def _full(battery: Battery, on: date) -> Reading:
    """What it would read charged full and rested."""
    volts_v = min(ocv_points(kind)[-1][1] for kind in kinds_of(battery.chemistry))
    taken_at = datetime.combine(on, time(23, 59))
    return Reading(
        battery=battery.name, volts_v=volts_v, taken_at=taken_at, rested_h=_RESTED_H, battery_temp_c=_TEMP_C, load_a=0
    )


def _with_readings(kit: Kit, *readings: Reading) -> Kit:
    """The kit with new readings; a battery that was used since its last one counts as charged and rested again."""
    named = {reading.battery for reading in readings}
    return replace(
        kit,
        readings=(*readings, *kit.readings),
        welded=tuple((name, day) for name, day in kit.welded if name not in named),
    )


def with_ballast(kit: Kit, trip: Trip, *, mohm: float) -> tuple[Kit, Trip]:
    """The kit with a strip of so many milliohms in the trip's bank: for a look at what one would do."""
    strip = Ballast(name="a strip", measured_mohm=mohm)
    others = tuple(ballast for ballast in kit.ballasts if ballast.name != strip.name)
    return replace(kit, ballasts=(*others, strip)), replace(trip, ballast=strip.name)
