"""The planner in a real browser: the same plan as `plan` for any set of remedies, and a page to work with."""

from __future__ import annotations

import json
import random
import re

import pytest
from playwright.sync_api import Page, expect

from generator.analysis.job import plan_json
from generator.analysis.machine import Remedy
from generator.bench import Bench
from generator.bench.jobs import Job, renewing, setting
from generator.family_view import FamilyView
from generator.pages.planner import page as planner_page
from generator.wording.jobs import around as job_view
from generator.wording.jobs import quotes
from generator.wording.jobs.steps import step_views
from generator.wording.links import Links

# As text: what is taken out of the browser value by value takes ten times as long.
_RUN = """([id, sets]) => new Promise((done) => {
  handwheel.load(`assets/handwheel/data/jobs-${id}.js`);
  handwheel.whenGiven(`jobs:${id}`, (family) => done(JSON.stringify(sets.map((remedies) => {
    const plan = handwheel.job.plan(family, remedies);
    const told = handwheel.job.told(family, plan);
    return {
      ...plan,
      quote: handwheel.job.quote(family, plan),
      throughout: handwheel.job.throughout(family, plan),
      all_tools: handwheel.job.tools(family, plan),
      quote_words: handwheel.planMoney.quoteWords(family, plan, handwheel.job.quote(family, plan)),
      puts_right: handwheel.job.putsRight(family, plan),
      told: told.map((t) => [t.do, t.title, t.cautions, t.again, t.turn, t.technique, t.power, t.target]),
    };
  }))));
})"""
_RANDOM_SETS = 200


@pytest.fixture(scope="module")
def bench(published) -> Bench:
    return published


@pytest.fixture(scope="module")
def views(bench) -> list[FamilyView]:
    """The two families with the most parts."""
    return sorted(bench.library.views, key=lambda v: (-len(v.parts), v.id))[:2]


@pytest.fixture(scope="module")
def page(browser, site) -> Page:
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened = context.new_page()
    faults: list[str] = []
    opened.on("pageerror", lambda fault: faults.append(str(fault)))
    opened.goto((site / planner_page.ADDRESS).as_uri())
    yield opened
    assert faults == []
    context.close()


def _single(bench: Bench, view: FamilyView) -> list[Remedy]:
    """Every remedy of a failure mode, every part and every setting, each once."""
    every = [*bench.remedies(view).values(), *(renewing(p, view) for p in view.parts), *map(setting, view.settings)]
    return list(dict.fromkeys(every))


def _sets(bench: Bench, view: FamilyView) -> list[list[Remedy]]:
    chance = random.Random(view.id)
    single = _single(bench, view)
    return [[r] for r in single] + [chance.sample(single, chance.randint(2, 5)) for _ in range(_RANDOM_SETS)]


def _as_data(remedy: Remedy) -> dict:
    return {
        "id": remedy.id, "renew": list(remedy.renew), "set": list(remedy.set),
        "reach": list(remedy.reach), "minutes": remedy.minutes, "clean": list(remedy.clean),
        "wait": {"minutes": remedy.wait.minutes, "why": remedy.wait.why} if remedy.wait else {"minutes": 0, "why": ""},
    }  # fmt: skip


@pytest.fixture(scope="module")
def both(bench, views, page) -> list[tuple[FamilyView, Job, dict]]:
    """Every set of remedies with the plan of Python and that of the browser; single ones of a family with a tilting head, too."""
    found = []
    tilting = next(v for v in bench.library.views if v.id == "aldermoor-s")
    for view, sets in [*((v, _sets(bench, v)) for v in views), (tilting, [[r] for r in _single(bench, tilting)])]:
        got = json.loads(page.evaluate(_RUN, [view.id, [[_as_data(r) for r in each] for each in sets]]))
        found += [(view, bench.job(view, each), plan) for each, plan in zip(sets, got, strict=True)]
    assert len(found) > 2 * _RANDOM_SETS
    return found


def test_steps_settings_and_minutes_are_those_of_plan(both):
    keys = ("do", "part", "phase", "minutes", "position", "read", "tools", "joints", "loose", "tray", "notes", "wait")
    for _, job, got in both:
        wanted = plan_json(job.plan)
        assert [{k: s[k] for k in keys} for s in got["steps"]] == wanted["steps"]
        for key in ("settings", "minutes", "waiting", "tools", "parts", "changes", "while_open"):
            assert got[key] == wanted[key], key
        assert [{k: c[k] for k in ("cell", "part", "holds")} for c in got["tray"]] == wanted["tray"]


def test_the_price_range_is_that_of_plan_and_said_in_its_words(bench, both):
    for _, job, got in both:
        words = " ".join(quotes.quote_lines(job, bench.library.records.shop))
        assert got["quote_words"] == words
        assert (job.quote is None) == (got["quote"] is None)
        if job.quote:
            for key in ("minutes", "labour", "parts", "total", "unpriced"):
                assert got["quote"][key] == [pytest.approx(float(e)) if key != "unpriced" else e for e in getattr(job.quote, key)]


def test_cautions_tools_and_turns_are_told_as_on_a_job_sheet(bench, both):
    records = bench.library.records
    for view, job, got in both:
        throughout = job_view.throughout(view, job, records)
        assert got["throughout"] == list(throughout)
        assert got["all_tools"] == list(job.tools)
        assert got["puts_right"] == list(job.modes)
        work = {r.id: "" for r in job.remedies}
        told = step_views(view, job.plan, throughout, work, Links(bench.library, ""))
        for (do, title, cautions, again, turn, technique, power, target), step in zip(got["told"][:-1], told[:-1], strict=True):
            assert (do, set(cautions), set(again), turn) == (step.do, set(step.cautions), set(step.again), step.turn)
            assert (technique, power, target) == (step.technique, step.power, step.target)
            assert not step.title or title == step.title


