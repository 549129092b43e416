"""The commands. Each is a few lines: it reads words, calls one function below, and shows what came back."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist import __version__
from kitlist.base.errors import BadFile, KitlistError
from kitlist.faces.cli import (
    banking,
    checking,
    decoding,
    journal,
    judgement,
    keeping,
    measuring,
    practice,
    printing,
    serving,
    setting_up,
    sharing,
    things,
    trip_life,
    volts,
)
from kitlist.faces.cli.talk import say

if TYPE_CHECKING:
    from kitlist.store import Store

CAUTION = (
    "Arc, short-circuit current, hydrogen, fire and fume can hurt or kill: kitlist prepares and reminds, "
    "it does not teach. Local codes and licensed practice come first."
)

app = typer.Typer(
    name="kitlist",
    help="Is the trackside welding kit ready for the trip? Record it, judge it, print it.",
    epilog=CAUTION,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)
COMMANDS = (
    setting_up,
    trip_life,
    checking,
    sharing,
    keeping,
    journal,
    measuring,
    volts,
    judgement,
    banking,
    decoding,
    printing,
    serving,
)
for module in COMMANDS:
    module.register(app)
MORE: dict[str, dict[str, Callable[..., None]]] = {
    "battery": {"history": trip_life.history},
    "rod": {"opened": decoding.opened, "used": decoding.used, "baked": decoding.baked},
    "repair": {"pick": decoding.pick},
}
HISTORY: dict[str, Callable[[Store, str], tuple[str, ...]]] = {"battery": trip_life.history_of_battery}
for kind in things.EXAMPLES:
    own = things.named(kind)
    if kind in sys.argv:  # what is not asked for has its name and its line of help alone: typer builds all it is given
        own_list = practice.list_beads if kind == "bead" else None
        things.commands(own, kind, list_with=own_list, history_with=HISTORY.get(kind))
        for word, command in MORE.get(kind, {}).items():
            own.command(word)(command)
    app.add_typer(own, name=kind)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"kitlist {__version__}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def settings(
    context: typer.Context,
    store: Annotated[Path | None, typer.Option(help="The store; else KITLIST_STORE, else the data folder.")] = None,
    rulebook: Annotated[
        Path | None, typer.Option(help="Your thresholds; else KITLIST_RULEBOOK, else rulebook.toml beside the store.")
    ] = None,
    by: Annotated[str, typer.Option(help="Who gives the command, for the journal; else KITLIST_BY.")] = "",
    traceback: Annotated[bool, typer.Option("--traceback", help="Show where an error came from.")] = False,
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="The version.")
    ] = False,
) -> None:
    """Is the trackside welding kit ready for the trip? Record it, judge it, print it."""
    context.obj = {"store": store, "rulebook": rulebook, "by": by}
    if context.invoked_subcommand is None:
        trip_life.next_(context)


def main() -> None:
    """Run the command line; the one place where errors become a message and an exit code."""
    try:
        app()
    except KitlistError as error:
        if "--traceback" in sys.argv:
            raise
        say(f"Error: {error.message}")
        for line in error.lines if isinstance(error, BadFile) else ():
            say(f"  {line}")
        if error.hint:
            say(error.hint)
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(1)
    except Exception as error:
        if "--traceback" in sys.argv:
            raise
        say(f"Error: this should not have happened: {type(error).__name__}: {error}")
        say("Nothing half-done was kept. Run it again with kitlist --traceback ..., and report what it shows.")
        sys.exit(1)


__all__ = ["app", "main"]
