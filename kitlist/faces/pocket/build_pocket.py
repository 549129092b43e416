"""The pocket page as one file: steps, bags, tables and live numbers of one trip, whole by itself.

Everything on it is judged, computed and worded elsewhere; here it is put in order and made into one HTML file whose
script may run only as it was written: the policy in its head names the digest of each part.
"""

from __future__ import annotations

import base64
import hashlib
import json
from dataclasses import dataclass
from datetime import date
from typing import Any

from kitlist.base import clean, resources
from kitlist.base.errors import KitlistError
from kitlist.faces.paper import hookup
from kitlist.faces.paper.build_card import hookup_of
from kitlist.faces.paper.build_items import carried_first, item, wording
from kitlist.faces.paper.document import DEFER
from kitlist.faces.paper.figure import Drawing
from kitlist.faces.paper.html import fill
from kitlist.faces.pocket.answers import answer, asked
from kitlist.faces.pocket.reckoned import Reckoned, exported, kinds_of_rods
from kitlist.kit.digest import kit_digest
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.card import card_facts
from kitlist.outlook.days_book import day_book
from kitlist.outlook.lasting import table
from kitlist.outlook.procedure_steps import procedure_for
from kitlist.outlook.procedure_words import WordedStage, always, why_barred, worded
from kitlist.readiness import Readiness
from kitlist.trips import check_off

DRAWING_MM = 86.0
SCRIPTS = ("pocket_reckoning.js", "pocket_text.js", "pocket.js")
STYLES = ("phone_ink.css", "pocket.css")


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsOfBattery:
    """The printed table of one battery: volts, and the sure rods of each kind."""

    name: str
    rows: tuple[tuple[str, tuple[int, ...]], ...]


def reckoned_of(readiness: Readiness) -> Reckoned:
    """The bank of the trip as the page reckons with it; no rig where it may not be linked, or is not known."""
    outlook = readiness.outlook
    batteries = tuple(outlook.batteries.values())
    bank = outlook.bank
    linkable = bank is not None and not bank.bars and bank.rig is not None
    coldest_c = min((one.coldest_c for one in batteries), default=0.0)
    return Reckoned(
        batteries=batteries,
        bank=readiness.trip.strings if bank is not None else (),
        rig=bank.rig if linkable and bank is not None else None,
        kinds=kinds_of_rods(bank, outlook.rods, coldest_c=coldest_c) if linkable and bank is not None else (),
        coldest_c=coldest_c,
        hot_limit_ratio=outlook.hot_limit_ratio,
    )


