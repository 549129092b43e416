"""The volts of every battery: what the last reading says, a place for a new one, and taking one back."""

from __future__ import annotations

import secrets

from starlette.requests import Request
from starlette.responses import Response

from kitlist.base import clean
from kitlist.faces.phone import taking
from kitlist.faces.phone.page import TOLD_KEPT, Page, Readings, back, html, sent
from kitlist.faces.phone.views import Told
from kitlist.store import readings

WORD_MOST = 32


def show_readings(page: Page, request: Request) -> Response:
    """Every battery with a place for its volts; after a form, what was recorded and what could not be."""
    word = request.query_params.get("told", "")
    kept = page.read.get(word) or Readings({}, tuple(taking.rows(page.store, {})))
    return _readings(page, request, kept, page.recall(word, ()))


def save_readings(page: Page, request: Request) -> Response:
    """Record every reading that was typed, once however often the form is sent; what cannot be taken stays.

    A form that comes again with something else typed is recorded where it differs.
    """
    fields = sent(request)
    form = fields.get("form", "")
    word = form if form.isascii() and form.isalnum() and len(form) <= WORD_MOST else secrets.token_hex(9)
    with page.one_at_a_time:
        before = page.read.get(word)
        if before is None or before.typed != fields:
            told = {row.battery.name: row for row in before.rows if row.told} if before else {}
            again = {name: row for name, row in told.items() if before and taking.same(fields, before.typed, name)}
            rows = tuple(taking.rows(page.store, fields, at=page.now(), before=again))
            page.read[word] = Readings(fields if any(row.wrong for row in rows) else {}, rows, fields)
            while len(page.read) > TOLD_KEPT:
                page.read.popitem(last=False)
    return back(f"/readings?told={word}")


def take_back(page: Page, request: Request) -> Response:
    """Take one reading out of the kit; `kitlist reading restore` brings it back."""
    battery, _, taken_at = sent(request).get("reading", "").rpartition("@")
    gone = readings.remove(page.store, battery, taken_at)
    note = f"Taken back: {gone.battery}, {gone.volts_v:g} V of {gone.taken_at:%Y-%m-%d %H:%M}"
    return back(f"/readings?told={page.remember(Told(notes=(clean.plain(note),)))}")


def _readings(page: Page, request: Request, kept: Readings, told: Told) -> Response:
    rows, fields = kept.rows, kept.sent
    last = taking.last_of_all(page.store)
    return html(
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
                "told": clean.typeset(clean.plain(row.told)),
                "wrong": clean.plain(row.wrong),
                "last": last.get(row.battery.name),
            }
            for row in rows
        ],
        sent={what: fields.get(what, "") for what in (*taking.SHARED, *taking.CHECKS)},
        recorded=sum(1 for row in rows if row.told),
        notes=told.notes,
    )
