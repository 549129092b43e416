"""export, import, backup and recover: the kit as files, and the store kept safe."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.base.names import quoted
from kitlist.faces.cli.talk import now, open_store, say, store_path

KindOf = Annotated[
    str | None, typer.Option("--kind", help="What a .csv file holds, where its name does not say.", show_default=False)
]
Replace = Annotated[bool, typer.Option("--replace", help="Write over a file of that name.")]


def export(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="FILE.json, KIND.csv, or a folder.", show_default=False)],
    kind: KindOf = None,
    replace: Replace = False,
) -> None:
    """Write the kit to a file, or to a folder of files.

    A .json file holds the whole kit, a .csv file one kind, a folder every kind as .csv.

    Removed things and every reading are in it, marked with removed_at: imported again, they are removed things
    again. The journal goes along in .json. What was printed, checked off or done to rods is not in it:
    `kitlist backup` copies all there is.

    Example: kitlist export kit.json
    """
    from kitlist.store import exporting

    counts = exporting.export(open_store(context), file, kind=kind, replace=replace)
    say(f"Wrote {file}: {exporting.counted(counts)}.")


def import_(
    context: typer.Context,
    file: Annotated[
        Path | None, typer.Argument(help="A .toml, .json or .csv file, or a folder of .csv.", show_default=False)
    ] = None,
    kind: KindOf = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Check the file; change nothing.")] = False,
    trip: Annotated[
        str | None, typer.Option(help="The trip that a companion's file joins; else the next.", show_default=False)
    ] = None,
    starter: Annotated[bool, typer.Option("--starter", help="The starter kit, into a kit without things.")] = False,
    update: Annotated[
        bool, typer.Option("--update", help="An export that was changed: show what differs, ask, write it.")
    ] = False,
    remove: Annotated[bool, typer.Option("--remove", help="With --update: take out what the file leaves out.")] = False,
    yes: Annotated[bool, typer.Option("--yes", help="With --update: write it without asking.")] = False,
) -> None:
    """Import a kit from files: all of it, or nothing.

    Many changes at once: export, change the file in an editor, import it with --update. What the file does not say
    stays. null, or an empty cell of a .csv, empties a field.

    A companion's file, made with `kitlist share`, joins a trip: guests are kept apart from the kit's own. What a
    phone brings back, pocket.toml, is taken in entry by entry, each once.

    Example: kitlist import kit.toml --dry-run
    """
    from kitlist.faces.cli import from_phone, sharing, updating_asked
    from kitlist.store import clock, importing

    if (remove or yes) and not update:
        raise UsageError("--remove and --yes are for --update", hint="kitlist import kit.json --update")
    if update and file is None:
        raise UsageError("--update needs the file that was changed", hint="kitlist import kit.json --update")
    if starter is (file is not None):
        raise UsageError("one file, or --starter", hint="kitlist import kit.toml, or kitlist import --starter")
    if file is None:
        from kitlist.store.starting import take_starter

        say(f"{take_starter(open_store(context), dry_run=dry_run).words}.".capitalize())
        return
    if update:
        if trip is not None:
            raise UsageError("--trip is for a companion's file, --update for an export of your own")
        updating_asked.update(context, file, kind=kind, remove=remove, yes=yes, dry_run=dry_run)
        return
    if from_phone.taken_in(context, file, dry_run=dry_run):
        return
    if sharing.joined(context, file, trip, dry_run=dry_run):
        return

    done = importing.import_file(open_store(context), file, kind=kind, dry_run=dry_run)
    say(f"{'Would have ' if dry_run else ''}{done.words}.".capitalize())
    if clock.too_late(done.newest_reading, by_clock=now()):
        say(f"Its newest reading, {done.newest_reading}, is later than this machine's clock. Is the clock right?")


def backup(
    context: typer.Context,
    file: Annotated[Path | None, typer.Argument(help="Where; else beside the store.", show_default=False)] = None,
    replace: Replace = False,
) -> None:
    """Copy the whole store and read the copy back.

    Example: kitlist backup kit-copy.db
    """
    from kitlist.store import copies

    made, counts = copies.backup(open_store(context).path, file, replace=replace)
    say(f"Wrote {made}, {sum(counts.values())} rows, read back and sound.")
    if file is None:
        say("It is on the same disk as the store: copy it to a stick or card as well.")


def recover(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A backup, or an automatic copy.", show_default=False)],
) -> None:
    """Put a backup in the store's place, and keep that aside.

    Copies made before each import and change of schema, the last five, are in a folder beside the store:
    kit.db.copies beside kit.db.

    Example: kitlist recover kit-copy.db
    """
    from kitlist.store import copies

    store = store_path(context)
    kept, counts = copies.recover(store, file)
    say(f"{store} is now what {file} was: {sum(counts.values())} rows, read back and sound.")
    if kept is not None:
        say(f"What was there before is kept: kitlist recover {quoted(kept)} brings it back.")
