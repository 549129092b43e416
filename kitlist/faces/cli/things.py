"""add, list, show, edit, remove and restore: the same shape for every kind, from the kind's own description."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from datetime import date, datetime
from typing import TYPE_CHECKING, Annotated, Any

import typer

from kitlist.base.errors import UsageError
from kitlist.base.fields import fields_of, plural
from kitlist.base.names import quoted
from kitlist.faces.cli.completing import fields_of_kind, names_of
from kitlist.faces.cli.talk import columns, open_store, say, show, show_json, today, width
from kitlist.faces.cli.typed import by_the_clock, pairs, say_understood

if TYPE_CHECKING:
    from kitlist.store import Store

Values = Annotated[list[str] | None, typer.Argument(metavar="FIELD=VALUE...", show_default=False)]
Name = Annotated[str, typer.Argument(metavar="NAME", show_default=False)]
Gone = Annotated[str | None, typer.Argument(metavar="[NAME]", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="For a script.")]

_BLANK = {int: "NUMBER", float: "NUMBER", date: "DATE", datetime: "DATE", tuple: "FIRST,SECOND"}
EXAMPLES = {
    "bag": 'kitlist bag add "Power bag" place="left rear locker"',
    "vehicle": "kitlist vehicle add Heron crank=380",
    "battery": "kitlist battery add heron-main vehicle=Heron chemistry=calcium c20=70Ah",
    "lead": 'kitlist lead add "long link" use=link end-a=post-clamp end-b=post-clamp area="4 AWG" length=3m',
    "ballast": "kitlist ballast add strip metal=stainless width=30mm thickness=1mm length=2.5m",
    "clamp": 'kitlist clamp add "post clamps" what=post-clamp rating=250A count=2',
    "rod": 'kitlist rod add "general rods" designation=E6013 diameter="1/8 in" count=28',
    "gear": 'kitlist gear add "welding helmet" what=helmet shade=11',
    "tool": "kitlist tool add extinguisher what=extinguisher agent=powder expires-on=2028-03-31",
    "item": 'kitlist item add "fan belt" must-carry=2 count=1 bag="Tool roll"',
    "acceptance": 'kitlist accept link-without-spare --for "Dry lake" --by Ada --reason "..." --until 2027-05-16',
    "repair": 'kitlist repair add "spring hanger" part="spring hanger" thickness=5mm',
    "bead": 'kitlist bead add "test 1" welded-on=2027-05-01 bank=heron,plover rest=25.4V bank-v=22V current=95',
    "mend": 'kitlist mend add "left hanger" part="spring hanger" welded-on=2027-05-12 vehicle=Heron rod="general rods"',
    "weld": 'kitlist weld add "left hanger" rods=5 bank=heron,plover,stilt before=37.9V after=37.3V rod="general rods"',
    "trip": 'kitlist trip add "Dry lake" starts-on=2027-05-08 ends-on=2027-05-16 vehicles=Heron',
}


def commands(
    app: typer.Typer,
    kind: str,
    *,
    add_with: Callable[..., None] | None = None,
    list_with: Callable[..., None] | None = None,
    history_with: Callable[[Store, str], tuple[str, ...]] | None = None,
) -> None:
    """Put a kind's commands on it; `add_with` and `list_with` do that in a way of their own, `history_with` says more
    of one shown."""
    several = plural(kind)
    fields = _fields_help(kind)
    named: Any = typer.Argument(metavar="NAME", show_default=False, autocompletion=names_of(kind))
    fielded: Any = typer.Argument(
        None, metavar="FIELD=VALUE...", show_default=False, autocompletion=fields_of_kind(_class_of(kind))
    )

    def add(context: typer.Context, name: Name, values: list[str] | None = fielded) -> None:
        from kitlist.store import changes

        given = pairs(values)
        store = open_store(context)
        thing = changes.add(store, kind, {"name": name} | by_the_clock(_class_of(kind), given))
        say(f"Added {kind} {thing.name}.")
        say_understood(store, thing, given)
        _ask(kind, thing)

    made = None if add_with else f"Add a {kind}.\n\n\b\nExample: {EXAMPLES[kind]}"
    app.command("add", epilog=fields, help=made)(add_with or add)

    def list_(context: typer.Context, as_json: Json = False) -> None:
        from kitlist.store import changes

        store = open_store(context)
        things = changes.listed(store, kind)
        if as_json:
            show_json([_as_dict(thing) for thing in things])
        elif things:
            _show_table(store, kind, things)
        else:
            say(f"No {several} yet.\n{blank(kind)}")

    app.command("list", help=None if list_with else f"List the {several}.")(list_with or list_)

    @app.command("show", help=f"Show all that is known of one {kind}.")
    def show_(context: typer.Context, name: str = named, as_json: Json = False) -> None:
        from kitlist.store import changes

        store = open_store(context)
        values = changes.shown(store, kind, name)
        history = history_with(store, values["name"]) if history_with else ()
        if as_json:
            show_json(values | ({"history": list(history)} if history_with else {}))
            return
        from kitlist.faces.words.cell_text import cell
        from kitlist.store import settings

        units = settings.of(store).units
        for field in fields_of(_class_of(kind)):
            words = f"{field.word:20} {cell(field, values[field.name], units=units) or 'not known'}"
            show(textwrap.fill(words, width(), subsequent_indent=" " * 21, break_on_hyphens=False))
        for answer in _answers(store, kind, [values]).values():
            show(f"{'check-off':20} {answer}")
        for line in history:
            show(textwrap.fill(line, min(width(), 100), subsequent_indent="  "))

    @app.command("edit", epilog=fields, help=f"Change fields of a {kind}; FIELD=none empties one.")
    def edit(context: typer.Context, name: str = named, values: list[str] | None = fielded) -> None:
        from kitlist.store import changes

        if not values:
            raise UsageError(
                "nothing to change", hint=f"Say what: {EXAMPLES[kind].split(' add ')[0]} edit NAME FIELD=VALUE"
            )
        given = pairs(values)
        store = open_store(context)
        thing = changes.edit(store, kind, name, by_the_clock(_class_of(kind), given))
        say(f"Changed {kind} {thing.name}.")
        say_understood(store, thing, given)
        if any(_is_day(field) or field == "part" for field in given):
            _ask(kind, thing)

    @app.command("remove", help=f"Take a {kind} out of the kit; its history stays.")
    def remove(context: typer.Context, name: str = named) -> None:
        from kitlist.store import changes

        thing = changes.remove(open_store(context), kind, name)
        say(f"Removed {kind} {thing.name}. `kitlist {kind} restore {quoted(thing.name)}` brings it back.")

    @app.command("restore", help=f"Bring back a removed {kind}; without a name, list them.")
    def restore(context: typer.Context, name: Gone = None) -> None:
        from kitlist.store import changes

        if name is None:
            gone = changes.removed(open_store(context), kind)
            show(columns(gone, ("name", "removed at, UTC"))) if gone else say(f"No {kind} was removed.")
            return
        say(f"Brought back {kind} {changes.restore(open_store(context), kind, name)}.")


def blank(kind: str) -> str:
    """How to add a thing of a kind: every fact in it is left blank, for nobody has observed it yet.

    >>> blank("vehicle"), blank("trip")
    ('kitlist vehicle add NAME', 'kitlist trip add NAME starts-on=DATE ends-on=DATE')
    """
    if kind == "acceptance":
        return "kitlist accept RULE --for TRIP --by NAME --reason WORDS --until DATE"
    required = [field for field in fields_of(_class_of(kind)) if field.required and field.name != "name"]
    return " ".join((f"kitlist {kind} add NAME", *(f"{f.word}={_BLANK.get(f.type, 'WORDS')}" for f in required)))


def say_never(repair: Any) -> None:
    """Say at once, and why, that a repair is one that nobody may weld; it is kept, and the sheet says it too."""
    from kitlist.base.errors import KitlistError
    from kitlist.welding.repairs.parts import RepairClass, part

    try:
        known = part(repair.part)
    except KitlistError:
        return  # repair-not-known says it
    if known.repair_class is RepairClass.NEVER:
        say(f"NEVER weld it: {known.name}. {known.rule}")
        say(
            "It is kept so that a spare or a tow is planned, not a weld. "
            f"Else: kitlist repair remove {quoted(repair.name)}"
        )


def _ask(kind: str, thing: Any) -> None:
    """Ask about days that were likely meant otherwise, and say what must never be done; what was typed is kept."""
    if kind == "repair":
        say_never(thing)
    doubts = thing.doubts(on=today()) if hasattr(thing, "doubts") else ()
    for doubt in doubts:
        say(f"{doubt[0].upper()}{doubt[1:]} Else: kitlist {kind} edit {quoted(thing.name)} FIELD=DAY")


def _is_day(field: str) -> bool:
    return field.replace("-", "_").endswith(("_on", "_at"))


def _class_of(kind: str) -> type:
    from kitlist.kit import KINDS

    return KINDS[kind]


def _fields_help(kind: str) -> str:
    lines = ["\b", "Fields:"]
    lines += [f"  {f.word}: {f.about.help}; {f.allowed}" for f in fields_of(_class_of(kind)) if f.name != "name"]
    return "\n".join(lines)


def _as_dict(thing: Any) -> dict[str, Any]:
    from kitlist.kit import plain

    return {f.name: plain(getattr(thing, f.name)) for f in fields_of(thing.__class__)}


def _show_table(store: Store, kind: str, things: tuple[Any, ...]) -> None:
    """The things in as many columns as fit, with what a check-off found of them, and what is left out."""
    from kitlist.faces.cli.asking import say_wrapped
    from kitlist.faces.words.cell_text import table
    from kitlist.store import settings

    found = _answers(store, kind, [_as_dict(thing) for thing in things])
    extra = {"check-off": [found.get(thing.name, "") for thing in things]} if found else {}
    text, left_out = table(things, columns=width(), units=settings.of(store).units, extra=extra)
    show(text)
    if left_out:
        say_wrapped(f"Left out at this width: {', '.join(left_out)}. kitlist {kind} show NAME has all.")


def _answers(store: Store, kind: str, things: list[dict[str, Any]]) -> dict[str, str]:
    """What the newest check-off found of things, by name, where it holds: the count recorded is the one it was of."""
    from kitlist.kit import next_trip
    from kitlist.store import checked_off
    from kitlist.store.snapshot import trips
    from kitlist.trips.check_off import KINDS

    if kind not in KINDS:
        return {}
    counts = {thing["name"]: thing["count"] for thing in things}
    going = next_trip(known, on=today()).name if (known := trips(store)) else None
    with store.viewing() as connection:
        newest = [answer for answer in checked_off.newest(connection, going=going) if answer.kind == kind]
    return {a.name: f"{a.words} {a.checked_at:%Y-%m-%d}" for a in newest if counts.get(a.name) == a.expected}
