"""Where the page listens, and the code of its address."""

from __future__ import annotations

import re

from kitlist.faces.phone import serve


def test_it_listens_on_this_machine_alone_and_answers_to_its_names() -> None:
    at = serve.place(network=False, port=0)
    with at.socket:
        host, port = at.socket.getsockname()
    assert host == "127.0.0.1"
    assert at.door.hosts == {f"127.0.0.1:{port}", f"localhost:{port}"}
    assert at.url == f"http://127.0.0.1:{port}/?token={at.door.token}"
    assert len(at.door.token) >= 32


def test_each_run_has_a_secret_of_its_own() -> None:
    first, second = (serve.place(network=False, port=0) for _ in range(2))
    with first.socket, second.socket:
        assert first.door.token != second.door.token


def test_the_code_is_black_on_white_in_any_terminal_with_a_quiet_zone_of_four_modules() -> None:
    told = serve.qr("http://192.168.43.101:54321/?token=" + "a" * 32)
    lines = told.split("\n")
    assert all(line.startswith("\x1b[38;5;16;48;5;231m") and line.endswith("\x1b[0m") for line in lines)
    halves = [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in lines]
    wide = len(halves[0])
    assert {len(line) for line in halves} == {wide}
    # version 4 is 33 modules a side (ISO/IEC 18004: 17 + 4 a version), and 4 modules of quiet zone on each
    assert (wide, len(halves)) == (33 + 8, (33 + 8 + 1) // 2)
    assert all(line[:4].isspace() and line[-4:].isspace() for line in halves)
    assert [line.isspace() for line in halves[:2] + halves[-2:]] == [True] * 4
    # the finder pattern: a ring of seven modules round a block of three by three
    assert [line[4:11] for line in halves[2:6]] == ["█▀▀▀▀▀█", "█ ███ █", "█ ▀▀▀ █", "▀▀▀▀▀▀▀"]
