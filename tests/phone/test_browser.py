"""The page in a real headless Chromium: 320 and 390 px, bare fingers and gloves, with script and without, and axe."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, Route, sync_playwright

from kitlist.store import Store, checked_off
from phone.conftest import NOW, Served, served

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine: apt-get install chromium")
TRIP = "Dry lake survey"
PAGES = ("/", "/check-off", "/readings", "/card")
MOST_BYTES = 60_000


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield chromium
        chromium.close()


@pytest.fixture
def page(path: Path) -> Iterator[Served]:
    with served(path) as running:
        yield running


def opened(browser: Browser, page: Served, *, wide: int = 320, script: bool = True, glove: bool = False) -> Page:
    """Somebody who scanned the code, said who they are, and stands at the check-off."""
    context: BrowserContext = browser.new_context(viewport={"width": wide, "height": 800}, java_script_enabled=script)
    context.set_default_timeout(15_000)
    shown = context.new_page()
    shown.goto(page.url)
    assert shown.url == f"{page.base}/"
    if glove:
        shown.get_by_role("button", name="Rows for gloves").click()
    shown.goto(f"{page.base}/check-off")
    shown.get_by_label("Who checks").fill("Ada")
    shown.get_by_role("button", name="Begin").click()
    shown.wait_for_load_state()
    return shown


def kept(path: Path) -> dict[str, str]:
    return {line.name: line.answer.words for line in checked_off.progress(Store(path), TRIP) if line.answer}


@pytest.mark.parametrize("wide", [320, 390])
@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_a_bag_is_gone_through_and_the_state_survives_a_reload(
    browser: Browser, page: Served, path: Path, wide: int, script: bool
) -> None:
    shown = opened(browser, page, wide=wide, script=script)
    shown.locator('[data-key="tool:shovel"] label.row').click()
    hammer = shown.locator('[data-key="lead:work lead"]')
    hammer.locator("summary").click()
    hammer.get_by_text("missing", exact=True).click()
    if script:
        shown.get_by_text("2 of 38").wait_for()
        shown.get_by_text("No lead for the work clamp is packed").wait_for()
    else:
        bag = shown.locator("form", has=shown.locator('[data-key="tool:shovel"]'))
        other = shown.locator("form", has=shown.locator('[data-key="lead:work lead"]'))
        if bag.get_attribute("id") == other.get_attribute("id"):
            bag.locator("button.save").click()
        else:
            bag.locator("button.save").click()
            hammer.locator("summary").click()
            hammer.get_by_text("missing", exact=True).click()
            other.locator("button.save").click()
        shown.get_by_text("Kept: ").wait_for()
    assert kept(path) == {"shovel": "there", "work lead": "missing"}
    shown.reload()
    assert shown.get_by_role("status").inner_text().startswith("2 of 38")
    assert shown.locator('[data-key="tool:shovel"] input[value=there]').is_checked()
    assert shown.locator('[data-key="lead:work lead"] input[value=missing]').is_checked()


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_an_answer_is_taken_back(browser: Browser, page: Served, path: Path, script: bool) -> None:
    shown = opened(browser, page, script=script)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    if script:
        shown.get_by_text("1 of 38").wait_for()
    else:
        shown.locator("form", has=row).locator("button.save").click()
    row.get_by_role("button", name="Take back").click()
    shown.get_by_text("Taken back: shovel, there").wait_for()
    assert kept(path) == {}


def test_a_number_gives_way_to_another_answer_and_none_is_lost_on_the_way_out(
    browser: Browser, page: Served, path: Path
) -> None:
    shown = opened(browser, page)
    rods = shown.locator('[data-key="rod:general rods"]')
    rods.locator("summary").click()
    rods.get_by_label("how many").fill("20")
    rods.get_by_label("how many").blur()
    shown.get_by_text("1 of 38").wait_for()
    assert kept(path) == {"general rods": "20 of 28"}
    rods.locator("label.row").click()
    rods.get_by_text("there, Ada").wait_for()
    rods.get_by_text("missing", exact=True).click()
    rods.get_by_text("missing, Ada").wait_for()
    assert rods.get_by_label("how many").input_value() == ""
    assert kept(path) == {"general rods": "missing"}


def test_an_answer_kept_unheard_gives_way_to_the_one_that_stood_before(
    browser: Browser, page: Served, path: Path
) -> None:
    checked_off.record(Store(path), TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    shown = opened(browser, page)
    row = shown.locator('[data-key="tool:shovel"]')

    def unheard(route: Route) -> None:
        route.fetch()
        route.abort()

    shown.route("**/check-off", unheard, times=1)
    row.locator("label.row").click()
    row.get_by_text("Not saved: no answer").wait_for()
    assert kept(path) == {"shovel": "there"}
    row.get_by_text("missing", exact=True).click()
    row.get_by_text("missing, Ada").wait_for()
    assert kept(path) == {"shovel": "missing"}


def test_an_answer_that_did_not_arrive_is_counted_in_the_head_and_sent_by_another_tap(
    browser: Browser, page: Served, path: Path
) -> None:
    shown = opened(browser, page)
    shown.route("**/check-off", lambda route: route.abort(), times=1)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    row.get_by_text("Not saved: no answer").wait_for()
    assert shown.locator(".sticky").inner_text().endswith("1 not saved")
    row.locator("label.row").click()
    row.get_by_text("there, Ada").wait_for()
    assert "not saved" not in shown.locator(".sticky").inner_text()
    assert kept(path) == {"shovel": "there"}


def test_what_waits_behind_a_slow_answer_is_kept_when_the_page_is_left(
    browser: Browser, page: Served, path: Path
) -> None:
    shown = opened(browser, page)
    shown.evaluate(
        "() => { const real = fetch; let sent = 0;"
        " window.fetch = (...a) => sent++ ? real(...a) : new Promise(() => {}) }"
    )
    for key in ("tool:shovel", "tool:grinder", "lead:work lead"):
        shown.locator(f'[data-key="{key}"] label.row').click()
    shown.get_by_text("3 not saved").wait_for()
    assert kept(path) == {}
    shown.get_by_role("link", name="Volts").click()
    shown.wait_for_url("**/readings")
    shown.goto(f"{page.base}/check-off")
    for _ in range(20):  # what is sent on the way out may come in after the next page
        if "2 of 38" in shown.reload().text():  # type: ignore[union-attr]
            break
    assert kept(path) == {"grinder": "there", "work lead": "there"}


def test_an_answer_that_did_not_reach_the_page_is_boxed_and_said(browser: Browser, page: Served) -> None:
    shown = opened(browser, page)
    page.process.kill()
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    row.get_by_text("Not saved: no answer").wait_for()
    assert "bad" in (row.get_attribute("class") or "")


def test_what_is_chosen_before_the_script_has_come_is_kept_when_it_comes(
    browser: Browser, page: Served, path: Path
) -> None:
    shown = opened(browser, page)
    late: list[Route] = []
    shown.route("**/phone.js", lambda route: late.append(route))
    shown.reload(wait_until="commit")
    shown.locator('[data-key="tool:shovel"] label.row').click()
    assert kept(path) == {}
    late[0].continue_()
    shown.get_by_text("1 of 38").wait_for()
    assert kept(path) == {"shovel": "there"}


def test_two_phones_tick_one_bag_and_both_count(browser: Browser, page: Served, path: Path) -> None:
    one, other = opened(browser, page), opened(browser, page, script=False)
    one.locator('[data-key="tool:shovel"] label.row').click()
    one.get_by_text("1 of 38").wait_for()
    other.locator('[data-key="tool:grinder"] label.row').click()
    other.locator("form", has=other.locator('[data-key="tool:grinder"]')).locator("button.save").click()
    assert kept(path) == {"shovel": "there", "grinder": "there"}
    assert other.get_by_role("status").inner_text() == "2 of 38"


@pytest.mark.parametrize("wide", [320, 390])
@pytest.mark.parametrize("glove", [False, True], ids=["fingers", "gloves"])
def test_targets_are_large_enough_and_nothing_runs_off_the_side(
    browser: Browser, page: Served, wide: int, glove: bool
) -> None:
    shown = opened(browser, page, wide=wide, glove=glove)
    least = 96 if glove else 56
    for address in PAGES:
        shown.goto(page.base + address)
        assert shown.evaluate("document.documentElement.scrollWidth") <= wide, address
        for target in shown.locator(
            "label.choice, summary, button, nav a, input:not([type=hidden], [type=radio])"
        ).all():
            box = target.bounding_box() if target.is_visible() else None
            if box is not None and target.get_attribute("type") != "checkbox":
                assert box["height"] >= least - 0.5, (address, target.evaluate("e => e.outerHTML.slice(0, 90)"))
        sizes = shown.evaluate(
            "[...document.querySelectorAll('body *')].filter(e => e.innerText && !e.closest('svg'))"
            ".map(e => parseFloat(getComputedStyle(e).fontSize))"
        )
        assert min(sizes) >= 18, address
    shown.goto(f"{page.base}/check-off")
    row = shown.locator("label.row").first.bounding_box()
    mark = shown.locator(".choice input").first.bounding_box()
    assert row is not None
    assert mark is not None
    assert (row["width"] >= wide - 24, mark["width"], mark["height"]) == (True, 32, 32)


def test_at_twice_the_size_it_still_fits(browser: Browser, page: Served) -> None:
    shown = opened(browser, page, wide=640)
    for address in PAGES:
        shown.goto(page.base + address)
        shown.evaluate("document.documentElement.style.zoom = 2")
        assert shown.evaluate("document.documentElement.scrollWidth <= window.innerWidth * 1.01"), address


@pytest.mark.parametrize("glove", [False, True], ids=["fingers", "gloves"])
def test_axe_finds_nothing_wrong_on_any_page(browser: Browser, page: Served, glove: bool) -> None:
    shown = opened(browser, page, glove=glove)
    for address in PAGES:
        shown.goto(page.base + address)
        if address == "/check-off":
            shown.locator("summary").first.click()
        found = Axe().run(shown)
        assert len(found.response["passes"]) > 10
        assert found.violations_count == 0, (address, found.generate_report())


def test_every_page_weighs_little_and_fetches_only_what_is_its_own(browser: Browser, page: Served) -> None:
    shown = opened(browser, page)
    for address in PAGES:
        weights: dict[str, int] = {}
        shown.on("response", lambda answer, w=weights: w.update({answer.url: len(answer.body())}))
        shown.goto(page.base + address, wait_until="networkidle")
        assert all(url.startswith(page.base) for url in weights)
        assert sum(weights.values()) <= MOST_BYTES, (address, weights)


def test_the_head_stays_in_sight(browser: Browser, page: Served) -> None:
    shown = opened(browser, page)
    shown.evaluate("window.scrollTo(0, 3000)")
    box = shown.get_by_role("status").bounding_box()
    assert box is not None
    assert 0 <= box["y"] < 100


def test_what_follows_from_an_answer_is_said_where_it_was_given(browser: Browser, page: Served) -> None:
    shown = opened(browser, page, script=False)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    shown.locator("form", has=row).locator("button.save").click()
    shown.wait_for_load_state()
    bag = shown.locator("form", has=shown.locator('[data-key="tool:shovel"]'))
    head, name, told = (
        place.bounding_box()
        for place in (shown.locator(".sticky"), bag.locator("h2"), bag.get_by_text("Kept: shovel: there."))
    )
    assert head is not None
    assert name is not None
    assert told is not None
    assert head["y"] + head["height"] <= name["y"] < told["y"] < 800
