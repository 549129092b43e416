"""battery-not-looked-at: a battery in the bank of unknown kind, or one that nobody has looked over."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE, Figure
from kitlist.base.terms import Chemistry, Condition
from kitlist.kit import Battery
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_KINDS = (Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL)
LIGHT_KG_PER_AH = Figure("lightest lead-acid battery for its capacity", 0.17, "kg/Ah", PRACTICE, 0.13, 0.20)
"""Lead weighs 0.22 to 0.38 kg/Ah, lithium about half: between the two. Common practice."""


def check(case: Case) -> Iterator[Gap]:
    """A gap for each battery of the bank whose chemistry (stop) or condition (fix) is not known; before a bank is
    chosen for each that travels whose chemistry is not known (fix), as no bank is offered with it."""
    if not case.trip.bank:
        for outlook in case.outlook.batteries.values():
            if outlook.battery.chemistry is Chemistry.UNKNOWN and not outlook.refusal:
                yield _kind_unknown(outlook.battery, "no bank is offered with it", Severity.FIX)
        return
    for outlook in case.outlook.bank_batteries:
        battery = outlook.battery
        asked = [] if outlook.refusal else list(_unasked(battery))
        if battery.chemistry is Chemistry.UNKNOWN:
            yield _kind_unknown(battery, "", None)
        elif asked:
            yield Gap(
                subject=battery.name,
                what=f"{battery.name}: {'; '.join(what for what, _, _ in asked)}",
                remedy=" ".join(do for _, do, _ in asked),
                command=f"kitlist battery edit {quoted(battery.name)} {' '.join(typed for _, _, typed in asked)}",
                known=False,
                severity=Severity.FIX,
            )


def _kind_unknown(battery: Battery, also: str, severity: Severity | None) -> Gap:
    return Gap(
        subject=battery.name,
        what=f"{battery.name}: its chemistry is not known; it may be lithium{f', and {also}' if also else ''}",
        remedy="Read its label, for electronics, a switch or an app too, and write down what it is.",
        command=f"kitlist battery edit {quoted(battery.name)} chemistry=KIND built-in-cutoff=ANSWER",
        known=False,
        severity=severity,
    )


def _unasked(battery: Battery) -> Iterator[tuple[str, str, str]]:
    """What nobody has looked for: (what, what to do, what to type)."""
    if battery.condition is Condition.UNKNOWN:
        yield (
            "nobody has looked it over for cracks, leaks and swelling",
            "Look it over, and write down what you see.",
            "condition=WORD",
        )
    other = [kind for kind in _KINDS if noted(f"kind {kind}", f"{battery.name}; {battery.note}")]
    if other and battery.chemistry in _KINDS and battery.chemistry not in other:
        yield (
            f"its name or note says {other[0].words}, and its chemistry is written down as {battery.chemistry.words}",
            "Read its label: full volts, charge limits and what it may be linked with hang on it.",
            "chemistry=KIND note=WORDS",
        )
    light = round(LIGHT_KG_PER_AH.value * (battery.c20_ah or 0.0), 1)
    if battery.mass_kg is not None and battery.mass_kg < light:
        yield (
            f"{battery.mass_kg:g} kg for {battery.c20_ah:g} Ah is about half of what lead weighs; it may be lithium",
            "Weigh it and read its label again.",
            "mass=KG",
        )


RULE = Rule(
    name="battery-not-looked-at",
    title="Battery of unknown kind or condition",
    severity=Severity.STOP,
    doing=Doing.CHECK,
    why="Lithium must never be in a bank, a built-in cut-off may open under the arc, and a cracked or swollen case "
    "can burst under a short circuit.",
    remedy="Read the label and look the case over before the trip.",
    sources=(PRACTICE,),
    check=check,
    good=example.whole,
    bad=lambda: example.with_battery("north-main", condition=Condition.UNKNOWN),
)
