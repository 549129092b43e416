"""Numbers on paper and screen are as fine as the trade tells them."""

from __future__ import annotations

import pytest

from kitlist.base import quantities
from kitlist.base.measures import counted, with_unit

# What the numbers should read as: 25 °F is −3.9 °C; AWG 2 is 33.6 mm² in every wire table, 4/0 is 107 mm²; 1/16 in is
# 1.6 mm of steel; 1 h 47 min is 1.8 h.


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (-3.88889, "°C", "−4 °C"), (8.88889, "°C", "9 °C"), (-3.9, "°C", "−3.9 °C"), (-6, "°C", "−6 °C"),
        (-0.2222222, "°C", "0 °C"), (33.6308, "mm²", "33.6 mm²"), (107.219, "mm²", "107 mm²"), (25, "mm²", "25 mm²"),
        (1.5875, "mm", "1.6 mm"), (5, "mm", "5 mm"), (1.79222, "h", "1.8 h"), (12, "h", "12 h"), (1.0, "kg", "1 kg"),
        (12.71, "V", "12.71 V"), (3.048, "m", "3.05 m"), (0.75, "L", "0.75 L"), (70, "Ah", "70 Ah"),
    ],
)  # fmt: skip
def test_a_converted_quantity_is_told_without_digits_that_nobody_measured(value: float, unit: str, words: str) -> None:
    assert with_unit(value, unit) == words


def test_one_is_told_in_the_singular_and_nothing_else_is() -> None:
    assert [counted(n, "rod") for n in (0, 1, 2)] == ["0 rods", "1 rod", "2 rods"]
    assert counted(1, "battery", "batteries") == "1 battery"


def test_a_temperature_in_fahrenheit_is_kept_to_a_tenth_of_a_degree() -> None:
    assert quantities.parse("25F", "°C") == -3.9
    assert quantities.parse("32 °F", "°C") == 0
