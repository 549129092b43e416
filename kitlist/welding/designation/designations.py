"""Reads a rod's designation in any of the systems on a packet: `decode("E7018-1 H4R")`."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from kitlist.base.errors import BadDesignation
from kitlist.welding.designation import a5_1, a5_4, iso_2560_a, iso_2560_b
from kitlist.welding.designation.designation import Designation, System
from kitlist.welding.designation.writing import Writing, squeezed

_STATED = re.compile(
    r"\s*(?:(?P<aws>(?:AWS\s+|ASME\s+)?S?F?A[\s-]?5\.1M?(?:\s*/\s*A?5\.1M)?)|(?P<aws4>(?:AWS\s+|ASME\s+)?S?F?A[\s-]?5\.4M?"
    r"(?:\s*/\s*A?5\.4M)?)|(?:EN\s+)?ISO\s+2560\s*-\s*(?P<iso>[AB])|(?P<en499>EN\s+499)"
    r"|AS/NZS\s+4855\s*-\s*(?P<asnzs>[AB])|(?P<old>AS/NZS\s+1553\.1))(?:\s*[:-]\s*(?:19|20)\d\d\b)?(?:\s*[:-]\s*|\s+)",
    re.IGNORECASE,
)
_SEVERAL = re.compile(r"\s+/\s+|\s*[();]\s*")
_AWS_MARKS = ("H4", "H8", "H16", "R", "M")


@lru_cache(maxsize=256)  # every bank that is weighed reads each packet again
def decode(text: str) -> Designation:
    """What a rod's designation says.

    Takes AWS A5.1 (also A5.1M), ISO 2560-B and AS/NZS 4855-B, ISO 2560-A, the superseded AS/NZS 1553.1, and the
    common stainless rods of AWS A5.4; in any case, with spaces or single hyphens between fields, the standard's
    name before it or not, and the leading E of a four-digit class left out as people do. Raises `BadDesignation`,
    with the place of the error and the nearest valid designations, for anything else.

    >>> rod = decode("e7018-1 h4r")
    >>> rod.text, rod.strength.tensile_mpa, rod.toughness.words, rod.hydrogen_ml_100g
    ('E7018-1 H4R', 490, '27 J at −45 °C', 4.0)
    >>> rod.current_words
    'AC or DC: HOLDER TO +, WORK CLAMP TO −'
    """
    try:
        return _read_all(text)
    except BadDesignation as bad:
        near = bad.nearest or nearest(text)
        hint = f"Near: {', '.join(near)}." if near else "A designation looks like E6013, B-E4918 or E 42 4 B 42 H5."
        raise BadDesignation(bad.message, position=bad.position, nearest=near, hint=hint) from None


def _read_all(text: str) -> Designation:
    """One rod under several names, as packets have it, "E6013 / E 42 0 RR 12": all must be of one covering."""
    pieces = [piece for piece in _SEVERAL.split(text) if piece.strip() and not _STATED.fullmatch(f"{piece} ")]
    if len(pieces) < 2:
        return _read(pieces[0] if pieces else text)
    read = [_read(piece) for piece in pieces]
    if len({(rod.covering, rod.low_hydrogen) for rod in read}) > 1:
        raise BadDesignation(f"{text!r} names rods of two kinds: {' and '.join(rod.text for rod in read)}", position=1)
    return next((rod for rod in read if rod.polarities), read[0])


def _read(text: str) -> Designation:
    start, stated = 0, None
    if named := _STATED.match(text):
        start = named.end()
        part = (named["iso"] or named["asnzs"] or "").upper()
        stated = {"A": System.ISO_2560_A, "B": System.ISO_2560_B}.get(part)
        stated = System.AWS_A5_1 if named["aws"] else stated
        stated = System.AWS_A5_4 if named["aws4"] else stated
        stated = System.AS_NZS_1553_1 if named["old"] else stated
        stated = System.ISO_2560_A if named["en499"] else stated
    w = Writing(text, start=start)
    if w.done:
        w.fail("there is nothing to read")
    if stated in (None, System.ISO_2560_A, System.ISO_2560_B) and (part := w.sees(["A", "B"])):
        begun = w.at
        w.take([part])
        if w.sees(["E"]) is None:
            w.at = begun
            w.fail("a designation begins with E")
        of_part = System.ISO_2560_A if part == "A" else System.ISO_2560_B
        if stated not in (None, of_part):
            w.at = begun
            w.fail(f"{part} is not the part that was named, {stated}")
        stated = of_part
    lettered = w.take(["E"]) is not None
    if not lettered and not re.match(r"\d{4}", w.compact):
        w.fail("a designation begins with E")
    return _by_digits(w, stated, lettered)


def _by_digits(w: Writing, stated: System | None, lettered: bool) -> Designation:
    begun = w.at
    if alloy := w.take(a5_4.classes()):
        _agree(w, begun, stated, (System.AWS_A5_4,))
        if not lettered:
            w.at = begun
            w.fail("a designation begins with E")
        return a5_4.read(w, alloy=alloy)
    if low_alloy := re.match(r"(?:80|90|1[0-2]0)(\d\d)", w.compact):
        same = f"E70{low_alloy[1]}"
        w.fail(
            "this strength is a low-alloy class of AWS A5.5, which is not held here",
            nearest=(same,) if same in a5_1.classes() else (),
        )
    digits = w.take(["60", "70", *iso_2560_b.TENSILE_MPA, *iso_2560_b.OLD_TENSILE_MPA, *iso_2560_a.strengths()])
    if digits is None:
        w.fail("the strength is expected: 60, 70; 43, 49, 55, 57; 41, 48; 35, 38, 42, 46, 50; or a stainless number")
    if digits in iso_2560_a.strengths():
        _agree(w, begun, stated, (System.ISO_2560_A,))
        if not lettered:
            w.at = begun
            w.fail("a designation of this system begins with E")
        return iso_2560_a.read(w, digits=digits)
    if digits in ("60", "70"):
        _agree(w, begun, stated, (System.AWS_A5_1,))
        code = w.need(
            [name[3:5] for name in a5_1.classes() if name[1:3] == digits and len(name) == 5], what="the class"
        )
        return a5_1.read(w, digits=digits, code=code, metric=False)
    if digits in iso_2560_b.OLD_TENSILE_MPA:
        _agree(w, begun, stated, (System.AS_NZS_1553_1,))
        code = w.need(iso_2560_b.OLD_CODES[digits], what="the class")
        return iso_2560_b.read_old(w, digits=digits, code=code)
    _agree(w, begun, stated, (System.ISO_2560_B, System.AWS_A5_1))
    return _metric(w, digits, stated)


def _metric(w: Writing, digits: str, stated: System | None) -> Designation:
    """43, 49, 55 and 57 are ISO 2560-B; 43 and 49 are A5.1M too, told apart by the name or by AWS's own marks."""
    known = [name[3:5] for name in a5_1.classes() if digits == {"60": "43", "70": "49"}[name[1:3]] and len(name) == 5]
    if stated is System.AWS_A5_1:
        return a5_1.read(w, digits=digits, code=w.need(known, what="the class"), metric=True)
    codes = iso_2560_b.CODES[digits]
    code = w.need(sorted({*codes, *known}) if stated is None else codes, what="the class")
    rest = re.sub(r"^1", "", w.compact) if w.gap else w.compact
    american = rest.startswith(_AWS_MARKS) and not rest.startswith(("H15",))
    if stated is None and code in known and (american or code not in codes):
        return a5_1.read(w, digits=digits, code=code, metric=True)
    return iso_2560_b.read(w, digits=digits, code=code)


