"""Words that several papers share."""

from __future__ import annotations

from kitlist.outlook.procedure import Deed, Procedure
from kitlist.outlook.procedure_terms import Phase, Task
from kitlist.outlook.procedure_words import wording
from kitlist.physics.bank.verdict import Fit

COUNTS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
THICK_MM = 25.0  # where the table of rod by plate ends


def bank_words(strings: tuple[tuple[str, ...], ...]) -> str:
    """The bank in words.

    >>> bank_words((("a", "b", "c"),)), bank_words((("a", "b"), ("c", "d")))
    ('three in series', 'two strings of two')
    """
    size = COUNTS.get(len(strings[0]), str(len(strings[0])))
    if len(strings) == 1:
        return f"{size} in series"
    return f"{COUNTS.get(len(strings), str(len(strings)))} strings of {size}"


def in_holder(steps: Procedure) -> tuple[str, ...]:
    """What its steps put into the holder's lead, from the battery on."""
    done = {entry.do for entry in steps.stage(Phase.LINK).entries if isinstance(entry, Deed)}
    parts = ((Task.FUSE_IN, "fuse"), (Task.BALLAST, "ballast"))
    return tuple(word for task, word in parts if task in done)


def steel_words(steel_mm: tuple[float, float] | None) -> str:
    """The steel that a rod is for; from half a millimetre on it is what a hot bank asks at the least.

    >>> steel_words((3, 8)), steel_words((8, 25)), steel_words((5.5, 8)), steel_words(None)
    ('3–8 mm', '≥ 8 mm', '≥ 5.5 mm', 'not known')
    """
    if steel_mm is None:
        return "not known"
    low_mm, high_mm = steel_mm
    return f"≥ {low_mm:g} mm" if high_mm >= THICK_MM or low_mm % 1 else f"{low_mm:g}–{high_mm:g} mm"


def capital(text: str) -> str:
    """The text with a capital first letter, whatever follows.

    >>> capital("welding helmet"), capital("DC clamp meter")
    ('Welding helmet', 'DC clamp meter')
    """
    return text[:1].upper() + text[1:]


def asks(fit: Fit | None, steel_mm: tuple[float, float] | None) -> str:
    """What a bank that is so for a rod asks of steel and hand."""
    least = f"{steel_mm[0]:g} mm" if steel_mm else "thicker than usual"
    return str(wording()["fit"][str(fit or "unknown")]["asks"]).format(steel=steel_words(steel_mm), least=least)
