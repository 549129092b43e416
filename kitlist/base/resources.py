"""Finds templates, seed_data and migrations, in a checkout and in an installed package alike."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]
_BUNDLED = _PACKAGE / "_bundled"


def folder(name: str) -> Path:
    """The folder `templates`, `seed_data` or `migrations`: inside the wheel, else at the top of the checkout."""
    bundled = _BUNDLED / name
    return bundled if bundled.is_dir() else _PACKAGE.parent / name
