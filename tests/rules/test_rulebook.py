from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from thresholds import auto, far

from kitlist.base import resources
from kitlist.base.errors import BadFile
from kitlist.base.terms import GearKind, ToolKind
from kitlist.faces.words.rule_text import explained
from kitlist.kit.limits import standard
from kitlist.readiness import assess
from kitlist.rules import RULES, Example
from kitlist.rules.example import whole, with_lead, with_reading, with_repair, with_tool, with_trip, without_gear
from kitlist.store import Store
from kitlist.store.snapshot import snapshot

EVERY_STARTER = ("north-main", "north-second", "south-main")


def with_book(example: Example, text: str) -> Example:
    book = standard().changed(text, name="rulebook.toml")
    return replace(example, kit=replace(example.kit, rulebook=book))


def fired(example: Example) -> set[str]:
    return {gap.rule for gap in assess(example.kit, example.trip, on=example.on).gaps}


def test_every_threshold_is_used_by_a_rule_and_every_rule_names_thresholds_that_exist() -> None:
    named = {name for rule in RULES for name in rule.numbers}
    assert named == set(standard().thresholds)


def test_every_threshold_has_words_unit_and_source() -> None:
    for threshold in standard().thresholds.values():
        assert threshold.what
        assert threshold.unit or threshold.choices
        assert threshold.takes(threshold.value)
        assert str(threshold.source)


@pytest.mark.parametrize(
    ("line", "build", "rule"),
    [
        ("stale_after_days = 2", whole, "reading-stale"),
        ("floor_warm_ratio = 0.95", whole, "battery-under-floor"),
        ("floor_cold_ratio = 0.95", lambda: with_trip(coldest_c=-1), "battery-under-floor"),
        ("every_starter_ratio = 0.95", lambda: with_trip(bank=EVERY_STARTER), "battery-under-floor"),
        ("wet_limit_v = 15", lambda: with_trip(wet=True, bank=("north-second", "south-second")), "wet-over-35-v"),
        ("spare_links = 2", whole, "link-without-spare"),
        ("vehicle_reach_m = 1.1", whole, "circuit-does-not-join"),
        ("duty_ratio = 1", lambda: with_lead("work lead", area_mm2=25), "lead-too-thin"),
        ("joint_limit_mohm = 0.4", lambda: with_lead("link", measured_mohm=2.5), "joint-drop-too-high"),
        ("auto_test_days = 32", auto, "auto-darkening-doubtful"),
        ("auto_cell_days = 200", auto, "auto-darkening-doubtful"),
        ("check_off_days = 2", whole, "check-off-unfinished"),
        ("far_rods_ratio = 5", lambda: far(with_repair(weld_length_mm=120), 3), "rods-too-few"),
        ("isolator_least_v = 61", whole, "isolator-underrated"),
        ("fuse_least_v = 81", whole, "fuse-missing"),
        ("hot_limit_ratio = 1.0\nduty_ratio = 0.5", lambda: _hot(), "no-rod-for-bank"),
        ("water_least_l = 11", whole, "fire-water-short"),
        ("extinguisher_least_kg = 3", whole, "extinguisher-wrong-kind"),
        ("eye_wash_least_l = 3", whole, "eye-wash-short"),
        ("people_least = 3", whole, "fire-watch-missing"),
        ("test_plate_within_mm = 0", lambda: _thick(), "test-plate-missing"),
    ],
)
def test_an_owner_s_line_changes_what_the_rule_says(line: str, build, rule: str) -> None:
    assert rule not in fired(build())
    assert rule in fired(with_book(build(), line))


def test_the_owner_s_cold_floor_holds_under_the_owner_s_cold() -> None:
    """At 5 °C cold itself leaves 0.60, 12.42 V of AGM; the owner's 0.75 would be 12.60 V, and holds only under 6 °C."""
    example = with_reading("north-main", volts_v=12.56)
    floor = "floor_cold_ratio = 0.75\n"
    assert "battery-under-floor" not in fired(with_book(example, floor))
    assert "battery-under-floor" not in fired(with_book(example, f"{floor}cold_below_c = 5"))
    assert "battery-under-floor" in fired(with_book(example, f"{floor}cold_below_c = 6"))


def _hot() -> Example:
    from kitlist.rules.example import rod, with_kit

    return with_kit(rods=(rod("a", diameter_mm=3.2),))


def _thick() -> Example:
    from kitlist.rules.example import with_repair

    return with_repair(thickness_mm=8.5)


def test_the_region_of_the_shade_is_the_owner_s_to_choose() -> None:
    lighter = without_gear(
        GearKind.HELMET, also=tuple(replace(g, shade=10) for g in whole().kit.gear if g.what is GearKind.HELMET)
    )
    assert "filter-too-light" in fired(lighter)  # 249 A: AS/NZS 1338.1 has 11 from 200 A
    assert "filter-too-light" not in fired(with_book(lighter, 'shade_region = "OSHA"'))  # 29 CFR 1910.133: 10 to 250 A


