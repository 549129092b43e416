"""Random kits, trips, thresholds and days: as unlike as crews are, each from one number."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from functools import cache

from kitlist.base.terms import BatteryPlace, Chemistry, Condition, Conductor, StartBatteries
from kitlist.kit import Ballast, Bead, Kit, Reading, Repair, Rod, Trip, Vehicle
from kitlist.kit.limits import standard
from kitlist.outlook.options.plan import plan_for
from kitlist.rules.example import BAG, battery, rod, whole

ON = date(2027, 3, 5)
KINDS = (Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL)
PACKETS = (
    ("thin rods", "E6013", 2.5, 300.0),
    ("general rods", "E6013", 3.2, 350.0),
    ("thick rods", "E6013", 4.0, 350.0),
    ("basic rods", "E7018", 3.2, 350.0),
    ("cellulose rods", "E6010", 3.2, 350.0),
)
PARTS = ("spring hanger", "mudguard stay", "exhaust bracket", "roof-rack leg", "frame rail")


@dataclass(frozen=True)
class World:
    """One crew: its kit, its trip, the day, and the number that it came from."""

    seed: int
    kit: Kit
    trip: Trip
    on: date

    @property
    def mixed(self) -> bool:
        """Whether the bank has batteries of more than one kind."""
        return len({self.kit.battery[name].chemistry for name in self.trip.bank}) > 1

    @property
    def in_24_v(self) -> bool:
        """Whether a vehicle of 24 V travels."""
        return any(v.system_v == 24 for v in self.kit.vehicles)

    @property
    def parallel(self) -> bool:
        """Whether the bank has more than one string."""
        return self.trip.bank_strings > 1


@cache
def world(seed: int) -> World:
    """The crew of a number; the same number is the same crew."""
    chance = random.Random(seed)
    case = whole()
    vehicles = tuple(_vehicles(chance))
    batteries = tuple(b for vehicle in vehicles for b in _batteries(chance, vehicle))
    if chance.random() < 0.25:
        batteries += (battery("loose", None, place=BatteryPlace.LOOSE, bag=BAG, chemistry=chance.choice(KINDS)),)
    repairs = tuple(_repairs(chance, vehicles))
    kit = replace(
        case.kit,
        vehicles=vehicles,
        batteries=batteries,
        readings=tuple(r for b in batteries for r in _readings(chance, b.name, b.chemistry)),
        leads=tuple(_leads(chance, case.kit, random.Random(f"leads {seed}"))),
        rods=tuple(_rods(chance)),
        repairs=repairs,
        ballasts=(Ballast(name="strip", measured_mohm=chance.choice((40.0, 70.0, 90.0))),)
        if chance.random() < 0.2
        else (),
    )
    if chance.random() < 0.3:
        kit = replace(kit, rulebook=standard().changed(_limits(chance), name="rulebook.toml"))
    trip = replace(
        case.trip,
        starts_on=ON,
        ends_on=ON + timedelta(days=4),
        vehicles=tuple(v.name for v in vehicles),
        coldest_c=chance.choice((None, -22, -15, -8, -3, 0, 4, 9, 15)),
        hottest_c=chance.choice((16, 24, 31, 38)),
        wet=chance.choice((False, False, False, True, None)),
        people=chance.choice((1, 2, 3)),
        repairs=tuple(r.name for r in repairs),
        ballast=chance.choice((None, "strip")) if kit.ballasts else None,
    )
    trip = replace(trip, **_bank(chance, kit))
    if chance.random() < 0.65 and (offers := plan_for(kit, trip, on=ON, few=1, changes=False).offers):
        trip = offers[0].trip  # as a crew that asks first: else few banks of random batteries may be linked
    if trip.bank and chance.random() < 0.15 and trip.bank_strings == 1:
        kit = replace(kit, beads=(_bead(chance, trip),))
    return World(seed, kit, trip, ON)


def _vehicles(chance: random.Random) -> Iterator[Vehicle]:
    for name in ("Heron", "Plover", "Stilt")[: chance.randint(1, 3)]:
        pair = chance.random() < 0.12
        yield Vehicle(
            name=name,
            crank_a=chance.choice((None, 180, 260, 340)),
            system_v=24 if pair else 12,
            start_batteries=StartBatteries.PAIR if pair else StartBatteries.SINGLE,
            alternator_a=chance.choice((None, 70, 110)),
        )


def _batteries(chance: random.Random, vehicle: Vehicle) -> Iterator:
    kind = chance.choice(KINDS)
    names = ["main", "second", "third"][: chance.randint(1, 3)]
    if vehicle.system_v == 24:
        names = ["main", "pair", "third"][: chance.randint(2, 3)]
    for place, name in enumerate(names):
        starts = place == 0 or (vehicle.system_v == 24 and name == "pair")
        alike = chance.random() < 0.7
        yield battery(
            f"{vehicle.name.lower()}-{name}",
            vehicle.name,
            place=BatteryPlace.START if starts else BatteryPlace.SECOND,
            chemistry=kind if alike else chance.choice((*KINDS, Chemistry.UNKNOWN, Chemistry.LITHIUM)),
            c20_ah=80 if alike else chance.choice((45, 60, 95, 110, None)),
            cranking_a=720 if alike else chance.choice((420, 600, 850)),
            condition=chance.choice([Condition.SOUND] * 38 + [Condition.CRACKED, Condition.UNKNOWN]),
        )


def _readings(chance: random.Random, name: str, kind: Chemistry) -> Iterator[Reading]:
    if chance.random() < 0.05:
        return
    full = {Chemistry.FLOODED: 12.65}.get(kind, 12.8)
    yield Reading(
        battery=name,
        volts_v=round(full - chance.choice((0.0, 0.0, 0.0, 0.02, 0.03, 0.08, 0.5)), 2),
        taken_at=datetime(2027, 3, 5, 7, 0) - timedelta(days=chance.choice((0, 0, 1, 2, 9))),  # noqa: DTZ001
        rested_h=chance.choice((12.0, 12.0, 24.0, 24.0, 24.0, 3.0, 0.5)),
        battery_temp_c=chance.choice((None, -10, 5, 15, 25)),
        load_a=0,
        quick_load=chance.random() < 0.15,
    )


def _leads(chance: random.Random, kit: Kit, own: random.Random) -> Iterator:
    """`own` draws what was added last, so that the other draws of a number stay as they were."""
    metal = own.choice([*[Conductor.COPPER] * 6, Conductor.COPPER_CLAD, Conductor.UNKNOWN])
    every = own.random() < 0.1
    thin = chance.random() < 0.15
    for lead in kit.leads:
        count = chance.choice((3, 4, 6, 7)) if lead.name == "link" else lead.count
        area = 16 if thin else chance.choice((25, 35, 35, 50))
        measured = chance.choice((None, None, None, 6.0)) if lead.name != "link" else None
        if every:
            measured = round(0.9 * lead.length_m, 1) if lead.length_m else 6.0
        yield replace(lead, count=count, area_mm2=area, measured_mohm=measured, conductor=metal)


def _rods(chance: random.Random) -> Iterator[Rod]:
    for name, designation, diameter, length in chance.sample(PACKETS, chance.randint(1, 3)):
        yield rod(name, designation=designation, diameter_mm=diameter, length_mm=length, count=chance.randint(2, 30))


def _repairs(chance: random.Random, vehicles: tuple[Vehicle, ...]) -> Iterator[Repair]:
    for place in range(chance.choice((0, 0, 1, 2))):
        yield Repair(
            name=f"repair {place + 1}",
            vehicle=chance.choice(vehicles).name,
            part=chance.choice(PARTS),
            thickness_mm=chance.choice((3.0, 5.0, 8.0, 10.0)),
            weld_length_mm=chance.choice((60.0, 160.0, 400.0)),
            load_bearing=False,
            behind="nothing",
        )


def _limits(chance: random.Random) -> str:
    lines = (
        f"wet_limit_v = {chance.choice((20, 25, 30))}",
        f"floor_cold_ratio = {chance.choice((0.6, 0.75, 0.9))}",
        f"floor_warm_ratio = {chance.choice((0.55, 0.65))}",
        f"every_starter_ratio = {chance.choice((0.8, 0.9))}",
        f"hot_limit_ratio = {chance.choice((1.1, 1.3))}",
        f"water_least_l = {chance.choice((10, 18))}",
    )
    return "\n".join(chance.sample(lines, chance.randint(1, 3)))


def _bank(chance: random.Random, kit: Kit) -> dict:
    names = [b.name for b in kit.batteries]
    sizes = [size for size in (2, 3, 3, 3, 4) if size <= len(names)]
    if not sizes or chance.random() < 0.05:
        return {"bank": (), "bank_strings": 1}
    size = chance.choice(sizes)
    strings = 1
    if len(names) >= 4 and chance.random() < 0.5:
        size, strings = chance.choice([s for s in (4, 6) if s <= len(names)]), 2
    return {"bank": tuple(chance.sample(names, size)), "bank_strings": strings}


def _bead(chance: random.Random, trip: Trip) -> Bead:
    n = len(trip.bank)
    return Bead(
        name="first",
        welded_on=ON - timedelta(days=2),
        bank=trip.bank,
        rest_v=12.7 * n,
        bank_v=10.9 * n,
        current_a=chance.choice((110, 150, 190)) if n > 2 else 70,
        holder_v=21.5 if n < 3 else 24.5,
    )
