"""A weld written down on the phone is the one that `kitlist weld add` keeps, once however often it is sent."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Page, sync_playwright

import chromium
from kitlist.faces.phone.app import build
from kitlist.faces.phone.guard import Door
from kitlist.store import Store
from kitlist.store.snapshot import snapshot
from phone.conftest import HOST, NOW, TOKEN, Phone, Seen, threaded

BANK = "heron-main, plover-main, plover-second"
SENT = {
    "form": "formformform",
    "trip": "Dry lake survey",
    "name": "trailer drawbar",
    "rod": "general rods",
    "rods": "5",
    "bank": BANK,
    "bank_strings": "1",
    "before": "12.74+12.82+12.80",
    "after": "37.6V",
    "after_rested": "2h",
}


def rods_left(store: Store) -> int:
    return next(rod.count for rod in snapshot(store).rods if rod.name == "general rods")


def plain(text: str) -> str:
    return html.unescape(text).replace("\u00a0", " ")


def sent(phone: Phone, **changes: str) -> tuple[int, str]:
    answer = phone.post("/weld", SENT | changes)
    assert answer.status == 303, answer.text
    page = phone.get(answer.headers["location"])
    return page.status, plain(page.text)


def test_a_weld_is_kept_with_its_field_repair_its_rods_and_what_it_teaches(phone: Phone, store: Store) -> None:
    before = rods_left(store)
    status, page = sent(phone)
    assert status == 200
    assert "weld trailer drawbar: 5 rods, 5 taken off general rods" in page
    assert "after 5 km, 50 km and a day" in page
    kit = snapshot(store)
    (weld,), (mend,) = kit.welds, kit.mends
    assert (weld.name, weld.repair, weld.trip, weld.rods) == ("trailer drawbar", "trailer drawbar", SENT["trip"], 5)
    assert weld.bank == tuple(BANK.split(", "))
    assert (weld.before_v, weld.after_v, weld.after_rested_h) == (pytest.approx(38.36), 37.6, 2)
    assert (mend.name, mend.trip) == ("trailer drawbar", SENT["trip"])
    assert rods_left(store) == before - 5
    assert "trailer drawbar, 2027-05-06: 5 rods, 38.36 V before, 37.6 V after" in page


def test_a_form_that_is_sent_twice_or_after_a_restart_counts_once(path: Path, store: Store) -> None:
    before = rods_left(store)
    for minutes in (0, 1, 2):
        now = NOW + timedelta(minutes=minutes)
        started = Phone(build(path, door=Door(token=TOKEN, hosts=frozenset({HOST})), now=lambda now=now: now))
        status, page = sent(started)
        assert status == 200
    assert "trailer drawbar: was taken in before" in page
    assert len(snapshot(store).welds) == 1
    assert rods_left(store) == before - 5


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"rods": "many"}, "whole number"),
        ({"name": " "}, "what was welded is not said"),
        ({"bank": ""}, "which batteries it was welded from is not said"),
        ({"bank": "nobody"}, "nobody"),
        ({"rod": "no such packet"}, "no such packet"),
        ({"after": "39.0"}, "is over the"),
        ({"bank_v": "a lot"}, "no number of volts"),
        ({"before": "3 V"}, "8"),
    ],
)
def test_what_cannot_be_kept_stays_typed_with_the_reason(
    phone: Phone, store: Store, changes: dict[str, str], why: str
) -> None:
    before = rods_left(store)
    status, page = sent(phone, **changes)
    assert status == 400
    assert "Not kept:" in page
    assert why in page
    assert 'value="12.74+12.82+12.80"' in page or "before" in changes
    assert (snapshot(store).welds, rods_left(store)) == ((), before)


def test_the_form_has_the_trip_s_bank_and_its_repairs_but_none_that_is_never_welded(phone: Phone) -> None:
    page = plain(phone.get("/weld").text)
    assert f'value="{BANK}"' in page
    assert '<option value="trailer drawbar">' in page
    assert "wheel rim" not in page
    form = re.search(r'name="form" value="(\w+)"', page)
    assert form
    assert form[1] not in phone.get("/weld").text


@pytest.fixture
def running(path: Path) -> Iterator[Seen]:
    with threaded(path) as seen:
        yield seen


@pytest.fixture
def opened(running: Seen) -> Iterator[Page]:
    with sync_playwright() as playwright:
        browser = chromium.launched(playwright.chromium)
        page = browser.new_context(viewport={"width": 320, "height": 800}).new_page()
        page.goto(running.url)
        yield page
        browser.close()


def test_two_welds_written_down_without_a_network_arrive_once_each_when_it_is_back(
    opened: Page, running: Seen, store: Store
) -> None:
    before = rods_left(store)
    opened.goto(f"{running.base}/weld")
    opened.context.set_offline(True)
    for rods in ("3", "2"):
        opened.get_by_label("What was welded").fill("Trailer drawbar")
        opened.get_by_label("Packet").select_option("general rods")
        opened.get_by_label("Rods burned").fill(rods)
        opened.get_by_role("button", name="Keep this weld").click()
        opened.get_by_text("kept on this phone").first.wait_for()
    assert "2 answers not sent yet" in opened.locator("#kept").inner_text()
    assert snapshot(store).welds == ()
    opened.context.set_offline(False)
    opened.get_by_text("2 taken off general rods").first.wait_for()
    welds = snapshot(store).welds
    assert sorted((weld.name, weld.repair, weld.rods) for weld in welds) == [
        ("Trailer drawbar", "trailer drawbar", 3),
        ("Trailer drawbar 2", "trailer drawbar", 2),
    ]
    assert rods_left(store) == before - 5
    assert opened.locator("#kept").is_hidden()
