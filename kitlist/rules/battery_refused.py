"""battery-refused: a battery in the bank that must not be there."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.base.terms import Chemistry
from kitlist.outlook.refusal import Why
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing

_ASKED = {
    Why.LOAD_TEST: "Load-test it: charged, half its cranking amps for 15 s. Write the volts and amps on load down; "
    "until then take it out of the bank.",
    Why.LABEL: "Read its label. Where it is lithium, or has a cut-off or electronics inside, out of the bank; where it "
    "has neither, say so in its note without that word.",
    Why.NOTED: "Look it over in daylight. Where it is so, write its condition down and take it out of the bank; where "
    "it is not, put its note right.",
}
_COMMANDS = {
    Why.LOAD_TEST: "kitlist volts {} VOLTS --load AMPS",
    Why.LABEL: "kitlist battery edit {} note=WORDS",
    Why.NOTED: "kitlist battery edit {} note=WORDS",
}


def check(case: Case) -> Iterator[Gap]:
    """A gap for each battery of the bank that is refused, with the reason."""
    for battery in case.outlook.bank_batteries:
        if battery.refusal is None:
            continue
        name, why = battery.battery.name, battery.refusal.why
        yield Gap(
            subject=name,
            what=f"{name} must not be in a bank: {battery.refusal}",
            remedy=_ASKED.get(
                why, "Take it out of the bank; a damaged one is not charged, jumped or carried loose either."
            ),
            command=_COMMANDS[why].format(quoted(name)) if why in _COMMANDS else "",
            doing=Doing.CHECK if why in _ASKED else None,
        )


RULE = Rule(
    name="battery-refused",
    title="A battery that must not weld",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="Lithium and built-in cut-offs open or burn under a short circuit; cracked, leaking, swollen, frozen or "
    "shorted batteries can burst and throw acid.",
    remedy="Choose a sound lead-acid battery in its place.",
    sources=(
        PRACTICE,
        Source(Tag.READ, "TM 9-6140-200-14 §2-4: under 10.5 V is damaged"),
        Source(Tag.READ, "load test: TM 5-4210-230-14&P-1, Table 5"),
    ),
    check=check,
    good=example.whole,
    bad=lambda: example.with_battery("north-second", chemistry=Chemistry.LITHIUM),
    acceptable=False,
)
