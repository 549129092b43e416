"""The smallest way to make a set of connections out of parts that there are only so many of: an exact small search."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitlist.terms import Fitting, LeadUse

End = tuple[Fitting, str]
MOST_IN_ROW = 3  # leads one after the other in one connection
LEAD_MISSING, FITTING_MISSING = 100_001, 100_000  # a piece is a piece; of two equal answers the smaller purchase
OTHER_USE, FITTING_USED, LEAD_USED, FAR_FETCHED = 40, 8, 1, 200


@dataclass(frozen=True, slots=True)
class Part:
    """A kind of lead, or (use None) of loose fitting, and how many there are."""

    name: str
    count: int
    ends: tuple[End, End]
    use: LeadUse | None
    length_m: float

    def fewer(self) -> Part:
        """The same with one lost."""
        return replace(self, count=self.count - 1)


@dataclass(frozen=True, slots=True)
class Connection:
    """What must be joined: two places with the fittings that each takes, and the least length, m."""

    start: str
    end: str
    takes: tuple[frozenset[Fitting], frozenset[Fitting]]
    use: LeadUse
    length_m: float


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to make a connection. `missing_end` is the end, 0 or 1, at which a fitting is short."""

    leads: tuple[str, ...] = ()
    fittings: tuple[str, ...] = ()
    missing_end: int | None = None
    bare_end: Fitting | None = None
    missing_lead: bool = False
    cost: int = 0

    @property
    def pieces_missing(self) -> int:
        """Pieces that would have to be bought."""
        return int(self.missing_lead) + int(self.missing_end is not None)


def cheapest(asked: Sequence[Connection], parts: Sequence[Part], *, only_whole: bool = False) -> tuple[Choice, ...]:
    """A choice for each connection, with the fewest missing pieces in all; exact.

    With `only_whole` no missing fitting is looked for, only missing leads: enough to ask whether the circuit closes.
    """
    merged, names = _merged(parts, asked)
    options = [sorted(_options(c, merged, only_whole), key=lambda choice: choice.cost) for c in asked]
    order = sorted(range(len(asked)), key=lambda at: (len(options[at]), asked[at].use))
    found = _Search(options, order, {part.name: part.count for part in merged}, asked).run()
    return _spelled(found, names)


def _merged(parts: Sequence[Part], asked: Sequence[Connection]) -> tuple[list[Part], dict[str, list[str]]]:
    """Parts that no connection can tell apart as one kind, and the names that stand behind each."""
    needs = sorted({connection.length_m for connection in asked} - {0.0})
    alike: dict[object, Part] = {}  # each under a number of its own: a lead and a clamp may share a name
    names: dict[str, list[str]] = {}
    for part in parts:
        exact = part.length_m if _plugs(part) else sum(part.length_m >= need for need in needs)
        key = (frozenset((part.ends, part.ends[::-1])) if part.use else part.ends, part.use, exact)
        known = alike.get(key) or replace(part, name=str(len(alike)), count=0)
        alike[key] = replace(known, count=known.count + part.count)
        names.setdefault(known.name, []).extend([part.name] * part.count)
    return list(alike.values()), names


def _plugs(part: Part) -> bool:
    return any(fitting is Fitting.PLUG for fitting, _ in part.ends)


def _spelled(found: Sequence[Choice], names: dict[str, list[str]]) -> tuple[Choice, ...]:
    """Kinds as the names of the leads behind them, each used once."""
    left = {kind: list(own) for kind, own in names.items()}
    return tuple(
        replace(
            choice,
            leads=tuple(left[kind].pop(0) for kind in choice.leads),
            fittings=tuple(left[kind].pop(0) for kind in choice.fittings),
        )
        for choice in found
    )


def _options(connection: Connection, parts: Sequence[Part], only_whole: bool) -> Iterator[Choice]:
    """Every way to make one connection, and a missing lead as the last."""
    leads = [part for part in parts if part.use is not None and _allowed(part.use, connection.use)]
    fittings = [part for part in parts if part.use is None]
    seen: dict[tuple[object, ...], Choice] = {}
    for row, ends, joints in _rows(leads, fittings, ()):
        if sum(part.length_m for part in row) < connection.length_m - 1e-9:
            continue
        for choice in _ended(connection, row, ends, joints, fittings, only_whole):
            key = (tuple(sorted(choice.leads)), tuple(sorted(choice.fittings)), choice.pieces_missing)
            if key not in seen or choice.cost < seen[key].cost:
                seen[key] = choice
    yield from seen.values()
    yield Choice(missing_lead=True, cost=LEAD_MISSING)


def _allowed(own: LeadUse, asked: LeadUse) -> bool:
    """A holder lead is for the holder and a work lead for the work; the rest may be anywhere."""
    return own is asked or own not in (LeadUse.HOLDER, LeadUse.WORK)


def _rows(
    leads: Sequence[Part], fittings: Sequence[Part], row: tuple[Part, ...]
) -> Iterator[tuple[tuple[Part, ...], tuple[End, End], tuple[str, ...]]]:
    """Leads in a row, each in both directions, joined by plugs; with the row's two ends and the fittings between."""
    for part in leads:
        for ends in dict.fromkeys((part.ends, part.ends[::-1])):
            yield from _longer(leads, fittings, (part,), ends, ())


