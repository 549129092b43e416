"""voltmeter-underrated: a voltmeter that does not reach to the full bank's volts."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE
from kitlist.base.terms import ToolKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import tools


def check(case: Case) -> Iterator[Gap]:
    """A gap where no packed voltmeter is known to reach the bank's volts and one is known not to.

    A kit that says nothing of any meter's volts is left alone: nearly all that are sold as voltmeters reach.
    """
    bank = case.outlook.bank
    if bank is None:
        return
    meters, full_v = tools(case.kit, ToolKind.VOLTMETER), round(bank.full_v, 1)
    if any(meter.rating_v is not None and meter.rating_v >= full_v for meter in meters):
        return
    short = max((m for m in meters if m.rating_v is not None), key=lambda m: m.rating_v or 0, default=None)
    unsaid = next((meter for meter in meters if meter.rating_v is None), None)
    if short is None:
        return
    if unsaid is not None:
        yield Gap(
            subject=unsaid.name,
            what=f"{unsaid.name}: how far it reads is not known, and {short.name} stops at {short.rating_v:g} V; "
            f"the full bank has {full_v:.1f} V",
            remedy="Read its highest DC range, and write it down.",
            command=f"kitlist tool edit {quoted(unsaid.name)} rating-v=VOLTS",
            required=full_v,
            unit="V DC",
            known=False,
            severity=Severity.NOTE,
        )
        return
    yield Gap(
        subject=short.name,
        what=f"{short.name}: reads to {short.rating_v:g} V DC; the full bank has {full_v:.1f} V",
        remedy="Pack one that reads to 60 V DC or more, leads and probes too; keep this one for single batteries.",
        command='kitlist tool add "bank voltmeter" what=voltmeter rating-v=VOLTS',
        measured=short.rating_v,
        required=full_v,
        unit="V DC",
    )


RULE = Rule(
    name="voltmeter-underrated",
    title="Voltmeter that does not reach",
    severity=Severity.FIX,
    doing=Doing.GET,
    why=(
        "A tester for one battery shows nothing, or a wrong number, on two or three in series, and may burn: "
        "the one measurement that finds a reversed link is then not made."
    ),
    remedy="A meter whose DC range ends above the full bank's volts: 60 V or more covers every bank.",
    sources=(PRACTICE,),
    check=check,
    mark="underrated",
    good=lambda: example.with_tool(ToolKind.VOLTMETER, rating_v=39),
    bad=lambda: example.with_tool(ToolKind.VOLTMETER, rating_v=38),
)
