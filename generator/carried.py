"""Folders that stand beside the package in a checkout, and within it where it was installed."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parent
_CHECKOUT = _PACKAGE.parent

_INSTALLED = _PACKAGE / "carried"
"Made by `setup.py` in what is installed; a checkout has none."


def carried(place: str) -> Path:
    """A folder by its place in the checkout, such as `schema`."""
    return (_INSTALLED if _INSTALLED.is_dir() else _CHECKOUT) / place
