"""The walk through the bags in a terminal: one key an answer, each on disk before the next is asked."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from typing import TYPE_CHECKING

from kitlist.base.errors import KitlistError
from kitlist.faces.cli.keys import STOP, number_from, single_keys
from kitlist.faces.cli.talk import now, say
from kitlist.kit.checked import Answer

if TYPE_CHECKING:
    from kitlist.rules import Gap
    from kitlist.store import Store
    from kitlist.trips.check_off import Line

KEYS = (
    "t there, m missing, d damaged, h left at home, a number and Enter counted sound ones, u undo, s skip, "
    "l what is left, q stop."
)
_ANSWERS = {"t": Answer.THERE, "m": Answer.MISSING, "d": Answer.DAMAGED, "h": Answer.HOME}
_ENDS = (STOP, "\x03", "q")


class Walk:
    """One walk of one person; a walk that was broken off goes on at the first line without an answer."""

    def __init__(self, store: Store, trip: str, *, by: str, columns: int, gaps: Callable[[], tuple[Gap, ...]]) -> None:
        self.store = store
        self.trip = trip
        self.by = by
        self.columns = columns
        self.gaps = gaps
        self._skipped: set[int] = set()
        self._bag = ""
        self._known: set[tuple[str, str]] | None = None
        self._key: Callable[[], str] = lambda: STOP

    def go(self) -> None:
        """Ask until nothing is left or somebody stops."""
        with single_keys() as self._key:
            self._go()

    def _go(self) -> None:
        from kitlist.store import checked_off
        from kitlist.trips.check_off import left

        self._say(KEYS)
        while True:
            checked = checked_off.progress(self.store, self.trip)
            waiting = [line for line in left(checked) if line.number not in self._skipped]
            if not waiting or not self._ask(waiting[0], checked):
                return

    def _ask(self, line: Line, checked: tuple[Line, ...]) -> bool:
        """Ask for one thing; False when somebody stops."""
        from kitlist.faces.words import trip_text

        self._enter(line, checked)
        self._say(trip_text.line_words(line, of=len(checked)))
        while True:
            key = self._key()
            if key in _ENDS:
                say("stop")
                return False
            if key in _ANSWERS:
                self._keep(line, _ANSWERS[key])
            elif key.isascii() and key.isdigit():
                count = number_from(key, self._key)
                if count is None:
                    continue
                self._keep(line, Answer.COUNTED, count)
            elif key == "s":
                say("skipped")
                self._skipped.add(line.number)
            elif key == "u":
                self._undo()
            elif key == "l":
                self._say("\n".join(trip_text.left_lines(self.trip, checked, columns=self.columns)))
                continue
            else:
                self._say(KEYS)
                continue
            return True

    def _enter(self, line: Line, checked: tuple[Line, ...]) -> None:
        """Say the bag when it is another one."""
        from kitlist.base import clean

        if line.bag == self._bag:
            return
        self._bag = line.bag
        inside = [other for other in checked if other.bag == line.bag]
        where = f", {line.place}" if line.place else ""
        waiting = sum(1 for other in inside if other.answer is None)
        self._say(f"\nBag: {clean.plain(line.bag + where)}. {waiting} of {len(inside)} left in it.")

    def _keep(self, line: Line, answer: Answer, count: int = 0) -> None:
        from kitlist.store import checked_off

        short = answer in (Answer.MISSING, Answer.DAMAGED, Answer.HOME) or (
            answer is Answer.COUNTED and count < line.thing.count
        )
        if short and self._known is None:
            self._known = {(gap.rule, gap.subject) for gap in self.gaps()}
        told = (line.kind, line.name, answer, count)
        (kept,) = checked_off.record(self.store, self.trip, [told], by=self.by, at=now())
        say(f"{kept.words}.")
        if short:
            self._tell_gaps()

    def _tell_gaps(self) -> None:
        """The gaps that were not there before this answer."""
        from kitlist.base import clean

        try:
            gaps = self.gaps()
        except KitlistError as error:
            say(error.message)
            return
        known = self._known or set()
        for gap in gaps:
            if (gap.rule, gap.subject) not in known:
                self._say(f"{gap.weight.upper()}: {clean.plain(gap.what)}. {clean.plain(gap.remedy)}")
        self._known = {(gap.rule, gap.subject) for gap in gaps}

    def _undo(self) -> None:
        from kitlist.base import clean
        from kitlist.store import checked_off

        undone = checked_off.undo(self.store, self.trip, at=now())
        self._bag = ""
        self._skipped.clear()
        say(f"Taken back: {clean.plain(undone.name)}, {undone.words}." if undone else "There is nothing to take back.")

    def _say(self, text: str) -> None:
        for paragraph in text.split("\n"):
            say("\n".join(textwrap.wrap(paragraph, self.columns, break_on_hyphens=False)))
