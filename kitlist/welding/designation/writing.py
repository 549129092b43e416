"""Reads a designation as people write it, field by field, and knows where it goes wrong.

Spaces and one hyphen or dash may stand between fields, in any case of letters; never inside a field.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NoReturn

from kitlist.base.errors import BadDesignation

_DASHES = "-‐‑‒–—−"
_SPACES = " \t\u00a0\u2007\u2009\u202f"
LONGEST = 60


class Writing:
    """A cursor over the letters and digits of one text.

    >>> w = Writing("E 7018-1")
    >>> w.take(["E"]), w.take(["60", "70"]), w.take(["18"]), w.gap, w.take(["1"]), w.done
    ('E', '70', '18', True, '1', True)
    """

    def __init__(self, text: str, *, start: int = 0) -> None:
        self.text = text
        self._letters: list[tuple[str, int, bool]] = []
        self.at = 0
        if len(text) > LONGEST:
            self.fail(f"longer than {LONGEST} characters", at=LONGEST)
        between = ""
        for index in range(start, len(text)):
            sign = text[index]
            if sign in _SPACES or sign in _DASHES:
                between += "-" if sign in _DASHES else " "
                if between.count("-") > 1:
                    self.fail("two hyphens in a row", at=index)
                if "-" in between and not self._letters and not start:
                    self.fail("a hyphen before the first letter", at=index)
                continue
            if not (sign.isascii() and sign.isalnum()):
                self.fail(f"{sign!r} has no place in a designation", at=index)
            self._letters.append((sign.upper(), index, bool(between) and bool(self._letters)))
            between = ""
        if "-" in between:
            self.fail("a hyphen with nothing after it", at=len(text) - 1)

    @property
    def compact(self) -> str:
        """All letters and digits from the cursor on, upper case, without what stands between."""
        return "".join(letter for letter, _, _ in self._letters[self.at :])

    @property
    def done(self) -> bool:
        """Nothing is left."""
        return self.at >= len(self._letters)

    @property
    def gap(self) -> bool:
        """A space or hyphen stands before the next letter."""
        return not self.done and self._letters[self.at][2]

    def sees(self, options: Iterable[str]) -> str | None:
        """The longest of `options` that stands next, in one piece; None if none does."""
        for option in sorted(options, key=len, reverse=True):
            piece = self._letters[self.at : self.at + len(option)]
            if "".join(letter for letter, _, _ in piece) == option.upper() and not any(g for _, _, g in piece[1:]):
                return option
        return None

    def take(self, options: Iterable[str]) -> str | None:
        """As `sees`, and moves past it."""
        option = self.sees(options)
        if option is not None:
            self.at += len(option)
        return option

    def need(self, options: Iterable[str], *, what: str) -> str:
        """As `take`, but what stands next must be one of `options`."""
        options = list(options)
        option = self.take(options)
        if option is None:
            self.fail(f"here {what} is expected: {', '.join(options)}")
        return option

    def end(self, *, after: str) -> None:
        """Nothing may be left after `after`."""
        if not self.done:
            self.fail(f"'{self.compact}' cannot follow {after}")

    def fail(self, why: str, *, at: int | None = None, nearest: tuple[str, ...] = ()) -> NoReturn:
        """Refuse the writing, naming the place (characters count from 1)."""
        if at is None:
            at = self._letters[self.at][1] if not self.done else len(self.text)
        shown = self.text if len(self.text) <= LONGEST else self.text[:LONGEST] + "…"
        raise BadDesignation(
            f"{shown!r} is no rod designation: at character {at + 1}, {why}", position=at + 1, nearest=nearest
        )


def squeezed(text: str) -> str:
    """Letters and digits only, upper case: for comparing what people write.

    >>> squeezed("e 42 4 b-42 h5")
    'E424B42H5'
    """
    return re.sub(r"[^0-9A-Z]", "", text.upper())
