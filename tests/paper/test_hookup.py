"""The drawing of the bank: walked terminal by terminal, as a hand would follow the leads."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kitlist.base.terms import Polarity
from kitlist.faces.paper import hookup
from kitlist.faces.paper.document import Box, Hookup, LeadLine
from kitlist.faces.paper.figure import Block, Drawing, Stroke, Text
from paper import samples

NAMES = ("Heron", "Plover", "Stilt", "Tern")


def bank(count: int, **changes: object) -> Hookup:
    boxes = tuple(Box(name, str(number)) for number, name in enumerate(NAMES[:count], start=1))
    return replace(Hookup(strings=(boxes,), polarity=Polarity.DCEP), **changes)


def centre(post: Block) -> tuple[float, float]:
    return post.x + post.width / 2, post.y


def posts(figure: Drawing, sign: str) -> list[tuple[float, float]]:
    return [centre(post) for post in figure.of_kind(f"post-{sign}") if isinstance(post, Block)]


def near(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return abs(one[0] - other[0]) < 0.05 and abs(one[1] - other[1]) < 0.05


def texts_in(figure: Drawing, box: Block) -> list[str]:
    return [
        shape.text
        for shape in figure.shapes
        if isinstance(shape, Text) and box.x <= shape.x <= box.x + box.width and box.y <= shape.y <= box.y + box.height
    ]


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_the_plus_of_each_battery_is_joined_to_the_minus_of_the_next(count: int) -> None:
    figure = hookup.draw(bank(count), width_mm=86)
    plus, minus = posts(figure, "plus"), posts(figure, "minus")
    assert len(plus) == len(minus) == count
    links = [shape for shape in figure.of_kind("link") if isinstance(shape, Stroke)]
    assert len(links) == count - 1
    for number, link in enumerate(links):
        assert near(link.points[0], plus[number])
        assert near(link.points[-1], minus[number + 1])
    boxes = [box for box in figure.of_kind("battery") if isinstance(box, Block)]
    for number, box in enumerate(boxes):
        assert {NAMES[number], str(number + 1)} <= set(texts_in(figure, box))
        assert box.x <= minus[number][0] < plus[number][0] <= box.x + box.width


@pytest.mark.parametrize("count", [2, 3, 4])
def test_a_minus_is_drawn_under_each_minus_post_and_a_plus_under_each_plus_post(count: int) -> None:
    figure = hookup.draw(bank(count), width_mm=86)
    for sign in ("plus", "minus"):
        bars = [shape for shape in figure.of_kind(sign) if isinstance(shape, Stroke)]
        middles = [(bar.points[0][0] + bar.points[1][0]) / 2 for bar in bars]
        assert middles == pytest.approx([x for x, _ in posts(figure, sign)])
    uprights = [shape for shape in figure.of_kind("plus-upright") if isinstance(shape, Stroke)]
    assert [upright.points[0][0] for upright in uprights] == pytest.approx([x for x, _ in posts(figure, "plus")])


@pytest.mark.parametrize("polarity", Polarity)
@pytest.mark.parametrize("opening_in", LeadLine)
def test_the_holder_is_led_from_the_post_that_the_rod_wants(polarity: Polarity, opening_in: LeadLine) -> None:
    figure = hookup.draw(bank(3, polarity=polarity, opening_in=opening_in), width_mm=86)
    first_minus, last_plus = posts(figure, "minus")[0], posts(figure, "plus")[-1]
    holder_at = last_plus if polarity is Polarity.DCEP else first_minus
    work_at = first_minus if polarity is Polarity.DCEP else last_plus
    for lead, post in ((LeadLine.HOLDER, holder_at), (LeadLine.WORK, work_at)):
        (stroke,) = figure.of_kind(f"lead-{lead.value}")
        (tag,) = figure.of_kind(f"tag-{lead.value}")
        assert isinstance(stroke, Stroke)
        assert isinstance(tag, Block)
        assert near(stroke.points[0], post)
        assert tag.x <= post[0] <= tag.x + tag.width
        (words,) = texts_in(figure, tag)
        assert words in polarity.words.split(", ")
        switched = figure.of_kind(f"lead-{lead.value}-tag")
        assert bool(switched) == (lead is opening_in)
    assert len(figure.of_kind("switch")) == 1


def test_where_the_polarity_is_not_known_no_end_is_the_holder_s() -> None:
    figure = hookup.draw(bank(3, polarity=None), width_mm=86)
    words = [text for tag in figure.of_kind("tag-end") if isinstance(tag, Block) for text in texts_in(figure, tag)]
    assert words == ["− END: READ PACKET", "+ END: READ PACKET"]
    assert not figure.of_kind("switch")
    assert "HOLDER" not in " ".join(shape.text for shape in figure.shapes if isinstance(shape, Text))
    assert "the rods give no one polarity" in hookup.in_words(bank(3, polarity=None))


def test_without_an_isolator_no_switch_is_drawn_and_both_leads_are_whole() -> None:
    figure = hookup.draw(bank(3, opening=""), width_mm=86)
    assert not figure.of_kind("switch")
    assert "isolator" not in [shape.text for shape in figure.shapes if isinstance(shape, Text)]


def test_parallel_strings_are_joined_like_to_like() -> None:
    figure = hookup.draw(samples.PARALLEL_HOOKUP, width_mm=178, size_pt=10, abbreviate=True)
    plus, minus = posts(figure, "plus"), posts(figure, "minus")
    ends = [(bus.points[0], bus.points[-1]) for bus in figure.of_kind("parallel") if isinstance(bus, Stroke)]
    assert len(ends) == 2
    labels = [shape.text for shape in figure.shapes if isinstance(shape, Text) and shape.text.startswith("link")]
    assert labels == ["link 1", "link 2"]
    for upper, lower in ends:
        assert any(near(upper, post) for post in (minus[0], plus[1]))
        like = minus[2] if near(upper, minus[0]) else plus[3]
        assert near(lower, like)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
@pytest.mark.parametrize("width_mm", [86, 178])
def test_nothing_is_drawn_outside_the_ground(count: int, width_mm: float) -> None:
    from kitlist.faces.paper import typeface

    figure = hookup.draw(bank(count), width_mm=width_mm)
    for shape in figure.shapes:
        if isinstance(shape, Stroke):
            assert all(0 <= x <= figure.width and 0 <= y <= figure.height for x, y in shape.points)
        elif isinstance(shape, Block):
            assert shape.x >= 0
            assert shape.x + shape.width <= figure.width + 0.01
            assert shape.y + shape.height <= figure.height
        elif isinstance(shape, Text):
            wide = typeface.width_mm(shape.text, size_pt=shape.size_pt, bold=shape.bold)
            left = shape.x - {"start": 0, "middle": wide / 2, "end": wide}[shape.anchor]
            assert left >= -0.01
            assert left + wide <= figure.width + 0.01


@pytest.mark.parametrize("count", [2, 3, 4])
@pytest.mark.parametrize("opening", ["isolator", "far plug"])
@pytest.mark.parametrize("opening_in", LeadLine)
@pytest.mark.parametrize(("width_mm", "size_pt"), [(86, 12), (178, 10), (83, 12)])
def test_no_two_words_of_the_drawing_run_together(
    count: int, opening: str, opening_in: LeadLine, width_mm: float, size_pt: float
) -> None:
    from kitlist.faces.paper import typeface

    drawn = bank(count, opening=opening, opening_in=opening_in)
    figure = hookup.draw(drawn, width_mm=width_mm, size_pt=size_pt)
    over_boxes = min(box.y for box in figure.of_kind("battery") if isinstance(box, Block))
    spots = []
    for shape in figure.shapes:
        if isinstance(shape, Text):
            wide = typeface.width_mm(shape.text, size_pt=shape.size_pt, bold=shape.bold)
            left = shape.x - {"start": 0, "middle": wide / 2, "end": wide}[shape.anchor]
            spots.append((left, left + wide, shape.y - shape.size_mm * 0.7, shape.y, shape.text))
    for number, one in enumerate(spots):
        for other in spots[number + 1 :]:
            least = 2.5 if one[3] < over_boxes and other[3] < over_boxes else 0.0  # else a box's side is between
            beside = one[1] + least <= other[0] or other[1] + least <= one[0]
            apart = beside or one[3] <= other[2] or other[3] <= one[2]
            assert apart, (one[4], other[4])


def test_the_sheet_cuts_a_long_name_visibly_and_says_all_of_it_in_words() -> None:
    name = "The old white one with the long wheelbase, second battery"
    long = bank(3, strings=((Box(name, "1"), Box("Plover", "2")),))
    figure = hookup.draw(long, width_mm=178, size_pt=10, abbreviate=True)
    drawn = [shape.text for shape in figure.shapes if isinstance(shape, Text)]
    assert any(text.endswith("…") for text in drawn)
    assert name in figure.title


def test_the_drawing_in_words_names_order_and_ends() -> None:
    words = hookup.in_words(bank(3))
    assert "Heron + to Plover −, Plover + to Stilt −" in words
    assert "HOLDER TO +, WORK CLAMP TO −" in words
    assert "isolator in the holder lead" in words


@pytest.mark.parametrize("polarity", Polarity)
@pytest.mark.parametrize("opening_in", LeadLine)
@pytest.mark.parametrize(("width_mm", "size_pt"), [(86, 12), (178, 10)])
def test_fuse_and_ballast_are_drawn_in_the_holders_lead_between_its_battery_and_its_end(
    polarity: Polarity, opening_in: LeadLine, width_mm: float, size_pt: float
) -> None:
    drawn = bank(4, polarity=polarity, opening_in=opening_in, in_holder=("fuse", "ballast"))
    figure = hookup.draw(drawn, width_mm=width_mm, size_pt=size_pt)
    (tag,) = figure.of_kind("tag-holder")
    (lead,) = figure.of_kind("lead-holder")
    assert isinstance(tag, Block)
    assert isinstance(lead, Stroke)
    (fuse,), (ballast,) = figure.of_kind("part-fuse"), figure.of_kind("part-ballast")
    assert isinstance(fuse, Block)
    assert isinstance(ballast, Block)
    words = [shape.text for shape in figure.shapes if isinstance(shape, Text)]
    for part, word in ((fuse, "fuse"), (ballast, "ballast")):
        assert part.x <= lead.points[0][0] <= part.x + part.width
        assert tag.y + tag.height <= part.y < part.y + part.height <= lead.points[0][1]
        assert word in words
    assert fuse.y > ballast.y  # the fuse sits nearer its battery
    assert figure.height == pytest.approx(hookup.draw(bank(4), width_mm=width_mm, size_pt=size_pt).height + 12.8)
    assert "fuse and ballast in the holder lead" in figure.title


def test_the_tie_leads_of_parallel_strings_have_numbers_and_stand_inside_the_drawing() -> None:
    figure = hookup.draw(samples.PARALLEL_HOOKUP, width_mm=86)
    ties = [shape for shape in figure.shapes if isinstance(shape, Text) and shape.text.startswith("tie")]
    assert [tie.text for tie in ties] == ["tie 1", "tie 2"]
    assert all(0 <= tie.x <= figure.width for tie in ties)
    for shape in figure.shapes:
        if isinstance(shape, Stroke):
            assert all(shape.width / 2 <= x <= figure.width - shape.width / 2 for x, _ in shape.points)
