"""Both sides of the thresholds of the circuit, skin, fire, tools, repairs and paper: (rule, kit, severity or None)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from edges import EDGES

from kitlist.base.terms import (
    BallastMetal,
    BatteryPlace,
    Chemistry,
    ClampKind,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    Fitting,
    GearKind,
    LeadUse,
    Mark,
    Position,
    RodStorage,
    StartBatteries,
    Steel,
    Terminal,
    ToolKind,
)
from kitlist.kit import Acceptance, Bead, Clamp, Item, Lead, Mend, Rod
from kitlist.kit.checked import Answer, CheckedOff
from kitlist.rules import Example, Severity
from kitlist.rules.ballast_gets_too_hot import with_strip
from kitlist.rules.example import (
    BAG,
    battery,
    gear,
    lead,
    reading,
    rod,
    tool,
    whole,
    with_battery,
    with_gear,
    with_kit,
    with_lead,
    with_reading,
    with_repair,
    with_tool,
    with_trip,
    without_gear,
    without_lead,
    without_tool,
)
from kitlist.rules.eye_protection_missing import COVERS_FACE
from kitlist.rules.four_without_ballast import with_four
from kitlist.rules.halves_not_level import apart, twins_apart
from kitlist.rules.packing import stowed
from kitlist.rules.parallel_strings_apart import with_strings
from kitlist.rules.short_arc_only import with_two
from kitlist.rules.starting_pair_parted import BOTH, ONE_STARTER
from kitlist.rules.starting_pair_parted import with_two as with_two_starters

JIS = CrankingStandard.JIS
FOUR = ("north-main", "north-second", "south-main", "south-second")
STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
PAIR, TWIN = StartBatteries.PAIR, StartBatteries.TWIN
STAINLESS, MILD = BallastMetal.STAINLESS, BallastMetal.MILD
Row = tuple[str, Callable[[], Example], Severity | None]


def plus(example: Example, **more: tuple[Any, ...]) -> Example:
    """An example with more of some things: `plus(whole(), leads=(...,))`."""
    return replace(example, kit=replace(example.kit, **{k: (*getattr(example.kit, k), *v) for k, v in more.items()}))


def judged_on(example: Example, day: int) -> Example:
    return replace(example, on=date(2027, 3, day))


def more_tools(example: Example, name: str, what: ToolKind, **fields: Any) -> Example:
    return plus(example, tools=(tool(name, what, **fields),))


def _fuses(first_a: float, second_a: float) -> Example:
    return more_tools(
        with_tool(ToolKind.FUSE, rating_a=first_a), "second", ToolKind.FUSE, rating_v=80, rating_a=second_a
    )


def _no_fuse_that_does_both() -> Example:
    weak = with_tool(ToolKind.FUSE, rating_a=100)
    return more_tools(weak, "low", ToolKind.FUSE, rating_v=32, rating_a=300)


def _two_meters(first_v: float, second_v: float | None) -> Example:
    return more_tools(
        with_tool(ToolKind.VOLTMETER, rating_v=first_v),
        "second meter",
        ToolKind.VOLTMETER,
        rating_v=second_v,
        accuracy_ratio=0.005,
    )


def _metered(rating_v: float, **trip: Any) -> Example:
    example = with_tool(ToolKind.VOLTMETER, rating_v=rating_v)
    return replace(example, trip=replace(example.trip, **trip))


def _covers(count: int, more: int) -> Example:
    """So many that insulate, and so many of which nobody has said."""
    return more_tools(
        with_tool(ToolKind.BATTERY_COVER, count=count), "canvas covers", ToolKind.BATTERY_COVER, count=more
    )


def _zinc(protection: str | None, **repair: Any) -> Example:
    """A repair with masks of a class; None: none packed."""
    example = with_repair(**repair)
    masks = {"count": 0} if protection is None else {"protection": protection}
    worn = tuple(replace(g, **masks) if g.what is GearKind.MASK else g for g in example.kit.gear)
    return replace(example, kit=replace(example.kit, gear=worn))


def _with_old_masks(protection: str, *, first: str) -> Example:
    old = gear("old masks", GearKind.MASK, protection=protection)
    return plus(with_gear(GearKind.MASK, protection=first), gear=(old,))


def _glasses(count: int, *, people: int | None, **changes: Any) -> Example:
    example = with_gear(GearKind.SAFETY_GLASSES, count=count, **changes)
    return replace(example, trip=replace(example.trip, people=people))


def _took_on(was: str, is_now: str) -> Example:
    """Somebody took on what lay behind the hanger; `is_now` lies there."""
    taken = accepted(
        rule="danger-behind-the-weld", subject=f"{was} behind hanger", until=date(2027, 3, 9), reason="clipped away"
    )
    example = with_repair(behind=is_now)
    return replace(example, kit=replace(example.kit, acceptances=taken.kit.acceptances))


def _gone(behind: str, cleared: str, by: str = "Ada") -> Example:
    """Something behind the hanger, of which somebody took something away."""
    return with_repair(behind=behind, cleared=cleared, cleared_by=by)


def _extended(length_m: float, more_m: float, count: int = 1) -> Example:
    """A short holder lead and an extension."""
    short = with_lead("holder lead", length_m=length_m)
    more = lead("more", LeadUse.EXTENSION, Fitting.POST_CLAMP, length_m=more_m, count=count)
    return plus(short, leads=(more,))


def _flat(**reading_fields: Any) -> Example:
    """Flat once, and full today."""
    old = reading("north-main", volts_v=11.3, taken_at=datetime(2027, 2, 25, 8, 0), **reading_fields)  # noqa: DTZ001
    return plus(whole(), readings=(old,))


def _two_old(first_days: int, second_days: int) -> Example:
    """Two batteries that were read so many days before the departure."""
    start = datetime(2027, 3, 6, 8, 0)  # noqa: DTZ001
    days = {"north-main": first_days, "south-main": second_days}
    kit = whole().kit
    return with_kit(
        readings=tuple(
            replace(r, taken_at=start - timedelta(days=days[r.battery])) if r.battery in days else r
            for r in kit.readings
        )
    )


def _two_clamps(first_a: float, second_a: float) -> Example:
    one = with_tool(ToolKind.CLAMP_METER, rating_a=first_a)
    return more_tools(one, "second clamp meter", ToolKind.CLAMP_METER, rating_a=second_a)


def _empty_bag() -> Example:
    """A bag with nothing in it, in a vehicle that stays at home."""
    from kitlist.kit import Bag, Vehicle

    return plus(whole(), bags=(Bag(name="Old bag", place="East"),), vehicles=(Vehicle(name="East"),))


def _bankless(example: Example) -> Example:
    return replace(example, trip=replace(example.trip, bank=()))


def jumper(**changes: Any) -> Example:
    return plus(whole(), leads=(lead("jumper", LeadUse.JUMPER, Fitting.SPRING_CLAMP, **changes),))


def clamp(**changes: Any) -> Example:
    fields: dict[str, Any] = {"joins_a": Fitting.LUG_M8, "joins_b": Fitting.HOLDER, "rating_a": 300, "insulated": True}
    return with_kit(clamps=(Clamp(name="loose", **({"what": ClampKind.HOLDER, "bag": BAG} | fields | changes)),))


def two_readings(name: str, older_v: float, newer_v: float, days: int = 5, **changes: Any) -> Example:
    older_fields = {k: changes.pop(k) for k in ("load_a", "rested_h") if k in changes}
    both = {"battery_temp_c": changes.pop("temp_c")} if "temp_c" in changes else {}
    then = whole().kit.readings[0].taken_at - timedelta(days=days, hours=1)
    older = reading(name, volts_v=older_v, taken_at=then, **(older_fields | both))
    kit = whole().kit
    newer = tuple(replace(r, volts_v=newer_v, **both) if r.battery == name else r for r in kit.readings)
    batteries = tuple(replace(b, **changes) if b.name == name else b for b in kit.batteries)
    return with_kit(readings=(*newer, older), batteries=batteries)


def loose(volts_v: float, coldest_c: float | None, **changes: Any) -> Example:
    cold = with_trip(coldest_c=coldest_c, **({"bank": changes.pop("bank")} if "bank" in changes else {}))
    flat = battery("loose", None, **({"place": BatteryPlace.LOOSE, "bag": BAG} | changes))
    return plus(cold, batteries=(flat,), readings=(reading("loose", volts_v=volts_v),))


def auto(**changes: Any) -> Example:
    fields = {"shade": 11, "count": 2, "lowest_c": -10, "cell_changed_on": date(2026, 6, 1)}
    fields |= {"tested_on": date(2027, 2, 1)}
    return without_gear(*COVERS_FACE, also=(gear("auto helmet", GearKind.HELMET_AUTO, **(fields | changes)),))


def far(example: Example, days: float | None) -> Example:
    return replace(example, trip=replace(example.trip, days_from_help=days))


def accepted(**changes: Any) -> Example:
    fields: dict[str, Any] = {
        "name": "one",
        "rule": "link-without-spare",
        "subject": "links",
        "severity": "fix",
        "trip": "Example",
        "accepted_by": "Ada",
        "reason": "later",
        "accepted_on": date(2027, 3, 1),
        "until": date(2027, 3, 3),
    }
    return with_kit(acceptances=(Acceptance(**(fields | changes)),))


def links(*made: Lead, **trip: Any) -> Example:
    example = without_lead("link", also=made)
    return replace(example, trip=replace(example.trip, **trip))


def link(name: str = "own link", end_b: Fitting = Fitting.POST_CLAMP, **changes: Any) -> Lead:
    return lead(name, LeadUse.LINK, end_b, **changes)


ONE_OF_TWO: tuple[Row, ...] = (
    # of two things the better counts; what is not there, or of count 0, does not
    ("arc-lead-missing", lambda: _lugged(Clamp(name="c", what=ClampKind.WORK_CLAMP)), STOP),
    ("arc-lead-missing", lambda: _lugged(Clamp(name="c", what=ClampKind.HOLDER, count=0)), STOP),
    ("arc-lead-missing", lambda: plus(whole(), leads=(lead("second", LeadUse.HOLDER, Fitting.LUG_M8),)), None),
    ("arc-out-of-reach", lambda: _alone(rod("b", designation="X99")), STOP),
    ("bank-mixed", lambda: with_battery("north-main", chemistry=Chemistry.CALCIUM), NOTE),
    ("bank-mixed", lambda: with_battery("north-main", chemistry=Chemistry.UNKNOWN), None),
    ("bank-mixed", lambda: with_battery("north-main", in_service_since=date(2024, 1, 15)), NOTE),
    # it takes every starting battery: 0.75 stays in each, 2 x 19.8 Ah are likely, 19 rods of 2.05 Ah
    ("bank-too-small", lambda: _parallel(19), None),
    ("bank-too-small", lambda: _parallel(20), FIX),
    ("bank-too-small", lambda: _charged(8, 100, 100), NOTE),  # a way to charge each of its batteries is written down
    ("bank-too-small", lambda: _charged(8, 100, None), FIX),
    ("bank-too-small", lambda: _charged(7, None, None), None),
    # what one kind gives counts where the other gives none: with shorter rods the charge at hand lasts to the floor
    ("bank-too-small", lambda: _two_kinds(12.42), STOP),
    ("bank-too-small", lambda: _two_kinds(12.46), FIX),  # of 3.2 mm one is likely, none is sure
    ("bank-too-small", lambda: _two_kinds(12.56), FIX),  # one of each takes 5.3 Ah: 10 Ah of one kind, 2.8 of the other
    ("bank-too-small", lambda: _two_kinds(12.64), None),  # of 3.2 mm three are sure, of 4 mm none
    ("bank-too-small", lambda: plus(whole(), rods=(rod("thin", diameter_mm=2.0, count=300),)), None),  # too hot for it
    ("bank-too-small", lambda: _hangers(1), None),
    ("bank-too-small", lambda: _hangers(2), FIX),  # three rods each, four are sure
    ("bank-too-small", lambda: _unsized(40), None),
    ("bank-too-small", lambda: _leads(14), STOP),  # not one rod: the leads reach what their insulation bears
    ("bank-too-small", lambda: _leads(16), None),  # one at a time, and the charge gives all that are packed
    ("bank-too-small", lambda: with_trip(bank=()), None),
    ("bank-too-small", lambda: with_kit(rods=(rod("a", count=40), rod("b", designation="X99", count=40))), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=2, insulating=None), FIX),
    ("battery-failing", lambda: with_kit(readings=()), None),
    (
        "battery-failing",
        lambda: with_battery("south-main", tester_mohm=9, cranking_standard=CrankingStandard.JIS),
        None,
    ),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, temp_c=None), FIX),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, load_a=20.0), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, rested_h=0), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, days=0), FIX),
    ("battery-may-freeze", lambda: _cold_unread(), None),
    ("battery-may-freeze", lambda: loose(11.95, None), None),
    ("battery-under-floor", lambda: _weak("south-main", 12.2), None),  # engine-may-not-start says what that leads to
    ("battery-under-floor", lambda: _weak("north-main", 12.2), STOP),
    ("battery-under-floor", lambda: _cranked_by(450, 12.5), STOP),  # its engine needs 72 %
    ("battery-under-floor", lambda: _cranked_by(450, 12.65), NOTE),
    ("battery-under-floor", lambda: _cranked_by(450, 12.75), None),
    ("battery-under-floor", lambda: _cranked_by(600, 12.75), STOP),  # it never starts it
    ("battery-under-floor", lambda: _other_cranked_by(450, 12.6), None),  # outside the bank the floor alone counts
    ("bank-too-small", lambda: _cranked_by(500, 12.72), FIX),
    ("bank-too-small", lambda: _cranked_by(500, 12.68), STOP),  # over its reserve, and not for one rod
    ("charge-not-known", lambda: with_reading("north-main", taken_at=datetime(2026, 1, 2, 8, 0)), None),  # noqa: DTZ001
    ("charge-not-known", lambda: _old_and_unrested(), STOP),
    ("charge-not-known", lambda: _driven(), STOP),
    ("charge-not-known", lambda: _driven(taken_at=datetime(2027, 2, 1, 8, 0)), STOP),  # noqa: DTZ001
    ("charge-not-known", lambda: with_kit(readings=()), None),
    ("circuit-does-not-join", lambda: with_lead("holder lead", count=0), None),
    ("circuit-does-not-join", lambda: links(link(end_b=Fitting.LUG_M8)), STOP),
    ("clothing-class-too-low", lambda: plus(_clothed("class 1", _overhead()), gear=(_leather(),)), None),
    ("clothing-class-too-low", lambda: _clothed("class 1", plus(whole(), rods=(rod("b", designation="E7018"),))), NOTE),
    ("engine-may-not-start", lambda: with_battery("south-main", cranking_a=None, c20_ah=None), FIX),
    ("extinguisher-missing", lambda: with_tool(ToolKind.EXTINGUISHER, count=0), STOP),
    ("extinguisher-out-of-date", lambda: _extinguishers((date(2027, 1, 1), 1), (date(2028, 1, 1), 1)), None),
    ("extinguisher-out-of-date", lambda: _extinguishers((date(2027, 1, 1), 1), (date(2027, 2, 1), 1)), FIX),
    ("extinguisher-out-of-date", lambda: _extinguishers((date(2027, 1, 1), 1), (date(2028, 1, 1), 0)), FIX),
    ("extinguisher-wrong-kind", lambda: _small_powder_beside_water(), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=1, count=2), None),
    ("filter-too-light", lambda: plus(whole(), gear=(gear("old", GearKind.HELMET, shade=5, count=0),)), None),
    ("filter-too-light", lambda: plus(whole(), gear=(gear("old", GearKind.HELMET, shade=5, sound=False),)), None),
    ("fuse-missing", lambda: plus(whole(), tools=(tool("poor", ToolKind.FUSE, rating_v=32),)), None),
    (
        "fuse-missing",
        lambda: plus(with_tool(ToolKind.FUSE, rating_v=12), tools=(tool("b", ToolKind.FUSE, rating_v=32),)),
        NOTE,
    ),
    ("gear-unsound", lambda: with_gear(GearKind.GLOVES, sound=None, count=0), None),
    ("gloves-missing", lambda: with_gear(GearKind.GLOVES, count=0), STOP),
    ("gloves-not-for-stick", lambda: plus(whole(), gear=(gear("thin", GearKind.GLOVES, protection="type B"),)), None),
    ("holder-underrated", lambda: clamp(rating_a=None), NOTE),
    ("holder-underrated", lambda: with_lead("holder lead", rating_a=100, count=0), None),
    (
        "isolator-underrated",
        lambda: plus(whole(), tools=(tool("poor", ToolKind.ISOLATOR, rating_v=24, rating_a=9),)),
        None,
    ),
    (
        "isolator-underrated",
        lambda: plus(whole(), tools=(tool("poor", ToolKind.ISOLATOR, rating_v=60, rating_a=9),)),
        None,
    ),
    ("isolator-underrated", lambda: plus(whole(), tools=(tool("bare", ToolKind.ISOLATOR),)), None),
    ("isolator-underrated", lambda: more_tools(whole(), "small", ToolKind.ISOLATOR, rating_v=999, rating_a=9), None),
    ("isolator-underrated", lambda: more_tools(whole(), "low", ToolKind.ISOLATOR, rating_v=24, rating_a=9999), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=9, length_m=None), None),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25, insulation_limit_c=None), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=16, insulation_limit_c=60), FIX),
    ("lead-too-thin", lambda: _hot_unknown(), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=None, measured_mohm=5), FIX),
    ("lead-too-thin", lambda: with_trip(bank=()), None),
    ("meter-accuracy-not-known", lambda: plus(whole(), tools=(tool("other", ToolKind.VOLTMETER),)), None),
    (
        "no-battery-left-to-start",
        lambda: with_trip(bank=("north-main", "north-second", "south-main", "south-second")),
        FIX,
    ),
    ("no-rod-for-bank", lambda: with_kit(rods=(rod("a", diameter_mm=2.0), rod("b"))), None),
    ("no-rod-for-bank", lambda: with_trip(bank=("north-second", "south-second")), STOP),
    ("no-rod-for-bank", lambda: with_kit(rods=()), None),
    ("not-in-a-bag", lambda: _homeless(4), NOTE),
    ("not-in-a-bag", lambda: _homeless(6), NOTE),
    ("plus-and-minus-together", lambda: with_kit(leads=tuple(replace(x, bag=None) for x in whole().kit.leads)), None),
    ("repair-never", lambda: _two_repairs(), STOP),
    ("repair-without-rod", lambda: _thin_rods(with_repair(steel=Steel.CAST_IRON)), None),
    ("repair-without-rod", lambda: plus(with_repair(steel=Steel.CAST_IRON), rods=(rod("b", diameter_mm=2.0),)), FIX),
    ("repair-without-rod", lambda: with_repair(steel=Steel.UNKNOWN, position=Position.VERTICAL_DOWN), None),
    ("rods-of-two-polarities", lambda: plus(whole(), rods=(rod("b", designation="X99"),)), None),
    ("rods-too-few", lambda: plus(with_repair(weld_length_mm=100), rods=(rod("b", diameter_mm=3.2, count=1),)), None),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET, also=(gear("sleeves", GearKind.SLEEVES),)), FIX),
    ("test-plate-missing", lambda: with_repair(part="wheel", thickness_mm=20), None),
    ("test-plate-missing", lambda: plus(with_repair(thickness_mm=3), tools=(_plate(3),)), None),
    ("test-plate-missing", lambda: _without(with_repair(), ToolKind.SCRAP_PLATE), NOTE),
    ("test-plate-missing", lambda: _plates_unknown(), NOTE),
    ("own-item-missing", lambda: _item(count=1, bag=None), FIX),
    # the check-off: departure is on 6 March
    ("check-off-unfinished", lambda: judged_on(whole(), 5), FIX),
    ("check-off-unfinished", lambda: judged_on(whole(), 4), None),
    ("check-off-unfinished", lambda: _answered(1), None),
    ("check-off-unfinished", lambda: judged_on(_answered(1), 5), FIX),
    ("check-off-unfinished", lambda: judged_on(_answered(99), 5), None),
    ("check-off-unfinished", lambda: judged_on(_answered(99, trip="Another"), 5), FIX),
    ("check-off-unfinished", lambda: _answered(1, trip="Another"), None),
    ("mend-not-settled", lambda: _mended(), FIX),
    ("mend-not-settled", lambda: _mended(vehicle=None), FIX),
    ("mend-not-settled", lambda: _mended(vehicle="West"), None),
    ("mend-not-settled", lambda: _mended(sound_at_5_km=False), STOP),
    ("mend-not-settled", lambda: _mended(part="brake caliper"), STOP),
    ("mend-not-settled", lambda: _mended(part="a thing"), FIX),
    ("short-at-check-off", lambda: _answered(99), None),
    ("short-at-check-off", lambda: _answered(1, answer=Answer.MISSING, count=0), FIX),
)

THRESHOLDS: tuple[Row, ...] = (
    # strings at most 0.20 V apart, of one kind; what is not read is said by reading-missing
    ("parallel-strings-apart", lambda: with_strings(13.02), None),
    ("parallel-strings-apart", lambda: with_strings(13.03), STOP),
    ("parallel-strings-apart", lambda: with_strings(12.62), None),
    ("parallel-strings-apart", lambda: with_strings(12.61), STOP),
    ("parallel-strings-apart", lambda: with_strings(12.82, chemistry=Chemistry.CALCIUM), STOP),
    ("parallel-strings-apart", lambda: _unread(with_strings(13.03)), None),
    ("parallel-strings-apart", lambda: with_battery("north-main", chemistry=Chemistry.CALCIUM), None),  # one string
    ("parallel-strings-apart", lambda: with_trip(bank=()), None),
    # under 5 mm: at that length (a - 5)^2 = 4 R' (5 x 15.02 + 9.44), a = 37.25 - 17 V, R' = 688 mΩ with the arc's own
    # 40 and the bank's 37: 611 mΩ in the work lead. Two batteries never reach it: R' would be 23 mΩ
    ("short-arc-only", lambda: with_lead("work lead", measured_mohm=611), None),
    ("short-arc-only", lambda: with_lead("work lead", measured_mohm=612), FIX),
    ("short-arc-only", lambda: with_two(), FIX),
    ("short-arc-only", lambda: with_two(_bead()), NOTE),
    ("short-arc-only", lambda: with_two(_bead(bank=("south-second", "north-second"))), NOTE),
    ("short-arc-only", lambda: with_two(_bead(bank=("north-second", "south-main"))), FIX),
    ("short-arc-only", lambda: with_two(_bead(bank=whole().trip.bank, rest_v=38.4, bank_v=35)), FIX),
    ("short-arc-only", lambda: with_two(_bead(welded_on=whole().on)), NOTE),
    ("short-arc-only", lambda: with_two(_bead(welded_on=whole().on + timedelta(days=1))), FIX),
    ("short-arc-only", lambda: with_kit(beads=(_bead(),)), None),
    ("short-arc-only", lambda: with_trip(bank=("north-second",)), None),  # arc-out-of-reach says it
    ("short-arc-only", lambda: with_trip(bank=()), None),
    ("short-arc-only", lambda: _two_unmeasured(), None),  # current-not-known says it
    # twins and halves of 24 V: all or none, level to 0.05 V under the alternator, to 0.10 V to camp
    ("starting-pair-parted", lambda: with_two_starters(PAIR, bank=BOTH), None),
    ("starting-pair-parted", lambda: with_two_starters(TWIN, bank=ONE_STARTER), FIX),
    ("starting-pair-parted", lambda: with_two_starters(TWIN, bank=ONE_STARTER, seen=False), FIX),
    ("starting-pair-parted", lambda: with_two_starters(TWIN, bank=ONE_STARTER, seen=True, coldest_c=0), NOTE),
    ("starting-pair-parted", lambda: with_two_starters(TWIN, bank=ONE_STARTER, seen=True, coldest_c=-0.5), FIX),
    ("halves-not-level", lambda: apart(12.87), None),
    ("halves-not-level", lambda: apart(12.88), NOTE),
    ("halves-not-level", lambda: apart(12.92), NOTE),
    ("halves-not-level", lambda: apart(12.93), FIX),
    ("halves-not-level", lambda: twins_apart(13.02), None),
    ("halves-not-level", lambda: twins_apart(13.03), FIX),
    ("starting-batteries-not-clear", lambda: with_two_starters(PAIR), None),
    ("starting-batteries-not-clear", lambda: with_two_starters(StartBatteries.SINGLE), FIX),
    ("no-battery-left-to-start", lambda: with_two_starters(PAIR, bank=("north-main", "south-main", "west-main")), FIX),
    ("no-battery-left-to-start", lambda: with_two_starters(TWIN, bank=("north-main", "south-main", "west-main")), FIX),
    (
        "no-battery-left-to-start",
        lambda: with_two_starters(TWIN, bank=("north-main", "south-main", "west-main"), seen=True),
        None,
    ),
    # four in a row only with a strip that is packed and stays whole
    ("four-without-ballast", lambda: with_four("strip"), None),
    ("four-without-ballast", lambda: with_four("strip", count=0), STOP),
    ("ballast-gets-too-hot", lambda: with_four("strip"), None),
    # 400 °C at most in the third rod, 60 % of the resistance cold, and its heat must be known
    ("ballast-gets-too-hot", lambda: with_strip(metal=STAINLESS, width_mm=33, thickness_mm=1), None),
    ("ballast-gets-too-hot", lambda: with_strip(metal=STAINLESS, width_mm=32, thickness_mm=1), FIX),
    ("ballast-gets-too-hot", lambda: with_strip(metal=MILD, width_mm=23, thickness_mm=0.9), None),
    ("ballast-gets-too-hot", lambda: with_strip(metal=MILD, width_mm=22, thickness_mm=0.9), FIX),
    ("ballast-gets-too-hot", lambda: with_strip(metal=MILD, width_mm=8, thickness_mm=0.5), FIX),
    ("ballast-gets-too-hot", with_strip, FIX),
    # the circuit: marks, bags, heat, joints, ratings
    ("polarity-not-marked", lambda: with_lead("work lead", mark=Mark.NONE), FIX),
    ("polarity-not-marked", lambda: with_lead("link", mark=Mark.NONE), FIX),
    ("polarity-not-marked", lambda: with_lead("link", mark=Mark.NONE, count=0), None),
    ("polarity-not-marked", lambda: jumper(mark=Mark.NONE), None),
    ("mark-against-rods", lambda: with_lead("holder lead", mark=Mark.MINUS), FIX),
    ("mark-against-rods", lambda: with_lead("work lead", mark=Mark.PLUS), FIX),
    ("mark-against-rods", lambda: with_lead("work lead", mark=Mark.PLUS, count=0), None),
    ("mark-against-rods", lambda: with_lead("work lead", mark=Mark.BOTH_ENDS), None),
    ("mark-against-rods", lambda: with_lead("link", mark=Mark.PLUS), None),
    ("mark-against-rods", lambda: with_kit(rods=(rod("minus", designation="E6012"),)), FIX),
    ("mark-against-rods", lambda: with_kit(rods=()), None),
    ("mark-against-rods", lambda: _marked_wrong(rod("silent", designation="E 42 0 RR 12")), None),
    ("mark-against-rods", lambda: _marked_wrong(rod("odd", designation="X99")), None),
    (
        "mark-against-rods",
        lambda: _marked_wrong(rod("plus", designation="E7018"), rod("minus", designation="E6012")),
        None,
    ),
    ("mark-against-rods", lambda: _marked_wrong(rod("silent", designation="E 42 0 RR 12"), rod("b")), None),
    (
        "mark-against-rods",
        lambda: _marked_wrong(rod("silent", designation="E 42 0 RR 12"), rod("plus", designation="E7018")),
        FIX,
    ),
    ("rod-too-hot", lambda: with_kit(rods=(rod("a", diameter_mm=2.0), rod("b"))), NOTE),
    ("rod-too-hot", lambda: with_kit(rods=(rod("a", diameter_mm=2.0),)), None),
    ("rod-too-hot", lambda: with_kit(rods=(rod("a", diameter_mm=3.2), rod("b"))), None),
    ("behind-the-weld-not-asked", lambda: with_repair(behind="not known"), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind=" ? "), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind="Don't know"), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind="unknown pipe, drained"), None),
    ("battery-failing", lambda: with_battery("south-main", condition=Condition.CRACKED), FIX),
    ("battery-failing", lambda: with_battery("north-main", condition=Condition.CRACKED), None),  # refused in the bank
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=300), None),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=100), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=None), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=202), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=203), None),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=933), None),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_a=934), NOTE),
    ("fuse-missing", lambda: more_tools(whole(), "heavy", ToolKind.FUSE, rating_v=80, rating_a=2000), None),
    ("fuse-missing", lambda: _fuses(100, 150), NOTE),
    ("fuse-missing", lambda: _fuses(2000, 1000), NOTE),
    ("fuse-missing", lambda: _no_fuse_that_does_both(), NOTE),  # one bears the volts, the other the current
    ("battery-not-looked-at", lambda: with_battery("north-main", built_in_cutoff=None), None),
    ("battery-not-looked-at", lambda: with_battery("south-main", built_in_cutoff=None), None),
    (
        "battery-not-looked-at",
        lambda: with_battery("north-main", built_in_cutoff=None, condition=Condition.UNKNOWN),
        FIX,
    ),
    (
        "battery-not-looked-at",
        lambda: with_battery("north-main", built_in_cutoff=None, condition=Condition.CRACKED),
        None,  # refused already
    ),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG), NOTE),
    ("plus-and-minus-together", lambda: with_lead("work lead", mark=Mark.PLUS, bag=BAG), None),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG, mark=Mark.BOTH_ENDS), None),
    ("plus-and-minus-together", lambda: with_lead("work lead", bag=BAG, count=0), None),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25), None),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=24.9), FIX),  # the table's 16 mm² counts
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=9), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", conductor=Conductor.UNKNOWN), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25, conductor=Conductor.COPPER_CLAD), FIX),
    ("lead-too-thin", lambda: with_lead("work lead", area_mm2=25, insulation_limit_c=60), FIX),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=25), None),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=24.9), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=None), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=35, conductor=Conductor.COPPER_CLAD), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=40, conductor=Conductor.ALUMINIUM), NOTE),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=41, conductor=Conductor.ALUMINIUM), None),
    ("jumper-lead-too-thin", lambda: jumper(area_mm2=10, count=0), None),
    # 3 m of 35 mm² is 1.66 mΩ by IEC 60228 class 5; 1 mΩ a joint makes 3.66
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=3.66), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=3.67), FIX),
    ("joint-drop-too-high", lambda: _welded(29.6), None),
    ("joint-drop-too-high", lambda: _welded(29.5), FIX),
    ("joint-drop-too-high", lambda: _welded(29.5, link_m=9.0), FIX),
    ("joint-drop-too-high", lambda: _welded(None), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=9, count=0), None),
    ("joint-drop-too-high", lambda: with_lead("link", measured_mohm=9, area_mm2=None), None),
    ("holder-underrated", lambda: with_lead("holder lead", rating_a=203), None),
    ("holder-underrated", lambda: with_lead("holder lead", rating_a=202), FIX),
    ("holder-underrated", lambda: with_lead("work lead", rating_a=202), FIX),
    ("holder-underrated", lambda: with_lead("work lead", rating_a=None), NOTE),
    ("holder-underrated", lambda: clamp(rating_a=150), FIX),
    ("holder-underrated", lambda: clamp(rating_a=150, count=0), None),
    ("holder-underrated", lambda: clamp(what=ClampKind.ADAPTOR, rating_a=None), None),
    ("holder-not-insulated", lambda: clamp(), None),
    ("holder-not-insulated", lambda: clamp(insulated=False), STOP),
    ("holder-not-insulated", lambda: clamp(insulated=None), FIX),
    ("holder-not-insulated", lambda: clamp(insulated=False, count=0), None),
    ("holder-not-insulated", lambda: clamp(insulated=False, what=ClampKind.WORK_CLAMP), None),
    ("isolator-missing", lambda: without_tool(ToolKind.ISOLATOR), STOP),  # nothing opens the circuit
    ("isolator-missing", lambda: with_tool(ToolKind.ISOLATOR, count=0), STOP),
    ("isolator-missing", lambda: _parting("holder lead"), FIX),
    ("isolator-missing", lambda: _parting("work lead"), FIX),
    ("isolator-missing", lambda: _parting("link"), STOP),
    ("isolator-missing", lambda: _parting("holder lead", count=0), STOP),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=60), None),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=59.9), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_v=None), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=None), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=202), FIX),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=203), NOTE),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=933), NOTE),
    ("isolator-underrated", lambda: with_tool(ToolKind.ISOLATOR, rating_a=934), None),
    ("fuse-missing", lambda: without_tool(ToolKind.FUSE), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=58), None),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=57.9), NOTE),
    ("fuse-missing", lambda: with_tool(ToolKind.FUSE, rating_v=None), NOTE),
    ("voltmeter-missing", lambda: without_tool(ToolKind.VOLTMETER), STOP),
    ("meter-accuracy-not-known", lambda: with_tool(ToolKind.VOLTMETER, accuracy_ratio=None), NOTE),
    ("clamp-meter-missing", lambda: without_tool(ToolKind.CLAMP_METER), NOTE),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=3), None),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=2), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=None), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, insulating=False), FIX),
    ("battery-cover-missing", lambda: without_tool(ToolKind.BATTERY_COVER), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=0), FIX),
    ("battery-cover-missing", lambda: with_tool(ToolKind.BATTERY_COVER, count=1, insulating=None), FIX),
    ("battery-cover-missing", lambda: _covers(1, 1), FIX),
    ("battery-cover-missing", lambda: _covers(1, 2), FIX),
    ("battery-cover-missing", lambda: _covers(3, 2), None),
    ("spanner-missing", lambda: without_tool(ToolKind.SPANNER), FIX),
    ("spanner-bare", lambda: with_tool(ToolKind.SPANNER, insulating=True), None),
    ("spanner-bare", lambda: with_tool(ToolKind.SPANNER, insulating=False), FIX),
    ("spanner-bare", lambda: with_tool(ToolKind.SPANNER, insulating=None), NOTE),
    ("spanner-bare", lambda: with_tool(ToolKind.SPANNER, insulating=False, count=0), None),
    ("spanner-bare", lambda: more_tools(whole(), "old spanner", ToolKind.SPANNER, insulating=False), FIX),
    ("spanner-bare", lambda: more_tools(whole(), "old spanner", ToolKind.SPANNER), NOTE),
    ("spanner-bare", lambda: without_tool(ToolKind.SPANNER), None),  # spanner-missing says it
    ("voltmeter-underrated", lambda: with_tool(ToolKind.VOLTMETER, rating_v=38.4), None),  # three AGM, 12.8 V each
    ("voltmeter-underrated", lambda: with_tool(ToolKind.VOLTMETER, rating_v=38.3), FIX),
    ("voltmeter-underrated", lambda: with_tool(ToolKind.VOLTMETER, rating_v=20), FIX),
    ("voltmeter-underrated", lambda: with_tool(ToolKind.VOLTMETER, rating_v=None), None),
    ("voltmeter-underrated", lambda: _two_meters(20, 60), None),
    ("voltmeter-underrated", lambda: _two_meters(20, 30), FIX),
    ("voltmeter-underrated", lambda: _two_meters(20, None), NOTE),
    ("voltmeter-underrated", lambda: _metered(20, bank=()), None),
    ("voltmeter-underrated", lambda: _metered(25.5, bank=FOUR[:2]), FIX),
    ("voltmeter-underrated", lambda: _metered(25.6, bank=FOUR[:2]), None),
    ("post-brush-missing", lambda: without_tool(ToolKind.POST_BRUSH), NOTE),
    (
        "post-brush-missing",
        lambda: without_tool(ToolKind.POST_BRUSH, ToolKind.WIRE_BRUSH),
        None,
    ),  # hammer and brush say it
    # batteries: 800 A by SAE is good to 3.8/800 = 4.75 mΩ and worn out over 6.0/800 = 7.5 mΩ
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=4.75), None),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=4.76), FIX),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=7.6), FIX),
    ("battery-failing", lambda: with_battery("south-main", tester_mohm=7.6, cranking_a=None), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45), FIX),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.70), None),
    ("battery-failing", lambda: two_readings("south-main", 12.45, 12.82), None),
    ("battery-failing", lambda: two_readings("south-main", 12.82, 12.45, stays_connected=None), FIX),
    ("battery-may-freeze", lambda: loose(11.95, -12), FIX),
    ("battery-may-freeze", lambda: loose(11.95, -9), None),
    ("battery-may-freeze", lambda: loose(12.82, -12), None),
    ("battery-may-freeze", lambda: loose(11.95, -12, bank=("north-main", "south-second", "loose")), STOP),
    ("battery-under-floor", lambda: loose(11.95, -12), None),  # one cause, one line
    ("battery-under-floor", lambda: loose(11.95, -9), FIX),
    ("no-battery-left-to-start", lambda: with_trip(bank=("north-main", "north-second", "south-main")), FIX),
    ("no-battery-left-to-start", lambda: with_trip(bank=("north-main", "north-second", "south-second")), None),
    ("no-battery-left-to-start", lambda: with_battery("south-main", condition=Condition.CRACKED), FIX),
    ("no-battery-left-to-start", lambda: with_trip(vehicles=("North",), bank=("north-main", "north-second")), FIX),
    ("loose-battery-not-stowed", lambda: loose(12.82, 5, bag=None), FIX),
    ("loose-battery-not-stowed", lambda: loose(12.82, 5), None),
    # does it join up: 1 m between vehicles and 0.5 m into each
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=2), None),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=2.01), STOP),
    ("circuit-does-not-join", lambda: with_lead("holder lead", end_b=Fitting.LUG_M8), STOP),
    ("current-not-known", lambda: with_gear(GearKind.HELMET, count=0), None),
    # what is to be taken along or left out is said by other rules; what is to be written down, or is nonsense, by this
    ("current-not-known", lambda: without_lead("holder lead"), None),
    ("current-not-known", lambda: with_battery("north-main", chemistry=Chemistry.LITHIUM), None),
    ("current-not-known", lambda: with_trip(vehicles=("South",)), None),
    ("current-not-known", lambda: with_trip(ballast="strip"), STOP),
    ("no-bank-chosen", lambda: _bankless(without_gear(*COVERS_FACE)), STOP),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=None), FIX),
    ("circuit-does-not-join", lambda: with_trip(parked_apart_m=None, bank=("north-main", "north-second")), None),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.UNKNOWN), FIX),
    ("circuit-does-not-join", lambda: with_battery("north-main", terminals=Terminal.STUD_M8), STOP),
    ("circuit-does-not-join", lambda: with_battery("south-main", terminals=Terminal.STUD_M8), None),
    ("circuit-does-not-join", lambda: links(link(count=1)), None),  # links-too-few says it
    ("circuit-does-not-join", lambda: without_lead("work lead"), None),  # arc-lead-missing says it
    ("circuit-does-not-join", lambda: links(link(end_b=Fitting.LUG_M8, count=2)), STOP),
    ("spare-link-does-not-fit", lambda: links(link(), link("b", length_m=2.0, count=2)), None),
    ("spare-link-does-not-fit", lambda: links(link(), link("b", length_m=1.99, count=2)), FIX),
    ("spare-link-does-not-fit", lambda: links(link(count=2)), None),  # link-without-spare says it
    # rods and repairs
    ("rod-polarity-not-known", lambda: with_kit(rods=(rod("a", designation="E 42 0 RR 12"),)), FIX),
    ("rod-strikes-poorly", lambda: with_kit(rods=(rod("a", designation="E6011"),)), NOTE),
    ("rod-strikes-poorly", lambda: _basic_on_two(), FIX),
    ("rod-strikes-poorly", lambda: with_two(), None),  # rutile from 24 V: short-arc-only says it for the bank
    ("rod-strikes-poorly", lambda: with_trip(bank=("north-second",)), None),  # no arc at all
    ("repair-never", lambda: with_repair(part="brake pedal"), STOP),
    ("repair-last-resort", lambda: with_repair(part="tie rod"), NOTE),
    ("repair-not-known", lambda: with_repair(steel=Steel.UNKNOWN), FIX),
    ("repair-not-known", lambda: with_repair(weld_length_mm=None), FIX),
    ("repair-not-known", lambda: with_repair(part="wheel", thickness_mm=None), None),
    ("repair-not-known", lambda: with_trip(repairs=("gone",)), FIX),
    ("repair-without-rod", lambda: with_repair(steel=Steel.CAST_IRON), FIX),
    ("repair-without-rod", lambda: with_repair(thickness_mm=3), FIX),
    ("repair-without-rod", lambda: with_repair(thickness_mm=None), None),
    ("rods-too-few", lambda: with_repair(weld_length_mm=460), None),
    ("rods-too-few", lambda: with_repair(weld_length_mm=480), FIX),
    ("rods-too-few", lambda: far(with_repair(weld_length_mm=380), 2), None),
    ("rods-too-few", lambda: far(with_repair(weld_length_mm=380), 2.1), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind=""), FIX),
    ("behind-the-weld-not-asked", lambda: with_repair(behind="", part="wheel"), None),
    ("arc-lead-too-short", lambda: _extended(2.5, 0.4), FIX),
    ("arc-lead-too-short", lambda: _extended(2.5, 0.5), None),
    ("arc-lead-too-short", lambda: _extended(2.5, 3, count=0), FIX),
    ("arc-lead-too-short", lambda: with_lead("holder lead", length_m=None), None),
    ("battery-deep-discharged", lambda: _flat(rested_h=2), FIX),
    ("battery-deep-discharged", lambda: _flat(rested_h=1.9), None),
    ("battery-deep-discharged", lambda: _flat(rested_h=None), None),
    ("battery-deep-discharged", lambda: _flat(rested_h=None, charging=True, load_a=None), None),
    ("clamp-meter-underrated", lambda: _two_clamps(100, 400), None),
    ("clamp-meter-underrated", lambda: _two_clamps(100, 150), NOTE),
    ("bag-stays-home", lambda: _empty_bag(), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="unknown"), None),
    ("lead-spliced", lambda: with_lead("work lead", splice_m=1), None),
    ("lead-spliced", lambda: with_lead("holder lead", splice_m=1, count=0), None),
    ("lead-spliced", lambda: with_lead("holder lead", splice_m=4, note="spliced"), None),
    ("lead-spliced", lambda: with_lead("holder lead", splice_m=1, splice_insulated=True, note="spliced"), None),
    ("spring-clamp-in-circuit", lambda: with_lead("work lead", end_b=Fitting.SPRING_CLAMP), None),
    ("spring-clamp-in-circuit", lambda: with_lead("work lead", end_a=Fitting.SPRING_CLAMP), FIX),
    ("spring-clamp-in-circuit", lambda: with_lead("link", end_a=Fitting.SPRING_CLAMP, count=0), None),
    ("reading-missing", lambda: with_kit(readings=()), STOP),
    ("reading-stale", lambda: _two_old(20, 40), FIX),
    ("too-cold-to-weld", lambda: with_trip(coldest_c=-25, hottest_c=-20), FIX),
    ("too-cold-to-weld", lambda: with_trip(coldest_c=-25, hottest_c=None), FIX),
    ("repair-not-vouched-for", lambda: with_repair(part="spring hanger"), None),
    ("danger-behind-the-weld", lambda: with_repair(behind="fuel tank"), STOP),
    ("danger-behind-the-weld", lambda: with_repair(behind="wiring loom"), FIX),
    ("danger-behind-the-weld", lambda: with_repair(behind="side airbag"), STOP),
    ("danger-behind-the-weld", lambda: with_repair(behind="battery tray"), FIX),
    ("danger-behind-the-weld", lambda: with_repair(behind="coil spring"), FIX),
    ("danger-behind-the-weld", lambda: with_repair(behind="gas strut"), STOP),
    ("danger-behind-the-weld", lambda: with_repair(behind="cross-member"), FIX),
    ("danger-behind-the-weld", lambda: with_repair(behind="air bag suspension mount"), STOP),
    ("danger-behind-the-weld", lambda: with_repair(behind="water tank"), FIX),
    ("danger-behind-the-weld", lambda: with_repair(behind="traction pack"), None),
    ("danger-behind-the-weld", lambda: with_repair(behind="nothing, no fuel line"), None),
    ("danger-behind-the-weld", lambda: _took_on("brake or clutch", "brake line"), None),
    ("danger-behind-the-weld", lambda: _took_on("brake or clutch", "fuel line"), STOP),
    ("danger-behind-the-weld", lambda: _gone("fuel line", "fuel line"), NOTE),
    ("danger-behind-the-weld", lambda: _gone("fuel line, jerry can", "fuel line"), STOP),
    ("danger-behind-the-weld", lambda: _gone("fuel line, brake line", "fuel line"), FIX),
    ("danger-behind-the-weld", lambda: _gone("fuel line", "fuel line", by=" "), STOP),
    ("danger-behind-the-weld", lambda: _gone("fuel line, jerry can", "fuel"), NOTE),
    ("pack-behind-the-weld", lambda: with_repair(behind="lithium battery"), STOP),
    ("pack-behind-the-weld", lambda: _gone("orange cable", "orange cable"), STOP),
    ("behind-the-weld-not-read", lambda: with_repair(behind="nothing much"), FIX),
    ("behind-the-weld-not-read", lambda: with_repair(behind="no fuel line"), FIX),
    ("behind-the-weld-not-read", lambda: with_repair(behind="no fuel line, brake line"), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="brake line, gizmo"), FIX),
    ("behind-the-weld-not-read", lambda: with_repair(behind="gizmo", part="wheel"), None),
    ("behind-the-weld-not-read", lambda: with_repair(behind="bare both sides"), None),
    ("repair-not-vouched-for", lambda: with_repair(part="flux capacitor"), FIX),
    ("repair-not-vouched-for", lambda: with_repair(part="pitman arm"), FIX),
    ("repair-not-vouched-for", lambda: with_repair(part="pitman arm", allowed_by="Ada"), None),
    ("repair-not-vouched-for", lambda: with_repair(part="wheel"), None),
    ("repair-never", lambda: with_repair(part="seat frame", allowed_by="Ada"), STOP),
    ("danger-behind-the-weld", lambda: with_repair(behind="fuel tank", part="wheel"), None),
    ("test-plate-missing", lambda: without_tool(ToolKind.SCRAP_PLATE), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=9), None),
    ("test-plate-missing", lambda: with_repair(thickness_mm=9.1), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=6.9), NOTE),
    ("test-plate-missing", lambda: with_repair(thickness_mm=None), None),
    ("stock-missing", lambda: _without(with_repair(), ToolKind.STOCK_FLAT), NOTE),
    ("stock-missing", lambda: _without(with_repair(load_bearing=False), ToolKind.STOCK_FLAT), None),
    ("stock-missing", lambda: _without(with_repair(part="wheel"), ToolKind.STOCK_FLAT), None),
    # eyes and skin
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE, also=(_helmet(1),)), STOP),
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE, also=(_helmet(2),)), None),
    ("bystander-unprotected", lambda: _people(without_gear(*COVERS_FACE, also=(_helmet(1),)), None), FIX),
    ("bystander-unprotected", lambda: _people(without_gear(*COVERS_FACE, also=(_helmet(1),)), 1), None),
    ("bystander-unprotected", lambda: without_gear(*COVERS_FACE), None),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), 2), NOTE),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), 2.1), FIX),
    ("spare-filter-missing", lambda: far(without_gear(GearKind.SPARE_FILTER), None), FIX),
    ("auto-darkening-doubtful", lambda: auto(), None),
    ("auto-darkening-doubtful", lambda: auto(tested_on=date(2026, 12, 6)), None),  # 90 days before 6 March
    ("auto-darkening-doubtful", lambda: auto(tested_on=date(2026, 12, 5)), FIX),
    ("auto-darkening-doubtful", lambda: auto(tested_on=None), FIX),
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=date(2025, 3, 6)), None),  # 730 days
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=date(2025, 3, 5)), FIX),
    ("auto-darkening-doubtful", lambda: auto(cell_changed_on=None), FIX),
    ("auto-darkening-doubtful", lambda: auto(lowest_c=5), None),
    ("auto-darkening-doubtful", lambda: auto(lowest_c=6), FIX),
    ("safety-glasses-missing", lambda: without_gear(GearKind.SAFETY_GLASSES), FIX),
    ("safety-glasses-missing", lambda: _glasses(3, people=3), None),
    ("safety-glasses-missing", lambda: _glasses(2, people=3), FIX),
    ("safety-glasses-missing", lambda: _glasses(1, people=1), None),
    ("safety-glasses-missing", lambda: _glasses(2, people=2, sound=False), FIX),
    ("safety-glasses-missing", lambda: _glasses(1, people=None), FIX),
    ("safety-glasses-missing", lambda: _glasses(0, people=None), FIX),
    ("safety-glasses-missing", lambda: _glasses(2, people=None), None),  # fire-watch-missing asks how many go
    ("gloves-missing", lambda: without_gear(GearKind.GLOVES), STOP),
    ("gloves-missing", lambda: with_gear(GearKind.GLOVES, sound=False), STOP),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection="EN 12477 type B"), FIX),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection=""), FIX),
    ("gloves-not-for-stick", lambda: with_gear(GearKind.GLOVES, protection="TYPE A"), None),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET), FIX),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET, also=(gear("apron", GearKind.APRON),)), FIX),
    ("skin-uncovered", lambda: without_gear(GearKind.JACKET, also=_apron_and_sleeves()), None),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, note="Nylon shell"), STOP),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, protection="fleece"), STOP),
    ("clothing-synthetic", lambda: with_gear(GearKind.JACKET, note="wool"), None),
    ("clothing-class-too-low", lambda: with_gear(GearKind.JACKET, protection="ISO 11611 class 1"), None),
    ("clothing-class-too-low", lambda: _clothed("class 1", with_repair(position=Position.OVERHEAD)), NOTE),
    ("clothing-class-too-low", lambda: _clothed("class 2", with_repair(position=Position.OVERHEAD)), None),
    ("clothing-class-too-low", lambda: _clothed("class 1", with_kit(rods=(rod("a", designation="E7018"),))), NOTE),
    ("clothing-class-too-low", lambda: with_gear(GearKind.JACKET, protection=""), NOTE),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=False), FIX),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=False, count=0), None),
    ("gear-unsound", lambda: with_gear(GearKind.GLOVES, sound=None), NOTE),
    ("gear-unsound", lambda: with_gear(GearKind.MASK, sound=None), None),
    ("mask-missing", lambda: without_gear(GearKind.MASK), NOTE),
    ("mask-missing", lambda: with_gear(GearKind.MASK, protection="P2"), None),
    ("mask-missing", lambda: with_gear(GearKind.MASK, protection="P1"), NOTE),
    ("mask-missing", lambda: with_gear(GearKind.MASK, protection="dust"), NOTE),
    ("mask-missing", lambda: _with_old_masks("FFP1", first="FFP3"), None),  # one good enough
    ("mask-missing", lambda: _with_old_masks("", first="FFP1"), NOTE),  # the one of unknown class may be
    ("mask-missing", lambda: with_gear(GearKind.MASK, protection="FFP3", sound=False), NOTE),
    ("mask-missing", lambda: _zinc("P2", steel=Steel.GALVANISED), None),
    ("mask-missing", lambda: _zinc("N95", steel=Steel.GALVANISED), None),
    ("mask-missing", lambda: _zinc("FFP1", steel=Steel.GALVANISED), FIX),
    ("mask-missing", lambda: _zinc("", steel=Steel.GALVANISED), FIX),
    ("mask-missing", lambda: _zinc(None, steel=Steel.GALVANISED), FIX),
    ("mask-missing", lambda: _zinc("P1", part="galvanised spring hanger"), FIX),
    ("mask-missing", lambda: _zinc("P1", steel=Steel.GALVANISED, part="wheel"), NOTE),  # never welded at all
    ("mask-missing", lambda: _zinc("P1"), NOTE),
    ("zinc-on-the-weld", lambda: with_repair(steel=Steel.GALVANISED), NOTE),
    ("zinc-on-the-weld", lambda: with_repair(name="Galvanized hanger"), NOTE),
    ("zinc-on-the-weld", lambda: with_repair(steel=Steel.GALVANISED, part="wheel"), None),
    ("zinc-on-the-weld", lambda: with_repair(steel=Steel.MILD), None),
    ("repair-never", lambda: with_repair(name="cadmium plated hanger"), STOP),
    ("zinc-on-the-weld", lambda: with_repair(name="cad-plated hanger", part="wheel"), None),
    # fire, help, holding up
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=1), None),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=0.99), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, amount_kg=None), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=None), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.WATER), FIX),
    ("extinguisher-wrong-kind", lambda: with_tool(ToolKind.EXTINGUISHER, agent=Extinguishant.CO2), FIX),
    ("extinguisher-wrong-kind", lambda: without_tool(ToolKind.EXTINGUISHER), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=9), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=8.9), FIX),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=4.5, count=2), None),
    ("fire-water-short", lambda: with_tool(ToolKind.WATER, volume_l=None), FIX),
    ("fire-water-short", lambda: without_tool(ToolKind.WATER), FIX),
    ("fire-watch-missing", lambda: with_trip(people=2), None),
    ("fire-watch-missing", lambda: with_trip(people=1), FIX),
    ("fire-watch-missing", lambda: with_trip(people=None), FIX),
    ("fire-tools-missing", lambda: without_tool(ToolKind.SHOVEL), NOTE),
    ("fire-tools-missing", lambda: without_tool(ToolKind.FIRE_BLANKET), NOTE),
    ("burns-kit-missing", lambda: without_tool(ToolKind.FIRST_AID_BURNS), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=2), None),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=1.9), FIX),
    ("eye-wash-short", lambda: with_tool(ToolKind.EYE_WASH, volume_l=None), FIX),
    ("eye-wash-short", lambda: without_tool(ToolKind.EYE_WASH), FIX),
    ("call-for-help-missing", lambda: without_tool(ToolKind.CALL_FOR_HELP), FIX),
    ("help-distance-not-known", lambda: with_trip(days_from_help=None), FIX),
    ("help-distance-not-known", lambda: with_trip(days_from_help=0), None),
    ("stands-missing", lambda: without_tool(ToolKind.STANDS), STOP),
    ("stands-missing", lambda: without_tool(ToolKind.CHOCKS), FIX),
    # tools
    ("cleaning-tools-missing", lambda: without_tool(ToolKind.WIRE_BRUSH), FIX),
    ("cleaning-tools-missing", lambda: without_tool(ToolKind.CHIPPING_HAMMER), FIX),
    ("preparation-tools-missing", lambda: without_tool(ToolKind.FILE), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.GRINDER), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.DISC), FIX),
    ("preparation-tools-missing", lambda: _prepared(ToolKind.GRINDER, ToolKind.DISC), None),
    # paper and process; the trip ends on 9 March 2027 and is judged on 4 March
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 9)), None),
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 8)), FIX),
    ("out-of-date", lambda: with_gear(GearKind.MASK, expires_on=date(2027, 3, 8)), FIX),
    ("out-of-date", lambda: with_tool(ToolKind.EXTINGUISHER, expires_on=date(2027, 3, 8)), None),
    ("out-of-date", lambda: with_tool(ToolKind.EYE_WASH, expires_on=date(2027, 3, 8), count=0), None),
    ("out-of-date", lambda: _item(expires_on=date(2027, 3, 8)), FIX),
    ("not-in-a-bag", lambda: with_lead("link", bag=None), NOTE),
    ("not-in-a-bag", lambda: with_lead("link", bag=None, count=0), None),
    ("not-in-a-bag", lambda: _item(bag=None), NOTE),
    ("own-item-missing", lambda: _item(count=2), None),
    ("own-item-missing", lambda: _item(count=1), FIX),
    ("own-item-missing", lambda: _item(count=0, must_carry=0), None),
    ("acceptance-past-its-date", lambda: accepted(), FIX),
    ("acceptance-past-its-date", lambda: accepted(until=date(2027, 3, 8)), FIX),
    ("acceptance-past-its-date", lambda: accepted(until=date(2027, 3, 9)), None),
    ("acceptance-past-its-date", lambda: accepted(trip="Another"), None),
    ("reading-stale", lambda: with_reading("north-main", taken_at=datetime(2027, 2, 27, 8, 0)), None),  # noqa: DTZ001
    *ONE_OF_TWO,
    *EDGES,
)


def _basic_on_two() -> Example:
    basic = with_kit(rods=(rod("a", designation="E7018", diameter_mm=2.5, storage=RodStorage.SEALED, opened_on=None),))
    return replace(basic, trip=replace(basic.trip, bank=("north-second", "south-second")))


def _bead(**changes: Any) -> Bead:
    """A practice bead of two batteries: 24 mΩ, of 25.6 V less 0.8, 22.9 V are left at 80 A."""
    fields: dict[str, Any] = {"name": "scrap", "welded_on": date(2027, 2, 20), "bank": ("north-second", "south-second")}
    return Bead(**(fields | {"rest_v": 25.6, "bank_v": 22.9, "current_a": 80} | changes))


def _two_unmeasured() -> Example:
    two = with_two()
    leads = tuple(replace(x, length_m=None) if x.name == "work lead" else x for x in two.kit.leads)
    return replace(two, kit=replace(two.kit, leads=leads))


def _unread(example: Example) -> Example:
    return replace(example, kit=replace(example.kit, readings=()))


def _without(example: Example, kind: ToolKind) -> Example:
    return replace(example, kit=replace(example.kit, tools=tuple(t for t in example.kit.tools if t.what is not kind)))


def _helmet(count: int) -> Any:
    return gear("helmet", GearKind.HELMET, shade=11, count=count)


def _people(example: Example, people: int | None) -> Example:
    return replace(example, trip=replace(example.trip, people=people))


def _apron_and_sleeves() -> tuple[Any, ...]:
    return (gear("apron", GearKind.APRON, protection="ISO 11611 class 2"), gear("sleeves", GearKind.SLEEVES))


def _clothed(protection: str, example: Example) -> Example:
    worn = tuple(replace(g, protection=protection) if g.what is GearKind.JACKET else g for g in example.kit.gear)
    return replace(example, kit=replace(example.kit, gear=worn))


def _prepared(*kinds: ToolKind) -> Example:
    return without_tool(ToolKind.FILE, also=tuple(tool(str(kind), kind) for kind in kinds))


def _item(**changes: Any) -> Example:
    fields: dict[str, Any] = {"must_carry": 2, "count": 2, "bag": BAG}
    return with_kit(items=(Item(name="fan belt", **(fields | changes)),))


def _lugged(loose_one: Clamp) -> Example:
    """The holder lead without its holder, and a loose fitting."""
    example = with_lead("holder lead", end_b=Fitting.LUG_M8)
    return replace(example, kit=replace(example.kit, clamps=(loose_one,)))


def _alone(*more: Any) -> Example:
    return plus(with_trip(bank=("north-second",)), rods=more)


def _parallel(count: int) -> Example:
    rods = with_kit(
        rods=(rod("a", diameter_mm=3.2, count=count),), leads=tuple(replace(x, count=5) for x in whole().kit.leads)
    )
    bank = ("north-main", "north-second", "south-main", "south-second")
    return replace(rods, trip=replace(rods.trip, bank=bank, bank_strings=2))


def _two_kinds(volts_v: float) -> Example:
    """A rod of each of two kinds, and a battery of these volts."""
    low = with_reading("north-main", volts_v=volts_v)
    return replace(low, kit=replace(low.kit, rods=(rod("a", count=1), rod("b", diameter_mm=3.2, count=1))))


def _leads(area_mm2: float) -> Example:
    """The whole kit with every lead of a section."""
    return with_kit(leads=tuple(replace(lead, area_mm2=area_mm2) for lead in whole().kit.leads))


def _hangers(count: int) -> Example:
    """So many like repairs, of three rods each."""
    one = with_repair(weld_length_mm=200)
    repairs = tuple(replace(one.kit.repairs[0], name=f"hanger {n}") for n in range(count))
    kit = replace(one.kit, repairs=repairs)
    return replace(one, kit=kit, trip=replace(one.trip, repairs=tuple(r.name for r in repairs)))


def _charged(count: int, north_a: float | None, south_a: float | None) -> Example:
    """So many rods, and what the alternators of both vehicles are rated for."""
    rods = with_kit(rods=(rod("a", count=count),))
    rated = {"North": north_a, "South": south_a}
    vehicles = tuple(replace(v, alternator_a=rated[v.name]) for v in rods.kit.vehicles)
    return replace(rods, kit=replace(rods.kit, vehicles=vehicles))


def _unsized(count: int) -> Example:
    example = with_battery("north-main", c20_ah=None)
    return replace(example, kit=replace(example.kit, rods=(rod("a", count=count),)))


def _cold_unread() -> Example:
    cold = with_trip(coldest_c=-20)
    return replace(cold, kit=replace(cold.kit, readings=()))


def _weak(name: str, volts_v: float) -> Example:
    """A battery that is low and whose engine takes more than it has."""
    low = with_reading(name, volts_v=volts_v)
    home = low.kit.battery[name].vehicle
    vehicles = tuple(replace(v, crank_a=900) if v.name == home else v for v in low.kit.vehicles)
    return replace(low, kit=replace(low.kit, vehicles=vehicles))


def _cranked_by(crank_a: float, volts_v: float) -> Example:
    """A bank battery of these volts, warm, in a vehicle that draws so much to start."""
    low = with_reading("north-main", volts_v=volts_v)
    vehicles = tuple(replace(v, crank_a=crank_a) if v.name == "North" else v for v in low.kit.vehicles)
    return replace(low, kit=replace(low.kit, vehicles=vehicles))


def _other_cranked_by(crank_a: float, volts_v: float) -> Example:
    """The same of a starting battery outside the bank."""
    low = with_reading("south-main", volts_v=volts_v)
    vehicles = tuple(replace(v, crank_a=crank_a) if v.name == "South" else v for v in low.kit.vehicles)
    return replace(low, kit=replace(low.kit, vehicles=vehicles))


def _welded(holder_v: float | None, *, link_m: float = 3.0) -> Example:
    """A practice weld of the bank with volts at the holder: 23 mΩ lie between 33 V at the bank and 29.55 V there.

    The links are inside the bank: however long they are, they excuse no joint beyond it.
    """
    it = with_lead("link", length_m=link_m)
    bead = Bead(
        name="first",
        welded_on=it.on,
        bank=it.trip.bank,
        rest_v=38.4,
        bank_v=33.0,
        current_a=150,
        holder_v=holder_v,
    )
    return replace(it, kit=replace(it.kit, beads=(bead,)))


def _parting(name: str, **changes: Any) -> Example:
    """No isolator, and a lead that parts at a plug."""
    plugged = with_lead(name, end_a=Fitting.PLUG, **changes)
    tools = tuple(tool for tool in plugged.kit.tools if tool.what is not ToolKind.ISOLATOR)
    return replace(plugged, kit=replace(plugged.kit, tools=tools))


def _marked_wrong(*rods: Rod) -> Example:
    example = with_lead("holder lead", mark=Mark.MINUS)
    return replace(example, kit=replace(example.kit, rods=rods))


def _driven(**changes: Any) -> Example:
    example = with_reading("north-main", **changes)
    vehicles = tuple(
        replace(v, driven_at=datetime(2027, 3, 3, 20, 0) if v.name == "North" else None)  # noqa: DTZ001
        for v in example.kit.vehicles
    )
    return replace(example, kit=replace(example.kit, vehicles=vehicles))


def _old_and_unrested() -> Example:
    return with_reading("north-main", taken_at=datetime(2027, 2, 20, 8, 0), rested_h=None)  # noqa: DTZ001


def _overhead() -> Example:
    return with_repair(position=Position.OVERHEAD)


def _leather() -> Any:
    return gear("leather", GearKind.JACKET, protection="ISO 11611 class 2")


def _extinguishers(*dated: tuple[date, int]) -> Example:
    powder = {"agent": Extinguishant.POWDER, "amount_kg": 2}
    made = (
        tool(f"e{n}", ToolKind.EXTINGUISHER, expires_on=day, count=count, **powder)
        for n, (day, count) in enumerate(dated)
    )
    return without_tool(ToolKind.EXTINGUISHER, also=tuple(made))


def _small_powder_beside_water() -> Example:
    good = {"expires_on": date(2029, 1, 1)}
    water = tool("water can", ToolKind.EXTINGUISHER, agent=Extinguishant.WATER, **good)
    powder = tool("powder", ToolKind.EXTINGUISHER, agent=Extinguishant.POWDER, amount_kg=0.5, **good)
    return without_tool(ToolKind.EXTINGUISHER, also=(water, powder))


def _hot_unknown() -> Example:
    thin = with_lead("work lead", area_mm2=16)
    return replace(thin, trip=replace(thin.trip, hottest_c=None, coldest_c=None))


def _homeless(count: int) -> Example:
    kit = whole().kit
    return with_kit(gear=tuple(replace(g, bag=None if n < count else g.bag) for n, g in enumerate(kit.gear)))


def _two_repairs() -> Example:
    one = with_repair(part="wheel")
    other = replace(one.kit.repairs[0], name="other", part="spring hanger")
    both = replace(one, kit=replace(one.kit, repairs=(*one.kit.repairs, other)))
    return replace(both, trip=replace(both.trip, repairs=("hanger", "other")))


def _thin_rods(example: Example) -> Example:
    return replace(example, kit=replace(example.kit, rods=(rod("thin", diameter_mm=2.0),)))


def _plate(thickness_mm: float | None) -> Any:
    return tool("plate", ToolKind.SCRAP_PLATE, thickness_mm=thickness_mm)


def _plates_unknown() -> Example:
    return plus(_without(with_repair(), ToolKind.SCRAP_PLATE), tools=(_plate(None),))


def _answered(most: int, **changes: Any) -> Example:
    """Answers for the first so many things of the whole kit."""
    fields: dict[str, Any] = {"trip": "Example", "answer": Answer.THERE, "checked_by": "Ada"}
    when = datetime(2027, 3, 3, 18, 0)  # noqa: DTZ001
    answers = tuple(
        CheckedOff(
            **(
                fields
                | {"kind": type(x).__name__.lower(), "name": x.name, "count": x.count, "expected": x.count}
                | {"checked_at": when}
                | changes
            )
        )
        for x in list(stowed(whole().kit))[:most]
    )
    return with_kit(checked=answers)


def _mended(**changes: Any) -> Example:
    fields: dict[str, Any] = {"part": "spring hanger", "welded_on": date(2027, 1, 20), "vehicle": "North"}
    return with_kit(mends=(Mend(name="hanger", **(fields | changes)),))
