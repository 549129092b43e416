"""Where the physics comes from, as one list: figures, formulas and tables. `--sources` and the docs read it."""

from __future__ import annotations

from collections.abc import Callable

from kitlist.outlook.options import advice, planner
from kitlist.physics import figures
from kitlist.physics.arc import arc, bead
from kitlist.physics.bank import band, book, endurance, learning, network, pairs, quickband, strings_apart, verdict
from kitlist.physics.battery import capacity, charge, cranking, gas, recharge, resistance, standing
from kitlist.physics.leads import ballast, cable, link_readings, warming

FIGURES = (
    *figures.ALL,
    *recharge.FIGURES,
    *ballast.FIGURES,
    *pairs.FIGURES,
    *strings_apart.FIGURES,
    *learning.FIGURES,
)

FORMULAS: tuple[Callable[..., object], ...] = (
    charge.rested_volts,
    charge.state_of_charge,
    charge.shorted_cell_suspected,
    standing.carry_forward,
    standing.freezing_point,
    resistance.source_resistance,
    resistance.effect_of_state,
    resistance.activation_drop,
    resistance.wear,
    cranking.to_sae,
    cranking.least_crank_volts,
    cranking.crank_check,
    recharge.most_volts,
    recharge.current_into_battery,
    recharge.recharge_h,
    recharge.panel_ah_a_day,
    recharge.not_charged,
    gas.hydrogen_l,
    gas.spark_distance_m,
    cable.ohm_per_m,
    cable.warmed,
    cable.joint,
    warming.rise_per_rod,
    warming.cooling_s,
    warming.duty_rating,
    warming.short_circuit,
    warming.stuck_rod_effect,
    warming.jumper_limit,
    ballast.resistivity,
    ballast.heat_of_strip,
    ballast.length_for,
    arc.arc_for,
    arc.arc_volts,
    arc.arc_through,
    arc.operating_point,
    arc.longest_arc,
    arc.how_held,
    arc.ballast_for,
    network.norton_sum,
    network.flow_at,
    network.feed,
    network.stuck_rod,
    band.current_band,
    quickband.battery_moments,
    quickband.middle_and_spread,
    verdict.fit_of,
    capacity.continuous_burn_h,
    capacity.reserve_minutes,
    capacity.capacity_from_reserve,
    capacity.draw,
    endurance.reserve_ratio,
    endurance.rods_to_reserve,
    endurance.burn_rods,
    book.in_order,
    book.days_book,
    pairs.rejoin_halves,
    pairs.rejoin_twins,
    pairs.twin_may_go,
    pairs.unequal_halves,
    strings_apart.circulating_charge,
    learning.ah_from_volts,
    learning.rod_ah_reading,
    learning.learn_from,
    learning.hit_rate,
    learning.narrows_by,
    bead.work_out,
    bead.two_points,
    bead.learn,
    planner.plan_bank,
    advice.what_would_help,
    link_readings.readings,
)
"""Every formula that carries sources, in reading order; a test finds any that is missing."""

TABLES: tuple[str, ...] = (
    "open_circuit_volts",
    "chemistry_limits",
    "ocv_temperature",
    "freezing",
    "cranking_standards",
    "load_test_volts",
    "conductor_resistance",
    "joints",
    "cable_duty",
    "insulation_limits",
    "jumper_leads",
)
"""Reference tables by name; each row has its own tag and source."""
