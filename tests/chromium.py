"""The browser that tests show pages in."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, BrowserType

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser")
"""The one without windows first: it shows the same pages for less than half of the work of the whole browser."""
FOUND = next(filter(None, map(shutil.which, NAMES)), None)
ARGS = ["--no-sandbox"]
MISSING = f"no chromium on this machine: apt-get install {NAMES[0]}"
needed = pytest.mark.skipif(FOUND is None, reason=MISSING)


def launched(kind: BrowserType) -> Browser:
    """A browser that forgets everything when it is closed; without one on this machine the test is skipped."""
    if FOUND is None:
        pytest.skip(MISSING)
    return kind.launch(executable_path=FOUND, args=ARGS)


def remembering(kind: BrowserType, profile: Path) -> BrowserContext:
    """A browser that finds in its folder what it kept there before."""
    if FOUND is None:
        pytest.skip(MISSING)
    return kind.launch_persistent_context(profile, executable_path=FOUND, args=ARGS)
