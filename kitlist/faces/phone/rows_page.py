"""The check-off: every bag with its things, answers kept as given, and what other phones answered meanwhile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from kitlist.base import clean
from kitlist.base.errors import KitlistError
from kitlist.faces.judging import judged
from kitlist.faces.paper.build_items import item
from kitlist.faces.phone import forms, ticking, views
from kitlist.faces.phone.page import Page, back, html, name_of, sent, set_cookie, trip_of
from kitlist.faces.phone.views import Told
from kitlist.store import checked_off
from kitlist.trips import check_off


def show_check_off(page: Page, request: Request) -> Response:
    """Every bag with its things; who checks is asked first."""
    trip = page.meant()
    version = checked_off.version(page.store, trip)  # before the answers: one that comes between is shown once more
    checked = checked_off.progress(page.store, trip)
    states = tuple(f"{forms.key(line.kind, line.name)} {check_off.state(line.answer)}" for line in checked)
    told = page.recall(request.query_params.get("told", ""), states)
    return html(
        page,
        request,
        "phone_check_off.html.jinja",
        status_code=400 if told.wrong else 200,
        trip=clean.plain(trip),
        trip_name=trip,
        last_by=checked_off.last_by(page.store, trip),
        status=views.status(checked),
        left=len(check_off.left(checked)),
        only_left="left" in request.query_params,
        version=version,
        bags=views.bags(checked, told, words=gap_words(page, trip)),
        told=told,
    )


def gap_words(page: Page, trip: str) -> dict[str, str]:
    """The word of the gravest gap at each thing, by its key, as the sheet prints it; none where nothing is judged."""
    try:
        readiness = judged(page.store, trip, on=page.now().date())
    except KitlistError:
        return {}  # what cannot be judged does not keep anybody from ticking
    lines = check_off.lines(readiness.kit)
    return {forms.key(line.kind, line.name): item(line.thing, readiness).word for line in lines}


def news(page: Page, request: Request) -> Response:
    """For an open page: every row as it stands now, where anything changed since the version that it shows."""
    trip = page.meant()
    version = checked_off.version(page.store, trip)
    if request.query_params.get("since", "") == version:
        return JSONResponse({"version": version})
    return JSONResponse({"version": version, **stand(page, trip)})


def stand(page: Page, trip: str) -> dict[str, Any]:
    """How the check-off stands, for the script of an open page."""
    checked = checked_off.progress(page.store, trip)
    words = gap_words(page, trip)
    return {
        "status": views.status(checked),
        "left": len(check_off.left(checked)),
        "rows": {
            (key := forms.key(line.kind, line.name)): {
                "state": check_off.state(line.answer),
                "said": views.said(line),
                "word": words.get(key, ""),
            }
            for line in checked
        },
    }


def who(page: Page, request: Request) -> Response:
    """Remember on this phone who checks."""
    by = name_of(sent(request))
    response = back("/check-off")
    set_cookie(page, response, "by", by)
    return response


def save_check_off(page: Page, request: Request) -> Response:
    """Keep what this phone changed in a bag, and say what follows."""
    fields = sent(request)
    ticks, wrong = forms.ticks(fields)
    trip, by = trip_of(page, fields), name_of(fields)
    with page.one_at_a_time:  # a form that is sent twice at once is kept once
        told = _kept(page, trip, fields, ticks, wrong, by=by)
    return _to_bag(page, fields, told)


def _kept(
    page: Page,
    trip: str,
    fields: forms.Fields,
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
        asks={one.key: one.asks for one in done.wrong if one.asks},
        typed={what: typed for what, typed in fields.items() if what.partition(forms.SEPARATOR)[2] not in unseen}
        if found
        else {},
    )


def _to_bag(page: Page, fields: forms.Fields, told: Told) -> Response:
    bag = fields.get("bag", "")
    if not (bag.startswith("bag-") and bag[4:].isdecimal() and bag.isascii() and len(bag) < 9):
        return back(f"/check-off?told={page.remember(told)}")
    return back(f"/check-off?told={page.remember(replace(told, bag=bag))}#{bag}")


def undo(page: Page, request: Request) -> Response:
    """Take back the last answer about one thing; what else was changed in its bag is kept, as Save keeps it."""
    fields = sent(request)
    kind, name = forms.thing(fields.get("undo", ""))
    trip, key = trip_of(page, fields), forms.key(kind, name)
    ticks, wrong = forms.ticks(
        {what: typed for what, typed in fields.items() if what.partition(forms.SEPARATOR)[2] != key}
    )
    by = name_of(fields) if ticks else ""
    with page.one_at_a_time:  # sent twice at once, it takes back one answer
        told = _kept(page, trip, fields, ticks, wrong, by=by)
        note = _taken_back(page, trip, (kind, name), was=fields.get(f"was{forms.SEPARATOR}{key}"))
    return _to_bag(page, fields, replace(told, notes=(clean.plain(note), *told.notes)))


def _taken_back(page: Page, trip: str, thing: tuple[str, str], *, was: str | None) -> str:
    for line in checked_off.progress(page.store, trip):
        if (line.kind, line.name) == thing and was is not None and was != check_off.state(line.answer):
            return f"Nothing taken back: {line.name} has another answer meanwhile, {views.said(line) or 'none'}"
    gone = checked_off.undo(page.store, trip, at=page.now(), thing=thing)
    return f"Taken back: {gone.name}, {gone.words}" if gone else "There is nothing to take back"
