"""The card's fixed wording: it has a place for everything, and says on the card all that can hurt."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from kitlist.base.errors import PrintError
from kitlist.base.terms import Polarity
from kitlist.faces.paper import overflow, text
from kitlist.faces.paper.card_words import card_faces
from kitlist.faces.paper.document import Caution, Face, Hookup, PolarityBanner, RodTable, Step
from paper import samples

Faces = Callable[..., tuple[Face, ...]]
FEW = {"isolator", "few_isolator"}
FLAGS = [
    FEW,
    FEW | {"over_35_v"},
    {"few_plug", "over_35_v"},
    {"many", "many_isolator", "isolator", "over_35_v"},
    {"many", "many_plug"},
    {"many", "many_isolator", "isolator", "parallel"},
    {"many", "many_plug", "parallel"},
]


def faces(**changes: object) -> tuple[Face, ...]:
    asked: dict = {
        "values": samples.VALUES,
        "for_each": {
            "battery": [{"battery": "Heron", "leads": "2"}],
            "link": [{"link": "Link Heron + to Stilt −", "link_v": "25 V"}],
        },
        "inserts": {
            "hookup": samples.HOOKUP,
            "rods": samples.RODS,
            "polarity": PolarityBanner(Polarity.DCEP),
        },
        "flags": FEW,
    }
    return card_faces(**(asked | changes))


def test_the_four_faces_are_isolate_link_arc_after() -> None:
    assert [face.title for face in faces()] == ["Isolate", "Link and measure", "At the arc", "After"]


def test_fire_rules_are_asked_for_before_anything_else() -> None:
    first, *_ = faces()[0].steps
    assert "hot work" in first.text


def test_drawing_polarity_and_rods_stand_where_they_are_wanted() -> None:
    _, link, arc, _ = faces()
    assert isinstance(link.blocks[0], Hookup)
    assert any(isinstance(block, PolarityBanner) for block in arc.blocks)
    assert any(isinstance(block, RodTable) for block in arc.blocks)


def test_a_step_is_repeated_for_each_battery_and_each_link() -> None:
    many = faces(
        for_each={
            "battery": [{"battery": name, "leads": "2"} for name in ("Heron", "Plover", "Stilt")],
            "link": [
                {"link": "Link Heron + to Plover −", "link_v": "25.0 V"},
                {"link": "Link Plover + to Stilt −", "link_v": "37.5 V"},
            ],
        }
    )
    assert [step.text for step in many[0].steps if step.text.startswith("Free")] == [
        "Free Heron",
        "Free Plover",
        "Free Stilt",
    ]
    assert Step("Link Plover + to Stilt −", see="≥ 37.5 V") in many[1].steps


def test_with_an_isolator_it_is_opened_and_closed_and_without_one_the_far_plug() -> None:
    with_one = " ".join(step.text for face in faces() for step in face.steps)
    without = " ".join(step.text for face in faces(flags={"few_plug"}) for step in face.steps)
    assert "isolator" in with_one
    assert "far plug" not in with_one
    assert "far plug" in without
    assert "isolator" not in without


def test_a_value_that_was_not_given_is_named() -> None:
    values = {name: value for name, value in samples.VALUES.items() if name != "shade"}
    with pytest.raises(PrintError, match="'shade'"):
        faces(values=values)


def test_braces_in_a_name_are_only_braces() -> None:
    named = faces(for_each={"battery": [{"battery": "{shade}{0}", "leads": "2"}], "link": []})
    assert Step("Free {shade}{0}", see="2 leads off") in named[0].steps


@pytest.mark.parametrize(
    "hazard",
    ["arc light", "gas explodes", "dead short", "for fire", "fume|upwind", "acid", "on a jack", "not when wet",
     "look behind", "steering or suspension", "brakes: never", "hot work", "never pull the jaws off live"],
)  # fmt: skip
def test_the_card_says_what_can_hurt(hazard: str) -> None:
    shown = " ".join(text.render(samples.DEMO_CARD).lower().split())
    assert any(words in shown for words in hazard.split("|"))


def place(text_start: str, flags: set[str] = FEW) -> int:
    """Where the step that begins so stands, counted over all faces."""
    texts = [step.text for face in faces(flags=flags) for step in face.steps]
    return next(number for number, text in enumerate(texts) if text.startswith(text_start))


def test_nothing_is_live_before_the_fire_watch_stands_and_the_rod_comes_in_last_behind_the_helmet() -> None:
    order = ["Stop engines", "Set chocks", "Pull winch", "Free", "Open isolator", "Clamp WORK", "Wait 1 h, read"]
    order += [
        "Link",
        "Join WORK",
        "Post the fire watch",
        "Close the isolator last",
        "Stand upwind, helmet down, rod in",
    ]
    places = [place(words) for words in order]
    assert places == sorted(places)


def test_the_circuit_is_undone_in_the_reverse_order_and_the_chassis_lead_goes_on_last() -> None:
    after = [step.text for step in faces()[3].steps]
    assert after[:3] == ["Take the rod out", "Open the isolator", "Undo leads, then links"]
    order = ["Undo leads", "Watch for fire", "Wait 30 min, read", "Put leads on, chassis side last", "Put fuses in"]
    places = [place(words) for words in order]
    assert places == sorted(places)


def test_a_battery_is_read_only_after_it_rested() -> None:
    assert all("Wait" in step.text for face in faces() for step in face.steps if "read" in step.text.lower())


def test_strings_are_tied_minus_first_then_metered_and_plus_last() -> None:
    card = samples.card_of(samples.PARALLEL_HOOKUP)
    texts = [f"{step.text} {step.see}".strip() for step in card.faces[1].steps]
    assert texts[1] == "Link each string, + to − ≥ 24.9 V"
    assert texts[2:5] == ["Tie 1 − to 3 −", "Meter 2 + to 4 + ≤ 0.2 V", "Tie 2 + to 4 +"]
    assert "1 Heron main, 2 Plover main, 3 Stilt main, 4 Stilt second" in text.render(card).replace("\n   ", " ")


@pytest.mark.parametrize(("polarity", "said"), [(Polarity.DCEP, "WORK to 1 −, HOLDER to 3 +"),
                                                (Polarity.DCEN, "WORK to 3 +, HOLDER to 1 −")])  # fmt: skip
def test_each_lead_is_joined_to_the_post_that_the_polarity_wants(polarity: Polarity, said: str) -> None:
    card = samples.card_of(replace(samples.HOOKUP, polarity=polarity))
    assert card.faces[1].steps[-1].text == f"Join {said}"
    assert PolarityBanner(polarity) in card.faces[2].blocks


def test_every_warning_has_a_hazard_a_result_and_a_way_out_of_it() -> None:
    for face in faces():
        for block in face.blocks:
            if isinstance(block, Caution):
                assert block.hazard
                assert block.result
                assert block.avoid


@pytest.mark.parametrize("flags", FLAGS, ids=lambda flags: "-".join(sorted(flags)))
def test_the_fixed_words_keep_the_limits_of_the_card(flags: set[str]) -> None:
    for face in faces(flags=flags):
        assert len(face.steps) <= overflow.STEPS_A_FACE
        for step in face.steps:
            assert overflow.lines_of(step) <= 2
            assert len(step.text) <= overflow.CHARACTERS_REGULAR
