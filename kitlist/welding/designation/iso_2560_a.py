"""ISO 2560-A as a grammar: `E strength impact [alloy] covering [recovery position] [hydrogen]`."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from kitlist.base.sources import PRACTICE, Source, Tag, row_source, table
from kitlist.base.terms import Covering, Position
from kitlist.welding.designation import a5_1
from kitlist.welding.designation.designation import Designation, Equivalent, Strength, Suffix, System, Toughness
from kitlist.welding.designation.writing import Writing

ISO_A = Source(Tag.SECOND_HAND, "ISO 2560-A")
_FAMILIES = {
    "A": Covering.IRON_OXIDE,
    "C": Covering.CELLULOSIC,
    "R": Covering.RUTILE,
    "RR": Covering.RUTILE,
    "RC": Covering.RUTILE,
    "RA": Covering.RUTILE,
    "RB": Covering.RUTILE,
    "B": Covering.BASIC,
}
_FLAT_FILLETS = (Position.FLAT, Position.HORIZONTAL_FILLET)
_ALL = (Position.FLAT, Position.VERTICAL, Position.VERTICAL_DOWN, Position.OVERHEAD, Position.HORIZONTAL)
_POSITIONS = {
    "1": _ALL,
    "2": tuple(p for p in _ALL if p is not Position.VERTICAL_DOWN),
    "3": _FLAT_FILLETS,
    "4": (Position.FLAT,),
    "5": (Position.FLAT, Position.VERTICAL_DOWN, Position.HORIZONTAL_FILLET),
}
# The A5.1 class whose current and deposit are nearest, by covering and recovery digit. Common practice.
_NEAREST = {
    "C": {"1": "E6011", "2": "E6010"},
    "R": dict.fromkeys("12", "E6013"),
    "RC": dict.fromkeys("12", "E6013"),
    "RR": {**dict.fromkeys("12", "E6013"), **dict.fromkeys("34", "E7014"), **dict.fromkeys("5678", "E7024")},
    "RB": dict.fromkeys("12", "E6013"),
    "RA": dict.fromkeys("5678", "E7024"),
    "B": {**dict.fromkeys("12", "E7016"), **dict.fromkeys("34", "E7018"), **dict.fromkeys("5678", "E7028")},
}


@cache
def fields() -> Mapping[str, Mapping[str, Mapping[str, str]]]:
    """The table of codes by field."""
    found: dict[str, dict[str, Mapping[str, str]]] = {}
    for row in table("iso_2560_a"):
        found.setdefault(row["field"], {})[row["code"]] = row
    return found


def strengths() -> tuple[str, ...]:
    """The strength codes, 35 to 50."""
    return tuple(fields()["strength"])


def read(w: Writing, *, digits: str) -> Designation:
    """The rest of an ISO 2560-A designation, the cursor standing after the strength."""
    codes = fields()
    impact = w.need(codes["impact"], what="the impact code")
    alloy = w.take(codes["alloy"])
    covering = w.need(codes["covering"], what="the covering")
    recovery = position = None
    if not w.done and w.sees(["H"]) is None:
        recovery = w.need(codes["recovery"], what="the digit for recovery and current")
        position = w.need(codes["position"], what="the digit for position")
    hydrogen = None
    if not w.done:
        hydrogen = "H" + w.need([f"H{c}" for c in codes["hydrogen"]], what="the hydrogen mark")[1:]
        if covering != "B":
            w.at -= len(hydrogen)
            w.fail(f"{hydrogen} is for basic coverings only; {covering} is not one")
    words = ["E", digits, impact, alloy, covering, (recovery or "") + (position or ""), hydrogen]
    text = " ".join(word for word in words if word)
    w.end(after=text)
    family = _FAMILIES[covering]
    if covering in ("RR", "RA") and recovery in ("3", "4", "5", "6", "7", "8"):
        family = Covering.RUTILE_IRON_POWDER
    near = _NEAREST.get(covering, {}).get(recovery or "")
    row = codes["strength"][digits]
    return Designation(
        text=text,
        system=System.ISO_2560_A,
        covering=family,
        covering_words=codes["covering"][covering]["words"],
        covering_source=row_source(codes["covering"][covering]),
        positions=_POSITIONS[position] if position else (),
        position_source=ISO_A,
        largest_all_position_mm=None,
        ac=None if recovery is None else recovery in "1357",
        dc=None if recovery is None else True,
        polarities=(),
        flat_polarities=(),
        current_source=ISO_A,
        strength=Strength(
            int(row["tensile_mpa"]),
            int(row["yield_mpa"]),
            float(row["elongation_ratio"]),
            row_source(row),
            int(row["tensile_most_mpa"]),
        ),
        toughness=_toughness(codes["impact"][impact]),
        hydrogen_ml_100g=float(hydrogen[1:]) if hydrogen else None,
        moisture_resistant=False,
        suffixes=_suffixes(alloy, hydrogen),
        storage=a5_1.storage_of(family),
        table_class=near,
        table_class_source=PRACTICE,
        recovery_words=codes["recovery"][recovery]["words"] if recovery else "",
        equivalents=_equivalents(near, hydrogen),
    )


def _toughness(row: Mapping[str, str]) -> Toughness:
    if not row["impact_c"]:
        return Toughness(None, None, row_source(row))
    return Toughness(47, int(row["impact_c"]), row_source(row))


def _suffixes(alloy: str | None, hydrogen: str | None) -> tuple[Suffix, ...]:
    found = []
    if alloy:
        row = fields()["alloy"][alloy]
        found.append(Suffix(alloy, f"alloyed: {row['words']}", row_source(row)))
    if hydrogen:
        found.append(a5_1.hydrogen_suffix(hydrogen, ISO_A))
    return tuple(found)


def _equivalents(near: str | None, hydrogen: str | None) -> tuple[Equivalent, ...]:
    """The nearest class in the other systems; never exact: systems A and B test differently."""
    if near is None:
        return ()
    found = a5_1.twins(near, tougher=False, hydrogen=hydrogen, resistant=False, leave_out=System.ISO_2560_A)
    return tuple(Equivalent(e.system, e.text, False, PRACTICE) for e in found if e.system is not System.ISO_2560_A)
