"""start: making a store, and going through the kit question by question where there is somebody to ask."""

from __future__ import annotations

from typing import Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.talk import open_store, say, signature, store_path


def start(
    context: typer.Context,
    values: Annotated[
        list[str] | None,
        typer.Argument(metavar="[SETTING=VALUE...]", help="With --settings: what to set.", show_default=False),
    ] = None,
    starter: Annotated[bool, typer.Option("--starter", help="Begin with the starter kit, every count at 0.")] = False,
    settings: Annotated[
        bool, typer.Option("--settings", help="Units, paper and who types, of the store that is there.")
    ] = False,
) -> None:
    """Make a store; at a terminal, be asked for the kit.

    At a terminal it goes through vehicles, batteries, leads, rods, what is packed and the trip to the first verdict;
    each answer is kept at once, and the same command goes on where it was stopped. Without one nothing is asked.

    Example: kitlist start --starter
    """
    from kitlist import store
    from kitlist.faces.cli.asking import at_terminal, say_wrapped
    from kitlist.store.starting import start_with_starter

    if values and not settings:
        raise UsageError(f"{values[0]!r} is not expected here", hint="kitlist start --settings paper=letter")
    if settings:
        from kitlist.faces.cli.settings_asked import settings_of

        settings_of(open_store(context), values or ())
        return
    path = store_path(context)
    asked = at_terminal() and not starter
    if asked and path.is_file() and path.stat().st_size:
        from kitlist.faces.cli.guided_start import guided

        guided(open_store(context))
        return
    if starter or asked:
        made, done = start_with_starter(path, signature=signature(context))
        say(f"Made a store at {made.path}.")
        say_wrapped(f"From the starter kit: {done.words}. Every count is 0: set what you have.")
    else:
        say(f"Made a store at {store.start(path, signature=signature(context)).path}.")
    if asked:
        from kitlist.faces.cli.guided_start import guided

        guided(made)
        return
    say_wrapped("Next: kitlist vehicle add NAME, then kitlist battery add NAME vehicle=..., then kitlist volts.")
