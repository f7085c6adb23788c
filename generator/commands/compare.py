"""`compare`: what a change does to the knowledge, for a reviewer."""

from __future__ import annotations

import io
import subprocess
import tempfile
import zipfile
from collections.abc import Sequence
from pathlib import Path

import click

from generator.bench import Bench
from generator.bench.changes import Changes, OrderChange, RecordChange, changes
from generator.commands import common
from generator.commands.folders import content_option
from generator.content_rules import load_checked
from generator.library import Library


@click.command()
@click.argument("rev")
@common.json_option
@click.option("--as", "form", type=click.Choice(["text", "markdown", "json"]), default="text", show_default=True, help="In which form.")
@content_option
def compare(rev: str, as_json: bool, form: str, folders: Sequence[Path]) -> None:
    """Say what has changed in the records since the git revision REV, and what it does to the order of checks."""
    now = common.open_bench(folders)
    with tempfile.TemporaryDirectory() as folder:
        before = _bench_at(rev, tuple(folders), Path(folder))
    found = changes(before, now)
    if as_json or form == "json":
        common.print_json(_json(found))
    else:
        click.echo("\n".join(_lines(found) if form == "text" else (f"- {line}" for line in _lines(found))))


def _bench_at(rev: str, content: tuple[Path, ...], folder: Path) -> Bench:
    """The records as they stood at a revision. What could not be read then is left out."""
    roots = []
    for number, path in enumerate(content):
        root = folder / str(number)
        root.mkdir()
        with zipfile.ZipFile(io.BytesIO(_archive(rev, path))) as packed:
            packed.extractall(root)
        roots.append(root)
    records, findings = load_checked(roots)
    errors = sum(f.level == "error" for f in findings)
    if errors:
        common.refuse(f"The records at {rev} have {errors} errors, so there is nothing sound to compare with.")
    return Bench(Library(records), common.CACHE)


def _archive(rev: str, path: Path) -> bytes:
    if rev.startswith("-"):
        common.refuse(f"'{rev}' is no revision: a revision does not begin with '-'.")
    done = subprocess.run(
        ["git", "-C", str(path), "archive", "--format=zip", rev, "--", "."], capture_output=True, check=False
    )
    if done.returncode:
        common.refuse(f"git cannot give {path} at '{rev}': {done.stderr.decode().strip().splitlines()[-1]}.")
    return done.stdout


def _json(found: Changes) -> dict[str, object]:
    return {
        "added": [_record(r) for r in found.added],
        "removed": [_record(r) for r in found.removed],
        "changed": [_record(r) | {"keys": list(r.keys)} for r in found.changed],
        "order_changes": [_order(o) for o in found.order_changes],
    }


def _record(change: RecordChange) -> dict[str, object]:
    return {"kind": change.kind, "id": change.id}


def _order(change: OrderChange) -> dict[str, object]:
    return {
        "family": change.family,
        "symptom": change.symptom,
        "minutes_before": change.minutes_before,
        "minutes_now": change.minutes_now,
        "first_before": change.first_before,
        "first_now": change.first_now,
    }


def _lines(found: Changes) -> list[str]:
    lines = [f"Added    {r.kind} {r.id}" for r in found.added]
    lines += [f"Removed  {r.kind} {r.id}" for r in found.removed]
    lines += [f"Changed  {r.kind} {r.id}: {', '.join(r.keys)}" for r in found.changed]
    lines += [_order_line(o) for o in found.order_changes]
    return lines or ["Nothing has changed."]


def _order_line(o: OrderChange) -> str:
    before = "new" if o.minutes_before is None else f"{o.minutes_before:.1f}"
    now = "gone" if o.minutes_now is None else f"{o.minutes_now:.1f} min"
    first = "" if o.first_before == o.first_now else f"; first {o.first_before or 'nothing'}, now {o.first_now or 'nothing'}"
    return f"Order    {o.family} {o.symptom}: {before} to {now}{first}"
