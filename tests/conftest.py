"""What all tests share: a fresh store, the demo kit's store, and no store of the person who runs them."""

from __future__ import annotations

import gc
import os
import shutil
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

from kitlist.store import Store
from new_store import demo_store, new_store

MEMORY, ENOUGH = Path("/dev/shm"), 2_000_000_000


def pytest_configure() -> None:
    """Stores of tests lie in memory where there is room: each write waits for the disk, and a test makes hundreds.

    Cycles are searched for less often: what many tests read, as papers, is kept to the end. What is compiled is kept:
    tests start hundreds of processes.
    """
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    if os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ENOUGH:
        os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))
    gc.set_threshold(100_000, 20, 20)


def pytest_collection_finish() -> None:
    """Thousands of tests stay to the end, and need not be gone through for cycles."""
    gc.freeze()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What a browser shows comes first: it takes longest, and no core is to wait for it at the end."""
    items.sort(key=lambda item: "browser" not in getattr(item, "fixturenames", ()))


@pytest.fixture(scope="session")
def _places(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Places for stores, one after the other, of which next to none is used: no folder is made for them."""
    folder = tmp_path_factory.mktemp("own")
    return (folder / str(number) / "kit.db" for number in count())


@pytest.fixture(autouse=True)
def _own_store(_places: Iterator[Path], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("KITLIST_STORE", str(next(_places)))
    monkeypatch.setenv("COLUMNS", "100")


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty store."""
    return new_store(tmp_path / "kit.db")


@pytest.fixture(scope="session")
def demo_made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with the demo kit, which nobody changes."""
    return demo_store(tmp_path_factory.mktemp("demo") / "kit.db").path


@pytest.fixture
def demo(demo_made: Path, tmp_path: Path) -> Path:
    """A store of one's own with the demo kit."""
    path = tmp_path / "kit.db"
    path.write_bytes(demo_made.read_bytes())
    return path
