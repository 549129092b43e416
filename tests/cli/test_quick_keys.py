"""How long a key takes: CPU time from a key or an answer until the next is waited for, after the first of each walk.

Fifty milliseconds is what a person does not notice. The median is held to it, so that one slow write on a busy machine
says nothing.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from kitlist.faces.cli import asking, counting_walk, walk
from running import Done, kitlist

MOST_S = 0.050
LEAST_KEYS = 12


class Stopwatch:
    """Gives keys one by one, and notes the CPU time that passes until the next one is asked for."""

    def __init__(self, keys: list[str], *, end: str) -> None:
        self.keys = iter(keys)
        self.end = end
        self.taken_s: list[float] = []
        self._given: float | None = None

    def next(self) -> str:
        if self._given is not None:
            self.taken_s.append(time.process_time() - self._given)
        key = next(self.keys, self.end)
        self._given = time.process_time()
        return key

    @contextmanager
    def single_keys(self) -> Iterator[Callable[[], str]]:
        yield self.next

    @property
    def median_s(self) -> float:
        after_the_first = self.taken_s[1:]
        assert len(after_the_first) >= LEAST_KEYS
        return statistics.median(after_the_first)


def at_a_terminal(*words: str, store: Path) -> Done:
    return kitlist(*words, store=store, terminal=True)


def test_a_key_of_the_count_takes_less_than_a_person_notices(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    watch = Stopwatch(["t", "n"] * 10, end="q")
    monkeypatch.setattr(counting_walk, "single_keys", watch.single_keys)
    monkeypatch.setattr(asking, "_line", lambda: "\n")  # what stands on a label: not known
    at_a_terminal("count", "--all", "tools", store=demo)
    assert watch.median_s < MOST_S


def test_a_key_of_the_check_off_takes_less_than_a_person_notices(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    watch = Stopwatch(["t"] * 16, end="q")
    monkeypatch.setattr(walk, "single_keys", watch.single_keys)
    at_a_terminal("check-off", "Dry lake survey", "--by", "Ada", store=demo)
    assert watch.median_s < MOST_S


def test_an_answer_of_the_walk_round_with_the_meter_takes_less_than_a_person_notices(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(12):
        kitlist("battery", "add", f"more-{number}", "place=loose", "chemistry=agm", "c20=80Ah", store=demo)
    watch = Stopwatch(["12h\n", "9\n", *["12.74\n"] * 16], end="")
    monkeypatch.setattr(asking, "_line", watch.next)
    at_a_terminal("volts", store=demo)
    assert watch.median_s < MOST_S
