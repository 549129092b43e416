"""ready, rules and why: the judgement, and what stands behind it."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.cli.talk import day, open_store, show, show_json, width

if TYPE_CHECKING:
    from datetime import date

    from kitlist.readiness import Readiness
    from kitlist.store import Store

TripName = Annotated[str | None, typer.Argument(help="The trip; else the next one.", show_default=False)]
On = Annotated[str | None, typer.Option(help="Judge as on this day, 2026-11-25; else today.")]
Json = Annotated[bool, typer.Option("--json", help="For a script.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the app."""
    app.command("ready", epilog="Exit code: 0 ready, 10 not ready, 11 ready with gaps.")(ready)
    app.command("rules")(rules)
    app.command("why")(why)


def ready(context: typer.Context, trip: TripName = None, on: On = None, as_json: Json = False) -> None:
    """Judge the kit for a trip: verdict, gaps, what to do.

    Example: kitlist ready
    """
    from kitlist.prints.build_sheet import build_sheet
    from kitlist.prints.summary import summary

    readiness = judged(open_store(context), trip, on=day(on))
    if as_json:
        show_json(readiness.plain())
    else:
        show(summary(readiness, sheet=build_sheet(readiness), columns=min(width(), 100)))
    raise typer.Exit(readiness.verdict.exit_code)


def judged(store: Store, trip: str | None, *, on: date) -> Readiness:
    """The readiness of a trip by any unambiguous start of its name, else of the next trip."""
    from kitlist import names
    from kitlist.readiness import assess, next_trip
    from kitlist.store.snapshot import snapshot, trips

    known = trips(store)
    name = next_trip(known, on=on).name if trip is None else names.resolve(trip, [t.name for t in known], what="trip")
    kit = snapshot(store, trip=name)
    return assess(kit, next(t for t in kit.trips if t.name == name), on=on)


def rules(as_json: Json = False) -> None:
    """List the rules with their severity.

    Example: kitlist rules
    """
    from kitlist.rules import RULES

    if as_json:
        show_json([{"name": r.name, "severity": r.severity, "title": r.title} for r in RULES])
        return
    wide = max(len(r.name) for r in RULES)
    for rule in RULES:
        show(f"{rule.severity:5} {rule.name:{wide}}  {rule.title}")


def why(name: Annotated[str, typer.Argument(help="A rule, by any start of its name.", show_default=False)]) -> None:
    """Explain a rule: why it is there, what to do, where it comes from.

    Example: kitlist why link-without-spare
    """
    from kitlist import names
    from kitlist.rules import RULES

    by_name: dict[str, Any] = {rule.name: rule for rule in RULES}
    rule = by_name[names.resolve(name, by_name, what="rule")]
    show(f"{rule.name}: {rule.title}\nSeverity: {rule.severity}, {rule.severity.words}")
    if not rule.acceptable:
        show("Never to be accepted.")
    for heading, text in (("Why", rule.why), ("Do", rule.remedy)):
        show(textwrap.fill(f"{heading}: {text}", min(width(), 100)))
    show("\n".join(textwrap.fill(f"Source: {source}", min(width(), 100)) for source in rule.sources))
