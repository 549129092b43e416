from __future__ import annotations

from pathlib import Path

import pytest

import kitlist
from kitlist.rules import RULES
from kitlist.rules.reference import table, with_table

DEVELOPERS = Path(kitlist.__file__).parents[1] / "DEVELOPERS.md"


@pytest.mark.skipif(not DEVELOPERS.is_file(), reason="not a checkout")
def test_the_table_of_rules_in_developers_is_current() -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    assert with_table(text) == text


def test_the_table_has_a_line_for_every_rule() -> None:
    lines = table().splitlines()
    assert len(lines) == len(RULES) + 2
    assert all(f"`{rule.name}`" in line for rule, line in zip(RULES, lines[2:], strict=True))


def test_a_text_without_marks_is_refused() -> None:
    with pytest.raises(ValueError, match="rules: written by"):
        with_table("no marks here")
