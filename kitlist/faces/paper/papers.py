"""A paper to a file, by the ending of its name."""

from __future__ import annotations

import re
from collections.abc import Callable, Container
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from kitlist.base import clean
from kitlist.base.errors import UsageError
from kitlist.base.terms import Paper
from kitlist.faces.paper import pdf, placing, text
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.document import Sheet
from kitlist.faces.paper.html import Document

ENDINGS = (".pdf", ".html", ".htm", ".txt")
_Numbered = TypeVar("_Numbered", Sheet, Card)


def numbered(document: _Numbered, revision: int) -> _Numbered:
    """The same document as another revision; its hash stays."""
    return replace(document, marks=replace(document.marks, revision=revision))


def check(path: Path, *, size: str = Paper.A4) -> Paper:
    """The size of paper by its name. Raises UsageError for a size or a file ending that is none."""
    sizes = {paper.value.casefold(): paper for paper in Paper}
    if size.casefold() not in sizes:
        raise UsageError(f"no paper is called {size!r}", hint=f"One of {', '.join(Paper)}.")
    if path.suffix.lower() not in ENDINGS:
        raise UsageError(f"{path.name} ends in none of .pdf, .html, .txt", hint="Name the file by what it is to be.")
    return sizes[size.casefold()]


def write(
    document: Document, path: Path, *, size: str = Paper.A4, before_name: Callable[[], object] | None = None
) -> pdf.Written:
    """Write a document by the ending of its file: .pdf, .html or .txt. Raises UsageError, PrintError.

    `before_name` is done once the paper is on the disk, before it gets its name.
    """
    paper = check(path, size=size)
    if path.suffix.lower() == ".txt":
        placing.save(path, text.render(document).encode("utf-8"), before_name=before_name)
        return pdf.Written(path)
    return pdf.write(document, path, paper=paper, before_name=before_name)


def file_name(name: str, *, taken: Container[str] = ()) -> str:
    """A name for a file without its ending: letters and digits of any script, and hyphens.

    >>> file_name("Dry lake: nine/days"), file_name("../..", taken={"paper"})
    ('dry-lake-nine-days', 'paper-2')
    """
    bare = re.sub(r"[\W_]+", "-", clean.plain(name, longest=60).casefold()).strip("-") or "paper"
    number = 2
    found = bare
    while found in taken:
        found, number = f"{bare}-{number}", number + 1
    return found
