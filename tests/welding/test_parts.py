"""Which parts may be welded at all."""

import pytest

from kitlist.base.errors import NotFound
from kitlist.base.sources import table
from kitlist.welding.repairs.parts import RepairClass, part, parts


@pytest.mark.parametrize(
    "words",
    [
        "wheel",
        "Wheel rim, cracked",
        "front wheels",
        "brake pedal",
        "brake drum",
        "fuel tank",
        "empty drum",
        "jerry cans",
        "LPG bottle mount and LPG tank",
        "shock absorber",
        "air spring",
        "air bag suspension",
        "bellows",
        "clock spring",
        "air bag mount",
        "airbag",
        "seat-belt anchor",
        "tow ball",
        "recovery point",
        "coil spring",
        "crankshaft",
        "anti-roll bar",
        "battery case",
        "fire extinguisher",
    ],
)
def test_parts_that_are_never_welded(words):
    known = part(words)
    assert known.repair_class is RepairClass.NEVER
    assert known.rule


@pytest.mark.parametrize(
    ("words", "repair_class"),
    [
        ("tie rod", RepairClass.LAST_RESORT),
        ("bent drag-link", RepairClass.LAST_RESORT),
        ("rear axle housing", RepairClass.LAST_RESORT),
        ("leaf spring", RepairClass.LAST_RESORT),
        ("spring hanger", RepairClass.GET_HOME),
        ("air bag suspension mount", RepairClass.GET_HOME),
        ("shock absorber mount", RepairClass.GET_HOME),
        ("trailing-arm bracket", RepairClass.GET_HOME),
        ("spare wheel carrier", RepairClass.GET_HOME),
        ("chassis crack", RepairClass.GET_HOME),
        ("battery tray", RepairClass.GET_HOME),
        ("roof rack leg", RepairClass.SOUND),
        ("exhaust hanger", RepairClass.SOUND),
        ("wheel arch", RepairClass.SOUND),
        ("jerrycan holder", RepairClass.SOUND),
    ],
)
def test_a_longer_name_is_not_taken_for_the_shorter_one_inside_it(words, repair_class):
    assert part(words).repair_class is repair_class


def test_of_two_parts_named_the_stricter_counts():
    assert part("spring hanger next to the fuel tank").repair_class is RepairClass.NEVER
    assert part("exhaust bracket on the chassis rail").repair_class is RepairClass.GET_HOME


def test_an_unknown_part_is_not_taken_for_sound():
    with pytest.raises(NotFound, match="cannot be said") as caught:
        part("sping hangr")
    assert "spring hanger" in caught.value.hint
    with pytest.raises(NotFound):
        part("")
    with pytest.raises(NotFound):
        part("thing")


def test_no_word_stands_for_two_parts():
    words = [word for row in table("repair_parts") for word in (row["part"], *row["also"].split("; "))]
    plain = [word.replace("-", " ") for word in words]
    twice = {word for word in plain if plain.count(word) > 1}
    owners = {
        w: {
            r["part"]
            for r in table("repair_parts")
            if w in (r["part"] + "; " + r["also"]).replace("-", " ").split("; ")
        }
        for w in twice
    }
    assert all(len(found) == 1 for found in owners.values()), owners


def test_every_part_has_a_rule_and_a_source():
    for known in parts():
        assert known.rule.endswith(".")
        assert str(known.source)
    assert {p.repair_class for p in parts()} == set(RepairClass)


def test_air_suspension_is_told_from_an_airbag_and_a_bare_word_warns_of_both():
    bellows, module, either = part("air bag suspension mount").rule, part("side airbag").rule, part("air bag").rule
    assert "release the pressure" in bellows
    assert "it fires" not in bellows
    assert "it fires" in module
    assert "pressure" not in module
    assert "it fires" in either
    assert "pressure off" in either
