"""The card from the real builders: few steps a face, half a minute each, every face with its trigger and its next."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from kitlist.base.errors import PrintError
from kitlist.base.terms import Polarity, ToolKind
from kitlist.faces.paper import card_split, overflow, pdf, text
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.card_document import Bars, Card, Grid, IfThenLine, Lines, PolarityBanner, Step
from kitlist.faces.paper.document import Caution, Hookup
from kitlist.kit import Tool, Vehicle
from kitlist.outlook.card import card_facts
from kitlist.rules import example
from paper import awkward, built, papers
from paper.papers import CARDS, document, pages_taken

BUILT = built.names("CARD")
LOOKED_UP = ("Rods on this bank", "Tables", "Notes", "Somebody is hurt", "When it goes wrong")


@pytest.mark.parametrize("name", BUILT)
def test_a_face_that_is_read_aloud_has_nine_steps_at_most_each_on_one_line_and_takes_half_a_minute(name: str) -> None:
    for face in document(name).faces:
        if face.title in LOOKED_UP:
            continue
        spoken = len(f"{face.title} {face.when}".split()) + sum(card_split.words_of(block) for block in face.blocks)
        assert len(face.steps) <= 9
        assert spoken * 60 / 130 <= 30.5, (face.number, spoken)
        assert all(card_split.lines_of(step) == 1 for step in face.steps)


@pytest.mark.parametrize("name", BUILT)
def test_each_face_says_when_it_is_used_and_which_is_next_and_all_but_the_last_where_to_look_when_it_goes_wrong(
    name: str,
) -> None:
    faces = document(name).faces
    assert all(face.when and face.next for face in faces)
    assert [face.back_cover for face in faces] == [False] * (len(faces) - 1) + [True]
    for face, after in pairwise(faces):
        assert face.next == f"Next: {after.number} {after.title}"
        assert face.wrong == f"Wrong: {faces[-1].number}"
    assert len({face.number for face in faces}) == len(faces)
    assert len(faces) % 2 == 0  # two faces make a leaf


def test_the_steps_of_a_face_that_goes_on_are_counted_on() -> None:
    card = document("BUILT_DEMO_CARD")
    for face, after in pairwise(card.faces):
        if after.steps and face.number[0] == after.number[0]:
            assert after.first_step == face.first_step + len(face.steps)
        elif face.number[0] != after.number[0]:
            assert after.first_step == 1


def test_the_faces_are_the_phases_of_the_procedure_and_the_tables_and_what_goes_wrong() -> None:
    found = dict.fromkeys(face.title for face in document("BUILT_DEMO_CARD").faces)
    titles = [title for title in found if title != "Notes"]  # which makes an odd number of faces even
    assert titles == [
        "Make safe",
        "Isolate and read",
        "Link",
        "At the arc",
        "Rods on this bank",
        "Undo and move",
        "After",
        "Tables",
        "Somebody is hurt",
        "When it goes wrong",
    ]


def steps_of(card: Card) -> list[str]:
    return [step.text for face in card.faces for step in face.steps]


def test_fire_rules_are_asked_for_before_anything_else() -> None:
    assert "hot work" in steps_of(document("BUILT_DEMO_CARD"))[0]


@pytest.mark.parametrize("name", BUILT)
def test_the_circuit_is_closed_by_a_word_after_the_rod_is_in_and_opened_before_anything_comes_off(name: str) -> None:
    steps = steps_of(document(name))
    order = ["Goggles", "Free", "Link", "Join WORK", "Join HOLDER last", "Helmet", "Rod in, circuit open",
             "Helmets down", "Run a bead", "Say “open”", "Take the rod out", "HOLDER off", "Links off",
             "Put each back"]  # fmt: skip
    places = [next(n for n, step in enumerate(steps) if step.startswith(words)) for words in order]
    assert places == sorted(places)


def test_the_ballast_is_on_the_card_of_four_in_series() -> None:
    assert any("ballast" in step for step in steps_of(document("BUILT_FOUR_CARD")))
    assert not any("ballast" in step for step in steps_of(document("BUILT_DEMO_CARD")))


def test_each_lead_is_joined_to_the_post_that_the_polarity_wants() -> None:
    plus, minus = document("BUILT_DEMO_CARD"), document("BUILT_MINUS_CARD")
    assert {"Join WORK to 1 −", "Join HOLDER last, to 3 +"} <= set(steps_of(plus))
    assert {"Join WORK to 3 +", "Join HOLDER last, to 1 −"} <= set(steps_of(minus))
    for card, polarity in ((plus, Polarity.DCEP), (minus, Polarity.DCEN)):
        banners = [b for face in card.faces for b in face.blocks if isinstance(b, PolarityBanner)]
        assert banners == [PolarityBanner(polarity)]


@pytest.mark.parametrize(
    "hazard",
    ["arc light", "gas explodes", "dead short", "fire watcher", "fume", "acid", "on a jack", "skin, ground: dry",
     "look behind", "steering, suspension", "brakes: never", "hot work", "never the jaws, never a post", "chassis last",
     "never weld it", "powder or foam, never water", "running water", "call for help"],
)  # fmt: skip
def test_the_card_says_what_can_hurt(hazard: str) -> None:
    shown = " ".join(text.render(document("BUILT_DEMO_CARD")).lower().split())
    assert hazard in shown


def test_the_back_cover_names_the_trouble_first_and_one_way_to_free_a_stuck_rod() -> None:
    last = document("BUILT_DEMO_CARD").faces[-1]
    troubles = [block for block in last.blocks if isinstance(block, IfThenLine)]
    assert troubles[0].trigger == "Rod sticks"
    assert "Isolator welded shut" in troubles[0].then
    assert len([trouble for trouble in troubles if "stick" in trouble.trigger]) == 1


def test_a_rod_that_runs_hot_says_on_what_steel_and_six_kinds_of_rods_have_a_card() -> None:
    many = ("E6013", "E7018", "E6011", "E6010", "E7016", "E7024")
    card = built.card(built.with_rods(built.demo(), *many))
    assert pages_taken(card)
    grids = [b for f in card.faces if f.title == "Rods on this bank" for b in f.blocks if isinstance(b, Grid)]
    assert sum(len(grid.rows) for grid in grids) == 6
    hot = [note for grid in grids for row, note in zip(grid.rows, grid.notes, strict=True) if row[1] == "HOT"]
    assert hot
    assert all("mm" in note for note in hot)


def test_the_tables_show_the_banks_current_and_the_trips_repairs_and_no_reading() -> None:
    card = document("BUILT_DEMO_CARD")
    tables = [block for face in card.faces if face.title == "Tables" for block in face.blocks]
    (bars,) = (block for block in tables if isinstance(block, Bars))
    assert [bar.chosen for bar in bars.chart.banks] == [True]
    rows = {row[0]: row for grid in tables if isinstance(grid, Grid) and not grid.numbers for row in grid.rows}
    assert set(rows) == {"stilt spring hanger", "heron rack leg", "trailer drawbar", "wheel rim"}
    assert rows["wheel rim"][1] == "NEVER weld it"
    shown = text.render(card)
    assert not any(f"{reading.volts_v:.2f}" in shown for reading in built.demo().kit.readings)


def test_the_card_wants_low_hydrogen_rods_dry_and_only_where_they_are_packed() -> None:
    def answer(readiness: built.Readiness) -> str:
        (step,) = (s for f in built.card(readiness).faces for s in f.steps if s.text.startswith("Run a bead"))
        return step.see

    assert answer(built.demo()) == "E7018 dry"
    assert answer(built.with_rods(built.demo(), "E7018", "E7016")) == "rods dry"
    assert answer(built.with_rods(built.demo(), "E6013")) == ""


LONG = (
    "{} of a guest and under the rear bed left",
    "of a guest and under the rear bed left {}",
    "W" * 119 + "{}",
    "{}",
)
STRINGS = ((3, 1), (4, 1), (6, 2))


@cache
def of_batteries_called(name: str, number: int, strings: int) -> Card:
    names = tuple(name.format(place) for place in range(number))
    return built.card(built.with_ballast(built.guests(names, strings=strings)))


def test_batteries_with_long_names_fit() -> None:
    assert pages_taken(papers.pooled([of_batteries_called(name, *strings) for name in LONG for strings in STRINGS]))


@pytest.mark.parametrize("strings", STRINGS)
@pytest.mark.parametrize("name", LONG)
def test_batteries_with_long_names_are_told_apart_by_name_and_number(name: str, strings: tuple[int, int]) -> None:
    number, _ = strings
    card = of_batteries_called(name, *strings)
    freed = [step.text for face in card.faces for step in face.steps if step.text.startswith("Free ")][:number]
    assert [step.split(" ", 2)[1] for step in freed] == [str(place) for place in range(1, number + 1)]
    assert len({step.split(" ", 2)[2] for step in freed}) == number
    (drawing,) = (b for f in card.faces for b in f.blocks if isinstance(b, Hookup))
    assert len({box.name for box in drawing.boxes}) == number


def test_a_repair_and_a_vehicle_with_long_names_and_a_crew_of_one_have_a_card() -> None:
    it = example.with_repair(name="the left rear spring hanger that cracked in the river last year and again")
    vehicles = (Vehicle(name="North with its long name of forty characters", crank_a=250), *it.kit.vehicles[1:])
    batteries = tuple(
        replace(b, vehicle=vehicles[0].name) if b.vehicle == it.kit.vehicles[0].name else b for b in it.kit.batteries
    )
    trip = replace(it.trip, people=1, vehicles=tuple(v.name for v in vehicles))
    kit = replace(it.kit, vehicles=vehicles, batteries=batteries)
    assert pages_taken(build_card(kit, trip, on=it.on))


@pytest.mark.parametrize(
    ("build", "why"),
    [
        (lambda: example.with_trip(wet=True), "over 35 V"),
        (lambda: example.with_trip(bank=("north-main",)), "one battery never holds an arc"),
        (lambda: example.without_tool(ToolKind.ISOLATOR), "nothing in this kit opens the circuit"),
        (lambda: example.with_trip(bank=("north-main", "north-second", "south-second", "south-main")), "ballast"),
    ],
)
def test_there_is_no_card_for_a_bank_that_may_not_be_linked_and_it_says_what_helps(build, why: str) -> None:
    it = build()
    with pytest.raises(PrintError, match=why) as refused:
        build_card(it.kit, it.trip, on=it.on)
    assert refused.value.hint


def test_fire_rules_that_nobody_asked_or_a_ban_do_not_refuse_the_card() -> None:
    for rules in ("not-asked", "banned"):
        it = example.with_trip(fire_rules=rules, fire_rules_asked_on=None)
        assert "hot work" in build_card(it.kit, it.trip, on=it.on).faces[0].steps[0].text


def test_cards_of_banks_that_differ_differ_on_sight() -> None:
    words = [text.render(document(name)).splitlines()[0] for name in ("BUILT_DEMO_CARD", "BUILT_PARALLEL_CARD")]
    assert words == ["Glovebox card: three in series", "Glovebox card: two strings of two"]


def test_a_digest_is_of_what_is_printed_and_of_nothing_else() -> None:
    it = example.whole()
    basis = card_facts(it.kit, it.trip, on=it.on).basis
    noted = replace(it.kit, batteries=tuple(replace(b, note="new") for b in it.kit.batteries))
    assert card_facts(noted, it.trip, on=it.on).basis == basis
    later = replace(it.kit, readings=())
    assert card_facts(later, it.trip, on=it.on).basis == basis
    more = replace(it.kit, tools=(*it.kit.tools, Tool(name="more water", what=ToolKind.WATER, volume_l=40)))
    assert card_facts(more, it.trip, on=it.on).basis != basis
    assert basis.startswith("2:")


@pytest.mark.parametrize("name", CARDS)
def test_every_caution_of_a_card_is_whole(name: str) -> None:
    for face in document(name).faces:
        for block in face.blocks:
            if isinstance(block, Caution):
                assert block.hazard
                assert block.result
                assert block.avoid


def test_what_is_recorded_behind_the_weld_stands_below_the_step_that_looks_there() -> None:
    card = document("BUILT_DEMO_CARD")
    blocks = [block for face in card.faces for block in face.blocks]
    at = next(n for n, b in enumerate(blocks) if isinstance(b, Step) and b.text == "Look behind the weld")
    recorded = [b for b in blocks[at + 1 : at + 3] if isinstance(b, Lines)]
    assert "stilt spring hanger: brake line" in recorded[-1].lines[0]


def numbers_of(card: Card) -> list[Grid]:
    return [b for f in card.faces for b in f.blocks if isinstance(b, Grid) and b.numbers]


def test_the_volts_table_has_a_column_for_each_battery_and_its_own_rows_are_those_of_the_owner() -> None:
    from kitlist.outlook.hardware import hardware_outlook
    from kitlist.outlook.lasting import table

    readiness = awkward.twelve_repairs()
    card = built.card(readiness)
    assert all(grid.headings == ("Reads", "1", "2", "3") for grid in numbers_of(card))
    shown = {row[0]: row[1:] for grid in numbers_of(card) for row in grid.rows}
    hardware = hardware_outlook(readiness.kit, readiness.trip, on=readiness.on)
    (lasting, *_) = [rod.lasting for rod in hardware.rods if rod.lasting is not None]
    for column, name in enumerate(readiness.trip.bank):
        rows = [row for row in table([lasting], name) if f"{row.volts_v:.2f} V" in shown]
        assert rows
        for row in rows:
            assert shown[f"{row.volts_v:.2f} V"][column] == str(row.rods[0])


@pytest.mark.parametrize("readiness", [built.demo, awkward.cold], ids=["demo", "cold"])
def test_where_no_reading_is_sure_of_a_rod_a_sentence_stands_in_place_of_a_table_of_zeros(readiness) -> None:
    card = built.card(readiness())
    assert numbers_of(card) == []
    assert "Look up rods" not in " ".join(steps_of(card))
    lines = [b for f in card.faces for b in f.blocks if isinstance(b, Lines)]
    assert any(line.title == "Rods by volts:" and "sure of none" in line.lines[0] for line in lines)
    table = built.card(awkward.twelve_repairs())
    assert all(any(cell != "0" for cell in grid.rows[0][1:]) for grid in numbers_of(table))
    assert any("Look up rods" in step for step in steps_of(table))


def test_a_fuse_that_is_the_second_way_is_put_into_the_holders_lead_and_drawn_there() -> None:
    it = example.with_tool(ToolKind.ISOLATOR, rating_a=300)
    tools = tuple(replace(t, rating_a=225) if t.what is ToolKind.FUSE else t for t in it.kit.tools)
    card = build_card(replace(it.kit, tools=tools), it.trip, on=it.on)
    stuck = next(b for b in card.faces[-1].blocks if isinstance(b, IfThenLine) and b.trigger == "Rod sticks")
    steps = {step.text: step.see for face in card.faces for step in face.steps}
    assert "fuse blows" in stuck.then
    assert steps["Fuse into HOLDER lead"] == "225 A"
    assert drawing_of(card).in_holder == ("fuse",)
    assert "Fuse into HOLDER lead" not in steps_of(document("BUILT_DEMO_CARD"))
    assert drawing_of(document("BUILT_FOUR_CARD")).in_holder[-1] == "ballast"


def drawing_of(card: Card) -> Hookup:
    (drawing,) = (b for f in card.faces for b in f.blocks if isinstance(b, Hookup))
    return drawing


def test_goggles_go_on_again_before_a_post_is_touched_after_the_last_rod() -> None:
    card = document("BUILT_DEMO_CARD")
    undo = [step.text for face in card.faces if face.number == "5" for step in face.steps]
    assert undo.index("Goggles and gloves on") < undo.index("HOLDER off, then WORK off")


@pytest.mark.parametrize("readiness", [awkward.pairs, awkward.two_pairs], ids=["one pair", "two pairs"])
def test_vehicles_of_24_v_have_a_card_that_keeps_the_pair_apart_until_it_is_read(readiness) -> None:
    card = built.card(readiness())
    assert pages_taken(card)
    steps = steps_of(card)
    pairs = [v.name for v in readiness().kit.vehicles if v.system_v == 24]
    for name in pairs:
        assert f"{name} pair: chassis, bridge, + off" in steps
        assert f"Bridge on, {name}" in steps
    notes = [line for f in card.faces for b in f.blocks if isinstance(b, Lines) for line in b.lines]
    assert f"Not the 24 V pair of {', '.join(pairs)}: it waits for its readings." in notes


def test_a_long_name_of_a_vehicle_with_a_pair_is_cut_to_the_room_of_the_steps_that_name_it() -> None:
    it, name = awkward.two_pairs(), "Long Haul of the camp"
    vehicles = (replace(it.kit.vehicles[0], name=name), *it.kit.vehicles[1:])
    batteries = tuple(replace(b, vehicle=name) if b.vehicle == "North" else b for b in it.kit.batteries)
    kit = replace(it.kit, vehicles=vehicles, batteries=batteries)
    card = build_card(kit, replace(it.trip, vehicles=tuple(v.name for v in vehicles), repairs=()), on=it.on)
    overflow.check_words(card)
    assert "Long… pair: chassis, bridge, + off" in steps_of(card)


def test_twelve_repairs_leave_the_first_face_whole_and_stand_by_class_with_what_is_behind_each() -> None:
    readiness = awkward.twelve_repairs()
    card = built.card(readiness)
    first = [face for face in card.faces if face.title == "Make safe"]
    assert len(first) == 2
    assert any("on face 7" in line for f in first for b in f.blocks if isinstance(b, Lines) for line in b.lines)
    grids = [b for f in card.faces if f.title == "Tables" for b in f.blocks if isinstance(b, Grid) and not b.numbers]
    assert sum(len(grid.rows) for grid in grids) == 12
    never = {row[0] for grid in grids if grid.title == "NEVER weld" for row in grid.rows}
    assert never == {"north tow hitch", "north wheel rim", "north fuel tank", "north brake pedal"}
    assert all(grid.title for grid in grids)  # on every face that a class goes on to
    hanger = next(
        note
        for grid in grids
        for row, note in zip(grid.rows, grid.notes, strict=True)
        if row[0] == "north spring hanger"
    )
    assert "Prepare: bare metal" in hanger
    assert "Stock: flat 50×6" in hanger
    assert "Behind it: brake line, wiring." in hanger


def test_names_in_cyrillic_and_greek_print_in_their_script_and_names_that_no_family_has_still_differ() -> None:
    import io

    import pdfplumber

    from paper.papers import chars_of

    own = ("Цапля главная", "Ερωδιός", "Łódź & co")
    card = built.card(built.guests((*own[:2], own[2]), strings=1))
    pages = pdfplumber.open(io.BytesIO(pdf.to_pdf(card))).pages
    words = " ".join(page.extract_text() for page in pages)
    assert "Free 1 Цапля" in words
    assert "Ερωδιός" in words
    assert any("Fira" in char["fontname"] for page in pages for char in chars_of(page))
    with pytest.raises(PrintError, match="no letters for 車載用, 電池甲, 電池乙") as refused:
        pdf.to_pdf(built.card(built.guests(("車載用", "電池甲", "電池乙"), strings=1)))
    assert "Cyrillic" in refused.value.hint
    twins = built.card(built.guests(("車載用", "電池甲", "電池乙"), strings=1))
    (drawing,) = (b for f in twins.faces for b in f.blocks if isinstance(b, Hookup))
    assert len({box.name for box in drawing.boxes}) == 3
