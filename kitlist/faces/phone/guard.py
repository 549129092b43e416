"""The guard before every page: who may ask, what may be sent, and the headers of every answer.

Nothing behind it runs until Host, token, origin, method, type, size and pace are right. A refusal says no more than
its number, or that the code must be scanned again; why it was refused goes to the log, without the token.
"""

from __future__ import annotations

import asyncio
import logging
import secrets
from dataclasses import dataclass

from starlette.types import ASGIApp, Message, Receive, Scope, Send

BODY_MOST = 64 * 1024
BODY_WAIT_S = 10.0
FORM = "application/x-www-form-urlencoded"
HEADERS = {
    "content-security-policy": "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",  # `no-referrer` would make browsers send Origin: null with a form
    "cache-control": "no-store",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-embedder-policy": "require-corp",
    "permissions-policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}
"""As the OWASP HTTP headers cheat sheet advises (from memory), without HSTS: a local page has no certificate."""
log = logging.getLogger("kitlist.faces.phone")


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """Who is let in: the secret of this run, the hosts that the page answers to, the cookie that holds the secret."""

    token: str
    hosts: frozenset[str]
    cookie: str = "kitlist"

    def opens(self, told: str) -> bool:
        """Whether this is the secret, in a time that says nothing about it."""
        return secrets.compare_digest(told.encode("utf-8", "surrogatepass"), self.token.encode())


class RequestRefused(Exception):
    """A request that is not let in: the status of the answer, why for the log, and whether a new code would help."""

    def __init__(self, status: int, why: str, *, again: bool = False) -> None:
        super().__init__(why)
        self.status = status
        self.why = why
        self.again = again


class Guard:
    """ASGI middleware around the whole page.

    `open_to_all` are addresses that hold nothing of the kit and may be read without the secret; `again` is the page
    for a phone that comes with the secret of an earlier run: it may hold answers that were not sent.
    """

    def __init__(
        self,
        app: ASGIApp,
        *,
        door: Door,
        body_wait_s: float = BODY_WAIT_S,
        open_to_all: frozenset[str] = frozenset(),
        again: bytes = b"",
    ) -> None:
        self.app = app
        self.door = door
        self.body_wait_s = body_wait_s
        self.open_to_all = open_to_all
        self.again = again

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through to the page, or answer it here."""
        if scope["type"] != "http":
            if scope["type"] == "websocket":
                await send({"type": "websocket.close", "code": 1008})
            return
        shielded = _with_headers(send)
        try:
            headers = _headers(scope)
            self._host(headers)
            if first := self._token(scope, headers):
                await _answer(shielded, 303, {"location": "/", "set-cookie": first})
                return
            if scope["method"] not in ("GET", "HEAD", "POST"):
                raise RequestRefused(405, "method")
            if scope["method"] == "POST":
                self._origin(headers)
                scope["body"] = await self._body(headers, receive)
        except RequestRefused as refused:
            _log(scope, refused.why)
            page = self.again if refused.again and scope["method"] == "GET" else b""
            await _answer(shielded, refused.status, {}, page=page)
            return
        await self.app(scope, receive, _told_to_the_log(shielded, scope))

    def _host(self, headers: dict[str, list[str]]) -> None:
        hosts = headers.get("host", [])
        if len(hosts) != 1 or hosts[0].casefold() not in self.door.hosts:
            raise RequestRefused(403, "host")

    def _token(self, scope: Scope, headers: dict[str, list[str]]) -> str:
        """The cookie to set for a request that brings the secret in its address; "" for one that has the cookie."""
        if scope["method"] == "GET" and scope["path"] in self.open_to_all:
            return ""
        if scope["method"] == "GET" and scope["path"] == "/" and scope["query_string"]:
            name, _, told = scope["query_string"].decode("latin-1").partition("=")
            if name == "token" and self.door.opens(told):
                return f"{self.door.cookie}={self.door.token}; Path=/; HttpOnly; SameSite=Strict"
        for sent in headers.get("cookie", []):
            # by hand: the standard library's parser gives up at another program's odd cookie, and ports share a jar
            for pair in sent.split(";"):
                name, _, told = pair.strip().partition("=")
                if name == self.door.cookie and self.door.opens(told):
                    return ""
        raise RequestRefused(403, "token", again=True)

    def _origin(self, headers: dict[str, list[str]]) -> None:
        """A form is taken from our own pages only: browsers send Origin with every POST."""
        origins = headers.get("origin", [])
        if len(origins) != 1 or origins[0] != f"http://{headers['host'][0]}":
            raise RequestRefused(403, "origin")
        if headers.get("sec-fetch-site", ["same-origin"]) != ["same-origin"]:
            raise RequestRefused(403, "sec-fetch-site")

    async def _body(self, headers: dict[str, list[str]], receive: Receive) -> bytes:
        """The whole body, taken in before anything runs; too much, too slow or of another type is refused."""
        if headers.get("content-type", [""])[0].partition(";")[0].strip().casefold() != FORM:
            raise RequestRefused(415, "content-type")
        length = headers.get("content-length", ["0"])[0]
        if not length.isdecimal() or len(length) > 9 or int(length) > BODY_MOST:
            raise RequestRefused(413, "content-length")
        try:
            async with asyncio.timeout(self.body_wait_s):
                return await _all_of(receive)
        except TimeoutError:
            raise RequestRefused(408, "slow body") from None


async def _all_of(receive: Receive) -> bytes:
    parts = bytearray()
    while True:
        message = await receive()
        if message["type"] != "http.request":
            raise RequestRefused(400, "broken off")
        parts += message.get("body", b"")
        if len(parts) > BODY_MOST:
            raise RequestRefused(413, "body")
        if not message.get("more_body"):
            return bytes(parts)


def _headers(scope: Scope) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for name, value in scope["headers"]:
        found.setdefault(name.decode("latin-1").casefold(), []).append(value.decode("latin-1"))
    return found


def _log(scope: Scope, why: str) -> None:
    client = (scope.get("client") or ("?",))[0]
    log.warning("refused %s %s from %s: %s", scope["method"], _shown(scope["path"]), client, why)


def _told_to_the_log(send: Send, scope: Scope) -> Send:
    """What the page itself refuses is logged too: a path that is no page, a form that none of ours sends."""

    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            status = message["status"]
            if status in (404, 405) or (status >= 400 and scope["method"] == "POST"):
                _log(scope, str(status))
        await send(message)

    return sending


def _shown(path: str) -> str:
    return "".join(c if c.isascii() and c.isprintable() else "?" for c in path[:80])


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            own = {name for name, _ in message["headers"]}
            more = [(n.encode(), v.encode()) for n, v in HEADERS.items() if n.encode() not in own]
            message = {**message, "headers": [*message["headers"], *more]}
        await send(message)

    return sending


async def _answer(send: Send, status: int, headers: dict[str, str], *, page: bytes = b"") -> None:
    body = page or (b"" if status == 303 else f"{status}\n".encode())
    kind = b"text/html; charset=utf-8" if page else b"text/plain; charset=utf-8"
    plain = [(b"content-type", kind), (b"content-length", str(len(body)).encode())]
    told = [(name.encode(), value.encode()) for name, value in headers.items()]
    await send({"type": "http.response.start", "status": status, "headers": [*plain, *told]})
    await send({"type": "http.response.body", "body": body})
