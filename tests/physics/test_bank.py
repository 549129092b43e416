"""The network: published worked examples and Kirchhoff's laws checked from outside."""

from __future__ import annotations

import pytest

from kitlist.base.errors import BadData, OutOfRange
from kitlist.physics.arc.arc import Arc, arc_volts
from kitlist.physics.bank.endurance import shares_of
from kitlist.physics.bank.examples import in_series
from kitlist.physics.bank.network import (
    Network,
    Unit,
    feed,
    flow_at,
    norton_sum,
    stuck_rod,
    thevenin,
)


def unit(name="a", ocv_v=12.65, ohm=0.005, **more):
    return Unit(name=name, ocv_v=ocv_v, ohm=ohm, **more)


def string(names, **more):
    return tuple(unit(name, **more) for name in names)


def test_three_cells_in_series_add_volts_and_resistance():
    seen = thevenin(Network(groups=(string("abc", ocv_v=9.0, ohm=1.2, activation_v=0.0),)))
    assert (seen.emf_v, seen.ohm) == pytest.approx((27.0, 3.6))


def test_two_cells_in_parallel_halve_the_resistance():
    assert norton_sum([(9.0, 1.2), (9.0, 1.2)]) == pytest.approx((9.0, 0.6))


def test_equalising_current_of_two_unequal_batteries():
    # 12.65 against 12.15 V, 6 mohm each, 2 mohm of leads: 35.7 A.
    pair = Network(groups=((unit("a", 12.65, 0.006),), (unit("b", 12.15, 0.006),)), group_ohm=(0.001, 0.001))
    _, flows = flow_at(pair, current_a=0.0)
    assert flows[0].current_a == pytest.approx(35.7, abs=0.05)
    assert flows[1].current_a == pytest.approx(-35.7, abs=0.05)


def test_a_single_string_circulates_nothing():
    assert [flow.current_a for flow in flow_at(Network(groups=(string("abc"),)), current_a=0.0)[1]] == [0.0, 0.0, 0.0]


def test_a_worked_bank_of_three_on_the_bare_load_line_gives_277_a():
    # 3 x 12.65 V behind 24.9 mohm against U = 20 + 0.04 I, no activation drop.
    network = Network(groups=(string("abc", ohm=0.0249 / 3, activation_v=0.0),))
    flow = feed(network, Arc(c_w=0.0, d_w_per_mm=0.0))
    assert flow.point.current_a == pytest.approx(277, abs=1)


def test_a_worked_bank_of_two_on_the_bare_load_line_gives_91_a():
    network = Network(groups=(string("ab", ohm=0.0181 / 2, activation_v=0.0),))
    assert feed(network, Arc(c_w=0.0, d_w_per_mm=0.0)).point.current_a == pytest.approx(91, abs=1)


def test_every_battery_of_a_string_carries_the_whole_current():
    flow = feed(Network(groups=(string("abc"),), external_ohm=0.01))
    assert {round(battery.current_a, 9) for battery in flow.batteries} == {round(flow.point.current_a, 9)}


def test_of_two_equal_strings_each_carries_half():
    flow = feed(Network(groups=(string("abc"), string("def")), external_ohm=0.01))
    for battery in flow.batteries:
        assert battery.current_a == pytest.approx(flow.point.current_a / 2, rel=1e-12)


def test_a_string_a_volt_a_battery_low_is_charged_while_welding():
    network = Network(groups=(string("abc"), string("def", ocv_v=9.6)), group_ohm=(0.001, 0.001), external_ohm=0.03)
    flow = feed(network)
    assert flow.batteries[-1].current_a < 0
    assert sum(flow.batteries[place].current_a for place in (0, 3)) == pytest.approx(flow.point.current_a)


def test_a_string_between_its_two_thresholds_stands_idle():
    # At 60 A the good string holds 12.65 - 0.4 - 0.6 = 11.65 V; a battery at 11.7 V neither gives nor takes.
    network = Network(groups=((unit("a", ohm=0.010),), (unit("b", 11.7, 0.010),)))
    _, flows = flow_at(network, current_a=60.0)
    assert flows[0].current_a == pytest.approx(60.0)
    assert (flows[1].current_a, flows[1].terminal_v) == (0.0, 11.7)


def test_equal_strings_at_rest_pass_nothing_round():
    pair = Network(groups=((unit("a", 12.0, 0.5),), (unit("b", 12.0, 0.5),)))
    volts, flows = flow_at(pair, current_a=0.0)
    assert volts == 12.0
    assert [(flow.current_a, flow.terminal_v) for flow in flows] == [(0.0, 12.0), (0.0, 12.0)]


@pytest.mark.parametrize("low_v", [12.65, 12.2, 11.5, 10.7, 9.6])
def test_where_bank_and_arc_meet_the_bank_s_volts_less_the_leads_are_the_arc_s(low_v):
    """Whether the second string helps, stands idle or is charged by the first."""
    network = Network(groups=(string("abc"), string("def", ocv_v=low_v)), group_ohm=(0.001, 0.001), external_ohm=0.03)
    flow = feed(network)
    amps = flow.point.current_a
    assert flow.bank_v - 0.03 * amps == pytest.approx(arc_volts(Arc(), current_a=amps), abs=1e-6)
    assert flow.thevenin.emf_v - flow.thevenin.ohm * amps == pytest.approx(flow.bank_v - 0.03 * amps, abs=1e-6)
    for own in flow.batteries:
        ocv_v, way = low_v if own.name in "def" else 12.65, (own.current_a > 0) - (own.current_a < 0)
        assert own.terminal_v == pytest.approx(ocv_v - 0.40 * way - 0.005 * own.current_a)
    ends_v = sum(own.terminal_v for own in flow.batteries[3:]) - 0.001 * flow.batteries[3].current_a
    assert flow.batteries[3].current_a == 0.0 or ends_v == pytest.approx(flow.bank_v)


def test_a_stuck_rod_on_three_is_over_a_kiloamp():
    stuck = stuck_rod(Network(groups=(string("abc"),), external_ohm=0.0099))
    assert stuck.current_a == pytest.approx(37.95 / 0.0249)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Network(groups=()),
        lambda: Network(groups=((),)),
        lambda: Network(groups=(string("ab"),), group_ohm=(0.0, 0.0)),
        lambda: norton_sum([]),
    ],
)
def test_a_bank_of_nothing_is_refused(make):
    with pytest.raises(BadData):
        make()


@pytest.mark.parametrize(
    "make",
    [
        lambda: unit(ohm=0.0),
        lambda: unit(ohm=-0.01, joint_ohm=0.02),
        lambda: unit(joint_ohm=-0.001),
        lambda: unit(activation_v=-0.1),
        lambda: Network(groups=(string("ab"),), external_ohm=-0.1),
        lambda: Network(groups=(string("ab"), string("cd")), group_ohm=(0.001, -0.001)),
    ],
)
def test_resistance_that_cannot_be_is_refused(make):
    with pytest.raises(OutOfRange):
        make()


def test_a_battery_without_any_activation_drop_is_taken():
    assert unit(activation_v=0.0, joint_ohm=0.0).branch_ohm == 0.005


def test_where_no_arc_burns_no_battery_has_a_share():
    assert shares_of(in_series(1), Arc()) == {}
