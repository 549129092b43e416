"""What is ticked on the sheet: every thing in its bag, with the state to see and what is wrong with it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from kitlist.base import resources
from kitlist.base.measures import beside, with_unit
from kitlist.base.terms import Conductor, Units
from kitlist.faces.paper.build_words import capital
from kitlist.faces.paper.document import Section, SheetItem
from kitlist.kit import Ballast, Clamp, Gear, Kit, Lead, Rod, Tool
from kitlist.kit import Item as OwnItem
from kitlist.readiness import Readiness
from kitlist.rules import RULES, Gap, Severity
from kitlist.trips import check_off

Thing = Lead | Ballast | Clamp | Rod | Gear | Tool | OwnItem
NO_BAG = check_off.NO_BAG
CARD = "card"  # what gaps about the glovebox card are about
_RULES = {rule.name: rule for rule in RULES}
_COUNTED = ("links-too-few", "link-without-spare", "battery-cover-missing", "safety-glasses-missing")


@cache
def wording() -> Mapping[str, Any]:
    """The sheet's fixed wording."""
    path = resources.folder("seed_data") / "words" / "sheet.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def bags(
    readiness: Readiness, *, called: Mapping[str, str] | None = None, units: Units = Units.METRIC
) -> tuple[Section, ...]:
    """A section a bag, in walking order; what has no bag comes last. Numbered as the check-off counts.

    `called` has a shorter name for some bags and things, where a paper needs one.
    """
    named = called or {}
    filled: dict[str, list[check_off.Line]] = {}
    for line in check_off.lines(readiness.kit):
        filled.setdefault(line.bag, []).append(line)
    return tuple(
        Section(title=named.get(bag, bag), note=lines[0].place, items=tuple(_bag_items(lines, readiness, named, units)))
        for bag, lines in filled.items()
    )


def _bag_items(
    lines: Iterable[check_off.Line], readiness: Readiness, called: Mapping[str, str], units: Units
) -> list[SheetItem]:
    """The things of a bag, what nobody leaves without first; each keeps the number that its answer is typed in by."""
    ordered = sorted(lines, key=lambda line: not carried_first(line.thing))
    return [
        replace(
            item(line.thing, readiness, called=called, units=units),
            number=line.number,
            first=carried_first(line.thing),
        )
        for line in ordered
    ]


def recheck(
    readiness: Readiness,
    *,
    card_hash: str,
    called: Mapping[str, str] | None = None,
    units: Units = Units.METRIC,
) -> tuple[SheetItem, ...]:
    """What nobody leaves without, looked at again at the door, with what is wrong with it."""
    stale = any(gap.subject == CARD and gap.weight is not Severity.NOTE for gap in readiness.gaps)
    return (*_must_carry(readiness, called or {}, units), _card_item(card_hash, stale=stale))


def _card_item(card_hash: str, *, stale: bool) -> SheetItem:
    """The card: the one with this hash is the one that holds."""
    if not card_hash:
        return SheetItem(what="Glovebox card, laminated", gap_word="none yet")
    return SheetItem(what="Glovebox card, laminated", see=f"hash {card_hash}", gap_word="print anew" if stale else "")


def _must_carry(readiness: Readiness, called: Mapping[str, str], units: Units) -> Iterator[SheetItem]:
    for block in wording()["must_carry"]:
        found = [t for t in things(readiness.kit) if getattr(t, "what", "") in block["kinds"] and t.count > 0]
        if not found:
            yield SheetItem(what=block["missing"], need="1", have="0", short_by=1, gap_word="missing", stays=True)
        yield from (item(thing, readiness, called=called, units=units) for thing in found)
    yield from (item(own, readiness, called=called, units=units) for own in readiness.kit.items if own.must_carry > 0)


def carried_first(thing: Thing) -> bool:
    """Whether nobody leaves without it."""
    if isinstance(thing, OwnItem):
        return thing.must_carry > 0
    return any(getattr(thing, "what", "") in block["kinds"] for block in wording()["must_carry"])


def what_it_is(thing: Thing) -> tuple[str, str]:
    """A thing in words with its details, and the state to see."""
    return _what(thing, thing.name, Units.METRIC), wording()["see"].get(_kind(thing), "")


def things(kit: Kit) -> tuple[Thing, ...]:
    """All that is stowed, kind by kind."""
    return (*kit.gear, *kit.leads, *kit.ballasts, *kit.clamps, *kit.rods, *kit.tools, *kit.items)


