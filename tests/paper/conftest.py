"""The processes of a parallel run share the papers they made, in pytest's own folder of that run."""

from __future__ import annotations

import os

import pytest

from paper import papers


@pytest.fixture(scope="session", autouse=True)
def _shared_papers(tmp_path_factory: pytest.TempPathFactory) -> None:
    if "PYTEST_XDIST_WORKER" in os.environ:
        papers.FOLDER = tmp_path_factory.getbasetemp().parent / "papers"
        papers.FOLDER.mkdir(exist_ok=True)
