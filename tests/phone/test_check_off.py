"""Ticking on a phone: what it changed is kept, two phones both count, and the terminal goes on from there."""

from __future__ import annotations

import gzip
import html
import json
import os
import re
import signal
import sqlite3
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress
from pathlib import Path
from urllib.parse import urlencode

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kitlist.kit import Kit
from kitlist.store import Store, changes, checked_off, start
from kitlist.store.tables.owned_rows import ItemRow
from kitlist.trips import check_off
from kitlist.trips.check_off import Line
from phone.conftest import NOW, Answer, Phone, Served, phone_of, served

TRIP = "Dry lake survey"
INPUTS = int(os.environ.get("KITLIST_TEST_INPUTS", "300"))


def lines(store: Store) -> dict[str, Line]:
    return {line.name: line for line in checked_off.progress(store, TRIP)}


def answers(store: Store) -> dict[str, str]:
    return {name: line.answer.words for name, line in lines(store).items() if line.answer}


def told(phone: Phone, answer: Answer) -> str:
    assert answer.status == 303, answer.text
    return html.unescape(phone.get(answer.headers["location"].partition("#")[0]).text)


def test_who_checks_is_asked_once_and_remembered_on_this_phone(phone: Phone) -> None:
    assert "Who checks" in phone.get("/check-off").text
    answer = phone.post("/who", {"by": "Ada Bö"})
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    name, _, value = cookie.partition(";")[0].partition("=")
    phone.cookies[name] = value
    page = phone.get("/check-off").text
    assert "Who checks" not in page
    assert "Dry lake survey · Ada Bö" in page
    assert phone.post("/who", {"by": " "}).status == 400


def test_every_thing_stands_in_its_bag_in_walking_order_with_its_state_to_see(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    page = html.unescape(phone.get("/check-off").text)
    names = re.findall(r'data-key="\w+:([^"]+)"', page)
    assert names == [line.name for line in checked_off.progress(store, TRIP)]
    assert page.count('value="there"') == len(names)
    assert "<span>Must carry:</span> <b>Welding helmet" in page
    assert "0 of 38" in page


def test_an_answer_is_kept_with_its_gaps_said_at_once(phone: Phone, store: Store) -> None:
    page = told(phone, phone.post("/check-off", {"by": "Ada", "answer:lead:work lead": "missing"}))
    assert "Kept: work lead: missing." in page
    assert "STOP</b> No lead for the work clamp is packed" in page
    kept = lines(store)["work lead"].answer
    assert kept is not None
    assert (kept.checked_by, kept.checked_at) == ("Ada", NOW)
    assert "1 of 38" in page


def test_a_must_carry_that_is_missing_is_counted_in_the_head(phone: Phone) -> None:
    page = told(phone, phone.post("/check-off", {"by": "Ada", "answer:gear:welding helmet": "damaged"}))
    assert "1 of 38, 1 must-carry missing" in page


def test_only_what_this_phone_changed_is_kept(phone: Phone, store: Store) -> None:
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "missing"})
    shown = {"was:tool:shovel": "missing/0", "answer:tool:shovel": "missing"}
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.THERE, 0)], by="Bea", at=NOW)
    phone.post("/check-off", {"by": "Ada", **shown, "answer:lead:work lead": "there"})
    assert answers(store) == {"shovel": "there", "work lead": "there"}


def test_what_another_phone_answered_meanwhile_is_said_and_the_newest_counts(phone: Phone, store: Store) -> None:
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.THERE, 0)], by="Bea", at=NOW)
    sent = {"by": "Ada", "was:tool:shovel": "", "answer:tool:shovel": "missing"}
    page = told(phone, phone.post("/check-off", sent))
    assert "shovel: Bea had said there meanwhile; yours counts now" in page
    assert answers(store) == {"shovel": "missing"}


def test_a_form_that_is_sent_twice_counts_once(phone: Phone, store: Store, path: Path) -> None:
    for _ in range(2):
        phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "missing", "was:tool:shovel": ""})
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("SELECT count(*) FROM check_off").fetchone() == (1,)


