"""A sampled mutation run over one room: does any test of that room see one change in its code?

    python tests/mutate.py outlook                          60 changes of outlook, by seed 1
    python tests/mutate.py physics/bank --count 20 --seed 7

Rooms: outlook, physics, welding, store, faces/paper, a folder of one or a file of one. The tests are collected once,
and run once to see which functions each of them calls and how long it takes (`tests/reach.py`, remembered until the
code changes). Then each change is tried in a fork of this process on those that call the changed function, the quick
ones first. Prints what survives and the share killed. It runs at the lowest priority.
"""

from __future__ import annotations

import argparse
import ast
import functools
import gc
import importlib
import os
import random
import signal
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, FunctionType

import pytest
from _pytest.runner import runtestprotocol

import reach
from mutants import mutant, places

TOP = Path(__file__).resolve().parents[1]
TESTS_OF = {"outlook": "outlook", "physics": "physics", "welding": "welding", "store": "store", "faces": "paper"}
LEFT_OUT = {"__init__.py", "examples.py", "invented.py"}
MOST_S = 120
"""A change that makes a loop endless is seen too."""


def files_of(room: str) -> list[Path]:
    """The files of a room whose code is changed; a room may be one file."""
    place = TOP / "kitlist" / room
    found = [place] if place.is_file() else sorted(place.rglob("*.py"))
    return [file for file in found if file.name not in LEFT_OUT]


def module_of(file: Path) -> str:
    """The dotted name of a file's module."""
    return ".".join(file.relative_to(TOP).with_suffix("").parts)


def codes(code: CodeType) -> Iterator[CodeType]:
    """The code of every function in some code, one within another too."""
    for const in code.co_consts:
        if isinstance(const, CodeType):
            yield const
            yield from codes(const)


def put_in(file: Path, tree: ast.Module, functions: Sequence[FunctionType]) -> None:
    """Let every function of the module run the changed code; methods, properties and remembered functions too."""
    changed = {code.co_qualname: code for code in codes(compile(tree, str(file), "exec"))}
    for one in functions:
        code = changed.get(one.__code__.co_qualname)
        if one.__module__ == module_of(file) and code is not None and code.co_freevars == one.__code__.co_freevars:
            one.__code__ = code


class Trial:
    """Tries the changes on tests that pytest has collected: a plugin that runs in place of its own loop."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self.asked = asked

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of running every test once."""
        asked = self.asked
        kept = Path(tempfile.gettempdir()) / "kitlist_mutate"
        reached = reach.of_tests(session.items, code=TOP / "kitlist", room=asked.room.split("/")[0], kept=kept)
        every = [one for one in gc.get_objects() if isinstance(one, FunctionType)]
        self.functions = [one for one in every if one.__module__ and one.__module__.startswith("kitlist.")]
        self.remembered = [one for one in gc.get_objects() if isinstance(one, functools._lru_cache_wrapper)]
        trees = {file: ast.parse(file.read_text(encoding="utf-8")) for file in files_of(asked.room)}
        places_of = [(file, *place) for file, tree in trees.items() for place in places(tree)]
        drawn = random.Random(asked.seed).sample(places_of, min(asked.count, len(places_of)))
        made = [(file, mutant(trees[file], index, number)) for file, index, number in drawn]
        chosen = [(file, *one) for file, one in made if one is not None]
        killed = 0
        for number, (file, line, what, tree) in enumerate(chosen, start=1):
            function = f"{file.relative_to(TOP)}:{reach.function_at(trees[file], line)}"
            calling = [item for item in session.items if function in reached[item.nodeid].functions]
            calling.sort(key=lambda item: reached[item.nodeid].seconds)
            dead = self._seen(file, tree, calling)
            killed += dead
            if not dead:
                print(f"survives {file.relative_to(TOP)}:{line}: {what}  [{len(calling)} tests]", flush=True)
            if number % 20 == 0:
                print(f"{killed} of {number} killed", flush=True)
        share = killed / max(len(chosen), 1)
        print(f"killed {killed} of {len(chosen)} changes of {len(places_of)}: {share * 100:.1f} %")
        return True

    def _seen(self, file: Path, tree: ast.Module, items: list[pytest.Item]) -> bool:
        """Whether these tests see the change."""
        child = os.fork()
        if child == 0:
            quiet = os.open(os.devnull, os.O_WRONLY)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            signal.alarm(MOST_S)
            put_in(file, tree, self.functions)
            for one in self.remembered:  # what was worked out while the tests were collected
                one.cache_clear()
            for item, following in zip(items, [*items[1:], None], strict=True):
                if any(report.failed for report in runtestprotocol(item, log=False, nextitem=following)):
                    os._exit(1)
            os._exit(0)
        return os.waitpid(child, 0)[1] != 0


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    os.nice(10)
    sys.path.insert(0, str(TOP / "tests"))
    room = asked.room.split("/")[0]
    for file in files_of(room):  # a function that no test imports is changed too, and survives
        importlib.import_module(module_of(file))
    words = ["-q", "-s", "-p", "no:cacheprovider", "-p", "no:xdist", "--rootdir", str(TOP)]
    sys.exit(pytest.main([*words, str(TOP / "tests" / TESTS_OF[room]), str(TOP / "kitlist" / room)], [Trial(asked)]))


if __name__ == "__main__":
    main()
