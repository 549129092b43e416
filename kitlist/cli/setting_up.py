"""start and import: getting a kit in."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from kitlist.cli.talk import open_store, say, store_path


def register(app: typer.Typer) -> None:
    """Put these commands on the app."""
    app.command("start")(start)
    app.command("import")(import_)


def start(
    context: typer.Context,
    starter: Annotated[bool, typer.Option("--starter", help="Begin with the starter kit, every count at 0.")] = False,
) -> None:
    """Make a new, empty store.

    Example: kitlist start --starter
    """
    from kitlist import resources, store
    from kitlist.store import importing

    made = store.start(store_path(context))
    say(f"Made a store at {made.path}.")
    if starter:
        done = importing.import_toml(made, resources.folder("seed_data") / "starter.toml")
        say(f"From the starter kit: {done.words}. Every count is 0: set what you have.")
    say("Next: kitlist vehicle add NAME, then kitlist battery add NAME vehicle=..., then kitlist volts.")


def import_(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A kit written by hand, in TOML.", show_default=False)],
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Check the file; change nothing.")] = False,
) -> None:
    """Import a kit from one TOML file: all of it, or nothing.

    Example: kitlist import kit.toml --dry-run
    """
    from kitlist.store import importing

    done = importing.import_toml(open_store(context), file, dry_run=dry_run)
    say(f"{'Would have ' if dry_run else ''}{done.words}.".capitalize())
