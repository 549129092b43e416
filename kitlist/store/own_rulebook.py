"""The owner's rulebook beside the store, or where KITLIST_RULEBOOK or the command line says."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from kitlist.base.errors import BadFile
from kitlist.kit.limits import Rulebook, standard

if TYPE_CHECKING:
    from kitlist.store.opening import Store

FILE = "rulebook.toml"


def own_rulebook(store: Store) -> Rulebook:
    """The rulebook in force for a store. Raises BadFile with every wrong line, or where a named file is none."""
    named = store.rulebook or (Path(given).expanduser() if (given := os.environ.get("KITLIST_RULEBOOK")) else None)
    path = named or store.path.with_name(FILE)
    if named is None and not path.exists():
        return standard()
    if path.exists() and not path.is_file():
        raise BadFile(f"the rulebook {path} is no file", lines=(), hint="Name another with --rulebook.")
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise BadFile(f"cannot read the rulebook {path}: {error}", lines=(), hint="Check the file's name.") from None
    return standard().changed(text, name=path.name)
