"""Whether somebody's words about fire rules speak of a ban."""

from __future__ import annotations

import re
from functools import cache

from kitlist.base.sources import table


@cache
def _words(role: str) -> tuple[str, ...]:
    rows = [row for row in table("fire_words") if row["role"] == role]
    return tuple(sorted((w for row in rows for w in row["words"].split("; ")), key=len, reverse=True))


def says_ban(text: str) -> bool:
    """Whether an answer speaks of a ban, and does not deny it.

    >>> says_ban("TOTAL FIRE BAN until Friday"), says_ban("no ban, no permit needed"), says_ban("allowed before noon")
    (True, False, False)
    """
    words = re.sub(r"[^a-z0-9]+", " ", text.casefold())
    either = "|".join(map(re.escape, _words("ban")))
    for found in re.finditer(rf"\b(?:{either})\b", words):
        before, after = words[: found.start()].split()[-2:], words[found.end() :].split()[:3]
        denied = any(" ".join(before).endswith(no) for no in _words("no")) and not found[0].startswith(("no ", "not "))
        if not denied and not {"lifted", "over", "ended"} & set(after):
            return True
    return False
