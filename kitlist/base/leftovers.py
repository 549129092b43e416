"""Files that a process was writing when it was killed: hidden, with the process in their name; cleared by the next."""

from __future__ import annotations

import os
import re
import time
from contextlib import suppress
from pathlib import Path

_HIDDEN = re.compile(r"\..+\.(\d+)\.(part|recovering|starting)(-journal|-wal|-shm)?")
_PLACE = re.compile(r"\d{5}-.+\.db")
PLACE_BYTES = 32  # a file of no more is a place that was taken for a copy, with the number of the process in it
OLD_S = 3600.0  # a place without a process in it was made by an older kitlist, or cut short


def part_of(target: Path, ending: str = "part") -> Path:
    """The hidden name under which this process writes what is to become `target`."""
    return target.with_name(f".{target.name[:200]}.{os.getpid()}.{ending}")


def clear(folder: Path) -> None:
    """Take away what processes that are gone left in a folder. What cannot be taken away stays."""
    with suppress(OSError):
        for file in list(folder.iterdir()):
            if _PLACE.fullmatch(file.name):
                _clear_place(file)
            elif (found := _HIDDEN.fullmatch(file.name)) and not _runs(int(found[1])):
                with suppress(OSError):
                    file.unlink()


def _clear_place(file: Path) -> None:
    with suppress(OSError, ValueError):
        about = file.stat()
        if about.st_size > PLACE_BYTES:
            return
        process = file.read_text(encoding="ascii").strip()
        if (process and not _runs(int(process))) or (not process and time.time() - about.st_mtime > OLD_S):
            file.unlink()


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True
    return True
