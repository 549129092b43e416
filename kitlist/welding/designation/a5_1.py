"""AWS A5.1 classes and their marks, and the rows that ISO 2560-B and AS/NZS 4855-B share with them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from kitlist.base.sources import PRACTICE, Source, Tag, row_source, table
from kitlist.base.terms import Covering, Polarity, Position
from kitlist.welding.designation.designation import (
    Designation,
    Equivalent,
    StorageFamily,
    Strength,
    Suffix,
    System,
    Toughness,
)
from kitlist.welding.designation.writing import Writing

A5_1 = Source(Tag.MEMORY, "AWS A5.1")
TOUGHER = {
    "E7016": (27, -45, None),
    "E7018": (27, -45, None),
    "E7024": (27, -20, 0.22),
}
HYDROGEN = {"H4": 4.0, "H8": 8.0, "H16": 16.0}
MEETS = {"H4": "H5", "H8": "H10", "H5": "H8", "H10": "H16", "H15": "H16"}
METRIC = {"43": "60", "49": "70"}
LARGEST_BASIC_MM = 4.0
LARGEST_OTHER_MM = 5.0


@cache
def classes() -> Mapping[str, Mapping[str, str]]:
    """The rows of A5.1 by class."""
    return {row["class"]: row for row in table("rod_classes")}


def storage_of(covering: Covering) -> StorageFamily:
    """How a covering family is kept.

    >>> storage_of(Covering.IRON_OXIDE).value
    'rutile and iron oxide'
    """
    return {
        Covering.CELLULOSIC: StorageFamily.CELLULOSIC,
        Covering.BASIC: StorageFamily.BASIC,
        Covering.STAINLESS: StorageFamily.STAINLESS,
    }.get(covering, StorageFamily.RUTILE)


def largest_out_of_flat_mm(positions: tuple[Position, ...], covering: Covering) -> float | None:
    """The largest rod that an all-position class may be used with out of the flat; None if it is not all-position."""
    if Position.OVERHEAD not in positions:
        return None
    return LARGEST_BASIC_MM if covering is Covering.BASIC else LARGEST_OTHER_MM


def polarities_in(cell: str) -> tuple[Polarity, ...]:
    """The polarities of a table cell, DCEP first."""
    return tuple(Polarity(word) for word in cell.split())


def toughness_of(row: Mapping[str, str], source: Source) -> Toughness:
    """The Charpy figures of a class row."""
    if not row["charpy_j"]:
        return Toughness(None, None, source)
    return Toughness(int(row["charpy_j"]), int(row["charpy_c"]), source)


def strength_of(row: Mapping[str, str], source: Source) -> Strength:
    """The tensile figures of a class row."""
    return Strength(
        int(row["tensile_mpa"]),
        int(row["yield_mpa"]) if row["yield_mpa"] else None,
        float(row["elongation_ratio"]) if row["elongation_ratio"] else None,
        source,
    )


def figures_source(row: Mapping[str, str]) -> Source:
    """The source of the mechanical figures and polarity of a class row."""
    return Source(Tag(row["figures_tag"]), row["source"])


def read(w: Writing, *, digits: str, code: str, metric: bool) -> Designation:
    """The rest of an A5.1 designation, the cursor standing after the four digits.

    `digits` are the strength digits as written, `code` the last two; `metric` for A5.1M (43 and 49).
    """
    name = f"E{METRIC[digits] if metric else digits}{code}"
    row = classes()[name]
    tougher = False
    if w.gap and w.sees(["1"]):
        if name not in TOUGHER:
            w.fail(f"-1 is for {', '.join(TOUGHER)} only, not for {name}")
        w.take(["1"])
        tougher = True
    if w.sees(["M"]):
        if name != "E7018" or tougher:
            w.fail(f"M is for E7018 alone, not for {name}{'-1' if tougher else ''}")
        w.take(["M"])
        name, row = "E7018M", classes()["E7018M"]
    basic = row["covering"] == Covering.BASIC
    hydrogen = _mark(w, HYDROGEN, basic, name)
    resistant = _mark(w, {"R": 1.0}, basic, name)
    w.end(after=_shown(digits + code, name, tougher, hydrogen, resistant))
    return build(
        name,
        System.AWS_A5_1,
        text=_shown(digits + code, name, tougher, hydrogen, resistant),
        tougher=tougher,
        hydrogen=hydrogen,
        resistant=bool(resistant),
    )


def _mark(w: Writing, options: Mapping[str, float], basic: bool, name: str) -> str | None:
    if w.sees(["H5", "H10", "H15"]) and not w.sees(options) and "H4" in options:
        w.fail("AWS marks hydrogen H4, H8 or H16; H5, H10 and H15 are ISO's")
    mark = w.sees(options)
    if mark and not basic:
        w.fail(f"{mark} is for low-hydrogen classes only; {name} is not one")
    return w.take(options)


def _shown(digits: str, name: str, tougher: bool, hydrogen: str | None, resistant: str | None) -> str:
    text = "E" + digits + ("M" if name.endswith("M") else "") + ("-1" if tougher else "")
    marks = (hydrogen or "") + (resistant or "")
    return f"{text} {marks}".strip()


def build(name: str, system: System, *, text: str, tougher: bool, hydrogen: str | None, resistant: bool) -> Designation:
    """The answer for an A5.1 class with its marks."""
    row = classes()[name]
    source = row_source(row)
    figures = figures_source(row)
    covering = Covering(row["covering"])
    positions = tuple(Position(word) for word in row["positions"].split())
    strength, toughness = strength_of(row, figures), toughness_of(row, figures)
    suffixes = []
    if tougher:
        energy_j, at_c, elongation = TOUGHER[name]
        toughness = Toughness(energy_j, at_c, A5_1)
        if elongation:
            strength = Strength(strength.tensile_mpa, strength.yield_mpa, elongation, A5_1)
        meaning = f"tougher: {toughness.words}" + (", 22 % elongation" if elongation else "")
        suffixes.append(Suffix("-1", meaning, A5_1))
    if name == "E7018M":
        suffixes.append(Suffix("M", "military: low moisture and low hydrogen compulsory, yield 365 to 496 MPa", A5_1))
    if hydrogen:
        suffixes.append(hydrogen_suffix(hydrogen, A5_1))
    if resistant:
        suffixes.append(
            Suffix("R", "takes up 0.4 % moisture or less in 9 h at 27 °C and 80 % humidity: 9 h in the open", A5_1)
        )
    return Designation(
        text=text,
        system=system,
        covering=covering,
        covering_words=row["covering_words"],
        covering_source=source,
        positions=positions,
        position_source=source,
        largest_all_position_mm=largest_out_of_flat_mm(positions, covering),
        ac=row["ac"] == "1",
        dc=True,
        polarities=polarities_in(row["fillet_polarities"]),
        flat_polarities=polarities_in(row["polarities"]),
        current_source=figures,
        strength=strength,
        toughness=toughness,
        hydrogen_ml_100g=HYDROGEN[hydrogen] if hydrogen else None,
        moisture_resistant=resistant or name == "E7018M",
        suffixes=tuple(suffixes),
        storage=StorageFamily.BASIC_MILITARY if name == "E7018M" else storage_of(covering),
        table_class=name,
        table_class_source=source,
        equivalents=twins(name, tougher=tougher, hydrogen=hydrogen, resistant=resistant, leave_out=system),
    )


def hydrogen_suffix(mark: str, source: Source) -> Suffix:
    """What H4 or H10 promises.

    >>> hydrogen_suffix("H4", A5_1).meaning
    'at most 4 mL of diffusible hydrogen in 100 g of deposit'
    """
    return Suffix(mark, f"at most {mark[1:]} mL of diffusible hydrogen in 100 g of deposit", source)


def twins(
    name: str, *, tougher: bool, hydrogen: str | None, resistant: bool, leave_out: System
) -> tuple[Equivalent, ...]:
    """The class in the other systems. A hydrogen mark is carried over as the tightest mark that it is sure to
    meet, and none is made up.
    """
    row = classes()[name]
    iso = Source(Tag.MEMORY, "ISO 2560, AS/NZS 4855")
    found = []
    dash = "-1" if tougher else ""
    if leave_out is not System.AWS_A5_1:
        mark = MEETS.get(hydrogen or "", "") if hydrogen not in HYDROGEN else hydrogen or ""
        found.append(Equivalent(System.AWS_A5_1, f"{name}{dash} {mark}".strip(), True, iso))
    if row["iso_b"]:
        mark = MEETS.get(hydrogen or "", "") if hydrogen in HYDROGEN else hydrogen or ""
        if leave_out is not System.ISO_2560_B:
            found.append(Equivalent(System.ISO_2560_B, f"B-{row['iso_b']}{dash} {mark}".strip(), True, iso))
        if leave_out is not System.AS_NZS_1553_1:
            old = {"43": "E41", "49": "E48"}[row["iso_b"][1:3]] + row["iso_b"][3:]
            found.append(Equivalent(System.AS_NZS_1553_1, old, False, Source(Tag.MEMORY, "AS/NZS 1553.1")))
    mark = MEETS.get(hydrogen or "", "") if hydrogen in HYDROGEN else hydrogen or ""
    for rough in row["rough_iso_a"].split("; "):
        if rough:
            found.append(Equivalent(System.ISO_2560_A, f"{rough} {mark}".strip(), False, PRACTICE))
    return tuple(found)
