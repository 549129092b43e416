"""The commands. Each is a few lines: it reads words, calls one function below, and shows what came back."""

from __future__ import annotations

import gc
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from kitlist import __version__
from kitlist.base.errors import BadFile, KitlistError, UsageError
from kitlist.faces.cli import signs
from kitlist.faces.cli.talk import say
from kitlist.faces.cli.tree import Root

_CLOCK_ENDS = 7_258_118_400  # the year 2200, in seconds since 1970: no day after it is taken

CAUTION = (
    "Arc, short-circuit current, hydrogen, fire and fume can hurt or kill: kitlist prepares and reminds, "
    "it does not teach. Local codes and licensed practice come first."
)

app = typer.Typer(
    name="kitlist",
    cls=Root,
    help="Is the trackside welding kit ready for the trip? Record it, judge it, print it.",
    epilog=CAUTION,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"kitlist {__version__}")
        raise typer.Exit


def _clock_is_past_all() -> bool:
    try:
        return time.time() >= _CLOCK_ENDS
    except OverflowError:  # after 2262 there is no number for it
        return True


@app.callback(invoke_without_command=True)
def settings(
    context: typer.Context,
    store: Annotated[Path | None, typer.Option(help="The store; else KITLIST_STORE, else the data folder.")] = None,
    rulebook: Annotated[
        Path | None, typer.Option(help="Your thresholds; else KITLIST_RULEBOOK, else rulebook.toml beside the store.")
    ] = None,
    by: Annotated[str, typer.Option(help="Who gives the command, for the journal; else KITLIST_BY.")] = "",
    traceback: Annotated[bool, typer.Option("--traceback", help="Show where an error came from.")] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Without a command: where things stand, for a script.")
    ] = False,
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="The version.")
    ] = False,
) -> None:
    """Is the trackside welding kit ready for the trip? Record it, judge it, print it."""
    if _clock_is_past_all():
        raise UsageError(
            "this machine's clock stands in the year 2200 or later: nothing can be dated by it",
            hint="Set the clock, then give the command again. Nothing was done.",
        )
    context.obj = {**(context.obj or {}), "store": store, "rulebook": rulebook, "by": by}
    if context.invoked_subcommand is None:
        from kitlist.faces.cli.trip_life import next_

        next_(context, as_json=as_json)
    elif as_json:
        raise UsageError(f"--json comes after the command: kitlist {context.invoked_subcommand} ... --json")


COLLECT_AT = 50_000  # objects made; a server that runs for days still collects


def main() -> None:
    """Run the command line of this process."""
    # What a command makes lives as long as its process: the search for cycles while libraries load, at the usual 700
    # objects a round, was a fifth of a print.
    gc.set_threshold(COLLECT_AT, 20, 20)
    signs.never_fail_to_show()
    code = run(sys.argv[1:])
    if why := signs.flushed():
        say(f"Error: what was to be shown could not be written: {why}")
        code = code or 1
    sys.exit(code)


def run(words: Sequence[str]) -> int:
    """Run one command and return its exit code; the one place where errors become a message and a code."""
    try:
        typer.main.get_command(app)(args=list(words), prog_name="kitlist", obj={"words": words})
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 0
    except BrokenPipeError:
        sys.stderr.close()
        return 1
    except Exception as error:
        if "--traceback" in words:
            raise
        return _explained(error)
    return 0


def _explained(error: Exception) -> int:
    if isinstance(error, OSError):
        where = f" {error.filename}" if error.filename else ""
        say(signs.short(f"Error: the system refuses{where}: {error.strerror or error}"))
        say("Check the name, the disk and its space, and who may write there. Nothing half-done was kept.")
        return 1
    if not isinstance(error, KitlistError):
        say(f"Error: this should not have happened: {type(error).__name__}: {error}")
        say("Nothing half-done was kept. Run it again with kitlist --traceback ..., and report what it shows.")
        return 1
    say(signs.short(f"Error: {error.message}"))
    lines = error.lines if isinstance(error, BadFile) else ()
    for line in lines[: signs.LINES]:
        say(signs.short(f"  {line}"))
    if len(lines) > signs.LINES:
        say(f"  and {len(lines) - signs.LINES} more")
    if error.hint:
        say(error.hint)
    return error.exit_code


__all__ = ["app", "main", "run"]