def test_a_count_that_is_none_is_said_beside_its_thing_and_the_rest_is_kept(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    sent = {
        "by": "Ada", "answer:rod:general rods": "counted", "count:rod:general rods": "lots",
        "answer:tool:shovel": "there",
    }  # fmt: skip
    answer = phone.post("/check-off", sent)
    page = html.unescape(phone.get(answer.headers["location"]).text)
    assert "how many? a number up to 5000" in page
    assert 'value="lots"' in page
    assert answers(store) == {"shovel": "there"}
    sent["count:rod:general rods"] = "20"
    phone.post("/check-off", sent)
    assert answers(store)["general rods"] == "20 of 28"


def test_a_number_that_was_typed_is_never_dropped_in_silence(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    rods = "rod:general rods"
    told(phone, phone.post("/check-off", {"by": "Ada", f"count:{rods}": "20"}))
    assert answers(store) == {"general rods": "20 of 28"}
    shown = {"by": "Ada", f"was:{rods}": "counted/20", f"count:{rods}": "20"}
    told(phone, phone.post("/check-off", {**shown, f"answer:{rods}": "there"}))
    assert answers(store) == {"general rods": "there"}
    sent = {"by": "Ada", "was:tool:shovel": "", "answer:tool:shovel": "there", "count:tool:shovel": "0"}
    answer = phone.get(phone.post("/check-off", sent).headers["location"])
    assert "there, or the number? choose counted, or empty the number" in html.unescape(answer.text)
    assert answers(store) == {"general rods": "there"}


def test_an_answer_that_this_phone_has_not_seen_is_not_taken_back(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there"})
    shown = check_off.state(lines(store)["shovel"].answer)
    phone.post("/check-off", {"by": "Bea", "answer:tool:shovel": "missing", "was:tool:shovel": shown})
    page = told(phone, phone.post("/check-off/undo", {"undo": "tool:shovel", "was:tool:shovel": shown}))
    assert "Nothing taken back: shovel has another answer meanwhile, missing, Bea 09:30" in page
    assert answers(store) == {"shovel": "missing"}


def test_an_answer_is_taken_back_alone_whoever_answered_last(phone: Phone, store: Store) -> None:
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "missing"})
    phone.post("/check-off", {"by": "Bea", "answer:lead:work lead": "there"})
    page = told(phone, phone.post("/check-off/undo", {"undo": "tool:shovel"}))
    assert "Taken back: shovel, missing" in page
    assert answers(store) == {"work lead": "there"}
    assert "nothing to take back" in told(phone, phone.post("/check-off/undo", {"undo": "tool:shovel"}))


def test_taking_back_keeps_what_else_was_changed_in_the_bag(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there"})
    sent = {
        "by": "Ada", "undo": "tool:shovel", "bag": "bag-1",
        "was:tool:shovel": check_off.state(lines(store)["shovel"].answer), "answer:tool:shovel": "there",
        "was:lead:work lead": "", "answer:lead:work lead": "missing",
    }  # fmt: skip
    page = told(phone, phone.post("/check-off/undo", sent))
    assert ">Taken back: shovel, there.<" in page
    assert "Kept: work lead: missing." in page
    assert "STOP</b> No lead for the work clamp is packed" in page
    assert answers(store) == {"work lead": "missing"}


def test_a_thing_that_is_gone_meanwhile_is_said_and_nothing_is_kept(phone: Phone, store: Store) -> None:
    changes.remove(store, "tool", "shovel")
    answer = phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there", "answer:lead:work lead": "there"})
    assert (answer.status, "No tool is called" in html.unescape(answer.text)) == (404, True)
    assert answers(store) == {}


def test_a_thing_that_is_gone_is_never_taken_for_another_whose_name_begins_alike(phone: Phone, store: Store) -> None:
    changes.add(store, "tool", {"name": "shovel spare", "what": "shovel"})
    changes.remove(store, "tool", "shovel")
    answer = phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there"})
    assert (answer.status, answers(store)) == (404, {})


def test_there_of_fewer_than_are_recorded_meanwhile_is_not_kept_and_said(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    shown = html.unescape(phone.get("/check-off").text)
    assert 'name="of:rod:general rods" value="28"' in shown
    changes.edit(store, "rod", "general rods", {"count": "40"})
    sent = {"by": "Ada", "of:rod:general rods": "28", "answer:rod:general rods": "there", "answer:tool:shovel": "there"}
    page = html.unescape(phone.get(phone.post("/check-off", sent).headers["location"]).text)
    assert "40 are recorded now, not 28: load the page again and look again" in page
    assert answers(store) == {"shovel": "there"}


def test_a_page_of_another_trip_than_the_next_one_changes_nothing(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    assert f'name="trip" value="{TRIP}"' in phone.get("/check-off").text
    changes.add(store, "trip", {"name": "Sooner", "starts_on": "2027-05-06", "ends_on": "2027-05-06"})
    for address in ("/check-off", "/check-off/undo"):
        sent = {"by": "Ada", "trip": TRIP, "undo": "tool:shovel", "answer:tool:grinder": "there"}
        answer = phone.post(address, sent)
        assert (answer.status, "the trip is now Sooner" in answer.text) == (400, True)
    assert answers(store) == {}
    assert all(line.answer is None for line in checked_off.progress(store, "Sooner"))


def test_what_was_said_is_said_again_on_a_reload_until_an_answer_changes(phone: Phone) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    where = phone.post("/check-off", {"by": "Ada", "answer:lead:work lead": "missing"}).headers["location"]
    for _ in range(2):
        assert "No lead for the work clamp is packed" in html.unescape(phone.get(where).text)
    phone.post("/check-off", {"by": "Ada", "answer:lead:work lead": "there"})
    assert "No lead for the work clamp" not in html.unescape(phone.get(where).text)


def test_a_form_that_is_sent_twice_at_once_counts_once(path: Path) -> None:
    with served(path) as page, ThreadPoolExecutor(2) as twice:
        for number, name in enumerate(many(None, path, 8)):
            list(twice.map(lambda _, n=name: post(page, {"by": "Ada", f"answer:item:{n}": "there"}), range(2)))
            with closing(sqlite3.connect(path)) as db:
                assert db.execute("SELECT count(*) FROM check_off").fetchone() == (number + 1,)


def test_an_open_page_hears_what_others_answered_and_nothing_while_nothing_changed(phone: Phone, store: Store) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    shown = re.search(r'data-version="([^"]+)"', phone.get("/check-off").text)
    assert shown
    assert json.loads(phone.get(f"/check-off/news?since={shown[1]}").text) == {"version": shown[1]}
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    news = json.loads(phone.get(f"/check-off/news?since={shown[1]}").text)
    said = {"state": "missing/0", "said": "missing, Bea 09:30", "word": "short at check-off"}
    assert (news["rows"]["tool:shovel"], news["status"], news["left"]) == (said, "1 of 38", 37)
    checked_off.undo(store, TRIP, at=NOW)
    after = json.loads(phone.get(f"/check-off/news?since={news['version']}").text)
    assert (after["rows"]["tool:shovel"]["state"], after["version"] == news["version"]) == ("", False)


def test_there_over_somebody_s_missing_is_asked_first_and_stands_when_it_is_said_again(
    phone: Phone, store: Store
) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    sent = {"by": "Ada", "was:tool:shovel": "missing/0", "answer:tool:shovel": "there"}
    page = told(phone, phone.post("/check-off", sent))
    assert "Bea found missing at 09:30: is it there now? Look, then say so" in page
    assert 'name="sure:tool:shovel" value="missing/0"' in page
    assert answers(store) == {"shovel": "missing"}
    told(phone, phone.post("/check-off", {**sent, "sure:tool:shovel": "damaged/0"}))
    assert answers(store) == {"shovel": "missing"}
    told(phone, phone.post("/check-off", {**sent, "sure:tool:shovel": "missing/0"}))
    assert answers(store) == {"shovel": "there"}


def test_whoever_found_it_missing_may_find_it_and_anybody_may_find_it_missing(phone: Phone, store: Store) -> None:
    for by, answer in (("Bea", "missing"), ("bea", "there"), ("Ada", "missing")):
        phone.post("/check-off", {"by": by, "answer:tool:shovel": answer})
        assert answers(store) == {"shovel": answer}


def test_each_row_has_its_number_on_the_sheet_and_the_word_of_its_gap(phone: Phone) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    page = html.unescape(phone.get("/check-off").text)
    isolator = page[page.index('data-key="tool:isolator"') :]
    assert re.findall(r'<span class="number">(\d+)</span>', isolator)[0] == "8"
    assert re.findall(r'<span class="word">([^<]+)</span>', isolator)[0] == "underrated"


def test_what_is_left_is_shown_alone_and_every_bag_is_one_tap_away(phone: Phone) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there"})
    page = html.unescape(phone.get("/check-off").text)
    assert "37 left: show" in page
    for number, bag in enumerate(("Power bag", "Arc bag", "Fire shelf", "Tool roll"), start=1):
        assert f'href="#bag-{number}" aria-label="{bag}' in page
        assert f'id="bag-{number}"' in page
    left = html.unescape(phone.get("/check-off?left=1").text)
    assert 'class=" only-left"' in left
    assert len(re.findall(r"data-key=[^>]* data-done", left)) == 1


def test_the_terminal_goes_on_from_there(phone: Phone, path: Path) -> None:
    phone.post("/check-off", {"by": "Ada", "answer:tool:shovel": "there"})
    command = [sys.executable, "-m", "kitlist", "--store", str(path), "check-off", "Dry", "--list"]
    listed = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert "shovel: there" in listed


def test_rows_for_gloves_are_switched_without_script(phone: Phone) -> None:
    answer = phone.post("/glove", {"here": "/readings"})
    assert answer.headers["location"] == "/readings"
    name, _, value = answer.headers["set-cookie"].partition(";")[0].partition("=")
    assert 'class="glove"' not in phone.get("/readings").text
    phone.cookies[name] = value
    assert 'class="glove"' in phone.get("/readings").text
    assert phone.post("/glove", {"here": "http://evil.example"}).headers["location"] == "/"


def test_a_store_without_a_trip_or_without_anything_says_what_to_do(tmp_path: Path) -> None:
    phone = phone_of(start(tmp_path / "empty.db").path)
    for page in ("/", "/check-off", "/card"):
        answer = phone.get(page)
        assert (answer.status, "There is no trip yet" in answer.text) == (404, True)
    assert "No batteries yet" in phone.get("/readings").text


def test_who_checks_can_change_on_one_phone(phone: Phone) -> None:
    phone.cookies["kitlist-by"] = "Ada"
    assert "Somebody else checks on this phone" in phone.get("/check-off").text
    answer = phone.post("/who", {"by": "Bea"})
    name, _, value = answer.headers["set-cookie"].partition(";")[0].partition("=")
    phone.cookies[name] = value
    assert 'name="by" value="Bea"' in phone.get("/check-off").text


def test_a_kit_of_four_hundred_things_still_weighs_little_on_the_way(path: Path) -> None:
    many(None, path, 400)
    phone = phone_of(path)
    phone.cookies["kitlist-by"] = "Ada"
    plain, sent = phone.get("/check-off"), phone.get("/check-off", accept_encoding="gzip")
    assert sent.headers["content-encoding"] == "gzip"
    assert gzip.decompress(sent.body) == plain.body
    assert len(sent.body) < 60_000


def test_names_of_any_kind_are_data(tmp_path: Path) -> None:
    store = start(tmp_path / "kit.db")
    hostile = "</legend><script>alert(1)</script>\"'&"
    changes.add(store, "bag", {"name": "\u05d0 bag <b>"})
    changes.add(store, "tool", {"name": hostile, "what": "shovel", "bag": "\u05d0 bag <b>"})
    changes.add(store, "trip", {"name": "<img src=x>", "starts_on": "2027-05-08", "ends_on": "2027-05-09"})
    phone = phone_of(store.path)
    phone.cookies["kitlist-by"] = "%3Cb%3EAda"
    page = phone.get("/check-off").text
    assert "<script>alert" not in page
    assert "<img src" not in page
    assert "<b>Ada" not in page
    key = re.search(r'data-key="([^"]*)"', page)
    assert key
    answer = phone.post("/check-off", {"by": "Ada", f"answer:{html.unescape(key[1])}": "there"})
    assert answer.status == 303
    assert checked_off.progress(store, "<img src=x>")[0].answer is not None


_names = st.sampled_from(
    ["by", "bag", "undo", "here", "answer:tool:shovel", "was:tool:shovel", "count:tool:shovel",
     "answer:rod:general rods", "count:rod:general rods", "answer:gear:", "answer:nothing:x", "answer::",
     "volts:heron-main", "load:heron-main", "rested", "battery_temp", "charging", "quick_load", "volts:nobody"]
) | st.text(max_size=30)  # fmt: skip
_values = st.sampled_from(
    ["Ada", "there", "missing", "damaged", "counted", "3", "-1", "99999999999999999999", "12.7", "12h", "NaN", "1e400",
     "yes", "tool:shovel", "bag-1", "\x00", "\u202e", "\ud83d\udd25", ""]
) | st.text(max_size=40)  # fmt: skip
_forms = st.dictionaries(_names, _values, max_size=8)
_addresses = st.sampled_from(["/check-off", "/check-off/undo", "/who", "/glove", "/readings", "/", "/card", "/x"])


@settings(max_examples=INPUTS, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(address=_addresses, sent=_forms, raw=st.none() | st.binary(max_size=200))
def test_no_form_whatever_it_holds_breaks_the_page(
    phone: Phone, address: str, sent: dict[str, str], raw: bytes | None
) -> None:
    body = raw if raw is not None else urlencode(sent, errors="surrogatepass").encode()
    answer = phone.ask("POST", address, body=body)
    assert answer.status in (200, 303, 400, 404, 405)


def post(page: Served, fields: dict[str, str]) -> int:
    data = urlencode(fields).encode()
    asked = urllib.request.Request(f"{page.base}/check-off", data=data, headers=page.headers)
    with urllib.request.urlopen(asked, timeout=60) as answer:
        return int(answer.status)


def many(kit: Kit | None, path: Path, count: int) -> Sequence[str]:
    store = Store(path)
    names = [f"thing {number}" for number in range(count)]
    with store.writing() as change:
        for name in names:
            change.insert_values(ItemRow, {"name": name, "count": 1, "must_carry": 0, "note": ""})
    return names


def test_twenty_phones_ticking_at_once_lose_no_tick(path: Path) -> None:
    names = many(None, path, 100)
    with served(path) as page, ThreadPoolExecutor(20) as phones:
        told = list(phones.map(lambda name: post(page, {"by": "Ada", f"answer:item:{name}": "there"}), names))
    assert told == [200] * len(names)
    assert {name for name, words in answers(Store(path)).items() if words == "there"} == set(names)


def test_killed_at_any_moment_it_keeps_every_tick_that_it_acknowledged(path: Path) -> None:
    names = many(None, path, 60)
    acknowledged: list[str] = []
    with served(path) as page:

        def tick() -> None:
            with suppress(OSError):
                for name in names:
                    if post(page, {"by": "Ada", f"answer:item:{name}": "there"}) == 200:
                        acknowledged.append(name)

        ticking = threading.Thread(target=tick)
        ticking.start()
        while len(acknowledged) < 10 and ticking.is_alive():
            time.sleep(0.01)
        page.process.send_signal(signal.SIGKILL)
        ticking.join(timeout=60)
    kept = answers(Store(path))
    assert 10 <= len(acknowledged) < len(names)
    assert set(acknowledged) <= set(kept)
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_ctrl_c_ends_it_in_good_order(path: Path) -> None:
    with served(path) as page:
        assert post(page, {"by": "Ada", "answer:tool:shovel": "there"}) == 200
        page.process.send_signal(signal.SIGINT)
        assert page.process.wait(timeout=20) == 0
