"""The page in a real headless Chromium: 320 and 390 px, bare fingers and gloves, with script and without, and axe."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, Route, sync_playwright

import chromium
from kitlist.store import Store, changes, checked_off, readings
from phone.conftest import NOW, Seen, threaded

TRIP = "Dry lake survey"
PAGES = ("/", "/check-off", "/readings", "/weld", "/card", "/paste")
MOST_BYTES = 60_000


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = chromium.launched(playwright.chromium)
        yield browser
        browser.close()


@pytest.fixture
def page(path: Path) -> Iterator[Seen]:
    with threaded(path) as running:
        yield running


def opened(
    browser: Browser, page: Seen, *, wide: int = 320, script: bool = True, glove: bool = False, clock: bool = False
) -> Page:
    """Somebody who scanned the code, said who they are, and stands at the check-off; a `clock` can be put forward."""
    context: BrowserContext = browser.new_context(viewport={"width": wide, "height": 800}, java_script_enabled=script)
    context.set_default_timeout(15_000)
    shown = context.new_page()
    if clock:
        shown.clock.install()
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


def unread(path: Path) -> None:
    """No reading is there: the demo's are of a day to come, and the page is served by this machine's own clock."""
    with closing(sqlite3.connect(path)) as db, db:
        db.execute("DELETE FROM reading")


def crowded(path: Path) -> None:
    """64 things in six bags."""
    store = Store(path)
    for number in range(26):
        bag = f"Crate {number % 2}"
        if number < 2:
            changes.add(store, "bag", {"name": bag, "walk_order": 9})
        changes.add(store, "item", {"name": f"thing {number}", "count": 1, "bag": bag})


@pytest.mark.parametrize("wide", [320, 390])
@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_a_bag_is_gone_through_and_the_state_survives_a_reload(
    browser: Browser, page: Seen, path: Path, wide: int, script: bool
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
def test_an_answer_is_taken_back(browser: Browser, page: Seen, path: Path, script: bool) -> None:
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
    browser: Browser, page: Seen, path: Path
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


def test_an_answer_kept_unheard_is_sent_again_and_counts_once(browser: Browser, page: Seen, path: Path) -> None:
    shown = opened(browser, page, clock=True)

    def unheard(route: Route) -> None:
        route.fetch()
        route.abort()

    shown.route("**/kept", unheard, times=1)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    row.get_by_text("there, kept on this phone: no network").wait_for()
    assert kept(path) == {"shovel": "there"}
    shown.clock.fast_forward(5_000)
    row.get_by_text("there, Ada").wait_for(timeout=2_000)
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("SELECT count(*) FROM check_off").fetchone() == (1,)


def test_an_answer_without_network_is_counted_in_the_strip_and_sent_when_it_is_back(
    browser: Browser, page: Seen, path: Path
) -> None:
    shown = opened(browser, page)
    shown.context.set_offline(True)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    shown.get_by_text("1 answer not sent yet, kept on this phone: no network").wait_for()
    row.get_by_text("there, kept on this phone: no network").wait_for()
    assert kept(path) == {}
    shown.context.set_offline(False)
    row.get_by_text("there, Ada").wait_for()
    assert not shown.locator("#kept").is_visible()
    assert kept(path) == {"shovel": "there"}


def test_leaving_warns_while_something_is_not_sent(browser: Browser, page: Seen) -> None:
    shown = opened(browser, page)
    asked: list[str] = []
    shown.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    shown.locator('[data-key="tool:grinder"] label.row').click()
    shown.get_by_text("1 of 38").wait_for()
    shown.reload()
    assert asked == []
    shown.route("**/kept", lambda route: route.abort())
    shown.locator('[data-key="tool:shovel"] label.row').click()
    shown.get_by_text("1 answer not sent yet").wait_for()
    shown.reload()
    assert asked == ["beforeunload"]


def test_what_waits_behind_a_slow_answer_is_kept_when_the_page_is_left(
    browser: Browser, page: Seen, path: Path
) -> None:
    shown = opened(browser, page)
    slow: list[Route] = []
    shown.route("**/kept", lambda route: slow.append(route), times=1)
    for key in ("tool:shovel", "tool:grinder", "lead:work lead"):
        shown.locator(f'[data-key="{key}"] label.row').click()
    assert kept(path) == {}
    shown.get_by_role("link", name="Volts").click()
    shown.wait_for_url("**/readings")
    for _ in range(100):  # what is kept is sent by the next page
        if shown.evaluate("localStorage.getItem('kitlist-kept')") == "[]":
            break
        shown.wait_for_timeout(100)
    assert kept(path) == {"grinder": "there", "shovel": "there", "work lead": "there"}


def test_what_is_chosen_before_the_script_has_come_is_kept_when_it_comes(
    browser: Browser, page: Seen, path: Path
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


def test_an_open_page_learns_of_the_other_phone_within_ten_seconds(browser: Browser, page: Seen) -> None:
    one, other = opened(browser, page), opened(browser, page, clock=True)
    one.locator('[data-key="tool:shovel"] label.row').click()
    row = other.locator('[data-key="tool:shovel"]')
    one.locator('[data-key="tool:shovel"]').get_by_text("there, Ada").wait_for()
    other.clock.fast_forward(10_000)
    row.get_by_text("there, Ada").wait_for(timeout=2_000)
    assert row.locator("input[value=there]").is_checked()
    assert other.get_by_role("status").inner_text() == "1 of 38"


def test_there_over_somebody_s_missing_asks_first(browser: Browser, page: Seen, path: Path) -> None:
    store = Store(path)
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    shown = opened(browser, page)
    row = shown.locator('[data-key="tool:shovel"]')
    row.locator("label.row").click()
    row.get_by_text("Bea found missing at 09:30: is it there now?").wait_for()
    assert kept(path) == {"shovel": "missing"}
    shown.reload()
    row.get_by_role("button", name="Leave it as it was found").click()
    row.get_by_text("missing, Bea").wait_for()
    row.locator("label.row").click()
    row.get_by_role("button", name="I have looked: it is so").click()
    row.get_by_text("there, Ada").wait_for()
    assert kept(path) == {"shovel": "there"}


def test_a_bag_is_one_tap_away_and_what_is_left_stands_alone(browser: Browser, page: Seen, path: Path) -> None:
    crowded(path)
    shown = opened(browser, page)
    assert shown.get_by_role("status").inner_text() == "0 of 64"
    jumps = shown.locator(".jumps a")
    assert jumps.count() == 6
    for number in range(6):
        jumps.nth(number).click()
        head = shown.locator(f"#bag-{number + 1} h2")
        box, over = head.bounding_box(), shown.locator(".sticky").bounding_box()
        assert box
        assert over
        assert over["y"] + over["height"] <= box["y"] + 1
        assert number == 5 or box["y"] < 400
    shown.locator('[data-key="tool:shovel"] label.row').click()
    shown.get_by_text("63 left").wait_for()
    shown.locator("#what-is-left").click()
    shown.wait_for_url("**left=1")
    assert shown.locator("fieldset:visible").count() == 63
    assert not shown.locator('[data-key="tool:shovel"]').is_visible()


@pytest.mark.parametrize("chosen", [False, True], ids=["as the phone is set", "chosen"])
def test_night_is_red_on_black_and_reads_at_seven_to_one(browser: Browser, page: Seen, chosen: bool) -> None:
    shown = opened(browser, page)
    if chosen:
        shown.get_by_role("button", name="Night", exact=True).click()
        shown.locator("html.night").wait_for()
        shown.wait_for_load_state()
    else:
        shown.emulate_media(color_scheme="dark")
    inks = shown.evaluate(
        "[...document.querySelectorAll('body, body *')].map(e => getComputedStyle(e))"
        ".map(s => [s.color, s.backgroundColor])"
    )
    assert {ink for pair in inks for ink in pair} == {"rgb(255, 100, 80)", "rgb(0, 0, 0)", "rgba(0, 0, 0, 0)"}
    red, green, blue = (0.2126, 255), (0.7152, 100), (0.0722, 80)
    light = sum(share * ((value / 255 + 0.055) / 1.055) ** 2.4 for share, value in (red, green, blue))
    assert (light + 0.05) / 0.05 >= 7
    assert Axe().run(shown).violations_count == 0
    if chosen:
        shown.get_by_role("button", name="Day", exact=True).click()
        shown.locator("html.day").wait_for()
        shown.wait_for_load_state()
        shown.emulate_media(color_scheme="dark")
        assert shown.evaluate("getComputedStyle(document.body).color") == "rgb(20, 17, 12)"


def test_a_reading_is_kept_without_network_and_says_what_it_means_when_it_is_sent(
    browser: Browser, page: Seen, path: Path
) -> None:
    unread(path)
    shown = opened(browser, page)
    shown.goto(f"{page.base}/readings")
    shown.context.set_offline(True)
    shown.get_by_label("Rested how long").fill("12h")
    row = shown.locator('[data-battery="heron-main"]')
    row.get_by_label("Volts").fill("12.45")
    row.get_by_label("Volts").press("Enter")
    row.get_by_text("12.45: kept on this phone").wait_for()
    assert readings.listed(Store(path), "heron-main", count=1) == ()
    shown.context.set_offline(False)
    row.get_by_text("Recorded heron-main: 12.45").wait_for()
    assert readings.listed(Store(path), "heron-main", count=1)[0].volts_v == 12.45
    row.get_by_role("button", name="Take back").click()
    row.get_by_text("Taken back: heron-main, 12.45").wait_for()
    assert readings.listed(Store(path), "heron-main", count=1) == ()


def test_a_reading_that_cannot_be_taken_stays_typed(browser: Browser, page: Seen, path: Path) -> None:
    unread(path)
    shown = opened(browser, page)
    shown.goto(f"{page.base}/readings")
    row = shown.locator('[data-battery="heron-main"]')
    row.get_by_label("Volts").fill("twelve")
    shown.reload()
    assert row.get_by_label("Volts").input_value() == "twelve"
    shown.get_by_role("button", name="Record").click()
    row.get_by_text("Not recorded: ").wait_for()
    assert row.get_by_label("Volts").input_value() == "twelve"
    assert readings.listed(Store(path), "heron-main", count=1) == ()


def test_two_phones_tick_one_bag_and_both_count(browser: Browser, page: Seen, path: Path) -> None:
    one, other = opened(browser, page), opened(browser, page, script=False)
    one.locator('[data-key="tool:shovel"] label.row').click()
    one.get_by_text("1 of 38").wait_for()
    other.locator('[data-key="tool:grinder"] label.row').click()
    other.locator("form", has=other.locator('[data-key="tool:grinder"]')).locator("button.save").click()
    assert kept(path) == {"shovel": "there", "grinder": "there"}
    assert other.get_by_role("status").inner_text() == "2 of 38"


def fits(shown: Page, address: str, *, wide: int, least: int) -> None:
    """Nothing runs off the side, targets are large enough for a hand, and no type is small."""
    shown.set_viewport_size({"width": wide, "height": 800})
    assert shown.evaluate("document.documentElement.scrollWidth") <= wide, address
    small = shown.evaluate(
        """least => [...document.querySelectorAll("label.choice, summary, button, nav a, select, textarea, input")]
            .filter((e) => !["hidden", "radio", "checkbox"].includes(e.type) && e.offsetParent !== null)
            .filter((e) => e.getBoundingClientRect().height < least - 0.5).map((e) => e.outerHTML.slice(0, 90))""",
        least,
    )
    assert small == [], address
    sizes = shown.evaluate(
        "[...document.querySelectorAll('body *')].filter(e => e.innerText && !e.closest('svg'))"
        ".map(e => parseFloat(getComputedStyle(e).fontSize))"
    )
    assert min(sizes) >= 18, address


@pytest.mark.parametrize("glove", [False, True], ids=["fingers", "gloves"])
def test_every_page_is_wide_enough_for_a_hand_and_narrow_enough_for_a_phone_and_axe_finds_nothing_wrong(
    browser: Browser, page: Seen, glove: bool
) -> None:
    shown = opened(browser, page, glove=glove)
    for address in PAGES:  # each is loaded once: that costs the most
        shown.goto(page.base + address)
        for wide in (390, 320):
            fits(shown, address, wide=wide, least=96 if glove else 56)
            if address == "/check-off":
                row = shown.locator("label.row").first.bounding_box()
                mark = shown.locator(".choice input").first.bounding_box()
                assert row is not None
                assert mark is not None
                assert (row["width"] >= wide - 24, mark["width"], mark["height"]) == (True, 32, 32)
        if address == "/check-off":
            shown.locator("summary").first.click()
        found = Axe().run(shown)
        assert len(found.response["passes"]) > 10
        assert found.violations_count == 0, (address, found.generate_report())
        if not glove:
            shown.set_viewport_size({"width": 640, "height": 800})
            shown.evaluate("document.documentElement.style.zoom = 2")
            assert shown.evaluate("document.documentElement.scrollWidth <= window.innerWidth * 1.01"), address


def test_every_page_weighs_little_on_the_way_and_fetches_only_what_is_its_own(
    browser: Browser, page: Seen, path: Path
) -> None:
    crowded(path)
    shown = opened(browser, page)
    wire = shown.context.new_cdp_session(shown)
    wire.send("Network.enable")
    for address in PAGES:
        weights: dict[str, float] = {}
        asked: list[str] = []
        wire.on(
            "Network.loadingFinished", lambda done, w=weights: w.update({done["requestId"]: done["encodedDataLength"]})
        )
        shown.on("request", lambda request, a=asked: a.append(request.url))
        shown.goto(page.base + address, wait_until="load")
        shown.wait_for_timeout(200)
        assert all(url.startswith(page.base) for url in asked)
        assert 2_000 < sum(weights.values()) <= MOST_BYTES, (address, weights)


def test_the_head_stays_in_sight(browser: Browser, page: Seen) -> None:
    shown = opened(browser, page)
    shown.evaluate("window.scrollTo(0, 3000)")
    box = shown.get_by_role("status").bounding_box()
    assert box is not None
    assert 0 <= box["y"] < 100


def test_what_follows_from_an_answer_is_said_where_it_was_given(browser: Browser, page: Seen) -> None:
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
