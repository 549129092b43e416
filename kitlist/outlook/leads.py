"""The packed leads as the current sees them: links between batteries, and the row from the bank to rod and work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.terms import Fitting, LeadUse, ToolKind
from kitlist.kit import Kit, Lead
from kitlist.physics.bank.endurance import LeadHeat
from kitlist.physics.bank.rig import Leads, leads_in_row
from kitlist.physics.leads import cable
from kitlist.physics.leads.warming import bears_a2s

INSULATION_C = 70.0  # limit of common PVC insulation, where nobody wrote down another


def packed_links(kit: Kit) -> tuple[Lead, ...]:
    """Every link in the bags, one by one, the thickest first."""
    links = sorted((x for x in kit.leads if x.use is LeadUse.LINK), key=lambda x: -(x.area_mm2 or 0))
    return tuple(lead for lead in links for _ in range(lead.count))


def arc_leads(kit: Kit) -> tuple[Lead, ...]:
    """The holder lead, the work lead and what lengthens them."""
    found: list[Lead] = []
    for use in (LeadUse.HOLDER, LeadUse.WORK):
        found += [lead for lead in kit.leads if lead.use is use and lead.count > 0][:1]
    return (*found, *(lead for lead in kit.leads if lead.use is LeadUse.EXTENSION and lead.count > 0))


def opened_by(kit: Kit) -> str:
    """What opens the circuit away from the batteries: an isolator, else the far plug of an arc lead; "" for nothing."""
    if any(tool.what is ToolKind.ISOLATOR and tool.count for tool in kit.tools):
        return "isolator"
    return "far plug" if parts_at_plug(kit) else ""


def parts_at_plug(kit: Kit) -> bool:
    """Whether a packed lead between the bank and rod or work parts at a plug."""
    arc = (LeadUse.HOLDER, LeadUse.WORK, LeadUse.EXTENSION)
    return any(Fitting.PLUG in (x.end_a, x.end_b) for x in kit.leads if x.count > 0 and x.use in arc)


def parts_in_work_lead(kit: Kit) -> bool:
    """Whether the far plug is that of the work lead: nothing else of the row parts, and no isolator is packed."""
    plugged = {x.use for x in kit.leads if x.count > 0 and Fitting.PLUG in (x.end_a, x.end_b)}
    return opened_by(kit) == "far plug" and plugged.isdisjoint((LeadUse.HOLDER, LeadUse.EXTENSION))


class Lack(StrEnum):
    """What a bank's current cannot be told without. `{}` stands for what lacks it."""

    ARC_LEAD = "no {} lead is packed"
    LENGTH = "length of {}"
    AREA = "area of {}"
    NOT_ALONG = "{} does not travel"
    LITHIUM = "{} is lithium"
    RATING = "capacity or cranking rating of {}"
    BALLAST = "the ballast strip {}: it is not packed"
    NUMBERS = "{}"
    """Numbers that are written down and make no sense together; the sentence says which."""

    @property
    def to_write_down(self) -> bool:
        """Whether it is a matter of writing something down, and not of taking something along or leaving it out."""
        return self not in (Lack.ARC_LEAD, Lack.NOT_ALONG, Lack.LITHIUM)


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that stands in the way of the current, and the lead, battery or strip that lacks it."""

    lack: Lack
    of: str

    def __str__(self) -> str:
        """As a phrase in a list.

        >>> str(Missing(Lack.LENGTH, "work lead"))
        'length of work lead'
        """
        return self.lack.replace("{}", self.of)


def missing_or_unknown(arc: Sequence[Lead], links: Sequence[Lead]) -> Iterator[Missing]:
    """What stands in the way of telling the resistance of these leads."""
    uses = {lead.use for lead in arc}
    for use in (LeadUse.HOLDER, LeadUse.WORK):
        if use not in uses:
            yield Missing(Lack.ARC_LEAD, str(use))
    for lead in dict.fromkeys((*arc, *links)):
        if lead.measured_mohm is None and lead.length_m is None:
            yield Missing(Lack.LENGTH, lead.name)
        if lead.measured_mohm is None and lead.area_mm2 is None:
            yield Missing(Lack.AREA, lead.name)


def in_row(leads: Sequence[Lead]) -> Leads:
    """Leads one after the other. Joints at posts, holder and work clamp are counted elsewhere; plugs here."""
    return leads_in_row([_as_conductor(lead) for lead in leads])


def link_ohm_20c(links: Sequence[Lead]) -> float:
    """One link by table at 20 °C, ohm: the worst of those that are packed."""
    return max((_ohm_20c(lead) for lead in links), default=0.0)


def first_to_warm(leads: Sequence[Lead]) -> LeadHeat | None:
    """The lead whose insulation reaches its limit first, by area, metal and limit; of those whose area is known.

    One whose metal nobody wrote down warms at the least as copper does: so the rods are counted, and lead-too-thin asks
    for the metal, as it may get hotter. Counted as the worse it would leave a kit no rod for want of an answer.
    """
    known = [
        LeadHeat(
            area_mm2=lead.area_mm2,
            conductor=cable.taken_as(lead.conductor, cable.MetalUse.CURRENT),
            limit_c=lead.insulation_limit_c or INSULATION_C,
        )
        for lead in leads
        if lead.area_mm2 is not None
    ]
    return min(
        known,
        key=lambda x: bears_a2s(area_mm2=x.area_mm2, conductor=x.conductor, limit_c=x.limit_c),
        default=None,
    )


def _ohm_20c(lead: Lead) -> float:
    if lead.measured_mohm is not None:
        return lead.measured_mohm / 1000
    conductor = _as_conductor(lead)
    return conductor.length_m * cable.ohm_per_m(area_mm2=conductor.area_mm2, conductor=conductor.conductor)


def _as_conductor(lead: Lead) -> cable.LeadRun:
    return cable.LeadRun(
        length_m=lead.length_m or 0.0,
        area_mm2=lead.area_mm2 or 1.5,
        conductor=cable.taken_as(lead.conductor, cable.MetalUse.CURRENT),
        joints=tuple(end for end in (lead.end_a, lead.end_b) if end is Fitting.PLUG),
        measured_ohm=None if lead.measured_mohm is None else lead.measured_mohm / 1000,
    )
