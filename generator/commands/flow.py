"""`flow`: the whole check flow of a complaint."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from generator.analysis.doubt.order import Order
from generator.analysis.doubt.worklist import Ending, Item, Row, Trial
from generator.analysis.policy import to_json
from generator.bench import Bench, Complaint
from generator.commands import common
from generator.commands.folders import content_option


@click.command()
@click.argument("symptom")
@common.family_option
@common.json_option
@content_option
def flow(symptom: str, family: str, as_json: bool, folders: Sequence[Path]) -> None:
    """Print the checks for SYMPTOM on a family in an order that costs few minutes."""
    bench = common.open_bench(folders)
    complaint = common.complaint_of(bench, family, symptom)
    if as_json:
        common.print_json(_json(bench, complaint))
    else:
        click.echo("\n".join(_lines(bench, complaint)))


def _json(bench: Bench, complaint: Complaint) -> dict[str, object]:
    found = bench.diagnosed(complaint)
    return {
        "policy": to_json(found.order.policy),
        "expected_minutes": found.order.expected_minutes,
        "record_order_minutes": found.record_order_minutes,
        "ratio_order_minutes": found.ratio_order_minutes,
        "caution_minutes": found.caution_minutes,
        "exact": found.order.exact,
        "lower_bound": found.order.lower_bound,
        "hypotheses": [
            {"causes": list(h.causes), "share": complaint.share(h), "remedy": h.remedy.id}
            for h in complaint.case.hypotheses
        ],
        "something_else": complaint.doubt.unlisted,
    }


def _lines(bench: Bench, complaint: Complaint) -> list[str]:
    found, work = bench.diagnosed(complaint), bench.worklist(complaint)
    lines = [f"{complaint.title}, {complaint.view.name}"]
    lines += ["Minutes of a step are from where the machine then stands, with what it opens and shuts again.", ""]
    lines += [f"Start: {_trial(t)}" for t in work.trials]
    for item in work.items:
        lines += _item(complaint, item)
    lines.append(f"{found.order.expected_minutes:.1f} min expected ({proof(found.order)}).")
    lines.append(
        f"Likeliest for its cost first: {found.ratio_order_minutes:.1f} min. "
        f"As the records stand: {found.record_order_minutes:.1f} min."
    )
    lines.append(f"A sign before every dear remedy: {found.caution_minutes:+.1f} min a job, counted in.")
    return lines


def proof(order: Order) -> str:
    """What is proved of an order, and over what."""
    if order.exact:
        return "none takes fewer that does each step at most once and sees a sign before a dear part"
    return f"not proved the best; none takes fewer than {order.lower_bound:.1f}"


def _item(complaint: Complaint, item: Item) -> list[str]:
    check = complaint.view.checks[item.check]
    opens = f", open {', '.join(item.opens)}" if item.opens else ""
    head = f"{item.number}  {check.title} ({item.minutes:g} min{opens}; {item.expected:.1f} still to expect)"
    none = f"None of these, or it cannot be done: {item.instead or STOP}"
    return [head, *(f"     {_row(row)}" for row in item.rows), f"     - {none}", ""]


STOP = "stop and think"


def _row(row: Row) -> str:
    ends = ["done"] if row.cured else [_trial(t) for t in row.trials]
    if row.again:
        ends.append(f"if it stands {_trial(row.again)}")
    if row.then:
        ends.append(f"go on to {row.then}")
    if row.ending:
        ends.append(_ending(row.ending))
    seldom = " (seldom: look again)" if row.unlikely else ""
    return f"{row.outcome + 1} {row.says}{seldom}: {'; if not cured, '.join(ends)}"


def _ending(ending: Ending) -> str:
    if ending.beyond:
        return f"next {ending.beyond.next or STOP}"
    unproved = ", ".join(ending.stop.unproved) if ending.stop else ""
    return f"{STOP}; not proved, so not done: {unproved}" if unproved else STOP


def _trial(trial: Trial) -> str:
    return f"{trial.remedy} ({trial.minutes:g} min)"
