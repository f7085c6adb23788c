"""The guided walk: its sums against Python's, and its buttons in a real browser, from disk, offline."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import expect

from generator.analysis.check_order import CheckNode, next_step
from generator.analysis.diagnosis import Answer, rank

CLOSE = 1e-9
"Minutes or shares: what two orders of adding up may differ by."
LOGS = 300
"Walks off the policy that are tried, shared out over the complaints."


@pytest.fixture(scope="module")
def complaints(published):
    return list(published.complaints())


@pytest.fixture
def tab(browser):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened = context.new_page()
    opened.errors = []
    opened.on("pageerror", lambda error: opened.errors.append(str(error)))
    yield opened
    assert opened.errors == []
    context.close()


def _address(site, complaint) -> str:
    return (site / "bench" / complaint.view.id / f"{complaint.symptom.id}.html").as_uri()


def _by_family(complaints):
    families = {}
    for complaint in complaints:
        families.setdefault(complaint.view.id, []).append(complaint)
    return families.values()


@dataclass(frozen=True)
class Entry:
    """One thing done on a walk, as the browser's log has it: outcomes from 1."""

    did: str
    id: str
    outcome: int = 0

    def plain(self) -> dict[str, object]:
        return {self.did: self.id, **({"outcome": self.outcome} if self.outcome else {})}


def _logs(node, log=()):
    """Every place that a policy leads to, by the log that leads there."""
    yield log, node
    if isinstance(node, CheckNode):
        for branch in node.branches:
            after = (*log, Entry("saw", node.check, branch.outcome + 1))
            yield from _logs(branch.then, after) if branch.then else [(after, None)]
    elif node.otherwise is not None:
        yield from _logs(node.otherwise, (*log, Entry("tried", node.remedy)))


def _answers(complaint, log):
    checks = {c.id: c for c in complaint.case.checks}
    for entry in (e for e in log if e.did == "saw"):
        check = checks[entry.id]
        trust = complaint.view.checks[entry.id].trust
        yield Answer(check.id, entry.outcome - 1, len(check.outcomes), check.sees, trust)


def _ranking(complaint, log):
    """What a tried remedy would have cured is out; Bayes' rule ranks the rest."""
    failed = {e.id for e in log if e.did == "tried"}
    prior = {h.id: h.share for h in complaint.case.hypotheses if h.remedy.id not in failed}
    return rank(prior, list(_answers(complaint, log)))


_STAND = """([asked]) => Object.fromEntries(asked.map(([family, symptom, logs]) => {
    let of;
    handwheel.withFamily(family, (data) => { of = handwheel.caseOf(data, symptom); });
    return [symptom, logs.map((log) => {
        const { ranking, step, planned, spent, open } = handwheel.journey.stand(of, log);
        return { ranking, step, planned, spent, open };
    })];
}))"""


def _stands(tab, site, complaints, logs_of):
    """Yields a complaint, a log and where the browser stands after it; one page for each family."""
    for family in _by_family(complaints):
        tab.goto(_address(site, family[0]))
        logs = {c.symptom.id: logs_of(c) for c in family}
        asked = [(c.view.id, c.symptom.id, [[e.plain() for e in log] for log in logs[c.symptom.id]]) for c in family]
        found = tab.evaluate(_STAND, [asked])
        for complaint in family:
            for log, stand in zip(logs[complaint.symptom.id], found[complaint.symptom.id], strict=True):
                yield complaint, log, stand


def test_on_every_path_of_every_policy_the_browser_ranks_and_goes_on_as_python_does(tab, site, published, complaints):
    paths = {(c.view.id, c.symptom.id): dict(_logs(published.diagnosed(c).solution.policy)) for c in complaints}
    walked = 0
    for complaint, log, stand in _stands(tab, site, complaints, lambda c: list(paths[c.view.id, c.symptom.id])):
        node = paths[complaint.view.id, complaint.symptom.id][log]
        ranking = _ranking(complaint, log)
        assert stand["ranking"]["shares"] == pytest.approx(ranking.shares, abs=CLOSE)
        assert sorted(stand["ranking"]["agreeing"]) == sorted(ranking.agreeing)
        if node is not None:
            assert stand["planned"]
            assert stand["step"]["id"] == (node.check if isinstance(node, CheckNode) else node.remedy)
            assert stand["step"]["minutes"] == pytest.approx(node.minutes, abs=CLOSE)
            walked += 1
    assert walked > 100


