"""Charging between repairs: each battery of the bank by each way there is on the trip, as a band of time.

Every battery alone, in its own vehicle or on a charger. A half of 24 V is charged by its vehicle's alternator only
bridged to the other half and level with it; twins share what the alternator gives.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from kitlist.base.errors import KitlistError
from kitlist.base.measures import with_unit
from kitlist.base.span import Span
from kitlist.base.terms import BatteryPlace, StartBatteries, ToolKind
from kitlist.kit import Battery, Kit, Tool, Trip, Vehicle
from kitlist.outlook import Outlook
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.rods import RodOutlook, best_of
from kitlist.outlook.starters import halves, vehicles_of
from kitlist.physics import figures
from kitlist.physics.bank.pairs import Rejoin
from kitlist.physics.bank.rods_by_volts import SCREEN_V, VoltMarks
from kitlist.physics.battery.charge import charge_at
from kitlist.physics.battery.charge_time import ChargeTime, charge_time
from kitlist.physics.battery.cold import coldest_known_c
from kitlist.physics.battery.gas import spark_distance_m
from kitlist.physics.battery.recharge import (
    FULL_LEAVES,
    Feed,
    RestAfterCharge,
    most_volts,
    not_charged,
)

USUAL_COLD_C = 25.0  # where nobody wrote down how cold it gets, a warm battery's time is shown and said to be that
_STANDARD_C = 25.0
_LEAST_SPARK_M = 0.5  # the last connection from any vent, as everywhere else


@dataclass(frozen=True, slots=True, kw_only=True)
class WayToCharge:
    """Something on the trip that puts charge back: what kind, of which vehicle or which tool, and its rating.

    `rating` is in A, of a panel in W. `batteries_at_once` share its current.
    """

    feed: Feed
    of: str
    rating: float
    batteries_at_once: int = 1

    @property
    def words(self) -> str:
        """As a line for a table: the kind and whose."""
        return f"{self.of}, {self.feed}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldTime:
    """How long one way takes for one battery; for a panel hours of full sun."""

    way: WayToCharge
    takes: ChargeTime


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldLine:
    """One battery: its charge now and the charge wanted, each as a share of full, what is missing, and the times.

    `why_not` says why it is not charged at all, or why there is no time ("" where there are times); `remark` what to
    mind about this one; `full_first` that it is full before all of the aim is in it; `go_v` what it must read at rest
    for the aim, as the card asks for it. `spark_m` is how far sparks keep from it, `most_v` the most volts on it.
    """

    name: str
    vehicle: str
    soc_ratio: Span | None
    to_ratio: float | None
    put_back_ah: float | None
    times: tuple[FieldTime, ...]
    why_not: str
    remark: str
    full_first: bool
    spark_m: float
    most_v: float
    go_v: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldCharge:
    """Charging between repairs on one trip. `rods` more of `rod` are the aim, or, where None, what the trip needs."""

    trip: str
    rod: str
    rods: int
    asked: bool
    temp_c: float
    temp_known: bool
    lines: tuple[FieldLine, ...]
    ways: tuple[WayToCharge, ...]
    rest: RestAfterCharge = field(default_factory=RestAfterCharge)

    @property
    def before(self) -> tuple[str, ...]:
        """What must be true before anything is charged."""
        return BEFORE

    @property
    def after(self) -> tuple[str, ...]:
        """What follows a charge."""
        rest = self.rest
        return (
            f"After the charge {rest.link_h:g} h off, in the wind, before anything is linked or struck.",
            f"Read after {rest.read_h:g} h of rest (to {rest.good_read_h:g} h it may read 0.15 V high), or after the "
            "load and its wait.",
        )


BEFORE = (
    "Unlinked: no battery is charged while it is in a bank, and nothing is welded on a vehicle that charges.",
    "Each alone in its own vehicle, as it was; posts clean and tight, its own minus put on last.",
    "Open air, caps to the wind, no arc, no flame, no spark near; goggles on.",
    "Not frozen, cracked, leaking or swollen; 5 K over the freezing of its acid, under 50 °C; off when it gets hot.",
    "Volts at its posts while it charges: 13.6 V or more, else how long it takes is not known.",
)
"""Common practice; each line is said wherever a time is shown."""


def ways_to_charge(kit: Kit, trip: Trip) -> tuple[WayToCharge, ...]:
    """Everything on the trip that puts charge back: alternators of its vehicles, packed chargers and panels."""
    return (*_engines(kit, trip), *_tools(kit))


def _engines(kit: Kit, trip: Trip) -> Iterator[WayToCharge]:
    for vehicle in vehicles_of(kit, trip):
        if vehicle.alternator_a is not None:
            twins = 2 if vehicle.start_batteries is StartBatteries.TWIN else 1
            for feed in (Feed.IDLE, Feed.FAST_IDLE):
                yield WayToCharge(feed=feed, of=vehicle.name, rating=vehicle.alternator_a, batteries_at_once=twins)


def _tools(kit: Kit) -> Iterator[WayToCharge]:
    for tool in kit.tools:
        rating = _rating(tool)
        if tool.count and rating is not None:
            feed = Feed.CHARGER if tool.what is ToolKind.CHARGER else Feed.PANEL
            yield WayToCharge(feed=feed, of=tool.name, rating=rating)


def _rating(tool: Tool) -> float | None:
    return {ToolKind.CHARGER: tool.rating_a, ToolKind.SOLAR_PANEL: tool.power_w}.get(tool.what)


def field_charge(
    kit: Kit, trip: Trip, outlook: Outlook, *, rods: int | None = None, temp_c: float | None = None
) -> FieldCharge:
    """Minutes for each battery of the bank (without one: each that travels) by each way there is.

    The aim is `rods` more than are in each battery now; without it, the charge from which the trip's hardest repair
    can be welded down to the reserve, one rod where no repair is named. `temp_c` is that of the batteries, else the
    trip's coldest.
    """
    asked, known_c = rods is not None, temp_c is not None or trip.coldest_c is not None
    battery_c = next((t for t in (temp_c, trip.coldest_c) if t is not None), USUAL_COLD_C)
    rod, needed = hardest(outlook)
    aim = rods if rods is not None else needed
    ways = ways_to_charge(kit, trip)
    names = trip.bank or tuple(outlook.batteries)
    found = [outlook.batteries[name] for name in names if name in outlook.batteries]
    return FieldCharge(
        trip=trip.name,
        rod=rod.words if rod else "",
        rods=aim,
        asked=asked,
        temp_c=battery_c,
        temp_known=known_c,
        lines=tuple(_Line(kit, trip, outlook, b, ways, battery_c).built(rod, aim, more=asked) for b in found),
        ways=ways,
    )


def hardest(outlook: Outlook) -> tuple[RodOutlook | None, int]:
    """The rod of the trip's hardest repair and how many it takes; where none is named, the best one, and 1."""
    cells = [repair.best for repair in outlook.repairs if repair.best is not None]
    needing = [
        (cell.rod, cell.needs.rods.to_pack) for cell in cells if cell.needs is not None and cell.rod.burn is not None
    ]
    if needing:
        return max(needing, key=lambda one: one[1] * _rod_ah(one[0]).high)
    burns = [rod for rod in outlook.rods if rod.burn is not None]
    return best_of(burns) or next(iter(burns), None), 1


