"""What the planner reckons and speaks with, a script file for each family."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.job.types import UPRIGHT, Plan, Step
from generator.bench import Bench
from generator.family_view import FamilyView, seat
from generator.pages.data.script import FOLDER, script
from generator.records.model import Shop
from generator.wording import words
from generator.wording.jobs import around as job_view
from generator.wording.jobs.steps import StepView, lift_words, step_views
from generator.wording.links import Links
from generator.wording.remedies import in_one_line, remedy_words

_ROOT = "index.html"
"Links in the data are from the site's root; scripts put the page's own way to the root before them."


def planner_files(bench: Bench) -> Iterator[tuple[str, str]]:
    """Address and content of every family's data."""
    for view in bench.library.views:
        yield jobs_address(view.id), script("jobs", jobs_data(bench, view))


def jobs_address(family: str) -> str:
    """Where a family's planner data stands, from the site's root."""
    return f"{FOLDER}/jobs-{family}.js"


def jobs_data(bench: Bench, view: FamilyView) -> dict[str, object]:
    """All that a plan for any remedies of one family is made and told from. Minutes are bench minutes."""
    link = Links(bench.library, _ROOT)
    records = bench.library.records
    return {
        "id": view.id,
        "title": view.family.title,
        "href": link("family", view.id),
        "proving": records.shop.proving_sew,
        "parts": dict(_parts(bench, view, link)),
        "settings": dict(_settings(bench, view, link)),
        "modes": dict(_modes(bench, view, link)),
        "remedies": dict(_remedies(bench, view, link)),
        "checks": dict(_checks(bench, view, link)),
        "oil": {o.point: _told(view, "oil", o.point, link) for _, o in view.oil()},
        "homes": {a.id: {"title": a.title, "cautions": a.cautions} for a in view.assemblies.values()},
        "joints": {j: job_view.joint_title(note) for j, note in view.fasteners.items()},
        "counts": {j: note.count for j, note in view.fasteners.items() if note.count},
        "tools": {t.id: t.title for t in records.tools.values()},
        "techniques": {t.id: {"title": t.title, "cautions": view.needed(t.cautions)} for t in records.techniques.values()},
        "cautions": {
            c.id: {"title": c.title, "text": words.plain(c.text), "level": c.level} for c in records.cautions.values()
        },
        "always": view.family.cautions,
        "tests": job_view.closing_tests(view.family),
        "lift": lift_words(view.family),
        "provingCautions": job_view.proving_cautions(view, records),
        "shop": _shop(records.shop),
    }


def _parts(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    practice = bench.practice(view)
    shop = bench.library.records.shop
    for part in view.parts.values():
        handled = practice.part(part.id)
        yield part.id, {
            "title": part.title,
            "home": view.home_of[part.id],
            "href": link("part", part.id, view.home_of[part.id]),
            "behind": part.behind,
            "off": part.off.minutes,
            "on": part.on.minutes,
            "disturbs": part.disturbs,
            "offPosition": handled.off_position,
            "onPosition": handled.on_position,
            "offTools": handled.off_tools,
            "onTools": handled.on_tools,
            "joints": handled.joints,
            "loose": handled.loose,
            "oil": handled.oil,
            "wears": handled.wears,
            "renewWith": part.renew_with,
            "price": handled.price and [float(end) for end in handled.price],
            "stock": shop.stock.get(part.id),
            "cautions": part.cautions,
            "takeOff": _told(view, "take off", part.id, link),
            "refit": _told(view, "refit", part.id, link),
        }


def _settings(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    practice = bench.practice(view)
    for setting in view.settings.values():
        handled = practice.setting(setting.id)
        yield setting.id, {
            "title": setting.title,
            "home": view.home_of[setting.id],
            "minutes": setting.minutes,
            "after": setting.after,
            "disturbs": setting.disturbs,
            "reach": setting.reach,
            "position": handled.position,
            "tools": handled.tools,
            "provedBy": handled.proved_by,
            "measure": words.plain(setting.target.measure) if setting.target else "",
            "told": _told(view, "set", setting.id, link),
        }


def _modes(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    remedies = bench.remedies(view)
    for mode in sorted(view.failure_modes.values(), key=lambda m: (m.title, m.id)):
        yield mode.id, {
            "title": mode.title,
            "home": view.home_of[seat(mode)],
            "href": link("failure-mode", mode.id),
            "remedy": remedies[mode.id].id,
            "tools": mode.remedy.tools,
            "cautions": mode.cautions,
            "says": [words.plain(t) for t in (mode.remedy.advise, mode.remedy.how) if t],
            "technique": mode.remedy.technique or "",
        }


def _remedies(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    causes: dict[str, list[str]] = {}
    found = {}
    for mode, remedy in sorted(bench.remedies(view).items()):
        found[remedy.id] = remedy
        causes.setdefault(remedy.id, []).append(mode)
    for name, remedy in sorted(found.items()):
        yield name, {
            "says": in_one_line(remedy_words(bench, view, remedy, causes[name], link)),
            "renew": remedy.renew,
            "set": remedy.set,
            "reach": remedy.reach,
            "minutes": remedy.minutes,
        }


def _checks(bench: Bench, view: FamilyView, link: Links) -> Iterator[tuple[str, dict[str, object]]]:
    """The checks that prove settings."""
    practice = bench.practice(view)
    for name in sorted({practice.setting(s).proved_by for s in view.settings} - {""}):
        check = view.checks[name]
        expect = words.plain(check.expect) if check.expect else ""
        yield name, {**_told(view, "check", name, link), "expect": expect, "tools": check.tools}


def _told(view: FamilyView, do: str, item: str, link: Links) -> dict[str, object]:
    """The words of one step by itself, as a job sheet has them. `how` is HTML that our own converter made."""
    plan = Plan((Step(do, item, "work", position=UPRIGHT),), (), 0, (), (), (), (), 0, 0, True)
    (told,) = step_views(view, plan, (), {}, link)
    return {key: value for key, value in _words_of(told).items() if value}


def _words_of(told: StepView) -> dict[str, object]:
    return {
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


def _shop(shop: Shop) -> dict[str, object]:
    return {
        "currency": shop.currency,
        "labourRate": shop.labour_rate,
        "spread": shop.spread,
        "margin": shop.margin,
        "rounding": shop.rounding,
        "tax": shop.tax or "",
        "invented": shop.invented,
    }
