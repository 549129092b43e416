"""Results on stdout, talk on stderr; the store that a command works on; days and tables as people read them."""

from __future__ import annotations

import json
import os
import shlex
import shutil
import sys
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

from kitlist.base import clean, days
from kitlist.base.errors import BadData, UsageError

if TYPE_CHECKING:
    from kitlist.store import Store
    from kitlist.store.noting import Signature


def say(text: str) -> None:
    """Talk: what a person wants to hear and a script does not."""
    typer.echo(text, file=sys.stderr)  # not a stream of typer's own making, which knows no encoding but UTF-8


def show(text: str) -> None:
    """A result."""
    typer.echo(text, file=sys.stdout)


def show_json(value: Any) -> None:
    """A result for a script."""
    show(json.dumps(value, indent=2, ensure_ascii=False, default=str))


def store_path(context: typer.Context) -> Path:
    """The file named by --store, else KITLIST_STORE, else the one in the data folder."""
    from kitlist.store import default_path

    named: Path | None = context.obj["store"]
    return named or default_path()


def open_store(context: typer.Context) -> Store:
    """The open store of this command; the journal gets the command's words and who gave it."""
    from kitlist.store import Store

    return Store(store_path(context), rulebook=context.obj.get("rulebook"), signature=signature(context))


def signature(context: typer.Context) -> Signature:
    """The words of this command and who gave it, for the journal."""
    from kitlist.store.noting import Signature

    who = context.obj.get("by") or os.environ.get("KITLIST_BY", "")
    return Signature(clean.plain(shlex.join(_own(context.obj.get("words", ())))), clean.plain(who))


def not_one(words: Sequence[str], what: str, known: Sequence[str]) -> UsageError:
    """What to say where several words came for one name: the reader's own of several words is the example."""
    from kitlist.base.names import quoted

    several = [name for name in known if " " in name.strip()]
    given = " ".join(words)
    meant = next((name for name in several if name.casefold().startswith(given.casefold())), None)
    example = meant or (several[0] if several else given)
    return UsageError(
        f"{given!r} is not one {what}", hint=f"Put quotes round a name of several words: {quoted(example)}"
    )


def who(context: typer.Context, store: Store) -> str:
    """Who gives this command: --by before the command, else KITLIST_BY, else the store's setting; "" where none."""
    from kitlist.store import settings

    return signature(context).who or settings.of(store).by


def _own(words: Sequence[str]) -> Sequence[str]:
    """The words from the command's own on: which store it was and who gave it stand elsewhere.

    >>> _own(["--store", "kit.db", "--by=Ada", "used", "chocks=1", "--on", "2027-05-09"])
    ['used', 'chocks=1', '--on', '2027-05-09']
    """
    at = 0
    while at < len(words) and words[at].startswith("--"):
        at += 2 if words[at] in ("--store", "--by", "--rulebook") else 1
    return words[at:]


def today() -> date:
    """The day by the clock of this machine."""
    return datetime.now(UTC).astimezone().date()


def now() -> datetime:
    """The moment by the clock of this machine, to the second, without a zone."""
    return datetime.now(UTC).astimezone().replace(tzinfo=None, microsecond=0)


def day(text: str | None) -> date:
    """A day as people say it, else today."""
    if text is None:
        return today()
    try:
        return days.day(text, today=today())
    except BadData as error:
        raise UsageError(f"{text[:40]!r} is not a day", hint=f"{error.hint[0].upper()}{error.hint[1:]}.") from None


def moment(text: str | None) -> str | None:
    """A moment as people say it, as the standard has it; what is none stays as it is, for the entry to refuse."""
    try:
        return None if text is None else days.moment(text, now=now()).isoformat()
    except BadData:
        return text


def width() -> int:
    """Columns of the terminal; 80 where there is none."""
    return max(40, shutil.get_terminal_size((80, 24)).columns)


def columns(rows: Iterable[Sequence[str]], headings: Sequence[str], *, cut_last: bool = False) -> str:
    """Rows under headings, aligned, as many whole columns as fit the terminal; what is left out is said.

    Columns without a word in them go first. With `cut_last` the last one is cut where it does not fit.
    """
    table = [tuple(headings), *[tuple(row) for row in rows]]
    used = [at for at in range(len(headings)) if at == 0 or any(row[at] for row in table[1:])]
    widths = {at: max(len(row[at]) for row in table) for at in used}
    room = width()
    kept = list(used)
    while len(kept) > 2 and not cut_last and sum(widths[at] + 2 for at in kept) - 2 > room:
        kept.pop()
    lines = []
    for row in table:
        line = "  ".join(row[at].ljust(widths[at]) for at in kept).rstrip()
        lines.append(line if len(line) <= max(room, widths[0]) else line[: max(room, widths[0]) - 1] + "…")
    if left_out := [headings[at] for at in used if at not in kept]:
        say(f"Left out at this width: {', '.join(left_out)}.")
    return "\n".join(lines)
