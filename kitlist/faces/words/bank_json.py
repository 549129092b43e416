"""The planner's answer and the charge plan as JSON has them; every number's key carries its unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from kitlist.outlook.beads import BeadOutlook
from kitlist.outlook.charging import ChargePlan
from kitlist.outlook.options.offer import Offer, why_behind
from kitlist.outlook.options.plan import BankPlan
from kitlist.outlook.shaping import ShapedWay
from kitlist.readiness import Readiness


def plain(
    answer: BankPlan, readiness: Readiness, *, ways: Mapping[str, Sequence[ShapedWay]] = MappingProxyType({})
) -> dict[str, Any]:
    """The planner's answer, and the trip's chosen bank; `ways` to a rod in range by repair."""
    return {
        "trip": answer.trip.name,
        "chosen": [list(string) for string in readiness.trip.strings],
        "not_known": list(answer.not_known),
        "banks": [_offer(offer, answer.offers[0]) for offer in answer.offers],
        "refused": [{"battery": entry.name, "why": str(entry.why)} for entry in answer.refused],
        "out": [{"why": str(m.why), "count": m.count, "nearest": [list(s) for s in m.nearest]} for m in answer.missed],
        "changes": [
            {
                "change": found.change.words,
                "strings": [list(string) for string in found.offer.strings],
                "fit": str(found.offer.fit),
                "rod": found.offer.best.words,
                "rods_sure": found.offer.sure,
                "rods_likely": found.offer.rods.likely if found.offer.rods else None,
            }
            for found in answer.changes
        ],
        "ways_in_range": {
            name: [
                {
                    "bank": list(way.bank),
                    "add": way.added,
                    "cost": way.cost.words,
                    "rod": way.rod,
                    "current_a": [way.low_a, way.middle_a, way.high_a],
                    "longest_mm": way.longest_mm,
                }
                for way in few
            ]
            for name, few in ways.items()
        },
    }


def _offer(offer: Offer, best: Offer) -> dict[str, Any]:
    return {
        "strings": [list(string) for string in offer.strings],
        "fit": str(offer.fit),
        "rod": offer.best.words,
        "rods_sure": offer.sure,
        "rods_likely": offer.rods.likely if offer.rods else None,
        "current_a": [offer.band.low_a, offer.band.middle_a, offer.band.high_a],
        "no_arc_ratio": offer.band.no_arc_ratio,
        "rested_v": offer.rested_v,
        "links": offer.option.links,
        "string_share_ratio": list(offer.shares),
        "warnings": list(offer.option.warnings),
        "flat": list(offer.flat),
        "behind_first": "" if offer is best else why_behind(offer, best),
    }


def plain_charge(plan: ChargePlan) -> dict[str, Any]:
    """The charge plan."""
    return {
        "trip": plan.trip,
        "charge_by": plan.charge_by.isoformat(),
        "rest_h": plan.rest_h,
        "rest_worth": plan.rest.worth,
        "read_on": plan.read_on.isoformat(),
        "batteries": [
            {
                "name": x.name,
                "do": x.do,
                "why": x.why,
                "soc_ratio": x.soc_ratio,
                "back_ah": x.back_ah,
                "most_v": x.most_v,
                "most_a": x.most_a,
            }
            for x in plan.lines
        ],
    }


def plain_bead(outlook: BeadOutlook) -> dict[str, Any]:
    """A practice weld, predicted against measured."""
    band, result = outlook.predicted, outlook.result
    return {
        "name": outlook.bead.name,
        "welded_on": outlook.bead.welded_on.isoformat(),
        "bank": list(outlook.bead.bank),
        "measured_a": outlook.bead.current_a,
        "predicted_a": None if band is None else [band.low_a, band.middle_a, band.high_a],
        "inside": outlook.inside,
        "source_ohm": result.source_ohm,
        "external_ohm": result.external_ohm,
        "arc_level_v": result.arc_level_v,
    }
