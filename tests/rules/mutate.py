"""A mutation run over kitlist/rules: one change at a time in the code of a rule; does any test of the rules see it?

    python tests/rules/mutate.py            every file; prints what survives and the share killed
    python tests/rules/mutate.py fire_ban   one file

Changed are comparisons, and/or/not, numbers, yes and no, +, -, *, min/max, and whole conditions; the words of a gap and
what stands in RULE are not, as the words are held by gaps.txt and the rest by the examples. A mutant is killed when a
threshold's severity, a line of gaps.txt, or what an example fires is otherwise than the tests ask; each is run in this
process on the very cases that the tests build.
"""

from __future__ import annotations

import ast
import copy
import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

import gaps
from test_boundaries import BOUNDARIES
from test_traps import ALL

import kitlist.rules
from kitlist.rules import RULES, Case, Rule, core, run
from kitlist.rules.example import whole

FOLDER = Path(kitlist.rules.__file__).parent
MADE_FOR_EXAMPLES = {"Example", "Gear", "Tool", "Rod"}
LEFT_OUT = {"__init__", "example", "rulebook", "reference"}
OF_CORE = (
    "test_running.py",
    "test_accepting.py",
    "test_boundaries.py::test_gaps_come_gravest_first",
    "test_examples.py",
)
COMPARE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}


def mutants(tree: ast.Module) -> Iterator[tuple[int, str, ast.Module]]:
    """Every change of one place inside a function that no example is made in: (line, what, changed module)."""
    for index, node in enumerate(ast.walk(tree)):
        for number in range(_changes(node)):
            changed = copy.deepcopy(tree)
            target = next(n for at, n in enumerate(ast.walk(changed)) if at == index)
            if not _inside(changed, target):
                break
            before, whole_before = ast.unparse(target), ast.unparse(changed)
            _change(changed, target, number)
            after = ast.unparse(target)
            if whole_before != ast.unparse(changed):
                yield target.lineno, f"{_short(before)} -> {_short(after)}", ast.fix_missing_locations(changed)


def _short(code: str) -> str:
    return " ".join(code.split())[:90]


def _inside(tree: ast.Module, target: ast.AST) -> bool:
    """Whether a place is in a function that takes part in judging, and not in one that makes an example."""
    for function in tree.body:
        if isinstance(function, ast.FunctionDef):
            makes = isinstance(function.returns, ast.Name) and function.returns.id in MADE_FOR_EXAMPLES
            if not makes and any(target is node for part in function.body for node in ast.walk(part)):
                return not _in_words(function, target)
    return False


def _in_words(function: ast.FunctionDef, target: ast.AST) -> bool:
    """Docstrings, and the plain words of a gap."""
    return any(
        target is node
        for joined in ast.walk(function)
        if isinstance(joined, ast.JoinedStr)
        for node in ast.walk(joined)
        if isinstance(node, ast.FormattedValue | ast.JoinedStr | ast.Constant)
    )


def _changes(node: ast.AST) -> int:
    if isinstance(node, ast.Compare):
        return 1
    if isinstance(node, ast.BoolOp):
        return 1 + len(node.values)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        return 1
    if isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC:
        return 1
    if isinstance(node, ast.Constant) and isinstance(node.value, bool | int | float):
        return 1
    if isinstance(node, ast.If | ast.IfExp):
        return 2
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("min", "max", "any", "all"):
        return 1
    return int(isinstance(node, ast.Continue | ast.Return))


def _change(tree: ast.Module, node: Any, number: int) -> None:
    if isinstance(node, ast.Compare):
        node.ops[0] = COMPARE[type(node.ops[0])]()
    elif isinstance(node, ast.BoolOp) and number == 0:
        node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
    elif isinstance(node, ast.BoolOp):
        if len(node.values) > 1:
            node.values.pop(number - 1)
            if len(node.values) == 1:
                node.values.append(node.values[0])
    elif isinstance(node, ast.UnaryOp):
        node.op, node.operand = ast.Not(), ast.UnaryOp(ast.Not(), node.operand)
    elif isinstance(node, ast.BinOp):
        node.op = ARITHMETIC[type(node.op)]()
    elif isinstance(node, ast.Constant):
        node.value = (not node.value) if isinstance(node.value, bool) else node.value + 1
    elif isinstance(node, ast.If | ast.IfExp):
        node.test = ast.Constant(number == 0)
    elif isinstance(node, ast.Call):
        node.func.id = {"min": "max", "max": "min", "any": "all", "all": "any"}[node.func.id]
    elif isinstance(node, ast.Return) and node.value is not None:
        node.value = ast.Constant(None)
    elif isinstance(node, ast.Return | ast.Continue):
        _drop(tree, node)


def _drop(tree: ast.Module, node: ast.AST) -> None:
    for parent in ast.walk(tree):
        for field in ("body", "orelse"):
            lines = getattr(parent, field, None)
            if isinstance(lines, list) and node in lines:
                lines[lines.index(node)] = ast.Pass(lineno=1, col_offset=0)


class Bench:
    """Every case that the tests build, and what the rules say of it as they stand."""

    def __init__(self) -> None:
        examples = [whole, *(build for rule in RULES for build in (rule.good, rule.bad))]
        self.cases: list[tuple[str, Case]] = [("", gaps.case(build())) for build in examples]
        self.cases += [(name, gaps.case(build())) for name, build, _ in BOUNDARIES]
        self.cases += [(trap.rule or "", gaps.case(trap.build())) for trap in ALL]
        self.said = {rule.name: self.says(rule) for rule in RULES}

    def says(self, rule: Rule) -> list[object]:
        """What one rule says of the cases that tests ask it about: its own rows, and every example."""
        return [gaps.lines_of(rule, case) for name, case in self.cases if name in ("", rule.name)]

    def killed(self, rules: list[Rule]) -> bool:
        """Whether any test would see a difference; cut short at the first."""
        for rule in rules:
            asked = (case for name, case in self.cases if name in ("", rule.name))
            for case, expected in zip(asked, self.said[rule.name], strict=True):
                try:
                    if gaps.lines_of(rule, case) != expected:
                        return True
                except Exception:  # a check that yields no gap breaks `run` itself
                    return True
        return False


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
    for line, what, mutant in mutants(tree):
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
