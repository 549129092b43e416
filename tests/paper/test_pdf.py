"""The PDF: size, fonts, type sizes, live area, marks, tags, and nothing fetched."""

from __future__ import annotations

import builtins
import hashlib
import io
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pikepdf
import pytest

from kitlist.base import clean
from kitlist.base.errors import PrintError
from kitlist.base.terms import Paper
from kitlist.faces.paper import html, pdf, typeface
from paper import samples
from paper.papers import CARDS, DOTS_PER_INCH, FORMS, LABELS, MM, SHEETS, chars_of, document, made, pages, pictures

EVERY = (*SHEETS, *CARDS, *LABELS, *FORMS)


@pytest.mark.parametrize("name", EVERY)
def test_a_paper_is_a4_and_a_card_has_four_faces_a_page(name: str) -> None:
    for page in pages(name):
        assert (round(page.width / MM), round(page.height / MM)) == (210, 297)
    if name in CARDS:
        assert len(pages(name)) == -(-len(document(name).faces) // 4)


def test_a_sheet_comes_in_us_letter_too() -> None:
    for page in pages("DEMO_SHEET", Paper.LETTER):
        assert (round(page.width), round(page.height)) == (612, 792)


def test_a_card_comes_at_full_size_on_us_letter_too() -> None:
    for page in pages("BUILT_DEMO_CARD", Paper.LETTER):
        assert (round(page.width), round(page.height)) == (612, 792)
        for char in chars_of(page):
            assert char["x0"] / MM >= 5
            assert char["x1"] / MM <= 215.9 - 5
            assert char["top"] / MM >= 5
            assert char["bottom"] / MM <= 279.4 - 5


@pytest.mark.parametrize(
    ("name", "most"),
    [("BUILT_DEMO_SHEET", 2), ("BUILT_SMALL_SHEET", 2), ("EMPTY_SHEET", 2), ("BUILT_EMPTY_SHEET", 3),
     ("BUILT_CROWDED_SHEET", 4)],
)  # fmt: skip
def test_a_sheet_is_one_leaf_and_a_crowded_kit_goes_on_to_a_second(name: str, most: int) -> None:
    assert 2 <= len(pages(name)) <= most


@pytest.mark.parametrize("name", EVERY)
def test_only_the_bundled_family_is_used_and_it_is_embedded(name: str) -> None:
    document = pikepdf.open(io.BytesIO(made(name)))
    descriptors = [entry for entry in document.objects if isinstance(entry, pikepdf.Dictionary)]
    descriptors = [entry for entry in descriptors if entry.get("/Type") == "/FontDescriptor"]
    assert descriptors
    for descriptor in descriptors:
        assert any(family in str(descriptor.FontName) for family in ("Atkinson", "Fira-Sans", "FiraSans"))
        assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))


@pytest.mark.parametrize(("name", "floor_pt"), [*((name, 10) for name in SHEETS), *((name, 12) for name in CARDS)])
def test_no_type_is_smaller_than_its_floor_but_the_marks(name: str, floor_pt: float) -> None:
    for page in pages(name):
        small = [char for char in chars_of(page) if char["size"] < floor_pt - 0.05]
        assert all(char["size"] >= 8.95 for char in small)
        for char in small:  # marks at the foot of a page or face, and what stands outside the faces
            y_mm = char["top"] / MM
            at_a_foot = any(low < y_mm < high for low, high in ((5, 14.5), (138, 153), (272, 292.5)))
            assert at_a_foot, (char["text"], y_mm)


@pytest.mark.parametrize("name", CARDS)
def test_half_the_words_of_the_faces_that_are_read_aloud_are_set_in_14_5_pt(name: str) -> None:
    found = document(name)
    words = [word for page in pages(name) for word in page.extract_words(extra_attrs=["size"])]
    large = [word for word in words if round(word["size"], 1) == 14.5]
    steps = [step for face in found.faces for step in face.steps]
    assert len(large) >= sum(len(step.text.split()) for step in steps)


@pytest.mark.parametrize(
    ("name", "paper"),
    [*((name, Paper.A4) for name in SHEETS), *((name, Paper.LETTER) for name in ("DEMO_SHEET", "BUILT_LONG_SHEET"))],
)
def test_words_of_a_sheet_stay_inside_its_margins(name: str, paper: Paper) -> None:
    for page in pages(name, paper):
        for char in chars_of(page):
            assert char["x0"] / MM >= 20 - 0.3, char["text"]
            assert char["x1"] / MM <= page.width / MM - 12 + 0.3, char["text"]
            assert char["top"] / MM >= 11.5, char["text"]
            assert char["bottom"] / MM <= page.height / MM - 5, char["text"]