def test_the_first_step_expects_the_minutes_that_python_computed(tab, site, published, complaints):
    for complaint, _, stand in _stands(tab, site, complaints, lambda c: [()]):
        assert stand["step"]["score"] == pytest.approx(published.diagnosed(complaint).solution.expected_minutes, abs=CLOSE)


def _random_log(complaint, rng):
    """Answers as they come, true or not, with checks passed over and remedies that did not help."""
    checks = rng.sample(complaint.case.checks, min(len(complaint.case.checks), rng.randint(2, 6)))
    *seen, passed = checks
    log = [Entry("saw", c.id, rng.randint(1, len(c.outcomes))) for c in seen]
    if rng.random() < 0.5:
        log.insert(rng.randint(0, len(log)), Entry("skip", passed.id))
    if rng.random() < 0.5:
        log.insert(rng.randint(0, len(log)), Entry("tried", rng.choice(complaint.case.hypotheses).remedy.id))
    return tuple(log)


def _open_parts(complaint, log):
    machine, checks = complaint.case.machine, {c.id: c for c in complaint.case.checks}
    remedies = {h.remedy.id: h.remedy for h in complaint.case.hypotheses}
    opened = set()
    for entry in log:
        if entry.did == "saw":
            opened |= machine.way_in(checks[entry.id].reach)
        if entry.did == "tried":
            opened |= machine.work(remedies[entry.id]).parts
    return opened


def _steps(complaint, log, ranking):
    weights = {h: ranking.shares[h] for h in ranking.agreeing}
    return next_step(complaint.case, weights, _open_parts(complaint, log), {e.id for e in log})


def _same_step(found, expected):
    """Equal scores may stand in either order; the step taken is one of the least."""
    if found is None:
        assert expected == ()
        return
    twin = next(s for s in expected if (s.kind, s.id) == (found["kind"], found["id"]))
    assert twin.score == pytest.approx(expected[0].score, abs=CLOSE)
    assert found["score"] == pytest.approx(twin.score, abs=CLOSE)
    assert found["minutes"] == pytest.approx(twin.minutes, abs=CLOSE)
    assert tuple(found["opens"]) == twin.opens


