"""Every call that writes, syncs, renames or unlinks is a kill point of every writing command."""

from __future__ import annotations

import os
from pathlib import Path

import kill_points
import pytest

TIMES = int(os.environ.get("KITLIST_TEST_KILLS", "300"))  # some 2,000 are all there are


SHARES = 6  # so that they run beside each other


@pytest.mark.skipif(not kill_points.works(), reason="no strace that may trace on this system: apt-get install strace")
@pytest.mark.parametrize("share", range(SHARES))
def test_killed_at_any_point_the_store_is_as_before_or_after_papers_are_whole_and_nothing_is_left(
    tmp_path: Path, share: int
) -> None:
    times = TIMES // SHARES
    done = kill_points.run_points(times, seed=7, folder=tmp_path, cases=kill_points.CASES[share::SHARES])
    assert done["of all"] > 100
    assert sum(done.values()) - done["of all"] >= min(times, done["of all"])
