"""Settings as a person types them, and what follows them: paper, units in lists, who gave a command."""

from __future__ import annotations

import json
from pathlib import Path

from running import kitlist


def test_settings_are_typed_shown_and_asked_for(demo: Path) -> None:
    assert kitlist("start", "--settings", "paper=letter", "by=Ada", store=demo).stdout.split() == [
        *("units", "metric"),
        *("paper", "letter"),
        *("by", "Ada"),
    ]
    done = kitlist("start", "--settings", store=demo, typed="cubits\nimperial\n\n", terminal=True)
    assert "'cubits' is neither a unit nor a paper" in done.stderr
    assert "(metric, letter):" in done.stderr
    assert "(Ada):" in done.stderr
    assert done.stdout.split() == ["units", "imperial", "paper", "letter", "by", "Ada"]
    assert kitlist("start", "paper=letter", store=demo).returncode == 2
    assert kitlist("start", "--settings", "paper=A5", store=demo).returncode == 3


def test_papers_are_printed_on_the_paper_that_is_set_and_an_option_wins(demo: Path, tmp_path: Path) -> None:
    kitlist("start", "--settings", "paper=letter", store=demo)
    for words, size in (((), "letter"), (("--paper", "a4"), "A4")):
        out = tmp_path / f"form-{size}.html"
        assert kitlist("print", "form", *words, "--out", str(out), store=demo).returncode == 0
        assert f"size: {size}" in out.read_text(encoding="utf-8")


def test_imperial_units_stand_beside_the_metric_in_lists_and_in_what_was_understood(demo: Path) -> None:
    kitlist("start", "--settings", "units=imperial", store=demo)
    done = kitlist("lead", "edit", "long link", "area=4 AWG", "length=3m", store=demo)
    assert "area=4 AWG: 21.2 mm² (4 AWG)" in done.stderr
    assert "3 m (9.8 ft)" in kitlist("lead", "show", "long link", store=demo).stdout
    assert "(1/8 in)" in kitlist("rod", "list", store=demo).stdout
    assert "ft" not in json.dumps(
        json.loads(kitlist("lead", "show", "long link", "--json", store=demo).stdout)["length_m"]
    )


def test_a_name_before_the_command_and_in_the_environment_win_over_the_setting(demo: Path) -> None:
    kitlist("start", "--settings", "by=Ada", store=demo)
    kitlist("bag", "edit", "Arc bag", "note=one", store=demo)
    kitlist("bag", "edit", "Arc bag", "note=two", store=demo, env={"KITLIST_BY": "Bo"})
    kitlist("--by", "Cy", "bag", "edit", "Arc bag", "note=three", store=demo, env={"KITLIST_BY": "Bo"})
    whos = [entry["who"] for entry in json.loads(kitlist("journal", "--json", store=demo).stdout)]
    assert whos[:3] == ["Cy", "Bo", "Ada"]


def test_a_check_off_is_by_whom_the_settings_name(demo: Path) -> None:
    kitlist("start", "--settings", "by=Ada", store=demo)
    done = kitlist("check-off", "Dry lake survey", "isolator=there", store=demo)
    assert "Kept 1 answer of Ada." in done.stderr
    assert "there 20" in kitlist("tool", "list", store=demo).stdout
    assert "check-off" in kitlist("tool", "show", "isolator", store=demo).stdout
