"""Rules that go with a part and its steel."""

from kitlist.base.sources import table
from kitlist.base.terms import Steel
from kitlist.welding.repairs.parts import parts
from kitlist.welding.repairs.working_rules import general_rules, rules_of_part, rules_of_steel


def _words(part_name, steel=Steel.MILD):
    return " ".join(rule.words for rule in (*rules_of_part(part_name), *rules_of_steel(steel)))


def test_a_frame_is_stop_drilled_and_not_welded_square_across():
    assert "Stop-drill" in _words("frame rail")
    assert "square across" in _words("frame rail")
    assert "Stop-drill" not in _words("exhaust bracket")


def test_zinc_is_ground_off_only_where_there_is_zinc():
    assert "zinc" in _words("body bracket", Steel.GALVANISED)
    assert "zinc" not in _words("body bracket", Steel.MILD)


def test_every_weld_is_looked_at_again_and_looked_behind():
    words = " ".join(rule.words for rule in general_rules())
    assert "48 h" in words
    assert "behind the weld" in words


def test_a_part_s_own_rules_are_its_own_alone():
    assert [rule.words.split(";")[0] for rule in rules_of_part("trailer drawbar")] == ["Unload"]
    assert not {rule.words for rule in general_rules()} & {r.words for p in parts() for r in rules_of_part(p.name)}


def test_every_part_and_steel_named_in_the_table_exists():
    names = {known.name for known in parts()} | {"*", ""}
    for row in table("working_rules"):
        assert set(row["parts"].split("; ")) <= names
        assert set(row["steels"].split()) <= set(Steel)
