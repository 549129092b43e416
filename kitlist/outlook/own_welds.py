"""What this crew's own welds and practice welds taught: predicted against measured, and what to measure next.

Ampere-hours a rod are learned for each kind of rod by itself; the resistance of a bank and the volts of the arc as
they were predicted, whatever the bank, so that three batteries teach something about two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.errors import KitlistError
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.kit import Bead, Kit, Rod, Trip, Weld
from kitlist.outlook import look_out
from kitlist.outlook.bank import bank_outlook
from kitlist.physics.arc.arc import Arc
from kitlist.physics.arc.bead import BeadReadings, work_out
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


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnWelds:
    """Everything that was learned; `unused` names each weld that teaches no ampere-hours, with the reason."""

    lines: tuple[LearnedLine, ...]
    unused: tuple[tuple[str, str], ...]

    @property
    def next_best(self) -> LearnedLine | None:
        """What one more measurement would narrow most."""
        return max(self.lines, key=lambda line: line.narrows_by, default=None)


_MEASURE = {
    Learnable.ROD_AH: "volts across the bank at rest before a weld and, 2 h after it, again; and count the rods",
    Learnable.RESISTANCE_OHM: "a practice bead: volts across the bank at rest and while welding, and the amps",
    Learnable.ARC_V: "a practice bead: volts from holder to work and the amps",
}


def own_welds(kit: Kit, *, on: date) -> OwnWelds:
    """All that welds and practice welds up to a day have taught."""
    welds = sorted((w for w in kit.welds if w.welded_on <= on), key=lambda w: w.welded_on)
    beads = sorted((b for b in kit.beads if b.welded_on <= on), key=lambda b: b.welded_on)
    unused: list[tuple[str, str]] = []
    by_rod: dict[str, tuple[float, list[OwnReading]]] = {}
    for weld in welds:
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
    lines = [_line(Learnable.ROD_AH, of, "Ah", prior, readings) for of, (prior, readings) in by_rod.items()]
    resistances, arcs = _meters(kit, beads, welds)
    lines.append(_line(Learnable.RESISTANCE_OHM, "of what was predicted", "", 1.0, resistances))
    lines.append(_line(Learnable.ARC_V, "before the current counts", "V", Arc().level_v, arcs))
    return OwnWelds(lines=tuple(lines), unused=tuple(unused))


def learned_rod_ah(kit: Kit, rod: Rod, *, on: date) -> Span | None:
    """Ampere-hours a rod of this packet's kind by own welds, the 80 % band of the next one; None without any."""
    words = rod_words(rod)
    for line in own_welds(kit, on=on).lines:
        if line.what is Learnable.ROD_AH and line.of == words and line.learned.used:
            return line.next_weld
    return None


def rod_words(rod: Rod) -> str:
    """A kind of rod as people call it; what is learned of one packet holds for the next of its kind."""
    return f"{rod.diameter_mm:g} mm {rod.designation}"


def _line(what: Learnable, of: str, unit: str, prior: float, readings: Sequence[OwnReading]) -> LearnedLine:
    return LearnedLine(
        what=what,
        of=of,
        unit=unit,
        predicted=prior,
        learned=learn_from(what, prior=prior, readings=readings),
        hits=hit_rate(what, prior=prior, readings=readings),
        narrows_by=narrows_by(what, readings=readings),
        measure=_MEASURE[what],
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


def _meters(kit: Kit, beads: Sequence[Bead], welds: Sequence[Weld]) -> tuple[list[OwnReading], list[OwnReading]]:
    """Resistance of the bank against what was predicted, and volts of the arc, of everything that was metered."""
    resistances, arcs = [], []
    for name, day, bank, strings, readings in _metered(beads, welds):
        try:
            seen = work_out(readings)
            predicted = _predicted_ohm(kit, name, day, bank, strings)
        except KitlistError:
            continue
        if predicted is not None and seen.source_ohm > 0.0:
            ratio = seen.source_ohm / predicted
            resistances.append(OwnReading(ratio, Learnable.RESISTANCE_OHM.reading_sd, name))
        if seen.arc_level_v is not None:
            arcs.append(OwnReading(seen.arc_level_v, Learnable.ARC_V.reading_sd, name))
    return resistances, arcs


_Metered = tuple[str, date, tuple[str, ...], int, BeadReadings]


def _metered(beads: Sequence[Bead], welds: Sequence[Weld]) -> Iterator[_Metered]:
    for bead in beads:
        readings = bead.as_read()
        # A strip between bank and holder is neither lead nor arc.
        yield (
            bead.name,
            bead.welded_on,
            bead.bank,
            bead.bank_strings,
            (replace(readings, holder_v=None) if bead.ballast else readings),
        )
    for weld in welds:
        if weld.before_v is not None and weld.bank_v is not None and weld.current_a is not None and weld.bank:
            readings = BeadReadings(
                rest_v=weld.before_v,
                bank_v=weld.bank_v,
                current_a=weld.current_a,
                in_series=weld.in_series,
                in_parallel=weld.bank_strings,
                holder_v=None if weld.ballast else weld.holder_v,
            )
            yield weld.name, weld.welded_on, weld.bank, weld.bank_strings, readings


def _predicted_ohm(kit: Kit, name: str, day: date, bank: tuple[str, ...], strings: int) -> float | None:
    """Resistance of a bank with its posts and links as it was predicted on that day, ohm; None where it was not."""
    trip = Trip(
        name=name,
        starts_on=day,
        ends_on=day,
        vehicles=tuple(v.name for v in kit.vehicles),
        bank=bank,
        bank_strings=strings,
    )
    seen = bank_outlook(kit, trip, look_out(kit, trip, on=day).batteries)
    if seen.rig is None:
        return None
    network = seen.rig.network()
    branches = [sum(unit.branch_ohm for unit in group) for group in network.groups]
    return 1 / sum(1 / (ohm + link) for ohm, link in zip(branches, network.links_ohm, strict=True))
