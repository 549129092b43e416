"""share: a vehicle for a companion's kit. The way back is `import`, which joins it to a trip."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from kitlist.base.errors import NotFound, UsageError
from kitlist.faces.cli.talk import now, open_store, say, show, today


def share(
    context: typer.Context,
    vehicle: Annotated[str | None, typer.Argument(help="The vehicle.", show_default=False)] = None,
    by: Annotated[str, typer.Option(help="Whose it is, as it may stand on their paper.")] = "",
    blank: Annotated[bool, typer.Option("--blank", help="A form to fill in by hand, for who has no kitlist.")] = False,
) -> None:
    """Write a vehicle and its batteries for a companion's kit.

    Plain text on the standard output, without notes and bags: read it before you send it. The other crew types
    kitlist import FILE --trip NAME.

    Example: kitlist share --blank > form.toml
    """
    from kitlist.store import guests

    if blank:
        show(guests.blank().rstrip())
    elif vehicle is None:
        from kitlist.base.names import quoted
        from kitlist.store import changes

        own = [v.name for v in changes.listed(open_store(context), "vehicle") if not v.guest_of]
        name = quoted(own[0]) if own else "NAME"
        raise UsageError("no vehicle is named", hint=f"kitlist share {name} --by WHOSE > vehicle.toml")
    else:
        show(guests.share(open_store(context), vehicle, by=by).rstrip())


def joined(context: typer.Context, file: Path, trip: str | None, *, dry_run: bool) -> bool:
    """Join a companion's file to a trip; False where the file is none."""
    from kitlist.kit import next_trip
    from kitlist.store import guests
    from kitlist.store.snapshot import trips

    if trip is None and not guests.is_shared(file):
        return False
    store = open_store(context)
    known = trips(store)
    if not known:
        raise NotFound(
            f"{file.name} is a companion's, and there is no trip yet for it to join: make the trip first",
            hint="kitlist trip add NAME starts-on=DATE ends-on=DATE vehicles=NAME",
        )
    done = guests.join(store, file, trip or next_trip(known, on=today()).name, dry_run=dry_run, by_clock=now())
    would = "Would join" if dry_run else "Joined"
    say(f"{would} to {done.trip}: {', '.join(done.added) or 'nothing new'}.")
    for told in done.differs:
        say(f"Kept as it is, the file differs: {told}.")
    return True
