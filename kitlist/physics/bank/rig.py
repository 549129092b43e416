"""A bank and its leads with everything that is not known kept as low, best, high; and its best guess as numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics import figures
from kitlist.physics.bank.network import Network, Unit
from kitlist.physics.battery.charge import rested_volts
from kitlist.physics.battery.resistance import Basis, SourceResistance, effect_of_state
from kitlist.physics.leads import cable

_STANDARD_C = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BankBattery:
    """A battery as the bank's computation sees it.

    `ocv_25_v` is a rested reading brought to 25 °C (from `charge.state_of_charge`); without one the volts follow from
    the charge. Unknown chemistry: volts by the flooded table, the lowest. `post_joint_ohm` is one joint at one post.
    """

    name: str
    chemistry: Chemistry
    resistance: SourceResistance
    soc_ratio: Span = field(default_factory=lambda: Span.of(figures.CHARGE_NOT_KNOWN))
    ocv_25_v: Span | None = None
    capacity_ah: float | None = None
    post_joint_ohm: Span = field(default_factory=lambda: Span.of(figures.POST_JOINT_MOHM).times(0.001))

    @property
    def table_chemistry(self) -> Chemistry:
        """The chemistry whose table of volts is used."""
        return Chemistry.FLOODED if self.chemistry is Chemistry.UNKNOWN else self.chemistry

    def volts(self, *, temp_c: float) -> float:
        """Best guess of the rested volts at a temperature, V."""
        if self.ocv_25_v is not None:
            return self.ocv_25_v.best + figures.OCV_SLOPE.value * (temp_c - _STANDARD_C)
        volts = rested_volts(soc_ratio=self.soc_ratio.best, chemistry=self.table_chemistry, temp_c=temp_c)
        return volts + figures.SURFACE_V.value

    def ohm(self, *, temp_c: float, soc_ratio: float | None = None) -> float:
        """Middle of the resistance at a temperature, before slow polarisation, ohm."""
        soc = self.soc_ratio.best if soc_ratio is None else soc_ratio
        middle_ohm = self.resistance.new_ohm.middle * self.resistance.age_ratio.middle
        return middle_ohm * effect_of_state(soc_ratio=soc, temp_c=temp_c)

    @property
    def rated(self) -> bool:
        """Whether the resistance rests on a label and not on a measurement."""
        return self.resistance.basis in (Basis.CRANKING, Basis.CAPACITY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Leads:
    """All the leads of a bank: conductors out and back with the links, and the joints beyond the battery posts.

    `conductor_ohm_20c` is by table at 20 °C; `factor` the conductor's metal against the table's, low to high;
    `more_joints_ohm` plugs and the like. `measured_ohm` replaces conductors and joints beyond the posts.
    `ballast_ohm` is a bare strip put in on purpose; it always adds.
    """

    conductor_ohm_20c: float
    factor: Span = field(default_factory=lambda: Span.exactly(1.0))
    end_joints_ohm: Span = field(default_factory=lambda: Span.of(figures.HOLDER_AND_CLAMP_MOHM).times(0.001))
    more_joints_ohm: Span | None = None
    temp_c: Span = field(default_factory=lambda: Span.of(figures.LEAD_TEMP_C))
    measured_ohm: Span | None = None
    ballast_ohm: float = 0.0

    def conductor(self, ohm_at_20c: float) -> float:
        """Best guess of what a conductor of these leads really has, warm and with its true area, ohm."""
        return cable.warmed(ohm_at_20c=ohm_at_20c, temp_c=self.temp_c.best) / figures.LEAD_AREA.value

    @property
    def best_ohm(self) -> float:
        """Best guess of everything from the bank's posts to rod and work, ohm."""
        if self.measured_ohm is not None:
            return self.measured_ohm.best + self.ballast_ohm
        more = self.more_joints_ohm.best if self.more_joints_ohm else 0.0
        return self.conductor(self.conductor_ohm_20c) + self.end_joints_ohm.best + more + self.ballast_ohm

    @property
    def most_ohm(self) -> float:
        """The most that sound leads and joints have: hot, three quarters of the stated area, poor joints; ohm."""
        if self.measured_ohm is not None:
            return self.measured_ohm.high + self.ballast_ohm
        hot_ohm = cable.warmed(ohm_at_20c=self.conductor_ohm_20c * self.factor.high, temp_c=self.temp_c.high)
        more = self.more_joints_ohm.high if self.more_joints_ohm else 0.0
        return hot_ohm / Span.of(figures.LEAD_AREA).low + self.end_joints_ohm.high + more + self.ballast_ohm


