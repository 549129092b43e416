"""What this crew's own welds and practice welds taught: predicted against measured, and what to measure next.

Ampere-hours a rod are learned for each kind of rod by itself; the resistance of a bank and the volts of the arc as
they were predicted, whatever the bank, so that three batteries teach something about two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from kitlist.base.errors import KitlistError
from kitlist.kit import Bead, Kit, Trip, Weld
from kitlist.outlook import look_out
from kitlist.outlook.bank import bank_outlook
from kitlist.outlook.own_rods import LearnedLine, line_of, rod_lines
from kitlist.physics.arc.arc import Arc
from kitlist.physics.arc.bead import BeadReadings, work_out
from kitlist.physics.bank.learning import Learnable, OwnReading


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnWelds:
    """Everything that was learned; `unused` names each weld that teaches no ampere-hours, with the reason."""

    lines: tuple[LearnedLine, ...]
    unused: tuple[tuple[str, str], ...]

    @property
    def next_best(self) -> LearnedLine | None:
        """What one more measurement would narrow most."""
        return max(self.lines, key=lambda line: line.narrows_by, default=None)


def own_welds(kit: Kit, *, on: date) -> OwnWelds:
    """All that welds and practice welds up to a day have taught."""
    welds = sorted((w for w in kit.welds if w.welded_on <= on), key=lambda w: w.welded_on)
    beads = sorted((b for b in kit.beads if b.welded_on <= on), key=lambda b: b.welded_on)
    lines, unused = rod_lines(kit, on=on)
    resistances, arcs = _meters(kit, beads, welds)
    ohm = line_of(Learnable.RESISTANCE_OHM, "of what was predicted", "", 1.0, resistances)
    arc = line_of(Learnable.ARC_V, "before the current counts", "V", Arc().level_v, arcs)
    return OwnWelds(lines=(*lines, ohm, arc), unused=unused)


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
    repairs = (bead for weld in welds if (bead := weld.as_bead()) is not None)
    for bead in (*beads, *repairs):
        readings = bead.as_read()
        if bead.ballast:
            readings = replace(readings, holder_v=None)  # a strip between bank and holder is neither lead nor arc
        yield bead.name, bead.welded_on, bead.bank, bead.bank_strings, readings


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
