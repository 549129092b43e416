"""What a phone sends, taken apart: every field is checked here, and nothing is taken on trust."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import parse_qsl

from kitlist.base.errors import BadData
from kitlist.kit.checked import Answer
from kitlist.trips import check_off

FIELDS_MOST = 2000
SEPARATOR = ":"
Fields = Mapping[str, str]


class Malformed(BadData):
    """A body that no page of ours sends."""


def fields(body: bytes) -> dict[str, str]:
    """The fields of a form by name; of a name given twice the last counts. Raises Malformed."""
    try:
        pairs = parse_qsl(
            body.decode("utf-8"), keep_blank_values=True, strict_parsing=bool(body), max_num_fields=FIELDS_MOST,
            errors="strict",
        )  # fmt: skip
    except ValueError as error:
        raise Malformed(f"this is no form: {type(error).__name__}") from None
    return dict(pairs)


@dataclass(frozen=True, slots=True)
class Tick:
    """An answer about one thing, and what the phone showed of it: the answer before (`was`, as `check_off.state` writes
    it) and how many are recorded (`of`; "" where that was not said). `sure` is the other's answer that whoever gives
    this one has been shown and overrules."""

    kind: str
    name: str
    answer: Answer
    count: int
    was: str
    of: str = ""
    sure: str = ""


@dataclass(frozen=True, slots=True)
class WrongField:
    """An answer that cannot be taken: about what, and why; `asks` is the answer that it would overrule, if that is
    why."""

    key: str
    why: str
    asks: str = ""


def key(kind: str, name: str) -> str:
    """What the fields of one thing are called after; by kind and name, which stay, never by its number."""
    return f"{kind}{SEPARATOR}{name}"


def thing(told: str) -> tuple[str, str]:
    """The kind and name behind a key. Raises Malformed."""
    kind, separator, name = told.partition(SEPARATOR)
    if kind not in check_off.KINDS or not separator or not name:
        raise Malformed("this is about nothing that is stowed")
    return kind, name


def ticks(sent: Fields) -> tuple[tuple[Tick, ...], tuple[WrongField, ...]]:
    """The answers that this phone gave or changed; those it only showed are left out."""
    found: list[Tick] = []
    wrong: list[WrongField] = []
    for about in _things(sent):
        told, was, typed = (sent.get(f"{what}{SEPARATOR}{about}", "").strip() for what in ("answer", "was", "count"))
        if typed and typed != was.removeprefix(f"{Answer.COUNTED}/"):  # a number was typed, not only shown
            if told not in ("", Answer.COUNTED, was.partition("/")[0]):
                wrong.append(WrongField(about, f"{told}, or the number? choose counted, or empty the number"))
                continue
            told = Answer.COUNTED
        if not told:
            continue
        kind, name = thing(about)
        if told == Answer.COUNTED:
            given = check_off.answer_of(typed)
            if given is None or given[0] is not Answer.COUNTED:
                wrong.append(WrongField(about, f"how many? a number up to {check_off.MOST}"))
                continue
            answer, count = given
        elif told in (Answer.THERE, Answer.MISSING, Answer.DAMAGED, Answer.HOME):
            answer, count = Answer(told), 0
        else:
            wrong.append(WrongField(about, "the answer is there, missing, damaged, home or counted"))
            continue
        if not _as_shown(answer, count, was):
            of, sure = (sent.get(f"{what}{SEPARATOR}{about}", "") for what in ("of", "sure"))
            found.append(Tick(kind, name, answer, count, was, of, sure))
    return tuple(found), tuple(wrong)


def _things(sent: Fields) -> dict[str, None]:
    """What answers or numbers were sent about, each once, in the order of the page."""
    parts = (field.partition(SEPARATOR) for field in sent)
    return {about: None for what, separator, about in parts if separator and what in ("answer", "count")}


def _as_shown(answer: Answer, count: int, was: str) -> bool:
    """Whether this is what the page showed already. The count of `there` is the kit's own."""
    shown, _, many = was.partition("/")
    return shown == answer and (answer is not Answer.COUNTED or many == str(count))