def leads_in_row(
    leads: Sequence[cable.LeadRun], *, temp_c: Span | None = None, end_joints_ohm: Span | None = None
) -> Leads:
    """The leads of a bank one after the other: conductor and joints of each; measured ones as measured.

    >>> round(leads_in_row([cable.LeadRun(length_m=5.0, area_mm2=25.0)]).conductor_ohm_20c * 1000, 2)
    3.9
    """
    conductor = 0.0
    low = best = high = 0.0
    more = [0.0, 0.0, 0.0]
    for lead in leads:
        if lead.measured_ohm is not None:
            known = cable.lead_resistance(lead)
            more = [more[0] + known.low, more[1] + known.best, more[2] + known.high]
            continue
        ohm = lead.length_m * cable.ohm_per_m(area_mm2=lead.area_mm2, conductor=lead.conductor)
        factor = cable.conductor_factor(lead.conductor)
        conductor += ohm
        low, best, high = low + ohm * factor.low / factor.best, best + ohm, high + ohm * factor.high / factor.best
        for fitting in lead.joints:
            span = cable.joint(fitting)
            more = [more[0] + span.low, more[1] + span.best, more[2] + span.high]
    return Leads(
        conductor_ohm_20c=conductor,
        # A sum of leads of different metals may come out a hair off 1 where none of them has a range.
        factor=Span(min(1.0, low / best), 1.0, max(1.0, high / best)) if best else Span.exactly(1.0),
        end_joints_ohm=end_joints_ohm or Span.of(figures.HOLDER_AND_CLAMP_MOHM).times(0.001),
        more_joints_ohm=Span(*more) if more[2] else None,
        temp_c=temp_c or Span.of(figures.LEAD_TEMP_C),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """A bank of batteries in parallel strings (mostly one), their leads, and the temperature of the batteries.

    `link_ohm_20c` is the link leads inside each group, by table at 20 °C, where they are not counted with the leads:
    in parallel strings each string has its own.
    """

    groups: tuple[tuple[BankBattery, ...], ...]
    leads: Leads
    link_ohm_20c: float = 0.0
    temp_c: Span = field(default_factory=lambda: Span.of(figures.BATTERY_TEMP_C))

    @property
    def batteries(self) -> tuple[BankBattery, ...]:
        """Every battery, group by group."""
        return tuple(battery for group in self.groups for battery in group)

    @property
    def in_series(self) -> int:
        """How many batteries' volts add up."""
        return len(self.groups[0])

    def network(self) -> Network:
        """The middle of what is known as one set of numbers, slow polarisation as in the middle of a rod.

        It meets the arc within a few percent of the middle of the band.
        """
        temp_c = self.temp_c.best

        def unit(battery: BankBattery) -> Unit:
            return Unit(
                name=battery.name,
                ocv_v=battery.volts(temp_c=temp_c),
                ohm=battery.ohm(temp_c=temp_c) * (1.0 + figures.SLOW_SHARE.value),
                joint_ohm=2 * battery.post_joint_ohm.best,
            )

        groups = tuple(tuple(unit(battery) for battery in group) for group in self.groups)
        links = (self.leads.conductor(self.link_ohm_20c),) * len(groups)
        return Network(groups=groups, group_ohm=links, external_ohm=self.leads.best_ohm)
