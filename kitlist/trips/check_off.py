"""Going through the bags: what is asked in which order, what is left, and what the answers make of the kit."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from kitlist.base import names
from kitlist.base.errors import BadFile
from kitlist.base.terms import RodCondition
from kitlist.kit import PLURALS, Bag, Gear, Kit, Rod, Tool
from kitlist.kit.checked import Answer, CheckedOff

KINDS = ("gear", "lead", "ballast", "clamp", "rod", "tool", "item")
NO_BAG = "Not in a bag"
MOST = 5000
_TYPED = re.compile(r"([0-9]+)(?:-([0-9]+))?=(.+)")
_SHORT = {"t": Answer.THERE, "m": Answer.MISSING, "d": Answer.DAMAGED, "h": Answer.HOME}
ANSWERS = f"there, missing, damaged, home (left there) or a number up to {MOST}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing to look at, with its number on the sheet, and the answer of this trip if there is one that holds."""

    number: int
    kind: str
    thing: Any
    bag: str
    place: str
    answer: CheckedOff | None = None

    @property
    def name(self) -> str:
        """The thing's name."""
        return str(self.thing.name)


def lines(kit: Kit, answers: Iterable[CheckedOff] = ()) -> tuple[Line, ...]:
    """Everything that is stowed, bag by bag in walking order, what has no bag last; numbered from 1 as on the sheet.

    An answer holds as long as the kit records the count that it was given for.
    """
    by_thing = {(a.kind, a.name): a for a in answers}
    order = {bag.name: at for at, bag in enumerate(sorted(kit.bags, key=_walked))}
    places = {bag.name: bag.place for bag in kit.bags}
    stowed = [(kind, thing) for kind in KINDS for thing in getattr(kit, PLURALS[kind])]
    stowed.sort(key=lambda pair: order.get(pair[1].bag, len(order)))  # stable: kind by kind within a bag
    return tuple(
        Line(
            number=number,
            kind=kind,
            thing=thing,
            bag=thing.bag or NO_BAG,
            place=places.get(thing.bag, ""),
            answer=a if (a := by_thing.get((kind, thing.name))) and a.expected == thing.count else None,
        )
        for number, (kind, thing) in enumerate(stowed, start=1)
    )


def _walked(bag: Bag) -> tuple[object, ...]:
    return bag.walk_order, names.counting(bag.name), bag.name


def left(checked: Sequence[Line]) -> tuple[Line, ...]:
    """What is still to be looked at."""
    return tuple(line for line in checked if line.answer is None)


def counted(thing: Any, answer: Answer, count: int | None = None) -> int:
    """How many are there and sound by an answer. `there` for a thing of which none is recorded is one."""
    if answer is Answer.THERE:
        return max(1, int(thing.count))
    return count or 0 if answer is Answer.COUNTED else 0


def state(answer: CheckedOff | None) -> str:
    """An answer as a page remembers it, `missing/0`; "" for none."""
    return "" if answer is None else f"{answer.answer}/{answer.count}"


def contested(before: CheckedOff | None, *, counted: int, by: str, at: datetime, sure: str) -> str:
    """What must be asked before an answer may stand; "" where nothing must.

    "There" over another person's "missing" is the one mistake that leaves a thing at home: whoever says it must have
    been shown what the other found, and say it once more (`sure` is then the state that was shown). So must a "there"
    that was kept on a phone since before the other was found, whoever found it.
    """
    if before is None or not before.short or counted <= before.count or state(before) == sure:
        return ""
    if before.checked_by.casefold() == by.casefold() and before.checked_at <= at:
        return ""
    return f"{before.checked_by} found {before.words} at {before.checked_at:%H:%M}: is it there now? Look, then say so"


def as_checked(kit: Kit) -> Kit:
    """The kit as it was found: counts and soundness from the newest answer about each thing; answers that hold no more
    are left out.

    What was found short on one trip stays short on the next, until it is found there or its count is recorded anew.
    """
    newest = {(answer.kind, answer.name): answer for answer in kit.checked}
    holding: list[CheckedOff] = []
    changed: dict[str, Any] = {}
    for kind in KINDS if newest else ():
        found = []
        for thing in getattr(kit, PLURALS[kind]):
            answer = newest.get((kind, thing.name))
            if answer is not None and answer.expected == thing.count:
                holding.append(answer)
                found.append(_found(thing, answer))
            else:
                found.append(thing)
        changed[PLURALS[kind]] = tuple(found)
    return replace(kit, **changed, checked=tuple(holding))


