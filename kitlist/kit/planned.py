"""What is planned and tried: repairs, trips, practice welds, gaps that somebody accepted, repairs that were made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Annotated

from kitlist.base.errors import BadData, NotFound
from kitlist.base.fields import About
from kitlist.base.terms import FireRules, Joint, Position, Settled, Steel
from kitlist.kit.owned import Name, Note

if TYPE_CHECKING:
    from kitlist.physics.arc import bead as physics


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A break worth being ready for."""

    name: Name
    part: Annotated[str, About("the part, in trade words", example="spring hanger")]
    vehicle: Annotated[str | None, About("the vehicle; none when any", refers="vehicle")] = None
    steel: Annotated[Steel, About("its steel")] = Steel.UNKNOWN
    thickness_mm: Annotated[float | None, About("thinnest part, measured", low=0.5, high=60)] = None
    joint: Annotated[Joint, About("the joint")] = Joint.FILLET
    position: Annotated[Position, About("the hardest position it needs")] = Position.FLAT
    weld_length_mm: Annotated[float | None, About("weld to lay, all runs together", low=5, high=5000)] = None
    leg_mm: Annotated[float | None, About("leg of a fillet", low=1, high=25)] = None
    load_bearing: Annotated[bool | None, About("does it carry load?")] = None
    behind: Annotated[str, About("what lies behind the weld, or 'nothing'", example="brake line, wiring")] = ""
    cleared: Annotated[str, About("what of that is taken away or unplugged", example="brake line")] = ""
    cleared_by: Annotated[str, About("who took it away or unplugged it")] = ""
    allowed_by: Annotated[str, About("who, that knows the part, has said that it may be welded")] = ""
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if self.cleared.strip() and not self.cleared_by.strip():
            return (("cleared_by", "what was taken away or unplugged needs a name: who did it, cleared_by"),)
        if self.cleared_by.strip() and not self.cleared.strip():
            return (("cleared", "who took it away is said, and not what: cleared, in the words of behind"),)
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """A trip: when, who, how cold, how far from help, what may break, which bank."""

    name: Name
    starts_on: Annotated[date, About("the day of departure")]
    ends_on: Annotated[date, About("the day of return")]
    vehicles: Annotated[tuple[str, ...], About("the vehicles going", refers="vehicle")] = ()
    crew: Annotated[str, About("who goes, as it stands on sheet and card")] = ""
    people: Annotated[int | None, About("people going", low=1, high=200)] = None
    coldest_c: Annotated[float | None, About("coldest expected", low=-60, high=50)] = None
    hottest_c: Annotated[float | None, About("hottest expected", low=-40, high=60)] = None
    days_from_help: Annotated[float | None, About("days until help can come", low=0, high=90)] = None
    wet: Annotated[bool | None, About("may the welding be in the wet, sweaty or cramped?")] = None
    parked_apart_m: Annotated[float | None, About("how near the vehicles can park", low=0, high=30)] = None
    repairs: Annotated[tuple[str, ...], About("the repairs to be ready for", refers="repair")] = ()
    bank: Annotated[tuple[str, ...], About("the chosen batteries, in linking order", refers="battery")] = ()
    bank_strings: Annotated[int, About("parallel strings in the bank; 1 is plain series", low=1, high=4)] = 1
    ballast: Annotated[str | None, About("the ballast strip in its circuit; none without", refers="ballast")] = None
    fire_rules: Annotated[FireRules, About("what the fire authority answered")] = FireRules.NOT_ASKED
    fire_rules_asked_on: Annotated[date | None, About("the day they were asked")] = None
    fire_authority: Annotated[str, About("whom to ask about fire rules, and how", example="lake ranger, by radio")] = ""
    fire_answer: Annotated[str, About("the answer in the authority's own words")] = ""
    keep_away: Annotated[str, About("who must not weld or stand near, and why", example="Ada: pacemaker")] = ""
    keep_away_asked: Annotated[str, About("what the physician answered, who and when")] = ""
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        found = []
        if self.ends_on < self.starts_on:
            found.append(("ends_on", f"the trip ends on {self.ends_on}, before it starts on {self.starts_on}"))
        if self.coldest_c is not None and self.hottest_c is not None and self.coldest_c > self.hottest_c:
            found.append(("coldest_c", f"coldest {self.coldest_c:g} °C is above hottest {self.hottest_c:g} °C"))
        if len(set(self.bank)) != len(self.bank):
            found.append(("bank", "a battery stands in the bank twice"))
        if self.bank and len(self.bank) % self.bank_strings:
            found.append(("bank_strings", f"{len(self.bank)} batteries do not make {self.bank_strings} equal strings"))
        return tuple(found)

    def doubts(self, *, on: date) -> tuple[str, ...]:
        """What can be true but is more likely a slip of the pen, as questions."""
        found = []
        if self.ends_on < on:
            found.append(f"the trip ended on {self.ends_on}, before today: is the year right?")
        if self.fire_rules_asked_on is not None and self.fire_rules_asked_on > on:
            found.append(f"the fire rules were asked on {self.fire_rules_asked_on}, after today: is the day right?")
        return tuple(found)

    @property
    def strings(self) -> tuple[tuple[str, ...], ...]:
        """The bank as parallel strings, each in linking order."""
        if not self.bank:
            return ()
        size = len(self.bank) // self.bank_strings
        return tuple(self.bank[start : start + size] for start in range(0, len(self.bank), size))


