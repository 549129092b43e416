"""Every gap that examples and thresholds show, a line each: what a crew reads. `python tests/rules/gaps.py` writes it.

The file beside this one is read and corrected by people; the test holds the rules to it, word for word.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from kitlist.outlook import look_out
from kitlist.rules import RULES, Case, Example, Gap, Rule, run
from kitlist.rules.core import case_of
from kitlist.rules.example import whole

DOING = {rule.name: rule.doing for rule in RULES}
FILE = Path(__file__).with_name("gaps.txt")


def case(example: Example) -> Case:
    """An example as the rules see it."""
    outlook = look_out(example.kit, example.trip, on=example.on)
    return case_of(example.kit, example.trip, on=example.on, outlook=outlook)


def line(gap: Gap) -> str:
    """A gap with everything in it; mark, others named with it and kind of doing where the rule's own do not stand."""
    values = f"{gap.measured} of {gap.required} {gap.unit}".rstrip()
    also = [f"also {', '.join(gap.also)}"] if gap.also else []
    mark = [f"mark {gap.mark}"] if gap.mark else []
    doing = [f"asks {gap.doing}"] if gap.doing is not DOING[gap.rule] else []
    known = [] if gap.known else ["not known"]
    said = (gap.rule, str(gap.weight), gap.subject, gap.what, gap.remedy, gap.command, values)
    return " | ".join((*said, *also, *mark, *doing, *known))


def lines_of(rule: Rule, case: Case) -> tuple[str, ...]:
    """What one rule says of one case."""
    return tuple(line(gap) for gap in run((rule,), case))


@cache
def cases() -> tuple[tuple[str, Case], ...]:
    """Every case that the tests build, with the rule that it is about; "" where it is about all of them."""
    from test_boundaries import BOUNDARIES
    from test_traps import ALL

    found = [("", case(build())) for build in (whole, *(build for rule in RULES for build in (rule.good, rule.bad)))]
    found += [(name, case(build())) for name, build, _ in BOUNDARIES]
    return (*found, *((trap.rule or "", case(trap.build())) for trap in ALL))


def shown() -> Iterator[str]:
    """What every rule says of every case: first of its own bad example and rows, then of all the others."""
    said: dict[str, tuple[dict[str, None], dict[str, None], dict[str, None]]] = {r.name: ({}, {}, {}) for r in RULES}
    for rule in RULES:
        said[rule.name][0].update(dict.fromkeys(lines_of(rule, case(rule.bad()))))
    for name, made in cases():
        for gap in run(RULES, made):
            said[gap.rule][1 if gap.rule == name else 2][line(gap)] = None
    for first, own, others in said.values():
        yield from first | own | others


if __name__ == "__main__":
    FILE.write_text("\n".join(shown()) + "\n", encoding="utf-8")
