"""The option that names the content folders."""

from __future__ import annotations

from pathlib import Path

import click

from generator.commands.refusing import refuse
from generator.records.kinds import BY_PLACE

CACHE = Path(".cache/handwheel")
"Where values are kept between runs: under the folder where the command is run, as for the site."
_OF_A_KIND = {place for place in BY_PLACE if not place.endswith(".yaml")}


def existing(folders: tuple[Path, ...]) -> list[Path]:
    """The folders, if every one is there; else a refusal."""
    for folder in folders:
        if not folder.is_dir():
            mend = "go to the folder that holds it, or name one with --content."
            refuse(f"There is no content folder '{folder}': {mend}")
        if folder.name in _OF_A_KIND:
            refuse(f"'{folder}' holds one kind of record: name the folder that holds it, '{folder.parent}', with --content.")
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
