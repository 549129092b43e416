"""The starter list and what its jobs take."""

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import Tag
from kitlist.base.terms import Joint, Steel
from kitlist.welding.designation.designations import decode
from kitlist.welding.repairs.parts import RepairClass
from kitlist.welding.repairs.suitability import fit
from kitlist.welding.repairs.typical import Job, typical_repairs, weld_metal, weld_metal_g


def test_the_starter_list_has_every_class_and_is_common_practice():
    repairs = typical_repairs()
    assert {r.part.repair_class for r in repairs} == set(RepairClass)
    assert len({r.name for r in repairs}) == len(repairs)
    assert {r.source.tag for r in repairs} == {Tag.PRACTICE}


def test_every_repair_that_may_be_welded_says_how_and_with_what():
    for repair in typical_repairs():
        if repair.part.repair_class is RepairClass.NEVER:
            continue
        assert repair.approach
        assert repair.preparation
        assert repair.stock
        assert repair.thickness_from_mm <= repair.job.thickness_mm <= repair.thickness_to_mm
        assert weld_metal_g(repair.job) > 0.5


def test_the_rods_usual_for_a_repair_are_never_called_too_thick_for_it():
    """The rods that practice names for these repairs against the table of rod by plate: two separate statements."""
    for repair in typical_repairs():
        if repair.part.repair_class is RepairClass.NEVER or repair.job.thickness_mm < 2:
            continue
        mild = Job(part=repair.job.part, steel=Steel.MILD, thickness_mm=repair.job.thickness_mm, joint=repair.job.joint)
        suits = [fit(mild, decode("E6013"), rod_mm=mm).suits for mm in (repair.rod_from_mm, repair.rod_to_mm)]
        assert all(s.usable for s in suits), (repair.name, suits)


def test_weld_metal_by_hand():
    """A lap of 4 mm over 50 mm: 8 mm2 and 10 %, 440 mm3, 3.45 g."""
    job = Job(part="mudguard stay", thickness_mm=4, joint=Joint.LAP, weld_length_mm=50)
    assert weld_metal_g(job) == pytest.approx(3.454, abs=0.002)


def test_each_joint_has_its_metal():
    for joint in Joint:
        metal = weld_metal(Job(part="body bracket", thickness_mm=4, joint=joint, weld_length_mm=50))
        assert metal.joint is joint


def test_what_was_not_measured_is_asked_for():
    with pytest.raises(OutOfRange, match="calipers"):
        weld_metal(Job(part="spring hanger"))
    with pytest.raises(OutOfRange, match="weld length"):
        weld_metal_g(Job(part="spring hanger", thickness_mm=5))
