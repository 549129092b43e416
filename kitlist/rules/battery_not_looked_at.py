"""battery-not-looked-at: a battery in the bank of unknown kind, or one that nobody has looked over."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.sources import PRACTICE
from kitlist.terms import Chemistry, Condition


def check(case: Case) -> Iterator[Gap]:
    """A gap for each battery of the bank whose chemistry (stop) or condition (fix) is not known."""
    for outlook in case.outlook.bank_batteries:
        battery = outlook.battery
        if battery.chemistry is Chemistry.UNKNOWN:
            yield Gap(
                subject=battery.name,
                what=f"{battery.name}: its chemistry is not known; it may be lithium",
                remedy="Read its label and write down what it is.",
                command=f"kitlist battery edit {quoted(battery.name)} chemistry=flooded (calcium, efb, agm, gel)",
                known=False,
            )
        elif battery.condition is Condition.UNKNOWN:
            yield Gap(
                subject=battery.name,
                what=f"{battery.name}: nobody has looked it over for cracks, leaks and swelling",
                remedy="Look it over, and write down what you see.",
                command=f"kitlist battery edit {quoted(battery.name)} condition=sound",
                known=False,
                severity=Severity.FIX,
            )


RULE = Rule(
    name="battery-not-looked-at",
    title="Battery of unknown kind or condition",
    severity=Severity.STOP,
    why="Lithium must never be in a bank, and a cracked or swollen case can burst under a short circuit.",
    remedy="Read the label and look the case over before the trip.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_battery("north-main", condition=Condition.UNKNOWN),
)
