"""The walk round all batteries with a meter: each answer is checked and kept before the next battery is asked for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from kitlist.base import quantities
from kitlist.base.errors import BadData, KitlistError
from kitlist.base.measures import counted
from kitlist.faces.cli.asking import BackOne, Stopped, ask, ask_until, ask_yes, say_wrapped
from kitlist.faces.cli.measuring import doubts, record
from kitlist.faces.cli.talk import now, say, show

if TYPE_CHECKING:
    from kitlist.kit import Battery, Reading
    from kitlist.store import Store

WAYS = (
    "Volts at the posts, all loads off. Where one differs, add its own rest and temperature: 12.74 3h 20C. "
    "Enter alone passes a battery over, < goes back one, stop or Ctrl-C ends; what was kept stays."
)
_REST = re.compile(r"\d[\d.,]*(h|hrs?|hours?|min|mins|minutes|d|days?)|overnight", re.IGNORECASE)
_HOTTEST_C = 50.0


def walk_round(store: Store, shared: dict[str, Any]) -> None:
    """Ask for every battery in turn."""
    from kitlist.store import changes

    batteries = changes.listed(store, "battery")
    if not batteries:
        say("No batteries yet.\nkitlist battery add NAME vehicle=NAME chemistry=KIND c20=CAPACITY")
        return
    say_wrapped(WAYS)
    kept: dict[str, Reading] = {}
    try:
        _ask_shared(shared)
        at = 0
        while at < len(batteries):
            try:
                name = batteries[at].name
                if reading := _ask_one(store, batteries[at], shared, before=kept.get(name)):
                    kept[name] = reading
                at += 1
            except BackOne:
                at = max(at - 1, 0)
    except Stopped:
        pass
    show(f"{len(kept)} of {counted(len(batteries), 'battery', 'batteries')} recorded.")


def _ask_shared(shared: dict[str, Any]) -> None:
    """The rest and the temperature that hold for all, where the command did not say them."""
    at = 0
    while at < 2:
        field, question, take = (
            ("rested", "Rested how long, for example 12h or overnight:", _rest),
            ("battery_temp", "Battery temperature, for example 4C or 40F:", _temperature),
        )[at]
        try:
            if shared[field] is None or shared.get(f"asked {field}"):
                shared[field] = ask_until(question, take)
                shared[f"asked {field}"] = True
            at += 1
        except BackOne:
            at = max(at - 1, 0)


def _rest(text: str) -> str | None:
    if text:
        hours = quantities.parse(text, "h")
        if not 0 <= hours <= 9000:
            raise BadData(f"{text!r}: a rest is 0 to 9000 h", hint="Write it like 12h, 45min or 2d.")
    return text or None


def _temperature(text: str) -> str | None:
    if text:
        degrees = quantities.parse(text, "°C")
        if degrees > _HOTTEST_C:
            raise BadData(
                f"{degrees:g} °C is hotter than a battery stands", hint=f"Fahrenheit is written {text.rstrip('cC°')}F."
            )
    return text or None


def _ask_one(store: Store, battery: Battery, shared: dict[str, Any], *, before: Reading | None) -> Reading | None:
    """Ask for one battery until its answer can be kept; None where it is passed over.

    `before` is what this walk kept of it already: it is corrected, or stays as it is.
    """
    from kitlist.faces.words import reading_text
    from kitlist.kit import entry
    from kitlist.store import readings

    place = f" in {battery.vehicle or battery.bag}" if battery.vehicle or battery.bag else ", loose"
    said = {k: v for k, v in shared.items() if v is not None and not k.startswith("asked ")}
    said_before = f" ({before.volts_v:g})" if before else ""
    while answer := ask(f"{battery.name}{place}, volts{said_before}:"):
        try:
            given = said | {"battery": battery.name, **_parts(answer)}
            reading: Reading = entry.build("reading", {"taken_at": before.taken_at if before else now()} | given)
            for slip in doubts(store, reading):
                if not ask_yes(f"{slip.question} Keep {reading.volts_v:g} V for {battery.name} as it is?"):
                    break
            else:
                if before is None:
                    return record(store, given)
                corrected = readings.correct(
                    store, before.battery, before.taken_at.isoformat(" "), given, by_clock=now()
                )
                say(reading_text.recorded(corrected))
                return corrected
        except KitlistError as error:
            say_wrapped(error.message + (f" {error.hint}" if error.hint else ""))
    return None


def _parts(answer: str) -> dict[str, str]:
    """The volts, and the rest and the temperature of this battery where they stand behind: `12.74 3h 20C`."""
    volts, *more = answer.split()
    given = {"volts": volts}
    for word in more:
        if word.casefold() in ("v", "volt", "volts"):
            continue
        given["rested" if _REST.fullmatch(word) else "battery_temp"] = word
    return given
