"""starting-pair-parted: the bank takes one of the two batteries on which a vehicle starts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.terms import BatteryPlace, StartBatteries
from kitlist.outlook.starters import Lent, Parted, lent
from kitlist.physics.bank.pairs import BRIDGE_BACK_V, BRIDGE_CAMP_V, LENDS_WARM_C, TWIN_BACK_V, unequal_halves
from kitlist.rules import example
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_BACK = f"{BRIDGE_BACK_V.value:g} V"


def check(case: Case) -> Iterator[Gap]:
    """A gap where a half of 24 V or a twin welds without the other; a note where the other twin does alone."""
    for one in lent(case.kit, case.trip):
        if one.parted is not None:
            yield _gap(case, one, one.parted)


def _gap(case: Case, one: Lent, parted: Parted) -> Gap:
    taken, name = one.taken[0], one.vehicle.name
    if parted is Parted.HALF_OF_24_V:
        return Gap(
            subject=taken,
            what=f"{taken} is one half of the 24 V of {name}: afterwards it is emptier than the other"
            f"{_each(case, taken)}, and {name} does not start until both are level",
            remedy=f"Take both halves or neither. Else charge this one alone until both, rested, are {_BACK} apart on "
            f"one meter before the bridge goes back; to {BRIDGE_CAMP_V.value:g} V to camp only; over it never under "
            "the alternator: the full one gases.",
            command=f"kitlist bank {quoted(case.trip.name)}",
        )
    twin = f"At most {TWIN_BACK_V.value:g} V apart, rested, when it goes back beside the other"
    if parted is Parted.TWIN_SEEN:
        return Gap(
            subject=taken,
            what=f"{taken} is one of the twins of {name}, whose other one has been seen to start it",
            remedy=f"{twin}; else charge it alone first.",
            severity=Severity.NOTE,
        )
    frost = parted is Parted.TWIN_IN_FROST
    return Gap(
        subject=taken,
        what=f"{taken} is one of the twins of {name}, and "
        + (
            f"below {LENDS_WARM_C.value:g} °C the other one may not start it alone"
            if frost
            else "that the other one starts it alone has not been seen"
        ),
        remedy=f"Take another battery{'' if frost else '; or try it: key on with this one off'}. {twin}.",
        command="" if frost else f"kitlist vehicle edit {quoted(name)} starts-on-one=YES-OR-NO",
        known=frost or one.vehicle.starts_on_one is not None,
        doing=None if frost else Doing.CHECK,
    )


def _each(case: Case, taken: str) -> str:
    """How far one rod sets a half off the other, V; nothing where it cannot be told."""
    rods = [rod.burn.charge_ah.best for rod in case.outlook.rods if rod.burn is not None]
    capacity_ah = case.kit.battery[taken].c20_ah
    if not rods or capacity_ah is None or rods[0] > capacity_ah:
        return ""
    return f", about {unequal_halves(given_ah=rods[0], capacity_ah=capacity_ah).apart_v:.2f} V a rod"


def with_two(
    how: StartBatteries, *, bank: tuple[str, ...] = (), coldest_c: float = 5, seen: bool | None = None
) -> Example:
    """The whole kit, West added with two starting batteries, `west-main` and `west-other`; the bank as given."""
    whole = example.whole()
    west = replace(
        whole.kit.vehicles[0],
        name="West",
        start_batteries=how,
        system_v=24 if how is StartBatteries.PAIR else 12,
        starts_on_one=seen,
    )
    two = tuple(example.battery(name, "West", place=BatteryPlace.START) for name in ("west-main", "west-other"))
    kit = replace(
        whole.kit,
        vehicles=(*whole.kit.vehicles, west),
        batteries=(*whole.kit.batteries, *two),
        readings=(*whole.kit.readings, *(example.reading(b.name) for b in two)),
    )
    trip = replace(
        whole.trip, vehicles=(*whole.trip.vehicles, "West"), coldest_c=coldest_c, bank=bank or whole.trip.bank
    )
    return replace(whole, kit=kit, trip=trip)


ONE_STARTER = ("north-second", "south-second", "west-main")
BOTH = ("north-second", "west-main", "west-other")

RULE = Rule(
    name="starting-pair-parted",
    title="One of two starting batteries in the bank",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="What starts on two does not start on one, and two that are no longer level harm each other when joined again.",
    remedy="Both of them or neither.",
    sources=(BRIDGE_BACK_V.source, TWIN_BACK_V.source),
    check=check,
    good=lambda: with_two(StartBatteries.PAIR, bank=BOTH),
    bad=lambda: with_two(StartBatteries.PAIR, bank=ONE_STARTER),
)