def test_off_the_policy_the_browser_takes_the_step_of_the_same_score_and_says_the_same(tab, site, complaints):
    rng = random.Random(11)
    each = max(1, LOGS // len(complaints))
    drawn = {(c.view.id, c.symptom.id): [_random_log(c, rng) for _ in range(each)] for c in complaints}
    contradictions = compared = 0
    for complaint, log, stand in _stands(tab, site, complaints, lambda c: drawn[c.view.id, c.symptom.id]):
        ranking = _ranking(complaint, log)
        assert stand["ranking"]["shares"] == pytest.approx(ranking.shares, abs=CLOSE)
        if all(e.did != "tried" for e in log):
            assert stand["ranking"]["said"] == ranking.said
            contradictions += bool(ranking.said)
        cured = {c.id: c.cured for c in complaint.case.checks}
        if stand["planned"] or any(e.did == "saw" and e.outcome - 1 in cured[e.id] for e in log):
            continue
        assert stand["open"] == sorted(_open_parts(complaint, log))
        _same_step(stand["step"], _steps(complaint, log, ranking))
        compared += 1
    assert contradictions > 10
    assert compared > 100


def test_every_next_step_from_a_random_start_has_pythons_score_in_pythons_order(tab, site, complaints):
    rng = random.Random(7)
    for family in _by_family(complaints):
        asked = []
        for complaint in family:
            kept = rng.sample(complaint.case.hypotheses, rng.randint(1, len(complaint.case.hypotheses)))
            weights = {h.id: rng.random() for h in kept}
            opened = rng.sample(sorted(complaint.case.machine.parts), 3)
            asked.append([complaint.view.id, complaint.symptom.id, weights, opened, [complaint.case.checks[0].id]])
        tab.goto(_address(site, family[0]))
        found = tab.evaluate(
            """([asked]) => asked.map(([family, symptom, weights, open, done]) => {
                let of;
                handwheel.withFamily(family, (data) => { of = handwheel.caseOf(data, symptom); });
                return handwheel.diagnosis.nextStep(of, weights, open, done);
            })""",
            [asked],
        )
        for complaint, (_, _, weights, opened, done), steps in zip(family, asked, found, strict=True):
            expected = next_step(complaint.case, weights, opened, done)
            assert {(s["kind"], s["id"]) for s in steps} == {(s.kind, s.id) for s in expected}
            assert [s["score"] for s in steps] == pytest.approx([s.score for s in expected], abs=CLOSE)
            for step in steps:
                _same_step(step, tuple(s for s in expected if s.id == step["id"] and s.kind == step["kind"]))


# The walk as a person meets it.


@pytest.fixture
def opened(tab, site):
    """The walk of a complaint with many checks, just opened."""
    tab.goto((site / "bench" / "tessaly-40" / "skipped-stitches.html").as_uri())
    tab.get_by_role("button", name="Walk me through it").click()
    return tab


def _check(tab):
    return tab.locator("#walk [data-check]").get_attribute("data-check")


def _answer_last(tab):
    """Presses the last answer to the check, which is mostly that all is well; it must be taken, once.

    By the keyboard: a pointer's press misses where the page moves under it, on a machine that is slow to draw.
    """
    before, taken = _check(tab), tab.locator(".hw-walk-history li")
    count = taken.count()
    tab.locator("#walk [data-outcome]").last.press("Enter")
    expect(taken).to_have_count(count + 1)
    return before


def test_the_walk_begins_with_the_first_check_of_the_page(opened):
    first = opened.locator(".hw-checks > li h3 a").first.get_attribute("href")
    assert first.endswith(f"/{_check(opened)}.html")
    numbers = [b.get_attribute("data-outcome") for b in opened.locator("#walk [data-outcome]").all()]
    assert numbers == [str(n) for n in range(1, len(numbers) + 1)]


def test_an_answer_moves_the_ranking_and_the_shares_still_make_a_whole(opened):
    def shares():
        rows = opened.locator("#walk [data-cause]").all()
        return [float(row.get_attribute("data-share")) for row in rows]

    before = shares()
    _answer_last(opened)
    after = shares()
    assert before != after
    assert sum(after) == pytest.approx(1, abs=1e-6)
    assert after == sorted(after, reverse=True)


def test_a_walk_survives_a_reload_and_takes_one_answer_back_and_forth(opened):
    first = _answer_last(opened)
    second = _check(opened)
    opened.reload()
    assert _check(opened) == second
    opened.get_by_role("button", name="Back", exact=True).click()
    assert _check(opened) == first
    opened.get_by_role("button", name="Undo").click()
    assert _check(opened) == second


def test_start_again_clears_the_walk_and_can_itself_be_undone(opened):
    first = _answer_last(opened)
    second = _answer_last(opened)
    opened.get_by_role("button", name="Start again").click()
    assert _check(opened) == first
    opened.get_by_role("button", name="Undo").click()
    opened.get_by_role("button", name="Back", exact=True).click()
    assert _check(opened) == second


def test_a_check_that_cannot_be_done_does_not_come_again(opened):
    passed = set()
    while opened.locator("#walk [data-check]").count() and len(passed) < 40:
        check = _check(opened)
        assert check not in passed
        passed.add(check)
        opened.locator("#walk [data-skip]").click()
    assert opened.locator("#walk [data-remedy]").count() == 1


def _walk_to_a_remedy(tab):
    for _ in range(40):
        if tab.locator("#walk [data-remedy]").count():
            return
        tab.locator("#walk [data-outcome]").first.click()
    raise AssertionError("no remedy after forty answers")


def test_the_walk_ends_with_a_cause_its_remedy_its_job_sheet_and_what_else_it_may_be(tab, site):
    tab.goto((site / "bench" / "tessaly-40" / "no-feed.html").as_uri())
    tab.get_by_role("button", name="Walk me through it").click()
    _walk_to_a_remedy(tab)
    step = tab.locator("#walk [data-remedy]")
    expect(step).to_contain_text("likeliest cause")
    expect(step.locator(".hw-also")).to_be_visible()
    sheet = step.get_by_role("link", name="Job sheet").get_attribute("href")
    assert (Path(site) / "bench" / "tessaly-40" / sheet).resolve().is_file()
    tab.get_by_role("button", name="It is cured").click()
    expect(tab.locator("#walk h3").first).to_contain_text("It was:")
    expect(tab.locator("#walk .hw-also")).to_contain_text("Also possible")
    assert not re.search(r"null|undefined|NaN", tab.locator("#walk").inner_text())


def test_a_remedy_that_did_not_help_rules_its_cause_out_and_the_walk_says_so(tab, site):
    tab.goto((site / "bench" / "tessaly-40" / "no-feed.html").as_uri())
    tab.get_by_role("button", name="Walk me through it").click()
    _walk_to_a_remedy(tab)
    remedy = tab.locator("#walk [data-remedy]").get_attribute("data-remedy")
    tab.get_by_role("button", name="Still there").click()
    assert tab.locator("#walk [data-check], #walk [data-remedy]").count() == 1
    assert tab.locator(f"#walk [data-remedy='{remedy}']").count() == 0
    expect(tab.locator(".hw-walk-history")).to_contain_text("Still there")


def test_a_shared_link_opens_the_same_walk_on_another_device(opened, browser):
    _answer_last(opened)
    opened.locator("#walk [data-skip]").click()
    third = _check(opened)
    opened.get_by_role("button", name="Share this walk").click()
    link = opened.locator("#walk-message").input_value().splitlines()[-1]
    other = browser.new_context(offline=True).new_page()
    other.goto(link)
    assert _check(other) == third
    other.reload()
    assert _check(other) == third
    other.context.close()


def test_a_link_with_nonsense_in_it_opens_the_walk_as_far_as_it_makes_sense(tab, site):
    page = (site / "bench" / "tessaly-40" / "skipped-stitches.html").as_uri()
    tab.goto(f"{page}#walk&saw=no-such-check.1&saw=new-needle-sew.99&x=%3Cscript%3E&tried=&saw=")
    assert tab.locator("#walk [data-check]").count() == 1
    expect(tab.locator(".hw-walk-history")).to_have_count(0)


def test_the_whole_walk_goes_by_keyboard_and_focus_follows_it(opened):
    _answer_last(opened)
    expect(opened.locator("#walk .hw-walk-title")).to_be_focused()
    while not opened.evaluate("document.activeElement.matches('[data-outcome]')"):
        opened.keyboard.press("Tab")
    opened.keyboard.press("Enter")
    expect(opened.locator(".hw-walk-history li")).to_have_count(2)
    expect(opened.locator("#walk .hw-walk-title")).to_be_focused()


def test_one_polite_region_tells_of_the_change(opened):
    region = opened.locator("#walk [aria-live]")
    expect(region).to_have_count(1)
    assert region.get_attribute("aria-live") == "polite"
    _answer_last(opened)
    expect(region).to_contain_text("Likeliest: ")


def test_every_button_of_the_walk_is_large_enough_for_a_thumb(opened):
    """44 px: WCAG 2.2 success criterion 2.5.5 (from memory)."""
    _answer_last(opened)
    for button in opened.locator("#walk button:visible, #walk-start").all():
        box = button.bounding_box()
        assert min(box["width"], box["height"]) >= 44


def test_opening_moves_nothing_that_stays_in_sight(tab, site):
    """The Layout Instability API counts what moves; input is not excused here."""
    page = (site / "bench" / "tessaly-40" / "skipped-stitches.html").as_uri()
    tab.add_init_script(
        "window.shifts = []; new PerformanceObserver((list) => list.getEntries().forEach((e) => shifts.push(e.value)))"
        ".observe({ type: 'layout-shift', buffered: true });"
    )
    tab.goto(page)
    tab.wait_for_timeout(300)
    tab.get_by_role("button", name="Walk me through it").click()
    tab.wait_for_timeout(300)
    assert sum(tab.evaluate("shifts")) < 0.01
    tab.reload()
    tab.wait_for_timeout(300)
    assert sum(tab.evaluate("shifts")) < 0.01


def test_a_fresh_walk_begins_with_what_comes_before_any_check_and_tells_a_caution_in_full_once(opened):
    first = opened.locator("#walk .hw-walk-first")
    expect(first).to_contain_text("Before anything is opened")
    told: set[str] = set()
    for _ in range(6):
        shown = [line.get_attribute("data-caution") for line in opened.locator("#walk .hw-walk-step [data-caution]").all()]
        assert told.isdisjoint(shown)
        told.update(shown)
        _answer_last(opened)
        expect(first).to_be_hidden()
    assert told


def test_before_the_power_goes_on_the_walk_names_what_was_taken_off(tab, site, published):
    """A needle plate left off, or a needle left out, is not sewn over."""
    found = [
        (c, item)
        for c in published.complaints() if c.view.id == "tessaly-40"
        for item in published.worklist(c).items
        if c.view.checks[item.check].power == "on"
        and item.situation.open_parts - c.case.machine.way_in(c.view.checks[item.check].reach)
    ]
    assert found
    for complaint, item in found[:4]:
        tab.goto((site / "bench" / complaint.view.id / f"{complaint.symptom.id}.html").as_uri())
        warned = tab.locator(f"#step-{item.number} .hw-caution-line.hw-danger", has_text="Off from before")
        part = min(item.situation.open_parts - complaint.case.machine.way_in(complaint.view.checks[item.check].reach))
        expect(warned).to_contain_text(complaint.view.parts[part].title)


def test_without_scripts_nothing_offers_a_walk(browser, site):
    page = browser.new_context(java_script_enabled=False, offline=True).new_page()
    page.goto((site / "bench" / "tessaly-40" / "skipped-stitches.html").as_uri())
    expect(page.locator("#walk-start")).to_be_hidden()
    expect(page.locator("#walk")).to_be_hidden()
    page.context.close()


def test_in_print_the_walk_gives_way_to_the_sheet(opened):
    expect(opened.locator(".hw-work")).to_be_hidden()
    opened.emulate_media(media="print")
    expect(opened.locator("#walk")).to_be_hidden()
    expect(opened.locator("#walk-start")).to_be_hidden()
    expect(opened.locator(".hw-work")).to_be_visible()


_HOSTILE = "\"'<img src=x onerror=window.hurt=1></script>\u202egnorw " + "Wwwwwwwwww" * 30


def test_hostile_words_show_as_words(tab, site):
    tab.goto((site / "bench" / "tessaly-40" / "no-feed.html").as_uri())
    for name in ("Walk me through it", "Show the whole page"):  # the first walk may have been made before the words change
        tab.get_by_role("button", name=name).click()
    tab.evaluate(
        """(words) => handwheel.withFamily("tessaly-40", (family) => {
            for (const kind of ["parts", "modes", "checks", "cautions"])
                for (const record of Object.values(family[kind])) record.title = words;
            for (const remedy of Object.values(family.remedies)) remedy.says = words;
            for (const check of family.symptoms["no-feed"].checks) check.says = check.says.map(() => words);
            for (const caution of Object.values(family.cautions)) caution.text = words;
        })""",
        _HOSTILE,
    )
    tab.get_by_role("button", name="Walk me through it").click()
    _walk_to_a_remedy(tab)
    expect(tab.locator("#walk .hw-walk-title")).to_have_text(_HOSTILE)
    assert tab.locator("#walk img").count() == 0
    assert tab.evaluate("window.hurt") is None
    assert tab.evaluate("document.documentElement.scrollWidth") <= 390
