"""What a phone kept while it had no network, and the box for a text that was copied from one: taken in once."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitlist.base import clean
from kitlist.base.errors import BadFile, KitlistError
from kitlist.faces.judging import judged
from kitlist.faces.phone import forms, rows_page, taking, views
from kitlist.faces.phone.page import Page, html, sent
from kitlist.rules import Gap
from kitlist.store import pocket_taken, pocket_text
from kitlist.store.pocket_taken import Fate, Outcome
from kitlist.store.pocket_text import PocketKind

OTHER_KIT = "The kit was changed since that page was made: look at what was taken in, and make the page again."
HEADS = {
    Fate.TAKEN: "Taken in",
    Fate.ALREADY: "Taken in before",
    Fate.ASKED: "To be looked at again: not taken in",
    Fate.REFUSED: "Not taken in",
}


def take_kept(page: Page, request: Request) -> Response:
    """What a phone's script sends, the moment it is given or when the network is back; answered entry by entry."""
    text = pocket_text.read(sent(request).get("text", ""))
    trip = page.meant()
    with page.one_at_a_time:
        before = {(gap.rule, gap.subject) for gap in _gaps(page, trip)}
        done = pocket_taken.take(page.store, text, now=page.now(), as_it_comes=True)
        new = [gap for gap in _gaps(page, trip) if (gap.rule, gap.subject) not in before]
    answered: dict[str, Any] = {
        "outcomes": {outcome.entry.word: _outcome(page, outcome) for outcome in done},
        "gaps": [f"{shown.severity.upper()}: {shown.what}. {shown.do}" for shown in map(views.gap, new)],
    }
    if any(outcome.entry.kind is PocketKind.CHECK for outcome in done):
        answered |= rows_page.stand(page, trip)
    return JSONResponse(answered)


def _gaps(page: Page, trip: str) -> tuple[Gap, ...]:
    try:
        return judged(page.store, trip, on=page.now().date()).gaps
    except KitlistError:
        return ()  # what cannot be judged does not keep an answer from being taken


def _outcome(page: Page, outcome: Outcome) -> dict[str, str]:
    entry = outcome.entry
    shown = {"fate": str(outcome.fate), "kind": str(entry.kind), "said": clean.plain(outcome.sentence)}
    if entry.kind is PocketKind.CHECK:
        shown["key"] = forms.key(entry.values["kind"], entry.values["thing"])
    else:
        shown["key"] = str(entry.values.get("battery", entry.values.get("name", "")))
    if outcome.reading is not None:
        shown["said"] = clean.typeset(clean.plain(taking.meaning(page.store, outcome.reading)))
        shown["reading"] = f"{outcome.reading.battery}@{outcome.reading.taken_at.isoformat(' ', 'microseconds')}"
    return shown


def show_paste(page: Page, request: Request) -> Response:
    """The box for a text that was copied from a phone or a pocket page."""
    return html(page, request, "phone_paste.html.jinja", typed="", groups=[], wrong="", lines=(), note="")


def take_paste(page: Page, request: Request) -> Response:
    """Take in a pasted text, and say of each entry what became of it."""
    typed = sent(request).get("text", "")
    try:
        text = pocket_text.read(typed)
    except BadFile as error:
        wrong = clean.plain(f"{error.message}. {error.hint}")
        lines = [clean.plain(line) for line in error.lines]
        return html(
            page,
            request,
            "phone_paste.html.jinja",
            status_code=400,
            typed=typed,
            groups=[],
            wrong=wrong,
            lines=lines,
            note="",
        )
    with page.one_at_a_time:
        changed = pocket_taken.changed_since(page.store, text)
        done = pocket_taken.take(page.store, text, now=page.now())
    note = OTHER_KIT if changed else ""
    return html(page, request, "phone_paste.html.jinja", typed="", groups=_groups(done), wrong="", lines=(), note=note)


def _groups(done: tuple[Outcome, ...]) -> list[tuple[str, list[str]]]:
    """What became of the entries, the ones that ask for something first."""
    order = (Fate.ASKED, Fate.REFUSED, Fate.TAKEN, Fate.ALREADY)
    groups = ((HEADS[fate], [_line(outcome) for outcome in done if outcome.fate is fate]) for fate in order)
    return [(f"{head}: {len(lines)}", lines) for head, lines in groups if lines]


def _line(outcome: Outcome) -> str:
    values = outcome.entry.values
    about = str(values.get("thing", values.get("battery", values.get("name", ""))))
    said = outcome.sentence
    return clean.plain(said if said.startswith(about) else f"{about}: {said}")
