"""The browser that tests show pages in; without one on this machine they are skipped."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, BrowserType

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser")
"""The one without windows first: it shows the same pages for less than half of the work of the whole browser."""


def launched(kind: BrowserType) -> Browser:
    """A browser that forgets everything when it is closed."""
    return kind.launch(**_options())


def remembering(kind: BrowserType, profile: Path) -> BrowserContext:
    """A browser that finds in its folder what it kept there before."""
    return kind.launch_persistent_context(profile, **_options())


def _options() -> dict[str, Any]:
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        pytest.skip(f"no chromium on this machine: apt-get install {NAMES[0]}")
    return {"executable_path": found, "args": ["--no-sandbox"]}
