"""A person at a real terminal, for the commands that ask."""

from __future__ import annotations

import os
import pty
import re
import select
import signal
import sys
import time
from contextlib import suppress
from pathlib import Path
from types import TracebackType

ENV = os.environ | {"COLUMNS": "60", "NO_COLOR": "1", "TERM": "dumb"}


class Terminal:
    """A person at a terminal of 60 columns: sees what is written, presses keys, pulls the plug."""

    def __init__(self, *words: str, store: Path) -> None:
        self.seen = ""
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # a runner in the background may have it ignored
            os.execve(sys.executable, [sys.executable, "-m", "kitlist", "--store", str(store), *words], ENV)

    def __enter__(self) -> Terminal:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        with suppress(ProcessLookupError, ChildProcessError):
            os.kill(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)
        os.close(self.fd)

    def until(self, pattern: str, *, patience_s: float = 20) -> str:
        """Read until the pattern stands in what was not read before; returns what was read."""
        end = time.monotonic() + patience_s
        while (match := re.search(pattern, self.seen)) is None:
            if time.monotonic() > end or not select.select([self.fd], [], [], 1)[0]:
                assert time.monotonic() < end, f"{pattern!r} never came: {self.seen!r}"
                continue
            self.seen += os.read(self.fd, 4096).decode().replace("\r\n", "\n")
        read, self.seen = self.seen[: match.end()], self.seen[match.end() :]
        return read

    def press(self, keys: str) -> None:
        os.write(self.fd, keys.encode())

    def kill(self) -> None:
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)

    def ended(self) -> int:
        return os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])
