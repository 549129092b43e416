"""The card's fixed wording, from `seed_data/words/card.toml`, filled with this crew's names and values."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from kitlist.base import resources
from kitlist.base.errors import PrintError
from kitlist.faces.paper.document import Block, Caution, Drill, Face, Lines, Signal, Step


def card_faces(
    *,
    values: Mapping[str, str],
    for_each: Mapping[str, Sequence[Mapping[str, str]]],
    inserts: Mapping[str, Block],
    flags: Collection[str] = (),
) -> tuple[Face, ...]:
    """The four faces.

    `values` fills the {names} that hold everywhere, `for_each` gives the entries of "battery" and "link" with their
    own {names}, `inserts` the drawn blocks "hookup", "polarity" and "rods" (one left out leaves its place empty),
    `flags` which optional blocks hold ("isolator").
    """
    return tuple(
        Face(title=face["title"], blocks=tuple(_blocks(face["block"], values, for_each, inserts, flags)))
        for face in _wording()
    )


@cache
def _wording() -> list[dict[str, Any]]:
    path = resources.folder("seed_data") / "words" / "card.toml"
    faces: list[dict[str, Any]] = tomllib.loads(path.read_text(encoding="utf-8"))["face"]
    return faces


def _blocks(
    blocks: Sequence[Mapping[str, Any]],
    values: Mapping[str, str],
    for_each: Mapping[str, Sequence[Mapping[str, str]]],
    inserts: Mapping[str, Block],
    flags: Collection[str],
) -> Iterator[Block]:
    for block in blocks:
        if ("only_if" in block and block["only_if"] not in flags) or block.get("unless") in flags:
            continue
        if "insert" in block:
            if block["insert"] in inserts:
                yield inserts[block["insert"]]
            continue
        for own in for_each.get(block["for_each"], ()) if "for_each" in block else ({},):
            yield _filled(block, {**values, **own})


def _filled(block: Mapping[str, Any], values: Mapping[str, str]) -> Block:
    def fill(text: str) -> str:
        try:
            return text.format_map(values)
        except KeyError as missing:
            raise PrintError(f"The card's wording {text!r} wants {missing.args[0]!r}, which was not given.") from None

    match block:
        case {"step": text}:
            return Step(fill(text), see=fill(block.get("see", "")))
        case {"caution": signal, "hazard": hazard, "result": result, "avoid": avoid}:
            return Caution(signal=Signal(signal), hazard=fill(hazard), result=fill(result), avoid=fill(avoid))
        case {"drill": title, "text": text}:
            return Drill(fill(title), tuple(fill(line) for line in text))
        case {"lines": title, "text": text}:
            return Lines(fill(title), tuple(fill(line) for line in text))
    raise PrintError(f"The card's wording has a block of no known kind: {dict(block)!r}.")
