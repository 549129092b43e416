"""ISO 2560-B and AS/NZS 4855-B (E43xx to E57xx), and the superseded AS/NZS 1553.1 (E41xx, E48xx).

The last two digits are those of A5.1. Where a strength and covering have no A5.1 class, only what the digits say is
answered; yield, elongation and toughness are left to the packet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from kitlist.base.sources import Source, Tag, row_source
from kitlist.base.terms import Covering, Polarity, Position
from kitlist.welding.designation import a5_1
from kitlist.welding.designation.designation import Designation, Equivalent, Strength, Suffix, System, Toughness
from kitlist.welding.designation.writing import Writing

ISO_B = Source(Tag.SECOND_HAND, "ISO 2560-B tables 1B, 3B, 4B and 7, AS/NZS 4855-B")
CODES_FROM_MEMORY = Source(Tag.MEMORY, "ISO 2560-B: which coverings are made in which strength")
OLD = Source(Tag.MEMORY, "AS/NZS 1553.1, superseded by AS/NZS 4855:2007")
HYDROGEN = {"H5": 5.0, "H10": 10.0, "H15": 15.0}
TENSILE_MPA = {"43": 430, "49": 490, "55": 550, "57": 570}
OLD_TENSILE_MPA = {"41": 410, "48": 480}
CODES = {
    "43": ("03", "10", "11", "12", "13", "16", "18", "19", "20", "24", "27"),
    "49": ("03", "10", "11", "12", "13", "14", "15", "16", "18", "19", "24", "27", "28", "48"),
    "55": ("10", "11", "13", "15", "16", "18"),
    "57": ("15", "16", "18", "28"),
}
OLD_CODES = {
    "41": ("10", "11", "12", "13", "16", "18", "19", "20", "24", "27"),
    "48": ("14", "15", "16", "18", "24", "27", "28", "48"),
}
_ALL = (Position.FLAT, Position.VERTICAL, Position.VERTICAL_DOWN, Position.OVERHEAD, Position.HORIZONTAL)
# Where table 4B says other than A5.1: cellulosic and 48 in all positions, 28 horizontal too, iron oxide on DC− alone.
_POSITIONS = {
    "10": _ALL,
    "11": _ALL,
    "48": _ALL,
    "28": (Position.FLAT, Position.HORIZONTAL_FILLET, Position.HORIZONTAL),
}
_POLARITIES = {
    "03": (Polarity.DCEP, Polarity.DCEN),
    "20": (Polarity.DCEN,),
    "27": (Polarity.DCEN,),
}
COMPOSITIONS = (
    *("1", "P1", "P2", "1M3", "3M2", "3M3"),
    *("N1", "N2", "N3", "3N3", "N5", "N7", "N13", "N2M3", "NC", "CC", "NCC", "NCC1", "NCC2", "G"),
)
_ALLOY = "alloyed: its toughness is not that of the plain class, read the packet"


@cache
def names() -> Mapping[str, str | None]:
    """Every class of four digits here, with its A5.1 twin or None.

    >>> names()["E4918"], names()["E4913"], names()["E4816"]
    ('E7018', None, 'E7016')
    """
    twin = {row["iso_b"]: row["class"] for row in a5_1.classes().values() if row["iso_b"]}
    found: dict[str, str | None] = {}
    for digits, codes in CODES.items():
        found.update({f"E{digits}{code}": twin.get(f"E{digits}{code}") for code in codes})
    for digits, codes in OLD_CODES.items():
        iso = {"41": "43", "48": "49"}[digits]
        found.update({f"E{digits}{code}": twin.get(f"E{iso}{code}") for code in codes})
    return found


def read(w: Writing, *, digits: str, code: str) -> Designation:
    """The rest of an ISO 2560-B designation, the cursor standing after the four digits."""
    name = f"E{digits}{code}"
    twin = names()[name]
    composition = w.take(COMPOSITIONS) if w.gap else None
    if composition is None and not w.gap and w.sees(["1"]):
        w.fail("a hyphen or space stands before the composition: -1")
    if composition == "1" and twin in a5_1.classes() and twin not in a5_1.TOUGHER:
        w.fail(f"-1 is not made in {name}")
    treatment = w.take(["AP", "A", "P"])
    tough = w.take(["U"])
    if w.sees(["H4", "H8", "H16"]) and not w.sees(HYDROGEN):
        w.fail("ISO marks hydrogen H5, H10 or H15; H4, H8 and H16 are AWS's")
    hydrogen = _hydrogen(w, name, code)
    text = _text(f"B-{name}", composition, treatment, tough, hydrogen)
    w.end(after=text)
    suffixes = _suffixes(composition, treatment, hydrogen)
    if twin and composition in (None, "1"):
        plain = a5_1.build(
            twin,
            System.ISO_2560_B,
            text=text,
            tougher=composition == "1",
            hydrogen=None,
            resistant=False,
        )
        return _settle(plain, twin, composition == "1", hydrogen, tough, suffixes)
    strength = Strength(TENSILE_MPA[digits], None, None, ISO_B)
    return _by_code(code, System.ISO_2560_B, text, strength, hydrogen, suffixes, twin if composition is None else None)


def read_old(w: Writing, *, digits: str, code: str) -> Designation:
    """The rest of an AS/NZS 1553.1 designation (E41xx, E48xx), the cursor standing after the four digits."""
    name = f"E{digits}{code}"
    grade = w.take([str(n) for n in range(7)]) if w.gap else None
    hydrogen = _hydrogen(w, name, code)
    text = _text(name, grade, None, None, hydrogen)
    w.end(after=text)
    suffixes: tuple[Suffix, ...] = ()
    if grade:
        suffixes = (Suffix(f"-{grade}", "impact grade of the old standard: read the packet", OLD),)
    if hydrogen:
        suffixes = (*suffixes, a5_1.hydrogen_suffix(hydrogen, OLD))
    strength = Strength(OLD_TENSILE_MPA[digits], None, None, OLD)
    return _by_code(code, System.AS_NZS_1553_1, text, strength, hydrogen, suffixes, names()[name])


def _hydrogen(w: Writing, name: str, code: str) -> str | None:
    mark = w.sees(HYDROGEN)
    if mark and _row_for(code)["covering"] != Covering.BASIC:
        w.fail(f"{mark} is for low-hydrogen classes only; {name} is not one")
    return w.take(HYDROGEN)


def _row_for(code: str) -> Mapping[str, str]:
    """The A5.1 row whose last two digits are these; 03 stands in with E6013's covering family."""
    rows = a5_1.classes()
    if code == "03":
        return rows["E6013"]
    return rows.get(f"E60{code}") or rows[f"E70{code}"]


