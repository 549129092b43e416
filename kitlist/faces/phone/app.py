"""The pages by address. Each asks the store, lets the same functions work as the commands do, and fills a template."""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from kitlist.base import clean, resources
from kitlist.base.errors import BadData, KitlistError, NotFound
from kitlist.faces.judging import judged, packed
from kitlist.faces.paper import typeface
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.build_items import wording
from kitlist.faces.paper.document import DEFER
from kitlist.faces.paper.html import fill, marks_line, place_blocks
from kitlist.faces.phone import forms, taking, ticking, views
from kitlist.faces.phone.guard import Door, Guard
from kitlist.faces.phone.views import Told
from kitlist.kit import next_trip, raw_values
from kitlist.readiness import assess
from kitlist.store import Store, checked_off
from kitlist.store.snapshot import trips

TOLD_KEPT = 64
WORD_MOST = 32
PAGES = ("/", "/check-off", "/readings", "/card")
FILES = {"phone.css": "text/css", "phone.js": "text/javascript"}


States = tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Readings:
    """What a form of readings came to: what is to stay typed of all, each battery's row, all that was sent."""

    sent: forms.Fields
    rows: tuple[taking.Row, ...]
    typed: forms.Fields = field(default_factory=dict)


@dataclass(slots=True, kw_only=True)
class Page:
    """What every page needs: the store, the trip if one is meant, the clock; and what was told but not yet shown."""

    store: Store
    door: Door
    now: Callable[[], datetime]
    trip: str | None = None
    told: OrderedDict[str, tuple[Told, States]] = field(default_factory=OrderedDict)
    read: OrderedDict[str, Readings] = field(default_factory=OrderedDict)
    one_at_a_time: threading.Lock = field(default_factory=threading.Lock)

    def meant(self) -> str:
        """The trip that is meant. Raises NotFound where there is none."""
        return self.trip or next_trip(trips(self.store), on=self.now().date()).name

    def remember(self, told: Told) -> str:
        """Keep what is to be said on the next page; returns the word that asks for it."""
        word = secrets.token_urlsafe(9)
        self.told[word] = (told, None)
        while len(self.told) > TOLD_KEPT:
            self.told.popitem(last=False)
        return word

    def recall(self, word: str, states: tuple[str, ...]) -> Told:
        """What was to be said: once, and again on a page that is loaded again while no answer has changed since."""
        told, then = self.told.get(word, (Told(), None))
        if then not in (None, states):
            return Told()
        if word in self.told:
            self.told[word] = (told, states)
        return told


def build(path: Path, *, door: Door, now: Callable[[], datetime], rulebook: Path | None = None, trip: str | None = None,
          body_wait_s: float = 10.0) -> Guard:  # fmt: skip
    """The guarded app over one store. Raises StoreError where there is none."""
    page = Page(store=Store(path, rulebook=rulebook), door=door, now=now, trip=trip)
    routes = [
        Route("/", _page(page, home), methods=["GET"]),
        Route("/check-off", _page(page, show_check_off), methods=["GET"]),
        Route("/check-off", _page(page, save_check_off), methods=["POST"]),
        Route("/check-off/undo", _page(page, undo), methods=["POST"]),
        Route("/who", _page(page, who), methods=["POST"]),
        Route("/glove", _page(page, glove), methods=["POST"]),
        Route("/readings", _page(page, show_readings), methods=["GET"]),
        Route("/readings", _page(page, save_readings), methods=["POST"]),
        Route("/card", _page(page, card), methods=["GET"]),
        Route("/{file}", _page(page, a_file), methods=["GET"]),
    ]
    thin = [Middleware(GZipMiddleware, compresslevel=5)]  # a hotspot far out is slow, and no page holds a secret
    return Guard(Starlette(routes=routes, middleware=thin), door=door, body_wait_s=body_wait_s)


def _page(page: Page, view: Callable[[Page, Request], Response]) -> Callable[[Request], Response]:
    """A view that answers every error of ours with a page of one sentence."""

    def answered(request: Request) -> Response:
        try:
            return view(page, request)
        except KitlistError as error:
            status = 404 if isinstance(error, NotFound) else 400
            told = {"message": clean.plain(error.message), "hint": clean.plain(error.hint or "")}
            if _wants_json(request):
                return JSONResponse(told, status_code=status)
            return _html(page, request, "phone_message.html.jinja", status_code=status, **told)

    return answered


def _html(page: Page, request: Request, template: str, *, status_code: int = 200, **values: Any) -> HTMLResponse:
    shared = {"glove": _cookie(page, request, "glove") == "on", "defer": DEFER, "here": _here(request.url.path)}
    return HTMLResponse(fill(template, **shared, **values), status_code=status_code)


def _here(address: str) -> str:
    return address if address in PAGES else "/"


def _cookie(page: Page, request: Request, what: str) -> str:
    return unquote(request.cookies.get(f"{page.door.cookie}-{what}", ""))


