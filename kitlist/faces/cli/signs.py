"""What a terminal or a file cannot show: signs that its encoding lacks, and errors that hold more than a line bears."""

from __future__ import annotations

import codecs
import re
import sys
import unicodedata

SHOWN = 80  # characters that an error echoes of what was typed
LINES = 20  # of one bad file that are shown
_AS = {
    "−": "-", "–": "-", "—": "-", "·": "-", "×": "x", "→": "->", "≤": "<=", "≥": ">=", "±": "+/-", "…": "...", "•": "*",
    "°": "deg ", "Ω": "ohm", "\u2126": "ohm", "µ": "u", "μ": "u", "²": "2", "³": "3", "½": "1/2", "¼": "1/4",
    "☐": "[ ]",
    "“": '"', "”": '"', "‘": "'", "’": "'", "\u00a0": " ", "\u202f": " ",
}  # fmt: skip
"""A sign that an encoding lacks, in signs that all have: a minus must never be a question mark."""

_QUOTED = re.compile(rf"(?P<mark>['\"])(?P<said>[^'\"]{{{SHOWN + 1},}})(?P=mark)")
_LONG = re.compile(rf"[^\s'\"]{{{SHOWN + 1},}}")


def nearest(error: UnicodeError) -> tuple[str, int]:
    """The nearest signs that every encoding has, for what one lacks; the codecs' way of being asked.

    >>> "−4.5 °C, 12 mΩ, Émeu".encode("ascii", "kitlist-nearest")
    b'-4.5 deg C, 12 mohm, Emeu'
    """
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = []
    for sign in error.object[error.start : error.end]:
        bare = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode()
        found.append(_AS.get(sign) or bare or "?")
    return "".join(found), error.end


codecs.register_error("kitlist-nearest", nearest)


def never_fail_to_show() -> None:
    """From now on the standard streams show the nearest sign for one that they cannot."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="kitlist-nearest")


def flushed() -> str:
    """Have all that was shown out; returns why not, "" where it is."""
    try:
        sys.stdout.flush()
    except OSError as error:
        sys.stdout = None  # so that the interpreter does not try again at its end
        return error.strerror or "it cannot be written"
    return ""


def short(text: str) -> str:
    """An error's text with what was typed cut, and with what cannot be seen written out.

    >>> short("no tool is called '" + "x" * 200 + "'").count("x"), short("a\\u202eb\\x1b[31m")
    (80, 'a\\\\u202eb\\\\x1b[31m')
    """
    cut = _QUOTED.sub(lambda found: f"{found['mark']}{found['said'][:SHOWN]}…{found['mark']}", text)
    cut = _LONG.sub(lambda found: f"{found[0][:SHOWN]}…", cut)
    return "".join(_seen(character) for character in cut)


def _seen(character: str) -> str:
    if character == "\n" or unicodedata.category(character) not in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp"):
        return character
    return character.encode("unicode_escape").decode("ascii")
