"""Ampere-hours a rod by this crew's own welds: from rods burned, and the bank's volts at rest before and after."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from kitlist.base.errors import KitlistError
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.kit import Kit, Rod, Weld
from kitlist.physics.bank.learning import (
    HitRate,
    Learnable,
    LearnedValue,
    OwnReading,
    ah_from_volts,
    hit_rate,
    learn_from,
    narrows_by,
    rod_ah_reading,
)
from kitlist.welding.designation.designations import decode
from kitlist.welding.rods.consumption import burn
from kitlist.welding.rods.currents import current_range

WIDER = Figure("a band that held too few is shown wider by", 1.5, "ratio", PRACTICE)
LEAST_REST_H = 2.0  # before this the volts after a weld still rise; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedLine:
    """One thing that own welds narrow: of what, its unit, predicted before any, what is known now, and the hits.

    `unit` is "" where it is a ratio to what was predicted. `narrows_by` is what one more measurement would take off
    its spread, and `measure` what that measurement is.
    """

    what: Learnable
    of: str
    unit: str
    predicted: float
    learned: LearnedValue
    hits: HitRate
    narrows_by: float
    measure: str

    @property
    def next_weld(self) -> Span:
        """The 80 % band of the next one, half as wide again where the bands so far held too few."""
        band, what = self.learned.next_weld, self.what
        if not self.hits.too_narrow:
            return band
        low, best, high = (what.inward(x) for x in (band.low, band.best, band.high))
        wide = (best - (best - low) * WIDER.value, best, best + (high - best) * WIDER.value)
        return Span(*(what.outward(x) for x in wide))

    @property
    def readings(self) -> tuple[OwnReading, ...]:
        """Every reading, those set aside too."""
        return (*self.learned.used, *self.learned.set_aside)


MEASURE = {
    Learnable.ROD_AH: "volts across the bank at rest before a weld and, 2 h after it, again; and count the rods",
    Learnable.RESISTANCE_OHM: "a practice bead: volts across the bank at rest and while welding, and the amps",
    Learnable.ARC_V: "a practice bead: volts from holder to work and the amps",
}


def rods_taught(kit: Kit, *, on: date) -> Mapping[str, Span]:
    """Ampere-hours a rod by own welds up to a day, by kind: the 80 % band of the next weld. Empty without any."""
    found, _ = rod_lines(kit, on=on)
    return {line.of: line.next_weld for line in found if line.learned.used}


def rod_lines(kit: Kit, *, on: date) -> tuple[tuple[LearnedLine, ...], tuple[tuple[str, str], ...]]:
    """What is known of each kind of rod, packed or welded with; and the welds that teach nothing, each with why."""
    unused: list[tuple[str, str]] = []
    by_rod: dict[str, tuple[float, list[OwnReading]]] = {}
    for weld in sorted((w for w in kit.welds if w.welded_on <= on), key=lambda w: w.welded_on):
        found = _rod_reading(kit, weld)
        if isinstance(found, str):
            unused.append((weld.name, found))
        else:
            words, prior, reading = found
            by_rod.setdefault(words, (prior, []))[1].append(reading)
    for rod in kit.rods:
        known = _prior_ah(rod)
        if known is not None:
            by_rod.setdefault(rod_words(rod), (known, []))
    lines = (line_of(Learnable.ROD_AH, of, "Ah", prior, readings) for of, (prior, readings) in by_rod.items())
    return tuple(lines), tuple(unused)


def rod_words(rod: Rod) -> str:
    """A kind of rod as people call it; what is learned of one packet holds for the next of its kind, however typed."""
    try:
        name = decode(rod.designation).text
    except KitlistError:
        name = rod.designation
    return f"{rod.diameter_mm:g} mm {name}"


def line_of(what: Learnable, of: str, unit: str, prior: float, readings: Sequence[OwnReading]) -> LearnedLine:
    """One thing learned, from what was predicted and what was read."""
    return LearnedLine(
        what=what,
        of=of,
        unit=unit,
        predicted=prior,
        learned=learn_from(what, prior=prior, readings=readings),
        hits=hit_rate(what, prior=prior, readings=readings),
        narrows_by=narrows_by(what, readings=readings),
        measure=MEASURE[what],
    )


def _rod_reading(kit: Kit, weld: Weld) -> tuple[str, float, OwnReading] | str:
    """Kind of rod, predicted and measured ampere-hours of one weld; or why it teaches none."""
    if weld.before_v is None or weld.after_v is None:
        return "volts before and after were not both read"
    if weld.after_rested_h is None or weld.after_rested_h < LEAST_REST_H:
        return f"read under {LEAST_REST_H:g} h after the weld, or nobody said when"
    rod = next((r for r in kit.rods if r.name == weld.rod), None)
    if rod is None or not weld.rods:
        return "which rods, or how many, is not said"
    batteries = [kit.battery[name] for name in weld.bank[: weld.in_series] if name in kit.battery]
    bank = [(b.chemistry, b.c20_ah) for b in batteries if b.c20_ah is not None]
    if len(bank) < weld.in_series or any(kind in (Chemistry.UNKNOWN, Chemistry.LITHIUM) for kind, _ in bank):
        return "kind or capacity of a battery is not known"
    try:
        given_ah = weld.bank_strings * ah_from_volts(before_v=weld.before_v, after_v=weld.after_v, bank=bank)
        capacity_ah = weld.bank_strings * sum(ah for _, ah in bank) / len(bank)
        reading = rod_ah_reading(used_ah=given_ah, rods=weld.rods, capacity_ah=capacity_ah, name=weld.name)
    except KitlistError as error:
        return error.message
    prior = _prior_ah(rod)
    return "what such a rod takes is in no table" if prior is None else (rod_words(rod), prior, reading)


def _prior_ah(rod: Rod) -> float | None:
    """Ampere-hours of one rod as predicted, the best guess; None where no table has it."""
    try:
        designation = decode(rod.designation)
        amps = current_range(designation.table_class, diameter_mm=rod.diameter_mm).start_a
        one = burn(designation.table_class, diameter_mm=rod.diameter_mm, length_mm=rod.length_mm, current_a=amps)
    except KitlistError:
        return None
    return one.charge_ah.best
