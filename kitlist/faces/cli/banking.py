"""bank and charge: which batteries to link, what current will flow, what to charge before."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.judgement import Json, On, ReplacePaper, TripName
from kitlist.faces.cli.talk import day, open_store, say, show, show_json, width
from kitlist.faces.judging import judged

if TYPE_CHECKING:
    from kitlist.faces.words.provenance import Provenance
    from kitlist.outlook.options.plan import BankPlan
    from kitlist.readiness import Readiness
    from kitlist.store import Store


def bank(
    context: typer.Context,
    trip: TripName = None,
    choose: Annotated[
        int | None, typer.Option(help="Keep this one of the banks on the trip.", show_default=False)
    ] = None,
    four: Annotated[bool, typer.Option("--four", help="Look at four in series too; needs ballast.")] = False,
    ballast: Annotated[str, typer.Option(help="Bare ballast strip in the circuit: 60mohm.")] = "0",
    chart: Annotated[
        Path | None, typer.Option(help="Write the current chart to this .svg.", show_default=False)
    ] = None,
    replace: ReplacePaper = False,
    steps: Annotated[bool, typer.Option("--steps/--no-steps", help="How to link and undo the chosen bank.")] = True,
    learned: Annotated[bool, typer.Option("--learned", help="What own welds taught; what to measure.")] = False,
    sources: Annotated[bool, typer.Option("--sources", help="Where each figure comes from.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Find the best banks for a trip, and how to link one.

    Example: kitlist bank --choose 1
    """
    from kitlist.base import quantities
    from kitlist.faces.words import bank_json
    from kitlist.outlook.options.plan import plan_for

    store = open_store(context)
    if learned:
        _learned(store, on=on, as_json=as_json)
        return
    mohm = quantities.parse(ballast, "mohm")

    def answered() -> tuple[Readiness, BankPlan]:
        found = judged(store, trip, on=day(on))
        return found, plan_for(found.kit, found.trip, on=found.on, four=four, ballast_mohm=mohm)

    stands_on = None
    if sources:
        from kitlist.faces.words.provenance import traced

        (readiness, answer), stands_on = traced(answered)
    else:
        readiness, answer = answered()
    if choose is not None:
        choose_bank(store, answer, choose)
        readiness = judged(store, readiness.trip.name, on=readiness.on)
        answer = dataclasses.replace(answer, trip=readiness.trip)  # the offers do not hang on which bank is chosen
    if chart is not None:
        _chart(readiness, chart, store=store.path, replace=replace)
    if as_json:
        show_json(bank_json.plain(answer, readiness))
    else:
        _show(answer, readiness, steps=steps, stands_on=stands_on)


def _learned(store: Store, *, on: str | None, as_json: bool) -> None:
    from kitlist.faces.words import learned_text
    from kitlist.outlook.own_welds import own_welds
    from kitlist.store.snapshot import snapshot

    taught = own_welds(snapshot(store), on=day(on))
    if as_json:
        show_json(learned_text.plain_learned(taught))
    else:
        show("\n".join(learned_text.learned_lines(taught, columns=min(width(), 100))))


def choose_bank(store: Store, answer: BankPlan, number: int) -> None:
    """Keep one of the banks that were found on the trip. Raises UsageError for a number that none has."""
    from kitlist.store import changes

    if not 1 <= number <= len(answer.offers):
        raise UsageError(f"there is no bank {number}: {len(answer.offers)} found", hint="kitlist bank shows them.")
    chosen = answer.offers[number - 1].trip
    kept = {"bank": list(chosen.bank), "bank_strings": chosen.bank_strings}
    changes.edit(store, "trip", answer.trip.name, kept)
    say(f"{answer.trip.name}: bank is {', '.join(chosen.bank)}.")


def _show(answer: BankPlan, readiness: Readiness, *, steps: bool, stands_on: Provenance | None) -> None:
    from kitlist.faces.words import bank_text
    from kitlist.outlook.procedure_steps import procedure_for

    columns = min(width(), 100)
    show("\n".join(bank_text.plan_lines(answer, outlook=readiness.outlook, columns=columns)))
    if steps and readiness.trip.bank:
        show("")
        for line in bank_text.before_linking(readiness, columns=columns):
            show(line)
        steps_of = procedure_for(readiness.kit, readiness.trip, readiness.outlook, on=readiness.on)
        show("\n".join(bank_text.procedure_lines(steps_of, columns=columns)))
    if stands_on is not None:
        show("")
        show("\n".join(bank_text.source_lines(stands_on, columns=columns)))


def _chart(readiness: Readiness, path: Path, *, store: Path, replace: bool) -> None:
    from kitlist.faces.paper.build_chart import chart_svg
    from kitlist.faces.paper.figure import write_svg

    write_svg(path, lambda: chart_svg(readiness), store=store, replace=replace)
    say(f"Wrote {path}.")


def charge(
    context: typer.Context,
    trip: TripName = None,
    field: Annotated[bool, typer.Option("--field", help="Between repairs: how long by what is on the trip.")] = False,
    rods: Annotated[
        int | None, typer.Option(min=1, max=200, help="With --field: for so many rods more.", show_default=False)
    ] = None,
    battery_temp: Annotated[
        str, typer.Option(help="With --field: the batteries' temperature; else the trip's coldest.")
    ] = "",
    on: On = None,
    as_json: Json = False,
) -> None:
    """Plan the charging: what, by when, how long to rest.

    Example: kitlist charge --field --rods 3
    """
    from kitlist.faces.words import bank_json, bank_text
    from kitlist.outlook.charging import charge_plan

    if not field and (rods is not None or battery_temp):
        raise UsageError("--rods and --battery-temp are about charging between repairs", hint="Add --field.")
    readiness = judged(open_store(context), trip, on=day(on))
    if field:
        _field(readiness, rods, battery_temp, as_json=as_json)
        return
    plan = charge_plan(readiness.trip, readiness.outlook, on=readiness.on)
    if as_json:
        answer: dict[str, Any] = bank_json.plain_charge(plan)
        show_json(answer)
    else:
        show("\n".join(bank_text.charge_lines(plan, columns=min(width(), 100))))


def _field(readiness: Readiness, rods: int | None, battery_temp: str, *, as_json: bool) -> None:
    from kitlist.base import quantities
    from kitlist.faces.words import field_text
    from kitlist.outlook.field_charge import field_charge

    temp_c = quantities.parse(battery_temp, "°C") if battery_temp else None
    plan = field_charge(readiness.kit, readiness.trip, readiness.outlook, rods=rods, temp_c=temp_c)
    if as_json:
        show_json(field_text.plain_field(plan))
    else:
        show("\n".join(field_text.field_lines(plan, columns=min(width(), 100))))
