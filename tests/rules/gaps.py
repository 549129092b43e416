"""Every gap that examples and thresholds show, a line each: what a crew reads. `python tests/rules/gaps.py` writes it.

The file beside this one is read and corrected by people; the test holds the rules to it, word for word.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from kitlist.outlook import look_out
from kitlist.rules import RULES, Case, Example, Gap, Rule, run
from kitlist.rules.core import case_of

FILE = Path(__file__).with_name("gaps.txt")


def case(example: Example) -> Case:
    """An example as the rules see it."""
    outlook = look_out(example.kit, example.trip, on=example.on)
    return case_of(example.kit, example.trip, on=example.on, outlook=outlook)


def line(gap: Gap) -> str:
    """A gap with everything in it."""
    values = f"{gap.measured} of {gap.required} {gap.unit}".rstrip()
    known = "" if gap.known else " | not known"
    return f"{gap.rule} | {gap.weight} | {gap.subject} | {gap.what} | {gap.remedy} | {gap.command} | {values}{known}"


def lines_of(rule: Rule, case: Case) -> tuple[str, ...]:
    """What one rule says of one case."""
    return tuple(line(gap) for gap in run((rule,), case))


def shown() -> Iterator[str]:
    """The bad example of every rule, then every row of the thresholds that is about it."""
    from test_boundaries import BOUNDARIES
    from test_traps import ALL

    for rule in RULES:
        examples = [rule.bad, *(build for name, build, severity in BOUNDARIES if name == rule.name and severity)]
        examples += [trap.build for trap in ALL if trap.rule == rule.name]
        lines: dict[str, None] = {}
        for build in examples:
            lines |= dict.fromkeys(lines_of(rule, case(build())))
        yield from lines


if __name__ == "__main__":
    FILE.write_text("\n".join(shown()) + "\n", encoding="utf-8")