@pytest.mark.parametrize(
    ("name", "paper"),
    [*((name, Paper.A4) for name in SHEETS), *((name, Paper.LETTER) for name in ("DEMO_SHEET", "BUILT_LONG_SHEET"))],
)
def test_a_sheet_is_signed_on_the_page_of_its_last_tick_and_no_heading_ends_a_page(name: str, paper: Paper) -> None:
    signed = 0
    for page in pages(name, paper):
        lines = page.extract_text_lines(return_chars=True)
        words = [line["text"] for line in lines]
        body = [line for line in lines if line["chars"][0]["size"] > 9.1]  # without the marks at the foot
        last = body[-1]["chars"][0]
        if not body[-1]["text"].startswith("Notes"):  # which has rules below it, and no words
            assert round(last["size"]) != 14, body[-1]["text"]  # the size of a section's heading
        assert not body[-1]["text"].startswith(("Last day", "Connection ", "Battery ")), body[-1]["text"]
        if any("gone through by" in line for line in words):
            signed += 1
            at = next(number for number, line in enumerate(words) if "gone through by" in line)
            assert any("Recheck at the door" in line for line in words[:at])
    assert signed == 1


@pytest.mark.parametrize("name", CARDS)
def test_words_of_a_card_stay_inside_the_live_area_of_their_face(name: str) -> None:
    live = [(8 + 5, 105 - 6), (105 + 6, 202 - 5)]
    tall = [(14.5 + 5, 148.5 - 5), (148.5 + 5, 282.5 - 5)]
    for char in (char for page in pages(name) for char in chars_of(page)):
        within = any(low <= char["top"] / MM <= high for low, high in tall)
        if char["size"] < 9.05 and (not within or 148.5 <= char["top"] / MM <= 153):
            continue  # outside the faces: how to cut, the scale
        assert any(low - 0.2 <= char["x0"] / MM and char["x1"] / MM <= high + 0.2 for low, high in live), char["text"]
        assert any(low - 0.6 <= char["top"] / MM and char["bottom"] / MM <= high + 0.2 for low, high in tall)


@pytest.mark.parametrize("name", EVERY)
def test_the_outer_four_millimetres_hold_no_ink(name: str) -> None:
    for picture in pictures(name):
        grey = picture.convert("L")
        width, height = grey.size
        edge = int(4 / 25.4 * DOTS_PER_INCH)
        for box in (
            (0, 0, width, edge),
            (0, height - edge, width, height),
            (0, 0, edge, height),
            (width - edge, 0, width, height),
        ):
            assert grey.crop(box).getextrema()[0] >= 250


@pytest.mark.parametrize("name", EVERY)
def test_hash_revision_and_dates_stand_on_every_page_and_face(name: str) -> None:
    paper = document(name)
    marks = (paper.content_hash(), f"rev {paper.marks.revision}", paper.marks.printed_on.isoformat())
    until = f"to {paper.marks.valid_to.isoformat()}" if paper.marks.valid_to else "until kit changes"
    texts = [page.extract_text() for page in pages(name)]
    if name in CARDS:
        count = len(paper.faces)
        assert all("\n".join(texts).count(mark) == count for mark in (*marks, until))
        assert all(f"{number} of {count}" in "\n".join(texts) for number in range(1, count + 1))
    elif name in LABELS:
        count = "\n".join(texts).count(marks[0])
        assert count == max(
            1, sum(1 for label in paper.labels for _ in clean.for_paper(label, has=typeface.has).cut_to_size())
        )
        if not paper.labels:
            return
        assert all(f"{until} · {number} of {count}" in "\n".join(texts) for number in range(1, count + 1))
    else:
        for number, text in enumerate(texts, start=1):
            assert all(mark in text for mark in (*marks, until, f"page {number} of {len(texts)}"))


def test_the_sheet_names_its_card_by_hash() -> None:
    assert f"card {samples.CARD.content_hash()}" in pages("DEMO_SHEET")[0].extract_text()


@pytest.mark.parametrize("name", CARDS)
def test_every_face_defers_to_local_codes(name: str) -> None:
    text = "".join(page.extract_text() for page in pages(name))
    assert text.count("Local codes and licensed practice") == len(document(name).faces)


@pytest.mark.parametrize("name", EVERY)
def test_all_ink_is_black_on_white_in_grey_and_in_red_light(name: str) -> None:
    for page in pages(name):
        assert {tuple(char["non_stroking_color"]) for char in chars_of(page)} <= {(0.0, 0.0, 0.0)}
    for picture in pictures(name):
        for channel in (picture.convert("L"), picture.getchannel("R")):
            counts = channel.histogram()
            dark, light = next(level for level, count in enumerate(counts) if count), counts[255]
            assert contrast(dark, 255) >= 7
            assert light > 0.5 * sum(counts)
            assert sum(counts[64:192]) < 0.08 * sum(counts)  # edges of letters, no tints


