"""`flow`: the whole check flow of a complaint."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from generator.analysis.check_order import to_json
from generator.analysis.check_order.worklist import Item, Row, Trial
from generator.bench import Bench, Complaint
from generator.commands import common
from generator.commands.folders import content_option


@click.command()
@click.argument("symptom")
@common.family_option
@common.json_option
@content_option
def flow(symptom: str, family: str, as_json: bool, folders: Sequence[Path]) -> None:
    """Print the checks for SYMPTOM on a family in the order that costs the fewest minutes."""
    bench = common.open_bench(folders)
    complaint = common.complaint_of(bench, family, symptom)
    if as_json:
        common.print_json(_json(bench, complaint))
    else:
        click.echo("\n".join(_lines(bench, complaint)))


def _json(bench: Bench, complaint: Complaint) -> dict[str, object]:
    found = bench.diagnosed(complaint)
    return {
        "policy": to_json(found.solution.policy),
        "expected_minutes": found.solution.expected_minutes,
        "record_order_minutes": found.record_order_minutes,
        "ratio_order_minutes": found.ratio_order_minutes,
        "exact": found.solution.exact,
        "lower_bound": found.solution.lower_bound,
        "hypotheses": [
            {"causes": list(h.causes), "share": h.share, "remedy": h.remedy.id} for h in complaint.case.hypotheses
        ],
    }


def _lines(bench: Bench, complaint: Complaint) -> list[str]:
    found, work = bench.diagnosed(complaint), bench.worklist(complaint)
    lines = [f"{complaint.symptom.title}, {complaint.view.family.title}", ""]
    lines += [f"Start: {_trial(t)}" for t in work.trials]
    for item in work.items:
        lines += _item(complaint, item)
    proof = "no order takes fewer" if found.solution.exact else f"at least {found.solution.lower_bound:.1f}"
    lines.append(f"{found.solution.expected_minutes:.1f} min expected ({proof}).")
    lines.append(
        f"Likeliest for its cost first: {found.ratio_order_minutes:.1f} min. "
        f"As the records stand: {found.record_order_minutes:.1f} min."
    )
    return lines


def _item(complaint: Complaint, item: Item) -> list[str]:
    check = complaint.view.checks[item.check]
    opens = f", open {', '.join(item.opens)}" if item.opens else ""
    head = f"{item.number}  {check.title} ({item.minutes:g} min{opens}; {item.expected:.1f} still to expect)"
    return [head, *(f"     {_row(row)}" for row in item.rows), ""]


def _row(row: Row) -> str:
    ends = ["done"] if row.cured else [_trial(t) for t in row.trials]
    if row.then:
        ends.append(f"go on to {row.then}")
    return f"{row.outcome + 1} {row.says}: {'; if not cured, '.join(ends)}"


def _trial(trial: Trial) -> str:
    return f"{trial.remedy} ({trial.minutes:g} min)"
