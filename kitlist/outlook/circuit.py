"""The smallest way to make a set of connections out of parts that there are only so many of: an exact small search."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitlist.base.terms import Fitting, LeadUse

End = tuple[Fitting, str]
MOST_IN_ROW = 3  # leads one after the other in one connection
LEAD_MISSING, FITTING_MISSING = 100_001, 100_000  # a piece is a piece; of two equal answers the smaller purchase
OTHER_USE, FITTING_USED, LEAD_USED, FAR_FETCHED = 40, 8, 1, 200


@dataclass(frozen=True, slots=True)
class CircuitPart:
    """A kind of lead, or (use None) of loose fitting, and how many there are."""

    name: str
    count: int
    ends: tuple[End, End]
    use: LeadUse | None
    length_m: float


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
    def parts(self) -> tuple[str, ...]:
        """Everything that it takes out of the bags."""
        return (*self.leads, *self.fittings)

    @property
    def pieces_missing(self) -> int:
        """Pieces that would have to be bought."""
        return int(self.missing_lead) + int(self.missing_end is not None)


def cheapest(asked: Sequence[Connection], parts: Sequence[CircuitPart]) -> tuple[Choice, ...]:
    """A choice for each connection, with the fewest missing pieces in all; exact."""
    return Circuit(asked, parts).cheapest()


class Circuit:
    """What must be joined and what there is, with every way of making each connection worked out once."""

    def __init__(self, asked: Sequence[Connection], parts: Sequence[CircuitPart]) -> None:
        merged, self._names = _merged(parts, asked)
        self._stock = {part.name: part.count for part in merged}
        ways: dict[object, list[Choice]] = {}
        for one in asked:
            if _like(one) not in ways:
                ways[_like(one)] = sorted(_options(one, merged), key=lambda choice: choice.cost)
        self._options = [ways[_like(one)] for one in asked]
        self._like = [_like(one) for one in asked]

    def cheapest(self) -> tuple[Choice, ...]:
        """A choice for each connection, with the fewest missing pieces in all."""
        return _spelled(_CircuitSearch(self._options, self._like, self._stock).run(), self._names)

    def closes_without(self, lead: str) -> bool:
        """Whether the circuit still closes, nothing bought, when one lead of that name is lost."""
        kind = next(kind for kind, names in self._names.items() if lead in names)
        stock = self._stock | {kind: self._stock[kind] - 1}
        whole = [[choice for choice in options if not choice.pieces_missing] for options in self._options]
        return bool(_CircuitSearch(whole, self._like, stock, any_will_do=True).run())


def _like(connection: Connection) -> object:
    """What tells one connection from another, as far as leads are concerned."""
    return (connection.takes, connection.use, connection.length_m)


def _merged(
    parts: Sequence[CircuitPart], asked: Sequence[Connection]
) -> tuple[list[CircuitPart], dict[str, list[str]]]:
    """Parts that no connection can tell apart as one kind, and the names that stand behind each."""
    needs = sorted({connection.length_m for connection in asked} - {0.0})
    alike: dict[object, CircuitPart] = {}  # each under a number of its own: a lead and a clamp may share a name
    names: dict[str, list[str]] = {}
    for part in parts:
        exact = part.length_m if _plugs(part) else sum(part.length_m >= need for need in needs)
        key = (frozenset((part.ends, part.ends[::-1])) if part.use else part.ends, part.use, exact)
        known = alike.get(key) or replace(part, name=str(len(alike)), count=0)
        alike[key] = replace(known, count=known.count + part.count)
        names.setdefault(known.name, []).extend([part.name] * part.count)
    return list(alike.values()), names


def _plugs(part: CircuitPart) -> bool:
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


def _options(connection: Connection, parts: Sequence[CircuitPart]) -> Iterator[Choice]:
    """Every way to make one connection, and a missing lead as the last."""
    leads = [part for part in parts if part.use is not None and _allowed(part.use, connection.use)]
    fittings = [part for part in parts if part.use is None]
    seen: dict[tuple[object, ...], Choice] = {}
    for row, ends, joints in _rows(leads, fittings, ()):
        if sum(part.length_m for part in row) < connection.length_m - 1e-9:
            continue
        for choice in _ended(connection, row, ends, joints, fittings):
            key = (tuple(sorted(choice.leads)), tuple(sorted(choice.fittings)), choice.pieces_missing)
            if key not in seen or choice.cost < seen[key].cost:
                seen[key] = choice
    yield from seen.values()
    yield Choice(missing_lead=True, cost=LEAD_MISSING)


def _allowed(own: LeadUse, asked: LeadUse) -> bool:
    """A holder lead is for the holder and a work lead for the work; the rest may be anywhere."""
    return own is asked or own not in (LeadUse.HOLDER, LeadUse.WORK)


def _rows(
    leads: Sequence[CircuitPart], fittings: Sequence[CircuitPart], row: tuple[CircuitPart, ...]
) -> Iterator[tuple[tuple[CircuitPart, ...], tuple[End, End], tuple[str, ...]]]:
    """Leads in a row, each in both directions, joined by plugs; with the row's two ends and the fittings between."""
    for part in leads:
        for ends in dict.fromkeys((part.ends, part.ends[::-1])):
            yield from _longer(leads, fittings, (part,), ends, ())


