"""Thousands of damaged designations: no crash, and nothing accepted that is none.

The grammar below is written on its own, as regular expressions, so that it can contradict the reader.
KITLIST_MUTATIONS sets how many are tried (the suite runs fewer than the 10,000 of a thorough run).
"""

import os
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from kitlist.base.errors import BadDesignation
from kitlist.welding.designation.designation import System
from kitlist.welding.designation.designations import decode, known_designations

TRIES = int(os.environ.get("KITLIST_MUTATIONS", "1000"))

_BASIC_TAIL = r"(?: (?:H(?:4|8|16)R?|R))?"
_COMPOSITION = r"(?:-(?:1|P1|P2|1M3|3M2|3M3|N1|N2|N3|3N3|N5|N7|N13|N2M3|NC|CC|NCC|NCC1|NCC2|G))?"
GRAMMAR = {
    System.AWS_A5_1: (
        r"E(?:60|43)(?:1[01239]|2[027])|E(?:70|49)(?:14|27)|E(?:70|49)24(?:-1)?"
        rf"|(?:E(?:60|43)18|E(?:70|49)(?:15|28|48)|E(?:70|49)1[68](?:-1)?|E(?:70|49)18M){_BASIC_TAIL}"
    ),
    System.ISO_2560_B: (
        rf"B-E(?:43|49|55|57)(?:03|1[01234689]|15|2[0478]|48){_COMPOSITION}(?: (?:A|P|AP))?(?: U)?(?: H(?:5|10|15))?"
    ),
    System.AS_NZS_1553_1: r"E(?:41|48)(?:1[01234689]|15|2[0478]|48)(?:-[0-6])?(?: H(?:5|10|15))?",
    System.ISO_2560_A: (
        r"E (?:35|38|42|46|50) [ZA02-6](?: (?:Mo|MnMo|1Ni|2Ni|3Ni|Mn1Ni|1NiMo|Z))?"
        r" (?:(?:A|C|R|RR|RC|RA|RB)(?: [1-8][1-5])?|B(?: [1-8][1-5])?(?: H(?:5|10|15))?)"
    ),
    System.AWS_A5_4: r"E(?:308L?|309L?|310|312|316L?)-1[567]",
}
_HYDROGEN_NEEDS_BASIC = re.compile(r"E\d\d(?:15|16|18|28|48)")

VALID = (
    *known_designations(),
    "E7018-1 H4R",
    "E7018 H8",
    "E4918-1 H4R",
    "E7018M H4R",
    "B-E4918-1 A U H5",
    "B-E5518-N2 A U H5",
    "B-E5516-3N3 P H10",
    "E4818-2 H10",
    "E4113-0",
    "E 42 4 B 32 H5",
    "E 46 3 1Ni B 54 H5",
    "E 38 Z RR 12",
    "E 50 6 Mn1Ni B 42 H5",
    "AWS A5.1: E6013",
    "ISO 2560-A: E 38 3 C 21",
)
ALPHABET = "E0123456789ABCHMNPRUZIO -–/.xe\u00a0٣"


def _edited(text, edits):
    letters = list(text)
    for kind, place, sign in edits:
        at = place % (len(letters) + 1)
        if kind == "insert":
            letters.insert(at, sign)
        elif letters and kind == "replace":
            letters[at % len(letters)] = sign
        elif letters and kind == "delete":
            del letters[at % len(letters)]
        elif len(letters) > 1 and kind == "swap":
            first = at % (len(letters) - 1)
            letters[first], letters[first + 1] = letters[first + 1], letters[first]
    return "".join(letters)


EDITS = st.lists(
    st.tuples(
        st.sampled_from(["insert", "replace", "delete", "swap"]),
        st.integers(min_value=0, max_value=40),
        st.sampled_from(ALPHABET),
    ),
    min_size=1,
    max_size=3,
)


def _letters(text):
    return re.sub(r"[^0-9A-Z]", "", text.upper())


def _is_well_formed(rod):
    if not re.fullmatch(GRAMMAR[rod.system], rod.text):
        return False
    if rod.system in (System.ISO_2560_B, System.AS_NZS_1553_1) and re.search(r" H\d", rod.text):
        return bool(_HYDROGEN_NEEDS_BASIC.search(rod.text))
    return True


def _says_only_what_was_written(rod, written):
    """Nothing of the writing was dropped, and nothing added but the leading B- and E; the standard's name may go."""
    answer, given_letters = _letters(rod.text), _letters(written)
    for name in ("AWSA51M", "AWSA51", "AWSA54", "ENISO2560A", "ENISO2560B", "ISO2560A", "ISO2560B"):
        if given_letters.startswith(name):
            given_letters = given_letters[len(name) :]
            break
    bare = {answer, answer.removeprefix("B"), answer.removeprefix("B").removeprefix("E")}
    if rod.system is System.ISO_2560_A:
        bare.add("A" + answer)
    return given_letters in bare


def _read(written):
    """The rod, or the refusal."""
    try:
        return decode(written), None
    except BadDesignation as bad:
        return None, bad


@settings(max_examples=TRIES, deadline=None)
@given(st.sampled_from(VALID), EDITS)
def test_a_damaged_designation_is_read_rightly_or_refused(valid, edits):
    written = _edited(valid, edits)
    rod, bad = _read(written)
    if bad is not None:
        assert 1 <= bad.position <= len(written) + 1
        assert bad.hint
        for near in bad.nearest:
            assert decode(near)
        return
    assert _is_well_formed(rod), (written, rod.text)
    assert _says_only_what_was_written(rod, written), (written, rod.text)
    assert rod.facts()


@settings(max_examples=TRIES // 4, deadline=None)
@given(st.text(max_size=80))
def test_any_text_at_all_is_read_or_refused_without_a_crash(text):
    rod, bad = _read(text)
    assert bad.message if bad is not None else _is_well_formed(rod)


def test_the_grammar_of_this_test_takes_every_valid_example():
    for valid in VALID:
        assert _is_well_formed(decode(valid)), valid
        assert _says_only_what_was_written(decode(valid), valid), valid