def build_pocket(readiness: Readiness, *, on: date) -> str:
    """The page as HTML."""
    reckoned = reckoned_of(readiness)
    trip = readiness.trip
    data = exported(reckoned) | {
        "format": 1,
        "kit": kit_digest(readiness.kit, trip),
        "trip": trip.name,
        "bank": [name for string in reckoned.bank for name in string],
        "bank_strings": len(reckoned.bank),
        "packed": _packed(readiness),
        "answers": [[typed.as_data(), _short(_once(answer(reckoned, typed)))] for typed in asked(reckoned)],
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    text = text.replace("<", "\\u003c")  # nothing in it ends the script that holds it
    script = "\n".join(_file(name) for name in SCRIPTS)
    style = "\n".join(_file(name) for name in STYLES)
    stages, barred = _steps(readiness, on=on)
    return fill(
        "pocket.html.jinja",
        data=text,
        script=script,
        style=style,
        policy=policy(script=script, style=style),
        digest=hashlib.sha256((text + script).encode()).hexdigest(),
        defer=DEFER,
        trip=clean.typeset(clean.plain(trip.name)),
        crew=clean.plain(trip.crew or trip.name),
        made_on=on.isoformat(),
        kit=data["kit"],
        word=readiness.word,
        meaning=readiness.meaning,
        gaps=[(str(gap.weight), clean.typeset(clean.plain(gap.what)), clean.typeset(clean.plain(gap.remedy)))
              for gap in readiness.gaps],
        always=always(),
        barred=barred,
        stages=stages,
        drawing=_drawing(readiness, on=on),
        batteries=[_battery(at, one) for at, one in enumerate(reckoned.batteries)],
        kinds=[kind.rod.words for kind in reckoned.kinds],
        coldest=clean.typeset(f"{reckoned.coldest_c:g} °C"),
        live=reckoned.rig is not None,
        tables=_tables(reckoned),
        bars=_bars(reckoned),
        repairs=_repairs(readiness),
        book=_book(readiness),
        bags=_bags(readiness),
        cautions=[clean.typeset(clean.plain(text)) for text in wording()["cautions"]],
    )  # fmt: skip


def _once(answered: dict[str, Any]) -> dict[str, Any]:
    """An answer with each current once: kinds of rods that share a covering share it, and the page computes it once."""
    seen: list[Any] = []
    kinds = []
    for kind in answered["kinds"]:
        band = kind["band"]
        kinds.append({name: value for name, value in kind.items() if name != "band" or band not in seen})
        seen.append(band)
    return answered | {"kinds": kinds}


def _short(value: Any) -> Any:
    """An answer with its numbers to eleven figures: a hundred times finer than the page is compared by."""
    if isinstance(value, float):
        return float(f"{value:.11g}")
    if isinstance(value, dict):
        return {key: _short(inner) for key, inner in value.items()}
    return [_short(inner) for inner in value] if isinstance(value, list) else value


def policy(**parts: str) -> str:
    """What the page may do: run this script, use this style, and nothing else; no address is ever asked."""
    of = {name: base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for name, text in parts.items()}
    return (
        f"default-src 'none'; script-src 'sha256-{of['script']}'; style-src 'sha256-{of['style']}'; "
        "base-uri 'none'; form-action 'none'"
    )


def _file(name: str) -> str:
    return (resources.folder("templates") / name).read_text(encoding="utf-8")


def _steps(readiness: Readiness, *, on: date) -> tuple[tuple[WordedStage, ...], list[tuple[str, str]]]:
    """The steps in words, and why the bank may not be linked."""
    if not readiness.trip.bank:
        return (), [("No bank is chosen for this trip.", "kitlist bank shows which batteries to link.")]
    steps = procedure_for(readiness.kit, readiness.trip, readiness.outlook, on=on)
    shown = clean.for_paper(worded(steps), has=lambda character: True)
    return shown, [(clean.typeset(why), clean.typeset(cure)) for why, cure in why_barred(steps)]


def basis_of(readiness: Readiness, *, on: date) -> str:
    """The digest of the steps and tables that the page shows, as a card's; "" where no card would be made."""
    try:
        return card_facts(readiness.kit, readiness.trip, on=on).basis
    except KitlistError:
        return ""


def _drawing(readiness: Readiness, *, on: date) -> Drawing | None:
    """The drawing of the bank; none where there is no card to make."""
    try:
        facts = card_facts(readiness.kit, readiness.trip, on=on)
    except KitlistError:
        return None
    return hookup.draw(clean.for_paper(hookup_of(facts), has=lambda character: True), width_mm=DRAWING_MM)


def _battery(at: int, one: BatteryOutlook) -> dict[str, Any]:
    place = one.battery.vehicle or one.battery.bag or "loose"
    return {"at": at, "name": clean.plain(one.battery.name), "place": clean.plain(place)}


def _packed(readiness: Readiness) -> dict[str, int]:
    """Rods packed of each packet, by its name."""
    return {rod.name: rod.count for rod in readiness.kit.rods}


def _tables(reckoned: Reckoned) -> list[RowsOfBattery]:
    lastings = [kind.ladder[0].lasting for kind in reckoned.kinds]
    if not lastings:
        return []
    found = []
    for string in reckoned.bank:
        for name in string:
            rows = tuple((f"{row.volts_v:.2f}", row.rods) for row in table(lastings, name))
            found.append(RowsOfBattery(name=clean.plain(name), rows=rows))
    return found


def _bars(reckoned: Reckoned) -> list[dict[str, Any]]:
    """Each kind's range beside the bank's current as it was computed for the trip, and what that is for it."""
    shown = []
    for kind in reckoned.kinds:
        rod = kind.rod
        band = rod.band
        shown.append(
            {
                "words": rod.words,
                "range": _amps(rod.range.low_a, rod.range.high_a) if rod.range else "see packet",
                "band": _amps(band.low_a, band.high_a) if band else "not known",
                "fit": str(rod.fit) if rod.fit else "not known",
                "means": rod.fit.words if rod.fit else "",
            }
        )
    return shown  # fmt: skip


def _amps(low_a: float, high_a: float) -> str:
    return clean.typeset(f"{low_a:.0f} to {high_a:.0f} A")


def _repairs(readiness: Readiness) -> list[dict[str, str]]:
    shown = []
    for one in readiness.outlook.repairs:
        best = one.best
        behind = one.repair.behind.strip()
        shown.append(
            {
                "name": clean.plain(one.repair.name),
                "part": clean.plain(one.repair.part),
                "class": str(one.repair_class) if one.repair_class else clean.plain(one.not_known),
                "rod": best.rod.words if best else "no packed rod",
                "behind": clean.plain(behind) or "not asked what is behind it",
            }
        )
    return shown


def _book(readiness: Readiness) -> list[str]:
    """The day's book: what it begins from, then each repair in its turn, then what is not in it."""
    book = day_book(readiness.kit, readiness.trip, readiness.outlook)
    if book is None:
        return []
    turns = [f"{number}. {turn.words}" for number, turn in enumerate(book.turns, start=1)]
    return [clean.typeset(clean.plain(f"{line}.")) for line in (book.words, *turns, *book.left_out_words)]


def _bags(readiness: Readiness) -> list[dict[str, Any]]:
    bags: dict[str, dict[str, Any]] = {}
    for line in check_off.lines(readiness.kit):
        bag = bags.setdefault(line.bag, {"name": clean.plain(line.bag), "place": clean.plain(line.place), "rows": []})
        seen = item(line.thing, readiness)
        bag["rows"].append(
            {
                "key": f"{line.kind}:{line.name}",
                "number": line.number,
                "what": clean.typeset(clean.plain(seen.what, longest=160)),
                "see": clean.typeset(clean.plain(seen.see)),
                "count": line.thing.count,
                "word": clean.plain(seen.word),
                "must_carry": carried_first(line.thing),
            }
        )
    return list(bags.values())
