"""decode, repairs, and what happens to rods: the words on the packet, and what the rods are for."""

from __future__ import annotations

from typing import Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.judgement import Json, On, TripName
from kitlist.faces.cli.talk import day, open_store, say, show, show_json, width
from kitlist.faces.cli.things import say_never
from kitlist.faces.judging import judged

RodName = Annotated[str, typer.Argument(metavar="ROD", show_default=False)]


def decode(
    designation: Annotated[list[str], typer.Argument(help="As the packet has it: E7018-1 H4R.", show_default=False)],
    sources: Annotated[bool, typer.Option("--sources", help="Where each line comes from.")] = False,
    holder: Annotated[str | None, typer.Option(help="The bank's pole that the holder is on: + or -.")] = None,
    work: Annotated[str | None, typer.Option(help="The bank's pole that the work clamp is on: + or -.")] = None,
    said: Annotated[str | None, typer.Option(help="What somebody called it: DCEP, reverse, ...")] = None,
    as_json: Json = False,
) -> None:
    """Say what a rod's designation means.

    Example: kitlist decode E7018-1 H4R
    """
    from kitlist.faces.words import welding_text
    from kitlist.welding.designation.designations import decode as read

    rod = read(" ".join(designation))
    if as_json:
        show_json(welding_text.plain_designation(rod))
    else:
        show("\n".join(welding_text.designation_lines(rod, columns=min(width(), 100), sources=sources)))
    if holder or work:
        say(welding_text.polarity_words(rod, holder=holder, work=work, said=said))
    elif said:
        raise UsageError("where is the holder, or the work clamp?", hint="--holder + (or -), or --work + (or -)")


def repairs(
    context: typer.Context,
    trip: TripName = None,
    book: Annotated[bool, typer.Option("--book", help="With --json: the day's book instead.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Set the repairs against rods and bank, and in order.

    Example: kitlist repairs
    """
    from kitlist.faces.words import welding_text
    from kitlist.outlook.days_book import day_book

    readiness = judged(open_store(context), trip, on=day(on))
    outlooks = readiness.outlook.repairs
    kept = day_book(readiness.kit, readiness.trip, readiness.outlook)
    if as_json and book:
        show_json(None if kept is None else welding_text.plain_book(kept))
    elif as_json:
        show_json([welding_text.plain_repair(outlook) for outlook in outlooks])
    elif outlooks:
        show("\n".join(welding_text.repair_lines(outlooks, columns=min(width(), 100))))
        if kept is not None:
            show("\n".join(welding_text.book_lines(kept, columns=min(width(), 100))))
    else:
        say(f"{readiness.trip.name} has no repairs to be ready for. kitlist repair pick shows typical ones.")


def pick(
    context: typer.Context,
    name: Annotated[
        str | None, typer.Argument(help="One of the typical repairs; none lists them.", show_default=False)
    ] = None,
    vehicle: Annotated[str | None, typer.Option(help="The vehicle it is on.", show_default=False)] = None,
) -> None:
    """Pick a repair from the list of typical ones, or list them.

    Example: kitlist repair pick "spring hanger, torn" --vehicle Heron
    """
    from kitlist.base import names
    from kitlist.faces.words import welding_text
    from kitlist.store import changes
    from kitlist.welding.repairs.parts import RepairClass, part
    from kitlist.welding.repairs.typical import typical_repairs

    if name is None:
        show("\n".join(welding_text.typical_lines(typical_repairs(), columns=min(width(), 100))))
        return
    by_name = {repair.name: repair for repair in typical_repairs()}
    job = by_name[names.resolve(name, by_name, what="typical repair")].job
    values = {f: getattr(job, f) for f in job.__slots__} | {"vehicle": vehicle}
    full = f"{vehicle} {job.part}" if vehicle else job.part
    added = changes.add(open_store(context), "repair", {"name": full} | values)
    if part(job.part).repair_class is RepairClass.NEVER:
        say(f"Added repair {added.name}.")
        say_never(added)
        return
    say(f"Added repair {added.name}. Its thickness is usual, not measured: calipers, then kitlist repair edit.")


def opened(
    context: typer.Context,
    rod: RodName,
    into: Annotated[str, typer.Option(help="How it is kept now: dry-tube, carton or loose.")] = "carton",
    on: On = None,
) -> None:
    """Record that a packet of rods was opened.

    Example: kitlist rod opened "strong rods" --into dry-tube
    """
    from kitlist.base.errors import BadData
    from kitlist.base.terms import RodStorage
    from kitlist.store import rod_events

    if into not in set(RodStorage):
        raise BadData(f"storage {into!r}: must be one of {', '.join(RodStorage)}")
    packet = rod_events.opened(open_store(context), rod, on=day(on), storage=RodStorage(into))
    say(f"{packet.name}: opened on {packet.opened_on}, kept in {packet.storage}.")


def used(
    context: typer.Context,
    rod: RodName,
    count: Annotated[int, typer.Argument(show_default=False)],
    trip: Annotated[
        str | None, typer.Option(help="The trip they were used on; else the one under way.", show_default=False)
    ] = None,
    on: On = None,
) -> None:
    """Record that rods of a packet were burnt or spoiled.

    On a trip they are counted once with what its welds said.

    Example: kitlist rod used "general rods" 4
    """
    from kitlist.store import trip_use

    done = trip_use.used_rods(open_store(context), rod, count, on=day(on), trip=trip)
    again = count - done.off
    said = f", {again} of the {count} had been said by its welds" if again else ""
    say(f"{done.rod.name}: {done.rod.count} left{f' ({done.trip}{said})' if done.trip else ''}.")


def baked(context: typer.Context, rod: RodName, on: On = None) -> None:
    """Record that a packet of rods was baked.

    Example: kitlist rod baked "strong rods"
    """
    from kitlist.store import rod_events

    packet = rod_events.baked(open_store(context), rod, on=day(on))
    say(f"{packet.name}: baked {packet.bakes} time{'s' if packet.bakes != 1 else ''}.")
