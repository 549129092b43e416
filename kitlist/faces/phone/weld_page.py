"""A repair that was welded, written down where it was: what `kitlist weld add` keeps, once however often it is sent."""

from __future__ import annotations

import secrets
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from kitlist.base import clean
from kitlist.base.errors import KitlistError
from kitlist.base.measures import counted, with_unit
from kitlist.faces.judging import packed
from kitlist.faces.phone import forms
from kitlist.faces.phone.page import Page, back, cookie, html, sent, trip_of
from kitlist.faces.phone.views import Told
from kitlist.kit import Kit, Trip, Weld
from kitlist.outlook.own_rods import rod_words
from kitlist.store import pocket_taken, welds
from kitlist.store.pocket_taken import Fate
from kitlist.store.pocket_text import PocketEntry, PocketKind, PocketText
from kitlist.welding.repairs.parts import RepairClass, part

_TEXT = ("name", "rod", "ballast", "before", "after", "after_rested", "current")
_VOLTS = ("bank_v", "holder_v")
_FIELDS = (*_TEXT, *_VOLTS, "rods", "bank", "bank_strings")
_WORD_LONG = (8, 40)


def show_weld(page: Page, request: Request) -> Response:
    """The form, with what the trip says filled in; after one was sent, what was kept or why it could not be."""
    kit, trip = packed(page.store, page.meant(), on=page.now().date())
    packets = [rod for rod in kit.rods if rod.count > 0]
    told_now = page.recall(request.query_params.get("told", ""), ())
    filled = _filled(trip, packets[0].name if len(packets) == 1 else "") | dict(told_now.typed)
    wrong = told_now.wrong.get("weld", "")
    return html(
        page,
        request,
        "phone_weld.html.jinja",
        status_code=400 if wrong else 200,
        form=secrets.token_hex(9),
        trip=clean.plain(trip.name),
        trip_name=trip.name,
        repairs=[repair.name for repair in kit.repairs if repair.name in trip.repairs and not _never(repair.part)],
        packets=[
            {"name": rod.name, "words": clean.plain(f"{rod.name}, {rod_words(rod)}, {rod.count} left")}
            for rod in packets
        ],
        ballasts=[strip.name for strip in kit.ballasts if strip.count],
        sent={name: filled.get(name, "") for name in _FIELDS},
        notes=told_now.notes,
        wrong=clean.plain(wrong),
        welds=[clean.typeset(clean.plain(_line(weld))) for weld in kit.welds if weld.trip == trip.name],
    )


def save_weld(page: Page, request: Request) -> Response:
    """Keep a weld without a script, by the same way as a phone's script sends it: its form's word counts once."""
    fields = sent(request)
    trip = trip_of(page, fields)
    word = fields.get("form", "")
    shortest, longest = _WORD_LONG
    if not (word.isascii() and word.isalnum() and shortest <= len(word) <= longest):
        word = secrets.token_hex(9)
    kit, _ = packed(page.store, trip, on=page.now().date())
    now = page.now()
    try:
        entry = PocketEntry(
            kind=PocketKind.WELD,
            word=word,
            at=now,
            by=cookie(page, request, "by"),
            trip=trip,
            values=_values(fields, kit),
        )
        text = PocketText(written_at=now, trip=trip, kit="", entries=(entry,))
        with page.one_at_a_time:
            (done,) = pocket_taken.take(page.store, text, now=now, as_it_comes=True)
        wrong = done.sentence if done.fate in (Fate.REFUSED, Fate.ASKED) else ""
        note = f"{entry.values['name']}: {done.sentence}" if done.fate is Fate.ALREADY else done.sentence
    except KitlistError as error:
        wrong, note = error.message, ""
    if wrong:
        typed = {name: fields.get(name, "") for name in _FIELDS}
        return back(f"/weld?told={page.remember(Told(wrong={'weld': wrong}, typed=typed))}")
    return back(f"/weld?told={page.remember(Told(notes=(clean.plain(note),)))}")


def _values(fields: forms.Fields, kit: Kit) -> dict[str, Any]:
    """What was typed, as an entry has it. Raises Malformed where a number is none."""
    values: dict[str, Any] = {name: typed for name in _TEXT if (typed := fields.get(name, "").strip())}
    if "name" not in values:
        raise forms.Malformed("what was welded is not said")
    rods, strings = fields.get("rods", "").strip(), fields.get("bank_strings", "").strip() or "1"
    if not (rods.isascii() and rods.isdecimal() and strings.isascii() and strings.isdecimal()):
        raise forms.Malformed("how many rods burned, and how many strings, is a whole number")
    values |= {"rods": int(rods[:6]), "bank_strings": int(strings[:6])}
    values["bank"] = [name.strip() for name in fields.get("bank", "").split(",") if name.strip()]
    for name in _VOLTS:
        if typed := fields.get(name, "").strip():
            values[name] = _volts(typed)
    if (repair := welds.repair_named(kit, values["name"])) is not None:
        values["repair"] = repair
    return values


def _volts(typed: str) -> float:
    try:
        return float(typed.replace(",", ".").rstrip(" Vv"))
    except ValueError:
        raise forms.Malformed(f"{typed[:20]!r} is no number of volts") from None


def _filled(trip: Trip, packet: str) -> dict[str, str]:
    return {
        "rod": packet,
        "bank": ", ".join(trip.bank),
        "bank_strings": str(trip.bank_strings),
        "ballast": trip.ballast or "",
    }


def _never(name: str) -> bool:
    """Whether a part is never welded: it is not offered; what was welded all the same can be typed."""
    try:
        return part(name).repair_class is RepairClass.NEVER
    except KitlistError:
        return False


def _line(weld: Weld) -> str:
    volts = [] if weld.before_v is None else [f"{with_unit(weld.before_v, 'V')} before"]
    volts += [] if weld.after_v is None else [f"{with_unit(weld.after_v, 'V')} after"]
    return ", ".join((f"{weld.name}, {weld.welded_on}: {counted(weld.rods, 'rod')}", *volts))
