"""What is done in which order, as plain data: the one owner of every list that a crew follows.

`kitlist bank`, the card's faces, the phone and the pocket page word the same steps (`kitlist.outlook.procedure_words`);
none of them adds a step, leaves one out or changes the order. What does not apply to this kit is not here.

The order is that of the trade (common practice), argued where it is built: nothing is live until somebody watches for
fire; surface charge is taken off while the lamps still have their keys; the circuit is closed last, away from any
vent, and opened first; a rod goes into the holder only while the circuit is open; what was linked is unlinked before
a battery goes back; the fire watch starts with the last rod and keeps no battery out of its vehicle.
"""

from __future__ import annotations

from dataclasses import dataclass

from kitlist.base.sources import PRACTICE, Figure, Source, Tag
from kitlist.base.terms import Polarity
from kitlist.outlook.procedure_terms import Barred, Hazard, Phase, Task, Trouble

_NFPA = Source(Tag.MEMORY, "NFPA 51B")
CLEAR_M = Figure("bare earth round the weld", 11.0, "m", _NFPA)  # 35 ft
VENT_M = Figure("last joint from any vent", 0.5, "m", PRACTICE)
BANK_M = Figure("bank from the arc", 3.0, "m", PRACTICE)
BYSTANDER_M = Figure("others from the arc", 10.0, "m", PRACTICE)
WATCH_MIN = Figure("fire watch after the last rod", 60.0, "min", _NFPA)
AGAIN_H = Figure("look again for fire", 3.0, "h", PRACTICE)
GAS_H = Figure("from charging to linking", 1.0, "h", PRACTICE)
BLEED_A = Figure("load that takes surface charge off", 20.0, "A", PRACTICE)
BLEED_MIN = Figure("how long", 3.0, "min", PRACTICE)
SETTLE_MIN = Figure("from that load to reading", 5.0, "min", PRACTICE)
RECOVER_MIN = Figure("from the last rod to reading", 30.0, "min", PRACTICE)
TIE_V = Figure("between strings about to be joined", 0.2, "V", PRACTICE)  # some 14 A through 14 mohm
LEAST_WATER_L = Figure("water at the part", 9.0, "L", PRACTICE)


@dataclass(frozen=True, slots=True)
class Numbered:
    """A battery of the bank by its number in linking order, with what it must read at rest: before, and after, V."""

    number: int
    name: str
    vehicle: str
    go_v: float
    after_v: float
    over_full: bool = False  # what it must show afterwards is more than a full one reads: it is charged in any case
    only_full: bool = False  # as cold as the trip gets no reading shows the rods: charged full is the best there is


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """One step: what is done, to which battery or between which, the volts to read and what reads them."""

    do: Task
    battery: Numbered | None = None
    to: Numbered | None = None
    names: tuple[str, ...] = ()
    vehicle: str = ""
    at_least_v: float | None = None
    expected_v: float | None = None  # from readings, where there are some; a card has none
    amount: float | None = None


@dataclass(frozen=True, slots=True)
class Warn:
    """A warning: it stands directly before the step that it is for."""

    hazard: Hazard


@dataclass(frozen=True, slots=True)
class Behind:
    """What was recorded behind the weld of one of the trip's repairs, "" where nobody asked; or that it is no weld."""

    repair: str
    behind: str
    never: bool = False


@dataclass(frozen=True, slots=True)
class IfThen:
    """What to do when something goes wrong."""

    trouble: Trouble


Entry = Deed | Warn | Behind | IfThen


@dataclass(frozen=True, slots=True)
class Stage:
    """The steps of one phase, in order."""

    phase: Phase
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Procedure:
    """Everything that is done with this bank. `barred`: why it may not be linked; then there is no step to link it."""

    bank: tuple[Numbered, ...]
    strings: tuple[tuple[Numbered, ...], ...]
    polarity: Polarity | None
    opening: str  # "isolator", "far plug", or "" where nothing opens the circuit
    opens_in_work: bool
    alone: bool
    stages: tuple[Stage, ...]
    stop_v: float
    shade: int
    water_l: float
    low_hydrogen: tuple[str, ...] = ()
    barred: tuple[Barred, ...] = ()
    refused: tuple[tuple[str, str], ...] = ()  # batteries of the bank that must be in none, each with why
    wet_limit_v: float

    def stage(self, phase: Phase) -> Stage:
        """The steps of a phase; none where the bank may not be linked."""
        return next((stage for stage in self.stages if stage.phase is phase), Stage(phase, ()))
