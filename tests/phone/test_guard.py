"""Nobody gets in without the secret, and nothing odd gets past the guard: refused, logged, and nothing is changed."""

from __future__ import annotations

import logging
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from kitlist.store import Store
from phone.conftest import HOST, TOKEN, Answer, Phone, phone_of

TICK = {"by": "Ada", "answer:tool:shovel": "missing"}
PAGES = ("/", "/check-off", "/check-off/news", "/readings", "/card", "/paste", "/nowhere")
FILES = ("/phone.css", "/phone.js", "/phone_rows.js", "/phone_volts.js")


def changed(path: Path) -> tuple[int, int]:
    with closing(sqlite3.connect(path)) as db:
        return (
            db.execute("SELECT count(*) FROM check_off").fetchone()[0],
            db.execute("SELECT count(*) FROM reading").fetchone()[0],
        )


def hardened(answer: Answer) -> bool:
    policy = answer.headers["content-security-policy"]
    return (
        "default-src 'none'" in policy
        and "unsafe" not in policy
        and "frame-ancestors 'none'" in policy
        and answer.headers["x-content-type-options"] == "nosniff"
        and answer.headers["referrer-policy"] == "same-origin"
        and answer.headers["cache-control"] == "no-store"
        and answer.headers["cross-origin-opener-policy"] == "same-origin"
        and "server" not in answer.headers
    )


@pytest.mark.parametrize("page", PAGES)
def test_without_the_secret_every_page_is_403_and_says_nothing_but_that_the_code_is_scanned_again(
    phone: Phone, store: Store, page: str
) -> None:
    for cookie in ("<none>", "kitlist=", "kitlist=wrong", f"other={TOKEN}", f"kitlist={TOKEN}x", "kitlist=é", ";;=;"):
        answer = phone.get(page, cookie=cookie)
        assert (answer.status, "Scan the code again" in answer.text, hardened(answer)) == (403, True, True), cookie
        assert not [word for word in ("Dry lake", "heron", "Heron", TOKEN) if word in answer.text]
    refused = phone.post(page, TICK, cookie="<none>")
    assert (refused.status, refused.body) == (403, b"403\n")


@pytest.mark.parametrize("file", FILES)
def test_what_holds_nothing_of_the_kit_is_read_without_the_secret_by_its_own_name_of_the_page_only(
    phone: Phone, file: str
) -> None:
    answer = phone.get(file, cookie="<none>")
    assert (answer.status, hardened(answer)) == (200, True)
    assert phone.get(file, cookie="<none>", host="evil.example").status == 403
    assert phone.post(file, TICK, cookie="<none>").status == 403


def test_the_secret_in_the_address_becomes_a_cookie_and_leaves_the_address(phone: Phone) -> None:
    answer = phone.get(f"/?token={TOKEN}", cookie="<none>")
    assert (answer.status, answer.headers["location"]) == (303, "/")
    assert answer.headers["set-cookie"] == f"kitlist={TOKEN}; Path=/; HttpOnly; SameSite=Strict"
    for wrong in (
        "/?token=",
        "/?token=wrong",
        f"/?token={TOKEN}&token={TOKEN}",
        f"/check-off?token={TOKEN}",
        "/?%ff",
        "/?a=1&b=1&c=1&d=1&e=1",
        "/?" + "&" * 3000,
    ):
        assert phone.get(wrong, cookie="<none>").status == 403


@pytest.mark.parametrize("other", ['a[b]={"x": 1}', "just text", "a@b/c=x y", "kitlist=wrong"])
def test_another_program_s_cookie_does_not_lock_the_phone_out(phone: Phone, other: str) -> None:
    assert phone.get("/readings", cookie=f"{other}; kitlist={TOKEN}").status == 200
    assert phone.get("/readings", cookie=other).status == 403


@pytest.mark.parametrize("page", PAGES[:6] + FILES)
def test_every_page_carries_the_headers_of_a_local_page(phone: Phone, page: str) -> None:
    answer = phone.get(page)
    assert (answer.status, hardened(answer)) == (200, True)


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"host": "evil.example"}, 403),
        ({"host": "127.0.0.1"}, 403),
        ({"host": "127.0.0.1:8000.evil.example"}, 403),
        ({"host": "<none>"}, 403),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": f"https://{HOST}"}, 403),
        ({"origin": "<none>"}, 403),
        ({"sec_fetch_site": "cross-site"}, 403),
        ({"sec_fetch_site": "same-site"}, 403),
        ({"content_type": "application/json"}, 415),
        ({"content_type": "multipart/form-data; boundary=x"}, 415),
        ({"content_type": "text/plain"}, 415),
        ({"content_type": "<none>"}, 415),
        ({"content_length": "70000"}, 413),
        ({"content_length": "-1"}, 413),
        ({"content_length": "x"}, 413),
        ({"content_length": "9" * 5000}, 413),
    ],
)
def test_a_form_that_is_not_from_our_own_page_is_refused_logged_and_changes_nothing(
    phone: Phone, path: Path, caplog: pytest.LogCaptureFixture, headers: dict[str, str], status: int
) -> None:
    before = changed(path)
    with caplog.at_level(logging.WARNING, logger="kitlist.faces.phone"):
        answer = phone.post("/check-off", TICK, **headers)
    assert (answer.status, hardened(answer)) == (status, True)
    assert changed(path) == before
    (line,) = caplog.messages
    assert line.startswith("refused POST /check-off from 127.0.0.1: ")
    assert TOKEN not in line


