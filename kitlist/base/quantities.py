"""Trade sizes at the edge: '4 AWG', '1/8 in', '40 F', '12h' become the metric units used inside."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from kitlist.base.errors import BadData

_GAUGE = re.compile(
    r"\s*(?:(?:(?P<aughts>\d)/0|(?P<number>\d{1,2}|0{2,4}))\s*(?:awg|gauge|ga)"
    r"|(?:awg|#|gauge)\s*(?:(?P<aughts_after>\d)/0|(?P<number_after>\d{1,2}|0{2,4})))\s*",
    re.IGNORECASE,
)
OVERNIGHT_H = 8.0  # the least that a night is: longer rests only tell more; common practice
_NUMBER = re.compile(r"\s*([+\-−]?)\s*(\d+(?:[.,]\d+)?(?:[ -]\d+/\d+|/\d+)?|\d+/0)\s*(.*?)\s*", re.DOTALL)


def _times(factor: float) -> Callable[[float], float]:
    return lambda value: value * factor


def _from_fahrenheit(value_f: float) -> float:
    """°C to a tenth, which is finer than a whole degree Fahrenheit can tell."""
    return round((value_f - 32) / 1.8, 1)


def awg_area_mm2(gauge: float) -> float:
    """Area of an American wire gauge in mm2; gauges 1/0 to 4/0 are 0, -1, -2, -3.

    Source: ASTM B258, diameter 0.127 mm x 92^((36 - n) / 39) (from memory, to be verified).

    >>> round(awg_area_mm2(4), 1), round(awg_area_mm2(-1), 1)
    (21.2, 67.4)
    """
    diameter_mm: float = 0.127 * 92 ** ((36 - gauge) / 39)
    return math.pi / 4 * diameter_mm**2


BUNDLE_FILL = 0.75  # copper in the circle round bare strands: fine ropes 0.75, coarse ones more; common practice


def section_mm2(text: str) -> float | None:
    """A section from what is measured on a cut end, or from the print on the cable; None for other words.

    `378x0.3` is 378 wires of 0.3 mm, `1x35` one core of 35 mm2 as cables are printed, `bundle 7.7mm` the diameter of
    the bare strands together, rather too small than too large. The outside of the insulation says nothing.

    >>> [round(section_mm2(text), 1) for text in ("378x0.3", "7 x 54 x 0.3mm", "1x35", "bundle 7.7")]
    [26.7, 26.7, 35.0, 34.9]
    """
    words = text.strip().casefold().replace(",", ".").replace("×", "x")
    if bundle := re.fullmatch(r"bundle (\d+(?:\.\d+)?) ?(?:mm)?", words):
        return BUNDLE_FILL * math.pi / 4 * float(bundle[1]) ** 2
    if not re.fullmatch(r"\d{1,5}( ?x ?\d{1,5}(\.\d{1,3})?){1,2} ?(mm2?|mm²)?", words):
        return None
    *counts, last = (float(part) for part in re.findall(r"\d+(?:\.\d+)?", words.split("mm")[0]))
    if last > THICKEST_STRAND_MM:
        return last if counts == [1.0] else None
    return math.prod(counts) * math.pi / 4 * last**2


THICKEST_STRAND_MM = 2.6  # of a stranded cable; a number above it is a section; common practice
_UNITS: dict[str, dict[str, Callable[[float], float]]] = {
    "Ah": dict.fromkeys(("ah", "a h", "a.h", "amp hour", "amp hours", "amp-hours", "amphours"), _times(1)),
    "A": dict.fromkeys(("a", "amp", "amps", "ampere", "amperes"), _times(1)),
    "W": {**dict.fromkeys(("w", "watt", "watts"), _times(1)), "kw": _times(1000)},
    "V": {"v": _times(1), "volt": _times(1), "volts": _times(1), "mv": _times(0.001)},
    "mohm": {"mohm": _times(1), "mω": _times(1), "ohm": _times(1000), "ω": _times(1000)},
    "mm2": dict.fromkeys(("mm2", "mm²", "mm^2", "sqmm", "sq mm", "sq. mm", "square mm"), _times(1)),
    "mm": {
        **dict.fromkeys(("mm", "millimetres", "millimeters"), _times(1)),
        "cm": _times(10),
        "m": _times(1000),
        **dict.fromkeys(("in", "inch", "inches", '"'), _times(25.4)),
    },
    "m": {
        **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), _times(1)),
        "cm": _times(0.01),
        "mm": _times(0.001),
        **dict.fromkeys(("ft", "foot", "feet", "'"), _times(0.3048)),
        **dict.fromkeys(("in", "inch", "inches", '"'), _times(0.0254)),
    },
    "h": {
        **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), _times(1)),
        **dict.fromkeys(("min", "mins", "minutes", "m"), _times(1 / 60)),
        **dict.fromkeys(("d", "day", "days"), _times(24)),
        **dict.fromkeys(("w", "week", "weeks"), _times(168)),
    },
    "°C": {"c": _times(1), "°c": _times(1), "f": _from_fahrenheit, "°f": _from_fahrenheit},
    "kg": {"kg": _times(1), "g": _times(0.001), **dict.fromkeys(("lb", "lbs", "pounds"), _times(0.45359237))},
    "l": {**dict.fromkeys(("l", "litre", "litres", "liter", "liters"), _times(1)), "ml": _times(0.001)},
    "%": dict.fromkeys(("%", "percent", "per cent"), _times(0.01)),
    "": {},
}


def parse(text: str, unit: str) -> float:
    """The value of `text` in `unit`; a bare number is taken to be in `unit` (a bare ratio as a ratio).

    Raises BadData for text that is no quantity of that unit.

    >>> parse("12h", "h"), parse("1/8 in", "mm"), round(parse("40 F", "°C"), 1), parse("±0.5 %", "%")
    (12.0, 3.175, 4.4, 0.005)
    """
    if unit == "mm2" and (gauge := _GAUGE.fullmatch(text)):
        aughts, number = gauge["aughts"] or gauge["aughts_after"], gauge["number"] or gauge["number_after"]
        return awg_area_mm2(1 - int(aughts) if aughts else 1 - len(number) if set(number) == {"0"} else int(number))
    if unit == "mm2" and (section := section_mm2(text)) is not None:
        return section
    if unit == "h" and text.strip().casefold() in ("overnight", "over night"):
        return OVERNIGHT_H
    if unit == "%":
        text = re.sub(r"^\s*(±|\+/-)\s*", "", text)  # as meters have their accuracy printed
    found = _NUMBER.fullmatch(text)
    known = _UNITS[unit]
    if found is not None and (hint := _other_writing(text.strip(), number=found[2], word=found[3].lower(), unit=unit)):
        raise BadData(f"{text!r} can mean two things", hint=hint)
    if found is None or (found[3] and found[3].lower() not in known):
        words = ", ".join(known) + (", awg" if unit == "mm2" else "")
        raise BadData(f"{text!r} is not a number{f' in {words}' if known else ''}")
    try:
        value = float(sum(Fraction(part.replace(",", ".")) for part in re.split(r"[ -]", found[2])))
    except ZeroDivisionError:
        raise BadData(f"{text!r} divides by nothing") from None
    except (OverflowError, ValueError):
        raise BadData(f"{text[:20]!r}… is too large a number") from None
    if found[1] in "-−" and found[1]:
        value = -value
    return known[found[3].lower()](value) if found[3] else value


def _other_writing(text: str, *, number: str, word: str, unit: str) -> str:
    """How to write what can be taken two ways: a gauge, a fraction of an inch, a degree, a gallon; "" for the rest."""
    fraction = "/" in number and not word
    if unit == "mm2" and fraction:
        return f"write {text} AWG"
    if unit == "mm2" and word == "mm":
        return f"write {number} mm2 for the area of the copper; a width over all says nothing: measure the strands"
    if unit == "mm" and fraction:
        return f"write {text} in"
    if unit == "°C" and word in ("°", "º", "deg", "degrees"):
        degrees = text[: len(text) - len(word)].strip()
        return f"write {degrees}C or {degrees}F"
    if unit == "l" and word in ("gal", "gals", "gallon", "gallons"):
        gallons = float(Fraction(number.replace(",", "."))) if re.fullmatch(r"[\d.,]{1,6}", number) else 1.0
        return f"write litres: {gallons:g} US gal is {gallons * 3.785412:.1f}L, imperial {gallons * 4.54609:.1f}L"
    return ""


def rod_diameter_mm(value_mm: float) -> float:
    """A rod's diameter as the trade writes it, to 0.1 mm: 1/8 in is 3.2, 3/32 in is 2.4.

    >>> rod_diameter_mm(3.175), rod_diameter_mm(2.38125)
    (3.2, 2.4)
    """
    return round(value_mm, 1)
