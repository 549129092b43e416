"""Which rod for which steel: mild takes any; hydrogen and hardness decide the rest."""

from __future__ import annotations

import re
from dataclasses import dataclass

from kitlist.base.noted import first_of
from kitlist.base.sources import PRACTICE, Source, Tag, sourced, table
from kitlist.base.terms import Covering, Steel
from kitlist.welding.designation.designation import Designation

EN_1011_2 = Source(Tag.MEMORY, "EN 1011-2")
OD1651 = Source(Tag.READ, "OD1651 p. 16")
ZINC = "zinc: grind to bare steel 50 mm each side, both faces; weld upwind; P2, FFP2 or better mask"
CADMIUM = "cadmium: never weld, heat or grind it, its fume kills; bolt or strap it, or fit a plain steel part"
_ZINC_NAMED = re.compile(r"galvani[sz]|\bgalv\b|\bzinc")
_CADMIUM_NAMED = re.compile(r"\bcadmium|\bcad[ -]plat|\bgold[ -](plat|colour|color)|\byellow[ -](plat|passivat)")
RAIL = Source(Tag.READ, "TM 5-4210-230-14&P-1")


def zinc_named(words: str) -> bool:
    """Whether somebody's words for a part say that it is zinc plated.

    >>> zinc_named("Galvanized rack leg"), zinc_named("rack leg")
    (True, False)
    """
    return _ZINC_NAMED.search(words.casefold()) is not None


def cadmium_named(words: str) -> bool:
    """Whether somebody's words for a part say that it is cadmium plated, as old yellow bolts and brackets are.

    >>> cadmium_named("Cad-plated bracket"), cadmium_named("zinc plated bracket")
    (True, False)
    """
    return _CADMIUM_NAMED.search(words.casefold()) is not None


@dataclass(frozen=True, slots=True)
class SteelNamed:
    """A metal that somebody's words for a part name, and the words; `steel` is None for one that is no steel here."""

    said: str
    steel: Steel | None


@sourced(PRACTICE)
def steel_named(words: str) -> SteelNamed | None:
    """The metal that somebody's words for a part name, None where they name none; galvanised is `zinc_named`.

    >>> steel_named("aluminium bull bar bracket").steel.value, steel_named("boron steel sill").steel.value
    ('aluminium', 'high-strength')
    >>> steel_named("spring hanger"), steel_named("bronze bush").steel
    (None, None)
    """
    for row in table("steel_words"):
        if said := first_of(words, row["words"].split("; ")):
            return SteelNamed(said, Steel(row["steel"]) if row["steel"] else None)
    return None


@dataclass(frozen=True, slots=True)
class SteelVerdict:
    """How a rod sits with a steel: `suits` is the word of `kitlist.welding.fit.Suits`."""

    suits: str
    words: str
    source: Source


@sourced(EN_1011_2, OD1651, RAIL, PRACTICE)
def steel_suits(rod: Designation, steel: Steel, *, load_bearing: bool | None) -> SteelVerdict | None:
    """What speaks against, or for care with, a rod on a steel; None where nothing does.

    Stainless rods of the 312, 309 and 310 kind forgive unknown and hardened steel; low-hydrogen ones do while dry;
    rutile and cellulosic ones bring hydrogen, and a hard steel cracks beside their weld.

    >>> from kitlist.welding.designation.designations import decode
    >>> steel_suits(decode("E6013"), Steel.SPRING, load_bearing=True).suits
    'wrong steel'
    """
    stainless = rod.covering is Covering.STAINLESS
    forgiving = stainless and rod.text[1:4] in ("309", "310", "312")
    match steel:
        case Steel.MILD:
            return None
        case Steel.GALVANISED:
            return SteelVerdict("right", ZINC, PRACTICE)
        case Steel.UNKNOWN:
            if rod.low_hydrogen or forgiving:
                words = (
                    "the steel is not known; this rod forgives most. Try a file on it, weld little, look again at 24 h"
                )
                return SteelVerdict("only just" if load_bearing is not False else "right", words, PRACTICE)
            words = "the steel is not known: try a file on it; a hard steel cracks beside this rod's weld"
            return SteelVerdict("only just" if load_bearing is False else "not known", words, EN_1011_2)
        case Steel.HIGH_STRENGTH:
            if rod.low_hydrogen:
                words = "weaker than a heat-treated part: get home on it, keep the heat down"
                return SteelVerdict("only just", words, RAIL)
            return SteelVerdict("wrong steel", "heat-treated steel asks for a dry low-hydrogen rod", RAIL)
        case Steel.SPRING | Steel.HARDENED:
            if forgiving:
                words = f"{steel} steel: butter with this, in an emergency; its temper is lost all the same"
                return SteelVerdict("only just", words, OD1651)
            if rod.low_hydrogen:
                words = f"{steel} steel: only dry, with preheat and slow cooling; its temper is lost all the same"
                return SteelVerdict("only just", words, EN_1011_2)
            return SteelVerdict("wrong steel", f"{steel} steel cracks beside a {rod.covering} rod's weld", EN_1011_2)
        case Steel.STAINLESS:
            if stainless:
                return None
            return SteelVerdict("wrong steel", "stainless steel asks for a stainless rod", PRACTICE)
        case Steel.CAST_IRON:
            return SteelVerdict("wrong steel", "cast iron asks for a nickel rod, which is not held here", PRACTICE)
        case Steel.ALUMINIUM:
            return SteelVerdict("wrong steel", "no steel rod welds aluminium", PRACTICE)
