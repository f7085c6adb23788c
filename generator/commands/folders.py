"""The option that names the content folders."""

from __future__ import annotations

from pathlib import Path

import click


class NoFolder(click.ClickException):
    """A content folder is not there."""

    exit_code = 2


def existing(folders: tuple[Path, ...]) -> list[Path]:
    """The folders, if every one is there; else one clear sentence and exit code 2."""
    for folder in folders:
        if not folder.is_dir():
            mend = "go to the folder that holds it, or name one with --content."
            raise NoFolder(f"There is no content folder '{folder}': {mend}")
    return list(folders)


content_option = click.option(
    "--content",
    "folders",
    multiple=True,
    default=(Path("content"),),
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="A folder of records; each later one lies over those before it.",
)
"For every command that reads records."
