"""Restraint on connections: how many at once, how many of one address, and how long a request's head may take.

A connection that sends no request holds a place for nothing. When places are short, the one that has been quiet
longest gives way, so that a phone that asks is served however many others only hold the line.
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections import Counter

from uvicorn.protocols.http.h11_impl import H11Protocol

MOST = 64  # a crew's phones at some six connections each, and room for those that a hotspot has forgotten
MOST_OF_ONE_ADDRESS = 32  # one machine may carry several people: a hotspot that translates addresses shows but one
HEAD_WAIT_S = 10.0
SAID_AGAIN_S = 60.0
ADDRESSES_REMEMBERED = 256
log = logging.getLogger("kitlist.faces.phone")


class Crowd:
    """All connections of one run, in the order in which they came."""

    def __init__(
        self, *, most: int = MOST, most_of_one: int = MOST_OF_ONE_ADDRESS, head_wait_s: float = HEAD_WAIT_S
    ) -> None:
        self.most = most
        self.most_of_one = most_of_one
        self.head_wait_s = head_wait_s
        self._there: dict[Careful, None] = {}
        self._said_at: dict[tuple[str, str], float] = {}

    def __len__(self) -> int:
        return len(self._there)

    def let_in(self, new: Careful) -> bool:
        """Make room for one more; False where nobody gives way, for all of them are being answered."""
        own = [one for one in self._there if one.address == new.address]
        if len(own) >= self.most_of_one:
            self._say(new.address, f"more than {self.most_of_one} connections at once")
            if not self._one_gives_way(own):
                return False
        if len(self._there) >= self.most:
            (crowded, _), *_ = Counter(one.address for one in self._there).most_common(1)
            self._say(crowded, f"more than {self.most} connections at once")
            of_crowded = [one for one in self._there if one.address == crowded]
            if not (self._one_gives_way(of_crowded) or self._one_gives_way(list(self._there))):
                return False
        self._there[new] = None
        return True

    def gone(self, one: Careful) -> None:
        """Forget a connection."""
        self._there.pop(one, None)

    def late(self, one: Careful) -> None:
        """End a connection whose request did not come."""
        self._say(one.address, f"no request within {self.head_wait_s:g} s")
        one.end()

    def _one_gives_way(self, among: list[Careful]) -> bool:
        quiet = next((one for one in among if not one.is_busy), None)
        if quiet is not None:
            self.gone(quiet)
            quiet.end()
        return quiet is not None

    def _say(self, address: str, why: str) -> None:
        """One line in the log for what an address does over and over, once a minute."""
        at = time.monotonic()
        if at - self._said_at.get((address, why), -SAID_AGAIN_S) >= SAID_AGAIN_S:
            self._said_at[address, why] = at
            log.warning("closed connections from %s: %s", address, why)
            while len(self._said_at) > ADDRESSES_REMEMBERED:
                self._said_at.pop(next(iter(self._said_at)))


class Careful(H11Protocol):
    """A connection that knows its crowd, and ends where no request comes in time."""

    crowd: Crowd
    address = "?"
    _deadline: asyncio.TimerHandle | None = None

    @property
    def is_busy(self) -> bool:
        """Whether a request is being answered."""
        return self.cycle is not None and not self.cycle.response_complete

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Find a place in the crowd, or end at once."""
        super().connection_made(transport)
        self.address = self.client[0] if self.client else "?"
        if self.crowd.let_in(self):
            self._expect()
        else:
            self.end()

    def data_received(self, data: bytes) -> None:
        """Take what came; a head that comes byte by byte does not move its deadline."""
        super().data_received(data)
        if self.is_busy:
            self._expect_nothing()
        elif self._deadline is None:
            self._expect()

    def connection_lost(self, exc: Exception | None) -> None:
        """Leave the crowd."""
        self._expect_nothing()
        self.crowd.gone(self)
        super().connection_lost(exc)

    def end(self) -> None:
        """Close without a word."""
        self._expect_nothing()
        self.transport.abort()

    def _expect(self) -> None:
        self._deadline = self.loop.call_later(self.crowd.head_wait_s, self.crowd.late, self)

    def _expect_nothing(self) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None


def careful(crowd: Crowd) -> type[Careful]:
    """The protocol of one run."""
    return type("CarefulOfOneRun", (Careful,), {"crowd": crowd})
