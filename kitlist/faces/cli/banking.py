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
    from kitlist.outlook.shaping import ShapedWay
    from kitlist.readiness import Readiness
    from kitlist.store import Store


def bank(
    context: typer.Context,
    trip: TripName = None,
    choose: Annotated[
        int | None, typer.Option(help="Keep this one of the banks on the trip.", show_default=False)
    ] = None,
    four: Annotated[bool, typer.Option("--four", help="Look at four in series too; needs ballast.")] = False,
    ballast: Annotated[str, typer.Option(help="Ballast strip in the circuit: its name, or 60mohm.")] = "0",
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

    def answered() -> tuple[Readiness, BankPlan, str | None]:
        found = judged(store, trip, on=day(on))
        strip = _strip(found, ballast)
        mohm = 0.0 if strip else quantities.parse(ballast, "mohm")
        tried = dataclasses.replace(found.trip, ballast=strip) if strip else found.trip
        return found, plan_for(found.kit, tried, on=found.on, four=four, ballast_mohm=mohm), strip

    stands_on = None
    if sources:
        from kitlist.faces.words.provenance import traced

        (readiness, answer, strip), stands_on = traced(answered)
    else:
        readiness, answer, strip = answered()
    if choose is not None:
        if strip is None and quantities.parse(ballast, "mohm") > 0:
            raise UsageError(
                f"a strip of {ballast} is only looked at: the kit has none by that name",
                hint=f"kitlist ballast add NAME measured={ballast}; then kitlist bank --ballast NAME --choose {choose}",
            )
        choose_bank(store, answer, choose, ballast=strip)
        readiness = judged(store, readiness.trip.name, on=readiness.on)
        answer = dataclasses.replace(answer, trip=readiness.trip)  # the offers do not hang on which bank is chosen
    if chart is not None:
        _chart(readiness, chart, store=store.path, replace=replace)
    if as_json:
        show_json(bank_json.plain(answer, readiness, ways=_ways(readiness, answer)))
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


def _strip(readiness: Readiness, text: str) -> str | None:
    """The packed strip that a word names; None where it is milliohms, or nothing."""
    known = [strip.name for strip in readiness.kit.ballasts if strip.count]
    return next((name for name in known if name.casefold() == text.strip().casefold()), None)


def choose_bank(store: Store, answer: BankPlan, number: int, *, ballast: str | None = None) -> None:
    """Keep one of the banks that were found on the trip. Raises UsageError for a number that none has."""
    from kitlist.store import changes

    if not 1 <= number <= len(answer.offers):
        raise UsageError(f"there is no bank {number}: {len(answer.offers)} found", hint="kitlist bank shows them.")
    chosen = answer.offers[number - 1].trip
    kept: dict[str, Any] = {"bank": list(chosen.bank), "bank_strings": chosen.bank_strings}
    if ballast is not None:
        kept["ballast"] = ballast
    changes.edit(store, "trip", answer.trip.name, kept)
    say(f"{answer.trip.name}: bank is {', '.join(chosen.bank)}.")


def _show(answer: BankPlan, readiness: Readiness, *, steps: bool, stands_on: Provenance | None) -> None:
    from kitlist.faces.words import bank_text
    from kitlist.outlook.procedure_steps import procedure_for

    columns = min(width(), 100)
    show("\n".join(bank_text.plan_lines(answer, outlook=readiness.outlook, columns=columns)))
    if ways := _ways(readiness, answer):
        show("\n".join(bank_text.way_lines(ways, columns=columns)))
    if steps and readiness.trip.bank:
        show("")
        for line in bank_text.before_linking(readiness, columns=columns):
            show(line)
        steps_of = procedure_for(readiness.kit, readiness.trip, readiness.outlook, on=readiness.on)
        show("\n".join(bank_text.procedure_lines(steps_of, columns=columns)))
    if stands_on is not None:
        show("")
        show("\n".join(bank_text.source_lines(stands_on, columns=columns)))


def _ways(readiness: Readiness, answer: BankPlan) -> dict[str, tuple[ShapedWay, ...]]:
    """For each repair without a rod in range the few best ways to one, the two best offers tried too."""
    from kitlist.outlook.shaping import ways_in_range

    offered = [offer.trip.bank for offer in answer.offers[:2] if len(offer.strings) == 1]
    return ways_in_range(readiness.kit, readiness.trip, on=readiness.on, offered=offered)


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
    from kitlist.faces.words import field_text
    from kitlist.outlook.field_charge import field_charge

    temp_c = _battery_c(battery_temp) if battery_temp else None
    plan = field_charge(readiness.kit, readiness.trip, readiness.outlook, rods=rods, temp_c=temp_c)
    if as_json:
        show_json(field_text.plain_field(plan))
    else:
        show("\n".join(field_text.field_lines(plan, columns=min(width(), 100))))


def _battery_c(told: str) -> float:
    """A battery's temperature, °C, within what a reading of one may say."""
    from kitlist.base import quantities
    from kitlist.base.fields import fields_of
    from kitlist.kit import Reading

    field = next(field for field in fields_of(Reading) if field.name == "battery_temp_c")
    temp_c = quantities.parse(told, field.unit)
    if (field.about.low or 0.0) <= temp_c <= (field.about.high or 0.0):
        return temp_c
    raise UsageError(f"--battery-temp {told!r} is not {field.allowed}", hint="As a thermometer on its case shows it.")
