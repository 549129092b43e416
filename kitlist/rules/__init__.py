"""The rules, one file each, in the order in which their gaps are mended."""

from __future__ import annotations

from kitlist.rules import (
    arc_lead_missing,
    arc_out_of_reach,
    bank_mixed,
    bank_too_small,
    battery_not_looked_at,
    battery_refused,
    battery_under_floor,
    charge_not_known,
    coldest_not_known,
    current_not_known,
    engine_may_not_start,
    extinguisher_missing,
    extinguisher_out_of_date,
    eye_protection_missing,
    face_uncovered,
    filter_too_light,
    fire_ban,
    fire_rules_not_asked,
    link_without_spare,
    links_too_few,
    no_bank_chosen,
    no_rod_for_bank,
    reading_missing,
    reading_stale,
    rod_damp,
    rod_not_known,
    rod_not_tested,
    rod_open_too_long,
    rods_missing,
    rods_of_two_polarities,
    wet_over_35_v,
)
from kitlist.rules.core import Case, Example, Gap, Rule, Severity, run

__all__ = ["RULES", "Case", "Example", "Gap", "Rule", "Severity", "run"]

RULES: tuple[Rule, ...] = (
    # may anybody weld at all
    fire_ban.RULE,
    fire_rules_not_asked.RULE,
    eye_protection_missing.RULE,
    face_uncovered.RULE,
    filter_too_light.RULE,
    wet_over_35_v.RULE,
    extinguisher_missing.RULE,
    extinguisher_out_of_date.RULE,
    # the bank
    no_bank_chosen.RULE,
    battery_refused.RULE,
    battery_not_looked_at.RULE,
    coldest_not_known.RULE,
    reading_missing.RULE,
    charge_not_known.RULE,
    reading_stale.RULE,
    battery_under_floor.RULE,
    engine_may_not_start.RULE,
    bank_mixed.RULE,
    # the circuit
    links_too_few.RULE,
    link_without_spare.RULE,
    arc_lead_missing.RULE,
    current_not_known.RULE,
    arc_out_of_reach.RULE,
    # the rods
    rods_missing.RULE,
    rod_not_known.RULE,
    rod_damp.RULE,
    rod_open_too_long.RULE,
    rod_not_tested.RULE,
    no_rod_for_bank.RULE,
    rods_of_two_polarities.RULE,
    bank_too_small.RULE,
)