def _set_cookie(page: Page, response: Response, what: str, value: str) -> None:
    response.set_cookie(f"{page.door.cookie}-{what}", quote(value), httponly=True, samesite="strict", max_age=86400)


def _wants_json(request: Request) -> bool:
    return request.headers.get("accept", "") == "application/json"


def _sent(request: Request) -> dict[str, str]:
    return forms.fields(request.scope["body"])


def _back(address: str) -> RedirectResponse:
    return RedirectResponse(address, status_code=303)


def home(page: Page, request: Request) -> Response:
    """Where the trip stands: verdict, gaps, and the ways on."""
    readiness = judged(page.store, page.meant(), on=page.now().date())
    return _html(
        page,
        request,
        "phone_home.html.jinja",
        trip=clean.plain(readiness.trip.name),
        verdict=readiness.word,
        meaning=readiness.meaning,
        gaps=[views.gap(found) for found in readiness.gaps],
        cautions=[clean.plain(text) for text in wording()["cautions"]],
    )


def show_check_off(page: Page, request: Request) -> Response:
    """Every bag with its things; who checks is asked first."""
    trip = page.meant()
    checked = checked_off.progress(page.store, trip)
    states = tuple(f"{forms.key(line.kind, line.name)} {forms.state(line.answer)}" for line in checked)
    told = page.recall(request.query_params.get("told", ""), states)
    return _html(
        page,
        request,
        "phone_check_off.html.jinja",
        status_code=400 if told.wrong else 200,
        trip=clean.plain(trip),
        trip_name=trip,
        by=_cookie(page, request, "by"),
        last_by=checked_off.last_by(page.store, trip),
        status=views.status(checked),
        bags=views.bags(checked, told),
        told=told,
    )


def who(page: Page, request: Request) -> Response:
    """Remember on this phone who checks."""
    by = _name(_sent(request))
    response = _back("/check-off")
    _set_cookie(page, response, "by", by)
    return response


def _name(sent: forms.Fields) -> str:
    try:
        by = raw_values.one_line(sent.get("by", ""))
    except ValueError as error:
        raise forms.Malformed(f"who checks cannot be that: {error}") from None
    if not by:
        raise forms.Malformed("who checks is not said", hint="Go back and write a name.")
    return by


def save_check_off(page: Page, request: Request) -> Response:
    """Keep what this phone changed in a bag, and say what follows."""
    sent = _sent(request)
    by_script = _wants_json(request)
    ticks, wrong = forms.ticks(sent, touched=by_script)
    trip, by = _trip_of(page, sent), _name(sent)
    with page.one_at_a_time:  # a form that is sent twice at once is kept once
        told = _kept(page, trip, sent, ticks, wrong, by=by)
        if by_script:
            return JSONResponse(_as_json(page, trip, told, {forms.key(t.kind, t.name) for t in ticks}))
    return _to_bag(page, sent, told)


def _trip_of(page: Page, sent: forms.Fields) -> str:
    """The trip that is meant, and that the form was about. Raises BadData where another trip has come up since."""
    trip = page.meant()
    if (shown := sent.get("trip", trip)) != trip:
        raise BadData(
            f"nothing was kept: that page was about {shown[:60]}, and the trip is now {trip}",
            hint="Load the check-off again, and answer there.",
        )
    return trip


def _kept(
    page: Page,
    trip: str,
    sent: forms.Fields,
    ticks: Sequence[forms.Tick],
    wrong: Sequence[forms.WrongField],
    *,
    by: str,
) -> Told:
    def gaps() -> Any:
        return judged(page.store, trip, on=page.now().date()).gaps

    done = ticking.keep(page.store, trip, ticks, by=by, at=page.now(), gaps=gaps)
    unseen = {one.key for one in done.wrong}  # to be looked at again: no answer stays chosen
    return Told(
        kept=tuple(clean.plain(text) for text in done.kept),
        notes=tuple(clean.plain(text) for text in done.meanwhile),
        gaps=tuple(views.gap(found) for found in done.gaps),
        wrong=(found := {one.key: one.why for one in (*wrong, *done.wrong)}),
        typed={what: typed for what, typed in sent.items() if what.partition(forms.SEPARATOR)[2] not in unseen}
        if found
        else {},
    )


def _to_bag(page: Page, sent: forms.Fields, told: Told) -> Response:
    bag = sent.get("bag", "")
    if not (bag.startswith("bag-") and bag[4:].isdecimal() and bag.isascii() and len(bag) < 9):
        return _back(f"/check-off?told={page.remember(told)}")
    return _back(f"/check-off?told={page.remember(replace(told, bag=bag))}#{bag}")


def _as_json(page: Page, trip: str, told: Told, keys: set[str]) -> dict[str, Any]:
    checked = checked_off.progress(page.store, trip)
    rows = {forms.key(line.kind, line.name): line for line in checked}
    return {
        "status": views.status(checked),
        "kept": told.kept,
        "notes": told.notes,
        "gaps": [f"{found.severity.upper()}: {found.what}. {found.do}" for found in told.gaps],
        "wrong": dict(told.wrong),
        "rows": {
            key: {"state": forms.state(rows[key].answer), "said": views.said(rows[key])} for key in keys if key in rows
        },
    }