def _longer(
    leads: Sequence[Part],
    fittings: Sequence[Part],
    row: tuple[Part, ...],
    ends: tuple[End, End],
    joints: tuple[str, ...],
) -> Iterator[tuple[tuple[Part, ...], tuple[End, End], tuple[str, ...]]]:
    yield row, ends, joints
    if len(row) == MOST_IN_ROW or ends[1][0] is not Fitting.PLUG:
        return
    for part in leads:
        if row.count(part) >= part.count:
            continue
        for near, far in dict.fromkeys((part.ends, part.ends[::-1])):
            if near == ends[1]:
                yield from _longer(leads, fittings, (*row, part), (ends[0], far), joints)
            elif near[0] is Fitting.PLUG:
                for between in fittings:
                    if (ends[1], near) in (between.ends, between.ends[::-1]):
                        yield from _longer(leads, fittings, (*row, part), (ends[0], far), (*joints, between.name))


def _ended(
    connection: Connection,
    row: tuple[Part, ...],
    ends: tuple[End, End],
    joints: tuple[str, ...],
    fittings: Sequence[Part],
    only_whole: bool,
) -> Iterator[Choice]:
    """The row with what its two ends need to fit."""
    base = sum(LEAD_USED + (0 if part.use is connection.use else OTHER_USE) for part in row) + FAR_FETCHED * (
        len(row) - 1
    )
    first, second = (_fitted(end, takes, fittings) for end, takes in zip(ends, connection.takes, strict=True))
    names = tuple(part.name for part in row)
    for one in first:
        for other in second:
            used = (*joints, *one, *other)
            yield Choice(names, used, cost=base + FITTING_USED * len(used))
    if only_whole or (first and second):
        return
    if first or second:
        at = 1 if first else 0
        for used_end in first or second:
            used = (*joints, *used_end)
            cost = base + FITTING_MISSING + FITTING_USED * len(used)
            yield Choice(names, used, missing_end=at, bare_end=ends[at][0], cost=cost)


def _fitted(end: End, takes: frozenset[Fitting], fittings: Sequence[Part]) -> list[tuple[str, ...]]:
    """How an end meets a place: by itself, or through one loose fitting."""
    if end[0] in takes:
        return [()]
    return [
        (part.name,)
        for part in fittings
        for taken, given in dict.fromkeys((part.ends, part.ends[::-1]) if _both_plugs(part) else (part.ends,))
        if taken == end and given[0] in takes
    ]


def _both_plugs(part: Part) -> bool:
    return all(fitting is Fitting.PLUG for fitting, _ in part.ends)


class _Search:
    """Branch and bound: the connection with the fewest ways first, its cheapest way first, cut by the best so far."""

    def __init__(
        self, options: list[list[Choice]], order: list[int], stock: dict[str, int], asked: Sequence[Connection]
    ) -> None:
        self.options, self.order, self.stock = options, order, stock
        self.alike = [
            at > 0
            and (asked[order[at]].takes, asked[order[at]].use, asked[order[at]].length_m)
            == (asked[order[at - 1]].takes, asked[order[at - 1]].use, asked[order[at - 1]].length_m)
            for at in range(len(order))
        ]
        self.best_cost = sum(LEAD_MISSING for _ in order) + 1
        self.best: list[int] = []
        self.seen: dict[tuple[int, ...], int] = {}

    def run(self) -> list[Choice]:
        """The best choice of each connection, in the order in which they were asked."""
        self._go(0, 0, [])
        found = [Choice()] * len(self.order)
        for at, picked in zip(self.order, self.best, strict=True):
            found[at] = self.options[at][picked]
        return found

    def _go(self, depth: int, cost: int, picked: list[int]) -> None:
        if depth == len(self.order):
            if cost < self.best_cost:
                self.best_cost, self.best = cost, list(picked)
            return
        if cost + self._least(depth) >= self.best_cost:
            return
        start = picked[-1] if self.alike[depth] else 0
        state = (depth, start, *self.stock.values())
        if self.seen.get(state, self.best_cost) <= cost:
            return
        self.seen[state] = cost
        options = self.options[self.order[depth]]
        for at in range(start, len(options)):
            choice = options[at]
            if self._take(choice, 1):
                picked.append(at)
                self._go(depth + 1, cost + choice.cost, picked)
                picked.pop()
                self._take(choice, -1)

    def _least(self, depth: int) -> int:
        """A lower bound on what the connections from here on cost: each by itself, with what is still there."""
        return sum(self._least_of(at) for at in self.order[depth:])

    def _least_of(self, at: int) -> int:
        for choice in self.options[at]:
            if all(self.stock[name] > 0 for name in (*choice.leads, *choice.fittings)):
                return choice.cost
        raise AssertionError("a missing lead is always an option")

    def _take(self, choice: Choice, sign: int) -> bool:
        used = (*choice.leads, *choice.fittings)
        for name in used:
            self.stock[name] -= sign
        if sign > 0 and any(self.stock[name] < 0 for name in used):
            for name in used:
                self.stock[name] += sign
            return False
        return True
