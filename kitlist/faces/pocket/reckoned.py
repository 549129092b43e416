"""What the pocket page reckons from: figures and tables of the physics, and this bank's own hardware. No reading.

The script of the page holds formulas and no figure of a source; everything that it multiplies comes from here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from kitlist.base.sources import table
from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Covering
from kitlist.outlook.bank import BankOutlook
from kitlist.outlook.battery import BatteryOutlook
from kitlist.outlook.lasting import Lasting
from kitlist.outlook.rods import RodOutlook
from kitlist.physics import figures, lattice
from kitlist.physics.bank.rig import Rig
from kitlist.physics.bank.rods_by_volts import MOST_RODS
from kitlist.physics.battery.charge import kinds_of, limits_of, ocv_points
from kitlist.physics.battery.cold import Floor

LADDER_K = 5.0
"""Steps under the trip's coldest at which rods are burned from full once more: colder air than was planned for."""
COLDEST_KNOWN_C = -29.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdStep:
    """What ends the rods of one kind at a temperature: it holds from there up to the next step."""

    temp_c: float
    lasting: Lasting


@dataclass(frozen=True, slots=True, kw_only=True)
class RodOnBank:
    """One packed kind of rod on this bank."""

    rod: RodOutlook
    charge_ah: Span
    ladder: tuple[ColdStep, ...]

    @property
    def cellulosic(self) -> bool:
        """Whether its arc burns at higher volts."""
        return self.rod.designation is not None and self.rod.designation.covering is Covering.CELLULOSIC

    def at(self, temp_c: float) -> Lasting | None:
        """What ends its rods at a temperature; None where it is colder than anything is known."""
        return next((step.lasting for step in self.ladder if step.temp_c <= temp_c), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """The bank as the page reckons with it: every travelling battery, the rig without readings, the kinds of rods."""

    batteries: tuple[BatteryOutlook, ...]
    bank: tuple[tuple[str, ...], ...]
    rig: Rig | None
    kinds: tuple[RodOnBank, ...]
    coldest_c: float
    hot_limit_ratio: float


def kinds_of_rods(bank: BankOutlook, rods: tuple[RodOutlook, ...], *, coldest_c: float) -> tuple[RodOnBank, ...]:
    """Every packed kind once, by diameter and designation, with what ends it at the coldest and under it."""
    found: dict[str, RodOnBank] = {}
    for rod in rods:
        if rod.lasting is None or rod.words in found:
            continue
        ladder = tuple(_ladder(bank, rod, coldest_c))
        if ladder:
            found[rod.words] = RodOnBank(rod=rod, charge_ah=rod.lasting.charge_ah, ladder=ladder)
    return tuple(found.values())


def _ladder(bank: BankOutlook, rod: RodOutlook, coldest_c: float) -> list[ColdStep]:
    from kitlist.outlook.lasting import lasting
    from kitlist.outlook.leads import first_to_warm
    from kitlist.physics.bank.endurance import RodUse

    steps: list[ColdStep] = []
    temp_c = coldest_c
    while bank.rig is not None and rod.band is not None and rod.lasting is not None and temp_c >= COLDEST_KNOWN_C:
        batteries = {name: replace(one, coldest_c=temp_c) for name, one in bank.batteries.items()}
        covering = rod.designation.covering if rod.designation else None
        use = RodUse(charge_ah=rod.lasting.charge_ah, count=rod.rod.count, covering=covering)
        lead = first_to_warm(bank.leads_used)
        found = lasting(bank.rig, batteries, use, rod.band, lead=lead, taught=bank.bead is not None)
        if found is not None:
            steps.append(ColdStep(temp_c=temp_c, lasting=_no_better(found, steps[-1].lasting) if steps else found))
        temp_c = max(temp_c - LADDER_K, COLDEST_KNOWN_C) if temp_c > COLDEST_KNOWN_C else temp_c - LADDER_K
    return steps


def _no_better(colder: Lasting, warmer: Lasting) -> Lasting:
    """What ends the rods in the colder air, but never later than in the warmer.

    What a run from full meets first changes with the cold, and with it what that run says of all else: where the
    floor comes before the volts on load, nobody has looked how low these would have let it go.
    """
    kept = {}
    for name, own in colder.kept.items():
        was = warmer.kept[name]
        floor = replace(own.floor, always_ratio=max(own.floor.always_ratio, was.floor.always_ratio))
        kept[name] = replace(own, floor=floor, share_ratio=max(own.share_ratio, was.share_ratio))
    rows = [count for count in (colder.in_a_row, warmer.in_a_row) if count is not None]
    return replace(colder, kept=kept, in_a_row=min(rows, default=None))


def exported(reckoned: Reckoned) -> dict[str, Any]:
    """All of it as plain data for the page."""
    names = [one.battery.name for one in reckoned.batteries]
    return {
        "figures": _figures(),
        "tables": _tables(),
        "hot_limit_ratio": reckoned.hot_limit_ratio,
        "coldest_c": reckoned.coldest_c,
        "batteries": [_battery(one) for one in reckoned.batteries],
        "rig": None if reckoned.rig is None else _rig(reckoned.rig, names),
        "kinds": [_kind(kind, names) for kind in reckoned.kinds] if reckoned.rig is not None else [],
    }


def _span(span: Span | None) -> dict[str, float] | None:
    return None if span is None else {"low": span.low, "best": span.best, "high": span.high}


def _figures() -> dict[str, Any]:
    """Figures with a range as low, best, high; the others as a number."""
    spans = {
        "surface_v": figures.SURFACE_V,
        "battery_temp_c": figures.BATTERY_TEMP_C,
        "charge_not_known": figures.CHARGE_NOT_KNOWN,
        "activation_v": figures.ACTIVATION_V,
        "cold_slope": figures.COLD_SLOPE,
        "flat_rise": figures.FLAT_RISE,
        "slow_share": figures.SLOW_SHARE,
        "lead_length": figures.LEAD_LENGTH,
        "lead_area": figures.LEAD_AREA,
        "arc_foot_v": figures.ARC_FOOT_V,
        "arc_slope_v_per_mm": figures.ARC_SLOPE_V_PER_MM,
        "arc_length_mm": figures.ARC_LENGTH_MM,
        "arc_rise_ohm": figures.ARC_RISE_OHM,
        "arc_c_w": figures.ARC_C_W,
        "arc_d_w_per_mm": figures.ARC_D_W_PER_MM,
        "cellulosic_v": figures.CELLULOSIC_V,
        "hand_mm": figures.HAND_MM,
    }
    plain = {
        "ocv_slope": figures.OCV_SLOPE,
        "bled_v": figures.BLED_V,
        "reserve_warm": figures.RESERVE_WARM,
        "meter_ratio": figures.METER_RATIO,
        "clamp_meter_ratio": figures.CLAMP_METER_RATIO,
        "copper_temp": figures.COPPER_TEMP,
        "warm_limit": figures.WARM_LIMIT,
    }
    return {
        **{name: _span(Span.of(figure)) for name, figure in spans.items()},
        **{name: figure.value for name, figure in plain.items()},
        "lattice": {"points": lattice.POINTS, "generator": lattice.GENERATOR},
        "most_rods": MOST_RODS,
    }


def _tables() -> dict[str, Any]:
    kinds = kinds_of(Chemistry.UNKNOWN)
    columns = {
        "ocv_temperature": ("ocv_temperature", "temp_c", "offset_v"),
        "load_test": ("load_test_volts", "temp_c", "least_v"),
        "cold_capacity": ("cold_capacity", "temp_c", "capacity_ratio"),
    }
    return {
        "ocv": {str(kind): ocv_points(kind) for kind in kinds},
        "limits": {str(kind): limits_of(kind) for kind in kinds},
        **{name: [(float(row[x]), float(row[y])) for row in table(of)] for name, (of, x, y) in columns.items()},
    }


def _battery(one: BatteryOutlook) -> dict[str, Any]:
    from kitlist.outlook.bank import bank_battery

    told = {
        "name": one.battery.name,
        "chemistry": str(one.battery.chemistry),
        "capacity_ah": one.battery.c20_ah,
        "floor": _floor(one.floor),
    }
    if one.resistance is None:
        return told
    seen = bank_battery(one)
    return told | {
        "rated": seen.rated,
        "new_ohm": _span(seen.resistance.new_ohm),
        "age_ratio": _span(seen.resistance.age_ratio),
        "post_joint_ohm": _span(seen.post_joint_ohm),
    }


def _floor(floor: Floor) -> dict[str, Any]:
    crank = floor.cranking
    return {
        "warm_ratio": floor.warm_ratio,
        "cold_ratio": floor.cold_ratio,
        "cold_below_c": floor.cold_below_c,
        "always_ratio": floor.always_ratio,
        "cranking": None
        if crank is None
        else {
            "chemistry": str(crank.chemistry),
            "resistance": crank.resistance.now_ohm.best,
            "crank_a": crank.current_a,
        },
    }


def _rig(rig: Rig, names: list[str]) -> dict[str, Any]:
    leads = rig.leads
    return {
        "groups": [[names.index(battery.name) for battery in group] for group in rig.groups],
        "in_series": rig.in_series,
        "in_parallel": len(rig.batteries) // rig.in_series,
        "link_ohm_20c": rig.link_ohm_20c,
        "temp_c": _span(rig.temp_c),
        "leads": {
            "conductor_ohm_20c": leads.conductor_ohm_20c,
            "factor": _span(leads.factor),
            "end_joints_ohm": _span(leads.end_joints_ohm),
            "more_joints_ohm": _span(leads.more_joints_ohm),
            "temp_c": _span(leads.temp_c),
            "measured_ohm": _span(leads.measured_ohm),
            "ballast_ohm": leads.ballast_ohm,
        },
    }


def _kind(kind: RodOnBank, names: list[str]) -> dict[str, Any]:
    rod = kind.rod
    return {
        "words": rod.words,
        "rod": rod.rod.name,
        "cellulosic": kind.cellulosic,
        "charge_ah": _span(kind.charge_ah),
        "range_a": [rod.range.low_a, rod.range.high_a] if rod.range else None,
        "cold_ladder": [
            {"temp_c": step.temp_c, "in_a_row": _in_a_row(step.lasting), "kept": _kept(step.lasting, names)}
            for step in kind.ladder
        ],
    }


def _in_a_row(lasting: Lasting) -> int:
    return MOST_RODS if lasting.in_a_row is None else lasting.in_a_row


def _kept(lasting: Lasting, names: list[str]) -> list[tuple[int, Mapping[str, float]]]:
    return [
        (names.index(name), {"share_ratio": kept.share_ratio, "always_ratio": kept.floor.always_ratio})
        for name, kept in lasting.kept.items()
    ]
