"""A bank on offer: what the planner ranks by, and what is to be expected of it, which is what every face shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.measures import counted
from kitlist.base.terms import Polarity
from kitlist.kit import Kit, Trip
from kitlist.outlook import Expected, expect
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.lasting import RodsInHand
from kitlist.outlook.offerable import Lost, joins_up, lost_by, serves
from kitlist.outlook.options.planner import Option
from kitlist.outlook.options.weighing import worth_of
from kitlist.outlook.rods import RodOutlook, best_of
from kitlist.outlook.starters import Lent, parted_badly, takes_every_start
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.verdict import Fit, rank_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A bank that may be linked. `option` is the planner's; everything that has a number comes from `expected`."""

    option: Option
    trip: Trip
    expected: Expected
    best: RodOutlook
    takes_every_start: bool = False
    parted: tuple[Lent, ...] = ()
    flat: tuple[str, ...] = ()  # batteries that were deep-discharged, and not tested under load since

    @property
    def strings(self) -> tuple[tuple[str, ...], ...]:
        """Battery names in linking order, one tuple a parallel string."""
        return self.trip.strings

    @property
    def fit(self) -> Fit:
        """How the bank runs the rod that it suits best."""
        return self.best.fit or Fit.NO_ARC

    @property
    def band(self) -> Band:
        """The current with that rod."""
        return self.best.band or Band(0.0, 0.0, 0.0, 1.0)

    @property
    def words(self) -> str:
        """Its batteries in linking order, as every face writes them."""
        return " | ".join(" → ".join(string) for string in self.strings)

    @property
    def rods(self) -> RodsInHand | None:
        """How many of that rod it gives."""
        return self.best.rods

    @property
    def sure(self) -> int:
        """Rods that can be counted on."""
        return self.rods.sure if self.rods else 0

    @property
    def short_mm(self) -> float | None:
        """The longest arc that it holds, mm, where that is a short one; None where it holds well."""
        bank = self.expected.bank
        return bank.holds_mm if bank is not None and bank.short_arc else None

    @property
    def rested_v(self) -> float:
        """Volts at rest."""
        return (self.expected.bank.rested_v if self.expected.bank else None) or 0.0

    @property
    def shares(self) -> tuple[float, ...]:
        """Each string's part of the current."""
        kept = self.best.lasting.kept if self.best.lasting else {}
        return tuple(kept[string[0]].share_ratio for string in self.strings if string[0] in kept)

    @property
    def rank(self) -> float:
        """How it runs the rod and holds its arc, in the ranking; least is best."""
        return rank_of(self.fit, short_arc=self.short_mm is not None)

    @property
    def key(self) -> tuple[float, ...]:
        """What offers are ranked by, least first, as the planner ranks: but by what is expected."""
        quick = self.option.key
        worth = worth_of(self.best.counted, quick.warnings)
        starts = (self.takes_every_start, len(self.parted))
        return (*starts, self.rank, worth, quick.warnings, quick.links, quick.mass_kg)


def with_bank(trip: Trip, strings: tuple[tuple[str, ...], ...]) -> Trip:
    """The same trip with another bank."""
    return replace(trip, bank=tuple(name for string in strings for name in string), bank_strings=max(1, len(strings)))


def offer_of(
    kit: Kit,
    trip: Trip,
    option: Option,
    batteries: Mapping[str, BatteryOutlook],
    *,
    on: date,
    polarity: Polarity | None,
) -> Offer | Lost:
    """A bank of the planner's as it may be offered; or why it is not, as it is expected.

    The kit may be one with the usable packets alone; `polarity` is what all that are packed say. Whether the leads join
    it up is asked first: it is the least work.
    """
    chosen = with_bank(trip, option.strings)
    if not joins_up(kit, chosen, polarity):
        return Lost.JOIN
    found = expect(kit, chosen, batteries, on=on)
    lost = lost_by(kit, chosen, found, polarity=polarity)
    best = best_of(rod for rod in found.rods if serves(rod))
    if lost is not None or best is None:
        return lost or Lost.FIT
    return Offer(
        option=option,
        trip=chosen,
        expected=found,
        best=best,
        takes_every_start=takes_every_start(kit, chosen),
        parted=parted_badly(kit, chosen),
        flat=tuple(name for name in chosen.bank if name in batteries and batteries[name].flat),
    )


def why_behind(loser: Offer, winner: Offer) -> str:
    """The first thing in the ranking that sets a bank behind the winner, as a sentence."""
    if loser.takes_every_start > winner.takes_every_start:
        return "takes every starting battery: no vehicle could start"
    if len(loser.parted) > len(winner.parted):
        return f"takes {loser.parted[0]}"
    if loser.rank > winner.rank and loser.short_mm is not None and winner.short_mm is None:
        return f"short arc only, up to {loser.short_mm:g} mm: it strikes hard and goes out when the hand lifts"
    if loser.rank != winner.rank:
        return f"{loser.fit} with {loser.best.words}, not {winner.fit}"
    more = [sentence for sentence in loser.option.warnings if sentence not in winner.option.warnings]
    if more and loser.sure >= winner.sure:
        return f"less well matched: {'; '.join(more)}"
    if loser.sure != winner.sure:
        return f"{counted(loser.sure, 'rod')} sure, not {winner.sure}"
    if loser.option.links != winner.option.links:
        return f"needs {counted(loser.option.links, 'link')}, not {winner.option.links}"
    if loser.option.key.mass_kg != winner.option.key.mass_kg:
        return f"{loser.option.key.mass_kg:g} kg to lift, not {winner.option.key.mass_kg:g}"
    return "as good: either will do"
