"""What tests of built sites share."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest


@pytest.fixture
def project(sound_site: Path, tmp_path: Path) -> Path:
    """A small project of the test's own: sound records, and the site built from them."""
    return Path(shutil.copytree(sound_site.parent, tmp_path / "project"))
