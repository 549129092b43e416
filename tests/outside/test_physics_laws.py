"""Laws that any bank obeys, tried on thousands of made-up ones."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kitlist.base.span import Span
from kitlist.base.terms import Chemistry
from kitlist.physics.arc.arc import Arc
from kitlist.physics.bank.endurance import RodUse, burn_rods
from kitlist.physics.bank.examples import in_series
from kitlist.physics.bank.network import Network, Unit, feed
from kitlist.physics.bank.rig import Rig
from kitlist.physics.battery.charge import rested_volts, state_of_charge

untimed = settings(deadline=None)
LEAD_ACID = [Chemistry.FLOODED, Chemistry.CALCIUM, Chemistry.EFB, Chemistry.AGM, Chemistry.GEL]


@st.composite
def units(draw, name="a"):
    return Unit(
        name=name,
        ocv_v=draw(st.floats(11.9, 13.0)),
        ohm=draw(st.floats(0.002, 0.02)),
        joint_ohm=draw(st.floats(0.0, 0.004)),
        activation_v=draw(st.floats(0.2, 0.6)),
    )


@st.composite
def strings(draw, size=None):
    size = size or draw(st.integers(2, 4))
    return tuple(draw(units(name=f"battery {number}")) for number in range(size))


arcs = st.builds(Arc, length_mm=st.floats(0.5, 6.0), foot_v=st.floats(15.0, 21.0), rise_ohm=st.floats(0.025, 0.05))
ohms = st.floats(0.0, 0.2)


@given(strings(), arcs, ohms, st.floats(0.0001, 0.2))
@untimed
def test_more_resistance_never_raises_the_current(string, arc, external, more):
    before = feed(Network(groups=(string,), external_ohm=external), arc).point
    after = feed(Network(groups=(string,), external_ohm=external + more), arc).point
    assert after.current_a <= before.current_a * (1 + 1e-12)
    assert after.stuck_a < before.stuck_a
    assert after.longest_mm <= before.longest_mm + 1e-9


@given(strings(), arcs, ohms, st.randoms(use_true_random=False))
@untimed
def test_the_order_of_batteries_in_a_string_changes_nothing(string, arc, external, chance):
    shuffled = list(string)
    chance.shuffle(shuffled)
    one = feed(Network(groups=(string,), external_ohm=external), arc)
    other = feed(Network(groups=(tuple(shuffled),), external_ohm=external), arc)
    assert abs(one.point.current_a - other.point.current_a) <= 1e-9 * max(1.0, one.point.current_a)
    volts = {battery.name: battery.terminal_v for battery in one.batteries}
    for battery in other.batteries:
        assert abs(battery.terminal_v - volts[battery.name]) < 1e-7


@given(strings(), arcs, ohms)
@untimed
def test_of_two_equal_strings_each_carries_exactly_half_and_the_total_never_falls(string, arc, external):
    twin = tuple(replace(unit, name=f"{unit.name} too") for unit in string)
    alone = feed(Network(groups=(string,), external_ohm=external), arc)
    both = feed(Network(groups=(string, twin), external_ohm=external), arc)
    assert both.point.current_a >= alone.point.current_a * (1 - 1e-12)
    assume(both.point.burns)
    for battery in both.batteries:
        assert abs(battery.current_a - both.point.current_a / 2) <= 1e-9 * both.point.current_a


@given(strings(size=3), strings(size=3), arcs, ohms)
@untimed
def test_currents_of_parallel_strings_sum_to_the_arc_and_their_volts_agree(one, other, arc, external):
    other = tuple(replace(unit, name=f"{unit.name} too") for unit in other)
    flow = feed(Network(groups=(one, other), external_ohm=external), arc)
    assume(flow.point.burns)
    first, second = flow.batteries[0].current_a, flow.batteries[3].current_a
    assert abs(first + second - flow.point.current_a) < 1e-6
    for string, amps in ((one, first), (other, second)):
        if amps != 0.0:
            sign = 1 if amps > 0 else -1
            volts = sum(u.ocv_v - sign * u.activation_v - amps * u.branch_ohm for u in string)
            assert abs(volts - flow.bank_v) < 1e-6


@given(st.lists(st.floats(20.0, 120.0), min_size=3, max_size=3), st.lists(st.floats(0.55, 1.0), min_size=3, max_size=3))
@settings(untimed, max_examples=40)
def test_the_weakest_battery_bounds_the_rods(capacities, charges):
    plain = in_series(3)
    batteries = tuple(
        replace(b, soc_ratio=Span.exactly(s), capacity_ah=c)
        for b, c, s in zip(plain.batteries, capacities, charges, strict=True)
    )
    run = burn_rods(
        Rig(groups=(batteries,), leads=plain.leads),
        RodUse(charge_ah=Span(1.0, 2.0, 3.0), count=100),
        reserves={b.name: 0.5 for b in batteries},
    )
    weakest = min((s - 0.5) * c / 2.0 for s, c in zip(charges, capacities, strict=True))
    assert run.rods <= weakest + 1e-6


@given(st.sampled_from(LEAD_ACID), st.floats(0.0, 1.0), st.floats(-15.0, 45.0))
@untimed
def test_charge_read_back_from_its_own_volts_is_inside_its_bounds(chemistry, soc, temp_c):
    volts = rested_volts(soc_ratio=soc, chemistry=chemistry, temp_c=temp_c)
    charge = state_of_charge(chemistry=chemistry, rested_v=volts, rested_h=12.0, temp_c=temp_c)
    assert charge.soc_ratio.low <= soc <= charge.soc_ratio.high + 1e-12
    assert abs(charge.soc_ratio.best - soc) < 1e-6


@given(st.sampled_from([*LEAD_ACID, Chemistry.UNKNOWN]), st.floats(8.0, 12.9), st.floats(0.001, 0.2))
@untimed
def test_more_volts_never_mean_less_charge(chemistry, volts, more):
    low = state_of_charge(chemistry=chemistry, rested_v=volts, rested_h=24.0, temp_c=20.0).soc_ratio
    high = state_of_charge(chemistry=chemistry, rested_v=volts + more, rested_h=24.0, temp_c=20.0).soc_ratio
    assert high.low >= low.low
    assert high.high >= low.high
    assert high.best >= low.best - 1e-12