def test_chosen_work_becomes_one_plan_and_stays_in_the_address(page, site, views, bench):
    view = views[0]
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family={view.id}")
    page.reload()
    modes = sorted(view.failure_modes)[:2]
    for mode in modes:
        title = view.failure_modes[mode].title
        page.get_by_label("Find work").fill(title)
        page.locator(f'input[data-kind="for"][data-id="{mode}"]').check()
        expect(page.locator(".hw-plan-offers:visible summary small").get_by_text("0", exact=True)).to_have_count(0)
    job = bench.job(view, [bench.remedies(view)[m] for m in modes])
    steps = page.locator("#plan-sheet .hw-jobsteps > li")
    expect(steps).to_have_count(len(job.plan.steps))
    shown = page.evaluate("[...document.querySelectorAll('.hw-jobsteps > li')].map(s => [s.dataset.do, s.dataset.part])")
    assert sorted(map(tuple, shown)) == sorted((s.do, s.part) for s in job.plan.steps)
    assert f"for={modes[0]},{modes[1]}" in page.url
    page.reload()
    expect(steps).to_have_count(len(job.plan.steps))
    page.get_by_role("button", name="Drop from the plan").first.click()
    page.get_by_role("button", name="Drop from the plan").first.click()
    expect(page.locator("#plan-sheet")).to_be_hidden()


def test_what_is_worth_doing_while_open_is_added_at_a_press(page, site, views, bench):
    view = views[0]
    remedy, job = next(
        (r, j) for r in _single(bench, view) if r.renew and len(r.renew) == 1 for j in [bench.job(view, [r])]
        if job_view.worth_doing(j)
    )
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family={view.id}&renew={remedy.renew[0]}")
    page.reload()
    first = page.locator(".hw-open tbody tr").first
    part = first.get_attribute("data-part")
    best = job_view.worth_doing(job)[0]
    assert part == best.part
    first.get_by_role("button").click()
    more = bench.job(view, [remedy, renewing(part, view)])
    expect(page.locator("#plan-sheet .hw-jobsteps > li")).to_have_count(len(more.plan.steps))
    assert ("renew", part) in {(s.do, s.part) for s in more.plan.steps} - {(s.do, s.part) for s in job.plan.steps}
    assert more.plan.minutes == pytest.approx(job.plan.minutes + best.extra_minutes)  # none for a part that is off already


def test_a_link_that_names_work_the_machine_has_not_says_so(page, site, views):
    view = views[0]
    lost = page.locator("#plan-lost")
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family={view.id}&renew={sorted(view.parts)[0]},no-such-part")
    page.reload()
    expect(lost).to_be_visible()
    expect(page.locator("#plan-chosen li")).to_have_count(1)
    page.get_by_role("button", name="Drop from the plan").click()
    expect(lost).to_be_hidden()


def _found(page: Page, words: str) -> list[str]:
    page.get_by_label("Find work").fill(words)
    return page.locator(".hw-plan-offers .hw-tick:visible b").all_text_contents()


def test_words_of_a_title_come_before_words_of_the_mechanism(page, site):
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family=tessaly-40")
    page.reload()
    found = _found(page, "hook gear")
    assert "Hook-shaft gear cracked" in found
    assert len(found) < 20
    assert not any(title.startswith("Bobbin") for title in found)
    first = page.locator(".hw-plan-offers").first.locator(".hw-tick:visible b").first
    expect(first).to_have_text(re.compile("hook.*gear", re.I))


def test_another_name_of_the_glossary_finds_the_part(page, site):
    """A toothed belt is also called a timing belt: common practice, no source."""
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family=tessaly-40")
    page.reload()
    assert any("toothed belt" in title.lower() for title in _found(page, "timing belt"))
    assert _found(page, "no such words") == []


def test_targets_are_large_enough_and_nothing_is_wider_than_a_phone(page, site, views):
    view = views[0]
    page.goto(f"file://{site}/{planner_page.ADDRESS}#family={view.id}&renew={sorted(view.parts)[0]}")
    page.reload()
    expect(page.locator("#plan-sheet")).to_be_visible()
    page.get_by_text("Settings to make").click()
    for target in page.locator(".hw-planner :is(select, input[type=search], .hw-tick, button):visible").all():
        assert target.bounding_box()["height"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_the_plan_ends_with_the_closing_tests_of_the_machine_and_lines_for_the_tally(page, site, bench):
    for view in bench.library.views:
        mode = sorted(view.failure_modes)[0]
        page.goto(f"file://{site}/{planner_page.ADDRESS}#family={view.id}&for={mode}")
        page.reload()
        expect(page.locator("#plan-sheet .hw-tests li")).to_have_text(list(job_view.closing_tests(view.family, bench.library.records.shop)))
        expect(page.locator("#plan-sheet .hw-outcome")).to_contain_text(view.failure_modes[mode].title, use_inner_text=False)


def test_on_paper_the_sheet_stands_alone(page):
    page.emulate_media(media="print")
    expect(page.locator(".hw-planner")).to_be_hidden()
    expect(page.locator("#plan-sheet")).to_be_visible()
    page.emulate_media(media="screen")


def test_without_scripts_the_page_leads_to_the_job_sheets(browser, site, views):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"file://{site}/{planner_page.ADDRESS}")
    expect(page.get_by_role("link", name=views[0].family.title)).to_be_visible()
    expect(page.locator(".hw-plan-pick")).to_be_hidden()
    context.close()
