"""`check`: everything that is wrong with the records."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from generator.checked import check as check_all
from generator.commands.folders import CACHE, content_option, existing
from generator.commands.refusing import refuse
from generator.records.finding import Finding, printable
from generator.records.fixing.fix import fix, fix_ids, proper
from generator.records.report import FORMATS, summary
from generator.store import keep


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@content_option
@click.option(
    "--format",
    "form",
    type=click.Choice([*FORMATS]),
    default="text",
    show_default=True,
    help="text to read, annotations for a pull request, json as data.",
)
@click.option(
    "--explain",
    "rule",
    is_flag=False,
    flag_value="",
    metavar="[RULE]",
    help="Say what a rule holds, with an example; without RULE, list all.",
)
@click.option("--fix", "fixes", is_flag=True, help="First mend file names and units; with PATHS also the order of keys.")
@click.option("--nearest", is_flag=True, help="With --fix: write the nearest known word for one that is none.")
def check(
    paths: tuple[Path, ...], folders: tuple[Path, ...], form: str, rule: str | None, fixes: bool, nearest: bool
) -> None:
    """Validate the records; with PATHS, report on those files and folders only.

    With --fix, what can be mended without a change of meaning is mended first, a line for each thing done; what is
    reported after that was left. Notes and layout stay.

    Exits with 1 if there is a problem; warnings do not count.
    """
    if rule is not None:
        from generator.commands.explain import explained, listed  # slow, and seldom asked for

        click.echo("\n".join(explained(rule) if rule else listed()))
        return
    folders_there = existing(folders)
    _refuse_strangers(paths, folders_there)
    if nearest and not fixes:
        refuse("--nearest goes with --fix.")
    for line in _fixed(paths, folders_there, nearest) if fixes else ():
        click.echo(printable(line), err=form != "text")
    paths = tuple(path if os.path.lexists(path) else proper(path) for path in paths)
    found = check_all(folders_there, CACHE)
    findings = found.findings
    asked = [f for f in findings if not paths or _under(f.path, paths)]
    if not found.count and not findings:
        refuse(
            f"No record is in {', '.join(map(str, folders_there))}: name the folder that holds families/ with --content."
        )
    if found.records and not paths and not any(finding.level == "error" for finding in findings):
        keep(folders_there, CACHE, found.records)
    report = FORMATS[form](asked)
    if report:
        click.echo(report)
    if form == "text":
        click.echo(summary(asked, found.count))
        click.echo(_elsewhere(findings, asked), nl=False)
    if any(finding.level == "error" for finding in asked):
        raise SystemExit(1)


def _fixed(paths: Sequence[Path], folders: Sequence[Path], nearest: bool) -> Iterator[str]:
    """Mends what can be mended in what was asked for, and says what it did."""

    def asked(path: Path) -> bool:
        return not paths or _under(path, paths)

    yield from fix(folders, asked, ordered=bool(paths))
    if nearest:
        yield from fix_ids(check_all(folders, CACHE).findings, asked)


def _elsewhere(findings: Sequence[Finding], asked: Sequence[Finding]) -> str:
    """A line about the files that were not asked for, if the book as a whole is not sound."""
    broken = sorted({str(f.path) for f in findings if f.level == "error"} - {str(f.path) for f in asked})
    if not broken:
        return ""
    more = f" and {len(broken) - 3} more" if broken[3:] else ""
    return f"Elsewhere there are problems too, in {', '.join(broken[:3])}{more}: `check` lists them.\n"


def _refuse_strangers(paths: Sequence[Path], folders: Sequence[Path]) -> None:
    for path in paths:
        if not os.path.lexists(path):
            refuse(f"There is no file or folder '{path}'.")
        if not _under(path, folders):
            refuse(f"'{path}' is in no content folder: name its folder with --content.")


def _under(path: Path, places: Sequence[Path]) -> bool:
    """Whether a path is one of the places or lies below one, links not followed."""
    whole = Path(os.path.abspath(path))
    return any(whole.is_relative_to(os.path.abspath(place)) for place in places)
