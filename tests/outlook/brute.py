"""The circuit by trying everything: every lead, both ways round, in rows of up to three, every fitting on every end."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations, product

from kitlist.base.terms import Fitting, LeadUse
from kitlist.outlook.circuit import CircuitPart, Connection

MOST_IN_ROW = 3


def pieces(parts: tuple[CircuitPart, ...], leads: bool) -> list[CircuitPart]:
    """Single things: a kind of three is three things."""
    return [part for part in parts if (part.use is not None) is leads for _ in range(part.count)]


def fewest_missing(asked: tuple[Connection, ...], parts: tuple[CircuitPart, ...]) -> int:
    """The fewest pieces that would have to be bought to make every connection."""
    return _fewest(list(asked), pieces(parts, True), pieces(parts, False))


def _fewest(asked: list[Connection], leads: list[CircuitPart], fittings: list[CircuitPart]) -> int:
    if not asked:
        return 0
    first, rest = asked[0], asked[1:]
    best = 1 + _fewest(rest, leads, fittings)  # buy a lead that fits
    for used_leads, used_fittings, bought in _ways(first, leads, fittings):
        if bought >= best:
            continue
        left = [x for at, x in enumerate(leads) if at not in used_leads]
        left_fittings = [x for at, x in enumerate(fittings) if at not in used_fittings]
        best = min(best, bought + _fewest(rest, left, left_fittings))
        if best == 0:
            break
    return best


def _ways(
    connection: Connection, leads: list[CircuitPart], fittings: list[CircuitPart]
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...], int]]:
    """Rows of leads for one connection: which leads, which fittings, how many fittings bought (each at an end)."""
    fit_for = [
        at for at, x in enumerate(leads) if x.use is connection.use or x.use not in (LeadUse.HOLDER, LeadUse.WORK)
    ]
    for count in range(1, MOST_IN_ROW + 1):
        for row in permutations(fit_for, count):
            if sum(leads[at].length_m for at in row) < connection.length_m - 1e-9:
                continue
            for turned in product((False, True), repeat=count):
                ends = [leads[at].ends[::-1] if turn else leads[at].ends for at, turn in zip(row, turned, strict=True)]
                for used in _between(ends, fittings, (), 0):
                    yield from _at_ends(connection, row, ends, fittings, used)


def _between(ends: list, fittings: list[CircuitPart], used: tuple[int, ...], at: int) -> Iterator[tuple[int, ...]]:
    if at == len(ends) - 1:
        yield used
        return
    near, far = ends[at][1], ends[at + 1][0]
    if near[0] is not Fitting.PLUG or far[0] is not Fitting.PLUG:
        return
    if near == far:
        yield from _between(ends, fittings, used, at + 1)
        return
    for n, fitting in enumerate(fittings):
        if n not in used and {fitting.ends, fitting.ends[::-1]} & {(near, far)}:
            yield from _between(ends, fittings, (*used, n), at + 1)


def _at_ends(
    connection: Connection, row: tuple, ends: list, fittings: list[CircuitPart], used: tuple
) -> Iterator[tuple]:
    outer = (ends[0][0], ends[-1][1])
    choices: list[list[int | str | None]] = []
    for end, takes in zip(outer, connection.takes, strict=True):
        if end[0] in takes:
            choices.append([None])
            continue
        through: list[int | str | None] = ["bought"]
        for n, fitting in enumerate(fittings):
            for taken, given in (fitting.ends, fitting.ends[::-1]):
                one_way = (taken, given) == fitting.ends
                if taken == end and given[0] in takes and (one_way or all(e[0] is Fitting.PLUG for e in fitting.ends)):
                    through.append(n)
        choices.append(through)
    for first, second in product(*choices):
        own = [n for n in (first, second) if isinstance(n, int)]
        if len(set(own)) == len(own) and not set(own) & set(used):
            yield row, (*used, *own), [first, second].count("bought")
