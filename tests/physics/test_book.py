"""A day's book: the check value, the order, and that nothing is promised twice."""

from __future__ import annotations

import pytest

from kitlist.base.errors import OutOfRange
from kitlist.physics.bank.book import BookJob, charges_in, days_book, in_order

FOUR, SIX = BookJob(name="four", rods=4, charge_ah=2.46), BookJob(name="six", rods=6, charge_ah=1.5)


def test_three_batteries_at_12_64_v_by_the_check_value():
    # Flooded 70 Ah at 25 °C: the table at 12.64 less 0.08 V is 0.8875; over 0.50 that is 27.1 Ah.
    lines = days_book((FOUR, SIX, FOUR), spare_ah=(0.8875 - 0.50) * 70)
    assert [(line.can, line.short) for line in lines] == [(4, 0), (6, 0), (3, 1)]
    assert lines[1].left_ah == pytest.approx(27.125 - 9.84 - 9.0)
    assert lines[2].put_back_ah == pytest.approx(9.84 - 8.285)


def test_a_full_book_says_nothing_is_put_back_and_an_empty_one_that_all_is():
    assert not any(line.broken or line.put_back_ah for line in days_book((FOUR, SIX), spare_ah=50))
    (only,) = days_book((FOUR,), spare_ah=0.0)
    assert (only.can, only.short, only.put_back_ah) == (0, 4, pytest.approx(9.84))


def test_charge_put_back_before_one_repair_is_used_up_by_it():
    lines = days_book((FOUR, FOUR, FOUR), spare_ah=10.0)
    assert [round(line.put_back_ah, 2) for line in lines] == [0.0, 9.68, 9.84]
    assert [line.left_ah for line in lines] == pytest.approx([0.16, 0.0, 0.0])


def test_what_brings_you_home_goes_first_then_the_thickest_rods():
    thin, thick = (BookJob(name=str(mm), rods=1, charge_ah=1, rod_mm=mm) for mm in (2.5, 4.0))
    home = BookJob(name="home", rods=1, charge_ah=1, rod_mm=2.0, brings_home=True)
    assert [job.name for job in in_order((thin, thick, home))] == ["home", "4.0", "2.5"]


def test_charges_between_repairs():
    assert [charges_in(total_ah=t, spare_ah=27, one_charge_ah=27) for t in (20, 27, 27.1, 54, 81.5)] == [0, 0, 1, 1, 3]


@pytest.mark.parametrize(
    "call",
    [
        lambda: days_book((FOUR,), spare_ah=-1.0),
        lambda: days_book((BookJob(name="x", rods=-1, charge_ah=1.0),), spare_ah=1.0),
        lambda: days_book((BookJob(name="x", rods=1, charge_ah=0.0),), spare_ah=1.0),
        lambda: charges_in(total_ah=1, spare_ah=1, one_charge_ah=0),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_no_rods_nothing_spare_and_a_thousand_ampere_hours_are_answered_and_more_is_not():
    none = BookJob(name="none", rods=0, charge_ah=1.0)
    (line,) = days_book((none,), spare_ah=0.0)
    assert (line.can, line.short, line.left_ah, line.put_back_ah, line.broken) == (0, 0, 0.0, 0.0, False)
    assert none.rod_mm == 0.0
    assert days_book((none,), spare_ah=1000.0)[0].left_ah == 1000.0
    with pytest.raises(OutOfRange, match="0 to 1000"):
        days_book((none,), spare_ah=1000.5)
    assert charges_in(total_ah=1, spare_ah=0, one_charge_ah=0.5) == 2


def test_a_charge_that_is_just_enough_is_enough_though_the_digits_fall_short():
    (line,) = days_book((BookJob(name="x", rods=3, charge_ah=0.1),), spare_ah=0.3)  # 0.3/0.1 is 2.9999999999999996
    assert (line.can, line.short, line.put_back_ah) == (3, 0, 0.0)
    assert charges_in(total_ah=0.3, spare_ah=0.0, one_charge_ah=0.1) == 3
    assert charges_in(total_ah=0.1 + 0.2, spare_ah=0.0, one_charge_ah=0.3) == 1