def next_trip(trips: Sequence[Trip], *, on: date) -> Trip:
    """The trip under way or next to start; else the last one. Raises NotFound where there is none."""
    ahead = sorted((t for t in trips if t.ends_on >= on), key=lambda t: t.starts_on)
    if ahead:
        return ahead[0]
    if not trips:
        raise NotFound(
            "there is no trip yet",
            hint="kitlist trip add NAME starts-on=DATE ends-on=DATE vehicles=NAME",
        )
    return max(trips, key=lambda t: t.ends_on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """A practice weld with its meter readings: what narrows the predictions."""

    name: Name
    welded_on: Annotated[date, About("the day it was welded")]
    bank: Annotated[tuple[str, ...], About("the batteries it was welded from, in linking order", refers="battery")]
    bank_strings: Annotated[int, About("parallel strings in that bank", low=1, high=4)] = 1
    rod: Annotated[str | None, About("the packet of rods used", refers="rod")] = None
    ballast: Annotated[str | None, About("the ballast strip in its circuit", refers="ballast")] = None
    rest_v: Annotated[float, About("volts across the whole bank at rest", low=8, high=60)]
    bank_v: Annotated[float, About("volts across the bank while welding", low=5, high=60)]
    current_a: Annotated[float, About("amps while welding, by the clamp meter", low=10, high=1000)]
    holder_v: Annotated[float | None, About("volts from holder to work while welding", low=5, high=60)] = None
    meter_accuracy_ratio: Annotated[float | None, About("the voltmeter's accuracy", low=0, high=0.1)] = None
    clamp_accuracy_ratio: Annotated[float | None, About("the clamp meter's accuracy", low=0, high=0.1)] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if len(set(self.bank)) != len(self.bank):
            return (("bank", "a battery stands in the bank twice"),)
        if not self.bank or len(self.bank) % self.bank_strings:
            return (("bank", f"{len(self.bank)} batteries do not make {self.bank_strings} equal strings"),)
        return self._nonsense()

    def _nonsense(self) -> tuple[tuple[str, str], ...]:
        """Readings that no bead can have."""
        from kitlist.physics.arc.bead import work_out

        try:
            work_out(self.as_read())
        except BadData as error:
            return (("bank_v", error.message),)
        return ()

    def as_read(self) -> physics.BeadReadings:
        """The meter readings alone, as the physics takes them."""
        from kitlist.physics.arc import bead as physics

        return physics.BeadReadings(
            rest_v=self.rest_v,
            bank_v=self.bank_v,
            current_a=self.current_a,
            in_series=self.in_series,
            in_parallel=self.bank_strings,
            holder_v=self.holder_v,
        )

    @property
    def in_series(self) -> int:
        """How many batteries' volts added up."""
        return len(self.bank) // self.bank_strings


@dataclass(frozen=True, slots=True, kw_only=True)
class Acceptance:
    """A gap that somebody accepted for one trip: which, how grave it was, who, why, and to which day."""

    name: Name
    rule: Annotated[str, About("the rule whose gap it is", example="link-without-spare")]
    subject: Annotated[str, About("the thing that the gap is about", example="links")]
    severity: Annotated[str, About("how grave it was when it was accepted: stop, fix or note")]
    trip: Annotated[str, About("the trip it is accepted for", refers="trip")]
    accepted_by: Annotated[str, About("who accepts it")]
    reason: Annotated[str, About("why")]
    accepted_on: Annotated[date, About("the day it was accepted")]
    until: Annotated[date, About("the last day it holds")]
    short_by: Annotated[float | None, About("how far it fell short then, in its unit", low=0, high=1e9)] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        found = []
        if self.severity not in ("stop", "fix", "note"):
            found.append(("severity", f"severity = {self.severity!r}: must be one of stop, fix, note"))
        if self.until < self.accepted_on:
            found.append(("until", f"it ends on {self.until}, before it was accepted on {self.accepted_on}"))
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A repair that was made in the field, looked at again on the way, until somebody puts it right."""

    name: Name
    part: Annotated[str, About("the part that was welded, in trade words", example="spring hanger")]
    welded_on: Annotated[date, About("the day it was welded")]
    vehicle: Annotated[str | None, About("the vehicle; none for a trailer or a stranger's", refers="vehicle")] = None
    spot: Annotated[str, About("where on it", example="left rear, upper bolt")] = ""
    trip: Annotated[str | None, About("the trip it was made on", refers="trip")] = None
    rod: Annotated[str | None, About("the packet of rods used", refers="rod")] = None
    bank: Annotated[tuple[str, ...], About("the batteries it was welded from", refers="battery")] = ()
    current_a: Annotated[float | None, About("amps while welding, if read", low=10, high=1000)] = None
    photo: Annotated[str, About("file name of its photo")] = ""
    sound_at_5_km: Annotated[bool | None, About("looked at after 5 km: no crack?")] = None
    sound_at_50_km: Annotated[bool | None, About("looked at after 50 km: no crack?")] = None
    sound_after_a_day: Annotated[bool | None, About("looked at after 24 to 48 h: no crack?")] = None
    settled: Annotated[Settled | None, About("how it was put right for good")] = None
    settled_on: Annotated[date | None, About("the day it was put right")] = None
    settled_by: Annotated[str, About("who put it right")] = ""
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        told = (self.settled is not None, self.settled_on is not None, bool(self.settled_by))
        if any(told) and not all(told):
            return (("settled", "put right: say how, on which day and by whom: settled, settled_on and settled_by"),)
        if self.settled_on is not None and self.settled_on < self.welded_on:
            return (("settled_on", f"it was put right on {self.settled_on}, before it was welded on {self.welded_on}"),)
        return ()

    def doubts(self, *, on: date) -> tuple[str, ...]:
        """What can be true but is more likely a slip of the pen, as questions."""
        found = []
        if self.welded_on > on:
            found.append(f"it was welded on {self.welded_on}, after today: is the year right?")
        if self.settled_on is not None and self.settled_on > on:
            found.append(f"it was put right on {self.settled_on}, after today: is the year right?")
        return tuple(found)

    @property
    def cracked(self) -> bool:
        """Whether somebody who looked at it found it no longer sound."""
        return False in (self.sound_at_5_km, self.sound_at_50_km, self.sound_after_a_day)

    @property
    def looks_left(self) -> tuple[str, ...]:
        """The looks that nobody has recorded yet, in their order; common practice."""
        looks = {
            "at 5 km": self.sound_at_5_km,
            "at 50 km": self.sound_at_50_km,
            "after 24 to 48 h": self.sound_after_a_day,
        }
        return tuple(when for when, sound in looks.items() if sound is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weld:
    """One repair welded: from which bank, how many rods, volts of the bank before and after. It writes its own mend."""

    name: Name
    welded_on: Annotated[date, About("the day it was welded")]
    rods: Annotated[int, About("rods burned", low=0, high=500)]
    bank: Annotated[tuple[str, ...], About("the batteries it was welded from", refers="battery")] = ()
    bank_strings: Annotated[int, About("parallel strings in that bank", low=1, high=4)] = 1
    trip: Annotated[str | None, About("the trip it was welded on", refers="trip")] = None
    repair: Annotated[str | None, About("the planned repair, if it was one", refers="repair")] = None
    rod: Annotated[str | None, About("the packet of rods used", refers="rod")] = None
    ballast: Annotated[str | None, About("the ballast strip in its circuit", refers="ballast")] = None
    before_v: Annotated[float | None, About("volts across the bank at rest, before", low=8, high=60)] = None
    after_v: Annotated[float | None, About("volts across the bank at rest, after", low=8, high=60)] = None
    after_rested_h: Annotated[float | None, About("hours of rest before the reading after", low=0, high=9000)] = None
    bank_v: Annotated[float | None, About("volts across the bank while welding", low=5, high=60)] = None
    current_a: Annotated[float | None, About("amps while welding", low=10, high=1000)] = None
    holder_v: Annotated[float | None, About("volts from holder to work while welding", low=5, high=60)] = None
    note: Note = ""

    def problems(self) -> tuple[tuple[str, str], ...]:
        """What does not hold together between its own fields: (field, sentence)."""
        if self.bank and len(self.bank) % self.bank_strings:
            return (("bank", f"{len(self.bank)} batteries do not make {self.bank_strings} equal strings"),)
        if None not in (self.before_v, self.after_v) and (self.after_v or 0) > (self.before_v or 0):
            said = f"{self.after_v:g} V after is over the {self.before_v:g} V before"
            return (("after_v", f"{said}: was it charged between?"),)
        for field in ("before_v", "after_v"):
            volts, n = getattr(self, field), self.in_series
            if volts is not None and n and not 10.7 * n <= volts <= 13.5 * n:
                said = f"{volts:g} V does not fit {n} batteries in a row ({10.7 * n:.1f} to {13.5 * n:.1f} V)"
                return ((field, f"{said}: read across the whole bank, at rest"),)
        metered = self.as_bead()
        return () if metered is None else metered.problems()

    def doubts(self, *, on: date) -> tuple[str, ...]:
        """What can be true but is more likely a slip of the pen, as questions."""
        if self.welded_on > on:
            return (f"it was welded on {self.welded_on}, after today: is the year right?",)
        return ()

    @property
    def in_series(self) -> int:
        """How many batteries' volts added up; 0 where the bank was not written down."""
        return len(self.bank) // self.bank_strings

    def as_bead(self) -> Bead | None:
        """The meter readings of this weld as a practice weld has them; None where not enough was read."""
        if self.before_v is None or self.bank_v is None or self.current_a is None or not self.bank:
            return None
        return Bead(
            name=self.name,
            welded_on=self.welded_on,
            bank=self.bank,
            bank_strings=self.bank_strings,
            rod=self.rod,
            ballast=self.ballast,
            rest_v=self.before_v,
            bank_v=self.bank_v,
            current_a=self.current_a,
            holder_v=self.holder_v,
        )
