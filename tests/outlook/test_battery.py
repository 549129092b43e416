"""One battery before a trip: what it keeps for its engine, and what it may not do however full it is."""

from __future__ import annotations

from dataclasses import replace

from kitlist.outlook import look_out
from kitlist.outlook.linkable import Bar
from kitlist.rules.example import with_trip


def test_a_battery_that_never_starts_its_engine_in_the_cold_is_in_no_bank_however_full() -> None:
    cold = with_trip(coldest_c=-12)
    strong = replace(cold.kit, vehicles=tuple(replace(v, crank_a=1400) for v in cold.kit.vehicles))
    seen = look_out(strong, cold.trip, on=cold.on)
    assert seen.batteries["north-main"].never_cranks
    assert seen.batteries["north-main"].not_now is not None
    assert seen.bank is not None
    assert ("north-main", Bar.BATTERY) in {(bar.battery, bar.bar) for bar in seen.bank.bars}
    weak = look_out(cold.kit, cold.trip, on=cold.on)
    assert not weak.batteries["north-main"].never_cranks
