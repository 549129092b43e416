"""What a trip took, against what was predicted, and what goes back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from kitlist.base.errors import BadData
from kitlist.base.span import Span
from kitlist.base.terms import ToolKind
from kitlist.faces.words.trip_text import used_lines
from kitlist.kit import Kit, Reading
from kitlist.kit.checked import Answer, CheckedOff
from kitlist.outlook import look_out
from kitlist.rules import example
from kitlist.trips.restock import recharge, restock, where_to_get
from kitlist.trips.used import Against, BatteryUse, Linked, Use, amount_of, battery_uses, doubts
from kitlist.welding.rods.consumption import burn

DAY = date(2027, 3, 7)


def use(name: str, used: float, *, kind: str = "rod", back: date | None = None, unit: str = "") -> Use:
    return Use(trip="Example", kind=kind, name=name, used=used, put_back=used, unit=unit, used_on=DAY, back_on=back)


def linked(*names: str, strings: int = 1) -> list[Linked]:
    return [Linked(trip="Example", battery=name, linked_on=DAY, strings=strings) for name in names]


def after(volts_v: float, *, at: datetime = datetime(2027, 3, 8, 7)) -> Kit:  # noqa: DTZ001
    kit = example.whole().kit
    later = example.reading("north-main", volts_v=volts_v, taken_at=at, rested_h=12, battery_temp_c=25)
    first = (replace(r, battery_temp_c=25) for r in kit.readings)
    return replace(kit, readings=(later, *first))


def uses_of(kit: Kit, uses: list[Use], links: list[Linked]) -> BatteryUse:
    trip = example.whole().trip
    return battery_uses(kit, trip, look_out(kit, trip, on=DAY), uses=uses, linked=links)[0]


def test_the_charge_predicted_for_one_rod_is_that_of_the_welding_tables() -> None:
    one = burn("E6013", diameter_mm=4.0, length_mm=350, current_a=180).charge_ah  # held to published rates in its tests
    predicted = uses_of(example.whole().kit, [use("thick rods", 1)], linked("north-main")).predicted_ah
    assert predicted is not None
    assert predicted.best == pytest.approx(one.best, rel=0.1)  # nearly the same at any current


def test_twice_the_rods_take_twice_the_charge_and_two_strings_share_it() -> None:
    kit = example.whole().kit
    one = uses_of(kit, [use("thick rods", 1)], linked("north-main")).predicted_ah
    six = uses_of(kit, [use("thick rods", 6)], linked("north-main")).predicted_ah
    shared = uses_of(kit, [use("thick rods", 6)], linked("north-main", strings=2)).predicted_ah
    assert one is not None
    assert six is not None
    assert shared is not None
    assert six.best == pytest.approx(6 * one.best)
    assert shared.best == pytest.approx(3 * one.best)


def test_a_packet_that_is_used_up_is_still_predicted() -> None:
    kit = replace(example.whole().kit, rods=(example.rod("thick rods", count=0),))
    assert uses_of(kit, [use("thick rods", 6)], linked("north-main")).predicted_ah is not None


def test_readings_on_both_sides_tell_the_charge_taken() -> None:
    # Makers' tables of AGM batteries at 25 °C: 12.80 V and over is full, 12.20 to 12.30 V about half: 40 of 80 Ah.
    taken = uses_of(after(12.25), [use("thick rods", 6)], linked("north-main")).taken_ah
    assert taken is not None
    assert taken.low <= 40 <= taken.high


def test_without_a_rested_reading_afterwards_nothing_is_told() -> None:
    found = uses_of(example.whole().kit, [use("thick rods", 6)], linked("north-main"))
    assert (found.taken_ah, found.against) == (None, Against.NOT_READ)


def at(day: int, hour: int, *, volts_v: float, rested_h: float) -> Reading:
    taken_at = datetime(2027, 3, day, hour)  # noqa: DTZ001
    return example.reading(
        "north-main", volts_v=volts_v, taken_at=taken_at, rested_h=rested_h, battery_temp_c=25, load_a=None
    )


@pytest.mark.parametrize(
    ("readings", "against"),
    [
        ((at(7, 8, volts_v=12.85, rested_h=12), at(7, 7, volts_v=12.85, rested_h=12)), Against.NOT_READ),
        ((at(7, 8, volts_v=12.85, rested_h=12), at(6, 7, volts_v=12.85, rested_h=12)), Against.NOT_READ),
        ((at(7, 21, volts_v=12.25, rested_h=7), at(7, 7, volts_v=12.85, rested_h=12)), Against.MORE),
        ((at(8, 7, volts_v=12.85, rested_h=12), at(7, 7, volts_v=12.85, rested_h=12)), Against.LESS),
    ],
)
def test_a_reading_from_before_the_welding_is_not_taken_for_one_after_it(
    readings: tuple[Reading, ...], against: Against
) -> None:
    kit = replace(example.whole().kit, readings=readings)
    burnt = [use("thick rods", 3 if against is Against.MORE else 20)]
    assert uses_of(kit, burnt, linked("north-main")).against is against


def test_without_a_reading_since_the_screen_says_when_to_read_and_no_sentence_ends_twice() -> None:
    kit = replace(example.whole().kit, readings=(at(7, 8, volts_v=12.85, rested_h=12),))
    unread = uses_of(kit, [use("thick rods", 6)], linked("north-main"))
    (said, *_) = used_lines("Example", [], [unread], columns=200)
    assert said.endswith("no reading since: read it after 2027-03-07, rested 6 h or more, before it is charged.")
    less = BatteryUse(name="x", linked_on=DAY, predicted_ah=Span(4, 6, 8), taken_ah=Span(0, 1, 2))
    (said, *_) = used_lines("Example", [], [less], columns=200)
    assert said.endswith("before it was read?")


def test_use_before_the_trip_starts_is_asked_about() -> None:
    trip = example.whole().trip
    (asked,) = doubts(trip, on=trip.starts_on - timedelta(days=1))
    assert asked.endswith("?")
    assert doubts(trip, on=trip.starts_on) == ()


@pytest.mark.parametrize(
    ("taken", "against"),
    [
        (Span(5, 6, 7), Against.AS_PREDICTED),
        (Span(9, 9.5, 12), Against.MORE),
        (Span(0, 1, 2), Against.LESS),
        (Span(8, 10, 12), Against.AS_PREDICTED),
    ],
)
def test_spans_that_touch_agree_and_spans_apart_differ(taken: Span, against: Against) -> None:
    found = BatteryUse(name="x", linked_on=DAY, predicted_ah=Span(4, 6, 8), taken_ah=taken)
    assert found.against is against


def test_what_was_used_and_not_put_back_is_listed_by_where_with_its_bag() -> None:
    kit = example.whole().kit
    lines = restock(kit, [use("thick rods", 4), use("thick rods", 1), use("file", 1, kind="tool", back=DAY)])
    assert [(line.where, line.name, line.amount, line.bag) for line in lines] == [
        ("welding supplier", "thick rods", 5, "Red bag")
    ]


def test_what_was_found_damaged_is_listed_too() -> None:
    found = CheckedOff(
        trip="Example", kind="tool", name="burns kit", answer=Answer.DAMAGED, count=0, expected=1, checked_by="Ada",
        checked_at=datetime(2027, 3, 8, 7),  # noqa: DTZ001
    )  # fmt: skip
    (line,) = restock(replace(example.whole().kit, checked=(found,)), [])
    assert (line.where, line.amount, line.why) == ("chemist", 1, "damaged")


def test_every_kind_of_tool_and_gear_has_a_place_to_get_it() -> None:
    assert all(where_to_get("tool", str(kind)) for kind in ToolKind)
    assert where_to_get("item", "") == "where it was bought before"


def test_a_linked_battery_is_recharged_within_the_day_until_it_reads_full() -> None:
    links = linked("north-main")
    (waiting,) = recharge(after(12.25), links, on=date(2027, 3, 8))
    assert (waiting.by, waiting.late) == (date(2027, 3, 8), False)
    assert recharge(after(12.25), links, on=date(2027, 3, 9))[0].late
    assert recharge(after(12.86), links, on=date(2027, 3, 9)) == ()


@pytest.mark.parametrize("text", ["0", "-1", "2.5", "lots", "5001", "", "9" * 5000])
def test_an_amount_is_a_whole_number_of_pieces(text: str) -> None:
    with pytest.raises(BadData):
        amount_of(text, example.tool("file", ToolKind.FILE))


def test_water_is_used_by_the_litre() -> None:
    water = example.tool("water", ToolKind.WATER, volume_l=10)
    assert (amount_of("2.5 L", water), amount_of("500ml", water)) == ((2.5, "l"), (0.5, "l"))
