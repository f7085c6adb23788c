"""`tally`: a table of finished jobs into bench records."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from pathlib import Path

import click

from generator.bench.tallying import Counted, Job, NotPlaced, tallied
from generator.commands import common
from generator.commands.folders import content_option
from generator.records.block import block
from generator.records.explain import shown
from generator.records.finding import printable
from generator.records.ids import slug
from generator.whole_files import put

_COLUMNS = {
    "date": ("date", "day", "finished"),
    "family": ("family", "machine", "model"),
    "complaint": ("complaint", "symptom", "came in with"),
    "cause": ("cause", "failure mode", "fault", "found", "it was"),
    "minutes": ("minutes", "min", "time", "bench minutes"),
}
"What a job says -> the headings under which it stands, in any case."
_PEOPLE = ("name", "customer", "client", "owner", "phone", "telephone", "tel", "mobile", "mail", "address", "street", "city", "post")
"Words of headings that are about people: such a column is never read."
_MARK = "# Written by `tally`: it writes this file anew."


@click.command()
@click.argument("table", metavar="FILE.csv", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--shop", help="The shop's name; without it, the one of shop.yaml.")
@common.json_option
@content_option
def tally(table: Path, shop: str | None, as_json: bool, folders: Sequence[Path]) -> None:
    """Turn a table of finished jobs into bench records, one for each family and year, in the last content folder named.

    Columns: date, family, complaint, cause, minutes; others are passed over, and those about people are never read.
    The page On this device writes such a table. A row that cannot be placed is named with its line and the reason.
    """
    bench = common.open_bench(folders)
    rows, dropped = _rows(table)
    counted, lost = tallied(bench.library, rows)
    name = shop or bench.library.records.shop.shop or ""
    written = [_write(folders[-1], name, found) for found in counted]
    if as_json:
        common.print_json(_json(counted, written, lost, dropped))
    else:
        click.echo("\n".join(_lines(counted, written, lost, dropped)))
    if not counted:
        raise SystemExit(1)


def _rows(table: Path) -> tuple[list[Job], list[str]]:
    """The jobs of a table, and the headings of columns about people."""
    try:
        text = table.read_bytes().decode("utf-8-sig")
    except OSError as error:
        common.refuse(f"'{table}' cannot be opened: {error.strerror}.")
    except UnicodeDecodeError:
        common.refuse(f"'{table}' is not UTF-8. Save the table as CSV, UTF-8.")
    first = text.partition("\n")[0]
    mark = max(",;\t", key=first.count)
    try:
        lines = list(csv.reader(text.splitlines(), delimiter=mark, strict=True))
    except csv.Error as error:
        common.refuse(f"'{table}' is no table that can be read: {error}.")
    heads = [" ".join(head.lower().split()) for head in lines[0]] if lines else []
    people = [number for number, head in enumerate(heads) if any(word.startswith(_PEOPLE) for word in slug(head).split("-"))]
    places = {key: _column(heads, names, people) for key, names in _COLUMNS.items()}
    missing = [key for key in ("date", "family", "cause") if places[key] is None]
    if missing:
        common.refuse(f"'{table}' has no column {' and '.join(missing)}. The first line names them: date,family,complaint,cause,minutes.")
    jobs = [_job(number, line, places) for number, line in enumerate(lines[1:], 2) if any(cell.strip() for cell in line)]
    return jobs, [printable(lines[0][number].strip()) for number in people]


def _column(heads: Sequence[str], names: Iterable[str], people: Sequence[int]) -> int | None:
    return next((n for name in names for n, head in enumerate(heads) if head == name and n not in people), None)


def _job(number: int, line: Sequence[str], places: dict[str, int | None]) -> Job:
    cells = {key: line[n].strip() if n is not None and n < len(line) else "" for key, n in places.items()}
    return Job(number, **cells)


def _write(folder: Path, shop: str, found: Counted) -> Path:
    name = "-".join(filter(None, (slug(shop)[:40].strip("-"), found.period, found.family)))
    path = folder / "bench" / f"{name}.yaml"
    if path.exists() and _MARK not in path.read_text("utf-8", errors="replace"):
        common.refuse(f"'{path}' is there already, and `tally` did not write it; it stays as it is. Give another --shop.")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        put(path, _record(shop, found).encode("utf-8"))
    except OSError as error:
        common.refuse(f"'{path}' cannot be written: {error.strerror}.")
    return path


def _record(shop: str, found: Counted) -> str:
    head = {**({"shop": shop} if shop else {}), "family": found.family, "period": found.period, "machines": found.machines}
    lines = "".join(f"\n  - {_line(*key, count)}" for key, count in found.found.items())
    spent = "".join(f"\n  - {_spent(mode, minutes)}" for mode, minutes in found.minutes.items())
    took = f"took:{spent}\n" if spent else ""
    return f"{_MARK}\n{block(head)}found:{lines or ' []'}\n{took}"


def _line(symptom: str, mode: str, count: int) -> str:
    return shown({**({"symptom": symptom} if symptom else {}), "mode": mode, "count": count})


def _spent(mode: str, minutes: Iterable[float]) -> str:
    return shown({"mode": mode, "minutes": [int(spent) if spent == int(spent) else spent for spent in minutes]})


def _json(counted: Sequence[Counted], written: Sequence[Path], lost: Sequence[NotPlaced], dropped: Sequence[str]) -> dict[str, object]:
    return {
        "placed": [
            {"file": path.as_posix(), "family": found.family, "period": found.period, "machines": found.machines}
            for found, path in zip(counted, written, strict=True)
        ],
        "not_placed": [{"line": row.line, "reason": row.reason, "near": list(row.near)} for row in lost],
        "dropped": list(dropped),
    }


def _lines(counted: Sequence[Counted], written: Sequence[Path], lost: Sequence[NotPlaced], dropped: Sequence[str]) -> list[str]:
    lines = [f"{path}: {found.machines} jobs, {sum(found.found.values())} causes." for found, path in zip(counted, written, strict=True)]
    if dropped:
        lines.append(f"Not read, since they may be about people: {', '.join(dropped)}.")
    lines += [f"Line {row.line} is not placed: {printable(row.reason)}{_near(row)}" for row in lost]
    return lines or ["The table holds no job."]


def _near(row: NotPlaced) -> str:
    return f" Near: {', '.join(row.near)}." if row.near else ""
