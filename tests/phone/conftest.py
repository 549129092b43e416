"""A page over a throwaway store: asked without a network, or served by a real process."""

from __future__ import annotations

import asyncio
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest

from kitlist.base import resources
from kitlist.faces.phone.app import build
from kitlist.faces.phone.guard import Door, Guard
from kitlist.store import Store, start
from kitlist.store.importing import import_toml

DEMO = resources.folder("seed_data") / "demo" / "kit.toml"
HOST = "127.0.0.1:8000"
TOKEN = "the-secret-of-this-run"
NOW = datetime(2027, 5, 6, 9, 30)  # noqa: DTZ001 - the store keeps local time


@dataclass(frozen=True)
class Answer:
    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def text(self) -> str:
        return self.body.decode("utf-8")


class Phone:
    """Somebody who asks the page, by default with all that a real phone sends."""

    def __init__(self, app: Guard) -> None:
        self.app = app
        self.cookies = {"kitlist": TOKEN}

    def get(self, path: str, **headers: str) -> Answer:
        return self.ask("GET", path, headers=headers)

    def post(self, path: str, fields: dict[str, str], **headers: str) -> Answer:
        return self.ask("POST", path, body=urlencode(fields).encode(), headers=headers)

    def ask(self, method: str, path: str, *, body: bytes = b"", headers: dict[str, str] | None = None) -> Answer:
        path, _, query = path.partition("?")
        sent = {"host": HOST, "cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())}
        if method == "POST":
            sent |= {
                "origin": f"http://{HOST}",
                "content-type": "application/x-www-form-urlencoded",
                "content-length": str(len(body)),
            }
        sent |= {name.replace("_", "-"): value for name, value in (headers or {}).items()}
        pairs = [(k.encode("latin-1"), v.encode("latin-1")) for k, v in sent.items() if v != "<none>"]
        return asyncio.run(self._ask(method, path, query, pairs, body))

    async def _ask(self, method: str, path: str, query: str, headers: list[Any], body: bytes) -> Answer:
        scope = {
            "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": "http",
            "path": path, "raw_path": path.encode("utf-8", "surrogatepass"), "query_string": query.encode(),
            "root_path": "", "headers": headers, "client": ("127.0.0.1", 5), "server": ("127.0.0.1", 8000),
        }  # fmt: skip
        told: list[Any] = []

        async def receive() -> Any:
            return {"type": "http.request", "body": body, "more_body": False}

        async def send(message: Any) -> None:
            told.append(message)

        await self.app(scope, receive, send)
        first = told[0]
        names = {k.decode().lower(): v.decode("latin-1") for k, v in first["headers"]}
        return Answer(first["status"], names, b"".join(m.get("body", b"") for m in told[1:]))


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    store = start(tmp_path_factory.mktemp("page") / "kit.db")
    import_toml(store, DEMO)
    return store.path


@pytest.fixture
def path(made: Path, tmp_path: Path) -> Path:
    copy = tmp_path / "kit.db"
    copy.write_bytes(made.read_bytes())
    return copy


@pytest.fixture
def store(path: Path) -> Store:
    return Store(path)


@pytest.fixture
def phone(path: Path) -> Phone:
    return phone_of(path)


def phone_of(path: Path, **more: Any) -> Phone:
    door = Door(token=TOKEN, hosts=frozenset({HOST}))
    return Phone(build(path, door=door, now=lambda: NOW, **more))


@dataclass(frozen=True)
class Seen:
    """Where a page is served."""

    url: str

    @property
    def base(self) -> str:
        return self.url.partition("/?")[0]

    @property
    def token(self) -> str:
        return self.url.partition("token=")[2]

    @property
    def headers(self) -> dict[str, str]:
        port = self.base.rpartition(":")[2]
        return {
            "Cookie": f"kitlist-{port}={self.token}",
            "Origin": self.base,
            "Content-Type": "application/x-www-form-urlencoded",
            "Accept": "application/json",
        }


@dataclass(frozen=True)
class Served(Seen):
    """A real `kitlist phone` process."""

    process: subprocess.Popen[str]


@contextmanager
def threaded(path: Path) -> Iterator[Seen]:
    """The same page from a thread of this process, in a twentieth of the time; for tests that kill nothing."""
    import uvicorn

    from kitlist.faces.phone import serve
    from kitlist.faces.phone.connections import Crowd, careful

    at = serve.place(network=False, port=0)
    app = build(path, door=at.door, now=datetime.now)
    config = uvicorn.Config(app, http=careful(Crowd()), log_config=None, lifespan="off", ws="none")
    server = uvicorn.Server(config)
    running = threading.Thread(target=server.run, kwargs={"sockets": [at.socket]})
    running.start()
    try:
        yield Seen(at.url)
    finally:
        server.should_exit = True
        running.join()
        at.socket.close()


@contextmanager
def served(path: Path, *, port: int = 0) -> Iterator[Served]:
    """The page by a real process on a free port, ended when the block ends."""
    command = [sys.executable, "-m", "kitlist", "--store", str(path), "phone", "--port", str(port)]
    env = os.environ | {"PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=env) as process:
        assert process.stdout
        try:
            yield Served(process.stdout.readline().strip(), process)
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGKILL)
