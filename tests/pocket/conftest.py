"""The pocket page of the demo's trip, and one browser for all tests of a module."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

import chromium
from kitlist.base import resources
from kitlist.faces.judging import judged
from kitlist.faces.pocket.build_pocket import build_pocket
from kitlist.readiness import Readiness
from kitlist.store import Store, start
from kitlist.store.importing import import_toml

ON = date(2027, 5, 6)


@pytest.fixture(scope="package")
def store(tmp_path_factory: pytest.TempPathFactory) -> Store:
    made = start(tmp_path_factory.mktemp("pocket") / "kit.db")
    import_toml(made, resources.folder("seed_data") / "demo" / "kit.toml")
    return made


@pytest.fixture(scope="package")
def readiness(store: Store) -> Readiness:
    return judged(store, None, on=ON)


@pytest.fixture(scope="package")
def html(readiness: Readiness) -> str:
    return build_pocket(readiness, on=ON)


@pytest.fixture(scope="package")
def page_file(html: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("phone") / "pocket.html"
    path.write_text(html, encoding="utf-8")
    return path


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = chromium.launched(playwright.chromium)
        yield browser
        browser.close()
