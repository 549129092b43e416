"""One packet of rods on a trip: what it is, what this bank does with it, how many burn down to the reserve."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from kitlist.base.errors import KitlistError
from kitlist.base.span import Span
from kitlist.kit import Rod, Trip
from kitlist.outlook.bank import BankOutlook
from kitlist.outlook.lasting import Lasting, RodsInHand
from kitlist.outlook.own_rods import rod_words
from kitlist.physics import figures
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.endurance import RodUse
from kitlist.physics.bank.verdict import Fit, judge
from kitlist.welding.designation.designation import Designation
from kitlist.welding.designation.designations import decode
from kitlist.welding.repairs.plate import plate_for_rod, steel_when_hot
from kitlist.welding.rods.consumption import RodBurn, burn
from kitlist.welding.rods.currents import CurrentRange, current_range
from kitlist.welding.rods.storage import Fitness, Packet, PacketVerdict, judge_packet


@dataclass(frozen=True, slots=True, kw_only=True)
class RodOutlook:
    """A packet of rods. What cannot be told is None, and `not_known` says why. `predicted` is the band
    without any practice weld, `struck` that of the first strike where a ballast strip is still cold; `full` that of
    the same bank charged full, where what is said must hold however full it is."""

    rod: Rod
    designation: Designation | None
    range: CurrentRange | None
    band: Band | None
    fit: Fit | None
    burn: RodBurn | None
    lasting: Lasting | None
    rods: RodsInHand | None
    packet: PacketVerdict | None
    steel_mm: tuple[float, float] | None
    not_known: tuple[str, ...]
    predicted: Band | None = None
    struck: Band | None = None
    full: Band | None = None

    @property
    def likely_a(self) -> float | None:
        """The current that the steel must take, A: the likely one, of a full bank where that is asked for."""
        return max((band.middle_a for band in (self.band, self.full) if band is not None), default=None)

    @property
    def usable(self) -> bool:
        """Whether the packet is fit to weld with as it is, or after a try: not wet, spoiled, or still to be baked."""
        return self.packet is not None and self.packet.fitness in (Fitness.GOOD, Fitness.TEST)

    @property
    def kept(self) -> bool:
        """Whether the packet counts at all: what is scrap at departure is on no card and says no polarity."""
        return self.packet is None or self.packet.fitness is not Fitness.SCRAP

    @property
    def welds(self) -> bool:
        """Whether this bank welds with this packet, on steel thick enough."""
        return self.usable and self.fit is not None and self.fit.welds

    @property
    def counted(self) -> int:
        """Likely rods, as far as there are rods to burn."""
        return min(self.rods.likely, self.rod.count) if self.rods else 0

    @property
    def highest_a(self) -> float | None:
        """The most that is to be expected, A, of a full bank where that is asked for.

        No practice weld, which may have been read wrong, lowers it.
        """
        if self.band is None:
            return None
        return max(band.high_a for band in (self.band, self.predicted, self.struck, self.full) if band is not None)

    @property
    def rods_words(self) -> str:
        """How many of it the bank gives, as every face says it: 7 sure, likely 12; or that it is not known."""
        if not self.rods:
            return "rods not known"
        return f"{self.rods.count.words} {'rod' if self.rods.likely == 1 else 'rods'}"

    @property
    def words(self) -> str:
        """The packet as people call it: 3.2 mm E6013."""
        name = self.designation.text if self.designation else self.rod.designation
        return f"{self.rod.diameter_mm:g} mm {name}"


def best_of(rods: Iterable[RodOutlook]) -> RodOutlook | None:
    """The packet that a bank suits best: the best fit, of hot ones the least hot, then the most rods; None of none."""

    def order(rod: RodOutlook) -> tuple[float, ...]:
        over = rod.likely_a / rod.range.high_a if rod.likely_a is not None and rod.range is not None else 0.0
        return rod.fit.rank if rod.fit else 99, max(1.0, over), -rod.counted

    return min((rod for rod in rods if rod.welds), key=order, default=None)


def rod_outlook(
    rod: Rod,
    bank: BankOutlook | None,
    trip: Trip,
    *,
    hot_limit_ratio: float = figures.HOT_LIMIT.value,
    taught: Mapping[str, Span] = MappingProxyType({}),
    counted: bool = True,
) -> RodOutlook:
    """The outlook of one packet of rods on the chosen bank; `taught` has ampere-hours a rod by own welds, by kind.

    Not `counted`, how many the bank gives is left out: it is most of the work, and a search asks for the current alone.
    """
    not_known: list[str] = []
    designation = currents = band = predicted = fit = one = lasts = steel_mm = None
    try:
        designation = decode(rod.designation)
        steel_mm = plate_for_rod(rod_mm=rod.diameter_mm)
        currents = current_range(designation.table_class, diameter_mm=rod.diameter_mm)
    except KitlistError as error:
        not_known.append(error.message)
    if bank is not None and designation is not None:
        band, predicted = (bank.band(designation.covering, taught=bead) for bead in (True, False))
    if band is not None and currents is not None and designation is not None:
        fit = judge(band, range_low_a=currents.low_a, range_high_a=currents.high_a, hot_limit_ratio=hot_limit_ratio)
        try:
            one = _burn(rod, designation, band.middle_a)
            if one is not None and (own_ah := taught.get(rod_words(rod))) is not None:
                one = replace(one, charge_ah=own_ah)
        except KitlistError as error:
            not_known.append(error.message)
    if counted and bank is not None and band is not None and designation is not None and one is not None:
        lasts = bank.lasting(_use(rod, designation, one), band)
    return RodOutlook(
        rod=rod,
        designation=designation,
        range=currents,
        band=band,
        fit=fit,
        burn=one,
        lasting=lasts,
        rods=lasts.rods(bank.batteries) if lasts is not None and bank is not None else None,
        packet=None if designation is None else judge_packet(_packet(rod, designation, trip)),
        steel_mm=_steel(rod, fit, band, currents, steel_mm),
        not_known=tuple(not_known),
        predicted=predicted,
        struck=None if bank is None or bank.ballast is None or designation is None else _struck(bank, designation),
    )


def _struck(bank: BankOutlook, designation: Designation) -> Band | None:
    return bank.band(designation.covering, taught=False, cold_strip=True)


def _steel(
    rod: Rod, fit: Fit | None, band: Band | None, currents: CurrentRange | None, usual_mm: tuple[float, float] | None
) -> tuple[float, float] | None:
    """The steel that the rod is for on this bank: where it runs hot, only what is thick enough to take it, mm."""
    if usual_mm is None or band is None or currents is None or fit not in (Fit.WARM, Fit.HOT):
        return usual_mm
    least_mm = steel_when_hot(rod_mm=rod.diameter_mm, likely_a=band.middle_a, top_a=currents.high_a)
    return max(usual_mm[0], least_mm), max(usual_mm[1], least_mm)


def _burn(rod: Rod, designation: Designation, current_a: float) -> RodBurn | None:
    """What one rod takes at the bank's current; None where there is no arc."""
    if current_a <= 0:
        return None
    return burn(
        designation.table_class, diameter_mm=rod.diameter_mm, length_mm=rod.length_mm, current_a=min(current_a, 600.0)
    )


def _use(rod: Rod, designation: Designation, one: RodBurn) -> RodUse:
    charge = one.charge_ah
    return RodUse(charge_ah=charge, count=rod.count, covering=designation.covering)


def _packet(rod: Rod, designation: Designation, trip: Trip) -> Packet:
    """What is known of the packet on the day of departure."""
    open_h = None if rod.opened_on is None else max(0, (trip.starts_on - rod.opened_on).days) * 24.0
    return Packet(
        family=designation.storage,
        storage=rod.storage,
        condition=rod.condition,
        open_h=open_h,
        exposed_h=rod.exposed_h,
        moisture_resistant=designation.moisture_resistant,
        bakes=rod.bakes,
    )
