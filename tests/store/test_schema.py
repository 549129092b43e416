from __future__ import annotations

import hashlib
import re
import sqlite3
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path

import pytest

from kitlist.base.errors import StoreError
from kitlist.base.fields import fields_of
from kitlist.kit import KINDS
from kitlist.store import Store, rows, schema, start, tables
from kitlist.store.measured import SUMMED
from kitlist.store.tables import LISTS, ROWS

LANDED = {
    "0001_kit": "24fae89a1a3a826904e6ecd283d4c31771675c0008fa2bec160d0ef502e29d22",
    "0002_bead": "6abb64effaf47de764459c4fea729915d4a5c7a41c0a03bab9d3088b68f093fd",
    "0003_rod_event": "f9492fc0dabb9c65c938ff89fbeec459d01f3df49748d36c5000bce2e5a3fc58",
    "0004_printed_lines": "ec9796921c1ccf17ed9adc46c17ca3fa1199482783d2cf67a9efd743279a653f",
    "0005_accepting": "45e0d6d2dfcac8f27aa4936dd6202c042eed6223d25a585396321e1da9c8a2ac",
    "0006_check_off": "53f725d83635a4eb3516848fcee8fb4d914d211104c76a75b7474c7d0ab36a6e",
    "0007_trip_use": "88dfcafe6ff2f4e6a93e2093157746705e4ea8f2bf6db830e867ceeb9136173d",
    "0008_mend": "b7af0bfc3f5fd683a0cfcc247cceeda22c852ba8f8394f7c248c67886c310165",
    "0009_acceptance_short_by": "c8b5046f439b17326ea1b51b38e10b44f25ba4b95e3d76eede4e5a3321feecf8",
    "0010_guest": "c091e73fec0db50a770ae5c0af98a0bb553e796efb2e4a7ae07b4decf0599cde",
    "0011_driven": "43ac08a6b39d2d2041decfdd34b183004478c73773adb762aee17ef420498bf9",
    "0012_fire_answer": "5eac3eb9421b3ee9a8a35274c0e20861648e49d6bf8d2b8594649191452acc35",
    "0013_journal": "5d697fd1fe7f36ce4b4edd07f8fdc4de2be5a628a8aaa3cd052c78fd8385d978",
    "0020_ballast": "3cb893f4dd5a170f2253b76226d8496b58ba7c603d0a437db8b3c71ecda15fdd",
    "0021_vehicle_system": "250a05ead1457f5da6fcc5fbaa1ccfb20c81dabebc6248b933b15307f7826ba0",
    "0022_weld": "8f19cc5952b688f52f61f41472fda8879a3af4189daf3d35f28f559628c39f87",
    "0023_rods_said_once": "f148d6ae0b5f35ef096838d9ebef5691c4d81a66a4e2420b70914edeca691b0c",
    "0024_bead_ballast": "7277d9128155c9753b2c73846400c120980c92bfc4357088034027033a4a2d47",
    "0030_hazards": "509d47bca45d1c7fe87280664ba2a876a0bcc74d9eff30ba7c36a7b093382ebc",
    "0031_plug": "f33ab1dd381a30deeaa222c5f2f51da3205c59be67565293a8a991df20af6d93",
    "0040_guide": "974b8ba3b64b4a9dac5f18c4e2c9163cd8f2b69319f577ae171151a8af4adc32",
    "0045_pocket": "49a36e2c905c32460458823fb6908a303b0aa4f3848b5de959df33704a17ca12",
    "0060_checksum": "8b1beb4c4f5944450a45dc90cc088d3e6309717b92e20f841cd15605576efe9b",
    "0061_setting": "6fa8b9870d0c1073d2d9ca8a4acca26027df008b061794adc48daf1499ca3e86",
    "0062_left_at_home": "133eea1feba15ac378f01ed00109b35cd167126ec964249f843a941883e66395",
    "0076_pocket_printed": "05f5e1b48914e27fab2fd57bcd6273ea329f899aad0729c91fb900fda2f5fe6d",
}


def test_landed_migrations_are_never_edited() -> None:
    now = {file.stem: hashlib.sha256(file.read_bytes()).hexdigest() for file in schema.numbered()}
    assert now == LANDED


