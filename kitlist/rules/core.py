"""What a rule is, what a gap is, and how the rules are run over a case."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from kitlist.base.names import quoted as quoted  # every rule's commands are made with it
from kitlist.base.sources import Source
from kitlist.kit import Acceptance, Kit, Trip
from kitlist.kit.limits import Limits
from kitlist.kit.slips import Slip, slips, without_slips
from kitlist.rules.doing import Doing

if TYPE_CHECKING:
    from kitlist.outlook import Outlook
    from kitlist.outlook.linkable import BankBar, Bar


class Severity(StrEnum):
    """How much a gap matters."""

    STOP = "stop"
    FIX = "fix"
    NOTE = "note"

    @property
    def words(self) -> str:
        """What it asks of the crew."""
        return {
            Severity.STOP: "do not weld with this kit",
            Severity.FIX: "mend before leaving",
            Severity.NOTE: "know it",
        }[self]

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return list(Severity).index(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Something that falls short: what is wrong with value and limit, and what to do.

    `subject` is the thing it is about, `also` names others that are marked with it, `mark` stands beside them in place
    of the rule's own; `command` is what to type when the remedy is done, for the screen alone. `known` is False where
    the value needed could not be told: not known is never a pass. `measured` and `required` are in `unit`, where there
    are numbers.
    """

    subject: str
    what: str
    remedy: str
    command: str = ""
    also: tuple[str, ...] = ()
    mark: str = ""
    measured: float | None = None
    required: float | None = None
    unit: str = ""
    known: bool = True
    severity: Severity | None = None  # set by a check only to make a gap milder than its rule
    doing: Doing | None = None  # set by a check only where this gap asks another kind of doing than its rule
    rule: str = ""
    checked: bool = True
    accepted: Acceptance | None = None  # set by the readiness: who took it on

    @property
    def short_by(self) -> float | None:
        """How far it falls short, in its own unit; None where there are no numbers."""
        return None if self.measured is None or self.required is None else abs(self.required - self.measured)

    @property
    def weight(self) -> Severity:
        """The severity, which `run` always fills in."""
        if self.severity is None:
            raise ValueError(f"the gap about {self.subject} has not been through `run`")
        return self.severity

    @property
    def asks(self) -> Doing:
        """The kind of doing that closes it, which `run` always fills in."""
        if self.doing is None:
            raise ValueError(f"the gap about {self.subject} has not been through `run`")
        return self.doing

    @property
    def open(self) -> bool:
        """Whether it asks for something before leaving: a note does not, nor what somebody accepted."""
        return self.weight is not Severity.NOTE and self.accepted is None


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What is judged: the kit, the trip, the day, and what was computed from them."""

    kit: Kit
    trip: Trip
    on: date
    outlook: Outlook
    slips: tuple[Slip, ...] = ()  # days that are still to come and cannot be; `kit` is without them

    @property
    def limits(self) -> Limits:
        """The thresholds in force."""
        return self.kit.limits

    def bars(self, *asked: Bar) -> Iterator[BankBar]:
        """What forbids that the bank is linked, of the kinds asked for."""
        return (found for found in (self.outlook.bank.bars if self.outlook.bank else ()) if found.bar in asked)


def case_of(kit: Kit, trip: Trip, *, on: date, outlook: Outlook) -> Case:
    """What the rules look at: the kit as it is known on a day, and the days in it that are still to come."""
    return Case(kit=without_slips(kit, on=on), trip=trip, on=on, outlook=outlook, slips=slips(kit, on=on))


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A kit and trip that show what a rule is about; good ones pass every rule, bad ones fail this one alone."""

    kit: Kit
    trip: Trip
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One thing that is checked before every trip, and all that is to be known about it."""

    name: str
    title: str
    severity: Severity
    doing: Doing
    why: str
    remedy: str
    sources: tuple[Source, ...]
    check: Callable[[Case], Iterable[Gap]]
    good: Callable[[], Example] = field(repr=False)
    bad: Callable[[], Example] = field(repr=False)
    mark: str = ""  # a word or two beside the thing on the sheet
    mark_not_known: str = "not known"  # the same where it fires because something is not known
    acceptable: bool = True  # whether a crew may take the gap on; some they never may
    numbers: tuple[str, ...] = ()  # the thresholds of the rulebook that it compares with
    asks_for: tuple[str, ...] = ()  # the kinds of things that it misses where none of one is packed

    def mark_of(self, gap: Gap) -> str:
        """What stands beside the thing for one of its gaps: never the fault's word where it is merely not known."""
        return gap.mark or (self.mark_not_known if self.mark and not gap.known else self.mark)


def accepted(rule: Rule, gap: Gap, case: Case) -> Acceptance | None:
    """Who accepted a gap for this trip, where it may be accepted, has not become worse, and has not run out."""
    if not rule.acceptable or not gap.checked:
        return None
    for taken in case.kit.acceptances:
        same = taken.trip == case.trip.name and taken.rule == rule.name and taken.subject == gap.subject
        if same and taken.accepted_on <= case.on <= taken.until and not _worse(gap, taken):
            return taken
    return None


def _worse(gap: Gap, taken: Acceptance) -> bool:
    """Whether a gap is graver than when it was accepted, or falls short by over a tenth more."""
    if gap.weight.rank < Severity(taken.severity).rank:
        return True
    return gap.short_by is not None and taken.short_by is not None and gap.short_by > taken.short_by * 1.1


def run(rules: Iterable[Rule], case: Case) -> tuple[Gap, ...]:
    """The gaps of a case, gravest first, then in the order of the rules.

    A rule that breaks is a gap of its own severity, marked not checked: it never passes in silence.
    """
    from dataclasses import replace

    found: list[Gap] = []
    for rule in rules:
        try:
            gaps = list(rule.check(case))
        except Exception as error:
            gaps = [
                Gap(
                    subject=rule.title,
                    what=f"Not checked: {type(error).__name__}: {error}",
                    remedy="Check this by hand, and report the fault.",
                    known=False,
                    checked=False,
                )
            ]
        for gap in gaps:
            milder = gap.severity if gap.severity and gap.severity.rank > rule.severity.rank else rule.severity
            weighed = replace(gap, rule=rule.name, severity=milder, doing=gap.doing or rule.doing)
            found.append(replace(weighed, accepted=accepted(rule, weighed, case)))
    return tuple(sorted(found, key=lambda gap: gap.weight.rank))
