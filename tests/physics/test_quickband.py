"""The band to first order: each mean and variance against plain arithmetic on the formula that it stands for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import exp, log, sqrt

import pytest

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry, Covering
from kitlist.physics.bank.examples import sound_battery
from kitlist.physics.bank.quickband import (
    ArcMoments,
    arc_moments,
    battery_moments,
    ends,
    held_current,
    lead_moments,
    middle_and_spread,
)
from kitlist.physics.bank.rig import Leads
from kitlist.physics.battery.resistance import Basis, SourceResistance
from physics.sampled_rig import flooded_volts

STEPS = [(k + 0.5) / 4000 for k in range(4000)]


def even(low: float, high: float) -> tuple[float, float]:
    """Mean and variance of an even spread."""
    return (low + high) / 2, (high - low) ** 2 / 12


def in_logs(low: float, high: float) -> tuple[float, float]:
    """The same of a spread that is even in logarithms, by adding up."""
    values = [exp(log(low) + q * log(high / low)) for q in STEPS]
    mean = sum(values) / len(values)
    return mean, sum((value - mean) ** 2 for value in values) / len(values)


def relative_variance(formula: Callable[..., float], facts: Mapping[str, tuple[float, float]]) -> dict[str, float]:
    """What each fact adds to the variance of the formula's logarithm, by its slope at the means."""
    means = {name: mean for name, (mean, _) in facts.items()}
    found = {}
    for name, (mean, variance) in facts.items():
        step = 1e-5 * max(1.0, abs(mean))
        up, down = (log(formula(**(means | {name: mean + side}))) for side in (step, -step))
        found[name] = ((up - down) / (2 * step)) ** 2 * variance
    return found


def inner_ohm(*, new: float, age: float, beta: float, temp: float, flat: float, soc: float, slow: float) -> float:
    return new * age * exp(-beta * (temp - 25)) * (1 + flat * (1 - soc)) * (1 + slow)


SOC, TEMP, NEW, AGE, JOINT = Span(0.3, 0.5, 0.6), Span(-20, -5, 4), Span(0.004, 0.005, 0.007), (1.0, 1.6), (3e-4, 3e-3)
OWN = {"age", "soc"}


@pytest.mark.parametrize("basis", [Basis.CRANKING, Basis.LOADED])
def test_a_battery_s_mean_and_variances_are_those_of_the_formula(basis: Basis) -> None:
    battery = replace(
        sound_battery(), resistance=SourceResistance(NEW, Span(AGE[0], 1.2, AGE[1]), basis), soc_ratio=SOC
    )
    facts = {
        "new": even(NEW.low, NEW.high),
        "age": even(*AGE),
        "beta": even(0.007, 0.016),
        "temp": even(TEMP.low, TEMP.high),
        "flat": even(0.3, 1.0),
        "soc": even(SOC.low, SOC.high),
        "slow": even(0.0, 0.4),
    }
    seen = battery_moments(battery, temp_c=TEMP)
    bend = 1 + facts["beta"][0] ** 2 * facts["temp"][1] / 2  # the mean of an exponential is over that of its middle
    inner = inner_ohm(**{name: mean for name, (mean, _) in facts.items()}) * bend
    assert seen.inner_ohm == pytest.approx(inner)
    joint, joint_variance = in_logs(*JOINT)
    assert seen.ohm == pytest.approx(inner + 2 * joint, rel=1e-6)
    parts = relative_variance(inner_ohm, facts)
    own = OWN if basis is Basis.CRANKING else OWN | {"new"}  # what a label says wrong it says wrong of all alike
    assert seen.ohm_variance == pytest.approx(
        sum(parts[name] for name in own) * inner**2 + 2 * joint_variance, rel=1e-5
    )
    assert seen.ohm_shared == pytest.approx(sqrt(sum(parts[name] for name in set(parts) - own)) * inner, rel=1e-5)
    assert seen.ocv_v == pytest.approx(flooded_volts(0.45) + 0.05 + 0.00125 * (facts["temp"][0] - 25))
    table_v = flooded_volts(SOC.high) - flooded_volts(SOC.low)
    assert seen.ocv_variance == pytest.approx((table_v**2 + 0.2**2) / 12)


def test_a_reading_stands_for_itself_and_an_unknown_chemistry_for_flooded() -> None:
    read = battery_moments(replace(sound_battery(), ocv_25_v=Span(12.5, 12.55, 12.7)), temp_c=Span.exactly(5.0))
    assert (read.ocv_v, read.ocv_variance) == pytest.approx((12.6 - 0.025, 0.2**2 / 12))
    unknown = replace(sound_battery(), chemistry=Chemistry.UNKNOWN)
    assert battery_moments(unknown, temp_c=TEMP) == battery_moments(sound_battery(), temp_c=TEMP)


@pytest.mark.parametrize(
    ("joint", "mean", "variance"),
    [(Span(0.0, 0.0, 0.006), 0.003, 0.006**2 / 12), (Span.exactly(0.002), 0.002, 0.0)],
)
def test_a_joint_down_to_nothing_is_spread_evenly_and_a_known_one_not_at_all(joint, mean, variance) -> None:
    without = replace(sound_battery(), post_joint_ohm=Span.exactly(0.0))
    plain, seen = (battery_moments(one, temp_c=TEMP) for one in (without, replace(without, post_joint_ohm=joint)))
    assert seen.ohm - plain.ohm == pytest.approx(2 * mean)
    assert seen.ohm_variance - plain.ohm_variance == pytest.approx(2 * variance)


