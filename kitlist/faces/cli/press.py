"""From a judged trip to a paper on disk: build, number, mark what changed, write, remember."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from kitlist.base.errors import UsageError
from kitlist.faces.cli.talk import say
from kitlist.faces.cli.trip_life import actions_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from kitlist.faces.paper.card_document import Card
    from kitlist.faces.paper.document import Sheet
    from kitlist.faces.paper.html import Document
    from kitlist.faces.paper.pdf import Written
    from kitlist.kit import Kit, Trip
    from kitlist.outlook.card import CardFacts
    from kitlist.readiness import Readiness
    from kitlist.store import Store
    from kitlist.trips.check_off import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """A paper about to be printed, with what the store keeps of it."""

    paper: str
    document: Sheet | Card
    lines: frozenset[str] = frozenset()
    facts: CardFacts | None = None
    basis: str = ""
    numbered: tuple[Line, ...] = ()  # the things behind the numbers of a sheet


def press_sheet(
    store: Store, readiness: Readiness, path: Path, *, size: str, replace: bool = False, annex: bool = False
) -> Written:
    """The sheet, with a bar beside what the print before did not say; with `annex` all that stands behind it too."""
    from kitlist.faces.paper import since_last
    from kitlist.faces.paper.build_sheet import build_sheet
    from kitlist.faces.paper.placing import check_free
    from kitlist.store import checked_off, settings
    from kitlist.trips.timeline import readings_basis

    check_free(path, store=store.path, replace=replace)
    units = settings.of(store).units
    sheet = build_sheet(readiness, actions=actions_of(store, readiness), annex=annex, units=units)
    run = _Run(
        paper="sheet",
        document=sheet,
        lines=since_last.lines(sheet),
        basis=readings_basis(readiness),
        numbered=checked_off.progress(store, readiness.trip.name),
    )
    return _press(store, readiness.trip, run, path, on=readiness.on, size=size)


def press_card(
    store: Store, kit: Kit, trip: Trip, path: Path, *, on: date, size: str = "A4", replace: bool = False
) -> Written:
    """The card of the trip's bank; nothing is judged for it."""
    from kitlist.faces.paper.build_card import card_of
    from kitlist.faces.paper.placing import check_free
    from kitlist.outlook.card import card_facts
    from kitlist.store import settings

    check_free(path, store=store.path, replace=replace)
    facts = card_facts(kit, trip, on=on)
    card = card_of(facts, on=on, units=settings.of(store).units)
    run = _Run(paper="card", document=card, facts=facts, basis=facts.basis)
    return _press(store, trip, run, path, on=on, size=size)


def say_stops(kit: Kit, trip: Trip, *, on: date) -> None:
    """Say the stops that stand today: a card holds for longer than a judgement, and shows none of it."""
    from kitlist.faces.words.summary import stops_in_short
    from kitlist.readiness import stops

    if short := stops_in_short(stops(kit, trip, on=on)):
        say(f"The card shows no gaps. Today this stops the weld: {short}. See kitlist ready.")


def press_blank(store: Store, document: Document, path: Path, *, size: str = "A4", replace: bool = False) -> Written:
    """Labels or a form: written, and not remembered."""
    from kitlist.faces.paper import papers
    from kitlist.faces.paper.placing import check_free

    check_free(path, store=store.path, replace=replace)
    return papers.write(document, path, size=size)


def press_pocket(store: Store, readiness: Readiness, path: Path, *, on: date, replace: bool = False) -> None:
    """The page for a phone, remembered by the kit that it was made from."""
    from kitlist.faces.paper import placing
    from kitlist.faces.pocket.build_pocket import basis_of, build_pocket
    from kitlist.kit.digest import kit_digest
    from kitlist.store import papers_kept

    placing.check_free(path, store=store.path, replace=replace)
    page = build_pocket(readiness, on=on)
    trip = readiness.trip
    content_hash = kit_digest(readiness.kit, trip)
    number = papers_kept.numbering(
        store, paper="pocket", trip=trip.name, content_hash=content_hash, strings=trip.strings
    )

    def remember() -> None:
        papers_kept.remember(
            store,
            paper="pocket",
            trip=trip.name,
            content_hash=content_hash,
            revision=number.revision,
            on=on,
            strings=trip.strings,
            basis=basis_of(readiness, on=on),
        )

    placing.save(path, page.encode("utf-8"), before_name=remember)


def with_bank(kit: Kit, trip: Trip, bank: str, *, strings: int) -> Trip:
    """The same trip with another bank of its batteries, named by any unambiguous start."""
    from dataclasses import replace

    from kitlist.base import names

    given = [name.strip() for name in bank.split(",") if name.strip()]
    chosen = tuple(names.resolve(name, list(kit.battery), what="battery") for name in given)
    other = replace(trip, bank=chosen, bank_strings=strings)
    if not chosen or other.problems():
        told = "; ".join(sentence for _, sentence in other.problems()) or "no battery is named"
        raise UsageError(told, hint="kitlist print card --bank FIRST,SECOND,THIRD")
    return other


def paper_of(store: Store, given: str | None) -> str:
    """The size that was asked for, else the one of the store's settings."""
    from kitlist.store import settings

    return given or settings.of(store).paper


def make_folder(folder: Path) -> None:
    """Make a folder for papers. Raises UsageError where it cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(f"cannot make the folder {folder}: {error.strerror}", hint="Name another.") from None


def sheet_paths(folder: Path, names: Mapping[str, object], *, ending: str = ".pdf") -> dict[str, Path]:
    """A file in the folder for each trip's sheet, none twice."""
    from kitlist.faces.paper import papers

    taken: dict[str, str] = {}
    for name in names:
        taken[papers.file_name(name, taken=taken)] = name
    return {name: folder / f"{file}{ending}" for file, name in taken.items()}


def _press(store: Store, trip: Trip, run: _Run, path: Path, *, on: date, size: str = "A4") -> Written:
    from kitlist.faces.paper import papers, since_last
    from kitlist.faces.paper.document import Sheet
    from kitlist.store import papers_kept

    papers.check(path, size=size)
    strings = run.facts.strings if run.facts else ()
    content_hash = run.document.content_hash()
    about = {"paper": run.paper, "trip": trip.name, "content_hash": content_hash}
    number = papers_kept.numbering(store, **about, strings=strings)
    document: Sheet | Card = run.document
    if isinstance(document, Sheet):
        if number.before:
            before = number.before
            document = since_last.marked(document, before.lines, revision=before.revision, on=before.printed_on)
        document = papers.numbered(document, number.revision)
    else:
        document = papers.numbered(document, number.revision)

    def remember() -> None:
        papers_kept.remember(
            store,
            **about,
            revision=number.revision,
            on=on,
            lines=run.lines,
            strings=strings,
            basis=run.basis,
            numbered=run.numbered,
        )

    return papers.write(document, path, size=size, before_name=remember)
