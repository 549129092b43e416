"""The packed leads: which carry the arc, what their resistance is, and which of them warms first."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from kitlist.base.terms import Conductor, Fitting, LeadUse, ToolKind
from kitlist.kit import Lead
from kitlist.outlook.leads import (
    Lack,
    Missing,
    arc_leads,
    first_to_warm,
    in_row,
    link_ohm_20c,
    missing_or_unknown,
    opened_by,
    packed_links,
    parts_at_plug,
    parts_in_work_lead,
)
from kitlist.outlook.options.plan import plan_for
from kitlist.physics.leads.warming import duty_rating
from kitlist.readiness import assess
from kitlist.rules.example import lead, whole, with_kit, with_lead, without_tool

HOLDER = lead("holder lead", LeadUse.HOLDER, Fitting.HOLDER, length_m=6.0)
WORK = lead("work lead", LeadUse.WORK, Fitting.WORK_CLAMP, length_m=6.0)
LONGER = lead("extension", LeadUse.EXTENSION, Fitting.POST_CLAMP, length_m=10.0)


def link(name: str, **changes: Any) -> Lead:
    return lead(name, LeadUse.LINK, Fitting.POST_CLAMP, **changes)


def names(leads: tuple[Lead, ...]) -> list[str]:
    return [one.name for one in leads]


def test_links_come_one_by_one_the_thickest_first_and_those_of_unknown_area_last() -> None:
    kit = with_kit(
        leads=(link("?", area_mm2=None), link("25", area_mm2=25, count=2), HOLDER, link("35"), link("0", count=0))
    ).kit
    assert names(packed_links(kit)) == ["35", "25", "25", "?"]


def test_the_arc_has_one_holder_lead_one_work_lead_and_every_extension_that_is_packed() -> None:
    absent, spare = replace(HOLDER, name="absent", count=0), replace(HOLDER, name="spare")
    other = replace(LONGER, name="left at home", count=0)
    kit = with_kit(leads=(absent, LONGER, other, WORK, HOLDER, spare, link("link"))).kit
    assert names(arc_leads(kit)) == ["holder lead", "work lead", "extension"]


def test_an_isolator_opens_the_circuit_else_a_plug_else_nothing() -> None:
    plugged = replace(WORK, end_b=Fitting.PLUG)
    packed = whole().kit
    bare = without_tool(ToolKind.ISOLATOR).kit
    left = tuple(replace(t, count=0) if t.what is ToolKind.ISOLATOR else t for t in packed.tools)
    leads = (HOLDER, plugged)
    assert opened_by(replace(packed, leads=leads)) == "isolator"
    assert opened_by(replace(packed, leads=leads, tools=left)) == "far plug"
    assert opened_by(replace(bare, leads=leads)) == "far plug"
    assert opened_by(replace(bare, leads=(HOLDER, WORK))) == ""


@pytest.mark.parametrize(
    ("one", "parts"),
    [
        (replace(HOLDER, end_a=Fitting.PLUG), True),
        (replace(WORK, end_b=Fitting.PLUG), True),
        (replace(LONGER, end_b=Fitting.PLUG), True),
        (replace(WORK, end_b=Fitting.PLUG, count=0), False),
        (replace(link("link"), end_a=Fitting.PLUG), False),
        (WORK, False),
    ],
)
def test_only_a_plug_between_bank_and_rod_or_work_parts_the_circuit(one: Lead, parts: bool) -> None:
    assert parts_at_plug(with_kit(leads=(one,)).kit) is parts


def test_the_far_plug_is_the_work_leads_only_where_nothing_else_opens_the_row() -> None:
    bare = without_tool(ToolKind.ISOLATOR).kit
    plugged = replace(WORK, end_a=Fitting.PLUG)
    assert parts_in_work_lead(replace(bare, leads=(HOLDER, plugged, LONGER)))
    assert not parts_in_work_lead(replace(bare, leads=(HOLDER, WORK)))
    assert not parts_in_work_lead(replace(whole().kit, leads=(HOLDER, plugged)))
    assert not parts_in_work_lead(replace(bare, leads=(replace(HOLDER, end_a=Fitting.PLUG), plugged)))
    assert not parts_in_work_lead(replace(bare, leads=(HOLDER, plugged, replace(LONGER, end_a=Fitting.PLUG))))
    assert parts_in_work_lead(replace(bare, leads=(replace(HOLDER, end_a=Fitting.PLUG, count=0), plugged)))


def test_length_and_area_are_asked_for_unless_the_lead_was_measured() -> None:
    bare = {"length_m": None, "area_mm2": None}
    thin, measured = link("thin", **bare), link("measured", measured_mohm=2.0, **bare)
    assert list(missing_or_unknown((HOLDER, WORK), (thin, thin, measured))) == [
        Missing(Lack.LENGTH, "thin"),
        Missing(Lack.AREA, "thin"),
    ]
    assert list(missing_or_unknown((HOLDER, WORK), (link("whole"),))) == []


def test_without_holder_or_work_lead_there_is_no_arc() -> None:
    assert [str(lack) for lack in missing_or_unknown((), ())] == ["no holder lead is packed", "no work lead is packed"]
    assert list(missing_or_unknown((HOLDER,), ())) == [Missing(Lack.ARC_LEAD, "work")]


def test_what_is_not_packed_and_what_is_lithium_is_nothing_to_write_down() -> None:
    assert {lack for lack in Lack if not lack.to_write_down} == {Lack.ARC_LEAD, Lack.NOT_ALONG, Lack.LITHIUM}


def test_leads_in_a_row_add_up_by_the_table_of_flexible_conductors() -> None:
    # IEC 60228 class 5: 35 mm2 has 0.554, 25 mm2 0.780 mohm a metre at 20 °C
    row = in_row((HOLDER, replace(WORK, area_mm2=25, length_m=4.0)))
    assert row.conductor_ohm_20c * 1000 == pytest.approx(6 * 0.554 + 4 * 0.780, rel=1e-6)
    assert row.more_joints_ohm is None


def test_tinned_copper_has_its_own_table_and_a_metal_that_nobody_wrote_down_is_taken_as_copper() -> None:
    # IEC 60228 class 5, 35 mm2: tinned 0.565, plain 0.554 mohm a metre
    tinned, unknown = (
        in_row((replace(HOLDER, conductor=metal),)) for metal in (Conductor.TINNED_COPPER, Conductor.UNKNOWN)
    )
    assert tinned.conductor_ohm_20c * 1000 == pytest.approx(6 * 0.565, rel=1e-6)
    assert unknown.conductor_ohm_20c * 1000 == pytest.approx(6 * 0.554, rel=1e-6)


def test_each_plug_adds_a_joint_and_clamps_are_counted_elsewhere() -> None:
    one, two = (in_row((replace(LONGER, **ends),)) for ends in ({"end_a": Fitting.PLUG}, _both(Fitting.PLUG)))
    assert one.more_joints_ohm is not None
    assert two.more_joints_ohm is not None
    assert two.more_joints_ohm.best == pytest.approx(2 * one.more_joints_ohm.best)
    assert in_row((replace(LONGER, **_both(Fitting.WORK_CLAMP)),)).more_joints_ohm is None


def _both(fitting: Fitting) -> dict[str, Fitting]:
    return {"end_a": fitting, "end_b": fitting}


def test_a_measured_lead_counts_as_measured_and_not_by_its_section() -> None:
    row = in_row((replace(HOLDER, measured_mohm=7.5),))
    assert row.conductor_ohm_20c == 0.0
    assert row.more_joints_ohm is not None
    assert row.more_joints_ohm.best == pytest.approx(0.0075)


def test_the_worst_of_the_links_stands_for_each() -> None:
    good, poor = link("35", length_m=1.0), link("25", area_mm2=25, length_m=1.0)
    assert link_ohm_20c((good, poor)) * 1000 == pytest.approx(0.780)
    assert link_ohm_20c((good, poor, link("measured", measured_mohm=3.0))) == 0.003
    assert link_ohm_20c(()) == 0.0


def test_the_lead_that_warms_first_is_found_by_area_metal_and_what_its_insulation_bears() -> None:
    thin = link("thin", area_mm2=16, insulation_limit_c=90)
    heat = first_to_warm((HOLDER, thin, link("?", area_mm2=None)))
    assert heat is not None
    assert (heat.area_mm2, heat.limit_c, heat.conductor) == (16, 90, Conductor.COPPER)
    aluminium = link("aluminium", area_mm2=35, conductor=Conductor.ALUMINIUM, insulation_limit_c=70)
    heat = first_to_warm((link("copper", area_mm2=25, insulation_limit_c=70), aluminium))
    assert heat is not None
    assert heat.conductor is Conductor.ALUMINIUM
    assert first_to_warm((link("?", area_mm2=None),)) is None


def test_a_metal_that_nobody_wrote_down_is_copper_for_the_current_and_copper_clad_for_what_it_may_carry() -> None:
    unknown = link("??", area_mm2=25, conductor=Conductor.UNKNOWN)
    copper = replace(unknown, conductor=Conductor.COPPER)
    assert in_row((unknown,)) == in_row((copper,))
    assert link_ohm_20c((unknown,)) == link_ohm_20c((copper,))
    assert first_to_warm((unknown,)) == first_to_warm((copper,))  # it warms so at the least
    carries = {metal: duty_rating(area_mm2=25, duty_ratio=0.5, conductor=metal).current_a for metal in Conductor}
    assert carries[Conductor.UNKNOWN] == carries[Conductor.COPPER_CLAD] < carries[Conductor.COPPER]


def test_a_kit_whose_leads_are_of_unknown_metal_is_asked_for_it_and_is_not_left_without_a_rod() -> None:
    example = with_lead("work lead", conductor=Conductor.UNKNOWN)
    readiness = assess(example.kit, example.trip, on=example.on)
    assert [gap.rule for gap in readiness.gaps] == ["lead-too-thin"]
    assert plan_for(example.kit, example.trip, on=example.on).offers


def test_insulation_of_which_nothing_is_written_bears_what_common_pvc_does() -> None:
    heat = first_to_warm((replace(HOLDER, insulation_limit_c=None),))
    assert heat is not None
    assert heat.limit_c == 70.0
