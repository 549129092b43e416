"""What a rod's designation says: one answer for every system, each statement with its source."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import Covering, Polarity, Position


class System(StrEnum):
    """The standard that a designation is written in."""

    AWS_A5_1 = "AWS A5.1"
    AWS_A5_4 = "AWS A5.4"
    ISO_2560_A = "ISO 2560-A"
    ISO_2560_B = "ISO 2560-B, AS/NZS 4855-B"
    AS_NZS_1553_1 = "AS/NZS 1553.1 (superseded)"


class StorageFamily(StrEnum):
    """How the rod must be kept; `kitlist.welding.rods.storage` has the figures."""

    CELLULOSIC = "cellulosic"
    RUTILE = "rutile and iron oxide"
    BASIC = "basic (low-hydrogen)"
    BASIC_MILITARY = "basic (low-hydrogen), E7018M"
    STAINLESS = "stainless"


HYDROGEN_SCALE = Source(Tag.MEMORY, "EN 1011-2")
POSITION_WORDS = {
    Position.FLAT: "flat",
    Position.VERTICAL: "vertical",
    Position.VERTICAL_DOWN: "vertical-down",
    Position.OVERHEAD: "overhead",
    Position.HORIZONTAL: "horizontal",
    Position.HORIZONTAL_FILLET: "horizontal fillet",
}


@dataclass(frozen=True, slots=True)
class Strength:
    """Least mechanical properties of the weld metal; None where the designation or its table does not say."""

    tensile_mpa: int | None
    yield_mpa: int | None
    elongation_ratio: float | None
    source: Source
    tensile_most_mpa: int | None = None


@dataclass(frozen=True, slots=True)
class Toughness:
    """Impact energy and the temperature it is held to; `energy_j` None means not specified by the class."""

    energy_j: int | None
    at_c: int | None
    source: Source

    @property
    def words(self) -> str:
        """As it is read aloud: 27 J at −30 °C.

        >>> from kitlist.base.sources import PRACTICE
        >>> Toughness(27, -30, PRACTICE).words
        '27 J at −30 °C'
        """
        if self.energy_j is None:
            return "not specified"
        return f"{self.energy_j} J at {self.at_c} °C".replace("-", "−")


@dataclass(frozen=True, slots=True)
class Suffix:
    """One mark after the class, and what it promises."""

    mark: str
    meaning: str
    source: Source


@dataclass(frozen=True, slots=True)
class Equivalent:
    """The same rod, or the nearest one, in another system."""

    system: System
    text: str
    exact: bool
    source: Source


@dataclass(frozen=True, slots=True)
class DesignationFact:
    """One line of what a designation says."""

    label: str
    words: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Designation:
    """A designation, read.

    `polarities` are those allowed in every position the rod welds; empty means that the designation does not say
    (read the packet). `flat_polarities` are those allowed lying flat. `table_class` is the A5.1 class whose tables
    of current and deposit apply, None where no class is near.
    """

    text: str
    system: System
    covering: Covering
    covering_words: str
    covering_source: Source
    positions: tuple[Position, ...]
    position_source: Source
    largest_all_position_mm: float | None
    ac: bool | None
    dc: bool | None
    polarities: tuple[Polarity, ...]
    flat_polarities: tuple[Polarity, ...]
    current_source: Source
    strength: Strength
    toughness: Toughness
    hydrogen_ml_100g: float | None
    moisture_resistant: bool
    suffixes: tuple[Suffix, ...]
    storage: StorageFamily
    table_class: str | None
    table_class_source: Source
    recovery_words: str = ""
    equivalents: tuple[Equivalent, ...] = ()

    @property
    def low_hydrogen(self) -> bool:
        """A basic covering, which is low-hydrogen only while it is dry."""
        return self.covering is Covering.BASIC

    @property
    def hydrogen_words(self) -> str:
        """What may be expected of hydrogen, marked or not. EN 1011-2 scale: A over 15 mL, C 5 to 10, D 3 to 5."""
        if self.hydrogen_ml_100g is not None:
            return f"at most {self.hydrogen_ml_100g:g} mL in 100 g of deposit, while dry"
        if self.low_hydrogen:
            return "low while dry, 3 to 10 mL in 100 g when baked (scale C to D); no figure is marked"
        if self.covering is Covering.STAINLESS:
            return "not marked; austenitic weld metal bears it"
        return "high, over 15 mL in 100 g (scale A): not for hard or thick steel"

    @property
    def position_words(self) -> str:
        """The positions, in words."""
        if not self.positions:
            return "not in this designation: read them on the packet"
        return ", ".join(POSITION_WORDS[p] for p in self.positions)

    @property
    def current_words(self) -> str:
        """Current and polarity, always at both ends."""
        if not self.dc:
            return "current and polarity are not in this designation: read them on the packet"
        alternating = "AC or DC" if self.ac else "DC only"
        if not self.flat_polarities:
            return f"{alternating}; polarity is not in this designation: read it on the packet"
        words = " or ".join(p.words for p in self.polarities)
        if self.polarities != self.flat_polarities:
            words += "; lying flat also " + " or ".join(
                p.words for p in self.flat_polarities if p not in self.polarities
            )
        return f"{alternating}: {words}"

    def facts(self) -> tuple[DesignationFact, ...]:
        """All that the designation says, line by line, each with its source."""
        lines = [
            DesignationFact("system", self.system.value, self.position_source),
            DesignationFact("covering", self.covering_words, self.covering_source),
            DesignationFact("positions", self._reach(), self.position_source),
            DesignationFact("current and polarity", self.current_words, self.current_source),
            DesignationFact("least tensile strength", self._tensile(), self.strength.source),
        ]
        if self.strength.yield_mpa is not None:
            lines.append(
                DesignationFact("least yield strength", f"{self.strength.yield_mpa} MPa", self.strength.source)
            )
        if self.strength.elongation_ratio is not None:
            percent = f"{100 * self.strength.elongation_ratio:.0f} %"
            lines.append(DesignationFact("least elongation", percent, self.strength.source))
        lines.append(DesignationFact("toughness", self.toughness.words, self.toughness.source))
        lines.append(DesignationFact("hydrogen", self.hydrogen_words, HYDROGEN_SCALE))
        if self.recovery_words:
            lines.append(DesignationFact("recovery", self.recovery_words, self.current_source))
        lines += [DesignationFact(f"mark {s.mark}", s.meaning, s.source) for s in self.suffixes]
        lines.append(DesignationFact("keep as", self.storage.value, self.covering_source))
        if self.table_class and self.table_class != self.text:
            lines.append(DesignationFact("amperes and grams as", self.table_class, self.table_class_source))
        lines += [
            DesignationFact(f"{'same' if e.exact else 'roughly'} in {e.system.value}", e.text, e.source)
            for e in self.equivalents
        ]
        return tuple(lines)

    def _reach(self) -> str:
        if self.largest_all_position_mm is None:
            return self.position_words
        return f"{self.position_words}; out of the flat to {self.largest_all_position_mm:.1f} mm"

    def _tensile(self) -> str:
        if self.strength.tensile_mpa is None:
            return "not specified"
        if self.strength.tensile_most_mpa is not None:
            return f"{self.strength.tensile_mpa} to {self.strength.tensile_most_mpa} MPa"
        return f"{self.strength.tensile_mpa} MPa"
