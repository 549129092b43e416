from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kitlist.base import resources
from kitlist.base.errors import BadFile, KitlistError
from kitlist.store import Store
from kitlist.store.importing import import_toml
from kitlist.store.snapshot import snapshot
from new_store import new_store

INPUTS = int(os.environ.get("KITLIST_TEST_INPUTS", "30"))

BAD = """\
[[vehicle]]
name = "Heron"
crank_a = 9999

[[battery]]
name = "heron-main"
vehicle = "Hern"
chemistry = "flodded"
c20 = "70 Ahh"

[[lead]]
name = "link"
use = "link"
end_a = "lug m8"

[[nonsense]]
x = 1
"""


def write(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def test_every_bad_line_is_reported_at_once_and_nothing_is_imported(store: Store, tmp_path: Path) -> None:
    with pytest.raises(BadFile) as caught:
        import_toml(store, write(tmp_path / "kit.toml", BAD))
    lines = caught.value.lines
    assert [line.split(":")[1] for line in lines] == ["3", "7", "8", "9", "11", "16"]
    assert lines[0] == "kit.toml:3: vehicle 'Heron': crank_a = 9999: must be a number from 50 to 1500 A"
    assert "Did you mean Heron?" in lines[1]
    assert "must be one of flooded, calcium" in lines[2]
    assert "end-b is missing" in lines[4]
    kit = snapshot(store)
    assert (kit.vehicles, kit.batteries, kit.leads) == ((), (), ())


def test_lines_that_are_no_toml_are_all_reported(store: Store, tmp_path: Path) -> None:
    text = 'a = \n[[x]\n[[vehicle]]\nname = "H"\nnote = yes\n'
    with pytest.raises(BadFile) as caught:
        import_toml(store, write(tmp_path / "kit.toml", text))
    assert [line.split(":")[1] for line in caught.value.lines] == ["1", "2", "5"]


def test_the_same_file_twice_changes_nothing(store: Store) -> None:
    demo = resources.folder("seed_data") / "demo" / "kit.toml"
    first = import_toml(store, demo)
    before = snapshot(store)
    again = import_toml(store, demo)
    assert sum(again.added.values()) == 0
    assert again.unchanged == first.added
    assert snapshot(store) == before


def test_a_thing_that_differs_from_the_kit_is_refused_with_the_fields_that_differ(store: Store, tmp_path: Path) -> None:
    import_toml(store, write(tmp_path / "a.toml", '[[vehicle]]\nname = "Heron"\n'))
    with pytest.raises(BadFile) as caught:
        import_toml(store, write(tmp_path / "b.toml", '[[vehicle]]\nname = "heron"\ncrank_a = 300\n'))
    assert "in the kit with another name, crank_a" in caught.value.lines[0]


def test_a_dry_run_reports_and_changes_nothing(store: Store, tmp_path: Path) -> None:
    done = import_toml(store, write(tmp_path / "a.toml", '[[vehicle]]\nname = "Heron"\n'), dry_run=True)
    assert done.added["vehicle"] == 1
    assert snapshot(store).vehicles == ()


def test_lines_are_counted_past_long_strings_and_lists(store: Store, tmp_path: Path) -> None:
    text = '[[bag]]\nname = """\nblue\n"""\n\n[[bag]]\nname = "red"\nwalk_order = 500\n'
    with pytest.raises(BadFile) as caught:
        import_toml(store, write(tmp_path / "kit.toml", text))
    assert [line.split(":")[1] for line in caught.value.lines] == ["8"]


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"\xef\xbb\xbf"])
def test_a_file_that_is_no_text_or_empty_is_taken_or_refused_in_a_sentence(
    store: Store, tmp_path: Path, content: bytes
) -> None:
    path = tmp_path / "kit.toml"
    path.write_bytes(content)
    if content.startswith(b"\xff"):
        with pytest.raises(BadFile) as caught:
            import_toml(store, path)
        assert caught.value.lines == ("kit.toml:1: is not UTF-8 text (byte 0)",)
    else:
        assert not import_toml(store, path).added


def test_the_starter_kit_imports_and_claims_nothing(store: Store) -> None:
    import_toml(store, resources.folder("seed_data") / "starter.toml")
    kit = snapshot(store)
    assert all(thing.count == 0 for thing in (*kit.leads, *kit.rods, *kit.gear, *kit.tools))


words = st.text(max_size=30) | st.sampled_from(["Heron", "agm", "2027-01-01", "12.5", "nan", "\u202ex", "=1+1"])
values = words | st.integers() | st.floats() | st.booleans() | st.none() | st.lists(words, max_size=3)


def toml_value(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + value.encode("unicode_escape").decode().replace("\\x", "\\u00").replace('"', '\\"') + '"'
    if isinstance(value, list):
        return "[" + ", ".join(toml_value(v) for v in value) + "]"
    return "" if value is None else repr(value)


@settings(max_examples=INPUTS, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["vehicle", "battery", "reading", "lead", "rod", "gear", "trip", "junk"]),
            st.dictionaries(
                st.sampled_from(
                    ["name", "vehicle", "battery", "volts_v", "taken_at", "c20", "use", "count", "x", "bank"]
                ),
                values,
                max_size=6,
            ),
        ),
        max_size=5,
    )
)
def test_whatever_the_file_holds_it_is_taken_whole_or_refused_whole(
    tmp_path_factory: pytest.TempPathFactory, things: list[tuple[str, dict[str, object]]]
) -> None:
    folder = tmp_path_factory.mktemp("any")
    store = new_store(folder / "kit.db")
    text = "\n".join(f"[[{kind}]]\n" + "\n".join(f"{k} = {toml_value(v)}" for k, v in t.items()) for kind, t in things)
    path = folder / "kit.toml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        done = import_toml(store, path)
    except KitlistError:
        kit = snapshot(store)
        assert not any((kit.vehicles, kit.batteries, kit.leads, kit.rods, kit.gear, kit.trips))
    else:
        assert sum(done.added.values()) == len(things)
