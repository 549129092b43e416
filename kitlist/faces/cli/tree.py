"""The command tree: every command by what one is doing. A command is imported and built when it is first asked for:
building all of them costs more than most commands take."""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, cast

import typer
from typer.core import TyperGroup

from kitlist.base.fields import plural
from kitlist.faces.cli import signs

HERE = "kitlist.faces.cli"


@dataclass(frozen=True, slots=True)
class Command:
    """A word of the command line, and where it is done: MODULE:NAME of a function, or of a group made by one."""

    word: str
    done_by: str
    epilog: str | None = None

    @property
    def thing(self) -> Callable[..., None] | typer.Typer:
        """The function, or the group, imported now."""
        module, _, name = self.done_by.partition(":")
        found: Callable[..., None] | typer.Typer = getattr(importlib.import_module(f"{HERE}.{module}"), name)
        return found

    @property
    def help(self) -> str:
        """Its first line of help."""
        thing = self.thing
        text = thing.info.help if isinstance(thing, typer.Typer) else inspect.getdoc(thing)
        return str(text).split("\n", 1)[0]

    def build(self) -> Any:
        """The command as typer has it."""
        thing = self.thing
        if isinstance(thing, typer.Typer):
            group = typer.main.get_command(thing)
            group.name = self.word
            return group
        return _alone(self.word, thing, epilog=self.epilog)


@dataclass(frozen=True, slots=True)
class KindGroup:
    """A kind of thing: its commands follow from its description, and some kinds have a few of their own."""

    word: str
    more: tuple[Command, ...] = ()
    called: str = ""
    add_with: str = ""
    list_with: str = ""
    history_with: str = ""

    @property
    def help(self) -> str:
        """Its line of help."""
        more = ", ".join(command.word for command in self.more)
        return (self.called or plural(self.word).capitalize()) + (f"; also: {more}." if more else ".")

    def build(self) -> Any:
        """The group of its commands as typer has it."""
        from kitlist.faces.cli import things

        own = typer.Typer(name=self.word, help=self.help, no_args_is_help=True, rich_markup_mode=None)
        list_with = cast("Any", Command("list", self.list_with).thing) if self.list_with else None
        history_with = cast("Any", Command("show", self.history_with).thing) if self.history_with else None
        add_with = cast("Any", Command("add", self.add_with).thing) if self.add_with else None
        things.commands(own, self.word, add_with=add_with, list_with=list_with, history_with=history_with)
        for command in self.more:
            own.command(command.word)(cast("Any", command.thing))
        return typer.main.get_command(own)


READY_CODES = "Exit code: 0 ready, 10 not ready, 11 ready with gaps."
SECTIONS: tuple[tuple[str, tuple[Command | KindGroup, ...]], ...] = (
    ("Start", (
        Command("start", "setting_up:start"),
        Command("demo", "printing:demo"),
        Command("import", "keeping:import_"),
    )),
    ("Before a trip", (
        Command("ready", "judgement:ready", epilog=READY_CODES),
        Command("next", "trip_life:next_"),
        Command("why", "judgement:why"),
        Command("bank", "banking:bank"),
        Command("charge", "banking:charge"),
        Command("repairs", "decoding:repairs"),
        Command("check-off", "checking:check_off"),
        Command("print", "printing:prints"),
        Command("phone", "serving:phone"),
    )),
    ("Measure", (
        Command("volts", "measuring:volts"),
        KindGroup("bead", called="Practice welds", list_with="practice:list_beads"),
    )),
    ("On the way", (
        KindGroup("weld", called="Repairs welded on a trip", add_with="weld:add"),
    )),
    ("After a trip", (
        Command("used", "trip_life:used"),
        Command("restock", "trip_life:restock"),
        KindGroup("mend", called="Field repairs to be made good"),
    )),
    ("The kit: add, list, show, edit, remove, restore", (
        KindGroup("vehicle"),
        KindGroup("battery", (Command("history", "trip_life:history"),), history_with="trip_life:history_of_battery"),
        KindGroup("lead"),
        KindGroup("clamp"),
        KindGroup("ballast", called="Ballast strips"),
        KindGroup("rod", tuple(Command(word, f"decoding:{word}") for word in ("opened", "used", "baked"))),
        KindGroup("gear", called="Protective gear"),
        KindGroup("tool", called="Tools, meters, fire gear"),
        KindGroup("item", called="Other things to carry"),
        KindGroup("bag"),
        KindGroup("repair", (Command("pick", "decoding:pick"),), called="Repairs to be ready for"),
        KindGroup("trip"),
        Command("reading", "readings_list:readings"),
        Command("count", "counting_walk:count"),
        Command("find", "finding:find"),
    )),
    ("The store", (
        Command("export", "keeping:export"),
        Command("backup", "keeping:backup"),
        Command("recover", "keeping:recover"),
        Command("share", "sharing:share"),
        Command("accept", "judgement:accept"),
        Command("journal", "journal:journal"),
        Command("undo", "journal:undo"),
        KindGroup("acceptance", called="Accepted gaps"),
        Command("rules", "judgement:rules"),
        Command("decode", "decoding:decode"),
    )),
)  # fmt: skip
"""Every command, under what one is doing."""

BY_WORD = {entry.word: entry for _, entries in SECTIONS for entry in entries}


@cache
def built(word: str) -> Any:
    """A command of the root as typer has it; None for another word."""
    return BY_WORD[word].build() if word in BY_WORD else None


class Root(TyperGroup):
    """The group of all commands, of which it knows the names before any is built."""

    def __init__(self, **attrs: Any) -> None:
        super().__init__(**attrs)
        cast("dict[str, Any]", self.commands).update(dict.fromkeys(BY_WORD))

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of that name, built now where it was not."""
        return built(cmd_name)

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command behind the first word, of which an error shows no more than a line."""
        return super().resolve_command(ctx, [signs.short(args[0]), *args[1:]])

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """The commands, each with its line, under what one is doing; none of them is built for it."""
        wide = max(len(word) for word in BY_WORD)
        for title, entries in SECTIONS:
            with formatter.section(title):
                formatter.write_dl([(entry.word.ljust(wide), entry.help.rstrip(".")) for entry in entries])


def _alone(word: str, function: Callable[..., None], *, epilog: str | None) -> Any:
    app = typer.Typer(rich_markup_mode=None, add_completion=False)
    app.command(word, epilog=epilog)(function)
    return typer.main.get_command(app)
