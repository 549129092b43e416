"""Every command of the README runs, in its order, on one machine that begins with nothing."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

from first_hour import ALL, ON_LABELS, TYPED, UNTIL, screen

import kitlist as package
from running import kitlist

README = (Path(package.__file__).parents[1] / "README.md").read_text(encoding="utf-8")
AT_A_TERMINAL = {("volts",), ("check-off",)}  # these ask, and say so where there is nobody to ask
NOT_HERE = {("phone", "--network")}  # serves until Ctrl-C; tests/phone has it


def commands() -> list[list[str]]:
    """The words of every command in the README's plain blocks, without what stands behind #."""
    blocks = re.findall(r"^```(\w*)\n(.*?)^```$", README, flags=re.DOTALL | re.MULTILINE)
    lines = [line for kind, block in blocks if not kind for line in block.splitlines() if line.startswith("kitlist")]
    return [shlex.split(line, comments=True)[1:] for line in lines]


def test_every_command_of_the_readme_runs_in_its_order_and_the_first_hour_ends_in_a_bank(tmp_path: Path) -> None:
    store, failed, banks = tmp_path / "kit.db", [], []
    assert len(commands()) > 35
    for words in commands():
        if tuple(words) in NOT_HERE:
            continue
        done = kitlist(*words, store=store, cwd=tmp_path)
        expected = {2} if tuple(words) in AT_A_TERMINAL else {0, 10, 11}
        if words == ["bank"]:
            banks.append(done.stdout)
        if done.returncode not in expected:
            failed.append((words, done.returncode, done.stderr))
    assert failed == []
    assert banks
    assert all(shown.startswith("1.  heron-main → plover-main → plover-second\n") for shown in banks)


def test_the_guided_start_of_the_readme_is_what_a_real_run_shows(tmp_path: Path) -> None:
    (block,) = re.findall(r"^```text\n(.*?)^```$", README, flags=re.DOTALL | re.MULTILINE)
    shown = " ".join(screen(tmp_path, columns=72).replace(TYPED, "").replace(UNTIL, "").split())
    begun, *lines = block.splitlines()
    assert begun == "$ kitlist start"
    assert [line for line in lines if line not in shown] == []
    assert len(ALL) < 60  # as the README says
    assert len(ALL) + ON_LABELS <= 70
