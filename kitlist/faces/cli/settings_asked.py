"""The settings of the store as they are asked for, typed and shown: `kitlist start --settings`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from kitlist.base import sayings
from kitlist.base.errors import BadData
from kitlist.base.terms import Paper, Units
from kitlist.faces.cli.asking import Stopped, a_name, ask_until, at_terminal, say_wrapped
from kitlist.faces.cli.talk import say, show
from kitlist.faces.cli.typed import pairs

if TYPE_CHECKING:
    from collections.abc import Sequence

    from kitlist.faces.cli.guide_questions import Answers, Question
    from kitlist.store import Store
    from kitlist.store.settings import Settings
    from kitlist.store.writer import Writer

MEASURES = "Units and paper: metric or imperial, A4 or letter"
MEASURES_MORE = "Imperial stands beside the metric in lists; sheet, card and forms are printed on that paper."
OWNER = "Who types here, a name for journal and check-offs"
OWNER_MORE = "--by NAME before a command, or KITLIST_BY, says another one. Enter: what stands in brackets, else nobody."


def settings_of(store: Store, words: Sequence[str]) -> None:
    """Set what is typed; without a word ask for each, or show them where there is nobody to ask."""
    from kitlist.store import settings

    if words:
        settings.edit(store, pairs(words))
    elif at_terminal():
        kept = settings.of(store)
        try:
            settings.edit(store, ask_until(_measures_text(kept), measures, more=MEASURES_MORE))
            settings.edit(store, ask_until(_owner_text(kept), _owner, more=OWNER_MORE))
        except Stopped:
            say("stop")
    for word, value in settings.of(store).as_words.items():
        show(f"{word:6} {value or 'nobody'}")
    if not words:
        say_wrapped("To change one by typing: kitlist start --settings units=UNITS paper=PAPER by=NAME")


def questions(kept: Settings) -> Iterator[Question]:
    """The same two among the questions of the guided start."""
    from kitlist.faces.cli.guide_questions import DONE, Question
    from kitlist.store import settings

    def keep_measures(change: Writer, text: str, _: Answers) -> str:
        settings.edit_within(change, measures(text))
        return text or DONE

    def keep_owner(change: Writer, text: str, _: Answers) -> str:
        settings.edit_within(change, _owner(text))
        return text or DONE

    yield Question("settings measures", _measures_text(kept), MEASURES_MORE, keep_measures)
    yield Question("settings by", _owner_text(kept), OWNER_MORE, keep_owner)


def _measures_text(kept: Settings) -> str:
    return f"{MEASURES} ({kept.units}, {kept.paper}):"


def _owner_text(kept: Settings) -> str:
    return f"{OWNER} ({kept.by}):" if kept.by else f"{OWNER}, or Enter for nobody:"


def measures(text: str) -> dict[str, str]:
    """The settings that words of an answer name. Raises BadData for a word that names none.

    >>> measures("imperial, letter")
    {'units': 'imperial', 'paper': 'letter'}
    """
    found: dict[str, str] = {}
    for word in text.replace(",", " ").split():
        units, paper = sayings.meant(Units, word), sayings.meant(Paper, word)
        if units is None and paper is None:
            raise BadData(f"{word[:40]!r} is neither a unit nor a paper", hint="For example imperial letter.")
        found |= {"units": str(units)} if units is not None else {"paper": str(paper)}
    return found


def _owner(text: str) -> dict[str, str]:
    return {"by": a_name(text, of="a person")} if text else {}
