"""isolator-underrated: an isolator that cannot carry or break what this bank gives."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.outlook.leads import parts_at_plug
from kitlist.outlook.second_way import FUSE_CLEARS, second_way
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import said_ac, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap for the best packed isolator: volts, carrying current, and a stuck rod's current."""
    packed = tools(case.kit, ToolKind.ISOLATOR)
    if not packed:
        return
    least_v, likely_a = case.limits.isolator_least_v, case.outlook.likely_a or 0.0
    amps = f" and {likely_a:.0f} A" if likely_a else ""
    best = max(packed, key=lambda tool: ((tool.dc_v or 0) >= least_v, tool.rating_a or 0))
    stuck_a = case.outlook.bank.stuck_a if case.outlook.bank else None
    if best.dc_v is None or best.rating_a is None:
        yield Gap(
            subject=best.name,
            what=f"{best.name}: its DC volts and amperes are not known{said_ac(best)}; "
            f"{least_v:g} V{amps} at the least",
            remedy="Read them off its body, and write them down.",
            command=f"kitlist tool edit {quoted(best.name)} rating-v=VOLTS rating-a=AMPS"
            + (" note=WORDS" if said_ac(best) else ""),
            known=False,
        )
    elif (short_v := best.dc_v < least_v) or best.rating_a < round(likely_a):
        yield Gap(
            subject=best.name,
            what=f"{best.name}: {best.dc_v:g} V, {best.rating_a:g} A; {least_v:g} V DC{amps} at the least",
            remedy="Pack one that is rated for it.",
            measured=best.dc_v if short_v else best.rating_a,
            required=least_v if short_v else round(likely_a),
            unit="V DC" if short_v else "A",
        )
    elif stuck_a is not None and best.rating_a < stuck_a and not _second(case, stuck_a):
        yield Gap(
            subject=best.name,
            what=f"{best.name}: {best.rating_a:g} A; a stuck rod draws about {round(stuck_a, -2):.0f} A, "
            "and it may weld shut",
            remedy=f"Twist the rod off first, and open it with no current where you can; {_ways(case, stuck_a)}.",
            measured=best.rating_a,
            required=round(stuck_a),
            unit="A",
            severity=Severity.NOTE,
        )


def _ways(case: Case, stuck_a: float) -> str:
    """What else may break a stuck rod's current: a plug; and a fuse, where one that bears the arc blows at it."""
    most_a, likely_a = stuck_a / FUSE_CLEARS.value, case.outlook.likely_a or 0.0
    fuse = f"a fuse of {most_a:.0f} A at the most that bears {likely_a:.0f} A" if most_a >= likely_a else ""
    if parts_at_plug(case.kit):
        return "write down what the far plug may break" + (f", or fit {fuse}" if fuse else "")
    return "a plug of a written breaking current in the holder lead is a second way" + (f", or {fuse}" if fuse else "")


def _second(case: Case, stuck_a: float) -> bool:
    """Whether something else is packed that breaks the current, and stands in the procedure."""
    return second_way(case.kit, stuck_a=stuck_a, likely_a=case.outlook.likely_a or 0.0) is not None


RULE = Rule(
    name="isolator-underrated",
    title="Isolator underrated",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=("A switch for AC or for less volts draws an arc inside that does not go out, and then there is no switch."),
    remedy="60 V DC or more, and able to break a stuck rod's current; else it is opened only with no current.",
    sources=(PRACTICE, FUSE_CLEARS.source),
    check=check,
    mark="underrated",
    good=lambda: example.with_tool(ToolKind.ISOLATOR, rating_v=60),
    bad=lambda: example.with_tool(ToolKind.ISOLATOR, rating_v=59),
    numbers=("isolator_least_v",),
)
