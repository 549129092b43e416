"""Charging and rest after rods against a porous-electrode model, as kept in `pybamm_field_cases.json`.

The model takes every ampere it is given: it neither gases nor tapers. So it bounds the fast end of a charge, and what
it says of rest is how long the acid takes to level; charge on the plates' surface is not in it.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kitlist.base.span import Span
from kitlist.physics.battery.recharge import recharge_h

CASES = json.loads(Path(__file__).with_name("pybamm_field_cases.json").read_text(encoding="utf-8"))
CAPACITY_AH = CASES["capacity_ah"]


@pytest.mark.parametrize("case", CASES["charges"], ids=lambda c: f"{c['current_a']:g}A-{c['put_back_ah']:g}Ah")
def test_no_charge_is_quicker_than_the_model_s_constant_current_and_its_fast_end_is_within_a_tenth(case):
    ours = recharge_h(
        soc_ratio=Span.exactly(0.5),
        to_soc_ratio=0.5 + case["put_back_ah"] / CAPACITY_AH,
        capacity_ah=CAPACITY_AH,
        current_a=Span.exactly(case["current_a"]),
    )
    assert 1.0 <= ours.low / case["hours"] <= 1.10
    assert ours.best > case["hours"]


def test_the_model_stays_far_under_the_volts_at_which_a_charge_tapers():
    assert all(case["highest_v"] < 14.4 for case in CASES["charges"])


def test_the_acid_is_level_a_quarter_of_an_hour_after_three_rods_and_not_after_a_minute():
    short = {entry["minutes"]: entry["short_of_rest_v"] for entry in CASES["levelling_after_three_rods"]}
    assert short[15] < 0.01
    assert short[1] > 0.02
    assert sorted(short.values(), reverse=True) == list(short.values())
