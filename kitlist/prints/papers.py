"""From a judged trip to a paper on disk: build, number, write."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from kitlist.errors import UsageError
from kitlist.prints import pdf, text
from kitlist.prints.build_card import build_card
from kitlist.prints.build_sheet import build_sheet
from kitlist.prints.document import Card, Paper, Sheet
from kitlist.readiness import Readiness

_BUILD: dict[str, Callable[[Readiness], Sheet | Card]] = {
    "sheet": build_sheet,
    "card": lambda readiness: build_card(readiness.kit, readiness.trip, on=readiness.on),
}


def build(paper: str, readiness: Readiness) -> Sheet | Card:
    """The `sheet` or the `card` of a judged trip, as its first revision."""
    return _BUILD[paper](readiness)


def numbered(document: Sheet | Card, revision: int) -> Sheet | Card:
    """The same document as another revision; its hash stays."""
    return replace(document, marks=replace(document.marks, revision=revision))


def write(document: Sheet | Card, path: Path, *, size: str = "A4") -> pdf.Written:
    """Write a document by the ending of its file: .pdf, .html or .txt. Raises UsageError, PrintError."""
    sizes = {paper.value.casefold(): paper for paper in Paper}
    if size.casefold() not in sizes:
        raise UsageError(f"no paper is called {size!r}", hint=f"One of {', '.join(Paper)}.")
    if path.suffix.lower() not in (".pdf", ".html", ".htm", ".txt"):
        raise UsageError(f"{path.name} ends in none of .pdf, .html, .txt", hint="Name the file by what it is to be.")
    try:
        if path.suffix.lower() == ".txt":
            path.write_text(text.render(document), encoding="utf-8")
            return pdf.Written(path)
        return pdf.write(document, path, paper=sizes[size.casefold()])
    except OSError as error:
        raise UsageError(f"cannot write {path}: {error.strerror}", hint="Name another with --out.") from None
