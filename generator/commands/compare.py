"""`compare`: what a change does to the knowledge, for a reviewer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from generator.bench.changes import changes
from generator.commands import common
from generator.commands.compare_words import FORMS
from generator.commands.folders import content_option
from generator.commands.revision import records_at
from generator.library import Library


@click.command()
@click.argument("rev")
@common.json_option
@click.option("--as", "form", type=click.Choice([*FORMS]), default="text", show_default=True, help="In which form.")
@content_option
def compare(rev: str, as_json: bool, form: str, folders: Sequence[Path]) -> None:
    """Say what has changed in the records since the git revision REV, and what it does at the bench.

    Texts and figures side by side, complaints with their minutes and first checks, where new failure modes fall in
    checks that were there, what is told apart no more, and jobs that are others. The largest comes first.
    """
    now = common.open_bench(folders).library
    before = Library(records_at(rev, tuple(folders), now.records))
    click.echo(FORMS["json" if as_json else form](changes(before, now, common.CACHE), now.records))