def test_a_far_trip_is_what_the_owner_says_is_far() -> None:
    near = without_gear(GearKind.SPARE_FILTER)
    (gap,) = assess(near.kit, near.trip, on=near.on).gaps
    strict = with_book(near, "far_days = 0.5")
    (graver,) = assess(strict.kit, strict.trip, on=strict.on).gaps
    assert (str(gap.weight), str(graver.weight)) == ("note", "fix")


def test_every_wrong_line_is_named_with_what_was_allowed() -> None:
    text = "stale_after_days = 0\nwet_limit_v = 36\n\nstale = 3\nshade_region = 'ours'\nduty_ratio = true\n"
    with pytest.raises(BadFile) as caught:
        standard().changed(text, name="mine.toml")
    assert caught.value.lines == (
        "mine.toml:1: stale_after_days = 0: must be a number from 1 to 60 days",
        "mine.toml:2: wet_limit_v = 36: must be a number from 15 to 35 V",
        "mine.toml:4: stale: no rule has such a threshold",
        "mine.toml:5: shade_region = 'ours': must be one of strictest, OSHA, AS/NZS, EN",
        "mine.toml:6: duty_ratio = True: must be a number from 0.1 to 1 of the time",
    )


def test_a_file_that_is_no_toml_says_on_which_line() -> None:
    with pytest.raises(BadFile) as caught:
        standard().changed("stale_after_days = 3\nwet_limit_v = = 3\n", name="mine.toml")
    assert caught.value.lines[0].startswith("mine.toml:2: ")


def test_every_change_from_the_default_is_listed_and_a_line_that_changes_nothing_is_not() -> None:
    readiness_of = with_book(whole(), "stale_after_days = 5\nspare_links = 1")
    readiness = assess(readiness_of.kit, readiness_of.trip, on=readiness_of.on)
    assert readiness.changes == ("stale_after_days: 7 days -> 5 days (a reading counts for a departure within)",)
    assert readiness.plain()["rulebook_changes"] == list(readiness.changes)


def test_the_owner_s_file_is_found_beside_the_store_by_name_and_by_option(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert snapshot(store).rulebook.changes == ()
    store.path.with_name("rulebook.toml").write_text("stale_after_days = 5\n", encoding="utf-8")
    assert snapshot(store).limits.stale_after_days == 5
    (tmp_path / "other.toml").write_text("stale_after_days = 4\n", encoding="utf-8")
    monkeypatch.setenv("KITLIST_RULEBOOK", str(tmp_path / "other.toml"))
    assert snapshot(store).limits.stale_after_days == 4
    (tmp_path / "third.toml").write_text("stale_after_days = 3\n", encoding="utf-8")
    assert snapshot(Store(store.path, rulebook=tmp_path / "third.toml")).limits.stale_after_days == 3
    with pytest.raises(BadFile, match="cannot read the rulebook"):
        snapshot(Store(store.path, rulebook=tmp_path / "none.toml"))


def test_why_gives_the_numbers_in_force_an_example_on_both_sides_and_the_sources() -> None:
    book = standard().changed("water_least_l = 20", name="x")
    rule = next(rule for rule in RULES if rule.name == "fire-water-short")
    words = explained(rule, book, columns=200)
    assert "In force: water_least_l = 20 L, changed from 9 L (least water against grass fire)" in words
    assert "Bad: tool water: volume_l = 8.9. Gap: 8.9 L of fire water, 9 L at the least" in words
    assert "Good: tool water: volume_l = 9. No gap." in words
    assert "Western Australia Government Gazette, 5 Nov 2019 p. 3880: 9 L (read in the source)" in words


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_why_can_say_of_every_rule_what_is_wrong_in_its_example(rule) -> None:
    words = explained(rule, standard(), columns=100)
    assert all(len(line) <= 100 for line in words.splitlines())
    assert re.search(r"^Bad: (?!as shown)", words, re.MULTILINE)
    assert words.count("\nSource: ") == len(rule.sources)


def test_the_shipped_rulebook_is_commented_and_bounds_may_tighten_what_is_about_people() -> None:
    text = (resources.folder("seed_data") / "rulebook.toml").read_text(encoding="utf-8")
    assert text.startswith("#")
    assert standard().thresholds["wet_limit_v"].high == standard().limits.wet_limit_v
    assert standard().thresholds["water_least_l"].low == standard().limits.water_least_l


def test_a_stale_reading_of_five_days_is_the_owner_s_choice() -> None:
    example = with_reading("north-main")
    assert fired(with_book(example, "stale_after_days = 3")) == set()
    assert fired(with_tool(ToolKind.WATER, volume_l=9)) == set()
