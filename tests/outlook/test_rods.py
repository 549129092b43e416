"""One packet on the bank: what it is, how the bank runs it, the steel for that, and whether it may be used."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.kit import Bead, Trip
from kitlist.outlook import look_out
from kitlist.outlook.bank import BankOutlook
from kitlist.outlook.own_rods import rod_words
from kitlist.outlook.rods import RodOutlook, rod_outlook
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.verdict import Fit
from kitlist.rules.example import rod, whole, with_trip
from kitlist.rules.four_without_ballast import with_four
from kitlist.welding.rods.storage import Fitness

TWO = ("north-main", "north-second")


def bank(trip: Trip | None = None) -> BankOutlook:
    example = whole()
    found = look_out(example.kit, trip or example.trip, on=example.on).bank
    assert found is not None
    return found


def on_bank(**changes: Any) -> RodOutlook:
    return rod_outlook(rod("rods", **changes), bank(), whole().trip)


def band(middle_a: float, high_a: float) -> Band:
    return Band(low_a=1.0, middle_a=middle_a, high_a=high_a, no_arc_ratio=0.0)


def unpacked(**changes: Any) -> RodOutlook:
    return rod_outlook(rod("rods", **changes), None, whole().trip)


def test_a_rod_over_its_top_is_for_steel_that_is_thicker_by_the_power_of_four_thirds() -> None:
    seen = on_bank(diameter_mm=3.2)
    assert seen.fit is Fit.HOT
    assert seen.band is not None
    assert seen.range is not None
    # a 3.2 mm rod is at home on 4 mm at the top of its range; up to the next half millimetre
    exact_mm = 4.0 * (seen.band.middle_a / seen.range.high_a) ** (4 / 3)
    assert seen.steel_mm is not None
    assert exact_mm <= seen.steel_mm[0] < exact_mm + 0.5
    assert seen.steel_mm[0] > 3.0


def test_a_rod_in_its_range_keeps_its_usual_steel_and_the_thickest_is_never_under_the_thinnest() -> None:
    cool = rod_outlook(rod("rods", diameter_mm=2.5), bank(with_trip(bank=TWO).trip), whole().trip)
    assert cool.fit is Fit.IN_RANGE
    assert cool.steel_mm == unpacked(diameter_mm=2.5).steel_mm == (2.0, 5.0)
    four = with_four(None)
    hot = look_out(replace(four.kit, rods=(rod("rods", diameter_mm=3.2),)), four.trip, on=four.on)
    assert hot.bank is not None
    wide = rod_outlook(rod("rods", diameter_mm=3.2), hot.bank, four.trip, hot_limit_ratio=9.0)
    assert wide.fit is Fit.HOT
    assert wide.band is not None
    assert wide.range is not None
    assert wide.steel_mm is not None
    exact_mm = 4.0 * (wide.band.middle_a / wide.range.high_a) ** (4 / 3)
    assert exact_mm > 8.0
    assert exact_mm <= wide.steel_mm[0] < exact_mm + 0.5
    assert wide.steel_mm[0] == wide.steel_mm[1]


def test_the_hot_limit_is_the_owners() -> None:
    thin = rod("thin", diameter_mm=2.5)
    assert rod_outlook(thin, bank(), whole().trip).fit is Fit.TOO_HOT
    assert rod_outlook(thin, bank(), whole().trip, hot_limit_ratio=3.0).fit is Fit.HOT


def test_the_rods_charge_is_its_own_by_the_crews_welds_where_they_know_it() -> None:
    own = Span(1.0, 1.5, 2.0)
    thick = rod("rods")
    taught = rod_outlook(thick, bank(), whole().trip, taught={"4 mm E6013": own, "3.2 mm E6013": Span(9, 9, 9)})
    untaught = rod_outlook(thick, bank(), whole().trip, taught={"3.2 mm E6013": own})
    assert taught.burn is not None
    assert untaught.burn is not None
    assert taught.burn.charge_ah == own
    assert untaught.burn.charge_ah.best > own.high
    assert taught.rods is not None
    assert untaught.rods is not None
    assert taught.rods.sure > untaught.rods.sure


def test_what_is_learned_of_a_packet_holds_for_the_next_of_its_kind_however_it_was_typed() -> None:
    own = Span(1.0, 1.5, 2.0)
    assert {rod_words(rod("rods", designation=typed)) for typed in ("E6013", "e6013", "E-6013")} == {"4 mm E6013"}
    assert rod_words(rod("rods", designation="junk")) == "4 mm junk"
    seen = rod_outlook(rod("rods", designation="e6013"), bank(), whole().trip, taught={"4 mm E6013": own})
    assert seen.burn is not None
    assert seen.burn.charge_ah == own


def test_scrap_counts_no_more_and_what_is_to_be_baked_or_is_not_known_does() -> None:
    assert not on_bank(condition=RodCondition.WET).kept
    assert not on_bank(condition=RodCondition.DAMAGED).kept
    left_open = on_bank(designation="E7018", storage=RodStorage.CARTON)
    assert left_open.packet is not None
    assert left_open.packet.fitness is Fitness.BAKE
    assert left_open.kept
    assert on_bank(designation="junk").kept


def test_what_is_no_rod_is_said_and_nothing_is_told_of_it() -> None:
    seen = on_bank(designation="junk")
    assert (seen.designation, seen.range, seen.band, seen.burn, seen.rods, seen.packet) == (None,) * 6
    assert not seen.usable
    assert not seen.welds
    assert (seen.likely_a, seen.highest_a, seen.rods_words) == (None, None, "rods not known")
    assert len(seen.not_known) == 1
    assert "junk" in seen.not_known[0]
    assert seen.words == "4 mm junk"
    assert on_bank().not_known == ()


def test_a_size_that_no_source_has_a_range_for_has_a_current_and_no_verdict() -> None:
    seen = on_bank(designation="E7018", diameter_mm=2.0)
    assert seen.band is not None
    assert (seen.range, seen.fit, seen.burn, seen.rods) == (None,) * 4
    assert seen.steel_mm == (2.0, 3.0)
    assert not seen.welds
    assert len(seen.not_known) == 1
    assert "E7018 of 2 mm" in seen.not_known[0]


def test_the_packet_is_called_by_size_and_class_however_it_was_typed() -> None:
    assert unpacked(designation="e6013", diameter_mm=3.2).words == "3.2 mm E6013"


def test_basic_rods_whose_opening_nobody_wrote_down_are_tried_first() -> None:
    seen = unpacked(designation="E7018", storage=RodStorage.CARTON, opened_on=None)
    assert seen.packet is not None
    assert (seen.packet.fitness, seen.packet.exposed_h) == (Fitness.TEST, None)


def test_without_a_bank_the_packet_is_judged_and_no_current_is_told() -> None:
    seen = unpacked()
    assert seen.usable
    assert not seen.welds
    assert (seen.band, seen.fit, seen.burn, seen.rods, seen.likely_a, seen.highest_a) == (None,) * 6
    assert seen.range is not None
    assert (seen.range.low_a, seen.range.high_a) == (110.0, 180.0)


def test_a_bank_that_holds_no_arc_burns_no_rod_and_counts_none() -> None:
    single = bank(with_trip(bank=TWO[:1]).trip)
    seen = rod_outlook(rod("rods"), single, whole().trip)
    assert seen.fit is Fit.NO_ARC
    assert (seen.burn, seen.lasting, seen.rods) == (None, None, None)
    assert seen.not_known == ()  # it is known well enough: nothing burns
    assert seen.usable
    assert not seen.welds
    taught = rod_outlook(rod("rods"), single, whole().trip, taught={"4 mm E6013": Span(1.0, 1.5, 2.0)})
    assert taught.burn is None


def test_a_rod_burns_for_as_long_as_its_charge_lasts_at_the_likely_current() -> None:
    seen = on_bank()
    assert seen.burn is not None
    assert seen.band is not None
    assert seen.burn.burn_s.best == pytest.approx(3600 * seen.burn.charge_ah.best / seen.band.middle_a)


def test_a_practice_weld_moves_the_band_and_leaves_what_was_predicted() -> None:
    example = whole()
    bead = Bead(
        name="first",
        welded_on=example.on,
        bank=example.trip.bank,
        rest_v=37.9,
        bank_v=33.0,
        current_a=150,
        holder_v=31.5,
    )
    (seen,) = look_out(replace(example.kit, beads=(bead,)), example.trip, on=example.on).rods
    untaught = on_bank().band
    assert seen.band is not None
    assert untaught is not None
    assert seen.predicted == untaught
    assert seen.band.high_a - seen.band.low_a < untaught.high_a - untaught.low_a
    assert seen.highest_a == untaught.high_a


def test_a_search_counts_no_rods_but_has_the_same_current() -> None:
    quick = rod_outlook(rod("rods"), bank(), whole().trip, counted=False)
    assert (quick.lasting, quick.rods) == (None, None)
    assert quick.band == on_bank().band
    assert quick.burn == on_bank().burn


def test_how_many_are_packed_changes_nothing_of_what_the_bank_gives() -> None:
    one, many = on_bank(count=1), on_bank(count=400)
    assert one.rods == many.rods
    assert one.rods is not None
    assert one.rods_words == f"{one.rods.sure} sure, likely {one.rods.likely} rods"


def test_eyes_are_judged_by_the_highest_of_weld_prediction_cold_strip_and_full_bank() -> None:
    seen = replace(on_bank(), band=band(150, 180), predicted=band(150, 200), struck=None)
    assert seen.highest_a == 200
    assert replace(seen, struck=band(150, 220)).highest_a == 220
    assert replace(seen, band=band(150, 230), struck=band(150, 220)).highest_a == 230
    assert replace(seen, full=band(150, 210)).highest_a == 210
    assert replace(seen, band=None).highest_a is None


def test_the_steel_must_take_the_likely_current_of_the_full_bank() -> None:
    seen = replace(on_bank(), band=band(150, 180), full=band(165, 190))
    assert seen.likely_a == 165
    assert replace(seen, full=band(140, 190)).likely_a == 150
    assert replace(seen, full=None).likely_a == 150
    assert replace(seen, band=None, full=None).likely_a is None


def test_only_a_bank_with_a_strip_has_a_cold_first_strike_and_it_is_hotter_than_what_follows() -> None:
    assert on_bank().struck is None
    four = with_four("strip")
    found = look_out(four.kit, four.trip, on=four.on)
    (seen,) = found.rods
    assert seen.struck is not None
    assert seen.predicted is not None
    assert seen.struck.middle_a > seen.predicted.middle_a
    assert seen.highest_a == seen.struck.high_a
    assert rod_outlook(rod("junk", designation="junk"), found.bank, four.trip).struck is None


@pytest.mark.parametrize(
    ("opened_on", "fitness"),
    [
        (date(2027, 3, 8), Fitness.GOOD),  # on the trip
        (date(2027, 3, 6), Fitness.GOOD),  # on the day of departure
        (date(2027, 3, 5), Fitness.BAKE),  # 24 h, and a basic rod may have 4 in open air
    ],
)
def test_a_carton_of_basic_rods_is_open_from_its_opening_to_departure(opened_on: date, fitness: Fitness) -> None:
    seen = unpacked(designation="E7018", storage=RodStorage.CARTON, opened_on=opened_on)
    assert seen.packet is not None
    assert seen.packet.fitness is fitness
    assert seen.usable is (fitness is Fitness.GOOD)


def test_a_carton_that_was_open_for_two_days_was_open_for_48_hours() -> None:
    seen = unpacked(designation="E7018", storage=RodStorage.CARTON, opened_on=date(2027, 3, 4))
    assert seen.packet is not None
    assert (seen.packet.exposed_h, seen.packet.limit_h) == (48.0, 2.0)
    counted = unpacked(designation="E7018", storage=RodStorage.CARTON, opened_on=date(2027, 3, 4), exposed_h=1.5)
    assert counted.packet is not None
    assert (counted.packet.exposed_h, counted.packet.fitness) == (1.5, Fitness.GOOD)


def test_wet_rods_are_in_range_and_do_not_weld_and_those_to_try_first_do() -> None:
    dry, wet = on_bank(), on_bank(condition=RodCondition.WET)
    unsaid = on_bank(condition=RodCondition.UNKNOWN, storage=RodStorage.UNKNOWN)
    assert [seen.packet.fitness for seen in (dry, wet, unsaid) if seen.packet] == [
        Fitness.GOOD,
        Fitness.SCRAP,
        Fitness.TEST,
    ]
    assert [seen.welds for seen in (dry, wet, unsaid)] == [True, False, True]
    assert wet.fit is dry.fit


def test_a_rod_that_runs_too_hot_does_not_weld_however_dry() -> None:
    seen = on_bank(diameter_mm=2.5)
    assert seen.usable
    assert not seen.welds
