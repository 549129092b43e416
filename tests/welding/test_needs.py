"""What a job takes of a rod, from joint to charge and heat."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.terms import Joint, Steel
from kitlist.welding.designation.designations import decode
from kitlist.welding.repairs.needs import job_needs
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.typical import Job, typical_repairs

USUAL = {"rod_mm": 3.2, "length_mm": 350, "current_a": 110}


def _job(**change):
    usual = {"part": "spring hanger", "steel": Steel.MILD, "thickness_mm": 5.0, "weld_length_mm": 1000.0}
    return Job(**(usual | change))


def test_a_metre_of_5_mm_fillet_is_what_the_worked_table_says():
    """6.2 rods a metre of E6013 3.2 x 350, hence 161 mm a rod; 0.8 x 22.5 V x 7380 As / 161 mm is 0.825 kJ/mm."""
    need = job_needs(_job(), decode("E6013"), spoiled_ratio=0, **USUAL)
    assert need.rods.melted.best == pytest.approx(6.2, abs=0.05)
    assert need.run_out_mm == pytest.approx(161, abs=1)
    assert need.heat_input_kj_per_mm == pytest.approx(0.825, abs=0.01)
    assert need.arc_energy_kj_per_mm == pytest.approx(0.825 / 0.8, abs=0.01)
    assert need.rods.charge_ah.best == pytest.approx(12.7, abs=0.15)


def test_a_fillet_in_passes_takes_the_same_metal_at_less_heat_a_pass():
    single = job_needs(_job(leg_mm=5.0), decode("E6013"), **USUAL)
    several = job_needs(_job(leg_mm=8.0), decode("E6013"), **USUAL)
    assert (single.passes, several.passes) == (1, 3)
    assert several.weld_g == pytest.approx(single.weld_g * 64 / 25)
    assert several.heat_input_kj_per_mm < single.heat_input_kj_per_mm


def test_heat_input_is_typical_for_hand_welding():
    """0.5 to 2.0 kJ/mm is typical (common practice); a 3 mm fillet from a 2.5 mm rod lies under it."""
    for repair in typical_repairs():
        if repair.part.repair_class is RepairClass.NEVER:
            continue
        need = job_needs(repair.job, decode("E6013"), rod_mm=2.5, length_mm=300, current_a=70)
        assert 0.2 < need.heat_input_kj_per_mm < 2.0, repair.name


def test_no_rod_lays_a_fillet_under_its_own_least_leg():
    """A 2 mm leg asked of a 2.5 mm rod becomes a 3 mm one: 4.5 mm2 where 2.2 was asked."""
    need = job_needs(_job(thickness_mm=2.0, leg_mm=2.0), decode("E6013"), rod_mm=2.5, length_mm=300, current_a=60)
    assert need.laid_g == pytest.approx(4.5 * 7.85, abs=0.01)
    assert need.weld_g == pytest.approx(2.2 * 7.85, abs=0.01)
    assert need.rods.melted.best == pytest.approx(4.5 * 7.85 / 8.863, abs=0.01)


def test_a_plug_has_no_run_out():
    need = job_needs(_job(joint=Joint.PLUG), decode("E6013"), **USUAL)
    assert need.run_out_mm is None
    assert need.heat_input_kj_per_mm is None
    assert need.rods.to_pack >= 1


def test_a_rod_whose_single_pass_is_not_known_still_has_its_count():
    need = job_needs(_job(thickness_mm=12.0), decode("E6013"), rod_mm=5.0, length_mm=450, current_a=200)
    assert need.passes is None
    assert need.rods.to_pack > 0


def test_measured_volts_go_before_assumed_ones():
    low = job_needs(_job(), decode("E6013"), arc_v=20, **USUAL)
    high = job_needs(_job(), decode("E6013"), arc_v=30, **USUAL)
    assert high.heat_input_kj_per_mm / low.heat_input_kj_per_mm == pytest.approx(1.5)


@pytest.mark.parametrize("change", [{"thickness_mm": None}, {"weld_length_mm": None}])
def test_what_was_not_measured_is_asked_for(change):
    with pytest.raises(OutOfRange, match="not known"):
        job_needs(_job(**change), decode("E6013"), **USUAL)


def test_a_rod_with_no_class_near_is_refused():
    with pytest.raises(OutOfRange, match="not known"):
        job_needs(_job(), decode("E 42 4 B"), **USUAL)
