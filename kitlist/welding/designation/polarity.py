"""What the rod needs against what somebody wired, always at both ends.

The common slip: "reverse polarity" or "DCEP" is said, and the positive lead goes to the work. Under DCEP the
electrode is positive, and the work never is.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.errors import BadData
from kitlist.base.sources import PRACTICE, Source, Tag, sourced
from kitlist.base.terms import Polarity, Position
from kitlist.welding.designation.designation import Designation

A3_0 = Source(Tag.MEMORY, "AWS A3.0")


class Wired(StrEnum):
    """What comes of comparing."""

    RIGHT = "right"
    WRONG = "wrong"
    SLIP = "said one polarity, wired the other"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class PolarityCheck:
    """The comparison: what the rod needs, what was wired, and a sentence to read aloud."""

    result: Wired
    needs: tuple[Polarity, ...]
    wired: Polarity
    words: str


@sourced(A3_0)
def of_holder(sign: str) -> Polarity:
    """The polarity when the HOLDER is on the bank's `sign`, + or −.

    >>> of_holder("+")
    <Polarity.DCEP: 'DCEP'>
    """
    if sign in ("+", "plus", "positive"):
        return Polarity.DCEP
    if sign in ("-", "−", "minus", "negative"):
        return Polarity.DCEN
    raise BadData(f"the holder is on {sign!r}: + or − was expected")


@sourced(A3_0)
def of_work(sign: str) -> Polarity:
    """The polarity when the WORK CLAMP is on the bank's `sign`, + or −.

    >>> of_work("+")
    <Polarity.DCEN: 'DCEN'>
    """
    return Polarity.DCEN if of_holder(sign) is Polarity.DCEP else Polarity.DCEP


@sourced(A3_0)
def of_name(name: str) -> Polarity:
    """The polarity that a trade name stands for; "reverse" is DCEP and "straight" is DCEN.

    >>> of_name("reverse polarity")
    <Polarity.DCEP: 'DCEP'>
    """
    word = name.casefold().replace("polarity", "").strip(" -+")
    if word in ("dcep", "dcrp", "reverse", "electrode positive"):
        return Polarity.DCEP
    if word in ("dcen", "dcsp", "straight", "electrode negative"):
        return Polarity.DCEN
    raise BadData(f"{name!r} is no polarity: DCEP (reverse) or DCEN (straight) was expected")


@sourced(A3_0, PRACTICE)
def check_polarity(
    rod: Designation, wired: Polarity, *, said: Polarity | None = None, position: Position | None = None
) -> PolarityCheck:
    """Whether the rod may run as it was wired; `said` is what the person called it, if they called it anything.

    >>> from kitlist.welding.designation.designations import decode
    >>> slip = check_polarity(decode("E6011"), of_work("+"), said=of_name("DCEP"))
    >>> slip.result.value
    'said one polarity, wired the other'
    >>> print(slip.words.split(". ")[0])
    Called DCEP but wired DCEN: HOLDER TO −, WORK CLAMP TO +
    """
    needs = rod.flat_polarities if position is Position.FLAT else rod.polarities
    if not needs:
        words = f"{rod.text} does not say its polarity. Wired {wired.words}. Read the packet before striking."
        result = Wired.NOT_KNOWN
    else:
        wants = f"{rod.text} needs {' or '.join(p.words for p in needs)}."
        result = Wired.RIGHT if wired in needs else Wired.WRONG
        words = wants if wired in needs else f"Wired {wired.words}. {wants}"
    if said is not None and said is not wired:
        slip = f"Called {said} but wired {wired}: {wired.words}. {said} is {said.words}."
        tail = words.removeprefix(f"Wired {wired.words}. ")
        return PolarityCheck(Wired.SLIP, needs, wired, f"{slip} {tail}")
    return PolarityCheck(result, needs, wired, words)
