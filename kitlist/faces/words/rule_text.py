"""A rule in words for a terminal: why, remedy, numbers in force, a bad and a good example, sources."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import fields
from typing import Any

from kitlist.kit import PLURALS, Kit, Trip, plain
from kitlist.kit.limits import Rulebook
from kitlist.readiness import assess
from kitlist.rules import Example, Rule, Severity


def explained(rule: Rule, book: Rulebook, *, columns: int) -> str:
    """All that is to be known of a rule, lines of at most `columns` characters."""
    return "\n".join(line for text in _texts(rule, book) for line in textwrap.wrap(text, columns))


def _texts(rule: Rule, book: Rulebook) -> Iterator[str]:
    yield f"{rule.name}: {rule.title}"
    most = "" if rule.severity is Severity.NOTE else " at the most"
    yield f"Severity: {rule.severity}{most}, {rule.severity.words}"
    if not rule.acceptable:
        yield "Never to be accepted."
    yield f"Why: {rule.why}"
    yield f"Do: {rule.remedy}"
    changed = {change.threshold.name: change for change in book.changes}
    for name in rule.numbers:
        told = (
            f", changed from {changed[name].threshold.shown(changed[name].threshold.value)}" if name in changed else ""
        )
        yield f"In force: {name} = {book.shown(name)}{told} ({book.thresholds[name].what})"
    good, bad = rule.good(), rule.bad()
    for gap in assess(bad.kit, bad.trip, on=bad.on).gaps[:1]:
        yield f"Bad: {'; '.join(differences(good, bad)) or 'as shown'}. Gap: {gap.what}"
    yield f"Good: {'; '.join(differences(bad, good)) or 'as shown'}. No gap."
    for source in rule.sources:
        yield f"Source: {source}"


def differences(other: Example, this: Example) -> Iterator[str]:
    """What is otherwise in this example than in the other, thing by thing.

    >>> from kitlist.rules import Severity, example
    >>> list(differences(example.whole(), example.with_trip(wet=True)))
    ['trip wet = True']
    """
    if other.on != this.on:
        yield f"judged on {this.on}"
    yield from _fields("trip", other.trip, this.trip)
    for kind, plural in PLURALS.items():
        if kind not in ("trip", "reading"):
            yield from _things(kind, getattr(other.kit, plural), getattr(this.kit, plural))
    yield from _things("trip", _beside(other), _beside(this))
    yield from _readings(other.kit, this.kit)


def _beside(shown: Example) -> tuple[Trip, ...]:
    """The other trips of an example's kit."""
    return tuple(trip for trip in shown.kit.trips if trip.name != shown.trip.name)


def _things(kind: str, others: tuple[Any, ...], these: tuple[Any, ...]) -> Iterator[str]:
    before, now = ({thing.name: thing for thing in things} for things in (others, these))
    yield from (f"no {kind} {name}" for name in before if name not in now)
    for name, thing in now.items():
        if name in before:
            yield from _fields(f"{kind} {name}:", before[name], thing)
        else:
            told = (f"{f.name} {plain(v)}" for f in fields(thing) if f.name != "name" and (v := getattr(thing, f.name)))
            yield f"{kind} {name}: {', '.join(list(told)[:4])}"


def _readings(other: Kit, this: Kit) -> Iterator[str]:
    for name, readings in this.readings_of.items():
        before = other.readings_of.get(name, ())
        if before and readings:
            yield from _fields(f"reading of {name}:", before[0], readings[0])
            yield from (
                f"{name} read {r.volts_v:g} V on {r.taken_at:%Y-%m-%d}" for r in readings[1:] if r not in before
            )
        elif bool(before) != bool(readings):
            yield f"{'a' if readings else 'no'} reading of {name}"


def _fields(title: str, other: Trip | Any, this: Trip | Any) -> Iterator[str]:
    for field in fields(this):
        before, now = getattr(other, field.name), getattr(this, field.name)
        if before != now:
            yield f"{title} {field.name} = {'not known' if now is None else plain(now)}"
