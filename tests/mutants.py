"""One change at a time in a module's code: comparisons, and/or/not, numbers, yes and no, + - * /, min/max, conditions.

Docstrings and the words of an f-string are not changed: wording is held by other tests.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator
from typing import Any

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


Where = Callable[[ast.Module, ast.AST], bool]


def places(tree: ast.Module) -> list[tuple[int, int]]:
    """Every place in the body of a function or method that can be changed, words left out: (node, which change)."""
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    inside = {id(node) for function in functions for part in function.body for node in ast.walk(part)}
    words = {id(node) for joined in ast.walk(tree) if isinstance(joined, ast.JoinedStr) for node in ast.walk(joined)}
    return [
        (index, number)
        for index, node in enumerate(ast.walk(tree))
        if id(node) in inside and id(node) not in words
        for number in range(_changes(node))
    ]


def mutant(tree: ast.Module, index: int, number: int) -> tuple[int, str, ast.Module] | None:
    """One change: (line, what, changed module); None where it changes nothing."""
    changed = copy.deepcopy(tree)
    target: Any = next(node for at, node in enumerate(ast.walk(changed)) if at == index)
    before, whole_before = ast.unparse(target), ast.unparse(changed)
    _change(changed, target, number)
    after = ast.unparse(target)
    if whole_before == ast.unparse(changed):
        return None
    return target.lineno, f"{_short(before)} -> {_short(after)}", ast.fix_missing_locations(changed)


def mutants(tree: ast.Module, where: Where) -> Iterator[tuple[int, str, ast.Module]]:
    """Every change of one place that `where` lets through: (line, what, changed module)."""
    for index, node in enumerate(ast.walk(tree)):
        if _changes(node) and where(tree, node):
            for number in range(_changes(node)):
                if (made := mutant(tree, index, number)) is not None:
                    yield made


def _short(code: str) -> str:
    return " ".join(code.split())[:90]


def in_words(function: ast.FunctionDef, target: ast.AST) -> bool:
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