def test_the_same_form_from_our_own_page_is_kept(phone: Phone, path: Path) -> None:
    before = changed(path)
    assert phone.post("/check-off", TICK).status == 303
    assert changed(path) == (before[0] + 1, before[1])


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "CONNECT"])
def test_other_methods_are_refused(phone: Phone, method: str) -> None:
    assert phone.ask(method, "/check-off").status == 405


@pytest.mark.parametrize(
    "trick",
    ["/../kit.db", "//check-off", "/phone.css/", "/../../etc/passwd", "/phone.css\x00", "/.git",
     "/phone_base.html.jinja", "/check-off/../phone.css", "/%2e%2e/kit.db", "/" + "a" * 5000, "/\udcff"],
)  # fmt: skip
def test_a_path_that_is_no_page_is_404_logged_and_reads_nothing(
    phone: Phone, caplog: pytest.LogCaptureFixture, trick: str
) -> None:
    with caplog.at_level(logging.WARNING, logger="kitlist.faces.phone"):
        answer = phone.get(trick)
    assert [m.startswith("refused GET /") for m in caplog.messages] == [True] * (answer.status == 404)
    assert all(m.isprintable() and len(m) < 200 for m in caplog.messages)
    assert (answer.status, b"Not done" in answer.body or answer.body == b"Not Found") in ((404, True), (307, False))


def test_a_body_that_is_too_large_whatever_it_says_of_itself_is_refused(phone: Phone, path: Path) -> None:
    before = changed(path)
    big = b"by=Ada&answer:tool:shovel=missing&x=" + b"y" * 70_000
    assert phone.ask("POST", "/check-off", body=big, headers={"content_length": "10"}).status == 413
    assert changed(path) == before


def test_a_body_that_never_comes_is_given_up(path: Path) -> None:
    import asyncio

    app = phone_of(path, body_wait_s=0.05).app
    told = []

    async def receive() -> dict[str, object]:
        await asyncio.sleep(0.02)
        return {"type": "http.request", "body": b"a", "more_body": True}

    async def send(message: dict[str, object]) -> None:
        told.append(message)

    headers = {
        "host": HOST, "cookie": f"kitlist={TOKEN}", "origin": f"http://{HOST}",
        "content-type": "application/x-www-form-urlencoded",
    }  # fmt: skip
    scope = {
        "type": "http", "method": "POST", "path": "/check-off", "query_string": b"",
        "headers": [(k.encode(), v.encode()) for k, v in headers.items()],
    }  # fmt: skip
    asyncio.run(app(scope, receive, send))  # type: ignore[arg-type]
    assert told[0]["status"] == 408


@pytest.mark.parametrize("body", [b"\xff\xfe", b"%zz", b"&&&=", b"a" * 3000 + b"&b", b"x=1&" * 3000, b"=&=&="])
def test_a_body_that_is_no_form_is_told_so_logged_and_changes_nothing(
    phone: Phone, path: Path, caplog: pytest.LogCaptureFixture, body: bytes
) -> None:
    before = changed(path)
    with caplog.at_level(logging.WARNING, logger="kitlist.faces.phone"):
        answer = phone.ask("POST", "/check-off", body=body)
    assert caplog.messages == ["refused POST /check-off from 127.0.0.1: 400"]
    assert (answer.status, hardened(answer)) == (400, True)
    assert changed(path) == before


def test_a_websocket_is_closed_at_the_door(phone: Phone) -> None:
    import asyncio

    told = []

    async def receive() -> dict[str, object]:
        return {"type": "websocket.connect"}

    async def send(message: dict[str, object]) -> None:
        told.append(message)

    asyncio.run(phone.app({"type": "websocket", "path": "/", "headers": []}, receive, send))  # type: ignore[arg-type]
    assert told == [{"type": "websocket.close", "code": 1008}]
