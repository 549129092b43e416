"""A check that cannot fail checks nothing: one owner at a time is cut in two, and its invariant must see it.

A cut lets one face decide for itself what an owner decides for all; a few of the crews are enough to show it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import floor
from typing import Any

import pytest

from faces import test_agree
from faces.test_agree import (
    Invariant,
    a_gap_stands_at_its_thing,
    an_offer_may_be_linked,
    everything_on_the_welded_vehicle_is_freed,
    nothing_is_done_before_what_it_follows,
    numbers_are_equal,
    the_card_s_go_is_a_go,
    what_may_not_be_linked_has_no_way_to_it,
)
from kitlist.faces.paper import build_items
from kitlist.faces.words import bank_json
from kitlist.kit.limits import standard
from kitlist.outlook import card, hardware, procedure_steps
from kitlist.outlook.offerable import Lost
from kitlist.outlook.options import offer, plan
from kitlist.physics.bank.band import Band
from kitlist.physics.bank.rods_by_volts import SureLikely
from kitlist.trips import timeline

Patch = pytest.MonkeyPatch


def _around(patch: Patch, home: Any, name: str, change: Callable[[Any], Any]) -> None:
    """Let one room alter what an owner answered."""
    owner = getattr(home, name)
    patch.setattr(home, name, lambda *given, **named: change(owner(*given, **named)))


def offers_show_the_quick_band(patch: Patch) -> None:
    def quick(made: offer.Offer | Lost) -> offer.Offer | Lost:
        if isinstance(made, Lost):
            return made
        option = made.option
        return replace(made, best=replace(made.best, band=Band(option.low_a, option.middle_a, option.high_a, 0.0)))

    _around(patch, plan, "offer_of", quick)


def offers_count_a_rod_more(patch: Patch) -> None:
    def more(made: offer.Offer | Lost) -> offer.Offer | Lost:
        if isinstance(made, Lost) or made.rods is None:
            return made
        count = SureLikely(made.rods.sure + 1, made.rods.likely + 1)
        return replace(made, best=replace(made.best, rods=replace(made.rods, count=count)))

    _around(patch, plan, "offer_of", more)


def the_json_of_bank_has_its_own_middle(patch: Patch) -> None:
    def wrong(said: dict[str, Any]) -> dict[str, Any]:
        for bank in said["banks"]:
            bank["current_a"][1] = round(bank["current_a"][1])
        return said

    _around(patch, bank_json, "plain", wrong)


def the_sheet_counts_rods_by_itself(patch: Patch) -> None:
    def more(readiness: Any) -> Any:
        rods = tuple(
            rod if rod.rods is None else replace(rod, rods=replace(rod.rods, count=SureLikely(777, 778)))
            for rod in readiness.outlook.rods
        )
        return replace(readiness, outlook=replace(readiness.outlook, rods=rods))

    owner = test_agree.build_sheet
    patch.setattr(test_agree, "build_sheet", lambda readiness, **named: owner(more(readiness), **named))


def the_card_shows_a_lighter_shade(patch: Patch) -> None:
    _around(patch, card, "hardware_outlook", lambda found: replace(found, shade=found.shade - 1))


def the_card_keeps_a_litre_less(patch: Patch) -> None:
    _around(patch, card, "procedure", lambda steps: replace(steps, water_l=steps.water_l - 1))


def the_go_volts_are_rounded_down(patch: Patch) -> None:
    def down(marks: Any) -> Any:
        return marks if marks.go_v is None else replace(marks, go_v=floor(marks.go_v * 10) / 10)

    _around(patch, hardware, "_marks", down)


def the_card_ignores_the_owner_s_limits(patch: Patch) -> None:
    """The card's floors by the standard rulebook, whatever the owner wrote."""
    owner = hardware.battery_outlook
    patch.setattr(
        hardware,
        "battery_outlook",
        lambda *given, **named: owner(*given, **(named | {"limits": standard().limits})),
    )


def the_card_keeps_no_starter(patch: Patch) -> None:
    """The card lets a bank that takes every starting battery go as low as any other."""
    patch.setattr(hardware, "with_starters_kept", lambda kit, trip, batteries: dict(batteries))


def the_planner_has_its_own_limit_in_the_wet(patch: Patch) -> None:
    """It looks for banks of any volts, and does not ask what bars the ones that it finds."""

    def unbarred(found: Any) -> Any:
        return found if found.bank is None else replace(found, bank=replace(found.bank, bars=()))

    patch.setattr(plan, "most_v", lambda *_: None)
    _around(patch, offer, "expect", unbarred)


def the_steps_see_no_bars(patch: Patch) -> None:
    patch.setattr(procedure_steps, "barred", lambda *_: ())


def nothing_else_comes_off(patch: Patch) -> None:
    patch.setattr(procedure_steps, "also_off", lambda *_: ())


def the_sheet_drops_its_words(patch: Patch) -> None:
    patch.setattr(build_items, "_gap_word", lambda *_, **__: "")


def the_days_read_before_they_charge(patch: Patch) -> None:
    owner = timeline._batteries
    patch.setattr(
        timeline,
        "_batteries",
        lambda *given: (replace(one, done=True) if one.word == "read" else one for one in owner(*given)),
    )


CUTS: tuple[tuple[Callable[[Patch], None], Invariant], ...] = (
    (offers_show_the_quick_band, an_offer_may_be_linked),
    (offers_show_the_quick_band, numbers_are_equal),
    (offers_count_a_rod_more, an_offer_may_be_linked),
    (the_json_of_bank_has_its_own_middle, numbers_are_equal),
    (the_sheet_counts_rods_by_itself, numbers_are_equal),
    (the_card_shows_a_lighter_shade, numbers_are_equal),
    (the_card_keeps_a_litre_less, numbers_are_equal),
    (the_go_volts_are_rounded_down, the_card_s_go_is_a_go),
    (the_card_ignores_the_owner_s_limits, the_card_s_go_is_a_go),
    (the_card_keeps_no_starter, the_card_s_go_is_a_go),
    (the_planner_has_its_own_limit_in_the_wet, an_offer_may_be_linked),
    (the_steps_see_no_bars, what_may_not_be_linked_has_no_way_to_it),
    (nothing_else_comes_off, everything_on_the_welded_vehicle_is_freed),
    (the_sheet_drops_its_words, a_gap_stands_at_its_thing),
    (the_days_read_before_they_charge, nothing_is_done_before_what_it_follows),
)
CREWS = (0, 2, 5, 7, 22, 60)


@pytest.mark.parametrize(("cut", "invariant"), CUTS, ids=[f"{cut.__name__}-{one.__name__}" for cut, one in CUTS])
def test_an_invariant_sees_its_owner_cut_in_two(
    cut: Callable[[Patch], None], invariant: Invariant, monkeypatch: Patch
) -> None:
    cut(monkeypatch)
    # Not the remembered faces of the crews: those were made before the cut.
    assert any(any(invariant(test_agree.faces.__wrapped__(seed))) for seed in CREWS)
