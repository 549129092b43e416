"""What all tests share: a fresh store, and no store of the person who runs them."""

from __future__ import annotations

from pathlib import Path

import pytest

from kitlist.store import Store, start


@pytest.fixture(autouse=True)
def _own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("KITLIST_STORE", str(tmp_path / "own" / "kit.db"))
    monkeypatch.setenv("COLUMNS", "100")


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty store."""
    return start(tmp_path / "kit.db")
