"""What people type for a quantity is taken, or refused with how to write it."""

from __future__ import annotations

import pytest

from kitlist.base import quantities
from kitlist.base.errors import NotFound
from kitlist.base.names import resolve
from kitlist.base.terms import Chemistry
from kitlist.kit import Battery, entry
from kitlist.rules import RULES


@pytest.mark.parametrize(
    "text", ["12h", "12 hr", "12hrs", "12 hours", "720min", "720m", "720 minutes", "0.5d", "0.5 day"]
)
def test_half_a_day_of_rest_may_be_written_in_every_usual_way(text: str) -> None:
    assert quantities.parse(text, "h") == pytest.approx(12)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("1 inch", "mm", 25.4),
        ("10 feet", "m", 3.048),
        ("2 lbs", "kg", 0.907),
        ("2 liters", "l", 2),
        ("1/8 in", "mm", 3.175),
    ],
)
def test_the_words_of_units_are_known_in_the_plural_and_in_full(text: str, unit: str, value: float) -> None:
    assert quantities.parse(text, unit) == pytest.approx(value, abs=0.001)


def test_steel_of_a_sixteenth_is_kept_as_thick_as_the_rod_of_a_sixteenth() -> None:
    rod = entry.build("rod", {"name": "r", "designation": "E6013", "diameter": "1/16 in", "count": 1})
    repair = entry.build("repair", {"name": "skin", "part": "skin", "thickness": "1/16 in"})
    assert rod.diameter_mm == repair.thickness_mm == 1.6


LEAD = {"name": "link", "use": "link", "end_a": "lug-m8", "end_b": "lug-m8"}
READING = {"battery": "main", "volts": "12.6", "taken_at": "2027-05-01T07:30"}


@pytest.mark.parametrize(
    ("kind", "values", "said"),
    [
        ("lead", LEAD | {"area": "1/0"}, "area = '1/0': write 1/0 AWG"),
        ("rod", {"name": "r", "designation": "E6013", "count": 1, "diameter": "1/8"}, "diameter = '1/8': write 1/8 in"),
        ("reading", READING | {"battery_temp": "9°"}, "battery_temp = '9°': write 9C or 9F"),
        ("reading", READING | {"battery_temp": "-4 deg"}, "write -4C or -4F"),
        ("tool", {"name": "water", "what": "water", "volume": "2 gal"}, "2 US gal is 7.6L, imperial 9.1L"),
        ("tool", {"name": "water", "what": "water", "volume": "2 buckets"}, "must be a number from 0 to 500 l"),
    ],
)
def test_what_can_be_taken_two_ways_is_refused_with_how_to_write_it(
    kind: str, values: dict[str, object], said: str
) -> None:
    with pytest.raises(entry.BadEntry) as caught:
        entry.build(kind, values)
    assert said in caught.value.message


@pytest.mark.parametrize("word", ["lithium", "LiFePO4", "lfp", "Li-ion", "lithium ion"])
def test_a_lithium_battery_may_be_called_by_any_of_its_names(word: str) -> None:
    battery = entry.build("battery", {"name": "main", "place": "loose", "chemistry": word})
    assert isinstance(battery, Battery)
    assert battery.chemistry is Chemistry.LITHIUM


def test_an_unknown_rule_is_met_with_the_nearest_ones_and_the_command_that_lists_them_all() -> None:
    known = [rule.name for rule in RULES]
    hints = []
    for given in ("foo", "link-spare", "water"):
        with pytest.raises(NotFound) as caught:
            resolve(given, known, what="rule", all_by="kitlist rules")
        hints.append(caught.value.hint)
    assert hints == [
        "kitlist rules lists them.",
        "Did you mean link-without-spare or links-too-few? kitlist rules lists them.",
        "Did you mean fire-water-short? kitlist rules lists them.",
    ]
