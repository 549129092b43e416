"""Lines that nobody means: whatever is typed, the answer is a sentence and a code, and the store stays whole."""

from __future__ import annotations

import os
import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from kitlist.base.fields import fields_of
from kitlist.faces.cli.tree import BY_WORD
from kitlist.kit import KINDS
from running import kitlist

LINES = int(os.environ.get("KITLIST_TEST_LINES", "120"))  # the bar is 10,000
AT_ONCE = 20  # lines on one store
ENDLESS = {"phone", "demo"}  # one serves until it is stopped, the other draws for seconds
WORDS = [word for word in BY_WORD if word not in ENDLESS]
UNDER = [
    "add",
    "edit",
    "show",
    "list",
    "remove",
    "restore",
    "history",
    "opened",
    "used",
    "baked",
    "pick",
    "sheet",
    "card",
]
NAMES = ["heron-main", "Heron", "Dry lake survey", "chocks", "general rods", "Power bag", "welding helmet", "links", ""]
VALUES = [
    "0", "-1", "1e400", "nan", "inf", "12.7", "12,7", "1" * 5000, "none", "yes", "2027-05-05", "9999-12-31",
    "0000-00-00", "=1+1", "'; DROP TABLE battery; --", "../../etc/passwd", "/dev/null", "~", "%s%n",
    "{0.__class__}", "\\", '"', "'",
    "\u202ea", "\x1b[31m", "\x07", "é" * 130, "漢字", "🔧", "a\nb", "\t", " ", "--", "-", "--help", "70 Ah", "5 m", "²",
    "kit.db", "out.json", "out.txt", "out.csv", "out.svg", "7 mm2", "1/8 in", "E7018", "heron-main,heron-second", "-0",
]  # fmt: skip
OPTIONS = [
    "--on", "--at", "--by", "--out", "--trip", "--kind", "--json", "--all", "--rested", "--temp", "--load", "--replace",
    "--dry-run", "--linked", "--strings", "--sheet", "--again", "--list", "--choose", "--chart", "--count", "--store",
    "--bank", "--paper", "--four", "--ballast", "--until", "--reason", "--full", "--sources", "--steps", "--starter",
]  # fmt: skip
FIELDS = sorted({field.short_name for cls in KINDS.values() for field in fields_of(cls)})


def line(chance: random.Random) -> list[str]:
    """A line of words that may be meant, or not at all."""
    words = [chance.choice(WORDS) if chance.random() < 0.95 else chance.choice(VALUES)]
    if chance.random() < 0.5:
        words.append(chance.choice(UNDER))
    for _ in range(chance.randrange(5)):
        sort = chance.random()
        if sort < 0.25:
            words.append(chance.choice(NAMES))
        elif sort < 0.5:
            words.append(chance.choice(VALUES))
        elif sort < 0.75:
            words.append(f"{chance.choice(FIELDS)}={chance.choice([*VALUES, *NAMES])}")
        else:
            words += [chance.choice(OPTIONS), chance.choice([*VALUES, *NAMES])]
    return words


@pytest.mark.parametrize("seed", range(max(1, LINES // AT_ONCE)))
def test_any_line_is_answered_in_a_sentence_and_the_store_stays_whole(demo: Path, seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(AT_ONCE):
        words = line(chance)
        done = kitlist(*words, store=demo, cwd=demo.parent, env={"HOME": str(demo.parent)})
        assert "should not have happened" not in done.stderr, words
        assert "Traceback" not in done.stderr, words
        assert done.returncode in (0, 1, 2, 3, 4, 10, 11), words
    with closing(sqlite3.connect(demo)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
