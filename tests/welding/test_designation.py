"""What a read designation says in words."""

from kitlist.welding.designation.designations import decode


def _fact(name, label):
    return next(fact for fact in decode(name).facts() if fact.label == label)


def test_hydrogen_is_told_whether_marked_or_not():
    assert _fact("E7018 H4", "hydrogen").words == "at most 4 mL in 100 g of deposit, while dry"
    assert _fact("E7018", "hydrogen").words.startswith("low while dry")
    assert _fact("E6013", "hydrogen").words.startswith("high, over 15 mL")


def test_the_reach_names_the_largest_rod_out_of_the_flat():
    assert _fact("E7018", "positions").words == "flat, vertical, overhead, horizontal; out of the flat to 4.0 mm"
    assert _fact("E7024", "positions").words == "flat, horizontal fillet"


def test_figures_from_memory_say_so():
    assert "from memory" in str(_fact("E6018", "least tensile strength").source)
    assert "second hand" in str(_fact("E6013", "least tensile strength").source)
    assert "common practice" in str(_fact("E6013", "roughly in ISO 2560-A").source)


def test_strength_of_the_a_system_is_a_span():
    assert _fact("E 42 4 B 42", "least tensile strength").words == "500 to 640 MPa"


def test_positions_and_current_left_out_are_asked_for_on_the_packet():
    assert "packet" in _fact("E 42 4 B", "positions").words
    assert "packet" in _fact("E 42 4 B", "current and polarity").words
