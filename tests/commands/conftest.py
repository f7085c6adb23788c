"""What tests of commands share."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

SOUND = Path(__file__).parents[1] / "records" / "sound"


@pytest.fixture
def in_sound_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command is run where `content` holds the sound records."""
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
