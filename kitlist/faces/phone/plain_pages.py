"""The pages that only show: where the trip stands, the card, the files; and the switches for gloves and night."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from kitlist.base import clean, resources
from kitlist.base.errors import NotFound
from kitlist.faces.judging import in_units, judged, packed
from kitlist.faces.paper import typeface
from kitlist.faces.paper.build_card import build_card
from kitlist.faces.paper.build_items import wording
from kitlist.faces.paper.html import marks_line, place_blocks
from kitlist.faces.phone import views
from kitlist.faces.phone.page import NIGHT, Page, back, cookie, here, html, sent, set_cookie
from kitlist.readiness import assess
from kitlist.store import settings

FILES = {
    "phone.css": ("text/css", ("phone_ink.css", "phone.css")),
    "phone.js": ("text/javascript", ("pocket_text.js", "phone.js")),
    "phone_rows.js": ("text/javascript", ("phone_rows.js",)),
    "phone_volts.js": ("text/javascript", ("phone_volts.js",)),
    "phone_weld.js": ("text/javascript", ("phone_weld.js",)),
}


def home(page: Page, request: Request) -> Response:
    """Where the trip stands: verdict, gaps, and the ways on."""
    readiness = judged(page.store, page.meant(), on=page.now().date())
    return html(
        page,
        request,
        "phone_home.html.jinja",
        trip=clean.plain(readiness.trip.name),
        verdict=readiness.word,
        meaning=readiness.meaning,
        gaps=[views.gap(found) for found in readiness.gaps],
        cautions=[clean.plain(text) for text in wording()["cautions"]],
    )


def card(page: Page, request: Request) -> Response:
    """The card of the trip's bank, from the same document as the printed one."""
    on = page.now().date()
    kit, trip = packed(page.store, page.meant(), on=on)
    units = settings.of(page.store).units
    document = build_card(kit, trip, on=on, units=units)
    shown = clean.for_paper(document, has=typeface.has)
    faces = [
        {"it": face, "blocks": place_blocks(face, place)}
        for place, face in enumerate(shown.faces, start=1)
        if face.blocks
    ]
    stops = [views.gap(found) for found in in_units(assess(kit, trip, on=on), units).stops]
    marks = marks_line(document)
    return html(page, request, "phone_card.html.jinja", card=shown, faces=faces, marks=marks, stops=stops)


def glove(page: Page, request: Request) -> Response:
    """Switch rows for gloved fingers on or off, on this phone."""
    response = back(here(sent(request).get("here", "")))
    set_cookie(page, response, "glove", "" if cookie(page, request, "glove") else "on")
    return response


def night(page: Page, request: Request) -> Response:
    """Day, night, or as the phone is set, on this phone."""
    fields = sent(request)
    response = back(here(fields.get("here", "")))
    chosen = fields.get("night", "")
    set_cookie(page, response, "night", chosen if chosen in NIGHT else "")
    return response


def a_file(page: Page, request: Request) -> Response:
    """A style sheet or a script; nothing else is a file."""
    name = request.path_params["file"]
    if name == "favicon.ico":
        return Response(status_code=204)  # browsers ask for one
    if name not in FILES:
        raise NotFound("there is no such page", hint="Begin at the first page.")
    kind, parts = FILES[name]
    return Response(b"".join((resources.folder("templates") / part).read_bytes() for part in parts), media_type=kind)
