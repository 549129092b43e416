"""mend-not-settled: a repair made in the field that nobody has properly repaired or replaced since."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from kitlist.base.errors import KitlistError
from kitlist.base.sources import Source, Tag
from kitlist.kit import Mend
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass, part


def check(case: Case) -> Iterator[Gap]:
    """A gap for each on a vehicle that goes, or on none in particular; stop for a cracked one, and for a NEVER part."""
    waiting = [
        m for m in case.kit.mends if m.settled is None and (m.vehicle is None or m.vehicle in case.trip.vehicles)
    ]
    for mend in sorted(waiting, key=lambda m: not m.cracked):
        where = ", ".join(part for part in (mend.vehicle or "", mend.spot) if part)
        never = _never(mend)
        state = "no longer sound when it was looked at" if mend.cracked else _looks(mend)
        yield Gap(
            subject=mend.name,
            what=f"{mend.name}: {mend.part}{f' ({where})' if where else ''} "
            f"welded in the field on {mend.welded_on}, {f'which must never be; {state}' if never else state}",
            remedy="Do not drive on it: have it repaired or replaced first."
            if mend.cracked or never
            else "Have it properly repaired or replaced, and write down by whom.",
            command=f"kitlist mend edit {quoted(mend.name)} settled=HOW settled-on=DATE settled-by=NAME",
            severity=None if mend.cracked or never else Severity.FIX,
        )


def _never(mend: Mend) -> bool:
    try:
        return part(mend.part).repair_class is RepairClass.NEVER
    except KitlistError:
        return False


def _looks(mend: Mend) -> str:
    left = mend.looks_left
    return f"looks left: {', '.join(left)}" if left else "looked at three times and sound"


def _bad() -> Example:
    return example.with_kit(
        mends=(Mend(name="hanger", part="spring hanger", welded_on=date(2027, 1, 20), vehicle="North"),)
    )


def _good() -> Example:
    elsewhere = Mend(name="hanger", part="spring hanger", welded_on=date(2027, 1, 20), vehicle="West")
    return example.with_kit(mends=(elsewhere,))


RULE = Rule(
    name="mend-not-settled",
    title="Field repair not put right",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="A weld made at the track gets you home: nobody saw its inside, and it can crack at its edges under load.",
    remedy="Look at it at 5 km, at 50 km and after 24 to 48 h; then have it properly repaired or replaced.",
    sources=(Source(Tag.PRACTICE, "looks at 5 km, 50 km and 24 to 48 h"),),
    check=check,
    good=_good,
    bad=_bad,
    mark="field repair",
)
