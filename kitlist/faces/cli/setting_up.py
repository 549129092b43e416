"""start: making a store, and going through the kit question by question where there is somebody to ask."""

from __future__ import annotations

from typing import Annotated

import typer

from kitlist.faces.cli.talk import say, signature, store_path


def start(
    context: typer.Context,
    starter: Annotated[bool, typer.Option("--starter", help="Begin with the starter kit, every count at 0.")] = False,
) -> None:
    """Make a store; at a terminal, be asked for the kit.

    At a terminal it goes through vehicles, batteries, leads, rods, what is packed and the trip to the first verdict;
    each answer is kept at once, and the same command goes on where it was stopped. Without one nothing is asked.

    Example: kitlist start --starter
    """
    from kitlist import store
    from kitlist.faces.cli.asking import at_terminal
    from kitlist.store.starting import start_with_starter

    path = store_path(context)
    asked = at_terminal() and not starter
    if asked and path.is_file() and path.stat().st_size:
        from kitlist.faces.cli.guided_start import guided
        from kitlist.faces.cli.talk import open_store

        guided(open_store(context))
        return
    if starter or asked:
        made, done = start_with_starter(path, signature=signature(context))
        say(f"Made a store at {made.path}.")
        say(f"From the starter kit: {done.words}. Every count is 0: set what you have.")
    else:
        say(f"Made a store at {store.start(path, signature=signature(context)).path}.")
    if asked:
        from kitlist.faces.cli.guided_start import guided

        guided(made)
        return
    say("Next: kitlist vehicle add NAME, then kitlist battery add NAME vehicle=..., then kitlist volts.")
