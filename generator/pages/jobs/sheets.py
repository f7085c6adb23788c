"""Job sheets: one for every family and remedy, to read on the screen and to print for the bench."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Any

import segno
from markupsafe import Markup

from generator.analysis.job.types import Plan
from generator.analysis.machine import Remedy
from generator.bench.jobs import Job
from generator.family_view import FamilyView
from generator.pages.jobs import behind
from generator.pages.jobs.structured import how_to
from generator.pages.maker import Maker, texts
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.pages.shops_own import About, mechanisms_of
from generator.pages.timing.beside import Beside
from generator.wording.jobs import around as job_view
from generator.wording.jobs import quotes
from generator.wording.jobs.steps import StepView, step_views
from generator.wording.links import Links
from generator.wording.places import place

LONG = ((44, "hw-long hw-longest hw-utmost"), (29, "hw-long hw-longest"), (18, "hw-long"))
"Steps beyond which a sheet is printed closer, to keep to two sides, and the class that does it."


def pieces(maker: Maker, view: FamilyView, site_url: str) -> tuple[Piece, Piece]:
    """Every sheet of a family, then their list.

    `site_url` is where the site is published; empty leaves the code out that leads back to the page.
    """
    sheets = {place("jobs", mode, view.id): mode for mode in _sheets(maker, view)}
    beside = Beside(maker, view)
    return (
        maker.each(sheets, lambda _: partial(_sheet, maker, view, beside, site_url), view),
        maker.each({place("job-list", view.id): view}, lambda _: partial(_list, maker), view),
    )


def _sheets(maker: Maker, view: FamilyView) -> dict[str, Remedy]:
    """The failure mode under whose name each sheet stands -> its remedy."""
    remedies = maker.bench.remedies(view)
    return {m: r for m, r in remedies.items() if maker.bench.sheet_of(view, r.id) == m}


def _sheet(maker: Maker, view: FamilyView, beside: Beside, site_url: str, mode: str) -> PageText:
    remedy = maker.bench.remedies(view)[mode]
    address = place("jobs", mode, view.id)
    online = f"{site_url.rstrip('/')}/{address}"
    link = Links(maker.library, address)
    job, shop = maker.bench.job(view, (remedy,)), maker.records.shop
    heading = job_view.sheet_title(maker.bench, view, remedy, job.modes, link)
    throughout = job_view.throughout(view, job, maker.records)
    worth = job_view.worth_doing(job)
    steps = step_views(view, job.plan, throughout, {remedy.id: heading}, link)
    drawings = beside.steps(job.plan.steps)
    return maker.page(
        address,
        f"{heading}: {view.name}",
        "job-sheet.html",
        of=view,
        about=_told_of(view, job),
        search=texts("job sheet", heading, view.name, [view.title("failure-mode", m) for m in job.modes]),
        description=f"{heading} on {view.name}: way in, work, way out, settings.",
        wide=True,
        family=view.family,
        home_of=view.home_of,
        heading=heading,
        long=next((name for most, name in LONG if len(steps) > most), ""),
        modes=job.modes,
        minutes=job.plan.minutes,
        waiting=job.plan.waiting,
        total=_total(maker, job),
        quote=quotes.quote_lines(job, shop),
        throughout=throughout,
        parts=job_view.parts_to_have(view, job, shop),
        tools=job.tools,
        drawings=drawings,
        behind=behind.drawing(maker, view, job.plan.steps),
        some_printed=len({d.printed for beside_it in drawings.values() for d in beside_it}) == 2,
        tray=job_view.cells(view, job.plan.tray),
        way_in=[s for s in steps if s.phase == "way-in"],
        order_said=_order_said(job.plan),
        works=job_view.works(view, job.modes),
        work=[s for s in steps if s.phase == "work"],
        while_open=worth[:job_view.SHOWN_OPEN],
        open_more=len(worth[job_view.SHOWN_OPEN:]),
        way_out=[s for s in steps[:-1] if s.phase not in ("way-in", "work")],
        refits=any(s.refits for s in steps),
        settings=[s for s in steps if s.setting],
        sew=steps[-1],
        proving_cautions=[c for c in job_view.proving_cautions(view, maker.records) if c not in throughout],
        tests=job_view.closing_tests(view.family, shop),
        data=_how_to(maker, view, job, heading, steps, throughout),
        online=online,
        code=_code(online) if site_url else "",
    )


def _how_to(maker: Maker, view: FamilyView, job: Job, heading: str, steps: Sequence[StepView], throughout: Sequence[str]) -> Markup:
    tools, records = maker.records.tools, maker.records
    return how_to(
        f"{heading}: {view.name}",
        job.plan.minutes,
        steps,
        throughout,
        records.cautions,
        tool=[tools[tool].title for tool in job.tools if tool in tools],
        supply=[view.title("part", part) for part in job.plan.parts],
    )


def _told_of(view: FamilyView, job: Job) -> Iterator[About]:
    """The causes and the mechanisms that a sheet tells of."""
    yield from (("failure-mode", mode) for mode in job.modes)
    yield from mechanisms_of(view, (step.part for step in job.plan.steps))


def _total(maker: Maker, job: Job) -> str:
    if job.quote is None:
        return ""
    return quotes.range_of_money(job.quote.total, maker.records.shop.currency)


def _order_said(plan: Plan) -> str:
    """What the order of taking off rests on."""
    if plan.fewest_changes:
        return "No other order of this way in turns the machine over and changes tools less."
    return "A good order of the way in, but not proved to be the one with the fewest turns of the machine and changes of tool."


def _code(address: str) -> Markup:
    """A QR code of the address, black on white with its quiet zone (ISO/IEC 18004 asks for four modules)."""
    code = segno.make(address, error="m", micro=False)
    return Markup(code.svg_inline(omitsize=True, border=4, dark="#000", light="#fff", svgclass=None, lineclass=None))


def _list(maker: Maker, view: FamilyView) -> PageText:
    address = place("job-list", view.id)
    link = Links(maker.library, address)
    groups: dict[str, list[dict[str, Any]]] = {a: [] for a in view.assemblies}
    for mode, remedy in _sheets(maker, view).items():
        home = view.home_of[view.sits[mode]]
        groups[home].append(_entry(maker, view, mode, remedy, link))
    return maker.page(
        address,
        f"Job sheets: {view.name}",
        "job-list.html",
        of=view,
        search=texts("job sheets", view.name),
        family=view.family,
        groups=[_group(view, a, jobs) for a, jobs in groups.items() if jobs],
        invented=maker.records.shop.invented,
    )


def _group(view: FamilyView, assembly: str, jobs: list[dict[str, Any]]) -> dict[str, Any]:
    return {"id": assembly, "title": view.title("assembly", assembly), "jobs": sorted(jobs, key=_quickest)}


def _quickest(entry: Mapping[str, Any]) -> tuple[float, str]:
    return entry["minutes"], entry["href"]


def _entry(maker: Maker, view: FamilyView, mode: str, remedy: Remedy, link: Links) -> dict[str, Any]:
    job = maker.bench.job(view, (remedy,))
    return {
        "href": link("jobs", mode, view.id),
        "title": job_view.sheet_title(maker.bench, view, remedy, job.modes, link),
        "minutes": job.plan.minutes,
        "total": _total(maker, job),
        "modes": [view.title("failure-mode", m) for m in job.modes],
    }
