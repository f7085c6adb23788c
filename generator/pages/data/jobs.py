"""What the planner reckons and speaks with, a script file for each family."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import cast

from generator.analysis.job.types import UPRIGHT, Do, Plan, Step
from generator.bench import Bench
from generator.bench.keys import joint_keys
from generator.bench.recorded import recorded
from generator.family_view import FamilyView, sits_on
from generator.pages.data.pieces import (
    ROOT,
    causes_of_remedies,
    cautions_data,
    part_data,
    remedy_data,
    setting_data,
    wait_data,
)
from generator.pages.data.script import FOLDER, script
from generator.pages.data.shapes import (
    PlannerData,
    PlannerMode,
    PlannerPart,
    PlannerRemedy,
    PlannerSetting,
    ProvingWords,
    RecordedData,
    ShopData,
    StepWords,
)
from generator.records.model import Shop
from generator.wording import words
from generator.wording.jobs import around as job_view
from generator.wording.jobs.steps import StepView, read_words, step_views
from generator.wording.jobs.turning import leaving_words, lift_words, turn_words
from generator.wording.joints import joint_title
from generator.wording.links import Links
from generator.wording.remedies import in_one_line, remedy_words


def planner_files(bench: Bench, view: FamilyView) -> Iterator[tuple[str, str]]:
    """Address and content of a family's data."""
    yield jobs_address(view.id), script("jobs", jobs_data(bench, view))


def jobs_address(family: str) -> str:
    """Where a family's planner data stands, from the site's root."""
    return f"{FOLDER}/jobs-{family}.js"


def jobs_data(bench: Bench, view: FamilyView) -> PlannerData:
    """All that a plan for any remedies of one family is made and told from. Minutes are bench minutes."""
    link = Links(bench.library, ROOT)
    records = bench.library.records
    return {
        "id": view.id,
        "title": view.name,
        "href": link("family", view.id),
        "proving": bench.closing_minutes(view),
        "mains_test": records.shop.mains_test,
        "found_out": records.shop.found_out,
        "parts": dict(_parts(bench, view, link)),
        "settings": dict(_settings(bench, view, link)),
        "modes": dict(_modes(bench, view, link)),
        "remedies": dict(_remedies(bench, view, link)),
        "checks": dict(_checks(bench, view, link)),
        "oil": {o.point: _told(view, "oil", o.point, link) for _, o in view.oil()},
        "homes": {a.id: {"title": a.title, "cautions": a.cautions} for a in view.assemblies.values()},
        "joints": {j: joint_title(note) for j, note in view.fasteners.items()},
        "counts": {j: note.count for j, note in view.fasteners.items() if note.count},
        "keys": {j: joint_keys(view, (j,), records.tools) for j in view.fasteners},
        "tools": {t.id: t.title for t in records.tools.values()},
        "techniques": {t.id: {"title": t.title, "cautions": view.needed(t.cautions)} for t in records.techniques.values()},
        "cautions": cautions_data(records.cautions.values()),
        "always": view.family.cautions,
        "tests": job_view.closing_tests(view.family, records.shop),
        "shown_open": job_view.SHOWN_OPEN,
        "turns": turn_words(records),
        "leaving": leaving_words(records),
        "lift": lift_words(view.family),
        "test": _told(view, "test", "", link),
        "live": sorted(bench.practice(view).live),
        "proving_cautions": job_view.proving_cautions(view, records),
        "shop": _shop(records.shop),
    }


def _parts(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, PlannerPart]]:
    practice, machine = bench.practice(view), bench.machine(view)
    shop = bench.library.records.shop
    for part in view.parts.values():
        handled = practice.part(part.id)
        yield part.id, {
            **part_data(part, machine.parts[part.id].loses),
            "home": view.home_of[part.id],
            "href": link("part", part.id, view.home_of[part.id]),
            "off_position": handled.off_position,
            "on_position": handled.on_position,
            "off_tools": handled.off_tools,
            "on_tools": handled.on_tools,
            "joints": handled.joints,
            "loose": handled.loose,
            "slackens": handled.slackens,
            "nips": handled.nips,
            "off_wait": wait_data(handled.off_wait),
            "on_wait": wait_data(handled.on_wait),
            "oil": handled.oil,
            "wears": handled.wears,
            "renew_with": part.renew_with,
            "price": handled.price and [float(end) for end in handled.price],
            "stock": shop.stock.get(part.id),
            "cautions": part.cautions,
            "take_off": _told(view, "take off", part.id, link),
            "refit": _told(view, "refit", part.id, link),
        }


