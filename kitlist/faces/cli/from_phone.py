"""What a phone brings back, taken in by `kitlist import`: each entry once, what is in doubt shown and not taken."""

from __future__ import annotations

from pathlib import Path

import typer

from kitlist.base import clean
from kitlist.faces.cli.talk import now, open_store, say


def taken_in(context: typer.Context, file: Path, *, dry_run: bool) -> bool:
    """Take in a phone's file; False where the file is none. Ends with 3 where something could not be taken."""
    from kitlist.base.errors import BadFile
    from kitlist.store import pocket_taken, pocket_text
    from kitlist.store.pocket_taken import Fate

    if not pocket_text.is_pocket(file):
        return False
    store = open_store(context)
    try:
        text = pocket_text.read(file.read_text(encoding="utf-8-sig"))
    except UnicodeDecodeError as error:
        raise BadFile(f"{file.name} is not UTF-8 text (byte {error.start})", lines=()) from None
    if pocket_taken.changed_since(store, text):
        say("The kit was changed since that page was made: look at what is taken in, and print the page again.")
    done = pocket_taken.take(store, text, now=now(), dry_run=dry_run)
    counts = {fate: sum(1 for outcome in done if outcome.fate is fate) for fate in Fate}
    would = "Would take" if dry_run else "Took"
    say(f"{would} in {counts[Fate.TAKEN]} of {len(done)}; {counts[Fate.ALREADY]} were taken in before.")
    doubtful = [outcome for outcome in done if outcome.fate in (Fate.ASKED, Fate.REFUSED)]
    for outcome in done:
        if outcome.fate is Fate.TAKEN and " meanwhile" in outcome.sentence:
            say(clean.plain(outcome.sentence) + ".")
    if doubtful:
        lines = [clean.plain(f"{_about(outcome.entry.values)}: {outcome.sentence}") for outcome in doubtful]
        raise BadFile(
            f"{file.name}: {len(doubtful)} of {len(done)} were not taken in",
            lines=tuple(lines),
            hint="Look again, then answer here: kitlist check-off. The rest was taken in.",
        )
    return True


def _about(values: object) -> str:
    found = dict(values) if isinstance(values, dict) else {}
    return str(found.get("thing") or found.get("battery") or found.get("rod") or "practice weld")
