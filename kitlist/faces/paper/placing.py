"""A paper gets its name when it is whole and on the disk, and never takes the place of what is no paper."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from kitlist.base.errors import PrintError, UsageError
from kitlist.base.leftovers import clear, part_of

_MARKS = re.compile(rb"[0-9a-f]{8} \xc2\xb7 rev \d+ \xc2\xb7 ")  # the line at the foot of every paper
_DRAWING = b'<svg class="figure" '
_PDF = b"%PDF-1.7\n%\xf0\x9f\x96\xa4\n"  # the head that the PDF maker gives
_LOOKED_AT = 4_000_000  # bytes of a file that are looked through for the marks of a paper


def check_free(path: Path, *, store: Path, replace: bool = False) -> None:
    """Raise UsageError where a paper must not go: the store, its copies, or a file that is no earlier paper.

    With `replace`, any plain file may be written over but the store and its copies.
    """
    real = path.resolve()
    own = store.resolve()
    copies = own.with_name(f"{own.name}.copies")
    if real == own or real.name.startswith(f"{own.name}-") or copies in (real, *real.parents):
        raise UsageError(f"{path} is the store or a copy of it: no paper is written there", hint="Name another file.")
    if not path.exists():
        return
    if not path.is_file():
        raise UsageError(f"{path} is no file that a paper could take the place of", hint="Name another.")
    if not replace and path.stat().st_size and not _is_paper(path):
        raise UsageError(f"{path} is there and is no earlier paper", hint="Name another, or add --replace.")


def _is_paper(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            content = file.read(_LOOKED_AT)
    except OSError:
        return False
    return content.startswith((_PDF, _DRAWING)) or _MARKS.search(content) is not None


def save(path: Path, content: bytes, *, before_name: Callable[[], object] | None = None) -> None:
    """Have a file whole on the disk under another name, do what must come before, then give it its name.

    Whatever fails, the file that had the name is still there, and the sentence says so. Raises PrintError.
    """
    real = path.resolve()
    part = part_of(real)
    clear(real.parent)
    try:
        with part.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if before_name is not None:
            before_name()
        os.replace(part, real)
        _on_disk(real.parent)
    except OSError as failure:
        reason = failure.strerror or "unknown reason"
        earlier = " The earlier file is as it was." if real.is_file() else ""
        raise PrintError(f"Cannot write {path}: {reason}.{earlier}", hint="Give another file name.") from failure
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def _on_disk(folder: Path) -> None:
    """Have the name itself on the disk, where the system can do that for a folder."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
