"""The table of all rules in DEVELOPERS.md; a test holds it. `python -m kitlist.rules.reference` writes it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from kitlist.rules import RULES

BEGIN = "<!-- rules: written by python -m kitlist.rules.reference -->"
END = "<!-- end of the rules -->"


def table() -> str:
    """Every rule in the order of mending: severity, name, title, what it is compared with."""
    return "\n".join(_lines())


def _lines() -> Iterator[str]:
    yield "| severity | rule | finds | thresholds |"
    yield "|---|---|---|---|"
    for rule in RULES:
        severity = rule.severity if rule.acceptable else f"{rule.severity}, never accepted"
        yield f"| {severity} | `{rule.name}` | {rule.title} | {', '.join(rule.numbers)} |"


def with_table(text: str) -> str:
    """A text with the table between its two marks. Raises ValueError where they are not there."""
    before, _, rest = text.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not end:
        raise ValueError(f"the text has no {BEGIN} and {END}")
    return f"{before}{BEGIN}\n{table()}\n{END}{after}"


if __name__ == "__main__":
    path = Path(__file__).parents[2] / "DEVELOPERS.md"
    path.write_text(with_table(path.read_text(encoding="utf-8")), encoding="utf-8")