def test_tables_row_classes_and_kit_have_the_same_columns(store: Store) -> None:
    with sqlite3.connect(store.path) as db:
        for kind, cls in KINDS.items():
            columns = {row[1]: row for row in db.execute(f"PRAGMA table_info({kind})")}
            described = {f.name: f for f in fields_of(cls) if f.type is not tuple}
            own = (
                {"removed_at"} | ({"id"} if kind == "reading" else set()) | ({"checksum"} if kind in SUMMED else set())
            )
            assert set(columns) - own == set(described) == set(ROWS[kind].model_fields) - own
            sql_types = {float: "REAL", int: "INTEGER", bool: "INTEGER", str: "TEXT", date: "TEXT", datetime: "TEXT"}
            for name, field in described.items():
                assert columns[name][2] == sql_types.get(field.type, "TEXT"), f"{kind}.{name}"
                assert bool(columns[name][3]) is not field.optional, f"{kind}.{name} NOT NULL"


def test_lists_of_values_in_the_schema_are_those_of_the_trade_terms(store: Store) -> None:
    with sqlite3.connect(store.path) as db:
        for kind, cls in KINDS.items():
            (sql,) = db.execute("SELECT sql FROM sqlite_master WHERE name = ?", (kind,)).fetchone()
            for field in fields_of(cls):
                marker = f"CHECK ({field.name} IN ('"
                if marker in sql and isinstance(field.type, type) and issubclass(field.type, StrEnum):
                    listed = sql.split(marker)[1].split("'))")[0].split("', '")
                    assert listed == list(field.type), f"{kind}.{field.name}"


def test_every_table_is_strict_and_every_list_has_a_table(store: Store) -> None:
    with sqlite3.connect(store.path) as db:
        strict = {
            row[1]: bool(row[5]) for row in db.execute("PRAGMA table_list") if not row[1].startswith(("_", "sqlite"))
        }
    assert set(strict) == set(KINDS) | {row.__tablename__ for lists in LISTS.values() for row in lists.values()} | {
        "printed",
        "rod_event",
        "check_off",
        "sheet_item",
        "trip_use",
        "linked_battery",
        "journal",
        "journal_change",
        "pocket_taken",
        "phone_port",
        "guide_answer",
        "setting",
    }
    assert all(strict.values())


def test_a_store_from_a_newer_kitlist_is_refused_in_a_sentence_and_left_alone(store: Store) -> None:
    with sqlite3.connect(store.path) as db:
        db.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('kitlist', '9999_later', 'now')"
        )
    before = store.path.read_bytes()
    with pytest.raises(StoreError, match="written by a newer kitlist"):
        Store(store.path)
    assert store.path.read_bytes() == before


def test_a_file_that_is_no_store_is_refused_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear all, this is no database, but it is long enough to look like a page of one. " * 40)
    before = path.read_bytes()
    with pytest.raises(StoreError, match="is not a kitlist store"):
        Store(path)
    assert path.read_bytes() == before


def test_a_migration_that_cannot_be_read_changes_nothing(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    before = store.path.read_bytes()
    more = (*schema.numbered(), Path("9999_later.txt"))
    monkeypatch.setattr(schema, "numbered", lambda: more)
    with pytest.raises(StoreError, match=r"the migration 9999_later\.txt cannot be read"):
        Store(store.path)
    assert store.path.read_bytes() == before


def test_starting_never_overwrites(store: Store) -> None:
    with pytest.raises(StoreError, match="already a file"):
        start(store.path)


def test_a_missing_store_says_how_to_make_one(tmp_path: Path) -> None:
    with pytest.raises(StoreError) as caught:
        Store(tmp_path / "none.db")
    assert "kitlist start" in caught.value.hint


def test_every_row_class_has_the_columns_and_the_key_of_its_table(store: Store) -> None:
    with sqlite3.connect(store.path) as db:
        for row in tables.ALL:
            found = db.execute(f"PRAGMA table_info({row.__tablename__})").fetchall()
            assert {column[1] for column in found} == set(row.model_fields), row
            key = {column.name for column in row.__table__.primary_key}  # type: ignore[attr-defined]
            assert {column[1] for column in found if column[5]} == key, row


def test_things_are_read_without_their_lists_where_nobody_asks_for_them(demo: Path) -> None:
    with Store(demo).viewing() as connection:
        found = [rows.things(connection, "trip", with_lists=with_lists)[0].bank for with_lists in (True, False)]
    assert [bool(bank) for bank in found] == [True, False]


def test_rows_are_written_in_one_place_only() -> None:
    """No other module of the store holds a statement that writes: what is written there is in the journal."""
    writes = re.compile(r"\b(INSERT INTO|UPDATE \w+ SET|DELETE FROM)\b")
    folder = Path(schema.__file__).parent
    assert {file.name for file in folder.rglob("*.py") if writes.search(file.read_text("utf-8"))} == {
        "writer.py",
        "noting.py",
    }
