"""A sampled mutation run over one room: does any test of that room see one change in its code?

    python tests/mutate.py outlook                          60 changes of outlook, by seed 1
    python tests/mutate.py physics/bank --count 20 --seed 7

Rooms: outlook, physics, welding, store, faces/paper, or a folder of one. Each change is tried in a fork of this
process, first on the tests nearest to the file (those that import it), and where they pass on the rest of the room's.
Prints what survives and the share killed. It runs at the lowest priority: a whole room takes minutes.
"""

from __future__ import annotations

import argparse
import ast
import gc
import importlib
import os
import random
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FunctionType

import pytest

from mutants import mutant, places

TOP = Path(__file__).resolve().parents[1]
TESTS_OF = {
    "outlook": ["outlook"],
    "physics": ["physics"],
    "welding": ["welding"],
    "store": ["store"],
    "faces": ["paper"],
}
LEFT_OUT = {"__init__.py", "examples.py", "invented.py"}
MOST_S = 120
"""A change that makes a loop endless is seen too."""


def files_of(room: str) -> list[Path]:
    """The files of a room whose code is changed."""
    return sorted(file for file in (TOP / "kitlist" / room).rglob("*.py") if file.name not in LEFT_OUT)


def tests_of(room: str, file: Path) -> tuple[list[str], list[str]]:
    """The room's tests nearest to a file, and the others."""
    folders = TESTS_OF[room.split("/")[0]]
    every = [test for folder in folders for test in sorted((TOP / "tests" / folder).glob("test_*.py"))]
    module = ".".join(file.relative_to(TOP).with_suffix("").parts)
    wide = [test for test in every if test.with_name(test.name.removeprefix("test_")).exists()]  # hold a file of lines
    near = wide + [test for test in every if test not in wide and module in test.read_text(encoding="utf-8")]
    own = [str(file)] if ">>>" in file.read_text(encoding="utf-8") else []  # its doctests stand in it
    return own + [str(test) for test in near], [str(test) for test in every if test not in near]


def _codes(code: CodeType) -> Iterator[CodeType]:
    for const in code.co_consts:
        if isinstance(const, CodeType):
            yield const
            yield from _codes(const)


def put_in(file: Path, tree: ast.Module) -> None:
    """Let every function of the module run the changed code; methods, properties and remembered functions too."""
    module = ".".join(file.relative_to(TOP).with_suffix("").parts)
    importlib.import_module(module)
    changed = {code.co_qualname: code for code in _codes(compile(tree, str(file), "exec"))}
    for one in gc.get_objects():
        if isinstance(one, FunctionType) and one.__module__ == module:
            code = changed.get(one.__code__.co_qualname)
            if code is not None and code.co_freevars == one.__code__.co_freevars:
                one.__code__ = code


def seen(file: Path, tree: ast.Module, tests: list[str]) -> bool:
    """Whether these tests see the change."""
    if not tests:
        return False
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        signal.alarm(MOST_S)
        put_in(file, tree)
        os._exit(int(pytest.main(["-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist", *tests])) != 0)
    return os.waitpid(child, 0)[1] != 0


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--near", action="store_true", help="only the nearest tests")
    asked = parser.parse_args()
    os.nice(10)
    sys.path.insert(0, str(TOP / "tests"))
    trees = {file: ast.parse(file.read_text(encoding="utf-8")) for file in files_of(asked.room)}
    every = [(file, *place) for file, tree in trees.items() for place in places(tree)]
    drawn = random.Random(asked.seed).sample(every, min(asked.count, len(every)))
    made = [(file, mutant(trees[file], index, number)) for file, index, number in drawn]
    chosen = [(file, *one) for file, one in made if one is not None]
    for file in files_of(asked.room):  # once, before the forks: they share it
        importlib.import_module(".".join(file.relative_to(TOP).with_suffix("").parts))
    killed = 0
    for number, (file, line, what, changed) in enumerate(chosen, start=1):
        near, rest = tests_of(asked.room, file)
        dead = seen(file, changed, near) or (not asked.near and seen(file, changed, rest))
        killed += dead
        if not dead:
            print(f"survives {file.relative_to(TOP)}:{line}: {what}", flush=True)
        if number % 10 == 0:
            print(f"{killed} of {number} killed", flush=True)
    print(f"killed {killed} of {len(chosen)} changes of {len(every)}: {killed / max(len(chosen), 1) * 100:.1f} %")


if __name__ == "__main__":
    main()
