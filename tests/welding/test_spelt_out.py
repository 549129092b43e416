"""Whatever the welding room says over the grid stands in the file that people read."""

from __future__ import annotations

from welding import spelt_out


def test_the_room_says_what_was_read_and_approved() -> None:
    assert list(spelt_out.shown()) == spelt_out.FILE.read_text(encoding="utf-8").splitlines()
