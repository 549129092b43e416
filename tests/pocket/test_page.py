"""The pocket page in a real headless Chromium, opened as a file: narrow and wide, by day and night, without script."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page

import running
from kitlist.faces.pocket.build_pocket import build_pocket
from kitlist.readiness import Readiness
from kitlist.store import Store, changes, pocket_text, start
from kitlist.store.pocket_text import PocketKind
from pocket.conftest import ON

MOST_BYTES = 150_000


@contextmanager
def opened(
    browser: Browser, page_file: Path, *, wide: int = 390, script: bool = True, dark: bool = False
) -> Iterator[Page]:
    context: BrowserContext = browser.new_context(
        viewport={"width": wide, "height": 800}, java_script_enabled=script, color_scheme="dark" if dark else "light"
    )
    context.set_default_timeout(15_000)
    page = context.new_page()
    wrong: list[str] = []
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(page_file.as_uri())
    yield page
    assert wrong == []
    context.close()


def type_in(page: Page, volts: str = "12.70") -> None:
    page.get_by_label("Rested how many hours").fill("12")
    page.get_by_label("Air now, °C").fill("−2")
    page.get_by_label("Batteries, °C").fill("4,5")
    for box in page.locator("[data-volts]").all():
        box.fill(volts)


def test_it_is_one_small_file_that_names_no_address_and_asks_for_one_thing_only(
    browser: Browser, html: str, page_file: Path
) -> None:
    assert len(html.encode()) <= MOST_BYTES
    assert set(re.findall(r"\bhttps?://[^\s\"'<]+", html)) == {"http://www.w3.org/2000/svg"}  # a name, never fetched
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', html)
    assert policy
    assert "default-src &#39;none&#39;" in policy[1]
    assert "unsafe" not in policy[1]
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(page_file.as_uri())
    type_in(page)
    assert asked == [page_file.as_uri()]
    page.close()


def test_live_numbers_stand_only_while_this_browser_agrees_and_the_file_is_whole(
    browser: Browser, html: str, tmp_path: Path, page_file: Path
) -> None:
    with opened(browser, page_file) as page:
        assert page.evaluate("document.body.dataset.agrees") == "yes"
        type_in(page)
        assert page.locator("#answer .big").count() == 2
        assert page.locator(".says", has_text="Charged").count() >= 3
    changed = tmp_path / "changed.html"
    changed.write_text(html.replace('"coldest_c":', '"coldest_c": '), encoding="utf-8")
    with opened(browser, changed) as page:
        assert page.evaluate("document.body.dataset.agrees") == "no"
        type_in(page)
        assert page.get_by_text("this file is not as it was made").is_visible()
        assert page.locator("#answer").inner_text() == ""


def test_what_is_no_number_or_no_bead_is_said_and_computes_nothing(browser: Browser, page_file: Path) -> None:
    with opened(browser, page_file) as page:
        type_in(page)
        page.locator("[data-volts]").first.fill("12,7,1")
        assert page.get_by_text("One of the boxes holds no number").is_visible()
        page.locator("[data-volts]").first.fill("12,7")
        assert page.locator("#answer .big").count() == 2
        before = page.locator("#answer").inner_text()
        page.get_by_text("After a practice bead").click()
        for name, value in (("rest_v", "38.0"), ("bank_v", "39"), ("current_a", "150")):
            page.locator(f"#{name}").fill(value)
        assert "the volts hardly fell" in page.locator("#bead-says").inner_text()
        assert page.locator("#answer").inner_text() == before
        page.locator("#bank_v").fill("33")
        assert page.locator("#bead-says").inner_text() == ""
        assert page.locator("#answer").inner_text() != before


@pytest.mark.parametrize("wide", [320, 390, 768, 1280])
@pytest.mark.parametrize("dark", [False, True], ids=["day", "night"])
def test_nothing_runs_off_the_side_targets_are_large_and_axe_finds_nothing(
    browser: Browser, page_file: Path, wide: int, dark: bool
) -> None:
    with opened(browser, page_file, wide=wide, dark=dark) as page:
        assert page.evaluate("document.documentElement.scrollWidth") <= wide
        sizes = page.evaluate(
            "[...document.querySelectorAll('body *')].filter(e => e.innerText && !e.closest('svg'))"
            ".map(e => parseFloat(getComputedStyle(e).fontSize))"
        )
        assert min(sizes) >= 18
        small = page.evaluate(
            """[...document.querySelectorAll("label.choice, button, summary, select, .jumps a")]
                .filter((e) => e.offsetParent !== null && e.getBoundingClientRect().height < 55.5)
                .map((e) => e.outerHTML.slice(0, 90))"""
        )
        assert small == []
        if wide == 320:
            type_in(page)
            found = Axe().run(page)
            assert found.violations_count == 0, found.generate_report()
        if dark:
            assert page.evaluate("getComputedStyle(document.body).color") == "rgb(255, 100, 80)"


def test_night_is_chosen_and_remembered(browser: Browser, page_file: Path) -> None:
    with opened(browser, page_file) as page:
        page.get_by_role("button", name="Night").click()
        page.reload()
        assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(0, 0, 0)"


def test_without_script_it_is_the_card_with_its_tables_and_the_bags(browser: Browser, page_file: Path) -> None:
    with opened(browser, page_file, script=False) as page:
        said = page.inner_text("main")
        for words in ("1. Make safe", "3. Link", "When it goes wrong", "Rod sticks", "Shovel", "plover-second"):
            assert words in said
        assert "Without script this page is the card" in said
        assert "Keep this weld" not in said


def test_ticks_beads_welds_and_readings_survive_a_reload_and_come_back_once(
    browser: Browser, page_file: Path, store: Store, tmp_path: Path
) -> None:
    own = tmp_path / "kit.db"
    own.write_bytes(store.path.read_bytes())
    with opened(browser, page_file) as page:
        row = page.locator('[data-key="tool:shovel"]')
        row.locator("label.row").click()
        assert "Who checks?" in row.inner_text()
        page.get_by_label("Who checks").fill("Ada")
        row.locator("label.row").click()
        lead = page.locator('[data-key="lead:work lead"]')
        lead.locator("summary").click()
        lead.get_by_text("missing", exact=True).click()
        chocks = page.locator('[data-key="tool:chocks"]')
        chocks.locator("summary").click()
        chocks.get_by_text("left at home").click()
        assert chocks.locator(".said").inner_text() == "left at home, Ada"
        type_in(page)
        page.get_by_role("button", name="Keep these readings").click()
        page.locator("#weld-rod").select_option("general rods")
        page.get_by_label("Rods burned").fill("3")
        page.get_by_role("button", name="Keep this weld").click()
        assert "3 burned as kept here, 25 left of 28" in page.locator("#weld-says").inner_text()
        page.locator("#used-thing").select_option("fire water")
        page.get_by_label("How many, or 8L").fill("4L")
        page.get_by_role("button", name="Keep it").click()
        page.reload()
        assert page.locator('[data-key="tool:shovel"] input[value=there]').is_checked()
        assert page.locator("#ticked").inner_text().startswith("3 of 38")
        with page.expect_download() as download:
            page.get_by_role("button", name="Save pocket.toml").click()
        file = tmp_path / "pocket.toml"
        download.value.save_as(file)
    entries = pocket_text.read(file.read_text(encoding="utf-8")).entries
    kinds = {kind: sum(1 for entry in entries if entry.kind is kind) for kind in PocketKind}
    assert (kinds[PocketKind.CHECK], kinds[PocketKind.WELD], kinds[PocketKind.USED]) == (3, 1, 1)
    assert kinds[PocketKind.READING] >= 4
    first = running.kitlist("import", str(file), store=own)
    assert f"{len(entries)} of {len(entries)}" in first.stderr, first.stderr
    again = running.kitlist("import", str(file), store=own)
    assert f"{len(entries)} were taken in before" in again.stderr
    assert changes.one(Store(own), "rod", "general rods").count == 25


def test_a_browser_that_keeps_nothing_is_said_to(browser: Browser, page_file: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no') } })")
    page.goto(page_file.as_uri())
    assert page.get_by_text("This browser keeps nothing for this page").is_visible()
    type_in(page)
    assert page.locator("#answer .big").count() == 2
    context.close()


def test_a_bank_that_may_not_be_linked_has_no_steps_to_link_it_and_no_rods(
    browser: Browser, tmp_path: Path, store: Store
) -> None:
    from kitlist.faces.judging import judged

    own = tmp_path / "kit.db"
    own.write_bytes(store.path.read_bytes())
    changes.edit(Store(own), "battery", "heron-main", {"condition": "cracked"})
    page_file = tmp_path / "pocket.html"
    page_file.write_text(build_pocket(judged(Store(own), None, on=ON), on=ON), encoding="utf-8")
    with opened(browser, page_file) as page:
        said = page.inner_text("main")
        assert "Do not link it" in said
        assert "3. Link" not in said
        assert page.locator("#answer").count() == 0
        page.locator("[data-volts]").first.fill("12.7")
        page.get_by_label("Rested how many hours").fill("12")
        assert page.locator(".says", has_text="Charged").count() == 1


def test_names_of_any_kind_are_data(tmp_path: Path, browser: Browser) -> None:
    from kitlist.faces.judging import judged

    own = start(tmp_path / "kit.db")
    hostile = "</script><script>alert(1)</script>\"'&"
    changes.add(own, "bag", {"name": "\u05d0 <b>bag"})
    changes.add(own, "tool", {"name": hostile, "what": "shovel", "bag": "\u05d0 <b>bag"})
    changes.add(own, "vehicle", {"name": "<img src=x>"})
    changes.add(own, "battery", {"name": "</script><i>", "vehicle": "<img src=x>", "chemistry": "flooded", "c20": "70"})
    changes.add(
        own, "trip", {"name": "]]><!--", "starts_on": "2027-05-08", "ends_on": "2027-05-09", "vehicles": "<img src=x>"}
    )
    page_file = tmp_path / "pocket.html"
    page_file.write_text(build_pocket(judged(own, None, on=ON), on=ON), encoding="utf-8")
    with opened(browser, page_file) as page:
        assert page.locator("main img, main i").count() == 0
        assert page.evaluate("document.body.dataset.agrees") == "yes"
        page.get_by_label("Who checks").fill("<b>Ada")
        page.locator("fieldset.item label.row").click()
        text = page.locator("#text").input_value()
    (entry,) = pocket_text.read(text).entries
    assert (entry.values["thing"], entry.by, entry.trip) == (hostile, "<b>Ada", "]]><!--")


def test_the_command_writes_it_and_never_over_another_file(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "pocket.html"
    done = running.kitlist("print", "pocket", "--out", str(out), "--on", "2027-05-06", store=store.path)
    assert (done.returncode, "Wrote" in done.stderr) == (0, True)
    assert running.kitlist("print", "pocket", "--out", str(out), "--on", "2027-05-06", store=store.path).returncode == 0
    out.write_text("my letter", encoding="utf-8")
    refused = running.kitlist("print", "pocket", "--out", str(out), "--on", "2027-05-06", store=store.path)
    assert (refused.returncode, out.read_text(encoding="utf-8")) == (2, "my letter")


def test_the_same_kit_on_the_same_day_makes_the_same_page(readiness: Readiness, html: str) -> None:
    assert build_pocket(readiness, on=ON) == html
    assert build_pocket(readiness, on=date(2027, 5, 7)) != html
