"""HTML to PDF by WeasyPrint, closed: nothing is fetched, nothing is logged unheard, the same bytes every time."""

from __future__ import annotations

import contextlib
import io
import logging
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from kitlist.base.errors import PrintError
from kitlist.base.terms import Paper
from kitlist.faces.paper import html, overflow, typeface
from kitlist.faces.paper.card_document import Card
from kitlist.faces.paper.document import Sheet
from kitlist.faces.paper.placing import save
from kitlist.faces.paper.stickers import Stickers

VARIANT = "pdf/ua-1"
NO_PANGO = (
    "The PDF maker needs the Pango text libraries, which this machine lacks: "
    "sudo apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
)


class NoPango(PrintError):
    """WeasyPrint cannot load the system's text libraries: the caller may write the HTML instead."""


@dataclass(frozen=True, slots=True)
class Written:
    """What `write` wrote, and in one sentence why it is not what was asked for ("" when it is)."""

    path: Path
    told: str = ""


def write(
    document: html.Document, path: Path, *, paper: Paper = Paper.A4, before_name: Callable[[], object] | None = None
) -> Written:
    """Write the document to `path`: HTML for .html, else PDF; where Pango is missing, HTML beside it.

    Whatever does not fit raises PrintError before a byte is written. `before_name` is done once the paper is on the
    disk, before it gets its name.
    """
    if path.suffix.lower() in {".html", ".htm"}:
        save(path, html.render(document, paper=paper).encode("utf-8"), before_name=before_name)
        return Written(path)
    try:
        made = to_pdf(document, paper=paper)
    except NoPango as missing:
        instead = path.with_suffix(".html")
        save(instead, html.render(document, paper=paper).encode("utf-8"), before_name=before_name)
        return Written(instead, f"{missing.message} Wrote {instead.name} for a browser to print instead.")
    save(path, made, before_name=before_name)
    return Written(path)


def to_pdf(document: html.Document, *, paper: Paper = Paper.A4) -> bytes:
    """The document as a tagged PDF, checked: a card that does not fit is refused with its lines named."""
    if isinstance(document, Card):
        overflow.check_words(document)
    elif isinstance(document, Sheet):
        overflow.check_sheet(document)
    elif isinstance(document, Stickers):
        overflow.check_script(document)
    page = html.render(document, paper=paper, fonts_inside=False)

    def check(pages: Sequence[Any]) -> None:
        if isinstance(document, Card):
            overflow.check_card(document, pages)

    return make(page, identifier=document.content_hash().encode("ascii"), check=check)


def make(page: str, *, identifier: bytes, check: Callable[[Sequence[Any]], None] | None = None) -> bytes:
    """HTML to PDF bytes. `check` sees the laid out pages, and may refuse them, before anything is drawn."""
    with _listening() as heard, _nothing_fetched() as fetcher:
        laid_out = _weasyprint().HTML(string=page, url_fetcher=fetcher).render(pdf_variant=VARIANT)
        if check:
            check(laid_out.pages)
        for sheet_of_paper in laid_out.pages:
            sheet_of_paper.anchors.clear()  # they served the check, and are no links
        made = laid_out.write_pdf(pdf_variant=VARIANT, pdf_identifier=identifier)
    if heard.lines:
        raise PrintError(f"The PDF maker complained: {'; '.join(heard.lines[:3])}.")
    assert isinstance(made, bytes)
    return made


@cache
def _weasyprint() -> Any:
    said = io.StringIO()
    try:
        with contextlib.redirect_stdout(said):
            import weasyprint
    except OSError as failure:
        raise NoPango(NO_PANGO, hint="Or print the HTML file from a browser.") from failure
    return weasyprint


@contextlib.contextmanager
def _nothing_fetched() -> Iterator[Any]:
    """A fetcher that serves the two fonts from memory; asked for anything else, it fails the build."""
    _weasyprint()
    from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

    refused: list[str] = []

    class ClosedFetcher(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:
            if url not in html.ASSETS:
                refused.append(url)
                raise FatalURLFetchingError(url)
            return URLFetcherResponse(url, _font_bytes(html.ASSETS[url]), {"Content-Type": "font/ttf"})

    with contextlib.suppress(FatalURLFetchingError):  # not an Exception: it would pass every handler above
        yield ClosedFetcher()
    if refused:
        raise PrintError(f"A paper may not fetch anything, and this one asked for {refused[0]!r}.")


@cache
def _font_bytes(asset: typeface.FontAsset) -> bytes:
    return typeface.path(bold=asset.bold, second=asset.second).read_bytes()


class _Heard(logging.Handler):
    """Keeps every warning and error that WeasyPrint logs."""

    def __init__(self) -> None:
        super().__init__(level=logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


@contextlib.contextmanager
def _listening() -> Iterator[_Heard]:
    heard = _Heard()
    logger = logging.getLogger("weasyprint")
    logger.addHandler(heard)
    try:
        yield heard
    finally:
        logger.removeHandler(heard)
