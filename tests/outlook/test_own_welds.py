"""What own welds teach of a kit: ampere-hours a rod, the bank's resistance, the arc; what teaches nothing, and why."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from kitlist.kit import Bead, Weld
from kitlist.outlook import look_out
from kitlist.outlook.own_rods import rods_taught
from kitlist.outlook.own_welds import own_welds
from kitlist.physics.bank.learning import Learnable
from kitlist.rules.example import whole

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
    from kitlist.base.terms import Chemistry
    from kitlist.physics.battery.charge import ocv_points

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
