"""sweating-over-35-v: a bank over 35 V on a day so hot that a welder in leather sweats, or of unknown heat."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.measures import with_unit
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.rulebook import WET_LIMIT_V


def check(case: Case) -> Iterator[Gap]:
    """A gap where the trip is dry, the bank over the limit, and the hottest day over the warmth or not known."""
    bank, limit_v, limit_c = case.outlook.bank, case.limits.wet_limit_v, case.limits.sweating_above_c
    if bank is None or bank.full_v <= limit_v or case.trip.wet is not False:
        return  # wet-over-35-v judges what may be wet
    hottest_c = case.trip.hottest_c
    if hottest_c is None:
        yield Gap(
            subject="bank",
            what=f"{bank.full_v:.1f} V full, and the hottest day is not known: over {limit_c:g} °C sweat is wet",
            remedy="Look at the forecast and write down the hottest day.",
            command=f"kitlist trip edit {quoted(case.trip.name)} hottest=CELSIUS",
            required=limit_c,
            unit="°C",
            known=False,
            doing=Doing.ASK,
        )
    elif hottest_c > limit_c:
        yield Gap(
            subject="bank",
            what=f"{bank.full_v:.1f} V full and up to {with_unit(hottest_c, '°C')}: over {limit_c:g} °C sweat is wet",
            remedy="Weld in the cool of the day with dry gloves on a dry mat, body off the steel, and accept the gap "
            "with that; else two batteries.",
            command=f"kitlist accept sweating-over-35-v --for {quoted(case.trip.name)} --by NAME "
            f'--reason "WHAT IS DONE ABOUT IT" --until {case.trip.ends_on.isoformat()}',
            measured=hottest_c,
            required=limit_c,
            unit="°C",
        )


RULE = Rule(
    name="sweating-over-35-v",
    title="Over 35 V where one sweats",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="A welder in leather sweats above this warmth however dry the country is, and wet skin lets a current through.",
    remedy="The cool of the day, dry gloves, a dry mat; or two batteries.",
    sources=(WET_LIMIT_V.source,),
    check=check,
    numbers=("wet_limit_v", "sweating_above_c"),
    good=example.whole,
    bad=lambda: example.with_trip(hottest_c=33),
)
