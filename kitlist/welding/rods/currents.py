"""Current for a rod: its range by class and diameter, and where in the range to start."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, Tag, row_source, sourced, table
from kitlist.base.terms import Position

MACHINERYS = Source(Tag.READ, "Machinery's Handbook, 31st ed., pp. 1593 to 1594")
THIN_MM = 3.4
"""10 gauge: under it the low end of the range. Machinery's Handbook."""
THIN_SHARE = 1 / 3
"""The share of the range that counts as its low end. Common practice."""
OUT_OF_FLAT_LESS = (0.10, 0.15)
"""Less current upright or overhead. Common practice."""

_SIZES = {
    1.6: (1.55, 1.65),
    2.0: (1.95, 2.05),
    2.5: (2.38, 2.65),
    3.2: (3.1, 3.3),
    4.0: (3.9, 4.1),
    5.0: (4.7, 5.05),
}
_UPRIGHT = (Position.VERTICAL, Position.OVERHEAD)


@dataclass(frozen=True, slots=True)
class CurrentRange:
    """The range to use, A, and every source's own range behind it."""

    low_a: float
    high_a: float
    sources: tuple[Source, ...]
    said: tuple[tuple[float, float], ...]

    @property
    def start_a(self) -> float:
        """The middle: for plate. Machinery's Handbook."""
        return (self.low_a + self.high_a) / 2


@dataclass(frozen=True, slots=True)
class CurrentChoice:
    """Current for one job: the part of the range to stay in, where to start, and why."""

    low_a: float
    start_a: float
    high_a: float
    why: tuple[str, ...]
    sources: tuple[Source, ...]


def nominal_size_mm(diameter_mm: float) -> float:
    """The trade size of a core diameter, mm: 2.4, 2.5 and 2.6 are one size. Raises OutOfRange between sizes.

    >>> nominal_size_mm(2.6), nominal_size_mm(3.175), nominal_size_mm(4.8)
    (2.5, 3.2, 5.0)
    """
    for size_mm, (low_mm, high_mm) in _SIZES.items():
        if low_mm <= diameter_mm <= high_mm:
            return size_mm
    raise OutOfRange(
        f"a rod of {diameter_mm:g} mm is no trade size: {', '.join(f'{s:g}' for s in _SIZES)} mm are held here"
    )


@cache
def _ranges() -> Mapping[tuple[str, float], tuple[Mapping[str, str], ...]]:
    found: dict[tuple[str, float], tuple[Mapping[str, str], ...]] = {}
    for row in table("rod_currents"):
        key = (row["class"], float(row["diameter_mm"]))
        found[key] = (*found.get(key, ()), row)
    return found


_AS = {"E6018": "E7018"}


@sourced(MACHINERYS, Source(Tag.MEMORY, "AWS A5.1 annex"), PRACTICE)
def current_range(table_class: str | None, *, diameter_mm: float) -> CurrentRange:
    """The current range of a rod, A. Where sources differ, the part that all of them allow.

    `table_class` as in `Designation.table_class`; E6018 takes E7018's range (common practice). Raises OutOfRange
    where no source gives a range: then the packet's own range is the one to use.

    >>> r = current_range("E6013", diameter_mm=2.5)
    >>> r.low_a, r.start_a, r.high_a
    (50.0, 70.0, 90.0)
    """
    size_mm = nominal_size_mm(diameter_mm)
    if table_class is None:
        raise OutOfRange("no class is near enough to lend this rod a current range: use the range on the packet")
    rows = _ranges().get((_AS.get(table_class, table_class), size_mm))
    if rows is None:
        sizes = sorted(d for c, d in _ranges() if c == _AS.get(table_class, table_class))
        held = f"{sizes[0]:g} to {sizes[-1]:g} mm" if sizes else "no size"
        raise OutOfRange(
            f"no source gives a range for {table_class} of {diameter_mm:g} mm; held: {held}",
            hint="Use the range on the packet.",
        )
    said = tuple((float(row["low_a"]), float(row["high_a"])) for row in rows)
    sources = tuple(dict.fromkeys(row_source(row) for row in rows))
    if table_class in _AS:
        sources = (Source(Tag.PRACTICE, f"as {_AS[table_class]}: same covering"), *sources)
    return CurrentRange(max(low for low, _ in said), min(high for _, high in said), sources, said)


@sourced(MACHINERYS, PRACTICE)
def choose_current(
    full: CurrentRange, *, thickness_mm: float | None = None, position: Position = Position.FLAT
) -> CurrentChoice:
    """Where in a rod's range to work, A.

    Plate: start in the middle. Steel under 3.4 mm: the lowest third, start in its middle. Upright or overhead: 10 to
    15 % less (start 12.5 % less, top 10 % less), never under the rod's own low end. `thickness_mm` None: plate.

    >>> r = current_range("E6013", diameter_mm=3.2)
    >>> round(choose_current(r, thickness_mm=5.0).start_a), round(choose_current(r, thickness_mm=3.0).start_a)
    (105, 88)
    """
    low_a, start_a, high_a = full.low_a, full.start_a, full.high_a
    why: list[str] = []
    sources: list[Source] = list(full.sources)
    if thickness_mm is not None and thickness_mm < THIN_MM:
        high_a = low_a + (high_a - low_a) * THIN_SHARE
        start_a = (low_a + high_a) / 2
        why.append(f"steel under {THIN_MM} mm: the low end of the range")
        sources.append(MACHINERYS)
    if position in _UPRIGHT:
        least, most = OUT_OF_FLAT_LESS
        high_a = max(low_a, high_a * (1 - least))
        start_a = min(high_a, max(low_a, start_a * (1 - (least + most) / 2)))
        why.append("upright or overhead: 10 to 15 % less, but not under the rod's low end")
        sources.append(PRACTICE)
    if not why:
        why.append("plate: the middle of the range")
    return CurrentChoice(low_a, start_a, high_a, tuple(why), tuple(dict.fromkeys(sources)))
