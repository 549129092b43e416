"""print and demo: the sheet and the card on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.cli.judging import On, TripName, judged
from kitlist.cli.talk import day, open_store, say, show, width

if TYPE_CHECKING:
    from kitlist.readiness import Readiness
    from kitlist.store import Store

Out = Annotated[Path | None, typer.Option(help="Where to write it: .pdf, .html or .txt; else NAME.pdf here.")]
PaperSize = Annotated[str, typer.Option("--paper", help="A4 or letter.")]
press = typer.Typer(help="Print the sheet or the card of a trip.", no_args_is_help=True, rich_markup_mode=None)


def register(app: typer.Typer) -> None:
    """Put these commands on the app."""
    app.add_typer(press, name="print")
    app.command("demo")(demo)


@press.command("sheet")
def sheet(
    context: typer.Context, trip: TripName = None, on: On = None, out: Out = None, paper: PaperSize = "A4"
) -> None:
    """Print the readiness sheet: verdict, bank, gaps, and every bag to tick off.

    Example: kitlist print sheet --out sheet.pdf
    """
    store = open_store(context)
    _print(store, "sheet", judged(store, trip, on=day(on)), out or Path("sheet.pdf"), size=paper)


@press.command("card")
def card(context: typer.Context, trip: TripName = None, on: On = None, out: Out = None) -> None:
    """Print the glovebox card of the trip's bank, four faces to cut, fold and laminate.

    Example: kitlist print card --out card.pdf
    """
    store = open_store(context)
    _print(store, "card", judged(store, trip, on=day(on)), out or Path("card.pdf"))


def demo(
    folder: Annotated[Path, typer.Argument(help="Where sheet.pdf and card.pdf go.")] = Path("demo"),
) -> None:
    """Judge and print an invented crew's kit, from a throwaway store.

    Example: kitlist demo
    """
    from kitlist.demo import demo_store
    from kitlist.prints.build_sheet import bank_panel
    from kitlist.prints.summary import summary

    folder.mkdir(parents=True, exist_ok=True)
    with demo_store() as (store, on):
        readiness = judged(store, None, on=on)
        show(summary(readiness, bank=bank_panel(readiness), columns=min(width(), 100)))
        for paper in ("sheet", "card"):
            _print(store, paper, readiness, folder / f"{paper}.pdf")
    say(f"The demo is judged as on {on}. Everything in it is invented.")


def _print(store: Store, paper: str, readiness: Readiness, path: Path, *, size: str = "A4") -> None:
    """Build a paper with its revision, write it, and remember that it was printed."""
    from kitlist.prints import papers
    from kitlist.store import printed

    document = papers.build(paper, readiness)
    about = {"paper": paper, "trip": readiness.trip.name, "content_hash": document.content_hash()}
    revision = printed.revision_of(store, **about)
    written = papers.write(papers.numbered(document, revision), path, size=size)
    printed.remember(store, **about, revision=revision, on=readiness.on)
    say(written.told or f"Wrote {written.path}.")
