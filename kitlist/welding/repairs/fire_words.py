"""Whether somebody's words about fire rules speak of a ban."""

from __future__ import annotations

import re
from functools import cache

from kitlist.base.noted import clauses, plain
from kitlist.base.sources import table

_BEFORE = 4  # words before a ban in which a "no" denies it: "not under any fire ban"


@cache
def _words(role: str) -> tuple[str, ...]:
    rows = [row for row in table("fire_words") if row["role"] == role]
    return tuple(sorted((w for row in rows for w in row["words"].split("; ")), key=len, reverse=True))


def says_ban(text: str) -> bool:
    """Whether an answer speaks of a ban that holds: not one denied, ended, of other fires, or for certain days alone.

    >>> says_ban("TOTAL FIRE BAN until Friday"), says_ban("no ban, no permit needed"), says_ban("allowed before noon")
    (True, False, False)
    >>> says_ban("the ban has not been lifted"), says_ban("ban lifted on Monday"), says_ban("not on fire ban days")
    (True, False, False)
    """
    others_alone = bool(_first(plain(text), "welding allowed"))
    return any(_bans(said, others_alone=others_alone) for said in map(plain, clauses(text)) if said)


def _bans(said: str, *, others_alone: bool) -> bool:
    for role in ("ban", "no doing"):
        for found in re.finditer(rf"\b(?:{_either(role)})\b", said):
            before, after = said[: found.start()], said[found.end() :]
            near = " ".join(before.split()[-_BEFORE:])
            if _first(near, "no") or _first(before, "if") or re.match(r" days?\b", after):
                continue
            if re.match(rf" (?:{_either('asks')})\b", after):
                continue  # whom to ask about bans
            if _ended(after) or (others_alone and _first(after, "other fires")):
                continue
            if role == "no doing" and _first(after, "limits") and not _first(after, "months"):
                continue  # a condition: "no welding after noon"
            return True
    return False


def _ended(after: str) -> bool:
    """Whether what follows a ban says that it is over, and not that it will be or is not yet."""
    if ended := re.search(rf"\b(?:{_either('ended')})\b", after):
        return not _first(after[: ended.start()], "not ended")
    return False


def _first(said: str, role: str) -> str:
    found = re.search(rf"\b(?:{_either(role)})\b", said)
    return found[0] if found else ""


def _either(role: str) -> str:
    return "|".join(map(re.escape, _words(role)))
