from __future__ import annotations

import re
from dataclasses import replace

import gaps
import pytest
from edges import isol, on_trip, plugged

from kitlist.kit import Ballast
from kitlist.readiness import assess
from kitlist.rules.example import with_reading


def test_every_gap_reads_as_it_was_read_and_approved() -> None:
    assert list(gaps.shown()) == gaps.FILE.read_text(encoding="utf-8").splitlines()


def test_no_gap_says_nothing_or_shouts_or_shows_a_python_value() -> None:
    for line in gaps.FILE.read_text(encoding="utf-8").splitlines():
        rule, severity, subject, what, remedy, *_ = line.split(" | ")
        assert rule
        assert severity in ("stop", "fix", "note")
        assert subject
        assert "None" not in what + remedy, line
        assert "'>" not in what + remedy, line
        assert remedy.endswith("."), line
        assert len(what) < 260, line


@pytest.mark.parametrize("coldest_c", [-10.0, -13.0, -14.0, -14.5])
def test_acid_that_freezes_before_the_cold_never_reads_as_if_it_froze_at_it(coldest_c: float) -> None:
    for volts_v in (11.9, 11.95, 12.0, 12.05, 12.1):
        example = on_trip(with_reading("south-main", volts_v=volts_v), coldest_c=coldest_c)
        gaps_of = [gap for gap in assess(example.kit, example.trip, on=example.on).gaps if gap.subject == "south-main"]
        for gap in gaps_of:
            if gap.rule == "battery-may-freeze":
                freezes, expected = re.findall(r"(−[\d.]+) °C", gap.what)
                assert float(freezes.replace("−", "-")) > float(expected.replace("−", "-")) == coldest_c, gap.what


@pytest.mark.parametrize("mohm", [20, 60, 120])
def test_no_fuse_is_asked_for_that_is_to_bear_more_than_it_blows_at(mohm: int) -> None:
    bare = isol({"rating_a": 300, "rating_v": 60}, fuse=False)
    for shown in (bare, plugged(None, bare)):
        kit = replace(shown.kit, ballasts=(Ballast(name="strip", measured_mohm=mohm),))
        found = assess(kit, replace(shown.trip, ballast="strip"), on=shown.on)
        for gap in found.gaps:
            if gap.rule == "isolator-underrated":
                sizes = re.search(r"fuse of (\d+) A at the most that bears (\d+) A", gap.remedy)
                assert sizes is None or int(sizes[1]) >= int(sizes[2]), gap.remedy
