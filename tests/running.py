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
    cwd: Path | None = None,
    env: Mapping[str, str] | None = None,
) -> Done:
    """Run one command as `kitlist --store STORE WORDS`, without a terminal; `typed` is what stands on its input."""
    before = ["--store", str(store)] if store else []
    out, err = _stream(), _stream()
    streams = {"stdin": _stream(typed), "stdout": out, "stderr": err}
    with mock.patch.multiple(sys, **streams), mock.patch.dict(os.environ, env or {}), chdir(cwd or Path.cwd()):
        code = run([*before, *words])
    return Done(code, _written(out), _written(err))


def _stream(text: str = "") -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(text.encode()), encoding="utf-8", write_through=True)


def _written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()
