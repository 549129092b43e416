"""start: making a store."""

from __future__ import annotations

from typing import Annotated

import typer

from kitlist.faces.cli.talk import say, signature, store_path


def start(
    context: typer.Context,
    starter: Annotated[bool, typer.Option("--starter", help="Begin with the starter kit, every count at 0.")] = False,
) -> None:
    """Make a new, empty store.

    Example: kitlist start --starter
    """
    from kitlist import store
    from kitlist.base import resources
    from kitlist.store import importing

    made = store.start(store_path(context), signature=signature(context))
    say(f"Made a store at {made.path}.")
    if starter:
        done = importing.import_toml(made, resources.folder("seed_data") / "starter.toml")
        say(f"From the starter kit: {done.words}. Every count is 0: set what you have.")
    say("Next: kitlist vehicle add NAME, then kitlist battery add NAME vehicle=..., then kitlist volts.")