def _longer(
    leads: Sequence[CircuitPart],
    fittings: Sequence[CircuitPart],
    row: tuple[CircuitPart, ...],
    ends: tuple[End, End],
    joints: tuple[str, ...],
) -> Iterator[tuple[tuple[CircuitPart, ...], tuple[End, End], tuple[str, ...]]]:
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
    row: tuple[CircuitPart, ...],
    ends: tuple[End, End],
    joints: tuple[str, ...],
    fittings: Sequence[CircuitPart],
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
    if bool(first) != bool(second):
        at = 1 if first else 0
        for used_end in first or second:
            used = (*joints, *used_end)
            cost = base + FITTING_MISSING + FITTING_USED * len(used)
            yield Choice(names, used, missing_end=at, bare_end=ends[at][0], cost=cost)


def _fitted(end: End, takes: frozenset[Fitting], fittings: Sequence[CircuitPart]) -> list[tuple[str, ...]]:
    """How an end meets a place: by itself, or through one loose fitting."""
    if end[0] in takes:
        return [()]
    return [
        (part.name,)
        for part in fittings
        for taken, given in dict.fromkeys((part.ends, part.ends[::-1]) if _both_plugs(part) else (part.ends,))
        if taken == end and given[0] in takes
    ]


def _both_plugs(part: CircuitPart) -> bool:
    return all(fitting is Fitting.PLUG for fitting, _ in part.ends)


class _CircuitSearch:
    """Branch and bound: the connection with the fewest ways first, its cheapest way first, cut by the best so far."""

    def __init__(
        self, options: list[list[Choice]], like: list[object], stock: dict[str, int], *, any_will_do: bool = False
    ) -> None:
        self.order = sorted(range(len(options)), key=lambda at: (len(options[at]), like.index(like[at])))
        self.options = [options[at] for at in self.order]
        self.alike = [at > 0 and like[self.order[at]] == like[self.order[at - 1]] for at in range(len(self.order))]
        self.stock = dict(stock)
        self.any_will_do = any_will_do
        self.best_cost = LEAD_MISSING * (len(options) + 1)
        self.best: list[int] = []
        self.seen: dict[tuple[int, ...], int] = {}

    def run(self) -> list[Choice]:
        """The best choice of each connection, in the order in which they were asked; empty where there is none."""
        self._go(0, 0, [])
        if not self.best:
            return []
        found = [Choice()] * len(self.order)
        for at, options, picked in zip(self.order, self.options, self.best, strict=True):
            found[at] = options[picked]
        return found

    def _go(self, depth: int, cost: int, picked: list[int]) -> None:
        if depth == len(self.order):
            self.best_cost, self.best = cost, list(picked)
            return
        start = picked[-1] if self.alike[depth] else 0
        state = (depth, start, *self.stock.values())
        if self.seen.get(state, cost + 1) <= cost:
            return
        self.seen[state] = cost
        bound = self._least(depth + 1)
        options = self.options[depth]
        for at in range(start, len(options)):
            choice = options[at]
            if bound is None or cost + choice.cost + bound >= self.best_cost or (self.any_will_do and self.best):
                return
            if self._take(choice):
                picked.append(at)
                self._go(depth + 1, cost + choice.cost, picked)
                picked.pop()
                self._give(choice)

    def _least(self, depth: int) -> int | None:
        """A lower bound on what the connections from here on cost: each by itself, with what is still there."""
        total = 0
        for at in range(depth, len(self.options)):
            least = next((c.cost for c in self.options[at] if all(self.stock[name] > 0 for name in c.parts)), None)
            if least is None:
                return None
            total += least
        return total

    def _take(self, choice: Choice) -> bool:
        for name in choice.parts:
            self.stock[name] -= 1
        if all(self.stock[name] >= 0 for name in choice.parts):
            return True
        self._give(choice)
        return False

    def _give(self, choice: Choice) -> None:
        for name in choice.parts:
            self.stock[name] += 1
