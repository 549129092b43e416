"""Where an answer comes from: the figures, formulas and tables that were used for it, and no others."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from types import CodeType, FrameType
from typing import Any, TypeVar

from kitlist.base import resources
from kitlist.base.sources import Figure, sources_of
from kitlist.physics import figures

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Provenance:
    """What an answer stands on, each in the order in which it was first used."""

    figures: tuple[Figure, ...]
    formulas: tuple[Callable[..., object], ...]
    tables: tuple[str, ...]


def traced(compute: Callable[[], _T]) -> tuple[_T, Provenance]:
    """The answer of a computation, and what it stands on: every function of the package that ran for it.

    What was remembered from before is computed anew, so that it is seen too. Some times slower: for `--sources`.

    >>> from kitlist.physics.battery.cold import capacity_ratio
    >>> answer, stands_on = traced(lambda: capacity_ratio(temp_c=0.0).best)
    >>> answer, [formula.__name__ for formula in stands_on.formulas], stands_on.tables
    (0.75, ['capacity_ratio'], ('cold_capacity',))
    """
    _forget()
    seen: dict[CodeType, dict[str, Any]] = {}

    def note(frame: FrameType, event: str, _: object) -> None:
        if event == "call" and frame.f_code not in seen:  # whether it is the package's own is asked once for each
            seen[frame.f_code] = frame.f_globals

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        answer = compute()
    finally:
        sys.setprofile(before)
    seen = {code: names for code, names in seen.items() if names.get("__name__", "").startswith("kitlist.")}
    formulas, tables = _formulas_by_code(), _table_names()
    return answer, Provenance(
        figures=tuple(dict.fromkeys(figure for code, names in seen.items() for figure in _figures(code, names))),
        formulas=tuple(dict.fromkeys(formula for code in seen for formula in formulas.get(code, ()))),
        tables=tuple(dict.fromkeys(name for code in seen for name in code.co_consts if name in tables)),
    )


def _modules() -> Iterator[Any]:
    return (module for name, module in list(sys.modules.items()) if name.startswith("kitlist."))


def _forget() -> None:
    """Empty every memory of the package, so that nothing is answered without being computed."""
    for module in _modules():
        for value in list(vars(module).values()):
            if hasattr(value, "cache_clear") and getattr(value, "__module__", "").startswith("kitlist."):
                value.cache_clear()


def _formulas_by_code() -> dict[CodeType, list[Callable[..., object]]]:
    """Every loaded function that carries sources, by its code."""
    found: dict[CodeType, list[Callable[..., object]]] = {}
    for module in _modules():
        for value in list(vars(module).values()):
            plain = getattr(value, "__wrapped__", value)
            code = getattr(plain, "__code__", None)
            if code is not None and sources_of(value) and value not in found.get(code, []):
                found.setdefault(code, []).append(value)
    return found


def _figures(code: CodeType, names: dict[str, Any]) -> Iterator[Figure]:
    """The figures that a function names: of the physics, and those beside it in its own file."""
    for name in code.co_names:
        for home in (vars(figures) if "figures" in code.co_names else {}, names):
            if isinstance(home.get(name), Figure):
                yield home[name]


def _table_names() -> frozenset[str]:
    folder = resources.folder("seed_data") / "reference"
    return frozenset(file.stem for file in folder.glob("*.csv"))
