"""`plan`: the job plan for parts to renew, settings to make and failure modes to put right, as one visit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, replace
from fractions import Fraction
from pathlib import Path

import click

from generator.analysis.job.money import Quote
from generator.analysis.job.plan import plan_json
from generator.analysis.machine import Remedy
from generator.bench import Bench
from generator.bench.jobs import Job, renewing, setting
from generator.commands import common
from generator.commands.folders import content_option
from generator.commands.refusing import refuse
from generator.family_view import FamilyView
from generator.records.model import Records, Shop
from generator.wording import words
from generator.wording.jobs import around as job_view
from generator.wording.jobs import quotes
from generator.wording.jobs.steps import StepView, step_views
from generator.wording.links import Links

_INDENT = " " * 16


@click.command()
@common.family_option
@click.option("--renew", multiple=True, metavar="PART", help="Renew this part.")
@click.option("--set", "make", multiple=True, metavar="SETTING", help="Make this setting.")
@click.option("--for", "modes", multiple=True, metavar="FAILURE_MODE", help="Put this failure mode right.")
@common.json_option
@content_option
def plan(
    family: str, renew: Sequence[str], make: Sequence[str], modes: Sequence[str], as_json: bool, folders: Sequence[Path]
) -> None:
    """Plan one visit to the bench: way in, work, way out, settings, proof."""
    if not (renew or make or modes):
        refuse("Nothing to plan. Name a part (--renew), a setting (--set) or a failure mode (--for).")
    bench = common.open_bench(folders)
    view = common.view_of(bench, family)
    job = bench.job(view, _asked(bench, view, renew, make, modes))
    if as_json:
        common.print_json(_json(job, bench.library.records.shop))
    else:
        click.echo("\n".join(_lines(bench, view, job)))


def _asked(
    bench: Bench, view: FamilyView, renew: Sequence[str], make: Sequence[str], modes: Sequence[str]
) -> Iterator[Remedy]:
    for part in renew:
        yield renewing(common.known(part, view.parts, "part of this family"), view)
    for name in make:
        yield setting(common.known(name, view.settings, "setting of this family"))
    for mode in modes:
        if mode in view.not_here:
            title = bench.library.records.failure_modes[mode].title
            common.refuse(f"{view.name} cannot have '{title}': {view.not_here[mode]}.")
        yield bench.remedies(view)[common.known(mode, view.failure_modes, "failure mode")]


def _json(job: Job, shop: Shop) -> dict[str, object]:
    return {
        **plan_json(job.plan),
        "tools": list(job.tools),
        "puts_right": list(job.modes),
        "recorded": asdict(job.recorded) if job.recorded else None,
        "quote": _quote_json(job.quote, shop) if job.quote else None,
    }


def _quote_json(quote: Quote, shop: Shop) -> dict[str, object]:
    def ends(pair: Sequence[int | float | Fraction]) -> list[float | int]:
        return [int(end) if end == int(end) else float(end) for end in pair]

    return {
        "currency": quote.currency,
        "minutes": ends(quote.minutes),
        "labour": ends(quote.labour),
        "parts": ends(quote.parts),
        "total": ends(quote.total),
        "unpriced": list(quote.unpriced),
        "invented": shop.invented,
    }


def _lines(bench: Bench, view: FamilyView, job: Job) -> Iterator[str]:
    shop = bench.library.records.shop
    waiting = f", {job.plan.waiting:g} min of it waiting" if job.plan.waiting else ""
    yield f"{view.name}: {job.plan.minutes:g} min from a closed machine to a proved one{waiting}"
    yield from _needed(bench, view, job)
    yield ""
    yield from _told(bench, view, job)
    yield ""
    if not job.plan.fewest_changes:
        yield "The order of taking off is a good one, not proved to have the fewest changes."
    for other in job_view.worth_doing(job):
        title = view.parts[other.part].title
        yield f"While it is open: {title}, {other.extra_minutes:g} min more now, {other.later_minutes:g} min later"
    if job.quote:
        yield f"Quote: {quotes.range_of_money(job.quote.total, shop.currency)}"
    yield from quotes.quote_lines(job, shop)


def _needed(bench: Bench, view: FamilyView, job: Job) -> Iterator[str]:
    tools = bench.library.records.tools
    if job.plan.parts:
        yield "Parts: " + ", ".join(view.parts[p].title for p in job.plan.parts)
    if job.tools:
        yield "Tools: " + ", ".join(tools[t].title if t in tools else t for t in job.tools)


def _told(bench: Bench, view: FamilyView, job: Job) -> Iterator[str]:
    """Cautions for the whole job, then the steps."""
    records = bench.library.records
    throughout = job_view.throughout(view, job, records)
    link = Links(bench.library, "")
    steps = step_views(view, job.plan, throughout, _work(bench, view, job, link), link)
    yield from _cautions(records, throughout)
    work = next(n for n, step in enumerate(steps) if step.phase != "way-in")
    for step in steps[:work]:
        yield from _step_lines(records, step)
    yield from _ways(view, job)
    for step in steps[work:-1]:
        yield from _step_lines(records, step)
    yield from _cautions(records, (c for c in job_view.proving_cautions(view, records) if c not in throughout))
    yield from _step_lines(records, replace(steps[-1], title="on scrap, the customer's complaint first"))


def _ways(view: FamilyView, job: Job) -> Iterator[str]:
    """All that the records say of carrying out the remedies."""
    for work in job_view.works(view, job.modes):
        held = f"{', '.join(work.modes)}: " if work.modes else ""
        for text in work.says:
            yield f"{_INDENT}{held}{' '.join(words.plain(text).split())}"


def _work(bench: Bench, view: FamilyView, job: Job, link: Links) -> dict[str, str]:
    """Each remedy in words, with what it puts right: two may clean the same part."""
    causes = {r: [m for m, serves in bench.remedies(view).items() if serves == r] for r in job.remedies}
    said = {r.id: job_view.sheet_title(bench, view, r, modes, link) for r, modes in causes.items()}
    cured = {r.id: ", ".join(view.failure_modes[m].title for m in modes) for r, modes in causes.items()}
    return {r: f"{words} ({cured[r]})" for r, words in said.items()}


def _step_lines(records: Records, step: StepView) -> Iterator[str]:
    """The step, with what must be read before it on lines of its own."""
    if step.turn:
        yield f"     {step.turn}"
    yield from _cautions(records, step.cautions)
    for caution in step.again:
        yield f"     Caution: {_title(records, caution)}."
    minutes = f"{step.minutes:5g} min" if step.minutes else " " * 9
    tray = f"  [cell {', '.join(map(str, step.cells))}]" if step.cells else ""
    yield f"{step.number:3}. {minutes}  {f'{step.do} {step.title}'.strip()}{tray}"
    if step.target and step.setting and step.setting.target:
        yield f"{_INDENT}{step.target}: {step.setting.target.measure}"
    if step.read and step.setting:
        yield f"{_INDENT}Read first, {step.read_minutes:g} min: {words.plain(step.read)} Right: leave it as it is."
        yield f"{_INDENT}Out: set it, {step.setting.minutes:g} min."
    for joint in step.joints:
        yield f"{_INDENT}{joint.title}: {'; '.join(map(words.plain, joint.facts))}"
    for note in step.notes:
        yield f"{_INDENT}{words.plain(note)}"


def _cautions(records: Records, ids: Iterable[str]) -> Iterator[str]:
    for caution in ids:
        record = records.cautions.get(caution)
        text = f" {' '.join(words.plain(record.text).split())}" if record else ""
        yield f"     Caution: {_title(records, caution)}.{text}"


def _title(records: Records, caution: str) -> str:
    record = records.cautions.get(caution)
    return record.title if record else words.spaced(caution)
