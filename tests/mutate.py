"""A sampled mutation run over one room: does any test of that room see one change in its code?

    python tests/mutate.py outlook                          60 changes of outlook, by seed 1
    python tests/mutate.py physics/bank --count 20 --seed 7

Rooms: outlook, physics, welding, store, faces/paper, or a folder of one. The room's tests run once with every call
written down. Then each change is tried in a fork of this process: on the tests that call the changed function, quickest
first, and where those pass on the other quick tests of the files that call it or import its file. Prints what survives
and the share killed. It runs at the lowest priority: a whole room takes minutes.
"""

from __future__ import annotations

import argparse
import ast
import gc
import importlib
import os
import pickle
import random
import signal
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FrameType, FunctionType

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
WORDS = ("-q", "-p", "no:cacheprovider", "-p", "no:xdist")
MOST_S = 120
"""A change that makes a loop endless is seen too."""
MOST_TESTS = 150
"""Of the tests that call a function, so many; what they do not see, their files may."""

QUICK_S = 0.5

Place = tuple[str, int]
"""A function: its file, and the line where it begins."""


def files_of(room: str) -> list[Path]:
    """The files of a room whose code is changed."""
    return sorted(file for file in (TOP / "kitlist" / room).rglob("*.py") if file.name not in LEFT_OUT)


def tests_of(room: str, file: Path) -> tuple[list[str], list[str]]:
    """The room's tests nearest to a file, and the others."""
    folders = TESTS_OF[room.split("/")[0]]
    every = [test for folder in folders for test in sorted((TOP / "tests" / folder).glob("test_*.py"))]
    wide = [test for test in every if test.with_name(test.name.removeprefix("test_")).exists()]  # hold a file of lines
    near = wide + [test for test in every if test not in wide and _imports(test, file)]
    own = [str(file)] if ">>>" in file.read_text(encoding="utf-8") else []  # its doctests stand in it
    return own + [str(test) for test in near], [str(test) for test in every if test not in near]


def _imports(test: Path, file: Path) -> bool:
    module = ".".join(file.relative_to(TOP).with_suffix("").parts)
    package, _, name = module.rpartition(".")
    for node in ast.walk(ast.parse(test.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == module:
            return True
        if isinstance(node, ast.ImportFrom) and node.module == package and name in {one.name for one in node.names}:
            return True
        if isinstance(node, ast.Import) and module in {one.name for one in node.names}:
            return True
    return False


class Calls:
    """A plugin that writes down which functions of the package each test calls, and how long it takes."""

    def __init__(self) -> None:
        self.callers: defaultdict[Place, list[str]] = defaultdict(list)
        self.took_s: dict[str, float] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        seen: set[CodeType] = set()
        within = str(TOP / "kitlist")

        def note(frame: FrameType, event: str, _: object) -> None:
            seen.add(frame.f_code)

        begun = time.monotonic()
        sys.settrace(note)
        try:
            return (yield)  # type: ignore[return-value]
        finally:
            sys.settrace(None)
            self.took_s[item.nodeid] = time.monotonic() - begun
            for code in seen:
                if code.co_filename.startswith(within):
                    self.callers[code.co_filename, code.co_firstlineno].append(item.nodeid)

    def found(self) -> tuple[dict[Place, list[str]], list[str]]:
        """The tests that call each function, quickest first, and all tests that are quick."""
        quickest = {place: sorted(names, key=lambda one: self.took_s[one]) for place, names in self.callers.items()}
        return quickest, [name for name, took_s in self.took_s.items() if took_s < QUICK_S]


def callers_in(tests: list[str]) -> tuple[dict[Place, list[str]], list[str]]:
    """What `Calls` finds, in a fork, which leaves nothing behind."""
    with tempfile.NamedTemporaryFile() as found:
        child = os.fork()
        if child == 0:
            calls, code = Calls(), 1
            _quiet()
            try:
                code = int(pytest.main([*WORDS, *tests], plugins=[calls]))
                Path(found.name).write_bytes(pickle.dumps(calls.found()))
            finally:
                os._exit(code)
        if os.waitpid(child, 0)[1] != 0:
            raise SystemExit("the room's tests do not pass as they are")
        made: tuple[dict[Place, list[str]], list[str]] = pickle.loads(Path(found.name).read_bytes())
        return made


def function_at(file: Path, tree: ast.Module, line: int) -> Place:
    """The innermost function around a line."""
    around = [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and node.lineno <= line <= (node.end_lineno or node.lineno)
    ]
    inner = max(around, key=lambda node: node.lineno)
    return str(file), min([inner.lineno, *(one.lineno for one in inner.decorator_list)])


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
        _quiet()
        signal.alarm(MOST_S)
        put_in(file, tree)
        os._exit(int(pytest.main(["-x", *WORDS, *tests])) != 0)
    return os.waitpid(child, 0)[1] != 0


def _quiet() -> None:
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room")
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--near", action="store_true", help="only the tests that import the changed file")
    asked = parser.parse_args()
    os.nice(10)
    os.chdir(TOP)
    sys.path.insert(0, str(TOP / "tests"))
    with tempfile.TemporaryDirectory() as compiled:
        sys.dont_write_bytecode, sys.pycache_prefix = False, compiled  # what pytest makes of a test is made once
        _run(asked.room, asked.count, asked.seed, near_only=asked.near)


def _run(room: str, count: int, seed: int, *, near_only: bool) -> None:
    files = files_of(room)
    trees = {file: ast.parse(file.read_text(encoding="utf-8")) for file in files}
    every = [(file, *place) for file, tree in trees.items() for place in places(tree)]
    drawn = random.Random(seed).sample(every, min(count, len(every)))
    made = [(file, mutant(trees[file], index, number)) for file, index, number in drawn]
    chosen = [(file, *one) for file, one in made if one is not None]
    for file in files:  # once, before the forks: they share it
        importlib.import_module(".".join(file.relative_to(TOP).with_suffix("").parts))
    near_to = {file: tests_of(room, file) for file in {file for file, *_ in chosen}}
    tests = sorted({test for near, rest in near_to.values() for test in (*near, *([] if near_only else rest))})
    callers, quick = callers_in(tests)
    killed = 0
    for number, (file, line, what, changed) in enumerate(chosen, start=1):
        near = [os.path.relpath(test, TOP) for test in near_to[file][0]]
        calling = callers.get(function_at(file, trees[file], line), [])
        if near_only:
            calling = [test for test in calling if test.split("::")[0] in near]
        whole = {*near, *(test.split("::")[0] for test in calling)}
        first = calling[:MOST_TESTS]
        others = [test for test in quick if test.split("::")[0] in whole and test not in first]
        dead = seen(file, changed, first) or seen(file, changed, others)
        killed += dead
        if not dead:
            print(f"survives {file.relative_to(TOP)}:{line}: {what}", flush=True)
        if number % 10 == 0:
            print(f"{killed} of {number} killed", flush=True)
    print(f"killed {killed} of {len(chosen)} changes of {len(every)}: {killed / max(len(chosen), 1) * 100:.1f} %")


if __name__ == "__main__":
    main()
