"""However many only hold the line, a phone that asks is served; and the log says so once."""

from __future__ import annotations

import asyncio
import logging
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Awaitable, Callable
from contextlib import ExitStack, suppress
from pathlib import Path
from typing import Any

import pytest

from kitlist.faces.phone.connections import Crowd, careful
from kitlist.store import phone_port, start
from phone.conftest import served


async def app(scope: Any, receive: Any, send: Any) -> None:
    if scope["path"] == "/slow":
        await asyncio.sleep(0.5)
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"2")]})
    await send({"type": "http.response.body", "body": b"ok"})


def crowded(crowd: Crowd, told: Callable[[int], Awaitable[None]]) -> None:
    """Let something happen to a small server with a crowd of its own."""
    import uvicorn

    async def main() -> None:
        config = uvicorn.Config(app, http=careful(crowd), log_config=None, lifespan="off", timeout_keep_alive=1)
        server = uvicorn.Server(config)
        with socket.socket() as listening:
            listening.bind(("127.0.0.1", 0))
            running = asyncio.create_task(server.serve(sockets=[listening]))
            while not server.started:
                await asyncio.sleep(0.01)
            try:
                await told(listening.getsockname()[1])
            finally:
                server.should_exit = True
                await running

    asyncio.run(main())


async def asked(port: int, *, path: str = "/") -> bytes:
    with line(port) as own:
        loop = asyncio.get_running_loop()
        await loop.sock_sendall(own, f"GET {path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n".encode())
        return await asyncio.wait_for(loop.sock_recv(own, 4096), 5)


def line(port: int) -> socket.socket:
    own = socket.create_connection(("127.0.0.1", port), timeout=5)
    own.setblocking(False)
    return own


async def ended(own: socket.socket) -> bool:
    try:
        return await asyncio.wait_for(asyncio.get_running_loop().sock_recv(own, 4096), 3) == b""
    except ConnectionError:
        return True


def test_who_sends_no_request_or_one_byte_by_byte_is_ended_in_time(caplog: pytest.LogCaptureFixture) -> None:
    async def told(port: int) -> None:
        with line(port) as silent, line(port) as dribbling:
            begun = time.monotonic()
            with suppress(ConnectionError):
                for byte in b"GET / HTTP/1.1\r\nX":
                    await asyncio.get_running_loop().sock_sendall(dribbling, bytes([byte]))
                    await asyncio.sleep(0.03)
            assert await ended(silent)
            assert await ended(dribbling)
            assert time.monotonic() - begun < 2
        assert b"200 OK" in await asked(port, path="/slow")  # one that is being answered is not late

    crowd = Crowd(head_wait_s=0.3)
    with caplog.at_level(logging.WARNING, logger="kitlist.faces.phone"):
        crowded(crowd, told)
    assert len(crowd) == 0
    assert [message for message in caplog.messages if "closed" in message] == [
        "closed connections from 127.0.0.1: no request within 0.3 s"
    ]


def test_of_one_address_and_of_all_only_so_many_are_held_and_the_quiet_ones_give_way(
    caplog: pytest.LogCaptureFixture,
) -> None:
    async def told(port: int) -> None:
        with ExitStack() as held:
            for _ in range(30):
                held.enter_context(line(port))
                await asyncio.sleep(0)
            await asyncio.sleep(0.1)
            assert len(crowd) == most
            assert b"200 OK" in await asked(port)
            busy = [asyncio.create_task(asked(port, path="/slow")) for _ in range(most)]
            await asyncio.sleep(0.2)
            assert await ended(held.enter_context(line(port)))
            answers = await asyncio.gather(*busy)
            assert all(b"200 OK" in answer for answer in answers)

    for most, all_of_them in ((5, 64), (7, 7)):
        crowd = Crowd(most=all_of_them, most_of_one=most)
        with caplog.at_level(logging.WARNING, logger="kitlist.faces.phone"):
            crowded(crowd, told)
    assert [message for message in caplog.messages if "closed" in message] == [
        "closed connections from 127.0.0.1: more than 5 connections at once",
        "closed connections from 127.0.0.1: more than 7 connections at once",
    ]


def test_a_phone_is_served_among_four_hundred_that_only_hold_the_line(path: Path) -> None:
    with served(path) as page, ExitStack() as held:
        port = int(page.base.rpartition(":")[2])
        for number in range(400):
            line = held.enter_context(socket.create_connection(("127.0.0.1", port), timeout=5))
            if number % 2:
                line.send(b"GET /check-off HTTP/1.1\r\nHost: ")
        begun = time.monotonic()
        for address in ("/", "/check-off", "/phone.css"):
            asked = urllib.request.Request(page.base + address, headers=page.headers)
            with urllib.request.urlopen(asked, timeout=5) as answer:
                assert answer.status == 200
        assert time.monotonic() - begun < 3
        held.close()
        begun = time.monotonic()
        with urllib.request.urlopen(urllib.request.Request(page.base, headers=page.headers), timeout=5) as answer:
            assert answer.status == 200
        assert time.monotonic() - begun < 1


def test_the_port_is_kept_and_a_taken_one_is_said(tmp_path: Path) -> None:
    store = start(tmp_path / "kit.db")
    assert phone_port.kept(store) is None
    with served(store.path) as first:
        port = int(first.base.rpartition(":")[2])
        assert phone_port.kept(store) == port
        command = [sys.executable, "-m", "kitlist", "--store", str(store.path), "phone"]
        env = os.environ | {"PYTHONUNBUFFERED": "1"}
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=env) as second:
            assert second.stdout
            assert second.stderr
            assert f":{port}/" not in second.stdout.readline()
            said = [second.stderr.readline() for _ in range(2)]
            second.send_signal(signal.SIGKILL)
    assert f"kitlist phone --port {port}" in said[1]
    assert phone_port.kept(store) == port
