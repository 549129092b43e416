"""The card's fixed wording: it has a place for everything, and says on the card all that can hurt."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kitlist.errors import PrintError
from kitlist.prints import fit, text
from kitlist.prints.document import Caution, Face, Hookup, PolarityBanner, RodTable, Step
from kitlist.prints.words import card_faces
from kitlist.terms import Polarity
from prints import samples

Faces = Callable[..., tuple[Face, ...]]


def faces(**changes: object) -> tuple[Face, ...]:
    asked: dict = {
        "values": samples.VALUES,
        "for_each": {
            "battery": [{"battery": "Heron", "leads": "2"}],
            "link": [{"from": "Heron", "to": "Stilt", "link_v": "25 V"}],
        },
        "inserts": {
            "hookup": samples.HOOKUP,
            "rods": samples.RODS,
            "polarity": PolarityBanner(Polarity.DCEP),
        },
        "flags": {"isolator"},
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
                {"from": "Heron", "to": "Plover", "link_v": "25.0 V"},
                {"from": "Plover", "to": "Stilt", "link_v": "37.5 V"},
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
    without = " ".join(step.text for face in faces(flags=set()) for step in face.steps)
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
    ["arc light", "gas explodes", "dead short", "for fire", "fume|upwind", "acid", "on a jack", "not in the wet",
     "look behind", "steering or suspension", "brakes: never", "hot work", "never pull the jaws off live"],
)  # fmt: skip
def test_the_card_says_what_can_hurt(hazard: str) -> None:
    shown = " ".join(text.render(samples.DEMO_CARD).lower().split())
    assert any(words in shown for words in hazard.split("|"))


def test_the_links_are_undone_in_the_reverse_order_and_the_chassis_lead_goes_on_last() -> None:
    after = [step.text for step in faces()[3].steps]
    wanted = ["Take the rod out", "Open the isolator", "Take links off, last one first", "Read each battery"]
    assert after[:4] == wanted
    assert after.index("Put live leads on, chassis last") < after.index("Start engines, vehicles apart")


def test_every_warning_has_a_hazard_a_result_and_a_way_out_of_it() -> None:
    for face in faces():
        for block in face.blocks:
            if isinstance(block, Caution):
                assert block.hazard
                assert block.result
                assert block.avoid


@pytest.mark.parametrize("flags", [{"isolator"}, {"isolator", "over_35_v"}, set(), {"over_35_v"}])
def test_the_fixed_words_keep_the_limits_of_the_card(flags: set[str]) -> None:
    for face in faces(flags=flags):
        assert len(face.steps) <= fit.STEPS_A_FACE
        for step in face.steps:
            assert fit.lines_of(step) <= 2
            assert len(step.text) <= fit.CHARACTERS_REGULAR or step.text.startswith("Part the far plug")