def conductor_ohm(*, length: float, per_area: float, factor: float) -> float:
    return 0.004 * length * per_area * factor * (1 + 0.00393 * (50 - 20))


def test_the_leads_mean_and_variance_are_those_of_the_formula() -> None:
    areas = [0.75 + 0.25 * q for q in STEPS]
    mean = sum(1 / area for area in areas) / len(areas)
    variance = sum((1 / area - mean) ** 2 for area in areas) / len(areas)
    facts = {"length": even(0.9, 1.1), "per_area": (mean, variance), "factor": even(1.4, 1.7)}
    leads = Leads(
        conductor_ohm_20c=0.004,
        factor=Span(1.4, 1.6, 1.7),
        temp_c=Span(20, 45, 80),
        more_joints_ohm=Span(1e-4, 2e-4, 9e-4),
        ballast_ohm=0.06,
    )
    seen = lead_moments(leads)
    conductor = conductor_ohm(**{name: value for name, (value, _) in facts.items()})
    (ends_ohm, ends_variance), (more, more_variance) = in_logs(7e-4, 6e-3), in_logs(1e-4, 9e-4)
    assert seen.conductor_ratio == pytest.approx(conductor / 0.004, rel=1e-6)
    assert seen.ohm == pytest.approx(conductor + ends_ohm + more + 0.06, rel=1e-6)
    relative = sum(relative_variance(conductor_ohm, facts).values())
    assert seen.variance == pytest.approx(conductor**2 * relative + ends_variance + more_variance, rel=1e-5)
    measured = lead_moments(replace(leads, measured_ohm=Span(0.004, 0.005, 0.008)))
    assert (measured.ohm, measured.variance) == pytest.approx((0.066, 0.004**2 / 12))


def test_a_cellulosic_covering_moves_the_foot_and_its_variance() -> None:
    assert arc_moments(Covering.CELLULOSIC).foot_v == pytest.approx((20.5, (9 + 1) / 12))
    assert arc_moments().foot_v == arc_moments(Covering.RUTILE).foot_v == pytest.approx((17.0, 9 / 12))


MEANS = {"emf": 36.5, "ohm": 0.035, "foot": 17.0, "slope": 1.05, "c": 11.8, "d": 18.8, "rise": 0.0375}
PLACE_VARIANCE = 1 / 12


def spread_of(variances: Mapping[str, float], **other: float) -> tuple[float, float]:
    means = MEANS | other
    arc = ArcMoments(*((means[name], variances.get(name, 0.0)) for name in ("foot", "slope", "c", "d", "rise")))
    return middle_and_spread(
        emf_v=means["emf"],
        emf_variance=variances.get("emf", 0.0),
        ohm=means["ohm"],
        ohm_variance=variances.get("ohm", 0.0),
        arc=arc,
    )


def moved_a(values: list[float], place: int, step: float) -> float:
    """How far the current moves on the average, one figure a step either way; a side without an arc does not count."""
    middle = held_current(*values)
    sides = [held_current(*values[:place], values[place] + way * step, *values[place + 1 :]) for way in (1, -1)]
    burning = [abs(current - middle) for current in sides if current]
    return sum(burning) / len(burning)


def test_the_spread_is_the_root_of_the_summed_squares_of_what_each_figure_moves() -> None:
    variances = {"emf": 0.2, "ohm": 3e-5, "foot": 0.75, "slope": 0.04, "c": 16.0, "d": 42.0, "rise": 5e-5}
    values = [*MEANS.values(), 0.5]
    middle = held_current(*values)
    hand = moved_a(values, 7, sqrt(PLACE_VARIANCE))
    moves = {name: moved_a(values, place, sqrt(variances[name])) for place, name in enumerate(MEANS)}
    for name, moved in moves.items():
        assert spread_of({name: variances[name]}) == pytest.approx((middle, sqrt(moved**2 + hand**2) / middle)), name
    whole = sqrt(hand**2 + sum(moved**2 for moved in moves.values()))
    assert spread_of(variances) == pytest.approx((middle, whole / middle))


def test_a_figure_is_never_moved_to_nothing_and_a_side_without_an_arc_counts_as_the_other() -> None:
    values = [*MEANS.values(), 0.5]
    middle, hand = held_current(*values), moved_a(values, 7, sqrt(PLACE_VARIANCE))
    _, wide = spread_of({"slope": 25.0})
    assert wide == pytest.approx(sqrt(moved_a(values, 3, 0.9 * 1.05) ** 2 + hand**2) / middle)
    short = [24.0, *values[1:]]
    assert held_current(21.0, *short[1:]) == 0.0
    hand = moved_a(short, 7, sqrt(PLACE_VARIANCE))
    moved = held_current(27.0, *short[1:]) - held_current(*short)
    assert spread_of({"emf": 9.0}, emf=24.0)[1] == pytest.approx(sqrt(moved**2 + hand**2) / held_current(*short))
    assert spread_of({"emf": 400.0}, emf=24.0)[1] == 1.0
    assert spread_of({"emf": 0.1}, emf=18.0) == (0.0, 0.0)


def test_the_ends_are_those_of_a_band_that_is_normal_in_logarithms() -> None:
    assert ends(200.0, 0.25) == pytest.approx((200 * exp(-0.25 * 1.2815515655), 200 * exp(0.25 * 1.2815515655)))
