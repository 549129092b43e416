"""Numbers as people say them: one place for how finely a quantity is told, and for one day but two days.

What is kept keeps every digit; this is only how it reads on a screen or on paper.
"""

from __future__ import annotations

import math
import re

from kitlist.base.terms import Units

_DIGITS = {"mm": 1, "h": 1, "m": 2, "kg": 2, "l": 2, "L": 2}  # digits after the point; another unit keeps its own


def with_unit(value: float, unit: str) -> str:
    """A value with its unit, as finely as the trade tells it, a true minus in front of what is below nothing.

    Temperatures to a degree, unless they were given to a tenth; sections to a tenth of a mm², from 100 mm² whole;
    millimetres and hours to a tenth; metres, kilograms and litres to a hundredth; all else as it is.

    >>> with_unit(-3.8889, "°C"), with_unit(4.5, "°C"), with_unit(33.6308, "mm²")
    ('−4 °C', '4.5 °C', '33.6 mm²')
    >>> with_unit(1.5875, "mm"), with_unit(1.79222, "h")
    ('1.6 mm', '1.8 h')
    """
    return f"{number(value, unit)} {unit}"


def number(value: float, unit: str) -> str:
    """The number of `with_unit` without its unit.

    >>> number(16.0, "mm²"), number(107.2193, "mm²"), number(-0.0001, "°C")
    ('16', '107', '0')
    """
    digits = _DIGITS.get(unit)
    if unit == "°C":
        digits = 1 if abs(value * 10 - round(value * 10)) < 1e-6 else 0  # 4.5 was typed so; 4.44444 was 40 °F
    elif unit == "mm²":
        digits = 1 if abs(value) < 100 else 0
    shown = value if digits is None else round(value, digits) + 0.0
    return f"{shown:g}".replace("-", "−")


_FACTORS = {"m": (1 / 0.3048, "ft", 1), "km": (1 / 1.609344, "mi", 0), "kg": (1 / 0.45359237, "lb", 0)}
_AUGHTS = {0: "1/0", -1: "2/0", -2: "3/0", -3: "4/0"}
_NEAR_MM = 0.06  # how far a size may be from a 32nd of an inch that the trade calls it by: 3.2 is 1/8, 2.5 is none


def told_apart(one: float, other: float, *, places: int) -> tuple[str, str]:
    """Two figures of one unit to so many places; unlike ones to as many more, two at the most, as show it.

    >>> told_apart(9.84, 9.2, places=1), told_apart(9.18, 9.21, places=1), told_apart(-14.6, -15, places=0)
    (('9.8', '9.2'), ('9.18', '9.21'), ('−14.6', '−15.0'))
    >>> told_apart(9.21, 9.21, places=1)
    ('9.2', '9.2')
    """
    shown = [(_to(one, digits), _to(other, digits)) for digits in range(places, places + 3)]
    return next((pair for pair in shown if pair[0] != pair[1]), shown[0])


def _to(value: float, digits: int) -> str:
    return f"{round(value, digits) + 0.0:.{digits}f}".replace("-", "−")


def imperial(value: float, unit: str) -> str:
    """The same in the units of inches, gauges and Fahrenheit, as it stands beside the metric; "" where none is used.

    A section is the gauge that is not thicker than it.

    >>> imperial(33.7, "mm²"), imperial(35, "mm²"), imperial(70, "mm²"), imperial(3.2, "mm"), imperial(2.5, "mm")
    ('2 AWG', '2 AWG', '2/0 AWG', '1/8 in', '0.098 in')
    >>> imperial(3, "m"), imperial(-6, "°C"), imperial(20, "kg"), imperial(12.7, "V")
    ('9.8 ft', '21 °F', '44 lb', '')
    """
    if unit == "mm²" and value > 0:
        diameter_mm = math.sqrt(4 * value / math.pi)
        exact = 36 - 39 * math.log(diameter_mm / 0.127) / math.log(92)  # ASTM B258, as `awg_area_mm2` has it
        gauge = math.ceil(exact - 0.02)
        return f"{_AUGHTS.get(gauge, gauge)} AWG" if gauge >= min(_AUGHTS) else f"over {_AUGHTS[-3]} AWG"
    if unit == "mm":
        parts = round(value / 25.4 * 32)
        if parts and abs(parts * 25.4 / 32 - value) <= _NEAR_MM:
            from fractions import Fraction  # for inches alone

            share = Fraction(parts, 32)
            whole, rest = divmod(share, 1)
            return f"{f'{whole} ' if whole and rest else whole or ''}{rest or ''} in"
        return f"{value / 25.4:.3f} in" if value < 10 else f"{value / 25.4:.1f} in"
    factor, word, digits = _FACTORS.get(unit, (0.0, "", 0))
    if unit == "°C":
        return f"{round(value * 1.8 + 32):g} °F".replace("-", "−")
    return f"{value * factor:.{digits}f} {word}" if word else ""


def beside(value: float, unit: str, *, units: Units) -> str:
    """The metric value, and behind it in brackets the one of inches, gauges and Fahrenheit where an owner wants it.

    >>> beside(35, "mm²", units=Units.METRIC), beside(35, "mm²", units=Units.IMPERIAL)
    ('35 mm²', '35 mm² (2 AWG)')
    """
    other = imperial(value, unit) if units is Units.IMPERIAL else ""
    return f"{with_unit(value, unit)} ({other})" if other else with_unit(value, unit)


_NUMBER = r"[−-]?\d+(?:\.\d+)?"
_QUANTITY = re.compile(
    rf"(?<![\w.,×/])(?:(?P<first>{_NUMBER})(?P<to> to |–))?(?P<value>{_NUMBER}) "
    r"(?P<unit>mm²|mm|km|kg|m|°C)(?![\w²Ω/])(?! \()"  # not where it stands in brackets behind it already
)


def spelled(text: str, *, units: Units) -> str:
    """A sentence with what `beside` adds behind each quantity that stands in it.

    >>> spelled("rated to −5 °C; steel of 6–8 mm, 10 m off; 11.8 mΩ", units=Units.IMPERIAL)
    'rated to −5 °C (23 °F); steel of 6–8 mm (0.236–0.315 in), 10 m (32.8 ft) off; 11.8 mΩ'
    >>> spelled("2 h at 350 to 370 °C, 35 mm² (2 AWG)", units=Units.IMPERIAL)
    '2 h at 350 to 370 °C (662 to 698 °F), 35 mm² (2 AWG)'
    >>> spelled("10 m off", units=Units.METRIC)
    '10 m off'
    """
    return _QUANTITY.sub(_with_imperial, text) if units is Units.IMPERIAL else text


def _with_imperial(found: re.Match[str]) -> str:
    unit = found["unit"]
    other = imperial(_value(found["value"]), unit)
    if found["first"]:
        first = imperial(_value(found["first"]), unit).rpartition(" ")[0]
        other = f"{first}{found['to']}{other}"
    return f"{found[0]} ({other})"


def _value(number: str) -> float:
    return float(number.replace("−", "-"))


def counted(count: float, one: str, several: str = "") -> str:
    """A count with its word, which is `several`, else `one` with an s, for any count but one.

    >>> counted(1, "day"), counted(2, "rod"), counted(2, "battery", "batteries"), counted(0.5, "day")
    ('1 day', '2 rods', '2 batteries', '0.5 days')
    """
    return f"{count:g} {one if count == 1 else several or f'{one}s'}"
