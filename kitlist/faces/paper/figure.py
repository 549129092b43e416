"""A drawing as plain shapes in millimetres; `templates/figure.html.jinja` turns it into inline SVG."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from kitlist.base.errors import UsageError
from kitlist.faces.paper.placing import check_free, save
from kitlist.faces.paper.typeface import MM_A_POINT

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through points. `kind` names what it is in the drawing ("link", "plus"), for reader and test alike."""

    points: tuple[Point, ...]
    width: float = 0.5
    kind: str = "line"
    dash: str = ""

    @property
    def path(self) -> str:
        """The points as an SVG path."""
        return "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in self.points)


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A rectangle, empty unless `filled`."""

    x: float
    y: float
    width: float
    height: float
    line: float = 0.5
    filled: bool = False
    kind: str = "block"
    dash: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """A filled circle."""

    x: float
    y: float
    radius: float
    kind: str = "dot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; (x, y) is where its baseline starts, has its middle, or ends. `upright` reads from below."""

    x: float
    y: float
    text: str
    size_pt: float
    bold: bool = False
    anchor: str = "start"
    upright: bool = False

    @property
    def size_mm(self) -> float:
        """The type size in the drawing's own unit."""
        return round(self.size_pt * MM_A_POINT, 3)


Shape = Stroke | Block | Dot | Text


def write_svg(path: Path, drawing: Callable[[], str], *, store: Path, replace: bool = False) -> None:
    """Write a drawing to an .svg file. Raises UsageError for another ending, PrintError."""
    if path.suffix.lower() != ".svg":
        raise UsageError(f"{path.name} does not end in .svg", hint="--chart current.svg")
    check_free(path, store=store, replace=replace)
    save(path, drawing().encode("utf-8"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Shapes on a ground of `width` × `height` mm; `title` says in words what is drawn."""

    title: str
    width: float
    height: float
    shapes: tuple[Shape, ...]

    def of_kind(self, kind: str) -> tuple[Shape, ...]:
        """The shapes of one kind, in the order they are drawn."""
        return tuple(shape for shape in self.shapes if getattr(shape, "kind", "text") == kind)
