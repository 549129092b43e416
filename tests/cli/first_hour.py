"""The answers of an invented crew to the guided start, and what stands on the screen when it gives them."""

from __future__ import annotations

import io
import os
import sys
from contextlib import chdir
from pathlib import Path
from unittest import mock

from kitlist.faces.cli import asking, run

HERON = ("Heron", "single", "", "Ca/Ca 12V 75Ah 720A EN", "sound, post, bonnet", "n", "")
PLOVER_MAIN = ("Plover", "single", "", "= heron-main", "sound bonnet", "y")
PLOVER = (*PLOVER_MAIN, "plover-second", "agm 95 Ah", "", "sound post boot", "y", "")
LEADS = ("1", "", "35mm2 5m copper", "4", "", "35 mm2, 3 m, copper", "1", "", "378x0.3 4m copper")
RODS = ("E6013 3.2mm", "28", "dry")
TRIP = ("Dry lake", "tomorrow", "tomorrow", "4", "-6", "24", "2", "n", "1m")
READ = ("overnight", "9C", "12.74", "12.76", "12.80")
SETTINGS = ("", "Ada")
KIT = (*HERON, *PLOVER, "", "", *LEADS, *RODS, *TRIP, *SETTINGS)
ALL = (*KIT, "n", "y", *READ, "y", "y")
ON_LABELS = 12  # what the walk asks besides its keys where everything of the starter kit is there

TYPED, UNTIL = "\x02", "\x03"  # round what the crew typed


class _Screen(io.TextIOWrapper):
    """Both streams of a command, as a terminal shows them."""

    def isatty(self) -> bool:
        return True


def screen(folder: Path, *, columns: int, answers: tuple[str, ...] = ALL) -> str:
    """What `kitlist start` shows from nothing to the sheet, with each answer where it is typed, between marks."""
    shown = _Screen(io.BytesIO(), encoding="utf-8", write_through=True)
    left = iter(answers)

    def line() -> str:
        answer = next(left, None)
        if answer is None:
            return ""
        shown.write(f"{TYPED}{answer}{UNTIL}\n")
        return f"{answer}\n"

    streams = {"stdin": _Screen(io.BytesIO(), encoding="utf-8"), "stdout": shown, "stderr": shown}
    with (
        mock.patch.multiple(sys, **streams),
        mock.patch.dict(os.environ, {"COLUMNS": str(columns)}),
        mock.patch.object(asking, "_line", line),
        chdir(folder),
    ):
        run(["--store", "kit.db", "start"])
    shown.flush()
    shown.seek(0)
    return shown.read()
