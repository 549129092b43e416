"""Which functions of a room each test calls, and how long it takes: by running every test once under a profile.

A change in a function is seen by none but those that call it. What functions remember is forgotten before each test,
so that what one test worked out is worked out again by the next.
"""

from __future__ import annotations

import ast
import functools
import gc
import hashlib
import json
import os
import sys
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol


@dataclass(frozen=True)
class Reach:
    """What one test calls, as `file:function`; none where it fails by itself."""

    seconds: float
    functions: frozenset[str]


def of_tests(items: Sequence[pytest.Item], *, code: Path, room: str, kept: Path) -> dict[str, Reach]:
    """By a test's name. What is kept of a file of tests holds until that file or any code changes."""
    kept.mkdir(exist_ok=True)
    whole = _digest(*sorted(code.rglob("*.py")))
    files: dict[Path, list[pytest.Item]] = {}
    for item in items:
        files.setdefault(item.path, []).append(item)
    found: dict[str, Reach] = {}
    for file, own in files.items():
        place = kept / f"{_digest(file)[:16]}-{whole[:16]}.json"
        if not place.exists():
            _in_a_fork(own, place, code=code, room=room)
        lines: dict[str, Any] = json.loads(place.read_text(encoding="utf-8"))
        found |= {name: Reach(seconds, frozenset(functions)) for name, (seconds, functions) in lines.items()}
    return {item.nodeid: found.get(item.nodeid, Reach(0.0, frozenset())) for item in items}


def function_at(tree: ast.Module, line: int) -> str:
    """The function or method of a module in which a line stands, with its class; "" where in none."""
    name, body = "", list(tree.body)
    while body:
        node = body.pop()
        if isinstance(node, ast.ClassDef) and node.lineno <= line <= (node.end_lineno or 0):
            name, body = f"{name}{node.name}.", list(node.body)
        elif isinstance(node, ast.FunctionDef) and node.lineno <= line <= (node.end_lineno or 0):
            return f"{name}{node.name}"
    return ""


def _digest(*files: Path) -> str:
    return hashlib.sha256(b"".join(file.read_bytes() for file in files)).hexdigest()


def _in_a_fork(items: Sequence[pytest.Item], place: Path, *, code: Path, room: str) -> None:
    """So that this process stays as it was when the tests were collected."""
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        lines = {item.nodeid: _one(item, following, code, room) for item, following in _with_next(items)}
        place.write_text(json.dumps(lines), encoding="utf-8")
        os._exit(0)
    assert os.waitpid(child, 0)[1] == 0, f"{place.name}: the tests of one file could not be run"


def _with_next(items: Sequence[pytest.Item]) -> list[tuple[pytest.Item, pytest.Item | None]]:
    return list(zip(items, [*items[1:], None], strict=True))


def _one(item: pytest.Item, following: pytest.Item | None, code: Path, room: str) -> tuple[float, list[str]]:
    called: set[tuple[str, str]] = set()
    inside = str(code / room)

    def seen(frame: FrameType, event: str, _: Any) -> None:
        if event == "call" and frame.f_code.co_filename.startswith(inside):
            called.add((frame.f_code.co_filename, frame.f_code.co_qualname))

    for one in gc.get_objects():
        if isinstance(one, functools._lru_cache_wrapper):
            one.cache_clear()
    began = time.perf_counter()
    threading.setprofile(seen)
    sys.setprofile(seen)
    reports = runtestprotocol(item, log=False, nextitem=following)
    sys.setprofile(None)
    if any(report.failed for report in reports):
        return 0.0, []
    names = {f"{Path(file).relative_to(code.parent)}:{name.partition('.<locals>')[0]}" for file, name in called}
    return time.perf_counter() - began, sorted(names)
