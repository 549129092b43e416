from __future__ import annotations

import gaps


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
