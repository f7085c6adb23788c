"""`rank`: causes of a complaint by share, and the next check."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from generator.analysis.doubt.case import SOMETHING_ELSE
from generator.bench import Complaint
from generator.bench.walk import Entry, Walk, walk
from generator.commands import common
from generator.commands.folders import content_option
from generator.wording import words


@click.command()
@click.argument("symptom")
@common.family_option
@click.option("--saw", multiple=True, metavar="CHECK=NUMBER", help="What a check showed, as the number of its outcome; the first is 1.")
@click.option("--skip", multiple=True, metavar="CHECK", help="Leave this check out.")
@common.json_option
@content_option
def rank(
    symptom: str, family: str, saw: Sequence[str], skip: Sequence[str], as_json: bool, folders: Sequence[Path]
) -> None:
    """Rank the causes of SYMPTOM on a family, after what was seen so far."""
    bench = common.open_bench(folders)
    complaint = common.complaint_of(bench, family, symptom)
    answers = [_answer(complaint, text) for text in saw]
    for twice in {a.id for a in answers if sum(b.id == a.id for b in answers) > 1}:
        common.refuse(f"'{twice}' is given twice with --saw; a check counts once. Keep what it showed last.")
    skipped = [Entry("skip", common.known(check, complaint.view.checks, "check of this family")) for check in skip]
    found = walk(bench, complaint, [*answers, *skipped])
    if as_json:
        common.print_json(_json(complaint, found))
    else:
        click.echo("\n".join(_lines(complaint, found)))


def _answer(complaint: Complaint, text: str) -> Entry:
    """Reads CHECK=NUMBER."""
    name, mark, number = text.partition("=")
    if not mark:
        common.refuse(f"'{text}' says no outcome. Write it as CHECK=NUMBER, such as new-needle-sew=2.")
    name = common.known(name, complaint.view.checks, "check of this family")
    check = next((c for c in complaint.case.checks if c.id == name), None)
    if check is None:
        common.refuse(f"'{name}' tells nothing about '{complaint.title}' on this family.")
    if not number.isdecimal() or not 1 <= int(number) <= len(check.outcomes):
        shown = "; ".join(f"{n} {says}" for n, says in enumerate(check.outcomes, 1))
        common.refuse(f"'{name}' has no outcome {number or '(empty)'}. It has: {shown}.")
    return Entry("saw", name, int(number) - 1)


def _json(complaint: Complaint, found: Walk) -> dict[str, object]:
    remedies = {h.id: h.remedy.id for h in complaint.case.hypotheses}
    return {
        "causes": [
            {"id": h, "share": share, "remedy": remedies.get(h), "rests_on": complaint.rests_on(h)}
            for h, share in found.ranking.shares.items()
        ],
        "next_check": found.next_check,
        "next_remedy": found.next_remedy,
        "expected_minutes": found.expected_minutes,
        "exact": found.exact,
        "lower_bound": found.lower_bound,
        "said": found.ranking.said,
    }


def _percent(share: float) -> str:
    """To a tenth; nothing that may be is shown as if it could not.

    >>> _percent(0.314), _percent(0.0002)
    ('  31.4 %', 'under 0.1 %')
    """
    return "under 0.1 %" if 0 < share < 0.001 else f"{share * 100:6.1f} %"


def _lines(complaint: Complaint, found: Walk) -> list[str]:
    lines = [f"{complaint.title}, {complaint.view.name}", ""]
    for cause, share in found.ranking.shares.items():
        lines.append(f"{_percent(share):>11}  {_name(complaint, cause)}  ({complaint.rests_on(cause)})")
    lines.append("")
    if found.ranking.said:
        lines += [found.ranking.said, ""]
    if found.next_check:
        check = complaint.view.checks[found.next_check]
        lines.append(f"Next: {check.title} ({check.minutes:g} min)")
        shown = next(c for c in complaint.case.checks if c.id == found.next_check).outcomes
        lines += [f"  {n}  {says}" for n, says in enumerate(shown, 1)]
    elif found.next_remedy:
        lines.append(f"Next: {found.next_remedy}")
    elif found.expected_minutes:
        lines.append("Next: stop and think. Go over again what was seen.")
    lines.append(_expected(found))
    return lines


def _name(complaint: Complaint, cause: str) -> str:
    if cause == SOMETHING_ELSE:
        return words.SOMETHING_ELSE
    return " and ".join(complaint.view.failure_modes[m].title for m in cause.split("+"))


def _expected(found: Walk) -> str:
    if found.exact:
        return f"{found.expected_minutes:.1f} min still to expect (no order of these steps takes fewer)"
    about = "" if found.planned else "about "
    return f"{about}{found.expected_minutes:.1f} min still to expect (none takes fewer than {found.lower_bound:.1f})"