def _text(name: str, dash: str | None, treatment: str | None, tough: str | None, hydrogen: str | None) -> str:
    words = [name + (f"-{dash}" if dash else ""), treatment, tough, hydrogen]
    return " ".join(word for word in words if word)


def _suffixes(composition: str | None, treatment: str | None, hydrogen: str | None) -> tuple[Suffix, ...]:
    found = []
    if composition and composition != "1":
        found.append(Suffix(f"-{composition}", _ALLOY, ISO_B))
    if treatment:
        words = {
            "A": "tested as welded",
            "P": "tested after heat treatment",
            "AP": "tested both as welded and heat-treated",
        }
        found.append(Suffix(treatment, words[treatment], ISO_B))
    if hydrogen:
        found.append(a5_1.hydrogen_suffix(hydrogen, ISO_B))
    return tuple(found)


def _settle(
    plain: Designation,
    twin: str,
    tougher: bool,
    hydrogen: str | None,
    tough: str | None,
    suffixes: tuple[Suffix, ...],
) -> Designation:
    """A class with an A5.1 twin: that class's answer, with ISO's own marks."""
    toughness = plain.toughness
    marks = list(plain.suffixes) + list(suffixes)
    if tough and toughness.energy_j is not None:
        toughness = Toughness(47, toughness.at_c, ISO_B)
    if tough:
        marks.append(Suffix("U", "47 J at the temperature at which the plain class is held to 27 J", ISO_B))
    positions, polarities, flat_polarities = _table_4b(twin[3:5])
    return replace(
        plain,
        positions=positions,
        largest_all_position_mm=a5_1.largest_out_of_flat_mm(positions, plain.covering),
        polarities=polarities,
        flat_polarities=flat_polarities,
        current_source=ISO_B,
        toughness=toughness,
        hydrogen_ml_100g=HYDROGEN[hydrogen] if hydrogen else None,
        suffixes=tuple(marks),
        equivalents=a5_1.twins(twin, tougher=tougher, hydrogen=hydrogen, resistant=False, leave_out=System.ISO_2560_B),
        position_source=ISO_B,
    )


def _table_4b(code: str) -> tuple[tuple[Position, ...], tuple[Polarity, ...], tuple[Polarity, ...]]:
    """Positions, polarities everywhere, polarities lying flat, of the last two digits."""
    row = _row_for(code)
    positions = _POSITIONS.get(code) or tuple(Position(word) for word in row["positions"].split())
    everywhere = _POLARITIES.get(code) or a5_1.polarities_in(row["fillet_polarities"])
    flat = _POLARITIES.get(code) or a5_1.polarities_in(row["polarities"])
    return positions, everywhere, flat


def _by_code(
    code: str,
    system: System,
    text: str,
    strength: Strength,
    hydrogen: str | None,
    suffixes: tuple[Suffix, ...],
    twin: str | None,
) -> Designation:
    """A class without a twin of the same strength: what its two last digits say."""
    row = _row_for(code)
    source = OLD if system is System.AS_NZS_1553_1 else ISO_B
    covering = Covering(row["covering"])
    positions, polarities, flat_polarities = _table_4b(code)
    equivalents: tuple[Equivalent, ...] = ()
    if twin:
        near = a5_1.twins(twin, tougher=False, hydrogen=hydrogen, resistant=False, leave_out=system)
        equivalents = tuple(Equivalent(e.system, e.text, False, source) for e in near)
    return Designation(
        text=text,
        system=system,
        covering=covering,
        covering_words="rutile-basic" if code == "03" else row["covering_words"],
        covering_source=source if twin or system is System.AS_NZS_1553_1 else CODES_FROM_MEMORY,
        positions=positions,
        position_source=source,
        largest_all_position_mm=a5_1.largest_out_of_flat_mm(positions, covering),
        ac=row["ac"] == "1",
        dc=True,
        polarities=polarities,
        flat_polarities=flat_polarities,
        current_source=source,
        strength=strength,
        toughness=Toughness(None, None, source),
        hydrogen_ml_100g=HYDROGEN[hydrogen] if hydrogen else None,
        moisture_resistant=False,
        suffixes=suffixes,
        storage=a5_1.storage_of(covering),
        table_class=twin or row["class"],
        table_class_source=row_source(row) if twin else Source(Tag.PRACTICE, f"the nearest covering, {row['class']}"),
        equivalents=equivalents,
    )
