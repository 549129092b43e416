"""The command line in this process: what a person types, and what comes back. Start-up, signals, encodings and real
terminals are tested by processes instead (`tests/cli/test_processes.py`, `tests/cli/terminal.py`)."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Mapping
from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from kitlist.faces.cli import run


@dataclass(frozen=True, slots=True)
class Done:
    """A command that ended: its exit code, what it showed and what it said."""

    returncode: int
    stdout: str
    stderr: str


def kitlist(
    *words: str,
    store: Path | None = None,
    typed: str = "",
    terminal: bool = False,
    cwd: Path | None = None,
    env: Mapping[str, str] | None = None,
) -> Done:
    """Run one command as `kitlist --store STORE WORDS`; `typed` is what stands on its input, and `terminal` whether it
    looks like a terminal to the command.
    """
    before = ["--store", str(store)] if store else []
    kind = _Terminal if terminal else io.TextIOWrapper
    out, err = _stream(), _stream(kind=kind)
    streams = {"stdin": _stream(typed, kind=kind), "stdout": out, "stderr": err}
    with mock.patch.multiple(sys, **streams), mock.patch.dict(os.environ, env or {}), chdir(cwd or Path.cwd()):
        code = run([*before, *words])
    return Done(code, _written(out), _written(err))


class _Terminal(io.TextIOWrapper):
    def isatty(self) -> bool:
        return True


def _stream(text: str = "", *, kind: type[io.TextIOWrapper] = io.TextIOWrapper) -> io.TextIOWrapper:
    return kind(io.BytesIO(text.encode()), encoding="utf-8", write_through=True)


def _written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()
