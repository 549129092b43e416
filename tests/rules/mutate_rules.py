"""A mutation run over kitlist/rules: one change at a time in the code of a rule; does any test of the rules see it?

    python tests/rules/mutate_rules.py            every file; prints what survives and the share killed
    python tests/rules/mutate_rules.py fire_ban   one file

Changed are comparisons, and/or/not, numbers, yes and no, +, -, *, min/max, and whole conditions; the words of a gap and
what stands in RULE are not, as the words are held by gaps.txt and the rest by the examples. A mutant is killed when a
threshold's severity, a line of gaps.txt, or what an example fires is otherwise than the tests ask; each is run in this
process on the very cases that the tests build.
"""

from __future__ import annotations

import ast
import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1]))

import gaps

import kitlist.rules
from kitlist.rules import RULES, Rule, core, run
from mutants import in_words, mutants

FOLDER = Path(kitlist.rules.__file__).parent
MADE_FOR_EXAMPLES = {"Example", "Gear", "Tool", "Rod"}
LEFT_OUT = {"__init__", "example", "rulebook", "reference"}
OF_CORE = (
    "test_running.py",
    "test_accepting.py",
    "test_boundaries.py::test_gaps_come_gravest_first",
    "test_examples.py",
)


def _inside(tree: ast.Module, target: ast.AST) -> bool:
    """Whether a place is in a function that takes part in judging, and not in one that makes an example."""
    for function in tree.body:
        if isinstance(function, ast.FunctionDef):
            makes = isinstance(function.returns, ast.Name) and function.returns.id in MADE_FOR_EXAMPLES
            if not makes and any(target is node for part in function.body for node in ast.walk(part)):
                return not in_words(function, target)
    return False


class Bench:
    """Every case that the tests build, and what the rules say of it as they stand."""

    def __init__(self) -> None:
        self.cases = gaps.cases()
        self.said = {rule.name: [gaps.lines_of(rule, case) for _, case in self.cases] for rule in RULES}

    def killed(self, rules: list[Rule]) -> bool:
        """Whether any test would see a difference; cut short at the first.

        Of a rule's own rows and of the examples every line counts; of other rules' rows what is new to `gaps.txt`, or
        what is no longer in it.
        """
        return any(self._killed(rule) for rule in rules)

    def _killed(self, rule: Rule) -> bool:
        left = {line for lines in self.said[rule.name] for line in lines}
        known = set(left)
        order = sorted(range(len(self.cases)), key=lambda n: self.cases[n][0] not in ("", rule.name))
        for n in order:
            (name, case), expected = self.cases[n], self.said[rule.name][n]
            try:
                lines = gaps.lines_of(rule, case)
            except Exception:  # a check that yields no gap breaks `run` itself
                return True
            if (lines != expected) if name in ("", rule.name) else not known.issuperset(lines):
                return True
            left.difference_update(lines)
        return bool(left)


def core_killed() -> bool:
    """Whether the tests of what runs the rules see a difference; they run in this process, quietly."""
    import contextlib
    import io

    import pytest

    tests = [str(Path(__file__).parent / name) for name in OF_CORE]
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        return pytest.main(["-q", "-x", "-p", "no:cacheprovider", *tests]) != 0


def users_of(module: ModuleType) -> list[ModuleType]:
    """The rule modules that hold a function or value of this one."""
    own = {
        id(value)
        for value in vars(module).values()
        if isinstance(value, FunctionType) and value.__module__ == module.__name__
    }
    return [
        other
        for name, other in sys.modules.items()
        if name.startswith("kitlist.rules.") and any(id(value) in own for value in vars(other).values())
    ]


def tried(bench: Bench, file: Path) -> Iterator[tuple[int, str, bool]]:
    """Each mutant of one file, and whether it was killed."""
    module = importlib.import_module(f"kitlist.rules.{file.stem}")
    users = users_of(module)
    rules = [rule for rule in RULES if sys.modules[rule.check.__module__] in users]
    names = [
        name
        for name, value in vars(module).items()
        if isinstance(value, FunctionType) and value.__module__ == module.__name__
    ]
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for line, what, mutant in mutants(tree, _inside):
        space: dict[str, Any] = {"__name__": module.__name__}
        exec(compile(mutant, str(file), "exec"), space)
        before = {name: getattr(module, name).__code__ for name in names}
        for name in names:
            if getattr(module, name).__code__.co_freevars == space[name].__code__.co_freevars:
                getattr(module, name).__code__ = space[name].__code__
        try:
            yield line, what, core_killed() if file.stem == "core" else bench.killed(rules)
        finally:
            for name, code in before.items():
                getattr(module, name).__code__ = code


def main(wanted: list[str]) -> None:
    """Run and print."""
    bench = Bench()
    killed = total = 0
    for file in sorted(FOLDER.glob("*.py")):
        if file.stem in LEFT_OUT or (wanted and file.stem not in wanted):
            continue
        for line, what, dead in tried(bench, file):
            total += 1
            killed += dead
            if not dead:
                print(f"survives {file.stem}:{line}: {what}")
    print(f"killed {killed} of {total} mutants: {killed / max(total, 1) * 100:.1f} %")


if __name__ == "__main__":
    assert run is core.run
    main(sys.argv[1:])
