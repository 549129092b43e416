"""What own welds teach of a kit: ampere-hours a rod, the bank's resistance, the arc; what teaches nothing, and why."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import log

import pytest

from kitlist.base.terms import Chemistry
from kitlist.kit import Bead, Weld
from kitlist.outlook import look_out
from kitlist.outlook.own_rods import rods_taught
from kitlist.outlook.own_welds import own_welds
from kitlist.physics.bank.learning import Learnable, ah_from_volts, narrows_by, rod_ah_reading
from kitlist.physics.battery.charge import ocv_points
from kitlist.rules.example import rod, whole

DAY = date(2027, 3, 8)
BANK = ("north-main", "north-second", "south-second")


def weld(name="w", rods=4, before=38.4, after=38.1, **more):
    fields = {"welded_on": DAY, "bank": BANK, "rod": "thick rods", "before_v": before, "after_v": after}
    return Weld(name=name, rods=rods, **(fields | {"after_rested_h": 2.0} | more))


def taught(*welds, beads=(), on=DAY):
    kit = replace(whole().kit, welds=welds, beads=beads)
    return own_welds(kit, on=on)


def line(found, what):
    return next(line for line in found.lines if line.what is what)


def test_without_a_weld_every_line_is_what_was_predicted():
    found = taught()
    assert [entry.readings for entry in found.lines] == [(), (), ()]
    assert all(entry.learned.best == pytest.approx(entry.predicted) for entry in found.lines)
    assert rods_taught(whole().kit, on=DAY) == {}


def test_volts_before_and_after_give_ampere_hours_a_rod():
    # AGM: 0.1 V a battery off 12.80 full; by the table's upper quarter so much of 80 Ah, over four rods.
    (read,) = line(taught(weld()), Learnable.ROD_AH).readings
    (lower, upper) = ocv_points(Chemistry.AGM)[-2:]
    gone = (12.8 - 12.7) / (upper[1] - lower[1]) * (upper[0] - lower[0]) * 80
    assert read.value == pytest.approx(gone / 4, rel=0.02)


def test_more_welds_narrow_and_the_band_is_what_the_rod_then_takes():
    one, three = taught(weld()), taught(weld(), weld("x"), weld("y"))
    assert line(three, Learnable.ROD_AH).learned.sd < line(one, Learnable.ROD_AH).learned.sd
    kit = replace(whole().kit, welds=(weld(),))
    band = line(one, Learnable.ROD_AH).next_weld
    assert rods_taught(kit, on=DAY) == {"4 mm E6013": band}
    (rod,) = look_out(kit, whole().trip, on=DAY).rods
    assert rod.burn.charge_ah == band
    (before,) = look_out(kit, whole().trip, on=date(2027, 3, 7)).rods
    assert before.burn.charge_ah != band


@pytest.mark.parametrize(
    ("made", "why"),
    [
        (weld(after=None), "not both read"),
        (weld(after_rested_h=None), "nobody said when"),
        (weld(after_rested_h=1.9), "under 2 h"),
        (weld(rod=None), "which rods"),
        (weld(rods=0), "how many"),
        (weld(bank=("north-main", "gone", "south-second")), "not known"),
        (weld(after=38.4), "0.00 Ah teach nothing"),
    ],
)
def test_what_teaches_nothing_is_named_with_the_reason(made, why):
    found = taught(made)
    assert line(found, Learnable.ROD_AH).readings == ()
    ((name, said),) = found.unused
    assert name == "w"
    assert why in said


def test_metered_welds_and_beads_teach_resistance_and_arc_alike():
    bead = Bead(name="b", welded_on=DAY, bank=BANK, rest_v=38.4, bank_v=33.4, current_a=170, holder_v=31.5)
    metered = weld(bank_v=33.4, current_a=170.0, holder_v=31.5)
    by_bead, by_weld = taught(beads=(bead,)), taught(metered)
    for what in (Learnable.RESISTANCE_OHM, Learnable.ARC_V):
        assert line(by_bead, what).learned.best == pytest.approx(line(by_weld, what).learned.best)
        assert len(line(by_bead, what).readings) == 1
    with_strip = taught(replace(metered, ballast="strip"))
    assert line(with_strip, Learnable.ARC_V).readings == ()
    assert len(line(with_strip, Learnable.RESISTANCE_OHM).readings) == 1


def test_what_was_welded_later_teaches_nothing_yet_and_what_is_least_known_is_measured_next():
    assert line(taught(weld(), on=date(2027, 3, 7)), Learnable.ROD_AH).readings == ()
    assert taught().next_best.what is Learnable.ARC_V
    beads = tuple(
        Bead(name=f"b{n}", welded_on=DAY, bank=BANK, rest_v=38.4, bank_v=33.4, current_a=170, holder_v=31.5)
        for n in range(6)
    )
    assert taught(beads=beads).next_best.what is Learnable.ROD_AH


def test_bands_that_held_too_few_are_shown_wider():
    wild = [weld(f"w{n}", rods=20 if n % 2 else 1) for n in range(6)]
    entry = line(taught(*wild), Learnable.ROD_AH)
    assert entry.hits.too_narrow
    assert entry.next_weld.high / entry.next_weld.best > entry.learned.next_weld.high / entry.learned.next_weld.best


def test_readings_on_meters_are_a_ratio_to_what_was_predicted_of_that_bank_on_that_day():
    bead = Bead(name="b", welded_on=DAY, bank=BANK, rest_v=38.4, bank_v=33.4, current_a=170, holder_v=31.5)
    (read,) = line(taught(beads=(bead,)), Learnable.RESISTANCE_OHM).readings
    trip = replace(whole().trip, starts_on=DAY, ends_on=DAY, coldest_c=None, hottest_c=None)
    seen = look_out(whole().kit, trip, on=DAY).bank
    assert seen.rig.temp_c.best == 15.0  # nobody says how cold a practice weld was
    (group,) = seen.rig.network().groups
    predicted = sum(unit.branch_ohm for unit in group)
    assert read.value == pytest.approx((38.4 - 3 * 0.40 - 33.4) / 170 / predicted)
    (arc,) = line(taught(beads=(bead,)), Learnable.ARC_V).readings
    assert arc.value == pytest.approx(31.5 - 0.04 * 170 - (9.44 + 15.02 * 3) / 170)
    assert (read.name, arc.name) == ("b", "b")


def test_two_strings_are_predicted_in_parallel_each_with_its_links():
    four = ("north-main", "north-second", "south-main", "south-second")
    bead = Bead(
        name="b", welded_on=DAY, bank=four, bank_strings=2, rest_v=25.6, bank_v=22.6, current_a=170, holder_v=21.0
    )
    (read,) = line(taught(beads=(bead,)), Learnable.RESISTANCE_OHM).readings
    trip = replace(whole().trip, starts_on=DAY, ends_on=DAY, coldest_c=None, hottest_c=None, bank=four, bank_strings=2)
    network = look_out(whole().kit, trip, on=DAY).bank.rig.network()
    one, other = (
        sum(unit.branch_ohm for unit in group) + ohm
        for group, ohm in zip(network.groups, network.links_ohm, strict=True)
    )
    assert read.value == pytest.approx((25.6 - 2 * 0.40 - 22.6) / 170 / (one * other / (one + other)))


def test_a_bead_that_is_nonsense_or_of_an_unknown_bank_teaches_nothing_or_its_arc_alone_and_the_rest_does():
    good = Bead(name="good", welded_on=DAY, bank=BANK, rest_v=38.4, bank_v=33.4, current_a=170, holder_v=31.5)
    rising = replace(good, name="rising", bank_v=38.5, welded_on=date(2027, 3, 7))
    gone = replace(good, name="gone", bank=("north-main", "sold", "south-second"))
    no_holder = replace(good, name="bank alone", holder_v=None)
    found = taught(beads=(rising, gone, no_holder, good))
    assert [r.name for r in line(found, Learnable.RESISTANCE_OHM).readings] == ["bank alone", "good"]
    assert [r.name for r in line(found, Learnable.ARC_V).readings] == ["gone", "good"]


def test_ampere_hours_are_those_of_all_strings_by_the_kind_and_size_of_one():
    four = ("north-main", "north-second", "south-main", "south-second")
    two = weld(bank=four, bank_strings=2, before=25.6, after=25.4)
    (read,) = line(taught(two), Learnable.ROD_AH).readings
    bank = [(Chemistry.AGM, 80.0)] * 2
    given_ah = 2 * ah_from_volts(before_v=25.6, after_v=25.4, bank=bank)
    assert (read.value, read.sd, read.name) == pytest.approx(
        (given_ah / 4, rod_ah_reading(used_ah=given_ah, rods=4, capacity_ah=160.0).sd, "w")
    )


def test_a_rod_of_which_no_table_has_what_it_takes_teaches_nothing():
    odd = replace(whole().kit, rods=(rod("thick rods", designation="E6013", diameter_mm=9.9),), welds=(weld(),))
    ((_, said),) = own_welds(odd, on=DAY).unused
    assert said == "what such a rod takes is in no table"


@pytest.mark.parametrize("kind", [Chemistry.UNKNOWN, Chemistry.LITHIUM])
def test_a_bank_with_a_battery_of_unknown_kind_teaches_no_ampere_hours(kind):
    kit = whole().kit
    batteries = tuple(replace(b, chemistry=kind) if b.name == "north-second" else b for b in kit.batteries)
    ((_, said),) = own_welds(replace(kit, batteries=batteries, welds=(weld(),)), on=DAY).unused
    assert said == "kind or capacity of a battery is not known"
    sizes = tuple(replace(b, c20_ah=None) if b.name == "north-second" else b for b in kit.batteries)
    assert own_welds(replace(kit, batteries=sizes, welds=(weld(),)), on=DAY).unused


def test_a_band_that_held_too_few_is_half_as_wide_again_on_either_side():
    wild = [weld(f"w{n}", rods=20 if n % 2 else 1) for n in range(6)]
    entry = line(taught(*wild), Learnable.ROD_AH)
    plain, shown = entry.learned.next_weld, entry.next_weld
    assert log(shown.high / shown.best) == pytest.approx(1.5 * log(plain.high / plain.best))
    assert log(shown.best / shown.low) == pytest.approx(1.5 * log(plain.best / plain.low))
    good = line(taught(weld()), Learnable.ROD_AH)
    assert good.next_weld == good.learned.next_weld
    assert entry.readings == (*entry.learned.used, *entry.learned.set_aside)
    assert {one.measure[:10] for one in taught().lines} == {"volts acro", "a practice"}
    assert entry.narrows_by == pytest.approx(narrows_by(Learnable.ROD_AH, readings=entry.learned.used), abs=0.05)
