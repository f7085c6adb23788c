"""Which content folders a built site was made from, kept beside its pages: `share` asks it, and does not pack it."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.records.private import is_private

NAME = "made-from.json"
LEAVE_OUT = "HANDWHEEL_LEAVE_OUT_PRIVATE"
"Set in the environment of a build that is to be given away."


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """One content folder of a built site."""

    folder: str
    "From the folder of mkdocs.yml."
    private: bool
    "Whether it was marked private when the site was built."


def to_build(folders: Sequence[Path]) -> list[Path]:
    """The folders that this build takes: all, or for a copy to give away those that are not private."""
    return [folder for folder in folders if not (os.environ.get(LEAVE_OUT) and is_private(folder))]


def write_made_from(site: Path, folders: Sequence[Path], project: Path) -> None:
    """After everything else, so that no browser keeps it."""
    rows = [{"folder": Path(os.path.relpath(folder, project)).as_posix(), "private": is_private(folder)} for folder in folders]
    (site / NAME).write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")


def made_from(site: Path) -> tuple[MadeFrom, ...] | None:
    """What a built site says of itself; None where it says nothing that can be read."""
    try:
        rows = json.loads((site / NAME).read_text(encoding="utf-8"))
        return tuple(MadeFrom(row["folder"], row["private"] is not False) for row in rows)
    except (OSError, ValueError, TypeError, KeyError):
        return None


def private_in(site: Sequence[MadeFrom], project: Path) -> tuple[str, ...]:
    """The folders of a built site that stay in the shop: marked when it was built, or by now."""
    return tuple(row.folder for row in site if row.private or is_private(project / row.folder))