def _agree(w: Writing, begun: int, stated: System | None, found: tuple[System, ...]) -> None:
    """The system that was named must be the one that the digits belong to."""
    if stated is not None and stated not in found:
        w.at = begun
        w.fail(f"this is written as {found[0].value}, not as {stated.value}")


@cache
def known_designations() -> tuple[str, ...]:
    """One plain example of every class held here, and of ISO 2560-A the usual rods."""
    rough = [r for row in a5_1.classes().values() for r in row["rough_iso_a"].split("; ") if r]
    stainless = [f"E{alloy}-{code}" for alloy in a5_4.classes() for code in a5_4.COVERINGS]
    tougher = [f"{name}-1" for name in a5_1.TOUGHER]
    return (*a5_1.classes(), *tougher, *iso_2560_b.names(), *dict.fromkeys(rough), *stainless)


def nearest(text: str, *, count: int = 3) -> tuple[str, ...]:
    """The valid designations that look most like `text`, nearest first; empty where none is near.

    >>> nearest("E7081")[0]
    'E7018'
    """
    from difflib import SequenceMatcher

    wanted = squeezed(text[:80])
    if wanted[:1].isdigit():
        wanted = "E" + wanted
    matcher = SequenceMatcher(b=wanted, autojunk=False)
    scored: list[tuple[float, int, int, str]] = []
    for name in known_designations():
        letters = squeezed(name)
        matcher.set_seq1(letters)
        swapped = len(letters) == len(wanted) and sorted(letters) == sorted(wanted)
        score = 1.0 if swapped else matcher.ratio() - 0.03 * abs(len(letters) - len(wanted))
        score += 0.05 * (letters[:3] == wanted[:3])
        if score >= 0.6:
            apart = sum(abs(ord(a) - ord(b)) for a, b in zip(letters, wanted, strict=False))
            scored.append((-score, apart, len(scored), name))
    return tuple(name for _, _, _, name in sorted(scored)[:count])
