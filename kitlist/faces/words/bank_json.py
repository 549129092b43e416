"""The planner's answer and the charge plan as JSON has them; every number's key carries its unit."""

from __future__ import annotations

from typing import Any

from kitlist.outlook.beads import BeadOutlook
from kitlist.outlook.charging import ChargePlan
from kitlist.outlook.options.advice import why_lost
from kitlist.outlook.options.plan import BankPlan
from kitlist.outlook.options.planner import Option
from kitlist.readiness import Readiness


def plain(answer: BankPlan, readiness: Readiness) -> dict[str, Any]:
    """The planner's answer, and the trip's chosen bank."""
    options = answer.plan.options if answer.plan else ()
    return {
        "trip": answer.trip.name,
        "chosen": [list(string) for string in readiness.trip.strings],
        "not_known": list(answer.not_known),
        "banks": [_option(option, options[0]) for option in options],
        "refused": [{"battery": entry.name, "why": entry.why} for entry in answer.refused],
        "out": [
            {"why": str(m.why), "count": m.count, "nearest": [list(s) for s in m.nearest]}
            for m in (answer.plan.missed if answer.plan else ())
        ],
        "changes": [
            {"change": c.words, "fit": str(c.option.fit), "rod": c.option.rod, "rods": c.option.rods}
            for c in answer.changes
        ],
    }


def _option(option: Option, best: Option) -> dict[str, Any]:
    return {
        "strings": [list(string) for string in option.strings],
        "fit": str(option.fit),
        "rod": option.rod,
        "rods_to_reserve": option.rods,
        "current_a": [option.low_a, option.middle_a, option.high_a],
        "rested_v": option.ocv_v,
        "links": option.links,
        "string_share_ratio": list(option.shares),
        "warnings": list(option.warnings),
        "behind_first": "" if option == best else why_lost(option, best),
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
    """A practice weld, foretold against measured."""
    band, result = outlook.foretold, outlook.result
    return {
        "name": outlook.bead.name,
        "welded_on": outlook.bead.welded_on.isoformat(),
        "bank": list(outlook.bead.bank),
        "measured_a": outlook.bead.current_a,
        "foretold_a": None if band is None else [band.low_a, band.middle_a, band.high_a],
        "inside": outlook.inside,
        "source_ohm": result.source_ohm,
        "external_ohm": result.external_ohm,
        "arc_level_v": result.arc_level_v,
    }
