"""Numbers as people say them: one place for how finely a quantity is told, and for one day but two days.

What is kept keeps every digit; this is only how it reads on a screen or on paper.
"""

from __future__ import annotations

_DIGITS = {"mm": 1, "h": 1, "m": 2, "kg": 2, "l": 2, "L": 2}  # digits after the point; another unit keeps its own


def told(value: float, unit: str) -> str:
    """A value with its unit, as finely as the trade tells it, a true minus in front of what is below nothing.

    Temperatures to a degree, unless they were given to a tenth; sections to a tenth of a mm², from 100 mm² whole;
    millimetres and hours to a tenth; metres, kilograms and litres to a hundredth; all else as it is.

    >>> told(-3.8889, "°C"), told(4.5, "°C"), told(33.6308, "mm²"), told(1.5875, "mm"), told(1.79222, "h")
    ('−4 °C', '4.5 °C', '33.6 mm²', '1.6 mm', '1.8 h')
    """
    return f"{number(value, unit)} {unit}"


def number(value: float, unit: str) -> str:
    """The number of `told` without its unit.

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


def counted(count: float, one: str, several: str = "") -> str:
    """A count with its word, which is `several`, else `one` with an s, for any count but one.

    >>> counted(1, "day"), counted(2, "rod"), counted(2, "battery", "batteries"), counted(0.5, "day")
    ('1 day', '2 rods', '2 batteries', '0.5 days')
    """
    return f"{count:g} {one if count == 1 else several or f'{one}s'}"
