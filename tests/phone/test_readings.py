"""Readings typed on a phone are those that `kitlist volts` takes; what cannot be taken stays typed."""

from __future__ import annotations

import html
import re
from datetime import timedelta
from pathlib import Path

from kitlist.faces.phone.app import build
from kitlist.faces.phone.guard import Door
from kitlist.store import Store, changes, readings
from kitlist.store.snapshot import snapshot
from phone.conftest import HOST, NOW, TOKEN, Answer, Phone


def plain(text: str) -> str:
    """A page as it reads, breaking or not."""
    return html.unescape(text).replace("\u00a0", " ")


def record(phone: Phone, sent: dict[str, str]) -> Answer:
    """The page that a form of readings leads to."""
    answer = phone.post("/readings", sent)
    assert answer.status == 303, answer.text
    return phone.get(answer.headers["location"])


def fresh(store: Store) -> None:
    """Only readings from before the phone's clock."""
    assert all(r.taken_at < NOW for r in snapshot(store).readings)


def test_a_reading_is_recorded_at_the_phone_s_moment_and_said_back(phone: Phone, store: Store) -> None:
    fresh(store)
    sent = {"rested": "12h", "battery_temp": "40F", "volts:heron-main": "12.71", "volts:plover-main": " "}
    answer = record(phone, sent)
    page = plain(answer.text)
    assert (answer.status, "1 recorded" in page) == (200, True)
    assert "Recorded heron-main: 12.71 V, rested 12 h, at 4.4 °C" in page
    (kept, *_) = readings.listed(store, "heron-main", count=1)
    assert (kept.volts_v, kept.rested_h, kept.taken_at, round(kept.battery_temp_c or 0, 1)) == (12.71, 12, NOW, 4.4)


def test_what_cannot_be_taken_stays_typed_with_the_reason_beside_it_and_the_rest_is_recorded(
    phone: Phone, store: Store
) -> None:
    sent = {"rested": "12h", "volts:heron-main": "twelve", "volts:plover-main": "12.80", "load:heron-main": "20"}
    answer = record(phone, sent)
    page = plain(answer.text)
    assert answer.status == 400
    assert "Not recorded: volts = 'twelve': must be a number from 0 to 20 V" in page
    for typed in ('value="twelve"', 'value="20"', 'value="12h"'):
        assert typed in page
    assert "Recorded plover-main: 12.8 V" in page
    assert readings.listed(store, "plover-main", count=1)[0].taken_at == NOW
    assert readings.listed(store, "heron-main", count=1)[0].taken_at < NOW


def test_on_charge_and_the_quick_load_are_taken_as_the_command_takes_them(phone: Phone, store: Store) -> None:
    page = plain(record(phone, {"charging": "yes", "volts:heron-main": "14.1"}).text)
    assert "on charge: the meter reads the charger" in page
    page = plain(record(phone, {"quick_load": "yes", "volts:plover-main": "12.6"}).text)
    assert "after a short load" in page
    told = {r.battery: (r.charging, r.quick_load) for r in readings.listed(store, None, count=2)}
    assert told == {"heron-main": (True, False), "plover-main": (False, True)}


def test_a_form_that_is_sent_again_later_is_recorded_once(path: Path, store: Store) -> None:
    moments = iter([NOW, NOW + timedelta(seconds=30)])
    door = Door(token=TOKEN, hosts=frozenset({HOST}))
    phone = Phone(build(path, door=door, now=lambda: next(moments)))
    form = re.search(r'name="form" value="(\w+)"', phone.get("/readings").text)
    assert form
    sent = {"form": form[1], "rested": "12h", "volts:heron-main": "12.71"}
    first, again = phone.post("/readings", sent), phone.post("/readings", sent)
    assert first.status == again.status == 303
    assert "1 recorded" in phone.get(again.headers["location"]).text
    taken = [r for r in readings.listed(store, "heron-main", count=9) if r.taken_at >= NOW]
    assert len(taken) == 1
    assert form[1] not in phone.get("/readings").text


