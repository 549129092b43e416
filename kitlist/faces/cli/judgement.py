"""ready, rules, why and accept: the judgement, what stands behind it, and who accepts a gap."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Annotated

import typer

from kitlist.base.errors import UsageError
from kitlist.faces.cli.talk import day, open_store, say, show, show_json, store_path, width
from kitlist.faces.judging import judged

if TYPE_CHECKING:
    from kitlist.rules import Rule

ReplacePaper = Annotated[bool, typer.Option("--replace", help="Write over a file that is no earlier paper.")]
TripName = Annotated[str | None, typer.Argument(help="The trip; else the next one.", show_default=False)]
On = Annotated[str | None, typer.Option(help="Judge as on this day, 2026-11-25; else today.")]
Json = Annotated[bool, typer.Option("--json", help="For a script.")]


def ready(
    context: typer.Context,
    trip: TripName = None,
    on: On = None,
    every: Annotated[bool, typer.Option("--all", help="Every gap by itself, however many there are.")] = False,
    as_json: Json = False,
) -> None:
    """Judge the kit for a trip: verdict, gaps, what to do.

    More than 20 gaps are shown on one page by what is to be done, every stop named; --all shows each by itself.

    Example: kitlist ready
    """
    from kitlist.faces.paper.build_sheet import build_sheet
    from kitlist.faces.words import by_doing
    from kitlist.faces.words.summary import summary

    readiness = judged(open_store(context), trip, on=day(on))
    columns = min(width(), 100)
    if as_json:
        show_json(readiness.plain())
    elif by_doing.is_long(readiness) and not every:
        show(by_doing.page(readiness, sheet=build_sheet(readiness, for_screen=True), columns=columns))
    else:
        show(summary(readiness, sheet=build_sheet(readiness, for_screen=True), columns=columns))
    raise typer.Exit(readiness.verdict.exit_code)


def rules(context: typer.Context, trip: TripName = None, on: On = None, as_json: Json = False) -> None:
    """List the rules, and which fire on the next trip.

    Example: kitlist rules
    """
    from kitlist.rules import RULES

    states = _states(context, trip, on)
    if as_json:
        show_json(
            [{"name": r.name, "severity": r.severity, "title": r.title, "state": states.get(r.name)} for r in RULES]
        )
        return
    wide = max(len(r.name) for r in RULES)
    for rule in RULES:
        state = f"{states[rule.name]:11}  " if states else ""
        line = f"{rule.severity:5} {state}{rule.name:{wide}}  {rule.title}"
        show(textwrap.fill(line, width(), subsequent_indent=" " * 8, break_on_hyphens=False))


def _states(context: typer.Context, trip: str | None, on: str | None) -> dict[str, str]:
    """What each rule says of the trip; empty where there is no store or no trip to judge."""
    from kitlist.base.errors import NotFound
    from kitlist.store.opening import Store

    path = store_path(context)
    if not path.is_file():
        return {}
    try:
        readiness = judged(Store(path, rulebook=context.obj["rulebook"]), trip, on=day(on))
    except NotFound:
        if trip is not None:
            raise
        return {}
    return readiness.states


def why(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="A rule, by any start of its name.", show_default=False)],
) -> None:
    """Explain a rule: why, what to do, numbers, sources.

    Example: kitlist why link-without-spare
    """
    from kitlist.faces.words.rule_text import explained
    from kitlist.kit.limits import standard
    from kitlist.store.opening import Store
    from kitlist.store.own_rulebook import own_rulebook

    path, own = store_path(context), context.obj["rulebook"]
    book = own_rulebook(Store(path, rulebook=own)) if path.is_file() else standard()
    show(explained(rule_named(name), book, columns=min(width(), 100)))


def rule_named(name: str) -> Rule:
    """A rule by any unambiguous start of its name."""
    from kitlist.base import names
    from kitlist.rules import RULES

    by_name = {rule.name: rule for rule in RULES}
    return by_name[names.resolve(name, by_name, what="rule", all_by="kitlist rules")]


def accept(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="The rule whose gap is accepted.", show_default=False)],
    trip: Annotated[str | None, typer.Option("--for", help="The trip; else the next one.")] = None,
    by: Annotated[str, typer.Option(help="Who accepts it.")] = "",
    reason: Annotated[str, typer.Option(help="Why.")] = "",
    until: Annotated[str, typer.Option(help="The last day it holds, 2026-11-25.")] = "",
    subject: Annotated[str, typer.Option(help="Only the gap about this; else every gap of the rule.")] = "",
    take_back: Annotated[bool, typer.Option("--take-back", help="The gap counts again.")] = False,
    on: On = None,
) -> None:
    """Accept a gap for one trip: who, why, until when.

    Example: kitlist accept link-without-spare --for "Dry lake" --by Ada --reason "comes later" --until 2027-05-16
    """
    from kitlist.base.names import quoted
    from kitlist.store import accepted_gaps
    from kitlist.trips.accepting import acceptances

    store, rule = open_store(context), rule_named(name).name
    readiness = judged(store, trip, on=day(on))
    if take_back:
        gone = accepted_gaps.take_back(store, rule=rule, trip=readiness.trip.name, subject=subject)
        say(f"Taken back: {rule} ({', '.join(gone)})." if gone else f"Nothing of {rule} was accepted.")
        return
    if not until:
        raise UsageError("an acceptance needs an end", hint=f"--until {readiness.trip.ends_on}")
    taken = acceptances(readiness, rule, by=by, reason=reason, until=day(until), subject=subject)
    accepted_gaps.accept(store, taken)
    say(f"{by} accepts {rule} ({', '.join(one.subject for one in taken)}) for {readiness.trip.name} until {until}.")

    only = f" --subject {quoted(subject)}" if subject else ""
    say(f"Taken back by: kitlist accept {rule} --for {quoted(readiness.trip.name)}{only} --take-back")
