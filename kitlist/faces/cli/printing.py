"""print and demo: sheet, card, labels and form on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.faces.cli import press
from kitlist.faces.cli.judgement import On, ReplacePaper, TripName
from kitlist.faces.cli.talk import day, open_store, say, show, width
from kitlist.faces.judging import judged, packed

if TYPE_CHECKING:
    from kitlist.faces.paper.pdf import Written

Out = Annotated[Path | None, typer.Option(help="Where to write it: .pdf, .html or .txt; else NAME.pdf here.")]
PaperSize = Annotated[
    str | None, typer.Option("--paper", help="A4 or letter; else as set by start --settings.", show_default=False)
]
prints = typer.Typer(help="Print what a crew holds in the hand.", no_args_is_help=True, rich_markup_mode=None)


@prints.command("sheet")
def sheet(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Out = None,
    paper: PaperSize = None,
    replace: ReplacePaper = False,
    annex: Annotated[
        bool, typer.Option("--annex", help="With what is behind it: gaps in full, days, sources.")
    ] = False,
    all_trips: Annotated[
        bool, typer.Option("--all-trips", help="One for each trip, into the folder --out, else `sheets`.")
    ] = False,
) -> None:
    """Print the sheet: decide on one side, pack on the other.

    Example: kitlist print sheet --out sheet.pdf
    """
    store = open_store(context)
    size = press.paper_of(store, paper)
    if all_trips:
        _all_sheets(context, out or Path("sheets"), on=on, paper=size, replace=replace)
        return
    readiness = judged(store, trip, on=day(on))
    written = press.press_sheet(store, readiness, out or Path("sheet.pdf"), size=size, replace=replace, annex=annex)
    _say_written(written)


def _all_sheets(context: typer.Context, folder: Path, *, on: str | None, paper: str, replace: bool) -> None:
    """The sheet of every trip, with a bar that fills as they come."""
    from kitlist.store.snapshot import trips

    store = open_store(context)
    paths = press.sheet_paths(folder, {trip.name: trip for trip in trips(store)})
    press.make_folder(folder)
    with typer.progressbar(paths.items(), label="Sheets", file=typer.get_text_stream("stderr")) as waiting:
        for name, path in waiting:
            press.press_sheet(store, judged(store, name, on=day(on)), path, size=paper, replace=replace)
    say(f"Wrote {len(paths)} sheets into {folder}.")


@prints.command("card")
def card(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Out = None,
    bank: Annotated[str | None, typer.Option(help="Another bank than the trip's: FIRST,SECOND,THIRD.")] = None,
    strings: Annotated[int, typer.Option(min=1, max=4, help="Parallel strings in that bank.")] = 1,
    paper: PaperSize = None,
    replace: ReplacePaper = False,
) -> None:
    """Print the glovebox card of the trip's bank.

    Faces to cut, fold and laminate, on a ring in the glovebox.

    Example: kitlist print card --out card.pdf
    """
    store = open_store(context)
    kit, meant = packed(store, trip, on=day(on))
    if bank is not None:
        meant = press.with_bank(kit, meant, bank, strings=strings)
    size = press.paper_of(store, paper)
    written = press.press_card(store, kit, meant, out or Path("card.pdf"), on=day(on), size=size, replace=replace)
    _say_written(written)
    press.say_stops(kit, meant, on=day(on))


@prints.command("labels")
def labels(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Out = None,
    paper: PaperSize = None,
    replace: ReplacePaper = False,
    gaps: Annotated[bool, typer.Option("--gaps", help="With what is wrong or missing today.")] = False,
) -> None:
    """Print labels for bags and rod tubes, eight to a page.

    What belongs in each bag, by the sheet's numbers; of rods their polarity and history. A label lasts, so what is
    wrong today stands on it only with --gaps.

    Example: kitlist print labels --out labels.pdf
    """
    from kitlist.faces.paper.build_labels import build_labels
    from kitlist.store import rod_events, settings

    store = open_store(context)
    readiness = judged(store, trip, on=day(on))
    baked = {rod.name: rod_events.baked_on(store, rod.name) for rod in readiness.kit.rods if rod.bakes}
    size = press.paper_of(store, paper)
    built = build_labels(readiness, baked_on=baked, gaps=gaps, units=settings.of(store).units)
    _say_written(press.press_blank(store, built, out or Path("labels.pdf"), size=size, replace=replace))


@prints.command("stickers")
def stickers(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Out = None,
    paper: PaperSize = None,
    replace: ReplacePaper = False,
) -> None:
    """Print stickers for the bank's batteries and lead ends.

    Each battery has its number and name and a mark for each post; each lead end says to which post it goes. The
    numbers are those of the card.

    Example: kitlist print stickers --out stickers.pdf
    """
    from kitlist.faces.paper.build_stickers import build_stickers

    store = open_store(context)
    kit, meant = packed(store, trip, on=day(on))
    size = press.paper_of(store, paper)
    built = build_stickers(kit, meant, on=day(on))
    _say_written(press.press_blank(store, built, out or Path("stickers.pdf"), size=size, replace=replace))


@prints.command("pocket")
def pocket(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Annotated[Path | None, typer.Option(help="Where to write it: .html; else pocket.html here.")] = None,
    replace: ReplacePaper = False,
) -> None:
    """Print one file for a phone: steps, bags, live numbers.

    It needs no network and no server: carry the file over and open it. What is entered there comes back with
    `kitlist import pocket.toml`.

    Example: kitlist print pocket --out pocket.html
    """
    store = open_store(context)
    path = out or Path("pocket.html")
    press.press_pocket(store, judged(store, trip, on=day(on)), path, on=day(on), replace=replace)
    say(f"Wrote {path}. Carry it to the phone and open it there; no network is needed.")


@prints.command("form")
def form(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    out: Out = None,
    paper: PaperSize = None,
    replace: ReplacePaper = False,
    companion: Annotated[
        bool, typer.Option("--companion", help="For a companion's vehicle instead: its batteries and their labels.")
    ] = False,
) -> None:
    """Print a blank form for volts and practice welds.

    Example: kitlist print form --out form.pdf
    """
    from kitlist.faces.paper.build_form import build_form

    store = open_store(context)
    kit, meant = packed(store, trip, on=day(on))
    size = press.paper_of(store, paper)
    if companion:
        from kitlist.faces.paper.build_companion_form import build_companion_form

        built = build_companion_form(meant, on=day(on))
        _say_written(press.press_blank(store, built, out or Path("companion.pdf"), size=size, replace=replace))
        return
    blank = build_form(kit, meant, on=day(on))
    _say_written(press.press_blank(store, blank, out or Path("form.pdf"), size=size, replace=replace))


def demo(
    folder: Annotated[Path, typer.Argument(help="Where sheet.pdf and card.pdf go.")] = Path("demo"),
) -> None:
    """Judge and print an invented crew's kit, kept nowhere.

    Example: kitlist demo
    """
    from kitlist.faces.cli.demo import demo_store
    from kitlist.faces.paper.build_sheet import build_sheet
    from kitlist.faces.words.summary import summary

    press.make_folder(folder)
    with demo_store() as (store, on):
        readiness = judged(store, None, on=on)
        show(summary(readiness, sheet=build_sheet(readiness, for_screen=True), columns=min(width(), 100)))
        _say_written(press.press_sheet(store, readiness, folder / "sheet.pdf", size="A4"))
        _say_written(press.press_card(store, readiness.kit, readiness.trip, folder / "card.pdf", on=on))
    say(f"The demo is judged as on {on}. Everything in it is invented.")


def _say_written(written: Written) -> None:
    say(written.told or f"Wrote {written.path}.")
