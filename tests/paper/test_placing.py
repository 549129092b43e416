"""A paper is whole under its name or not there, and takes the place of earlier papers only."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from kitlist.base.errors import KitlistError, PrintError, UsageError
from kitlist.faces.paper import figure, papers, pdf, placing
from kitlist.store import Store, papers_kept
from paper import samples
from paper.papers import made
from running import kitlist

ON = ("--on", "2027-05-05")


def printed(demo: Path, *words: str) -> tuple[int, str]:
    done = kitlist("print", *words, *ON, store=demo, cwd=demo.parent)
    return done.returncode, done.stderr


@pytest.mark.parametrize("ending", ["pdf", "html", "txt"])
@pytest.mark.parametrize("what", ["sheet", "card", "labels", "form"])
def test_an_earlier_paper_is_written_over_and_another_file_is_not(
    demo: Path, what: str, ending: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pdf, "make", lambda *_, **__: made("FORM"))  # what it shows is not asked here
    file = demo.parent / f"out.{ending}"
    assert printed(demo, what, "--out", file.name)[0] == 0
    assert printed(demo, what, "--out", file.name)[0] == 0
    file.write_text("a letter home", encoding="utf-8")
    code, said = printed(demo, what, "--out", file.name)
    assert (code, "is no earlier paper" in said) == (2, True)
    assert file.read_text(encoding="utf-8") == "a letter home"
    assert printed(demo, what, "--out", file.name, "--replace")[0] == 0
    assert file.read_bytes() != b"a letter home"


@pytest.mark.parametrize("replace", [(), ("--replace",)])
def test_never_onto_the_store_or_its_copies_not_even_through_a_link(demo: Path, replace: tuple[str, ...]) -> None:
    store = demo.rename(demo.with_suffix(".txt"))
    copy = demo.parent / "kit.txt.copies" / "00001-before-import.txt"
    copy.parent.mkdir()
    copy.write_text("a copy", encoding="utf-8")
    link = demo.parent / "link.txt"
    link.symlink_to(store)
    before = store.read_bytes()
    for target in (store, copy, link):
        code, said = printed(store, "form", "--out", str(target), *replace)
        assert (code, "is the store or a copy of it" in said) == (2, True)
    assert store.read_bytes() == before


def test_what_is_no_plain_file_is_refused(demo: Path) -> None:
    os.mkfifo(demo.parent / "pipe.txt")
    assert "is no file that a paper" in printed(demo, "form", "--out", "pipe.txt", "--replace")[1]
    (demo.parent / "folder.txt").mkdir()
    assert printed(demo, "form", "--out", "folder.txt")[0] == 2


def test_where_the_name_cannot_be_given_the_earlier_file_is_whole_and_nothing_else_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "sheet.txt"
    papers.write(samples.DEMO_SHEET, file)
    before = file.read_bytes()
    done = []

    def full(_: object, __: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(placing.os, "replace", full)
    with pytest.raises(PrintError, match=r"No space left on device\. The earlier file is as it was"):
        papers.write(samples.EMPTY_SHEET, file, before_name=lambda: done.append("remembered"))
    assert done == ["remembered"]
    assert file.read_bytes() == before
    assert os.listdir(tmp_path) == ["sheet.txt"]


def test_where_a_paper_cannot_be_remembered_it_gets_no_name(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forgotten(*_: object, **__: object) -> None:
        raise KitlistError("the store is away")

    monkeypatch.setattr(papers_kept, "remember", forgotten)
    assert printed(demo, "sheet", "--out", "sheet.txt")[0] == 1
    assert not (demo.parent / "sheet.txt").exists()
    assert not list(demo.parent.glob(".*part"))


def test_a_sheet_and_its_numbers_are_remembered_in_one_transaction(demo: Path) -> None:
    printed(demo, "sheet", "--out", "sheet.txt")
    with Store(demo).viewing() as connection:
        (both,) = connection.execute(
            "SELECT count(*) FROM journal WHERE id IN (SELECT journal FROM journal_change WHERE what = 'printed') "
            "AND id IN (SELECT journal FROM journal_change WHERE what = 'sheet_item')"
        ).fetchone()
    assert both == 1


def test_a_drawing_takes_the_place_of_a_drawing_only(tmp_path: Path) -> None:
    file = tmp_path / "chart.svg"
    for _ in range(2):
        figure.write_svg(file, lambda: '<svg class="figure" xmlns=""></svg>', store=tmp_path / "kit.db")
    file.write_text("<svg>mine</svg>", encoding="utf-8")
    with pytest.raises(UsageError, match="no earlier paper"):
        figure.write_svg(file, lambda: "", store=tmp_path / "kit.db")