def _settings(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, PlannerSetting]]:
    practice, machine = bench.practice(view), bench.machine(view)
    for setting in view.settings.values():
        handled = practice.setting(setting.id)
        yield setting.id, {
            **setting_data(setting),
            "home": view.home_of[setting.id],
            "parts_on": machine.settings[setting.id].on,
            "position": handled.position,
            "tools": handled.tools,
            "proved_by": handled.proved_by,
            "joints": handled.joints,
            "read": words.inline(read_words(setting)) if setting.read else "",
            "measure": words.plain(setting.target.measure) if setting.target else "",
            "told": _told(view, "set", setting.id, link),
        }


def _modes(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, PlannerMode]]:
    remedies = bench.remedies(view)
    for mode in sorted(view.failure_modes.values(), key=lambda m: (m.title, m.id)):
        yield mode.id, {
            "title": mode.title,
            "home": view.home_of[sits_on(mode)],
            "href": link("failure-mode", mode.id),
            "remedy": remedies[mode.id].id,
            "tools": mode.remedy.tools,
            "cautions": mode.cautions,
            "says": [words.plain(t) for t in (mode.remedy.advise, mode.remedy.how) if t],
            "technique": mode.remedy.technique or "",
        }


def _remedies(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, PlannerRemedy]]:
    for name, (remedy, causes) in sorted(causes_of_remedies(bench, view).items()):
        says = in_one_line(remedy_words(bench, view, remedy, causes, link))
        yield name, {**remedy_data(remedy), "says": says, "recorded": _recorded(bench, view, causes)}


def _recorded(bench: Bench, view: FamilyView, causes: Collection[str]) -> RecordedData | None:
    took = recorded(view, causes, bench.library.records.shop)
    return {"jobs": took.jobs, "minutes": took.minutes} if took else None


def _checks(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, ProvingWords]]:
    """The checks that prove settings."""
    practice, proofs = bench.practice(view), bench.machine(view).proofs
    for name in sorted({practice.setting(s).proved_by for s in view.settings} - {""}):
        check = view.checks[name]
        expect = words.plain(check.expect) if check.expect else ""
        yield name, {
            **_told(view, "check", name, link),
            "expect": expect,
            "tools": check.tools,
            "reach": proofs[name].reach,
            "parts_on": proofs[name].on,
            "position": practice.proofs.get(name, ""),
        }


def _told(view: FamilyView, do: Do, item: str, link: Links) -> StepWords:
    """The words of one step by itself, as a job sheet has them. `how` is HTML that our own converter made."""
    plan = Plan((Step(do, item, "work", position=UPRIGHT),), (), 0, (), (), (), (), 0, 0, True)
    (told,) = step_views(view, plan, (), {}, link)
    return _without_empty(_words_of(told))


def _without_empty(told: StepWords) -> StepWords:
    return cast(StepWords, {key: value for key, value in told.items() if value})


def _words_of(told: StepView) -> StepWords:
    return {
        "do": told.do,
        "title": told.title,
        "href": told.href,
        "how": words.inline(told.how) if told.how else "",
        "cautions": told.cautions,
        "technique": told.technique,
        "joints": [{"title": j.title, "href": j.href, "facts": [words.plain(f) for f in j.facts]} for j in told.joints],
        "notes": [words.plain(n) for n in told.notes],
        "power": told.power,
        "target": told.target,
    }


def _shop(shop: Shop) -> ShopData:
    return {
        "currency": shop.currency,
        "labour_rate": shop.labour_rate,
        "spread": shop.spread,
        "margin": shop.margin,
        "rounding": shop.rounding,
        "tax": shop.tax or "",
        "invented": shop.invented,
    }
