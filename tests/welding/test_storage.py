"""What a packet of rods is fit for, and what to do with it."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.welding.designation.designation import StorageFamily
from kitlist.welding.rods.storage import Fitness, Packet, exposure_limit_h, judge_packet

BASIC = StorageFamily.BASIC
RUTILE = StorageFamily.RUTILE
CELLULOSIC = StorageFamily.CELLULOSIC


@pytest.mark.parametrize(
    ("family", "resistant", "humid", "limit_h"),
    [
        (BASIC, False, False, 4),
        (BASIC, False, True, 2),
        (BASIC, False, None, 2),
        (BASIC, True, False, 9),
        (BASIC, True, True, 9),
        (StorageFamily.BASIC_MILITARY, False, True, 9),
        (RUTILE, False, True, None),
        (CELLULOSIC, False, None, None),
    ],
)
def test_hours_in_open_air_by_family_mark_and_humidity(family, resistant, humid, limit_h):
    """AWS D1.1:2015 5.3.2: 4 h, 9 h with R; 2 h when humid or unsure is common practice."""
    assert exposure_limit_h(family, moisture_resistant=resistant, humid=humid) == limit_h


@pytest.mark.parametrize(("exposed_h", "fitness"), [(0, Fitness.GOOD), (4, Fitness.GOOD), (4.1, Fitness.BAKE)])
def test_basic_rods_at_their_limit(exposed_h, fitness):
    judged = judge_packet(Packet(family=BASIC, storage=RodStorage.CARTON, exposed_h=exposed_h, humid=False))
    assert judged.fitness is fitness


def test_counted_hours_go_before_the_days_since_opening():
    opened = Packet(family=BASIC, storage=RodStorage.DRY_TUBE, open_h=300, exposed_h=1.5, humid=False)
    assert judge_packet(opened).fitness is Fitness.GOOD
    uncounted = Packet(family=BASIC, storage=RodStorage.DRY_TUBE, open_h=300, humid=False)
    assert judge_packet(uncounted).fitness is Fitness.BAKE


def test_basic_rods_are_baked_once_and_then_scrap():
    over = Packet(family=BASIC, storage=RodStorage.CARTON, exposed_h=10, humid=False, bakes=1)
    assert judge_packet(over).fitness is Fitness.SCRAP
    assert judge_packet(Packet(family=BASIC, exposed_h=1, humid=False, bakes=1)).fitness is Fitness.GOOD
    assert judge_packet(Packet(family=BASIC, exposed_h=1, humid=False, bakes=2)).fitness is Fitness.SCRAP


def test_the_bake_names_temperature_time_and_that_no_track_oven_does_it():
    remedy = judge_packet(Packet(family=BASIC, condition=RodCondition.DAMP)).remedy
    assert "350 to 370 °C" in remedy
    assert "no track oven" in remedy


def test_a_whole_seal_is_good_for_basic_whatever_its_age():
    sealed = Packet(family=BASIC, storage=RodStorage.SEALED, age_years=8)
    assert judge_packet(sealed).fitness is Fitness.GOOD


def test_exposure_nobody_knows_is_not_a_pass():
    unknown = judge_packet(Packet(family=BASIC, storage=RodStorage.CARTON))
    assert unknown.fitness is Fitness.TEST
    assert not unknown.usable


@pytest.mark.parametrize("family", list(StorageFamily))
@pytest.mark.parametrize("condition", [RodCondition.WET, RodCondition.DAMAGED])
def test_wet_and_damaged_rods_are_scrap_in_every_family(family, condition):
    packet = Packet(family=family, storage=RodStorage.SEALED, condition=condition, exposed_h=0, humid=False)
    assert judge_packet(packet).fitness is Fitness.SCRAP


def test_rutile_rods_that_are_damp_are_dried_where_basic_ones_are_baked():
    judged = judge_packet(Packet(family=RUTILE, condition=RodCondition.DAMP))
    assert judged.fitness is Fitness.DRY
    assert "100 to 135 °C" in judged.remedy


def test_cellulosic_rods_are_never_baked():
    damp = judge_packet(Packet(family=CELLULOSIC, condition=RodCondition.DAMP))
    assert damp.fitness is Fitness.DRY
    assert "Never bake" in damp.remedy
    assert judge_packet(Packet(family=CELLULOSIC, condition=RodCondition.DRY, bakes=1)).fitness is Fitness.SCRAP


@pytest.mark.parametrize(
    ("storage", "condition", "age_years", "fitness"),
    [
        (RodStorage.DRY_TUBE, RodCondition.UNKNOWN, None, Fitness.GOOD),
        (RodStorage.SEALED, RodCondition.UNKNOWN, 2, Fitness.GOOD),
        (RodStorage.SEALED, RodCondition.UNKNOWN, 3.1, Fitness.TEST),
        (RodStorage.SEALED, RodCondition.DRY, 3.1, Fitness.GOOD),
        (RodStorage.CARTON, RodCondition.UNKNOWN, None, Fitness.TEST),
        (RodStorage.LOOSE, RodCondition.UNKNOWN, None, Fitness.TEST),
        (RodStorage.UNKNOWN, RodCondition.UNKNOWN, None, Fitness.TEST),
        (RodStorage.LOOSE, RodCondition.DRY, None, Fitness.GOOD),
    ],
)
def test_rutile_rods_by_where_they_are_kept(storage, condition, age_years, fitness):
    packet = Packet(family=RUTILE, storage=storage, condition=condition, age_years=age_years)
    assert judge_packet(packet).fitness is fitness


def test_open_hours_do_not_count_against_rutile():
    assert judge_packet(Packet(family=RUTILE, storage=RodStorage.DRY_TUBE, open_h=5000)).usable


def test_negative_figures_are_refused():
    with pytest.raises(OutOfRange, match="open_h is -1"):
        judge_packet(Packet(family=BASIC, open_h=-1))


def test_every_verdict_says_what_to_do_and_where_it_comes_from():
    for family in StorageFamily:
        for storage in RodStorage:
            for condition in RodCondition:
                for bakes in (0, 1, 2):
                    judged = judge_packet(Packet(family=family, storage=storage, condition=condition, bakes=bakes))
                    assert judged.why.endswith(".")
                    assert judged.remedy.endswith(".")
                    assert str(judged.source)
