"""What a label says in one word about two fields: 680CCA is a rating and its test, 300 V says which rating."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from kitlist.base import quantities, sayings
from kitlist.base.errors import BadData
from kitlist.base.fields import Field
from kitlist.base.terms import CrankingStandard

_RATED = re.compile(r"\s*([\d.,]+)\s*(?:(?:a|amps?)\b)?\s*\(?\s*([a-z][a-z0-9 ]*?)\s*\)?\s*", re.IGNORECASE)
_RATED_AFTER = re.compile(r"\s*([a-z][a-z0-9 ]*?)\s*[: ]\s*([\d.,]+)\s*(?:a|amps?)?\s*", re.IGNORECASE)
_WORDS = {"cca": CrankingStandard.SAE, "mca": CrankingStandard.MCA}  # fields of a battery that name their test


def cranking(word: str, value: Any) -> tuple[Any, CrankingStandard | None]:
    """The amps of a cranking rating as they were written, and the test that its own words name.

    CCA is what the SAE test calls its rating; a label that names another test beside it says so by itself.

    >>> cranking("cranking", "680CCA"), cranking("cranking", "640 A (EN)"), cranking("cca", 680)
    (('680', <CrankingStandard.SAE: 'sae'>), ('640', <CrankingStandard.EN: 'en'>), (680, <CrankingStandard.SAE: 'sae'>))
    """
    if isinstance(value, str):
        rated, after = _RATED.fullmatch(value), _RATED_AFTER.fullmatch(value)
        amps, said = (rated[1], rated[2]) if rated else (after[2], after[1]) if after else ("", "")
        said = sayings.plain(said)
        for words in (said, said.removesuffix("cca").strip(), said.removeprefix("cca").strip()):
            standard = sayings.meant(CrankingStandard, words) if words else None
            if isinstance(standard, CrankingStandard) and standard is not CrankingStandard.UNKNOWN:
                return amps, standard
    return value, _WORDS.get(word.casefold())


def spelled_out(words: Mapping[str, tuple[str, ...]], values: Mapping[str, Any]) -> dict[str, Any]:
    """Values in which a rating that names its test has become two fields, unless the test is given beside it.

    `words` has the fields that each word names, as `kitlist.base.fields.named_by` gives them.
    """
    found = dict(values)
    if "cranking_a" not in words:
        return found
    names = {word: words.get(word.replace("-", "_").casefold(), ()) for word in values}
    for word, value in values.items():
        if names[word] == ("cranking_a",):
            found[word], standard = cranking(word, value)
            if standard is not None and ("cranking_standard",) not in names.values():
                found["cranking_standard"] = standard
    return found


def one_of(fields: Mapping[str, Field], names: tuple[str, ...], word: str, value: Any) -> str:
    """The one field of several with the same short name whose unit a value brings. Raises BadData for a bare number."""
    if isinstance(value, str) and re.search(r"[^\d.,\s+-]", value):
        fitting = [name for name in names if _takes(fields[name], value)]
        if len(fitting) == 1:
            return fitting[0]
    bare = value if isinstance(value, int | float) else str(value)[:20].strip()
    ways = " or ".join(f"{fields[name].word}={bare}{fields[name].unit}" for name in names)
    raise BadData(f"{word} can mean two things", hint=f"say which: {ways}")


def _takes(field: Field, value: str) -> bool:
    try:
        quantities.parse(value, field.unit)
    except BadData:
        return False
    return True
