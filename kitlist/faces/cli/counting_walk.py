"""count: how many there are, key by key at a terminal, or typed as NAME=COUNT."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.base.errors import KitlistError
from kitlist.base.measures import counted as so_many
from kitlist.faces.cli.asking import BackOne, Stopped, ask, at_terminal, in_words, say_wrapped
from kitlist.faces.cli.keys import STOP, number_from, single_keys
from kitlist.faces.cli.talk import not_one, open_store, say, show, show_json, today

if TYPE_CHECKING:
    from kitlist.store import Store
    from kitlist.trips.check_off import Line

KEYS = (
    "t there, the usual number; a number and Enter; n none; s later; u back one; q stop. Each answer is kept at once."
)
_ENDS = (STOP, "\x03", "q")
Json = Annotated[bool, typer.Option("--json", help="For a script.")]


def count(
    context: typer.Context,
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[KIND|BAG] [NAME=COUNT...]", help="What to count, else all that stands at 0."),
    ] = None,
    every: Annotated[bool, typer.Option("--all", help="Everything, counted already or not.")] = False,
    as_json: Json = False,
) -> None:
    """Count what is there: a kind, a bag, or what stands at 0.

    Example: kitlist count "Power bag"
    """
    from kitlist.store import changes
    from kitlist.store.snapshot import snapshot
    from kitlist.trips.counting import to_count

    store = open_store(context)
    typed = [word for word in words or () if "=" in word]
    named = [word for word in words or () if "=" not in word]
    if len(named) > 1:
        raise not_one(named, "kind or bag", [bag.name for bag in changes.listed(store, "bag")])
    if typed:
        _typed(store, typed)
        return
    waiting = to_count(snapshot(store), named[0] if named else None, every=every)
    if as_json:
        show_json([{"kind": w.kind, "name": w.name, "bag": w.bag, "count": w.thing.count} for w in waiting])
    elif not waiting:
        say_wrapped(
            "Nothing stands at 0: kitlist count --all goes through everything." if not named else "Nothing is there."
        )
    elif at_terminal():
        done = CountWalk(store, waiting, people=_people(store)).go()
        show(f"{done} of {so_many(len(waiting), 'thing')} counted.")
    else:
        show("\n".join(f"{line.bag}: {line.name} = {line.thing.count}" for line in waiting))
        say('To count by typing: kitlist count "welding helmet=COUNT"')


def _people(store: Store) -> int | None:
    """How many go on the next trip, where that is known."""
    from kitlist.base.errors import NotFound
    from kitlist.kit import next_trip
    from kitlist.store.snapshot import trips

    try:
        return next_trip(trips(store), on=today()).people
    except NotFound:
        return None


def _typed(store: Store, words: Sequence[str]) -> None:
    """Counts by name, all of them or none."""
    from kitlist.base import names
    from kitlist.store import changes
    from kitlist.store.snapshot import snapshot
    from kitlist.trips.check_off import lines

    by_name = {line.name: line for line in lines(snapshot(store))}
    given = [word.rpartition("=") for word in words]
    meant = [(by_name[names.resolve(name, by_name, what="stowed thing")], value) for name, _, value in given]
    with store.writing() as change:
        kept = [changes.edit_within(change, line.kind, line.name, {"count": value}) for line, value in meant]
    for thing in kept:
        say(f"{thing.name}: {thing.count}.")


class CountWalk:
    """One walk; each answer is on disk before the next is asked."""

    def __init__(self, store: Store, waiting: Sequence[Line], *, people: int | None = None) -> None:
        self.store = store
        self.waiting = waiting
        self.people = people  # on the next trip
        self._kept: list[tuple[int, int]] = []  # places that were answered, each with the count before
        self._bag = ""
        self._there = False
        self._key: Callable[[], str] = lambda: STOP

    def go(self) -> int:
        """Ask for everything that waits; returns how many were answered."""
        say_wrapped(KEYS)
        at = 0
        while at < len(self.waiting):
            with single_keys() as self._key:
                key = self._ask(at)
            if key in _ENDS:
                say("stop")
                break
            if key == "u":
                at = self._undo(at)
                continue
            if key != "s" and not self._label(self.waiting[at]):
                break
            at += 1
        return len(self._kept)

    def _ask(self, at: int) -> str:
        """Ask for one thing and keep the answer; returns the key that ended it."""
        from kitlist.base import clean
        from kitlist.trips.counting import usual, whom_for

        line = self.waiting[at]
        if line.bag != self._bag:
            self._bag = line.bag
            say(f"\n{clean.plain(line.bag)}{f', {clean.plain(line.place)}' if line.place else ''}")
        many = usual(line, people=self.people)
        if whom := whom_for(line, people=self.people):
            say_wrapped(whom)
        often = f"t = {many}" if many else "a number"
        typer.echo(f"{at + 1} of {len(self.waiting)}: {clean.plain(line.name)}, {often}: ", err=True, nl=False)
        while True:
            key = self._key()
            if key in _ENDS or key in ("s", "u"):
                say({"s": "later", "u": "back"}.get(key, ""))
                return key
            count = many if key == "t" and many else 0 if key == "n" else None
            if key.isascii() and key.isdigit():
                count = number_from(key, self._key)
            elif count is not None:
                say(str(count) if count else "none")
            if count is None:
                if not key.isdigit():
                    say("")
                    say_wrapped(KEYS)
                continue
            try:
                self._keep(at, count)
            except KitlistError as error:
                say_wrapped(error.message)
                continue
            return key

    def _keep(self, at: int, count: int) -> None:
        from kitlist.store import changes

        line = self.waiting[at]
        changes.edit(self.store, line.kind, line.name, {"count": count})
        self._kept.append((at, line.thing.count))
        self._there = count > 0

    def _undo(self, at: int) -> int:
        from kitlist.store import changes

        self._bag = ""
        if not self._kept:
            return max(at - 1, 0)
        last, before = self._kept.pop()
        line = self.waiting[last]
        changes.edit(self.store, line.kind, line.name, {"count": before})
        return last

    def _label(self, line: Line) -> bool:
        """Ask for what stands on a thing that is there, Enter for not known; False when somebody stops."""
        from kitlist.store import changes
        from kitlist.trips.counting import asked_besides

        for field, words in asked_besides(line) if self._there else ():
            while True:
                try:
                    if answer := ask(f"    {line.name}, {words}:"):
                        changes.edit(self.store, line.kind, line.name, {field: answer})
                    break
                except BackOne:
                    break
                except Stopped:
                    return False
                except KitlistError as error:
                    say_wrapped(in_words(error, {field: words}), indent="    ")
        return True
