"""The card refuses rather than shrinks: what it refuses, and that what it takes does fit, each face by itself."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from kitlist.base.errors import PrintError
from kitlist.faces.paper import html, overflow, pdf
from kitlist.faces.paper.document import Caution, Drill, Face, Lines, RodLine, RodTable, Signal, Step
from paper import built, samples

WARNING = Caution(signal=Signal.WARNING, hazard="It falls.", result="It crushes.", avoid="Stand it on stands.")
DANGER = replace(WARNING, signal=Signal.DANGER)

# The live area of a face above its foot, as a page of its own: 97 x 140 mm, 5 mm in and 6 at the fold.
ALONE = """<style>
@page { size: 97mm 140mm; margin: 5mm 6mm 14.4mm 5mm; }
body { width: auto; height: auto; }
.furniture, .foot { display: none; }
.face.face { position: static; width: auto; height: auto; padding: 0 !important; break-after: page; }
.face.face:last-child { break-after: auto; }
</style></head>"""


def pages_of_faces_alone(card: samples.Card) -> int:
    import weasyprint

    page = html.render(card).replace("</head>", ALONE)
    return len(weasyprint.HTML(string=page).render().pages)


def with_face(face: Face) -> samples.Card:
    """The demo card with its first face exchanged."""
    return replace(samples.DEMO_CARD, faces=(face, *samples.DEMO_CARD.faces[1:]))


@pytest.mark.parametrize("card", [samples.DEMO_CARD, samples.HOSTILE_CARD])
def test_each_face_alone_comes_to_exactly_one_page(card: samples.Card) -> None:
    assert pages_of_faces_alone(card) == 4


@pytest.mark.parametrize("lines", range(1, 14))
def test_the_check_says_no_exactly_when_a_face_alone_would_take_two_pages(lines: int) -> None:
    text = tuple("a line of its own that fills the width of the face" for _ in range(lines))
    block = Lines("More", (" ".join(text),))
    card = with_face(replace(samples.DEMO_CARD.faces[3], blocks=(*samples.DEMO_CARD.faces[3].blocks[:6], block)))
    alone = pages_of_faces_alone(card)
    if alone == 4:
        pdf.to_pdf(card)
        return
    with pytest.raises(PrintError, match="face 1") as refused:
        pdf.to_pdf(card)
    assert "More" in refused.value.message


def test_names_too_long_for_their_boxes_go_by_number_and_the_card_fits() -> None:
    assert pages_of_faces_alone(samples.LONG_NAME_CARD) == 4
    pdf.to_pdf(samples.LONG_NAME_CARD)


def test_a_step_too_long_for_the_card_is_refused_with_its_lines() -> None:
    with pytest.raises(PrintError) as refused:
        pdf.to_pdf(samples.LONG_STEP_CARD)
    assert "face 1 step 1" in refused.value.message
    assert "shorter" in refused.value.hint.lower()


def test_a_name_too_wide_for_its_box_in_the_drawing_is_refused_by_name() -> None:
    box = samples.Box("Extraordinarily wide", "1")
    wide = replace(samples.HOOKUP, strings=((box, *samples.HOOKUP.strings[0][1:]),))
    steps = samples.DEMO_CARD.faces[1].blocks[1:]
    card = replace(
        samples.DEMO_CARD,
        faces=(
            samples.DEMO_CARD.faces[0],
            Face("Link and measure", (wide, *steps)),
            *samples.DEMO_CARD.faces[2:],
        ),
    )
    with pytest.raises(PrintError, match="Extraordinarily wide"):
        pdf.to_pdf(card)


def test_a_face_far_too_long_is_refused_though_the_paper_ends_before_it() -> None:
    many = RodTable(rows=tuple(RodLine(steel="3 mm", rod="2.5 mm", amps="50 A", verdict="hot") for _ in range(60)))
    for number in range(4):
        faces = list(samples.DEMO_CARD.faces)
        faces[number] = Face("Rods", (many, Lines("Last", ("line",))))
        with pytest.raises(PrintError, match=f"face {number + 1}"):
            pdf.to_pdf(replace(samples.DEMO_CARD, faces=tuple(faces)))


def test_ten_steps_on_a_face_are_one_too_many() -> None:
    overflow.check_words(with_face(Face("Nine", tuple(Step(f"Do {n}") for n in range(9)))))
    with pytest.raises(PrintError, match="10 steps, and 9"):
        overflow.check_words(with_face(Face("Ten", tuple(Step(f"Do {n}") for n in range(10)))))


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
    import weasyprint

    page = html.render(with_face(Face("Alone", (step, Step("Next")))))
    anchors = weasyprint.HTML(string=page).render().pages[0].anchors
    high_mm = (anchors["step-1-2"][1] - anchors["step-1-1"][1]) / overflow.PX_A_MM
    printed = round((high_mm - 1.2) / (14.5 * 1.25 * 25.4 / 72))
    assert overflow.lines_of(step) == printed == lines


def test_one_step_in_ten_may_take_two_lines_and_none_three() -> None:
    long = Step("Chock the wheels of the vehicle that stays behind")
    overflow.check_words(with_face(Face("Some", (long, *(Step("Do it") for _ in range(5))))))
    with pytest.raises(PrintError, match="one in ten"):
        overflow.check_words(with_face(Face("Many", (long,) * 6)))
    with pytest.raises(PrintError, match="more than two lines"):
        overflow.check_words(with_face(Face("Three", (Step(" ".join(["wheel"] * 20)), Step("Do it")))))


def test_one_danger_a_face_and_three_boxes_are_the_most() -> None:
    step = Step("Do it")
    overflow.check_words(with_face(Face("Fine", (DANGER, step, WARNING, step, WARNING, step))))
    with pytest.raises(PrintError, match="DANGER more than once"):
        overflow.check_words(with_face(Face("Two", (DANGER, step, DANGER, step))))
    with pytest.raises(PrintError, match="4 boxed warnings"):
        overflow.check_words(with_face(Face("Four", (WARNING, step) * 4)))


@pytest.mark.parametrize("after", [(), (Drill("Stuck", ("twist",)),), (WARNING, Step("Do it"))])
def test_a_warning_that_is_not_directly_before_a_step_is_refused(after: tuple) -> None:
    with pytest.raises(PrintError, match="directly before a step"):
        overflow.check_words(with_face(Face("Loose", (Step("Do it"), WARNING, *after))))


def test_a_card_has_four_faces() -> None:
    with pytest.raises(PrintError, match="4 faces, not 3"):
        overflow.check_words(replace(samples.DEMO_CARD, faces=samples.DEMO_CARD.faces[:3]))


def test_a_rod_tables_narrow_cells_are_refused_when_they_are_too_wide() -> None:
    wide = replace(samples.RODS, rows=(replace(samples.RODS.rows[0], steel="three-to-five-millimetres"),))
    with pytest.raises(PrintError, match="three-to-five"):
        overflow.check_words(samples.card_of(rods=wide))


def test_a_card_of_two_strings_of_two_fits_and_one_of_two_strings_of_three_is_refused_with_its_lines() -> None:
    assert pages_of_faces_alone(samples.card_of(samples.PARALLEL_HOOKUP, two_rods())) == 4
    strings = tuple((*string, samples.Box("Tern", "x")) for string in samples.PARALLEL_HOOKUP.strings)
    with pytest.raises(PrintError, match=r"face 1 is .* too long"):
        pdf.to_pdf(samples.card_of(replace(samples.PARALLEL_HOOKUP, strings=strings)))


def two_rods() -> RodTable:
    return replace(samples.RODS, rows=samples.RODS.rows[:2])


def test_four_batteries_and_three_rods_fit_with_short_names() -> None:
    boxes = tuple(samples.Box(name, str(n)) for n, name in enumerate(("Heron", "Plover", "Stilt", "Tern"), start=1))
    card = samples.card_of(replace(samples.HOOKUP, strings=(boxes,)))
    assert pages_of_faces_alone(card) == 4
    pdf.to_pdf(card)


def test_a_sheets_bank_may_not_say_danger_twice() -> None:
    assert samples.DEMO_SHEET.bank
    twice = replace(samples.DEMO_SHEET, bank=replace(samples.DEMO_SHEET.bank, cautions=(DANGER, DANGER)))
    with pytest.raises(PrintError, match="DANGER more than once"):
        overflow.check_sheet(twice)


def test_importing_the_papers_loads_no_slow_library() -> None:
    code = (
        "import sys; import kitlist.faces.paper.pdf, kitlist.faces.paper.text, kitlist.faces.paper.card_words\n"
        "print([n for n in ('weasyprint', 'jinja2', 'fontTools', 'sqlmodel') if n in sys.modules])"
    )
    root = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=root)
    assert run.stdout.strip() == "[]"


@pytest.mark.parametrize("strings", [(3, 1), (2, 1), (4, 1), (4, 2)])
@pytest.mark.parametrize(
    "name", ["{} of a guest and under the rear bed left", "of a guest and under the rear bed left {}"]
)
def test_guests_batteries_with_names_of_forty_characters_fit_and_are_told_apart(
    name: str, strings: tuple[int, int]
) -> None:
    number, parallel = strings
    names = tuple(name.format(place) for place in range(number))
    assert {len(each) for each in names} == {40}
    card = built.card(built.guests(names, strings=parallel))
    assert isinstance(card, samples.Card)
    pdf.to_pdf(card)
    (listed,) = (b for f in card.faces for b in f.blocks if isinstance(b, Lines) and b.title == "They are")
    told = [part.split(" ", 1) for part in listed.lines[0].removesuffix(".").split(", ")]
    assert [part[0] for part in told] == [str(place) for place in range(1, number + 1)]
    assert len({part[1] for part in told}) == number


def test_the_card_wants_low_hydrogen_rods_dry_and_only_where_they_are_packed() -> None:
    def answer(readiness: built.Readiness) -> str:
        card = built.card(readiness)
        assert isinstance(card, samples.Card)
        (step,) = (step for step in card.faces[2].steps if step.text.startswith("Try a bead"))
        assert overflow.lines_of(step) == 1
        return step.see

    assert answer(built.demo()) == "E7018 dry"
    assert answer(built.with_rods(built.demo(), "E7018", "E7016")) == "rods dry"
    assert answer(built.with_rods(built.demo(), "E6013")) == ""
