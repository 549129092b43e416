"""The day's book in the annex and on the pocket page, and a ballast strip's figures on the sheet."""

from __future__ import annotations

from dataclasses import replace

from kitlist.base import clean
from kitlist.faces.paper.build_sheet import build_sheet
from kitlist.faces.paper.document import Fact
from kitlist.faces.paper.html import render
from kitlist.faces.pocket.build_pocket import build_pocket
from kitlist.faces.words.welding_text import book_lines
from kitlist.outlook.days_book import day_book
from kitlist.readiness import Readiness, assess
from kitlist.rules.example import with_repair
from paper import built


def several() -> Readiness:
    """The whole kit on a trip with two repairs that it burns, one that it does not, and one that must never be."""
    example = with_repair()
    first = example.kit.repairs[0]
    made = tuple(
        replace(first, name=name, weld_length_mm=length_mm, part=part)
        for name, length_mm, part in (("a", 40, first.part), ("b", 900, first.part), ("c", 40, "wheel rim"))
    )
    kit = replace(example.kit, repairs=made)
    return assess(kit, replace(example.trip, repairs=("a", "b", "c")), on=example.on)


def facts(readiness: Readiness) -> dict[str, str]:
    bank = build_sheet(readiness).bank
    assert bank is not None
    return {fact.label: fact.value for fact in bank.facts if isinstance(fact, Fact)}


def test_the_annex_and_the_pocket_page_say_of_the_day_s_book_what_repairs_says() -> None:
    readiness = several()
    book = day_book(readiness.kit, readiness.trip, readiness.outlook)
    assert book is not None
    assert book.first_broken is not None
    sheet = build_sheet(readiness, annex=True)
    assert len(sheet.book) == 1 + len(book.turns) + len(book.left_out)
    printed = clean.plain(render(sheet, fonts_inside=False), longest=10**7).replace("\u00a0", " ")
    page = build_pocket(readiness, on=readiness.on).replace("\u00a0", " ")
    shown = " ".join(" ".join(book_lines(book, columns=100)).split())
    for turn in book.turns:
        assert turn.words in shown
        assert turn.words in page
        assert f"{turn.words}." in " ".join(sheet.book)
    assert "c: not in it, it must never be welded" in page
    assert "Several repairs in a row" in printed


def test_the_book_is_no_part_of_what_a_sheet_says_and_stands_only_in_its_annex() -> None:
    readiness = several()
    plain, long = build_sheet(readiness), build_sheet(readiness, annex=True)
    assert plain.book == ()
    assert plain.content_hash() == long.content_hash()


def test_a_ballast_strip_has_its_ohms_heat_duty_and_place_on_the_sheet() -> None:
    readiness = built.with_ballast(built.with_bank(built.small(), *built.FOUR))
    bank = readiness.outlook.bank
    assert bank is not None
    assert bank.ballast is not None
    shown = facts(readiness)
    assert shown["Strip strip"] == f"{bank.ballast.hot_ohm * 1000:.0f} mΩ, {bank.ballast.heat_w / 1000:.1f} kW"
    assert bank.ballast.heat is None or f"{bank.ballast.heat.peak_c:.0f} °C" in shown["It gets"]
    assert shown["It lies"] == "bare earth, 3 m off, hands off 10 min"
    panel = build_sheet(readiness).bank
    assert panel is not None
    assert any(remark.startswith("Ballast: strip") and "bare earth" in remark for remark in panel.remarks)
    assert not any(label.startswith("Strip") for label in facts(built.small()))
