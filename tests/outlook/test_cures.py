"""The rod that is named for a bank is in its range when it is packed."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from kitlist.outlook import look_out
from kitlist.outlook.cures import rod_in_range
from kitlist.rules.example import rod, with_trip


@pytest.mark.parametrize("bank", [("north-second", "south-second"), ("north-main", "north-second", "south-second")])
def test_the_rod_that_is_named_for_a_bank_is_in_its_range(bank: tuple[str, ...]) -> None:
    shown = with_trip(bank=bank)
    cure = re.match(r"(\S+) mm E6013 \((\d+) to (\d+) A\)", rod_in_range(shown.kit, shown.trip, on=shown.on))
    assert cure
    packed = replace(shown.kit, rods=(rod("new", diameter_mm=float(cure[1])),))
    seen = look_out(packed, shown.trip, on=shown.on).rods[0]
    assert seen.fit == "in range"
    assert seen.range is not None
    assert (f"{seen.range.low_a:.0f}", f"{seen.range.high_a:.0f}") == (cure[2], cure[3])


def test_a_bank_that_holds_no_arc_has_no_rod_in_range() -> None:
    shown = with_trip(bank=("north-second",))
    assert rod_in_range(shown.kit, shown.trip, on=shown.on) == ""
