"""bead list: practice welds, predicted against measured. The other bead commands are like those of every kind."""

from __future__ import annotations

import typer

from kitlist.faces.cli.judgement import Json
from kitlist.faces.cli.talk import open_store, say, show, show_json, width


def list_beads(context: typer.Context, as_json: Json = False) -> None:
    """List the practice welds: predicted against measured."""
    from kitlist.faces.words import bank_json, bank_text
    from kitlist.outlook.beads import bead_outlook
    from kitlist.store.snapshot import snapshot

    kit = snapshot(open_store(context))
    outlooks = [bead_outlook(kit, bead) for bead in sorted(kit.beads, key=lambda b: b.welded_on)]
    if as_json:
        show_json([bank_json.plain_bead(outlook) for outlook in outlooks])
    elif outlooks:
        show("\n".join(bank_text.bead_lines(outlooks, columns=min(width(), 100))))
    else:
        say("No practice welds yet.\nkitlist bead add --help says what to write down.")
