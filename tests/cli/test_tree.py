"""The command tree is whole in one process, and its help is grouped by what one is doing."""

from __future__ import annotations

from typing import Any

import pytest
import typer

from kitlist.faces.cli import app
from kitlist.kit import KINDS
from running import kitlist

DESIGNED = {
    "Start": "start demo import",
    "Before a trip": "ready next why bank charge repairs check-off print phone",
    "Measure": "volts bead",
    "On the way": "weld",
    "After a trip": "used restock mend",
    "The kit: add, list, show, edit, remove, restore": (
        "vehicle battery lead clamp ballast rod gear tool item bag repair trip reading count find"
    ),
    "The store": "export backup recover share accept journal undo acceptance rules decode",
}


def every(command: Any, words: tuple[str, ...] = ()) -> Any:
    """Every command under a command, with the words that reach it."""
    context = typer.Context(command)
    for word in command.list_commands(context) if hasattr(command, "list_commands") else ():
        yield from every(command.get_command(context, word), (*words, word))
    yield words, command


ALL = dict(every(typer.main.get_command(app)))


def test_every_command_is_there_in_one_process_whatever_the_words_of_the_process() -> None:
    assert set(BY_HAND) <= {" ".join(words) for words in ALL}
    assert len(ALL) > 100


BY_HAND = ("battery list", "rod opened", "repair pick", "print card", "reading remove", "bead list", "check-off", "why")


def test_the_help_is_grouped_by_what_one_is_doing() -> None:
    shown = kitlist("--help").stdout
    places = [shown.index(f"\n{title}:\n") for title in DESIGNED]
    assert places == sorted(places)
    for title, words in DESIGNED.items():
        section = shown.split(f"\n{title}:\n")[1].split("\n\n")[0]
        starts = [line.split()[0] for line in section.splitlines() if line[2] != " "]
        assert starts == words.split()


def test_every_kind_has_its_commands() -> None:
    for kind in set(KINDS) - {"reading"}:
        for word in ("add", "list", "show", "edit", "remove", "restore"):
            assert (kind, word) in ALL


@pytest.mark.parametrize("words", sorted(ALL), ids=" ".join)
def test_every_command_has_a_line_of_help_under_sixty_characters(
    words: tuple[str, ...],
) -> None:
    done = kitlist(*words, "--help", env={"COLUMNS": "200"})
    assert done.returncode == 0
    usage, line = done.stdout.split("\n\n")[:2]
    assert usage.startswith("Usage: kitlist")
    assert len(line.strip().split("\n")[0]) < 60 or not words


def test_a_word_that_is_none_offers_the_nearest() -> None:
    done = kitlist("batery", "list")
    assert (done.returncode, "Did you mean 'battery'?" in done.stderr) == (2, True)


def test_bare_json_says_where_things_stand_and_before_a_command_where_it_belongs(demo: Any) -> None:
    assert kitlist("--json", store=demo).stdout == kitlist("next", "--json", store=demo).stdout
    done = kitlist("--json", "ready", store=demo)
    assert (done.returncode, "kitlist ready ... --json" in done.stderr) == (2, True)