def _found(thing: Any, answer: CheckedOff) -> Any:
    if answer.answer is Answer.DAMAGED and isinstance(thing, Gear):
        return replace(thing, sound=False)
    if answer.answer is Answer.DAMAGED and isinstance(thing, Rod):
        return replace(thing, condition=RodCondition.DAMAGED)
    if answer.answer is Answer.THERE and isinstance(thing, Gear) and thing.sound is None:
        return replace(thing, sound=True, count=answer.count)
    if answer.answer is Answer.THERE and isinstance(thing, Tool):
        day = answer.checked_at.date()
        return replace(thing, count=answer.count, checked_on=max(day, thing.checked_on or day))
    return replace(thing, count=answer.count)


def typed(words: Sequence[str], numbers: Mapping[int, tuple[str, str]]) -> tuple[tuple[str, str, Answer, int], ...]:
    """Answers typed from a sheet, `3=missing`, `1-12=there`, `7=2`: kind, name, answer and count of each.

    `numbers` says which thing each number on that sheet is. Raises BadFile with every word that cannot be taken.
    """
    found: dict[int, tuple[str, str, Answer, int]] = {}
    wrong: list[str] = []
    for word in words:
        for number, told in _told(word, numbers, wrong):
            if number in found:
                wrong.append(f"{word}: number {number} is answered twice")
            found[number] = (*numbers[number], *told)
    if wrong:
        raise BadFile(
            f"{len(wrong)} of the answers cannot be taken; none was",
            lines=tuple(wrong),
            hint="1-12=there 13=missing 14=2",
        )
    return tuple(found[number] for number in sorted(found))


def _told(
    word: str, numbers: Mapping[int, tuple[str, str]], wrong: list[str]
) -> Iterator[tuple[int, tuple[Answer, int]]]:
    match = _TYPED.fullmatch(word.strip())
    if match is None:
        wrong.append(f"{word[:40]}: an answer looks like 3=missing, 1-12=there or 7=2")
        return
    first, last = int(match[1][:6]), int((match[2] or match[1])[:6])
    answer = answer_of(match[3])
    if answer is None:
        wrong.append(f"{word[:40]}: the answer is {ANSWERS}")
    elif last < first or first not in numbers or last not in numbers:
        wrong.append(f"{word[:40]}: that sheet has the numbers 1 to {max(numbers, default=0)}")
    else:
        yield from ((number, answer) for number in range(first, last + 1))


def answer_of(text: str) -> tuple[Answer, int] | None:
    """An answer by its word, its first letter or a number; None for anything else.

    >>> answer_of("m"), answer_of("3"), answer_of("perhaps")
    ((<Answer.MISSING: 'missing'>, 0), (<Answer.COUNTED: 'counted'>, 3), None)
    """
    text = text.strip().casefold()
    if text.isascii() and text.isdigit() and len(text) <= 4 and int(text) <= MOST:
        return Answer.COUNTED, int(text)
    answer = _SHORT.get(text) or next((a for a in _SHORT.values() if a == text), None)
    return None if answer is None else (answer, 0)


def named(
    words: Sequence[str], checked: Sequence[Line], *, sheets: Sequence[str] = ()
) -> tuple[tuple[str, str, Answer, int], ...]:
    """Answers by name, `welding helmet=missing`; any unambiguous start of a name will do.

    `sheets` are the hashes of the trip's printed sheets, the newest first: whoever types numbers is told which to name.

    Raises NotFound, Ambiguous for the first name that is not stowed, BadFile with every answer that is none.
    """
    found, wrong = [], []
    for word in words:
        name, _, text = word.rpartition("=")
        if name.strip().isdigit() or re.fullmatch(r"\s*\d+-\d+\s*", name):
            wrong.append(
                f"{word[:40]}: a number needs the sheet it stands on{f': --sheet {sheets[0]}' if sheets else ''}"
            )
            continue
        full = names.resolve(name, [line.name for line in checked], what="stowed thing")
        answer = answer_of(text)
        if answer is None:
            wrong.append(f"{word[:40]}: the answer is {ANSWERS}")
        else:
            found.append((next(line.kind for line in checked if line.name == full), full, *answer))
    if wrong:
        by_name = f'"{checked[0].name}=there"' if checked else "NAME=there"
        hint = f"The hash at the foot of your sheet says which; or answer by name: {by_name}"
        hint = hint if sheets else f"No sheet of this trip was printed yet: answer by name: {by_name}"
        raise BadFile(f"{len(wrong)} of the answers cannot be taken; none was", lines=tuple(wrong), hint=hint)
    return tuple(found)
