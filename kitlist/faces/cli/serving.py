"""phone: check-off, readings and the card on a phone, from this machine."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.judgement import TripName
from kitlist.faces.cli.talk import now, open_store, say, show

if TYPE_CHECKING:
    from kitlist.store import Store

WHO_READS = (
    "Whoever is on that network can read what the phone sends: use a hotspot of your own, and end it when you are done."
)


def phone(
    context: typer.Context,
    trip: TripName = None,
    network: Annotated[
        bool, typer.Option("--network", help="Let the local network in, not this machine only.")
    ] = False,
    port: Annotated[
        int, typer.Option(min=0, max=65535, help="Port to listen on; 0 takes the last one, else a free one.")
    ] = 0,
) -> None:
    """Serve check-off, readings and card to a phone.

    Example: kitlist phone --network
    """
    from kitlist.store import phone_port

    try:
        from kitlist.faces.phone import serve
    except ModuleNotFoundError as error:
        raise UsageError(f"the phone page needs {error.name}", hint="pip install 'kitlist[phone]'") from None
    store = open_store(context)
    name = None if trip is None else _full_name(store, trip)
    before = phone_port.kept(store)
    at = serve.place(network=network, port=port, before=before)
    if port or before in (None, at.port):  # one that only stands in, while the last port is taken, is not remembered
        phone_port.keep(store, at.port)
    if sys.stdout.isatty():
        show(serve.qr(at.url))
    show(at.url)
    say(WHO_READS if network else "This machine only: --network lets a phone in.")
    if before not in (None, at.port):
        say(f"Answers that a phone kept from the last run wait on port {before}: kitlist phone --port {before}")
    say("Ctrl-C ends it. The address holds a secret that is good for this run.")
    serve.serve(store.path, at, now=now, rulebook=store.rulebook, trip=name)


def _full_name(store: Store, trip: str) -> str:
    from kitlist.base import names
    from kitlist.store.snapshot import trips

    return names.resolve(trip, [known.name for known in trips(store)], what="trip")