def item(
    thing: Thing,
    readiness: Readiness,
    *,
    called: Mapping[str, str] | None = None,
    units: Units = Units.METRIC,
) -> SheetItem:
    """One thing as a line to tick."""
    subjects = (thing.name, "links") if thing == _first_link(readiness.kit) else (thing.name,)
    gaps = [gap for gap in readiness.gaps if gap.subject in subjects or thing.name in gap.also]
    asked = gaps or [gap for gap in readiness.gaps if gap.rule in _RULES and _kind(thing) in _RULES[gap.rule].asks_for]
    short_by = _short_by(asked, thing)
    return SheetItem(
        what=_what(thing, (called or {}).get(thing.name, thing.name), units),
        see=wording()["see"].get(_kind(thing), ""),
        need=str(thing.count + short_by),
        have=str(thing.count),
        short_by=short_by,
        gap_word=_gap_word(gaps, packed=thing.count > 0, asked=bool(asked)),
        stays=_stays(thing, gaps),
    )


def _stays(thing: Thing, gaps: Iterable[Gap]) -> bool:
    """Whether a thing as it is goes in no bag: it alone stops the trip, or counts as not packed for it is unsound."""
    return any(gap.weight is Severity.STOP for gap in gaps) or (isinstance(thing, Gear) and thing.sound is False)


def _kind(thing: Thing) -> str:
    if isinstance(thing, Rod):
        return "rod"
    if isinstance(thing, OwnItem):
        return "item"
    if isinstance(thing, Ballast):
        return "ballast-strip"
    return str(thing.use if isinstance(thing, Lead) else thing.what)


def _what(thing: Thing, name: str, units: Units) -> str:
    return capital(", ".join(part for part in (name, *_details(thing, units)) if part))


def _details(thing: Thing, units: Units) -> Iterable[str]:
    if isinstance(thing, Lead):
        metal = "" if thing.conductor in (Conductor.COPPER, Conductor.UNKNOWN) else f" {thing.conductor}"
        yield beside(thing.length_m, "m", units=units) if thing.length_m else ""
        yield f"{beside(thing.area_mm2, 'mm²', units=units)}{metal}" if thing.area_mm2 else ""
    elif isinstance(thing, Ballast):
        yield f"{thing.width_mm:g} x {thing.thickness_mm:g} mm {thing.metal}" if thing.width_mm else ""
        yield beside(thing.length_m, "m", units=units) if thing.length_m else ""
    elif isinstance(thing, Rod):
        yield f"{beside(thing.diameter_mm, 'mm', units=units)} {thing.designation}"
    elif isinstance(thing, Gear):
        yield f"shade {thing.shade:g}" if thing.shade else ""
        yield thing.protection
    elif isinstance(thing, Tool):
        yield str(thing.agent) if thing.agent and thing.agent not in thing.name else ""
        yield beside(thing.amount_kg, "kg", units=units) if thing.amount_kg else ""
        yield with_unit(thing.volume_l, "L") if thing.volume_l else ""
        yield f"to {thing.expires_on.isoformat()}" if thing.expires_on else ""
    elif isinstance(thing, OwnItem):
        yield f"to {thing.expires_on.isoformat()}" if thing.expires_on else ""


def _first_link(kit: Kit) -> Lead | None:
    return next((lead for lead in kit.leads if lead.use == "link"), None)


def _short_by(gaps: list[Gap], thing: Thing) -> int:
    """How many are missing, which only a gap says: by its count, or one of none; of an own item what must be carried.

    What is recorded with none of it, and nothing asks for, is not short: no verdict waits for it.
    """
    for gap in gaps:
        counts = gap.rule in _COUNTED and gap.subject in ("links", thing.name)
        if counts and gap.measured is not None and gap.required is not None:
            return max(0, int(gap.required - gap.measured))
    if isinstance(thing, OwnItem):
        return max(0, thing.must_carry - thing.count)
    return 1 if thing.count == 0 and gaps else 0


def _gap_word(gaps: list[Gap], *, packed: bool, asked: bool) -> str:
    """The mark of the gravest gap; what is in the bag is called missing only where no gap says what is wrong.

    A gap whose rule has no word of its own still stands at its thing: nobody may tick over it.
    """
    marks = [mark for gap in gaps if gap.rule in _RULES and (mark := _RULES[gap.rule].mark_of(gap))]
    if not any(marks) and any(gap.weight is not Severity.NOTE for gap in gaps):
        return "see gaps"
    if not marks and not packed:
        # a bare number would read as an amount of what is to be seen
        return "missing" if asked else "none packed"
    return next((mark for mark in marks if not packed or mark != "missing"), marks[0] if marks else "")
