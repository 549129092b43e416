"""Practice welds: what was predicted for each, what was measured, and what it says of bank, leads and arc."""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.errors import KitlistError
from kitlist.base.terms import Covering
from kitlist.kit import Bead, Kit, Trip
from kitlist.outlook import look_out
from kitlist.outlook.bank import bank_outlook
from kitlist.physics.arc.bead import BeadResult, work_out
from kitlist.physics.bank.band import Band
from kitlist.welding.designation.designations import decode


@dataclass(frozen=True, slots=True, kw_only=True)
class BeadOutlook:
    """A practice weld; `predicted` is the band without any bead, None where it could not be predicted."""

    bead: Bead
    predicted: Band | None
    result: BeadResult

    @property
    def inside(self) -> bool | None:
        """Whether the measured amps lie in the band that was predicted."""
        if self.predicted is None:
            return None
        return self.predicted.low_a <= self.bead.current_a <= self.predicted.high_a


def bead_outlook(kit: Kit, bead: Bead) -> BeadOutlook:
    """What was predicted on the day of a practice weld, and what its meters say. Raises BadData for nonsense."""
    trip = Trip(
        name=bead.name,
        starts_on=bead.welded_on,
        ends_on=bead.welded_on,
        vehicles=tuple(v.name for v in kit.vehicles),
        bank=bead.bank,
        bank_strings=bead.bank_strings,
        ballast=bead.ballast,
    )
    batteries = look_out(kit, trip, on=bead.welded_on).batteries
    bank = bank_outlook(kit, trip, batteries)
    return BeadOutlook(bead=bead, predicted=bank.band(_covering(kit, bead)), result=work_out(bead.as_read()))


def _covering(kit: Kit, bead: Bead) -> Covering | None:
    """That of the rods it was welded with; None where none were named, or their designation tells none."""
    rod = next((rod for rod in kit.rods if rod.name == bead.rod), None)
    try:
        return None if rod is None else decode(rod.designation).covering
    except KitlistError:
        return None
