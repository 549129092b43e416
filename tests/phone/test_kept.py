"""What a phone kept arrives once, by network or by hand, whatever was switched off meanwhile."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import BrowserType, Page, sync_playwright

import chromium
from kitlist.base.errors import BadFile
from kitlist.store import Store, changes, checked_off, pocket_taken, pocket_text, readings
from kitlist.store.pocket_taken import Fate
from phone.conftest import NOW, Phone, served

TRIP = "Dry lake survey"


def written(*entries: str, at: datetime = NOW) -> str:
    head = f'[pocket]\nformat = 1\nwritten_at = {at.isoformat()}\ntrip = "{TRIP}"\n'
    return head + "".join(entries)


def check(word: str, thing: str, answer: str, *, at: datetime = NOW, by: str = "Ada", **more: str) -> str:
    kind, _, name = thing.partition(":")
    values = {"kind": kind, "thing": name, "answer": answer, "by": by, **more}
    lines = [f"[[check]]\nword = {word!r}\nat = {at.isoformat()}", *(f'{k} = "{v}"' for k, v in values.items())]
    return "\n".join(lines) + "\n"


def answers(store: Store) -> dict[str, str]:
    return {line.name: line.answer.words for line in checked_off.progress(store, TRIP) if line.answer}


def take(store: Store, text: str, *, now: datetime = NOW, as_it_comes: bool = False) -> list[Fate]:
    done = pocket_taken.take(store, pocket_text.read(text), now=now, as_it_comes=as_it_comes)
    return [outcome.fate for outcome in done]


def test_each_entry_counts_once_however_often_the_text_comes_in(store: Store, path: Path) -> None:
    text = written(check("aaaaaaaa1", "tool:shovel", "there"), check("aaaaaaaa2", "tool:grinder", "missing"))
    assert take(store, text) == [Fate.TAKEN, Fate.TAKEN]
    assert take(store, text) == [Fate.ALREADY, Fate.ALREADY]
    assert answers(store) == {"shovel": "there", "grinder": "missing"}
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("SELECT count(*) FROM check_off").fetchone() == (2,)


def test_what_another_found_missing_is_asked_and_is_taken_once_it_is_said_again(store: Store) -> None:
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    (done,) = pocket_taken.take(store, pocket_text.read(written(check("aaaaaaaa1", "tool:shovel", "there"))), now=NOW)
    assert (done.fate, answers(store)) == (Fate.ASKED, {"shovel": "missing"})
    assert done.sentence == "Bea found missing at 09:30: is it there now? Look, then say so"
    sure = written(check("aaaaaaaa2", "tool:shovel", "there", sure="missing/0"))
    assert (take(store, sure), answers(store)) == ([Fate.TAKEN], {"shovel": "there"})


def test_a_there_that_was_kept_since_before_one_s_own_missing_is_asked_too(store: Store) -> None:
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.MISSING, 0)], by="Ada", at=NOW)
    early = check("aaaaaaaa1", "tool:shovel", "there", at=NOW - timedelta(hours=1))
    later = check("aaaaaaaa2", "tool:shovel", "there", at=NOW + timedelta(minutes=1))
    assert take(store, written(early)) == [Fate.ASKED]
    assert take(store, written(later, at=NOW + timedelta(minutes=1)), now=NOW + timedelta(hours=1)) == [Fate.TAKEN]


def test_missing_over_somebody_s_there_counts_and_says_whose_it_was(store: Store) -> None:
    checked_off.record(store, TRIP, [("tool", "shovel", checked_off.Answer.THERE, 0)], by="Bea", at=NOW)
    (done,) = pocket_taken.take(store, pocket_text.read(written(check("aaaaaaaa1", "tool:shovel", "missing"))), now=NOW)
    assert done.sentence == "shovel: missing; Bea had said there meanwhile, and Ada's counts now"


def test_an_answer_is_taken_back_where_it_is_the_one_that_was_seen(store: Store) -> None:
    take(store, written(check("aaaaaaaa1", "tool:shovel", "there")))
    unseen = written(check("aaaaaaaa2", "tool:shovel", "taken back", was="missing/0"))
    assert (take(store, unseen), answers(store)) == ([Fate.REFUSED], {"shovel": "there"})
    seen = written(check("aaaaaaaa3", "tool:shovel", "taken back", was="there/1"))
    assert (take(store, seen), answers(store)) == ([Fate.TAKEN], {})


def test_a_clock_that_is_ahead_or_behind_is_put_right_for_what_comes_as_it_is_given(store: Store) -> None:
    def moment(word: str, phone_clock: datetime, *, ago: timedelta, as_it_comes: bool) -> datetime:
        text = written(check(word, "tool:shovel", "there", at=phone_clock - ago), at=phone_clock)
        take(store, text, as_it_comes=as_it_comes)
        (line,) = [line for line in checked_off.progress(store, TRIP) if line.name == "shovel"]
        assert line.answer
        return line.answer.checked_at

    ago = timedelta(minutes=20)
    assert moment("aaaaaaaa1", NOW + timedelta(days=2), ago=ago, as_it_comes=True) == NOW - ago
    assert moment("aaaaaaaa2", NOW - timedelta(days=2), ago=ago, as_it_comes=True) == NOW - ago
    assert moment("aaaaaaaa3", NOW + timedelta(days=2), ago=ago, as_it_comes=False) == NOW - ago
    assert moment("aaaaaaaa4", NOW - timedelta(days=2), ago=ago, as_it_comes=False) == NOW - timedelta(days=2) - ago


def test_a_reading_comes_in_once_with_its_own_moment_and_what_it_cannot_be_is_said(store: Store) -> None:
    def reading(word: str, **values: str) -> str:
        lines = "\n".join(f'{k} = "{v}"' for k, v in values.items())
        return written(f"[[reading]]\nword = {word!r}\nat = {(NOW - timedelta(hours=2)).isoformat()}\n{lines}\n")

    text = reading("aaaaaaaa1", battery="heron-main", volts="12.45", rested="12h", battery_temp="4C")
    assert take(store, text) == [Fate.TAKEN]
    assert take(store, text) == [Fate.ALREADY]
    (kept, *_) = readings.listed(store, "heron-main", count=1)
    assert (kept.volts_v, kept.taken_at, kept.battery_temp_c) == (12.45, NOW - timedelta(hours=2), 4)
    assert take(store, reading("aaaaaaaa2", battery="heron-main", volts="twelve")) == [Fate.REFUSED]
    assert take(store, reading("aaaaaaaa3", battery="nobody", volts="12.4")) == [Fate.REFUSED]
    back = f'[[reading_back]]\nword = "aaaaaaaa4"\nat = {NOW.isoformat()}\nbattery = "heron-main"\n'
    assert take(store, written(f'{back}taken_at = "{kept.taken_at}"\n')) == [Fate.TAKEN]
    assert readings.listed(store, "heron-main", count=1)[0].volts_v == 12.74


def test_one_entry_that_cannot_be_taken_keeps_no_other_out(store: Store) -> None:
    changes.remove(store, "tool", "grinder")
    text = written(
        check("aaaaaaaa1", "tool:grinder", "there"),
        check("aaaaaaaa2", "tool:shovel", "perhaps"),
        check("aaaaaaaa3", "lead:work lead", "there"),
        check("aaaaaaaa4", "lead:holder lead", "there", trip="Nowhere"),
    )
    assert sorted(take(store, text)) == [Fate.REFUSED, Fate.REFUSED, Fate.REFUSED, Fate.TAKEN]
    assert answers(store) == {"work lead": "there"}


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "it has no [pocket] head"),
        ("what I found", "this is not what a phone writes"),
        ("[pocket]\nformat = 2\n", "format 2 is not known here"),
        ("[pocket]\nformat = 1\n", "written_at must be a moment"),
        (written("[[gift]]\nword = 'aaaaaaaa1'\n"), "1 entries cannot be read"),
        (written("[[check]]\nword = 'short'\nat = 2027-05-06T09:30:00\n"), "1 entries cannot be read"),
        (written("a = " + "[" * 5000 + "]" * 5000), "this is not what a phone writes"),
        (written("#" + "x" * 400_000), "the text is longer than"),
    ],
)
def test_what_no_phone_writes_is_refused_in_a_sentence(text: str, why: str) -> None:
    with pytest.raises(BadFile) as refused:
        pocket_text.read(text)
    assert why in refused.value.message


def test_the_box_takes_a_copied_text_says_what_became_of_it_and_keeps_what_is_wrong_typed(
    phone: Phone, store: Store
) -> None:
    checked_off.record(store, TRIP, [("tool", "grinder", checked_off.Answer.MISSING, 0)], by="Bea", at=NOW)
    text = written(check("aaaaaaaa1", "tool:shovel", "there"), check("aaaaaaaa2", "tool:grinder", "there"))
    page = phone.post("/paste", {"text": text.replace("\n", "\r\n")}).text
    assert "Taken in: 1" in page
    assert "To be looked at again: not taken in: 1" in page
    assert "grinder: Bea found missing at 09:30" in page
    assert "Taken in before: 1" in phone.post("/paste", {"text": text}).text
    wrong = phone.post("/paste", {"text": "<b>no such</b>"})
    assert (wrong.status, "&lt;b&gt;no such&lt;/b&gt;</textarea>" in wrong.text) == (400, True)


def test_what_follows_from_an_answer_comes_back_with_it(phone: Phone) -> None:
    text = written(check("aaaaaaaa1", "lead:work lead", "missing"))
    said = json.loads(phone.post("/kept", {"text": text}, accept="application/json").text)
    assert said["outcomes"]["aaaaaaaa1"] == {
        "fate": "taken", "kind": "check", "key": "lead:work lead", "said": "work lead: missing",
    }  # fmt: skip
    assert said["rows"]["lead:work lead"] == {
        "state": "missing/0", "said": "missing, Ada 09:30", "word": "short at check-off",
    }  # fmt: skip
    assert any(gap.startswith("STOP: No lead for the work clamp is packed") for gap in said["gaps"])
    assert phone.post("/kept", {"text": "nonsense"}, accept="application/json").status == 400


@pytest.fixture(scope="module")
def kind() -> Iterator[BrowserType]:
    with sync_playwright() as playwright:
        yield playwright.chromium


def begin(shown: Page, url: str) -> None:
    shown.goto(url)
    shown.goto(f"{url.partition('/?')[0]}/check-off")
    if shown.get_by_label("Who checks").count():
        shown.get_by_label("Who checks").fill("Ada")
        shown.get_by_role("button", name="Begin").click()
        shown.wait_for_load_state()


def test_two_hundred_answers_without_network_survive_the_phone_and_the_computer_being_restarted(
    kind: BrowserType, path: Path, tmp_path: Path
) -> None:
    store = Store(path)
    for number in range(200 - 38):
        changes.add(store, "item", {"name": f"thing {number}", "count": 1, "bag": "Arc bag"})
    profile = tmp_path / "profile"
    phone = chromium.remembering(kind, profile)
    with served(path) as first:
        shown = phone.new_page()
        begin(shown, first.url)
        first.process.kill()
        first.process.wait()
        shown.locator("fieldset[data-key] input[value=there]").evaluate_all("rows => rows.forEach(row => row.click())")
        shown.get_by_text("200 answers not sent yet, kept on this phone: no network").wait_for()
        copied = shown.evaluate("as_text(kept.all(), {})")
    phone.close()  # the page is left and the phone is switched off
    phone = chromium.remembering(kind, profile)
    with served(path) as again:
        assert again.base == first.base  # the same port, so that what is kept is in reach
        shown = phone.new_page()
        shown.goto(f"{again.base}/check-off")  # with the secret of the first run
        assert shown.get_by_role("heading", name="Scan the code again").is_visible()
        shown.get_by_text("200 answers not sent yet, kept on this phone: scan the code again").wait_for()
        shown.get_by_text("Copy them as text").click()
        by_hand = shown.get_by_label("What is kept, as text").input_value()
        assert answers(store) == {}
        shown.goto(again.url)
        shown.goto(f"{again.base}/check-off")
        shown.get_by_text("200 of 200").wait_for()
        assert shown.evaluate("localStorage.getItem('kitlist-kept')") == "[]"
        shown.goto(f"{again.base}/paste")
        shown.get_by_label("The text, all of it").evaluate("(box, text) => { box.value = text; }", copied)  # not typed
        shown.get_by_role("button", name="Take it in").click()
        assert shown.get_by_role("heading", name="Taken in before: 200").is_visible()
    phone.close()
    assert set(answers(store).values()) == {"there"}
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("SELECT count(*) FROM check_off").fetchone() == (200,)
    words = [set(re.findall(r'word = "(\w+)"', text)) for text in (copied, by_hand)]
    assert (len(words[0]), words[0]) == (200, words[1])


def test_on_another_port_what_an_open_page_kept_is_copied_over(kind: BrowserType, path: Path) -> None:
    browser = chromium.launched(kind)
    context = browser.new_context()
    with served(path) as first:
        old = context.new_page()
        begin(old, first.url)
    old.locator('[data-key="tool:shovel"] label.row').click()
    old.get_by_text("1 answer not sent yet").wait_for()
    old.get_by_text("Copy them as text").click()
    copied = old.get_by_label("What is kept, as text").input_value()
    with served(path, port=free_port()) as other:
        assert other.base != first.base
        new = context.new_page()
        new.goto(other.url)
        new.goto(f"{other.base}/paste")
        new.get_by_label("The text, all of it").fill(copied)
        new.get_by_role("button", name="Take it in").click()
        assert new.get_by_role("heading", name="Taken in: 1").is_visible()
    browser.close()
    assert answers(Store(path)) == {"shovel": "there"}


def free_port() -> int:
    import socket

    with socket.socket() as asking:
        asking.bind(("127.0.0.1", 0))
        return int(asking.getsockname()[1])
