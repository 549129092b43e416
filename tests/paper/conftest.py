"""The processes of a parallel run share the papers they made, in pytest's own folder of that run."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from paper import papers

HERE = Path(__file__).resolve().parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What is asked of one paper stands together: a process that reads it anew spends more than all its questions."""
    places = [place for place, item in enumerate(items) if item.path.parent == HERE]
    ordered = sorted((items[place] for place in places), key=_asked_of)
    for place, item in zip(places, ordered, strict=True):
        items[place] = item


def _asked_of(item: pytest.Item) -> str:
    called = getattr(item, "callspec", None)
    return str(called.params.get("name", "")) if called else ""


@pytest.fixture(scope="session", autouse=True)
def _shared_papers(tmp_path_factory: pytest.TempPathFactory) -> None:
    if "PYTEST_XDIST_WORKER" in os.environ:
        papers.FOLDER = tmp_path_factory.getbasetemp().parent / "papers"
        papers.FOLDER.mkdir(exist_ok=True)
