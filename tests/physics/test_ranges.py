"""The range that each formula says it is valid in: both ends are answered, and just past either is refused."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kitlist.base.errors import KitlistError
from kitlist.base.span import Span
from kitlist.base.terms import BallastMetal, Chemistry, CrankingStandard
from kitlist.physics.arc.arc import Arc, arc_volts, operating_point
from kitlist.physics.arc.bead import BeadReadings, work_out
from kitlist.physics.battery.charge import state_of_charge
from kitlist.physics.battery.cranking import least_crank_volts, to_sae
from kitlist.physics.battery.gas import hydrogen_l, spark_distance_m
from kitlist.physics.battery.recharge import Feed, current_into_battery, panel_ah_a_day, recharge_h
from kitlist.physics.battery.resistance import effect_of_state, source_resistance
from kitlist.physics.battery.standing import monthly_loss
from kitlist.physics.leads.ballast import Strip, heat_of_strip, length_for, resistivity
from kitlist.physics.leads.cable import LeadRun, lead_resistance, warmed
from kitlist.physics.leads.warming import duty_rating, rise_per_rod

Asked = Callable[[float], object]
STRIP = Strip(BallastMetal.STAINLESS, 200.0, 12.0)


def recharged(**given: object) -> object:
    asked = {"soc_ratio": Span.exactly(0.5), "to_soc_ratio": 0.8, "capacity_ah": 70.0, "current_a": Span.exactly(10.0)}
    return recharge_h(**(asked | given))  # type: ignore[arg-type]


def bead(**given: float) -> object:
    return work_out(BeadReadings(**({"rest_v": 37.9, "bank_v": 33.0, "current_a": 150.0, "in_series": 3} | given)))  # type: ignore[arg-type]


RANGES: dict[str, tuple[Asked, float, float, str]] = {
    "monthly loss, °C": (lambda x: monthly_loss(chemistry=Chemistry.AGM, temp_c=x), -40, 50, "-40 to 50"),
    "meter": (
        lambda x: state_of_charge(chemistry=Chemistry.AGM, rested_v=12.5, rested_h=9, meter_ratio=x), 0, 0.05, "meter"
    ),
    "hydrogen, Ah": (lambda x: hydrogen_l(surplus_ah=x), 0, 1000, "0 to 1000"),
    "sparks, Ah": (lambda x: spark_distance_m(capacity_ah=x), 1, 400, "1 to 400"),
    "cranking rating, A": (lambda x: to_sae(rating_a=x, standard=CrankingStandard.EN), 30, 2500, "30 to 2500"),
    "cranking, °C": (lambda x: least_crank_volts(temp_c=x), -18, 60, "°C"),
    "tester, mohm": (lambda x: source_resistance(tester_mohm=x), 0.5, 100, "0.5 to 100"),
    "CCA, A": (lambda x: source_resistance(cca_sae=Span.exactly(x)), 30, 2500, "30 to 2500"),
    "C20, Ah": (lambda x: source_resistance(capacity_ah=x), 1, 400, "1 to 400"),
    "resistance, °C": (lambda x: effect_of_state(soc_ratio=0.5, temp_c=x), -40, 60, "-40 to 60"),
    "resistance, charge": (lambda x: effect_of_state(soc_ratio=x, temp_c=20), 0, 1, "0 to 1"),
    "source": (lambda x: current_into_battery(Feed.CHARGER, rating=x, capacity_ah=70), 0.5, 1000, "0.5 to 1000"),
    "charged from": (lambda x: recharged(soc_ratio=Span.exactly(x)), 0, 1, "0 to 1 of full"),
    "charged to": (lambda x: recharged(to_soc_ratio=x), 0, 1, "0 to 1 of full"),
    "charged at, °C": (lambda x: recharged(temp_c=x), -40, 50, "-40 to 50"),
    "charged with, V": (lambda x: recharged(charge_v=x), 13.6, 14.8, "V on charge"),
    "panel, W": (lambda x: panel_ah_a_day(watt=x, sun_h=5), 1, 1000, "1 to 1000"),
    "sun, h": (lambda x: panel_ah_a_day(watt=100, sun_h=x), 0, 14, "0 to 14"),
    "adiabatic, A": (lambda x: rise_per_rod(current_a=x, burn_s=1, area_mm2=95, start_c=30), 0, 3000, "0-3000"),
    "adiabatic, s": (lambda x: rise_per_rod(current_a=50, burn_s=x, area_mm2=95, start_c=30), 0, 600, "0-600"),
    "duty": (lambda x: duty_rating(area_mm2=25, duty_ratio=x), 0.08, 1, "0.08 to 1"),
    "duty, °C around": (lambda x: duty_rating(area_mm2=25, duty_ratio=1, ambient_c=x), -20, 60, "-20 to 60"),
    "strip's metal, °C": (lambda x: resistivity(metal=BallastMetal.MILD, temp_c=x), -40, 1000, "°C"),
    "strip, wide": (lambda x: Strip(BallastMetal.MILD, x, 1), 3, 200, "3 to 200"),
    "strip, thick": (lambda x: Strip(BallastMetal.MILD, 30, x), 0.3, 12, "0.3 to 12"),
    "strip, A": (lambda x: heat_of_strip(STRIP, current_a=x), 1, 600, "1 to 600"),
    "strip, °C of air": (lambda x: heat_of_strip(STRIP, current_a=99, ambient_c=x), -40, 60, "-40 to 60"),
    "strip, s of arc": (lambda x: heat_of_strip(STRIP, current_a=99, burn_s=x, pause_s=1), 1, 1000, "1 to 1000"),
    "strip, s of pause": (lambda x: heat_of_strip(STRIP, current_a=99, burn_s=1, pause_s=x), 0, 7200, "0 to 7200"),
    "lead, m": (lambda x: lead_resistance(LeadRun(length_m=x, area_mm2=25)), 0, 120, "0 to 120"),
    "lead, °C": (lambda x: warmed(ohm_at_20c=1, temp_c=x), -40, 200, "-40 to 200"),
    "arc, A": (lambda x: arc_volts(Arc(), current_a=x), 1, 1000, "1 to 1000"),
    "bank, V": (lambda x: operating_point(source_v=x, source_ohm=0.03), 0, 80, "0 to 80"),
    "bead, A": (lambda x: bead(current_a=x, bank_v=36.5), 20, 600, "20 to 600"),
    "bead, V at rest of three": (lambda x: bead(rest_v=x, bank_v=29), 32.1, 40.5, "32.1 to 40.5"),
    "bead, in series": (lambda x: bead(in_series=x, rest_v=12.5 * x, bank_v=11 * x), 1, 4, "1 to 4"),
    "bead, strings": (lambda x: bead(in_parallel=x), 1, 4, "1 to 4"),
}  # fmt: skip


@pytest.mark.parametrize("name", RANGES)
def test_both_ends_are_answered_and_just_past_either_is_refused_with_the_range(name: str) -> None:
    ask, low, high, said = RANGES[name]
    past = min(0.5, 0.01 * (high - low))
    assert ask(low) is not None
    assert ask(high) is not None
    for beyond in (low - past, high + past):
        with pytest.raises(KitlistError, match=said.replace(".", r"\.")):
            ask(beyond)


@pytest.mark.parametrize("volts", [0.0, 20.0])
def test_a_meter_s_0_to_20_v_are_looked_at_and_no_more(volts: float) -> None:
    def read(volts_v: float) -> object:
        return state_of_charge(chemistry=Chemistry.FLOODED, rested_v=volts_v, rested_h=24, temp_c=25)

    if volts:
        with pytest.raises(KitlistError, match="over half a volt above"):
            read(volts)
        volts += 0.4
    else:
        assert read(volts) is not None
        volts -= 0.4
    with pytest.raises(KitlistError, match="0 to 20 V"):
        read(volts)


@pytest.mark.parametrize(("ohm", "answered"), [(1.0, True), (1.01, False), (0.0, False)])
def test_ballast_is_over_nothing_and_up_to_an_ohm(ohm: float, answered: bool) -> None:
    heat = heat_of_strip(Strip(BallastMetal.STAINLESS, 30, 1), current_a=100.0, burn_s=1, pause_s=0)
    if answered:
        assert length_for(ohm=ohm, heat=heat) > 0
    else:
        with pytest.raises(KitlistError, match="0 to 1000"):
            length_for(ohm=ohm, heat=heat)


@pytest.mark.parametrize(("ohm", "answered"), [(5.0, True), (5.05, False), (0.0, False)])
def test_a_bank_has_over_no_resistance_and_up_to_5_ohm(ohm: float, answered: bool) -> None:
    if answered:
        assert operating_point(source_v=36.0, source_ohm=ohm).stuck_a == 36.0 / ohm
    else:
        with pytest.raises(KitlistError, match="0 to 5 ohm"):
            operating_point(source_v=36.0, source_ohm=ohm)
