"""Every call that writes, syncs, renames or unlinks is a kill point of every writing command."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import kill_points
import pytest

TIMES = int(os.environ.get("KITLIST_TEST_KILLS", "200"))
"""At least two of each kind of call of each command; some 2,000 are all there are."""


SHARES = 3  # so that they run beside each other


@pytest.mark.skipif(not kill_points.works(), reason="no strace that may trace on this system: apt-get install strace")
@pytest.mark.parametrize("share", range(SHARES))
def test_killed_at_any_point_the_store_is_as_before_or_after_papers_are_whole_and_nothing_is_left(
    tmp_path: Path, share: int
) -> None:
    times = TIMES // SHARES
    words = ["--times", str(times), "--seed", "7", "--share", str(share), str(SHARES)]
    ran = subprocess.run(  # a process of its own: what this one has loaded would be copied at every kill
        [sys.executable, kill_points.__file__, *words],
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | {"TMPDIR": str(tmp_path)},
    )
    assert ran.returncode == 0, ran.stderr
    counts = re.search(r"killed at (\d+) of (\d+) points", ran.stdout)
    assert counts is not None, ran.stdout
    killed, every = map(int, counts.groups())
    assert every > 100
    assert killed >= min(times, every)
