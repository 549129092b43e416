"""Names by any unambiguous start, whatever the case; an unknown one suggests the near ones."""

from __future__ import annotations

import difflib
import re
import shlex
from collections.abc import Iterable

from kitlist.base.errors import Ambiguous, NotFound

_SPECIAL_IN_DOUBLE_QUOTES = frozenset('"$`\\!')


def resolve(given: str, known: Iterable[str], *, what: str, all_by: str = "") -> str:
    """The one name in `known` that `given` means. Raises NotFound or Ambiguous, with what to type next.

    >>> resolve("heron", ["heron-main", "plover-main"], what="battery")
    'heron-main'
    """
    names = list(known)
    folded = given.strip().casefold()
    for name in names:
        if name.casefold() == folded:
            return name
    starts = [name for name in names if folded and name.casefold().startswith(folded)]
    if len(starts) == 1:
        return starts[0]
    if starts:
        raise Ambiguous(
            f"{given!r} could be {len(starts)} of {what}: {', '.join(sorted(starts)[:6])}",
            hint="Type more of the name.",
        )
    raise NotFound(f"no {what} is called {given!r}", hint=near(given, names, what=what, all_by=all_by))


def near(given: str, known: Iterable[str], *, what: str, all_by: str = "") -> str:
    """A hint with the nearest names, or what there is at all; `all_by` is the command that lists them."""
    names = sorted(known)
    if not names:
        return f"There is no {what} yet."
    by_fold = {n.casefold(): n for n in names}
    folded = given.strip().casefold()
    close = difflib.get_close_matches(folded, list(by_fold), n=3, cutoff=0.5)
    close = close or ([name for name in by_fold if folded in name][:3] if len(folded) > 2 else [])
    if close:
        listing = f" {all_by} lists them." if all_by else ""
        return "Did you mean " + " or ".join(by_fold[c] for c in close) + "?" + listing
    if len(names) > 6 and all_by:
        return f"{all_by} lists them."
    more = f" and {len(names) - 6} more" if len(names) > 6 else ""
    return f"There is: {', '.join(names[:6])}{more}."


def quoted(word: object) -> str:
    """A name, a path or another value as it is typed in a command line: one word, whatever stands in it.

    Double quotes where a shell leaves all between them alone, for people read those best; else as `shlex` has it.

    >>> print(quoted("dry lake"), quoted("heron-main"), quoted("Bob's $5 link"))
    "dry lake" heron-main 'Bob'"'"'s $5 link'
    """
    text = str(word)
    safe = shlex.quote(text)
    if safe == text or not text or set(text) & _SPECIAL_IN_DOUBLE_QUOTES:
        return safe
    return f'"{text}"'


def counting(name: str) -> tuple[tuple[bool, int, str], ...]:
    """What to sort names by, so that those with numbers stand in their order.

    >>> sorted(["Bag 10", "bag 2", "Bag 1", "7"], key=counting)
    ['7', 'Bag 1', 'bag 2', 'Bag 10']
    """
    parts = re.findall(r"[0-9]+|[^0-9]+", name)
    return tuple((not part.isdecimal(), int(part) if part.isdecimal() else 0, part.casefold()) for part in parts)
