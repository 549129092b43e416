"""A card shows one polarity: where the rods give none, there is no card, and no sheet or step that guesses one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from kitlist.base.errors import PrintError
from kitlist.base.terms import Chemistry, Fitting, LeadUse, Polarity, RodCondition, RodStorage, ToolKind
from kitlist.faces.paper.build_card import hookup_of
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.document import LeadLine
from kitlist.faces.paper.text import render
from kitlist.kit import Repair, Rod
from kitlist.outlook import hardware_outlook, look_out
from kitlist.outlook.card import CardFacts, card_facts, detail_of
from kitlist.outlook.procedure_steps import also_off, procedure_for
from kitlist.outlook.procedure_terms import Barred, Phase
from kitlist.outlook.procedure_words import worded
from kitlist.physics.bank.verdict import Fit
from kitlist.readiness import assess
from kitlist.rules import Example
from kitlist.rules.example import rod, whole, with_kit, with_lead, with_repair, with_trip, without_tool
from kitlist.rules.short_arc_only import with_two
from kitlist.welding.repairs.parts import RepairClass


def steps_of(example: Example, *phases: Phase) -> tuple[str, ...]:
    """Every step in words, with what it answers, of these phases or of all."""
    outlook = look_out(example.kit, example.trip, on=example.on)
    stages = worded(procedure_for(example.kit, example.trip, outlook, on=example.on))
    return tuple(
        " ".join(filter(None, (step.text, step.see, step.more)))
        for stage in stages
        if not phases or stage.phase in phases
        for step in stage.steps
    )


def card(*rods: Rod) -> CardFacts:
    example = with_kit(rods=rods)
    return card_facts(example.kit, example.trip, on=example.on)


def test_a_rod_that_does_not_say_its_polarity_gets_no_card_with_one() -> None:
    with pytest.raises(PrintError, match="one polarity, and that of silent is not known") as caught:
        card(*whole().kit.rods, rod("silent", designation="E 42 0 RR 12"))
    assert "Read the packet" in caught.value.hint


def test_rods_that_need_different_polarities_get_no_card_with_one() -> None:
    plus = rod("plus", designation="E7018", storage=RodStorage.SEALED, opened_on=None)
    minus = rod("minus", designation="E6012")
    with pytest.raises(PrintError, match="need different ones"):
        card(plus, minus)
    assert (card(plus).procedure.polarity, card(minus).procedure.polarity) == (Polarity.DCEP, Polarity.DCEN)


SILENT = (rod("silent", designation="E 42 0 RR 12"),)
TWO = (rod("plus", designation="E7018"), rod("minus", designation="E6012"))


@pytest.mark.parametrize(
    "rods", [(), SILENT, TWO, (rod("odd", designation="X99"),)], ids=["none", "silent", "two", "odd"]
)
def test_where_no_polarity_is_said_neither_sheet_nor_steps_nor_leads_say_one(rods: tuple[Rod, ...]) -> None:
    example = with_kit(rods=rods)
    judged = assess(example.kit, example.trip, on=example.on)
    told = render(build_sheet(judged, actions=()))
    steps = " ".join(steps_of(example))
    assert "the rods give no one polarity, read the packet before holder and work clamp go on" in " ".join(told.split())
    assert "Where it does not say, do not link." in steps
    assert "HOLDER TO" not in steps + ("" if rods == TWO else told)  # of two, the gap says what each of them needs
    assert "an open end to holder: " in told
    with pytest.raises(PrintError, match="one polarity"):
        card(*rods)


def test_where_one_is_said_the_steps_say_it_at_both_ends() -> None:
    for rods, words in ((whole().kit.rods, "HOLDER TO +, WORK CLAMP TO −"), (TWO[1:], "HOLDER TO −, WORK CLAMP TO +")):
        example = with_kit(rods=rods)
        judged = assess(example.kit, example.trip, on=example.on)
        assert any(words in step for step in steps_of(example, Phase.ARC))
        assert words in " ".join(render(build_sheet(judged, actions=())).split())


def test_where_nothing_opens_the_circuit_there_is_no_card_and_no_step_links_it() -> None:
    example = without_tool(ToolKind.ISOLATOR)
    judged = assess(example.kit, example.trip, on=example.on)
    assert steps_of(example) == ()
    assert Barred.NOTHING_OPENS in procedure_for(example.kit, example.trip, judged.outlook, on=example.on).barred
    drawn = build_sheet(judged, actions=()).bank
    assert drawn is not None
    assert drawn.hookup is not None
    assert drawn.hookup.opening == ""
    with pytest.raises(PrintError, match="nothing in this kit opens the circuit"):
        card_facts(example.kit, example.trip, on=example.on)


def parting_at(use: LeadUse) -> Example:
    """The whole kit without an isolator, one arc lead of which parts at a plug."""
    example = without_tool(ToolKind.ISOLATOR)
    leads = tuple(replace(x, end_a=Fitting.PLUG) if x.use is use else x for x in example.kit.leads)
    return replace(example, kit=replace(example.kit, leads=leads))


def test_a_holder_lead_that_parts_at_a_plug_opens_it() -> None:
    example = parting_at(LeadUse.HOLDER)
    facts = card_facts(example.kit, example.trip, on=example.on)
    assert (facts.procedure.opening, facts.procedure.opens_in_work) == ("far plug", False)
    first, *_ = steps_of(example, Phase.LINK)
    assert "far plug apart before anything is linked" in first


@pytest.mark.parametrize(("use", "lead"), [(LeadUse.HOLDER, LeadLine.HOLDER), (LeadUse.WORK, LeadLine.WORK)])
def test_sheet_and_card_draw_the_far_plug_in_the_lead_that_has_it(use: LeadUse, lead: LeadLine) -> None:
    example = parting_at(use)
    drawn = build_sheet(assess(example.kit, example.trip, on=example.on), actions=()).bank
    assert drawn is not None
    assert drawn.hookup is not None
    facts = card_facts(example.kit, example.trip, on=example.on)
    assert (drawn.hookup.opening_in, hookup_of(facts).opening_in) == (lead, lead)


def test_a_battery_outside_the_bank_is_off_too_while_its_vehicle_is_welded_on() -> None:
    example = with_trip(bank=("north-main", "north-second", "south-second"))
    repair = Repair(name="hanger", part="spring hanger", vehicle="South")
    kit, trip = replace(example.kit, repairs=(repair,)), replace(example.trip, repairs=("hanger",))
    judged = assess(kit, trip, on=example.on)
    assert also_off(kit, trip) == (("South", ("south-main",)),)
    steps = steps_of(replace(example, kit=kit, trip=trip), Phase.READ)
    assert any(step.startswith("Weld on South: free south-main Both leads off, chassis side first") for step in steps)
    drawn = build_sheet(judged, actions=()).bank
    assert drawn is not None
    assert "Off too, both leads, while their vehicle is welded on: south-main." in drawn.remarks
    goggles, freed = (
        next(n for n, step in enumerate(steps) if step.startswith(words)) for words in ("Goggles", "Free")
    )
    assert goggles < freed


def test_the_volts_to_go_on_are_those_of_the_reserve_whatever_it_is_for() -> None:
    """Worked by hand: the charge kept and one thirsty rod (1.25 of 80 Ah) over it, by the table of AGM, and the doubt
    of a reading after a bleed: hypot(0.08, 0.0625) and 0.05, 0.152 V.

    Kept at 5 °C 0.60: 0.616 is 12.439 V, 12.590 with the doubt, 0.025 less at 5 °C. The starting batteries all: 0.75 at
    any temperature, so the battery counts as it reads at 25 °C, the most: 0.766 is 12.613 V, 12.764 with the doubt.
    """
    part = with_two()
    every = replace(part, trip=replace(part.trip, bank=("north-main", "south-main")))
    asked = [max(b.go_v for b in card_facts(x.kit, x.trip, on=x.on).procedure.bank) for x in (part, every)]
    assert asked == pytest.approx([12.57, 12.77])
    marks = hardware_outlook(every.kit, every.trip, on=every.on).marks.values()
    assert [mark.go_v for mark in marks] == pytest.approx([12.77, 12.77])


def test_the_card_has_each_batterys_own_volts() -> None:
    """Of 50 Ah a rod is 0.025: 0.625 is 12.450 V, 12.602 with the doubt of a bleed, 0.025 less at 5 °C."""
    two = with_two()
    smaller = tuple(replace(b, c20_ah=50) if b.name == "north-second" else b for b in two.kit.batteries)
    kit = replace(two.kit, batteries=smaller)
    marks = hardware_outlook(kit, two.trip, on=two.on).marks
    assert {name: mark.go_v for name, mark in marks.items()} == pytest.approx(
        {"north-second": 12.58, "south-second": 12.57}
    )
    card = card_facts(kit, two.trip, on=two.on)
    assert [battery.go_v for battery in card.procedure.bank] == pytest.approx([12.58, 12.57])


def test_the_volts_to_go_on_are_never_under_those_of_the_reserve_and_the_rods_ask_for_more() -> None:
    """Half of an AGM battery is 12.30 V, three quarters 12.60 V: the BCI open-circuit table, second hand."""
    part = with_trip(bank=("north-main", "north-second", "south-second"))
    every = with_trip(bank=("north-main", "north-second", "south-main"))
    for example, reserve_v in ((part, 12.30), (every, 12.60)):
        for battery in card_facts(example.kit, example.trip, on=example.on).procedure.bank:
            assert battery.after_v >= reserve_v
            assert battery.go_v > battery.after_v


def test_a_rod_that_is_too_hot_on_a_full_bank_is_too_hot_on_the_card() -> None:
    """The sheet's verdict follows the readings; the card's must not be the milder of the two."""
    seen = set()
    for diameter_mm in (2.0, 2.4, 2.5, 3.2):
        example = with_kit(rods=(rod("thin", diameter_mm=diameter_mm),))
        (sheet,) = look_out(example.kit, example.trip, on=example.on).rods
        facts = card_facts(example.kit, example.trip, on=example.on)
        seen.add(sheet.fit)
        if sheet.fit is Fit.TOO_HOT:
            assert facts.rods[0].fit == Fit.TOO_HOT
    assert Fit.TOO_HOT in seen


def test_parallel_strings_are_joined_minus_first_and_plus_only_after_the_meter() -> None:
    bank = ("north-main", "north-second", "south-main", "south-second")
    steps = steps_of(with_trip(bank=bank, bank_strings=2), Phase.LINK)
    ties = [step for step in steps if step.startswith(("Tie", "Meter"))]
    assert [step.partition(" More")[0] for step in ties][1:] == ["Meter 2 + to 4 + ≤ 0.2 V", "Tie 2 + to 4 +"]
    assert ties[0].startswith("Tie 1 − to 3 −")


def test_a_bank_that_does_not_travel_has_no_step_to_link_it() -> None:
    example = with_trip(vehicles=("South",), bank=("north-main", "north-second"))
    assert steps_of(example) == ()


def test_a_packet_that_is_scrap_is_on_no_card_and_says_no_polarity() -> None:
    dry = rod("dry rods", designation="E6013", condition=RodCondition.DRY)
    wet = rod("wet rods", designation="E7018", diameter_mm=2.5, condition=RodCondition.DAMAGED)
    assert [one.words for one in card(dry, wet).rods] == [one.words for one in card(dry).rods]
    minus = rod("wet rods", designation="E6012", condition=RodCondition.DAMAGED)
    plus = rod("dry rods", designation="E7018", condition=RodCondition.DRY)
    assert card(plus, minus).procedure.polarity is card(plus).procedure.polarity
    with pytest.raises(PrintError):
        card(wet)


def test_each_row_of_volts_has_what_each_battery_shows_at_them_down_to_where_none_shows_any() -> None:
    """Of a bank of unlike kinds and sizes, where one battery's volts end over the other's."""
    whole_kit = whole().kit
    batteries = tuple(
        replace(b, chemistry=Chemistry.FLOODED, c20_ah=110) if b.name == "north-second" else b
        for b in whole_kit.batteries
    )
    readings = tuple(replace(r, volts_v=12.6) if r.battery == "north-second" else r for r in whole_kit.readings)
    example = with_kit(batteries=batteries, readings=readings)
    hardware = hardware_outlook(example.kit, example.trip, on=example.on)
    (rod,) = hardware.rods
    assert rod.lasting is not None
    (table,) = card_facts(example.kit, example.trip, on=example.on).volts
    assert table.rods == (rod.words,)
    volts = [volts_v for volts_v, _ in table.rows]
    assert volts == sorted(volts, reverse=True)
    for volts_v, counts in table.rows:
        shown = tuple(rod.lasting.rods_shown(name, volts_v=volts_v) for name in example.trip.bank)
        assert counts[::2] == shown[::2], volts_v
        assert counts[1] == shown[1] or (volts_v > 12.6 and counts[1] < shown[1])  # over its own highest row: that row
    assert all(any(counts) for _, counts in table.rows[:-1])
    assert not any(table.rows[-1][1])
    assert table.rows[-2][1] == (0, 2, 0)


def test_a_rod_on_the_card_has_the_bank_s_current_its_range_and_its_steel_and_thin_steel_comes_first() -> None:
    rods = (rod("thick", diameter_mm=4.0), rod("thin", diameter_mm=2.5), rod("more thick", diameter_mm=4.0))
    example = with_kit(rods=rods)
    hardware = hardware_outlook(example.kit, example.trip, on=example.on)
    facts = card_facts(example.kit, example.trip, on=example.on)
    assert [one.words for one in facts.rods] == ["2.5 mm E6013", "4 mm E6013"]
    own = hardware.rods[0]
    assert own.band is not None
    assert own.range is not None
    assert facts.rods[1].band_a == (own.band.low_a, own.band.middle_a, own.band.high_a)
    assert facts.rods[1].range_a == (own.range.low_a, own.range.high_a)
    assert (facts.rods[1].steel_mm, facts.rods[1].fit) == (own.steel_mm, own.fit)
    assert facts.crew == "Example"
    assert facts.details == ("80 Ah AGM",) * 3
    assert all(set(table.rods) <= {"4 mm E6013"} for table in facts.volts)  # the thin one is too hot: no table


def test_rods_on_the_card_are_in_the_order_of_the_steel_that_they_are_for_on_this_bank() -> None:
    """A rod that runs hot is for thicker steel than its size would say."""
    kinds = (("E6013", 3.2), ("E7018", 3.2), ("E6013", 4.0), ("E6013", 2.5))
    facts = card(*(rod(f"{n}", designation=kind, diameter_mm=mm) for n, (kind, mm) in enumerate(kinds)))
    assert [one.words for one in facts.rods] == ["2.5 mm E6013", "3.2 mm E7018", "3.2 mm E6013", "4 mm E6013"]
    assert [one.steel_mm for one in facts.rods] == [(2.0, 5.0), (6.0, 8.0), (7.5, 8.0), (8.0, 25.0)]


def test_a_card_has_the_trip_s_repairs_with_rod_runs_and_number_and_what_must_never_be_welded_without() -> None:
    example = with_repair()
    (first,) = example.kit.repairs
    kit = replace(example.kit, repairs=(first, replace(first, name="rim", part="wheel rim", behind="")))
    trip = replace(example.trip, repairs=("hanger", "rim"))
    hanger, rim = card_facts(kit, trip, on=example.on).repairs
    (seen, _) = look_out(kit, trip, on=example.on).repairs
    assert seen.best is not None
    assert seen.best.needs is not None
    assert (hanger.rod, hanger.runs, hanger.rods) == (
        seen.best.rod.words,
        seen.best.needs.passes,
        seen.best.needs.rods.to_pack,
    )
    assert seen.part is not None
    assert (hanger.rule, hanger.behind, hanger.repair_class) == (seen.part.rule, "nothing", seen.part.repair_class)
    assert seen.typical is not None
    assert (hanger.prepare, hanger.stock) == (seen.typical.preparation, seen.typical.stock)
    assert (rim.repair_class, rim.rod, rim.runs, rim.rods, rim.prepare, rim.stock) == (
        RepairClass.NEVER,
        "",
        None,
        None,
        "",
        (),
    )


def test_a_bank_whose_current_cannot_be_told_gets_no_card_and_what_is_missing_is_named() -> None:
    example = with_lead("work lead", length_m=None)
    with pytest.raises(PrintError, match="cannot be predicted; not known: length of work lead"):
        card_facts(example.kit, example.trip, on=example.on)
    with pytest.raises(PrintError, match="no bank is chosen"):
        card_facts(example.kit, replace(example.trip, bank=()), on=example.on)


def test_a_card_s_digest_holds_while_what_is_printed_does() -> None:
    plain = card(rod("thick"))
    changes: tuple[dict[str, Any], ...] = (
        {"crew": "other"},
        {"strings": (("a",),)},
        {"details": ("1 Ah AGM",)},
        {"rods": ()},
        {"volts": ()},
    )
    for one in changes:
        assert replace(plain, **one).basis != plain.basis
    assert plain.basis == card(rod("called otherwise")).basis
    (own,) = plain.rods
    assert own.band_a is not None
    low, middle, high = own.band_a
    for band, same in (((low + 0.0001, middle, high), True), ((low + 2, middle, high), False), (None, False)):
        assert (replace(plain, rods=(replace(own, band_a=band),)).basis == plain.basis) is same
    assert replace(plain, rods=(replace(own, fit=None),)).basis != plain.basis
    assert replace(plain, procedure=replace(plain.procedure, opening="far plug")).basis != plain.basis
    assert len(plain.basis) == 16
    assert (
        detail_of(replace(whole().kit, batteries=(replace(whole().kit.batteries[0], c20_ah=None),)), "north-main")
        == "AGM"
    )
