"""The rulebook: every threshold that rules compare with, as it ships and as its owner has changed it.

The defaults stand in `seed_data/rulebook.toml`, each with unit, range and source. An owner's file holds lines
`name = value` and no more; it is checked whole, and every change is shown on the sheet.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache, cached_property
from types import MappingProxyType
from typing import Any

from kitlist.base import resources
from kitlist.base.errors import BadFile
from kitlist.base.sources import Figure, Source, Tag

_AT_LINE = re.compile(r"(.*) \(at line (\d+), column \d+\)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """One number, or one choice among words, that rules compare with."""

    name: str
    what: str
    value: float | str
    unit: str
    low: float | None
    high: float | None
    choices: tuple[str, ...]
    source: Source

    def shown(self, value: float | str) -> str:
        """A value of it as people read it."""
        return value if isinstance(value, str) else f"{value:g} {self.unit}".rstrip()

    @property
    def allowed(self) -> str:
        """What it may be set to."""
        if self.choices:
            return f"one of {', '.join(self.choices)}"
        return f"a number from {self.low:g} to {self.high:g} {self.unit}".rstrip()

    def takes(self, value: Any) -> bool:
        """Whether it may be set to a value."""
        if self.choices:
            return value in self.choices
        if isinstance(value, bool) or not isinstance(value, int | float) or self.low is None or self.high is None:
            return False
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class ThresholdChange:
    """A threshold that its owner has set otherwise."""

    threshold: Threshold
    value: float | str

    @property
    def words(self) -> str:
        """What it was and what it is: one line for sheet and screen."""
        said = self.threshold
        return f"{said.name}: {said.shown(said.value)} -> {said.shown(self.value)} ({said.what})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Every threshold in force, in the rulebook's order; what each is and where it comes from stands there."""

    stale_after_days: float
    fire_rules_asked_within_days: float
    floor_warm_ratio: float
    floor_cold_ratio: float
    every_starter_ratio: float
    cold_below_c: float
    sweating_above_c: float
    wet_limit_v: float
    spare_links: int
    vehicle_reach_m: float
    duty_ratio: float
    joint_limit_mohm: float
    isolator_least_v: float
    fuse_least_v: float
    hot_limit_ratio: float
    shade_region: str
    auto_test_days: float
    auto_cell_days: float
    water_least_l: float
    extinguisher_least_kg: float
    eye_wash_least_l: float
    people_least: int
    far_days: float
    far_rods_ratio: float
    check_off_days: float
    test_plate_within_mm: float
    stands_least: int
    chocks_least: int
    arc_distance_m: float
    splice_distance_m: float
    cold_steel_below_c: float
    no_weld_below_c: float
    thin_steel_mm: float
    deep_discharged_v: float


@dataclass(frozen=True)
class Rulebook:
    """The thresholds as they ship, and what their owner set otherwise; `limits` is what is in force."""

    thresholds: Mapping[str, Threshold]
    own: Mapping[str, float | str] = field(default_factory=lambda: MappingProxyType({}))

    @cached_property
    def limits(self) -> Limits:
        """Every threshold in force."""
        values: dict[str, Any] = {name: self._value(name) for name in self.thresholds}
        return Limits(**values)

    def _value(self, name: str) -> float | str:
        return self.own.get(name, self.thresholds[name].value)

    def shown(self, name: str) -> str:
        """A value in force with its unit."""
        return self.thresholds[name].shown(self._value(name))

    def figure(self, name: str) -> Figure:
        """A number in force, with its source."""
        threshold = self.thresholds[name]
        value = self._value(name)
        if isinstance(value, str):
            raise TypeError(f"{name} is a word, not a number")
        return Figure(threshold.what, value, threshold.unit, threshold.source)

    @property
    def changes(self) -> tuple[ThresholdChange, ...]:
        """Every threshold that differs from the default, in the rulebook's order."""
        return tuple(
            ThresholdChange(threshold, self.own[name])
            for name, threshold in self.thresholds.items()
            if name in self.own and self.own[name] != threshold.value
        )

    def changed(self, text: str, *, name: str) -> Rulebook:
        """This rulebook with an owner's lines; `name` is the file. Raises BadFile with every line that is wrong."""
        values, wrong = _parsed(text, name)
        for key, value in values.items():
            threshold = self.thresholds.get(key)
            where = f"{name}:{_line_of(text, key)}: {key}"
            if threshold is None:
                near = get_close_matches(key, self.thresholds, n=1)
                wrong.append(f"{where}: no rule has such a threshold{f'; did you mean {near[0]}?' if near else ''}")
            elif not threshold.takes(value):
                wrong.append(f"{where} = {value!r}: must be {threshold.allowed}")
        if wrong:
            raise BadFile(
                f"{name}: {len(wrong)} line{'s' if len(wrong) > 1 else ''} of the rulebook cannot be taken",
                lines=tuple(wrong),
                hint="Nothing was judged. Mend the lines, or take the file away.",
            )
        return Rulebook(self.thresholds, MappingProxyType(dict(self.own) | values))


def _parsed(text: str, name: str) -> tuple[dict[str, Any], list[str]]:
    try:
        return tomllib.loads(text), []
    except tomllib.TOMLDecodeError as error:
        found = _AT_LINE.fullmatch(str(error))
        line, said = (found[2], found[1]) if found else (str(len(text.splitlines())), str(error))
        return {}, [f"{name}:{line}: {said}"]


def _line_of(text: str, key: str) -> int:
    lines = enumerate(text.splitlines(), start=1)
    return next((n for n, line in lines if re.match(rf"\s*\[*\s*\"?{re.escape(key)}\b", line)), 1)


@cache
def standard() -> Rulebook:
    """The rulebook as it ships.

    >>> standard().limits.stale_after_days, standard().limits.shade_region
    (7, 'strictest')
    """
    path = resources.folder("seed_data") / "rulebook.toml"
    rows = tomllib.loads(path.read_text(encoding="utf-8"))
    return Rulebook(MappingProxyType({name: _threshold(name, row) for name, row in rows.items()}))


def _threshold(name: str, row: Mapping[str, Any]) -> Threshold:
    found = Threshold(
        name=name,
        what=row["what"],
        value=row["value"],
        unit=row.get("unit", ""),
        low=row.get("low"),
        high=row.get("high"),
        choices=tuple(row.get("choices", ())),
        source=Source(Tag(row["tag"]), row.get("source", "")),
    )
    if not found.takes(found.value):
        raise ValueError(f"{name}: {found.value!r} is outside its own range")
    return found