def undo(page: Page, request: Request) -> Response:
    """Take back the last answer about one thing; what else was changed in its bag is kept, as Save keeps it."""
    sent = _sent(request)
    kind, name = forms.thing(sent.get("undo", ""))
    trip, key = _trip_of(page, sent), forms.key(kind, name)
    ticks, wrong = forms.ticks(
        {what: typed for what, typed in sent.items() if what.partition(forms.SEPARATOR)[2] != key}
    )
    by = _name(sent) if ticks else ""
    with page.one_at_a_time:  # sent twice at once, it takes back one answer
        told = _kept(page, trip, sent, ticks, wrong, by=by)
        note = _taken_back(page, trip, (kind, name), was=sent.get(f"was{forms.SEPARATOR}{key}"))
    return _to_bag(page, sent, replace(told, notes=(clean.plain(note), *told.notes)))


def _taken_back(page: Page, trip: str, thing: tuple[str, str], *, was: str | None) -> str:
    for line in checked_off.progress(page.store, trip):
        if (line.kind, line.name) == thing and was is not None and was != forms.state(line.answer):
            return f"Nothing taken back: {line.name} has another answer meanwhile, {views.said(line) or 'none'}"
    gone = checked_off.undo(page.store, trip, at=page.now(), thing=thing)
    return f"Taken back: {gone.name}, {gone.words}" if gone else "There is nothing to take back"


def glove(page: Page, request: Request) -> Response:
    """Switch rows for gloved fingers on or off, on this phone."""
    here = _sent(request).get("here", "")
    response = _back(_here(here))
    _set_cookie(page, response, "glove", "" if _cookie(page, request, "glove") else "on")
    return response


def show_readings(page: Page, request: Request) -> Response:
    """Every battery with a place for its volts; after a form, what was recorded and what could not be."""
    kept = page.read.get(request.query_params.get("told", "")) or Readings({}, tuple(taking.rows(page.store, {})))
    return _readings(page, request, kept)


def save_readings(page: Page, request: Request) -> Response:
    """Record every reading that was typed, once however often the form is sent; what cannot be taken stays.

    A form that comes again with something else typed is recorded where it differs.
    """
    sent = _sent(request)
    form = sent.get("form", "")
    word = form if form.isascii() and form.isalnum() and len(form) <= WORD_MOST else secrets.token_hex(9)
    with page.one_at_a_time:
        before = page.read.get(word)
        if before is None or before.typed != sent:
            told = {row.battery.name: row for row in before.rows if row.told} if before else {}
            again = {name: row for name, row in told.items() if before and taking.same(sent, before.typed, name)}
            rows = tuple(taking.rows(page.store, sent, at=page.now(), told=again))
            page.read[word] = Readings(sent if any(row.wrong for row in rows) else {}, rows, sent)
            while len(page.read) > TOLD_KEPT:
                page.read.popitem(last=False)
    return _back(f"/readings?told={word}")


def _readings(page: Page, request: Request, kept: Readings) -> Response:
    rows, sent = kept.rows, kept.sent
    return _html(
        page,
        request,
        "phone_readings.html.jinja",
        status_code=400 if any(row.wrong for row in rows) else 200,
        form=secrets.token_hex(9),
        rows=[
            {
                "key": row.battery.name,
                "name": clean.plain(row.battery.name),
                "place": clean.plain(row.battery.vehicle or row.battery.bag or "loose"),
                "volts": row.volts,
                "load": row.load,
                "told": clean.plain(row.told),
                "wrong": clean.plain(row.wrong),
            }
            for row in rows
        ],
        sent={what: sent.get(what, "") for what in (*taking.SHARED, *taking.CHECKS)},
        recorded=sum(1 for row in rows if row.told),
    )


def card(page: Page, request: Request) -> Response:
    """The card of the trip's bank, from the same document as the printed one."""
    on = page.now().date()
    kit, trip = packed(page.store, page.meant(), on=on)
    document = build_card(kit, trip, on=on)
    shown = clean.for_paper(document, has=typeface.has)
    faces = [
        {"title": face.title, "number": number, "blocks": place_blocks(face, number)}
        for number, face in enumerate(shown.faces, start=1)
    ]
    stops = [views.gap(found) for found in assess(kit, trip, on=on).stops]
    marks = marks_line(document)
    return _html(page, request, "phone_card.html.jinja", card=shown, faces=faces, marks=marks, stops=stops)


def a_file(page: Page, request: Request) -> Response:
    """The style sheet or the script; nothing else is a file."""
    name = request.path_params["file"]
    if name == "favicon.ico":
        return Response(status_code=204)  # browsers ask for one
    if name not in FILES:
        raise NotFound("there is no such page", hint="Begin at the first page.")
    return Response((resources.folder("templates") / name).read_bytes(), media_type=FILES[name])
