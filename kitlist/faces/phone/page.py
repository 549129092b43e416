"""What every page of the phone stands on: the store, the trip, the clock, its cookies; and how a page is filled."""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from urllib.parse import quote, unquote

from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from kitlist.base import clean
from kitlist.base.errors import BadData, KitlistError, NotFound
from kitlist.faces.paper.document import DEFER
from kitlist.faces.paper.html import fill
from kitlist.faces.phone import forms, taking
from kitlist.faces.phone.guard import Door
from kitlist.faces.phone.views import Told
from kitlist.kit import next_trip, raw_values
from kitlist.store import Store
from kitlist.store.snapshot import trips

TOLD_KEPT = 64
ADDRESSES = ("/", "/check-off", "/readings", "/weld", "/card", "/paste")
COOKIE_S = 30 * 24 * 3600  # longer than a trip
NIGHT = ("", "day", "night")  # as the phone is set, or as somebody chose

States = tuple[str, ...] | None
View = Callable[["Page", Request], Response]


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


def answering(page: Page, view: View) -> Callable[[Request], Response]:
    """A view that answers every error of ours with a page of one sentence."""

    def answered(request: Request) -> Response:
        try:
            return view(page, request)
        except KitlistError as error:
            status = 404 if isinstance(error, NotFound) else 400
            told = {"message": clean.plain(error.message), "hint": clean.plain(error.hint or "")}
            if wants_json(request):
                return JSONResponse(told, status_code=status)
            return html(page, request, "phone_message.html.jinja", status_code=status, **told)

    return answered


def html(page: Page, request: Request, template: str, *, status_code: int = 200, **values: Any) -> HTMLResponse:
    """A page of a template, with what all of them share."""
    theme = cookie(page, request, "night")
    shared = {
        "glove": cookie(page, request, "glove") == "on",
        "theme": theme if theme in NIGHT else "",
        "defer": DEFER,
        "here": here(request.url.path),
        "by": cookie(page, request, "by"),
    }
    return HTMLResponse(fill(template, **{**shared, **values}), status_code=status_code)


def here(address: str) -> str:
    """The page to go back to: one of ours, else the first."""
    return address if address in ADDRESSES else "/"


def cookie(page: Page, request: Request, what: str) -> str:
    """What this phone remembers of itself; "" where nothing."""
    return unquote(request.cookies.get(f"{page.door.cookie}-{what}", ""))


def set_cookie(page: Page, response: Response, what: str, value: str) -> None:
    """Let this phone remember something of itself."""
    response.set_cookie(f"{page.door.cookie}-{what}", quote(value), httponly=True, samesite="strict", max_age=COOKIE_S)


def wants_json(request: Request) -> bool:
    """Whether a script asks, not somebody who looks at pages."""
    return request.headers.get("accept", "") == "application/json"


def sent(request: Request) -> dict[str, str]:
    """The fields of the form that was sent. Raises Malformed."""
    return forms.fields(request.scope["body"])


def back(address: str) -> RedirectResponse:
    """To another page, after a form."""
    return RedirectResponse(address, status_code=303)


def name_of(fields: forms.Fields) -> str:
    """Who checks. Raises Malformed where that is not said."""
    try:
        by = raw_values.one_line(fields.get("by", ""))
    except ValueError as error:
        raise forms.Malformed(f"who checks cannot be that: {error}") from None
    if not by:
        raise forms.Malformed("who checks is not said", hint="Go back and write a name.")
    return by


def trip_of(page: Page, fields: forms.Fields) -> str:
    """The trip that is meant, and that the form was about. Raises BadData where another trip has come up since."""
    trip = page.meant()
    if (shown := fields.get("trip", trip)) != trip:
        raise BadData(
            f"nothing was kept: that page was about {shown[:60]}, and the trip is now {trip}",
            hint="Load the check-off again, and answer there.",
        )
    return trip
