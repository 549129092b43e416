"""Does it actually join up? The bank's terminals through the packed leads to the holder and the work clamp.

Every connection of the circuit is a row of leads: ends that meet by plugs of the same pattern, and ends that fit a
terminal by themselves or through one loose fitting. The answer is exact: as few missing pieces as there can be, and
of all such answers one that takes links for links and few fittings and leads.

What it takes for granted: a plug meets a plug of its own pattern; a lead of unknown length reaches; isolator and fuse
fit the lead they are put in. On a post sits a clamp, on a stud a lug of its size; of a post-and-stud terminal only the
post is counted, as its stud's size is not known. A jumper lead counts from 25 mm² of copper up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from kitlist.base.terms import ClampKind, Conductor, Fitting, LeadUse, Polarity, Terminal
from kitlist.kit import Battery, Clamp, Kit, Lead, Trip
from kitlist.outlook.circuit import Choice, Circuit, CircuitPart, Connection
from kitlist.physics.leads.warming import jumper_limit

ON_POST = frozenset({Fitting.POST_CLAMP, Fitting.SPRING_CLAMP, Fitting.SPRING_CLAMP_BONDED})
TAKES: dict[Terminal, frozenset[Fitting]] = {
    Terminal.POST: ON_POST,
    Terminal.POST_AND_STUD: ON_POST,
    Terminal.STUD_M6: frozenset({Fitting.LUG_M6}),
    Terminal.STUD_M8: frozenset({Fitting.LUG_M8}),
    Terminal.STUD_M10: frozenset({Fitting.LUG_M10}),
    Terminal.SIDE: frozenset({Fitting.LUG_M10}),  # a bolt of 3/8 in, common practice
    Terminal.UNKNOWN: ON_POST,  # as most are; `Joining.unknown` names them, and no rule takes it for a pass
}
_SOLID = (Conductor.COPPER, Conductor.TINNED_COPPER, Conductor.ALUMINIUM)
_LOOSE = {
    ClampKind.POST_CLAMP: Fitting.POST_CLAMP,
    ClampKind.SPRING_CLAMP: Fitting.SPRING_CLAMP,
    ClampKind.WORK_CLAMP: Fitting.WORK_CLAMP,
    ClampKind.HOLDER: Fitting.HOLDER,
}
End = tuple[Fitting, str]
OPEN_END = "an open end"  # of the bank, where the rods do not say which


@dataclass(frozen=True, slots=True)
class Short:
    """The piece that a connection lacks: a lead of some use and length, or (use None) a fitting; and its two ends."""

    use: LeadUse | None
    ends: tuple[Fitting, Fitting]
    length_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Join:
    """One connection as it will be made: from where to where, by which leads and loose fittings, in order."""

    start: str
    end: str
    leads: tuple[str, ...]
    fittings: tuple[str, ...]
    missing: str
    short: Short | None = None

    @property
    def words(self) -> str:
        """One line for sheet and card.

        >>> Join("a +", "b −", ("long link",), (), "").words
        'a + to b −: long link'
        """
        by = ", ".join((*self.leads, *self.fittings))
        made = f"{self.start} to {self.end}: {by}" if by else f"{self.start} to {self.end}"
        return f"{made}, {self.missing}" if self.missing else made


@dataclass(frozen=True, slots=True, kw_only=True)
class Joining:
    """The assignment. `unknown`: what must be known for it to be sure; `without_spare`: links that have no second."""

    joins: tuple[Join, ...]
    unknown: tuple[str, ...]
    without_spare: tuple[str, ...]
    asked: tuple[Connection, ...] = field(repr=False, default=())

    @property
    def missing(self) -> tuple[str, ...]:
        """The smallest set of things that would close the circuit, in words."""
        return tuple(join.missing for join in self.joins if join.missing)


def joining(kit: Kit, trip: Trip, *, polarity: Polarity | None) -> Joining | None:
    """How the packed leads make the circuit of the trip's bank; None where no bank is chosen or it does not travel.

    Where the polarity is not known, either way round is as good for the leads, and no end says which it is.
    """
    travelling = {battery.name for battery in kit.travelling(trip)}
    if not trip.bank or not travelling.issuperset(trip.bank):
        return None
    asked = connections(kit, trip, polarity)
    parts = packed_parts(kit, asked)
    circuit = Circuit(asked, parts)
    answer = circuit.cheapest()
    joins = tuple(_join(connection, choice) for connection, choice in zip(asked, answer, strict=True))
    return Joining(
        joins=joins,
        unknown=tuple(_unknown(kit, trip, asked)),
        without_spare=() if any(j.missing for j in joins) else tuple(_without_spare(circuit, parts, answer)),
        asked=asked,
    )


def connections(kit: Kit, trip: Trip, polarity: Polarity | None) -> tuple[Connection, ...]:
    """Every connection of the bank: links, ties between parallel strings, holder and work."""
    found = []
    for string in trip.strings:
        found += [_between(kit, trip, (a, "+"), (b, "−")) for a, b in pairwise(string)]
    for one, other in pairwise(trip.strings):
        found.append(_between(kit, trip, (one[-1], "+"), (other[-1], "+")))
        found.append(_between(kit, trip, (one[0], "−"), (other[0], "−")))
    plus, minus = (trip.strings[0][-1], "+"), (trip.strings[0][0], "−")
    holder, work = (minus, plus) if polarity is Polarity.DCEN else (plus, minus)
    arc = (
        _arc(kit, holder, "holder", Fitting.HOLDER, LeadUse.HOLDER),
        _arc(kit, work, "work clamp", Fitting.WORK_CLAMP, LeadUse.WORK),
    )
    return (*found, *(arc if polarity else (replace(connection, start=OPEN_END) for connection in arc)))


def packed_parts(kit: Kit, asked: Sequence[Connection]) -> tuple[CircuitPart, ...]:
    """The leads and loose fittings that may be in the circuit. Lengths matter only as far as a connection asks."""
    needs = sorted({connection.length_m for connection in asked})
    found = []
    for lead in kit.leads:
        if lead.count > 0 and _may_carry(lead):
            length_m = max(needs, default=0.0) if lead.length_m is None else lead.length_m
            ends = ((lead.end_a, lead.pattern_a), (lead.end_b, lead.pattern_b))
            found.append(CircuitPart(lead.name, lead.count, ends, lead.use, length_m))
    for clamp in kit.clamps:
        if clamp.count > 0 and (ends_of := _sides(clamp)):
            found.append(CircuitPart(clamp.name, clamp.count, ends_of, None, 0.0))
    return tuple(found)


def _may_carry(lead: Lead) -> bool:
    if lead.use is not LeadUse.JUMPER:
        return True
    if lead.area_mm2 is None:
        return False
    marked = lead.conductor in _SOLID
    return jumper_limit(area_mm2=lead.area_mm2, conductor=lead.conductor, marked=marked).allowed_a > 0


def _sides(clamp: Clamp) -> tuple[End, End] | None:
    """What a loose fitting takes and what it gives; a post clamp gives a post clamp, whatever is written down."""
    gives = clamp.joins_b or _LOOSE.get(clamp.what)
    if clamp.joins_a is None or gives is None:
        return None
    return (clamp.joins_a, clamp.pattern_a), (gives, clamp.pattern_b)


def _between(kit: Kit, trip: Trip, start: tuple[str, str], end: tuple[str, str]) -> Connection:
    one, other = kit.battery[start[0]], kit.battery[end[0]]
    return Connection(
        start=" ".join(start),
        end=" ".join(end),
        takes=(TAKES[one.terminals], TAKES[other.terminals]),
        use=LeadUse.LINK,
        length_m=_apart_m(kit, trip, one, other),
    )


def _arc(kit: Kit, terminal: tuple[str, str], word: str, fitting: Fitting, use: LeadUse) -> Connection:
    takes = TAKES[kit.battery[terminal[0]].terminals]
    return Connection(" ".join(terminal), word, (takes, frozenset({fitting})), use, 0.0)


def _apart_m(kit: Kit, trip: Trip, one: Battery, other: Battery) -> float:
    """How long a link between two batteries must be, m: 0 within a vehicle, for a loose one, or where nobody said."""
    if one.vehicle is None or other.vehicle is None or one.vehicle == other.vehicle or trip.parked_apart_m is None:
        return 0.0
    return trip.parked_apart_m + 2 * kit.limits.vehicle_reach_m


def _unknown(kit: Kit, trip: Trip, asked: Sequence[Connection]) -> Iterator[str]:
    homes = {kit.battery[name].vehicle for name in trip.bank} - {None}
    if len(homes) > 1 and trip.parked_apart_m is None:
        yield "how near the vehicles can park"
    for name in trip.bank:
        if kit.battery[name].terminals is Terminal.UNKNOWN:
            yield f"the terminals of {name}"


def _join(connection: Connection, choice: Choice) -> Join:
    words, short = _missing(connection, choice), _short(connection, choice)
    return Join(connection.start, connection.end, choice.leads, choice.fittings, words, short)


def _short(connection: Connection, choice: Choice) -> Short | None:
    if choice.missing_end is not None:
        wanted = _wanted(connection, choice.missing_end)
        return Short(None, (choice.bare_end or wanted, wanted))
    if not choice.missing_lead:
        return None
    return Short(connection.use, (_wanted(connection, 0), _wanted(connection, 1)), connection.length_m)


def _wanted(connection: Connection, end: int) -> Fitting:
    """What would fit one end: on a post a post clamp, which holds better than a spring."""
    first = min(connection.takes[end], key=lambda fitting: list(Fitting).index(fitting))
    return Fitting.POST_CLAMP if first in ON_POST else first


def _missing(connection: Connection, choice: Choice) -> str:
    """What is short, and where: 'one post clamp short at plover-main +'."""
    if choice.missing_end is not None:
        at = (connection.start, connection.end)[choice.missing_end]
        wanted = _wanted(connection, choice.missing_end)
        taking = f" that takes a {_said(choice.bare_end)}" if choice.bare_end else ""
        return f"one {_said(wanted)}{taking} short at {at}"
    if not choice.missing_lead:
        return ""
    word = {LeadUse.HOLDER: "holder lead", LeadUse.WORK: "work lead"}.get(connection.use, "link")
    length = f" {connection.length_m:g} m or longer," if connection.length_m else ""
    return f"one {word} short:{length} from {connection.start} to {connection.end}"


def _said(fitting: Fitting) -> str:
    words = str(fitting).replace("-", " ")
    return words.replace("lug m", "lug M")


def _without_spare(circuit: Circuit, parts: Sequence[CircuitPart], answer: Sequence[Choice]) -> Iterator[str]:
    """The links in use whose loss would leave the circuit open."""
    links = {part.name for part in parts if part.use not in (None, LeadUse.HOLDER, LeadUse.WORK)}
    for name in dict.fromkeys(name for choice in answer for name in choice.leads):
        if name in links and not circuit.closes_without(name):
            yield name
