"""What is printed to be typed holds no fact that nobody has observed: where it is a blank, it stands in capitals."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from kitlist.faces.cli.things import blank
from kitlist.kit import KINDS
from kitlist.readiness import assess
from kitlist.rules import RULES
from kitlist.rules.core import Gap
from running import kitlist

LOOKS = {"bank", "charge", "repairs", "print", "check-off", "ready", "next", "why", "used", "restock", "volts", "start"}
CHOICES = {"bank", "repairs", "ballast"}  # a choice may be filled in: it is the reader's, not the world's
BLANK = re.compile(r"\b[A-Z]{2,}\b")


def commands() -> list[tuple[str, Gap]]:
    """Every line that the bad example of every rule prints."""
    found = []
    for rule in RULES:
        bad = rule.bad()
        found += [(rule.name, gap) for gap in assess(bad.kit, bad.trip, on=bad.on).gaps if gap.command]
    return found


def facts(command: str) -> list[str]:
    """The words of a command that would write down a fact as they are printed."""
    words = shlex.split(command)
    if words[2:3] == ["add"]:
        words = words[4:]
    given = [word for word in words if "=" in word and not BLANK.search(word.partition("=")[2])]
    return [word for word in given if word.partition("=")[0] not in CHOICES]


def test_no_printed_line_states_a_fact() -> None:
    required = re.compile(r"(what|use|end-[ab]|joins-[ab]|vehicle|part|length)=")  # what the gap itself asks for
    wrong = {gap.command for _, gap in commands() if any(not required.match(word) for word in facts(gap.command))}
    assert wrong == set()


def test_a_printed_line_without_a_blank_looks_prints_or_chooses() -> None:
    for rule, gap in commands():
        words = shlex.split(gap.command)
        if not BLANK.search(gap.command.replace("E7018", "")):
            assert words[1] in LOOKS or words[1:3] in (["trip", "edit"], ["accept", words[2]]), (rule, gap.command)


def test_every_printed_line_is_words_for_a_shell() -> None:
    for _, gap in commands():
        assert not set("()<>|&;") & set(re.sub(r"\"[^\"]*\"|'[^']*'", "", gap.command)), gap.command


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"reading"}))
def test_an_empty_list_says_how_to_add_one_without_a_fact(kind: str, tmp_path: Path) -> None:
    assert facts(blank(kind)) == []
    kitlist("start", store=tmp_path / "kit.db")
    done = kitlist(kind, "list", store=tmp_path / "kit.db")
    assert ("kitlist accept RULE" if kind == "acceptance" else f"kitlist {kind} add") in done.stderr