def test_a_form_that_comes_again_corrected_is_recorded_where_it_differs(path: Path, store: Store) -> None:
    moments = iter([NOW, NOW + timedelta(seconds=30)])
    door = Door(token=TOKEN, hosts=frozenset({HOST}))
    phone = Phone(build(path, door=door, now=lambda: next(moments)))
    sent = {"form": "once", "rested": "12h", "volts:heron-main": "12.71", "volts:plover-main": "12.80"}
    phone.post("/readings", sent)
    again = phone.post("/readings", sent | {"volts:heron-main": "12.17"})
    assert "heron-main: 12.17 V" in plain(phone.get(again.headers["location"]).text)
    for battery, volts in (("heron-main", [12.17, 12.71]), ("plover-main", [12.80])):
        taken = [r.volts_v for r in readings.listed(store, battery, count=9) if r.taken_at >= NOW]
        assert sorted(taken) == volts


def test_amperes_without_volts_are_said_and_stay_typed(phone: Phone, store: Store) -> None:
    page = plain(record(phone, {"rested": "3h", "load:heron-main": "20"}).text)
    assert "Not recorded: amperes without volts" in page
    assert 'value="20"' in page
    assert 'value="3h"' in page
    assert readings.listed(store, "heron-main", count=1)[0].taken_at < NOW


def test_every_battery_has_its_row_in_the_order_of_the_command(phone: Phone, store: Store) -> None:
    page = plain(phone.get("/readings").text)
    places = [page.index(f'name="volts:{battery.name}"') for battery in changes.listed(store, "battery")]
    assert places == sorted(places)


def test_the_card_on_the_phone_is_the_card_on_paper(phone: Phone, store: Store) -> None:
    from kitlist.faces.paper.build_card import build_card

    kit = snapshot(store, trip="Dry lake survey")
    card = build_card(kit, kit.trips[0], on=NOW.date())
    page = plain(phone.get("/card").text)
    assert card.content_hash() in page
    assert "HOLDER TO +, WORK CLAMP TO −" in page
    for face in card.faces:
        assert face.title in page
        for step in face.steps:
            assert step.text in page


def test_the_first_page_says_the_verdict_the_gaps_and_what_can_hurt(phone: Phone) -> None:
    page = plain(phone.get("/").text)
    assert "NOT READY" in page
    assert "wheel rim must not be welded" in page
    assert "Local codes and licensed practice come first." in page


def test_the_phone_asks_too_where_the_typed_rest_is_longer_than_the_time_since_the_drive(
    phone: Phone, store: Store
) -> None:
    driven_at = (NOW - timedelta(hours=1)).isoformat()
    changes.edit(store, "vehicle", "Heron", {"driven_at": driven_at})
    page = plain(record(phone, {"rested": "12h", "volts:heron-main": "12.7"}).text)
    (row,) = re.findall(r'<fieldset class="battery" data-battery="heron-main">.*?</fieldset>', page, re.S)
    (told,) = re.findall(r'<p class="told">(.*?)</p>', row)
    assert ("is the rest right, or that time?" in told, "Charged" in told) == (True, False)


def test_the_last_reading_of_each_battery_stands_there_with_what_it_says_and_is_taken_back(
    phone: Phone, store: Store
) -> None:
    record(phone, {"rested": "12h", "battery_temp": "25C", "volts:heron-main": "12.17"})
    page = plain(phone.get("/readings").text)
    assert 'Last: <b>12.17 V</b>, <span class="whole">2027-05-06 09:30</span>. Charged' in page
    key = re.search(r'name="reading" value="(heron-main@[^"]+)"', page)
    assert key
    answer = phone.post("/readings/take-back", {"reading": key[1]})
    assert "Taken back: heron-main, 12.17 V of 2027-05-06 09:30" in plain(phone.get(answer.headers["location"]).text)
    assert readings.listed(store, "heron-main", count=1)[0].taken_at < NOW
    assert "Last: <b>12.74 V</b>" in plain(phone.get("/readings").text)
    assert phone.post("/readings/take-back", {"reading": key[1]}).status == 404
    assert phone.post("/readings/take-back", {"reading": ""}).status == 404


def test_the_key_that_enter_presses_never_takes_a_reading_back(phone: Phone) -> None:
    page = phone.get("/readings").text
    form = page[page.index('action="/readings"') :]
    first = re.search(r'<(?:button|input type="submit")[^>]*>', form)
    assert first
    assert first[0] == '<input type="submit" hidden>'


def test_what_stops_the_weld_today_stands_over_the_card(phone: Phone) -> None:
    page = plain(phone.get("/card").text)
    assert "Today this stops the weld, and the card does not show it" in page
    assert page.index("second helmet: shade 10") < page.index("1. Make safe")