def contrast(dark: int, light: int) -> float:
    """The contrast ratio of WCAG 2.2 for two greys."""

    def luminance(level: int) -> float:
        part = level / 255
        return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4

    return (luminance(light) + 0.05) / (luminance(dark) + 0.05)


@pytest.mark.parametrize("name", EVERY)
def test_it_is_tagged_as_pdf_ua_with_language_title_and_a_text_for_each_figure(name: str) -> None:
    document = pikepdf.open(io.BytesIO(made(name)))
    assert document.Root.MarkInfo.Marked
    assert str(document.Root.Lang) == "en"
    with document.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"
        assert metadata["dc:title"]
    figures = [e for e in document.objects if isinstance(e, pikepdf.Dictionary) and e.get("/S") == "/Figure"]
    assert all(str(figure.get("/Alt", "")) for figure in figures)
    if name in CARDS and not name.endswith("MINUS_CARD"):
        assert any("HOLDER TO +" in str(figure.Alt) for figure in figures)


def test_two_processes_make_the_same_bytes() -> None:
    code = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1])\n"
        "from paper import samples; from kitlist.faces.paper import pdf\n"
        "for paper in (samples.CARD, samples.DEMO_SHEET):\n"
        "    print(hashlib.sha256(pdf.to_pdf(paper)).hexdigest())"
    )
    tests = str(Path(__file__).parents[1])
    other = subprocess.run(
        [sys.executable, "-c", code, tests], capture_output=True, text=True, check=True, cwd=Path(tests).parent
    ).stdout.split()
    assert other == [hashlib.sha256(made(name)).hexdigest() for name in ("CARD", "DEMO_SHEET")]


def test_another_printing_date_changes_the_paper_but_not_its_hash() -> None:
    later = replace(samples.CARD, marks=replace(samples.MARKS, printed_on=date(2026, 6, 1), revision=5))
    assert later.content_hash() == samples.CARD.content_hash()
    assert pdf.to_pdf(later) != made("CARD")


@pytest.mark.parametrize(
    "trap",
    [
        "<img src='file:///etc/hostname' alt='x'>",
        "<link rel=stylesheet href='https://example.org/x.css'>",
        "<style>@import url(http://example.org/x.css);</style>",
        "<p style='background: url(data:image/png;base64,AAAA)'>x</p>",
        "<link rel=attachment href='file:///etc/hostname'>",
        "<object data='file:///etc/hostname'></object>",
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><image href='file:///etc/hostname'/></svg>",
    ],
)
def test_a_paper_that_asks_for_anything_from_outside_is_refused(trap: str) -> None:
    page = html.render(samples.EMPTY_SHEET, fonts_inside=False).replace("<section", f"{trap}<section", 1)
    assert trap in page
    with pytest.raises(PrintError, match="may not fetch"):
        pdf.make(page, identifier=b"0")


def test_a_complaint_of_the_pdf_maker_is_an_error() -> None:
    page = html.render(samples.EMPTY_SHEET, fonts_inside=False).replace("* {", "* { colr: red; ", 1)
    with pytest.raises(PrintError, match="complained"):
        pdf.make(page, identifier=b"0")


def test_hostile_names_come_out_as_text(tmp_path: Path) -> None:
    text = " ".join(page.extract_text() for page in pages("HOSTILE_SHEET"))
    assert "<script>alert(1)" in text
    assert "7*7" in text
    assert "49" not in text.replace(samples.HOSTILE_SHEET.content_hash(), "").replace("d2ee67dc", "")
    assert "root:" not in text
    assert "\u202e" not in text
    document = pikepdf.open(io.BytesIO(made("HOSTILE_SHEET")))
    assert "/EmbeddedFiles" not in document.Root.get("/Names", {})


def test_where_pango_is_missing_the_html_is_written_and_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def lacking(name: str, *rest: object, **more: object) -> object:
        if name == "weasyprint":
            print("noise of the library")
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *rest, **more)

    pdf._weasyprint.cache_clear()
    monkeypatch.setattr(builtins, "__import__", lacking)
    with pytest.raises(PrintError, match="apt install"):
        pdf.to_pdf(samples.DEMO_SHEET)
    written = pdf.write(samples.DEMO_SHEET, tmp_path / "sheet.pdf")
    pdf._weasyprint.cache_clear()
    assert written.path == tmp_path / "sheet.html"
    assert "libpango" in written.told
    assert "NOT READY" in written.path.read_text("utf-8")


def test_a_folder_that_is_not_there_is_said_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(PrintError, match="Cannot write"):
        pdf.write(samples.EMPTY_SHEET, tmp_path / "gone" / "sheet.html")


def test_nothing_is_written_when_a_card_does_not_fit(tmp_path: Path) -> None:
    with pytest.raises(PrintError):
        pdf.write(samples.LONG_STEP_CARD, tmp_path / "card.pdf")
    assert not list(tmp_path.iterdir())
