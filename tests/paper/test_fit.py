"""The card refuses rather than shrinks: what it refuses, and that what it takes does fit, each face by itself."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from kitlist.base.errors import PrintError
from kitlist.base.terms import Paper
from kitlist.faces.paper import card_split, html, overflow, pdf
from kitlist.faces.paper.card_document import Card, Face, IfThenLine, Lines, Step
from kitlist.faces.paper.document import Caution, Signal
from paper import samples

WARNING = Caution(signal=Signal.WARNING, hazard="It falls.", result="It crushes.", avoid="Stand it on stands.")
DANGER = replace(WARNING, signal=Signal.DANGER)


def with_blocks(*blocks: object) -> Card:
    """A card of one face with these blocks."""
    return replace(samples.CARD, faces=(replace(samples.CARD.faces[0], blocks=blocks),))


def ends_mm(card: Card) -> float:
    """How far below the head of its first face the last block ends, as it is laid out."""
    import weasyprint

    anchors = weasyprint.HTML(string=html.render(card)).render().pages[0].anchors
    return (anchors["end-1"][1] - anchors["face-1"][1]) / overflow.PX_A_MM


@pytest.mark.parametrize("lines", [1, 5, 9, 13, 16, 17, 18, 22])
def test_the_check_refuses_exactly_what_ends_below_the_foot(lines: int) -> None:
    card = with_blocks(*(Lines("More", ("a line of its own",)) for _ in range(lines)))
    if ends_mm(card) <= overflow.FOOT_TOP_MM + 0.1:
        pdf.to_pdf(card)
        return
    with pytest.raises(PrintError, match="face 1") as refused:
        pdf.to_pdf(card)
    assert "More" in refused.value.message


def test_a_face_has_the_live_height_that_the_parting_of_faces_counts_on() -> None:
    empty = with_blocks()
    assert overflow.FOOT_TOP_MM - ends_mm(empty) >= card_split.LIVE_HIGH_MM


@pytest.mark.parametrize(
    "block",
    [
        Step("Chock the wheels", see="4 of 4"),
        WARNING,
        DANGER,
        replace(WARNING, avoid="Stand it on stands, all four of them, on ground that bears it, and chock every wheel."),
        Lines("Meter", ("each link from its minus to the new plus; lower or nothing is a link the wrong way round.",)),
        IfThenLine("Rod sticks", "Helmet stays down, twist it off. Two seconds, then open. Never the jaws."),
        samples.HOOKUP,
        samples.CARD.faces[1].blocks[0],
        samples.CARD.faces[1].blocks[1],
        samples.CARD.faces[1].blocks[2],
    ],
    ids=lambda block: type(block).__name__,
)
def test_no_block_comes_out_higher_than_the_parting_of_faces_counts_it(block: object) -> None:
    drawn = ends_mm(with_blocks(block)) - ends_mm(with_blocks())
    counted = card_split.high_mm(block)  # type: ignore[arg-type]
    assert counted - 4.0 <= drawn <= counted + 0.6


def test_a_step_that_takes_two_lines_is_refused_by_name() -> None:
    with pytest.raises(PrintError) as refused:
        pdf.to_pdf(samples.LONG_STEP_CARD)
    assert "face 1: the step “Ask whether hot work" in refused.value.message
    assert "shorter" in refused.value.hint.lower()


def test_ten_steps_on_a_face_are_one_too_many() -> None:
    overflow.check_words(with_blocks(*(Step(f"Do {n}") for n in range(9))))
    with pytest.raises(PrintError, match="10 steps, and 9"):
        overflow.check_words(with_blocks(*(Step(f"Do {n}") for n in range(10))))


@pytest.mark.parametrize(
    ("step", "lines"),
    [
        (Step("Chock the wheels"), 1),
        (Step("Chock the wheels", see="4 of 4"), 1),
        (Step("Chock the wheels of the trailer", see="4 of 4 chocked"), 2),
        (Step("Chock the wheels of the vehicle that stays behind"), 2),
        (Step("W" * 90), 5),
        (Step(" ".join(["wheel"] * 15)), 3),
    ],
)
def test_lines_of_a_step_are_counted_as_they_are_printed(step: Step, lines: int) -> None:
    high_mm = ends_mm(with_blocks(step)) - ends_mm(with_blocks())
    printed = round(high_mm / (14.5 * 1.25 * 25.4 / 72))
    assert card_split.lines_of(step) == printed == lines


def test_one_danger_a_face_and_two_boxes_are_the_most() -> None:
    step = Step("Do it")
    overflow.check_words(with_blocks(DANGER, step, WARNING, step))
    with pytest.raises(PrintError, match="DANGER more than once"):
        overflow.check_words(with_blocks(DANGER, step, DANGER, step))
    with pytest.raises(PrintError, match="3 boxed warnings"):
        overflow.check_words(with_blocks(*(WARNING, step) * 3))


@pytest.mark.parametrize("after", [(), (Lines("Stuck", ("twist",)),), (WARNING, Step("Do it"))])
def test_a_warning_that_is_not_directly_before_a_step_is_refused(after: tuple) -> None:
    with pytest.raises(PrintError, match="directly before a step"):
        overflow.check_words(with_blocks(Step("Do it"), WARNING, *after))


def test_a_name_too_wide_for_its_box_in_the_drawing_is_refused_by_name() -> None:
    box = samples.Box("Extraordinarily wide", "1")
    wide = replace(samples.HOOKUP, strings=((box, *samples.HOOKUP.strings[0][1:]),))
    with pytest.raises(PrintError, match="Extraordinarily wide"):
        pdf.to_pdf(with_blocks(wide))


def test_a_sheets_bank_may_not_say_danger_twice() -> None:
    assert samples.DEMO_SHEET.bank
    twice = replace(samples.DEMO_SHEET, bank=replace(samples.DEMO_SHEET.bank, cautions=(DANGER, DANGER)))
    with pytest.raises(PrintError, match="DANGER more than once"):
        overflow.check_sheet(twice)


def test_the_four_faces_of_a_page_fit_both_sizes_of_paper() -> None:
    face: Face = samples.CARD.faces[0]
    eight = replace(samples.CARD, faces=(face,) * 8)
    for paper in Paper:
        pdf.to_pdf(eight, paper=paper)


def test_importing_the_papers_loads_no_slow_library() -> None:
    code = (
        "import sys; import kitlist.faces.paper.pdf, kitlist.faces.paper.text, kitlist.faces.paper.build_card\n"
        "print([n for n in ('weasyprint', 'jinja2', 'fontTools', 'sqlmodel') if n in sys.modules])"
    )
    root = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=root)
    assert run.stdout.strip() == "[]"