def kept_ratio(battery: BatteryOutlook, rods: Iterable[RodOutlook]) -> float:
    """The charge that a battery keeps on the trip's coldest, and down to which rods burn: its reserve, or what volts
    on load ask of it with the rod that asks most; never over full."""
    name = battery.battery.name
    if battery.coldest_c < coldest_known_c():
        return 1.0  # nobody knows what it gives: all is kept
    floors = [x.lasting.kept[name].floor for x in rods if x.lasting is not None and name in x.lasting.kept]
    asked = [floor.at(battery.coldest_c) for floor in floors]
    return min(1.0, max((battery.reserve_ratio, *asked)))


def _rod_ah(rod: RodOutlook) -> Span:
    return rod.burn.charge_ah if rod.burn is not None else Span.exactly(0.0)


@dataclass(frozen=True, slots=True)
class _Line:
    """One battery's line while it is built."""

    kit: Kit
    trip: Trip
    outlook: Outlook
    battery: BatteryOutlook
    ways: tuple[WayToCharge, ...]
    temp_c: float

    def built(self, rod: RodOutlook | None, rods: int, *, more: bool) -> FieldLine:
        """The whole line."""
        own, soc = self.battery.battery, self.battery.charge.soc_ratio
        refused = not_charged(
            chemistry=own.chemistry,
            temp_c=self.temp_c,
            soc_ratio=soc,
            fit_to_charge=not self.battery.refusal,
        )
        why_not = str(refused) if refused else self._not_known(rod)
        to_ratio = None if why_not else self._to_ratio(rod, rods, more=more)
        times = () if to_ratio is None else tuple(self.times(to_ratio))
        if to_ratio is not None and not times:
            why_not = "no way to charge it on this trip is recorded"
        missing = None
        if to_ratio is not None and soc is not None and own.c20_ah is not None:
            missing = max(0.0, to_ratio - soc.best) * own.c20_ah
        marks = None if more or why_not else self._marks(rod, rods)
        return FieldLine(
            name=own.name,
            go_v=None if marks is None else marks.go_v,
            vehicle=own.vehicle or "",
            soc_ratio=soc,
            to_ratio=to_ratio,
            put_back_ah=missing,
            times=times,
            why_not=why_not,
            remark=self._remark(),
            full_first=bool(times) and to_ratio is not None and self._wanted(rod, rods, more=more) > to_ratio + 1e-9,
            spark_m=max(_LEAST_SPARK_M, spark_distance_m(capacity_ah=own.c20_ah) if own.c20_ah else 0.0),
            most_v=most_volts(own.chemistry),
        )

    def _not_known(self, rod: RodOutlook | None) -> str:
        if self.battery.coldest_c < (known_c := coldest_known_c()):
            return f"what it gives under {with_unit(known_c, '°C')} is not known, nor what to charge it to"
        if self.battery.battery.c20_ah is None:
            return "its 20 h capacity is not known"
        if self.battery.charge.soc_ratio is None:
            return f"its charge is not known: {self.battery.charge.reason}"
        return "" if rod is not None else "what a rod takes is not known"

    def _to_ratio(self, rod: RodOutlook | None, rods: int, *, more: bool) -> float:
        """Charge to charge to: what is wanted, and never over full."""
        return min(1.0 - FULL_LEAVES.value, self._wanted(rod, rods, more=more))

    def _wanted(self, rod: RodOutlook | None, rods: int, *, more: bool) -> float:
        """Charge wanted, at the high end of what a rod takes; may be over full."""
        capacity, soc = self.battery.battery.c20_ah, self.battery.charge.soc_ratio
        if rod is None or capacity is None or soc is None:
            raise AssertionError("left out by _not_known")
        kept = rod.lasting.kept.get(self.battery.battery.name) if rod.lasting is not None else None
        share = 1 / self.trip.bank_strings if kept is None else kept.share_ratio
        floor = kept_ratio(self.battery, (rod,))
        if more:
            return soc.best + rods * _rod_ah(rod).high * share / capacity
        marks = self._marks(rod, rods)
        if marks is None or kept is None:
            return floor + rods * _rod_ah(rod).high * share / capacity
        if marks.go_v is None:
            return 1.0  # no reading can show so many, and full shows the most
        warm_v = marks.go_v + figures.OCV_SLOPE.value * (_STANDARD_C - self.battery.coldest_c)
        return charge_at(volts_25_v=warm_v, chemistry=kept.chemistry)

    def _marks(self, rod: RodOutlook | None, rods: int) -> VoltMarks | None:
        """The go volts for so many rods, as the card has them; None where they cannot be told."""
        name = self.battery.battery.name
        if rod is None or rod.lasting is None or name not in rod.lasting.kept:
            return None
        return rod.lasting.marks(name, rods=rods, step_v=SCREEN_V)

    def times(self, to_ratio: float) -> Iterator[FieldTime]:
        """What each way that is for this battery takes to a charge."""
        own, soc = self.battery.battery, self.battery.charge.soc_ratio
        for way in self.ways:
            if soc is None or own.c20_ah is None or not self._may(way):
                continue
            try:
                takes = charge_time(
                    feed=way.feed,
                    rating=way.rating,
                    soc_ratio=soc,
                    to_soc_ratio=to_ratio,
                    capacity_ah=own.c20_ah,
                    chemistry=own.chemistry,
                    temp_c=self.temp_c,
                    batteries_at_once=way.batteries_at_once,
                )
            except KitlistError:
                continue  # colder or hotter than any source has a time for
            yield FieldTime(way=way, takes=takes)

    def _may(self, way: WayToCharge) -> bool:
        """Whether a way is for this battery: an engine only for those of its own vehicle, halves only when level."""
        if way.feed in (Feed.CHARGER, Feed.PANEL):
            return True
        vehicle = _vehicle(self.kit, self.battery.battery)
        if vehicle is None or vehicle.name != way.of:
            return False
        if vehicle.start_batteries is not StartBatteries.PAIR:
            return True
        return self.battery.battery.place is BatteryPlace.START and self._level(vehicle) is Rejoin.BACK

    def _level(self, vehicle: Vehicle) -> Rejoin | None:
        newest = {name: battery.reading for name, battery in self.outlook.batteries.items()}
        found = halves(self.kit, vehicle, newest)
        return None if found is None else found.may

    def _remark(self) -> str:
        vehicle = _vehicle(self.kit, self.battery.battery)
        if vehicle is None or self.battery.battery.place is not BatteryPlace.START:
            return ""
        if vehicle.start_batteries is StartBatteries.TWIN:
            return "beside its twin, which takes half of what the alternator gives"
        if vehicle.start_batteries is not StartBatteries.PAIR:
            return ""
        if self._level(vehicle) is Rejoin.BACK:
            return "bridged, both halves together: they read level"
        return "a half of 24 V: alone on a charger until both, rested, are 0.05 V apart; not under the alternator"


def times_of(
    kit: Kit,
    trip: Trip,
    outlook: Outlook,
    battery: BatteryOutlook,
    *,
    to_ratio: float,
    ways: tuple[WayToCharge, ...],
    temp_c: float,
) -> tuple[FieldTime, ...]:
    """What each way that is for a battery takes to a charge, from the one it has, at a temperature of its own."""
    return tuple(_Line(kit, trip, outlook, battery, ways, temp_c).times(to_ratio))


def _vehicle(kit: Kit, battery: Battery) -> Vehicle | None:
    return next((vehicle for vehicle in kit.vehicles if vehicle.name == battery.vehicle), None)
