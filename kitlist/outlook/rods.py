"""One packet of rods on a trip: what it is, what this bank does with it, how many burn down to the reserve."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.errors import KitlistError
from kitlist.kit import Rod, Trip
from kitlist.outlook.bank import BankOutlook
from kitlist.physics import figures
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.endurance import Endurance, RodUse
from kitlist.physics.bank.verdict import Fit, judge
from kitlist.welding.designation.designation import Designation
from kitlist.welding.designation.designations import decode
from kitlist.welding.repairs.plate import plate_for_rod
from kitlist.welding.rods.consumption import RodBurn, burn
from kitlist.welding.rods.currents import CurrentRange, current_range
from kitlist.welding.rods.storage import Packet, PacketVerdict, judge_packet


@dataclass(frozen=True, slots=True, kw_only=True)
class RodOutlook:
    """A packet of rods. What cannot be told is None, and `not_known` says why. `foretold` is the band
    without any practice weld, `struck` that of the first strike where a ballast strip is still cold."""

    rod: Rod
    designation: Designation | None
    range: CurrentRange | None
    band: Band | None
    fit: Fit | None
    burn: RodBurn | None
    endurance: Endurance | None
    packet: PacketVerdict | None
    steel_mm: tuple[float, float] | None
    not_known: tuple[str, ...]
    foretold: Band | None = None
    struck: Band | None = None

    @property
    def highest_a(self) -> float | None:
        """The most that is to be expected, A: no practice weld, which may have been read wrong, lowers it."""
        if self.band is None:
            return None
        return max(band.high_a for band in (self.band, self.foretold, self.struck) if band is not None)

    @property
    def words(self) -> str:
        """The packet as people call it: 3.2 mm E6013."""
        name = self.designation.text if self.designation else self.rod.designation
        return f"{self.rod.diameter_mm:g} mm {name}"


def rod_outlook(
    rod: Rod, bank: BankOutlook | None, trip: Trip, *, hot_limit_ratio: float = figures.HOT_LIMIT.value
) -> RodOutlook:
    """The outlook of one packet of rods on the chosen bank."""
    not_known: list[str] = []
    designation = currents = band = foretold = fit = one = endurance = steel_mm = None
    try:
        designation = decode(rod.designation)
        steel_mm = plate_for_rod(rod_mm=rod.diameter_mm)
        currents = current_range(designation.table_class, diameter_mm=rod.diameter_mm)
    except KitlistError as error:
        not_known.append(error.message)
    if bank is not None and designation is not None:
        band, foretold = (bank.band(designation.covering, taught=taught) for taught in (True, False))
    if band is not None and currents is not None and designation is not None:
        fit = judge(band, range_low_a=currents.low_a, range_high_a=currents.high_a, hot_limit_ratio=hot_limit_ratio).fit
        try:
            one = _burn(rod, designation, band.middle_a)
        except KitlistError as error:
            not_known.append(error.message)
    if bank is not None and band is not None and designation is not None and one is not None:
        endurance = bank.endurance(_use(rod, designation, one), middle_a=band.middle_a)
    return RodOutlook(
        rod=rod,
        designation=designation,
        range=currents,
        band=band,
        fit=fit,
        burn=one,
        endurance=endurance,
        packet=None if designation is None else judge_packet(_packet(rod, designation, trip)),
        steel_mm=steel_mm,
        not_known=tuple(not_known),
        foretold=foretold,
        struck=None if bank is None or bank.ballast is None or designation is None else _struck(bank, designation),
    )


def _struck(bank: BankOutlook, designation: Designation) -> Band | None:
    return bank.band(designation.covering, taught=False, cold_strip=True)


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
