"""The pages by address, behind the guard. Each lets the same functions work as the commands do."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.routing import Route

from kitlist.faces.paper.document import DEFER
from kitlist.faces.paper.html import fill
from kitlist.faces.phone import kept_page, plain_pages, rows_page, volts_page, weld_page
from kitlist.faces.phone.guard import Door, Guard
from kitlist.faces.phone.page import Page, View, answering
from kitlist.store import Store
from kitlist.store.noting import Signature


def build(path: Path, *, door: Door, now: Callable[[], datetime], rulebook: Path | None = None, trip: str | None = None,
          body_wait_s: float = 10.0) -> Guard:  # fmt: skip
    """The guarded app over one store. Raises StoreError where there is none."""
    page = Page(store=Store(path, rulebook=rulebook, signature=Signature("phone")), door=door, now=now, trip=trip)
    routes = [
        _get(page, "/", plain_pages.home),
        _get(page, "/check-off", rows_page.show_check_off),
        _post(page, "/check-off", rows_page.save_check_off),
        _post(page, "/check-off/undo", rows_page.undo),
        _get(page, "/check-off/news", rows_page.news),
        _post(page, "/who", rows_page.who),
        _get(page, "/readings", volts_page.show_readings),
        _post(page, "/readings", volts_page.save_readings),
        _post(page, "/readings/take-back", volts_page.take_back),
        _get(page, "/weld", weld_page.show_weld),
        _post(page, "/weld", weld_page.save_weld),
        _post(page, "/kept", kept_page.take_kept),
        _get(page, "/paste", kept_page.show_paste),
        _post(page, "/paste", kept_page.take_paste),
        _get(page, "/card", plain_pages.card),
        _post(page, "/glove", plain_pages.glove),
        _post(page, "/night", plain_pages.night),
        _get(page, "/{file}", plain_pages.a_file),
    ]
    thin = [Middleware(GZipMiddleware, compresslevel=5)]  # a hotspot far out is slow, and no page holds a secret
    # What needs no secret holds none: the scripts and style sheets, and the page that asks for the code again.
    again = fill("phone_again.html.jinja", defer=DEFER).encode()
    return Guard(
        Starlette(routes=routes, middleware=thin),
        door=door,
        body_wait_s=body_wait_s,
        open_to_all=frozenset(f"/{name}" for name in plain_pages.FILES),
        again=again,
    )


def _get(page: Page, address: str, view: View) -> Route:
    return Route(address, answering(page, view), methods=["GET"])


def _post(page: Page, address: str, view: View) -> Route:
    return Route(address, answering(page, view), methods=["POST"])
