"""Cranking: published conversions and load-test volts."""

from __future__ import annotations

import math

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, CrankingStandard
from kitlist.physics.battery.cranking import Cranking, charge_to_crank, crank_check, least_crank_volts, to_sae
from kitlist.physics.battery.resistance import source_resistance

OHM = source_resistance(cca_sae=Span.exactly(680.0))


def check(soc=0.9, temp_c=0.0, **changes):
    facts = {
        "chemistry": Chemistry.FLOODED,
        "soc_ratio": Span.exactly(soc),
        "resistance": OHM,
        "temp_c": temp_c,
        "cca_sae_a": 680.0,
    } | changes
    return crank_check(**facts)


@pytest.mark.parametrize(
    ("rating", "standard", "sae"),
    [
        (600, CrankingStandard.SAE, 600),
        (570, CrankingStandard.EN, 600),
        (400, CrankingStandard.DIN, 640),
        (1000, CrankingStandard.MCA, 770),
        (472, CrankingStandard.IEC, 640),
    ],
)
def test_ratings_convert_by_the_reported_rules(rating, standard, sae):
    assert to_sae(rating_a=rating, standard=standard).current_a.best == pytest.approx(sae, rel=0.003)


def test_the_conversion_is_said_in_words():
    assert "1.5 DIN + 40" in to_sae(rating_a=400, standard=CrankingStandard.DIN).words


def test_jis_has_no_conversion_and_says_what_serves_instead():
    rating = to_sae(rating_a=400, standard=CrankingStandard.JIS)
    assert rating.current_a is None
    assert "capacity" in rating.words


def test_an_unstated_standard_may_be_a_marine_figure():
    assert to_sae(rating_a=600, standard=CrankingStandard.UNKNOWN).current_a.low == pytest.approx(462)


def test_a_rating_no_battery_has_is_refused():
    with pytest.raises(OutOfRange):
        to_sae(rating_a=5, standard=CrankingStandard.SAE)


@pytest.mark.parametrize(("temp", "volts"), [(35, 9.6), (21, 9.6), (16, 9.5), (-7, 8.9), (-18, 8.5)])
def test_least_volts_are_the_load_test_table(temp, volts):
    assert least_crank_volts(temp_c=temp) == volts


def test_colder_than_the_table_is_refused_as_a_figure_and_not_known_as_an_answer():
    with pytest.raises(OutOfRange):
        least_crank_volts(temp_c=-25)
    assert check(temp_c=-25).cranks is None


def test_a_sound_full_battery_cranks_at_minus_18():
    assert check(soc=1.0, temp_c=-18.0).cranks is True


def test_a_low_battery_does_not_crank_in_the_cold_and_the_volts_say_so():
    answer = check(soc=0.2, temp_c=-18.0)
    assert answer.cranks is False
    assert answer.volts.best < answer.needed_v == 8.5


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"soc_ratio": None}, "charge"),
        ({"resistance": None}, "resistance"),
        ({"cca_sae_a": None}, "current"),
        ({"chemistry": Chemistry.UNKNOWN}, "chemistry"),
        ({"chemistry": Chemistry.LITHIUM}, "chemistry"),
    ],
)
def test_what_cannot_be_told_is_not_known(changes, word):
    answer = check(**changes)
    assert answer.cranks is None
    assert word in answer.reason


def test_the_vehicles_own_current_goes_before_half_the_rating():
    assert check(crank_a=500.0).volts.best < check().volts.best
    assert check().crank_a == 340.0


def test_by_hand_at_25_degrees_full():
    # 12.65 - 0.40 - 340 x 3.0/680 x 1.15
    assert check(soc=1.0, temp_c=25.0).volts.best == pytest.approx(12.65 - 0.40 - 1.725)


def test_the_least_charge_to_crank_is_where_the_answer_turns():
    least = charge_to_crank(chemistry=Chemistry.FLOODED, resistance=OHM, temp_c=-18.0, cca_sae_a=680.0)
    assert 0.0 < least < 1.0
    assert check(soc=least + 0.001, temp_c=-18.0).cranks is True
    assert check(soc=least - 0.001, temp_c=-18.0).cranks is False


def test_a_worn_out_battery_never_cranks_and_that_is_infinity():
    worn = source_resistance(tester_mohm=30.0)
    assert charge_to_crank(chemistry=Chemistry.FLOODED, resistance=worn, temp_c=-18.0, cca_sae_a=680.0) == math.inf


def test_least_charge_is_none_where_it_cannot_be_told():
    assert charge_to_crank(chemistry=Chemistry.UNKNOWN, resistance=OHM, temp_c=0.0, cca_sae_a=680.0) is None


def _engine(cca_sae_a):
    return Cranking(
        chemistry=Chemistry.FLOODED, resistance=source_resistance(cca_sae=Span.exactly(cca_sae_a)), current_a=250.0
    )


def test_between_whole_degrees_the_least_charge_is_straight():
    engine = _engine(600.0)
    at = {degree: engine.charge_ratio(temp_c=degree) for degree in (-11.0, -10.75, -10.0)}
    assert at[-11.0] != at[-10.0]
    assert at[-10.75] == pytest.approx(at[-11.0] + 0.25 * (at[-10.0] - at[-11.0]))


def test_just_colder_than_anything_is_known_the_last_known_degree_counts():
    engine = _engine(600.0)
    assert engine.charge_ratio(temp_c=-19.0) is None
    assert engine.charge_ratio(temp_c=-18.5) == engine.charge_ratio(temp_c=-18.0)


def test_where_it_never_cranks_at_one_of_two_degrees_it_never_cranks_between_them():
    turns = [
        (engine, float(degree))
        for engine in map(_engine, range(320, 560, 20))
        for degree in range(-18, 25)
        if (engine.charge_ratio(temp_c=float(degree)) == math.inf)
        is not (engine.charge_ratio(temp_c=degree + 1.0) == math.inf)
    ]
    assert turns
    assert all(engine.charge_ratio(temp_c=degree + 0.5) == math.inf for engine, degree in turns)


def test_a_rating_by_sae_is_said_as_it_is_and_one_without_a_standard_as_that():
    assert to_sae(rating_a=600, standard=CrankingStandard.SAE).words == "600 A SAE"
    assert "600 A of no stated standard is about" in to_sae(rating_a=600, standard=CrankingStandard.UNKNOWN).words


def test_the_answer_says_whether_it_cranks():
    assert check(soc=1.0, temp_c=-18.0).reason.startswith("cranks at")
    assert check(soc=0.2, temp_c=-18.0).reason.startswith("does not crank at")


def test_an_engine_that_a_flat_battery_still_turns_needs_no_charge():
    # 11.9 V less 0.40 V less 100 A through 3.0/680 x 1.15 x 1.6 is 10.7 V, and 9.6 V are needed
    assert charge_to_crank(chemistry=Chemistry.FLOODED, resistance=OHM, temp_c=25.0, crank_a=100.0) == 0.0


def test_what_an_engine_asks_for_is_the_most_of_all_milder_degrees():
    asked_more_in_the_mild = 0
    for ohm in (0.012, 0.016, 0.020):
        engine = Cranking(
            chemistry=Chemistry.FLOODED, resistance=source_resistance(tester_mohm=ohm * 1000), current_a=120.0
        )
        at = {degree: engine.charge_ratio(temp_c=float(degree)) for degree in range(-18, 26)}
        for degree in at:
            milder = [at[other] for other in at if other >= degree]
            assert engine.hardest_ratio(temp_c=float(degree)) == max(milder)
            asked_more_in_the_mild += max(milder) > at[degree]
    assert asked_more_in_the_mild
