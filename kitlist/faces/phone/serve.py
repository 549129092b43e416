"""Running the page: where it listens, what it answers to, its secret for this run, and the QR of its address."""

from __future__ import annotations

import logging
import secrets
import socket
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from itertools import zip_longest
from pathlib import Path

from kitlist.base.errors import UsageError
from kitlist.faces.phone.guard import Door

LOOPBACK = "127.0.0.1"
QUIET_MODULES = 4  # ISO/IEC 18004: the quiet zone of a QR code
DARK_ON_LIGHT, AS_BEFORE = "\x1b[38;5;16;48;5;231m", "\x1b[0m"  # black on white of the fixed part of the palette
HALVES = {(0, 0): " ", (1, 0): "▀", (0, 1): "▄", (1, 1): "█"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the page is: the socket it listens on, the address to open, and who is let in."""

    socket: socket.socket
    url: str
    door: Door

    @property
    def port(self) -> int:
        """The port that it listens on."""
        return int(self.socket.getsockname()[1])


def place(*, network: bool, port: int, before: int | None = None, token: str | None = None) -> Place:
    """Listen, on this machine alone or on the local network. Raises UsageError where that cannot be.

    Port 0 is the one of the run `before`, where nobody else listens on it, else a free one.
    """
    host = _own_address() if network else LOOPBACK
    try:
        listening = _listening(host, port or before or 0)
    except OSError as error:
        if port or not before:
            raise UsageError(
                f"cannot listen on port {port}: {error.strerror}", hint="Name another with --port."
            ) from None
        listening = _listening(host, 0)
    at = listening.getsockname()[1]
    token = token or secrets.token_urlsafe(24)
    hosts = {f"{host}:{at}"} | ({f"{LOOPBACK}:{at}", f"localhost:{at}"} if not network else set())
    if at == 80:
        hosts |= {name.removesuffix(":80") for name in hosts}
    door = Door(token=token, hosts=frozenset(hosts), cookie=f"kitlist-{at}")
    return Place(socket=listening, url=f"http://{host}:{at}/?token={token}", door=door)


def _listening(host: str, port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))  # this network only, not every one that the machine is on
        listening.listen(128)  # a phone that is quicker than the page waits for it
    except OSError:
        listening.close()
        raise
    return listening


def _own_address() -> str:
    """The address of this machine on its network, by the route that it would take; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(("192.0.2.1", 9))  # a documentation address (RFC 5737)
            found = str(asking.getsockname()[0])
        except OSError:
            found = LOOPBACK
    if found.startswith("127."):
        raise UsageError("this machine is on no network", hint="Join the phone's hotspot, or leave out --network.")
    return found


def qr(url: str) -> str:
    """The address as a QR code in half blocks, black on white whatever the terminal's own colours."""
    import segno

    rows = [bytes(row) for row in segno.make(url, error="l", micro=False).matrix_iter(border=QUIET_MODULES)]
    pairs = zip_longest(rows[::2], rows[1::2], fillvalue=bytes(len(rows[0])))
    return "\n".join(
        DARK_ON_LIGHT + "".join(HALVES[both] for both in zip(upper, lower, strict=True)) + AS_BEFORE
        for upper, lower in pairs
    )


def serve(path: Path, at: Place, *, now: Callable[[], datetime], rulebook: Path | None, trip: str | None) -> None:
    """Answer until Ctrl-C. Raises StoreError where there is no store."""
    import uvicorn

    from kitlist.faces.phone.app import build
    from kitlist.faces.phone.connections import Crowd, careful

    logging.basicConfig(format="%(message)s", level=logging.WARNING)
    app = build(path, door=at.door, now=now, rulebook=rulebook, trip=trip)
    config = uvicorn.Config(
        app, http=careful(Crowd()), log_config=None, access_log=False, server_header=False, lifespan="off", ws="none",
        timeout_keep_alive=5, h11_max_incomplete_event_size=16 * 1024,
    )  # fmt: skip
    try:
        uvicorn.Server(config).run(sockets=[at.socket])
    except KeyboardInterrupt:
        pass  # uvicorn hands Ctrl-C on when it has ended in good order
    finally:
        at.socket.close()
