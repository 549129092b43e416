"""fuse-missing: no fuse near a post, or none that fits the bank: its volts, the arc's current, a short's."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.kit import Tool
from kitlist.outlook.second_way import fuse_size
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import missing, said_ac, tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed fuse bears the bank's volts and the arc's current, and blows in a short.

    Of several the one with the fewest faults is named, with all of them: whoever buys another buys it once.
    """
    packed = tools(case.kit, ToolKind.FUSE)
    if not packed:
        size = _size(case)
        yield missing("fuse", f"Pack one of {size}, 58 V DC or more, breaking 2 kA or more, with spares.")
        return
    fuse, faults = min(((fuse, _faults(case, fuse)) for fuse in packed), key=lambda pair: len(pair[1]))
    if not faults:
        return
    first = faults[0]
    yield Gap(
        subject=fuse.name,
        what=f"{fuse.name}: {'; '.join(fault.what for fault in faults)}",
        remedy=" ".join(dict.fromkeys(fault.remedy for fault in faults)),
        command=f"kitlist tool edit {quoted(fuse.name)} {' '.join(fault.typed for fault in faults)}",
        measured=first.measured,
        required=first.required,
        unit=first.unit,
        known=all(fault.measured is not None for fault in faults),
    )


@dataclass(frozen=True, slots=True)
class _Fault:
    """One thing for which a fuse does not suit the bank; `measured` is None where its rating is not known."""

    what: str
    remedy: str
    typed: str
    measured: float | None
    required: float
    unit: str


def _faults(case: Case, fuse: Tool) -> list[_Fault]:
    least_v, likely_a = case.limits.fuse_least_v, round(case.outlook.likely_a or 0.0)
    stuck_a = _stuck_a(case)
    found = []
    if fuse.dc_v is None or fuse.dc_v < least_v:
        has = f"its DC volts are not known{said_ac(fuse)}" if fuse.dc_v is None else f"{fuse.dc_v:g} V"
        remedy = "Read its DC rating; one for 12 V or for AC only goes on arcing inside."
        found.append(
            _Fault(
                f"{has}; {least_v:g} V DC at the least",
                remedy,
                f"rating-v=VOLTS{' note=WORDS' if said_ac(fuse) else ''}",
                fuse.dc_v,
                least_v,
                "V DC",
            )
        )
    amps, typed = fuse.rating_a, "rating-a=AMPS"
    if amps is None or amps < likely_a:
        has = "its amperes are not known" if amps is None else f"{amps:g} A"
        remedy = f"Pack one of {_size(case)}: a lighter one blows at the first bead."
        found.append(_Fault(f"{has}; {likely_a} A is likely at the arc", remedy, typed, amps, likely_a, "A"))
    elif amps >= stuck_a:
        short = f"a short through the leads, about {round(stuck_a, -1):.0f} A, does not blow it"
        remedy = f"Pack one of {_size(case)}: over the arc's current, well under a short's."
        found.append(_Fault(f"{amps:g} A; {short}", remedy, typed, amps, round(stuck_a), "A"))
    return found


def _stuck_a(case: Case) -> float:
    return (case.outlook.bank.stuck_a if case.outlook.bank else None) or inf


def _size(case: Case) -> str:
    return fuse_size(stuck_a=_stuck_a(case), likely_a=case.outlook.likely_a or 0.0)


RULE = Rule(
    name="fuse-missing",
    title="No fuse that suits the bank",
    severity=Severity.NOTE,
    doing=Doing.GET,
    why=(
        "Nothing in the bank protects a short by itself: a dropped spanner draws one to three thousand "
        "amperes until something burns."
    ),
    remedy="A fuse near the post of one battery. A stuck rod may blow it: carry spares.",
    sources=(PRACTICE,),
    check=check,
    asks_for=(ToolKind.FUSE,),
    good=lambda: example.with_tool(ToolKind.FUSE, rating_v=58),
    bad=lambda: example.with_tool(ToolKind.FUSE, rating_v=57),
    numbers=("fuse_least_v",),
)
