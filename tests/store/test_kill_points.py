"""Every call that writes, syncs, renames or unlinks is a kill point of every writing command."""

from __future__ import annotations

import os
from pathlib import Path

import kill_points
import pytest

TIMES = int(os.environ.get("KITLIST_TEST_KILLS", "300"))  # some 2,000 are all there are


@pytest.mark.skipif(not kill_points.works(), reason="no strace that may trace on this system: apt-get install strace")
def test_killed_at_any_point_the_store_is_as_before_or_after_papers_are_whole_and_nothing_is_left(
    tmp_path: Path,
) -> None:
    done = kill_points.run_points(TIMES, seed=7, folder=tmp_path)
    assert done["of all"] > 1000
    assert sum(done.values()) - done["of all"] >= min(TIMES, done["of all"])
