"""A printed command line that holds no word to fill in changes no fact about a thing when it is run as it stands."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from kitlist.base import resources
from kitlist.store import start
from kitlist.store.importing import import_toml
from running import Done, kitlist

TO_FILL_IN = re.compile(r"\b[A-Z]{3,}\b")
READS_OR_CHOOSES = {"trip", "check_off", "journal", "printed"}
"""A choice may be filled in, and a paper printed: neither is a fact about a thing."""


def run(store: Path, *words: str) -> Done:
    return kitlist(*words, store=store, cwd=store.parent, env={"COLUMNS": "400"})


def lines(store: Path, on: str) -> set[str]:
    """Every command line that `ready`, `next` and `bank` print of the next trip, with nothing left to fill in."""
    day = ("--on", on)
    gaps = json.loads(run(store, "ready", *day, "--json").stdout)["gaps"]
    shown = [word for gap in gaps for word in gap.values() if isinstance(word, str) and word.startswith("kitlist ")]
    for words in (("ready", "--all", *day), ("next", *day), ("bank", *day), ("charge", *day)):
        shown += re.findall(r"kitlist [a-z][^\n;)]*", run(store, *words).stdout)
    return {line.strip().rstrip(".,") for line in shown if not TO_FILL_IN.search(line)}


def facts(store: Path) -> dict[str, object]:
    out = store.parent / "facts.json"
    out.unlink(missing_ok=True)
    assert run(store, "export", str(out)).returncode == 0
    said = json.loads(out.read_text(encoding="utf-8"))
    kinds = said.get("kit", said)
    return {kind: things for kind, things in kinds.items() if kind not in READS_OR_CHOOSES and isinstance(things, list)}


@pytest.mark.parametrize("day", ["2027-05-06", "2027-05-20", "2027-04-25"])
def test_a_line_with_nothing_to_fill_in_changes_no_fact(tmp_path: Path, day: str) -> None:
    store = tmp_path / "kit.db"
    import_toml(start(store), resources.folder("seed_data") / "demo" / "kit.toml")
    found = lines(store, day)
    before = facts(store)
    assert before
    changed = []
    for number, line in enumerate(sorted(found)):
        copy = tmp_path / str(number) / "kit.db"
        copy.parent.mkdir()
        shutil.copy(store, copy)
        words = shlex.split(line)[1:]
        if words[:1] in (["phone"], ["demo"]):
            continue  # a server, and what keeps nothing
        run(copy, *words)
        if facts(copy) != before:
            changed.append(line)
    assert changed == []
    assert len(found) >= 3
