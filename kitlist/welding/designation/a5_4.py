"""Stainless rods of AWS A5.4 that are carried for unknown and dissimilar steel. Strengths are from memory."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from kitlist.base.sources import PRACTICE, Source, Tag, row_source, table
from kitlist.base.terms import Covering, Polarity, Position
from kitlist.welding.designation.designation import Designation, StorageFamily, Strength, System, Toughness
from kitlist.welding.designation.writing import Writing

A5_4 = Source(Tag.SECOND_HAND, "AWS A5.4")
COVERINGS = {"15": "lime (basic), stainless", "16": "titania (rutile), stainless", "17": "titania-silica, stainless"}
_POSITIONS = (Position.FLAT, Position.VERTICAL, Position.OVERHEAD, Position.HORIZONTAL)


@cache
def classes() -> Mapping[str, Mapping[str, str]]:
    """The rows by alloy number: 312, 309L, ..."""
    return {row["class"]: row for row in table("rod_stainless")}


def read(w: Writing, *, alloy: str) -> Designation:
    """The rest of an A5.4 designation, the cursor standing after the alloy."""
    if not w.gap and not w.done:
        w.fail(f"a hyphen stands between {alloy} and the covering: {alloy}-16")
    covering = w.need(COVERINGS, what="the covering")
    text = f"E{alloy}-{covering}"
    w.end(after=text)
    row = classes()[alloy]
    source = row_source(row)
    return Designation(
        text=text,
        system=System.AWS_A5_4,
        covering=Covering.STAINLESS,
        covering_words=f"{COVERINGS[covering]}: {row['words']}",
        covering_source=source,
        positions=_POSITIONS,
        position_source=A5_4,
        largest_all_position_mm=4.0,
        ac=covering != "15",
        dc=True,
        polarities=(Polarity.DCEP,),
        flat_polarities=(Polarity.DCEP,),
        current_source=A5_4,
        strength=Strength(int(row["tensile_mpa"]), None, float(row["elongation_ratio"]), source),
        toughness=Toughness(None, None, A5_4),
        hydrogen_ml_100g=None,
        moisture_resistant=False,
        suffixes=(),
        storage=StorageFamily.STAINLESS,
        table_class="stainless",
        table_class_source=PRACTICE,
    )
