"""The guided walk: its sums against Python's, and its buttons in a real browser, from disk, offline."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from generator.analysis.doubt.next_step import next_steps
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.standing import Standing, start
from generator.analysis.doubt.table import Table
from generator.analysis.policy import CheckNode, RemedyNode
from generator.bench.walk import Entry, walk

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


def _plain(entry):
    """As the browser's log has it: outcomes from 1."""
    return {entry.did: entry.id, **({"outcome": entry.outcome + 1} if entry.did == "saw" else {})}


def _logs(node, log=()):
    """Every place that a written order leads to, by the log that leads there."""
    yield log, node
    if isinstance(node, CheckNode):
        for branch in node.branches:
            after = (*log, Entry("saw", node.check, branch.outcome))
            yield from _logs(branch.then, after) if branch.then else [(after, None)]
    elif isinstance(node, RemedyNode) and node.otherwise is not None:
        yield from _logs(node.otherwise, (*log, Entry("tried", node.remedy)))


_STAND = """([asked]) => Object.fromEntries(asked.map(([family, symptom, logs]) => {
    let of;
    handwheel.withFamily(family, (data) => { of = handwheel.caseOf(data, symptom); });
    return [symptom, logs.map((log) => {
        const { ranking, step, planned, expected } = handwheel.journey.stand(of, log);
        return { ranking, step, planned, expected };
    })];
}))"""


def _stands(tab, site, complaints, logs_of):
    """Yields a complaint, a log and where the browser stands after it; one page for each family."""
    for family in _by_family(complaints):
        tab.goto(_address(site, family[0]))
        logs = {c.symptom.id: logs_of(c) for c in family}
        asked = [(c.view.id, c.symptom.id, [[_plain(e) for e in log] for log in logs[c.symptom.id]]) for c in family]
        found = tab.evaluate(_STAND, [asked])
        for complaint in family:
            for log, stand in zip(logs[complaint.symptom.id], found[complaint.symptom.id], strict=True):
                yield complaint, log, stand


def _same_stand(stand, found, stops):
    """The browser's state is Python's walk: shares, sentence, next step, minutes still to expect."""
    assert stand["ranking"]["shares"] == pytest.approx(dict(found.ranking.shares), abs=CLOSE)
    assert stand["ranking"]["said"] == found.ranking.said
    assert stand["planned"] == found.planned
    assert stand["expected"] == pytest.approx(found.expected_minutes, abs=1e-6)
    step = stand["step"] or {"kind": None, "id": None}
    assert step["id"] == (found.next_check or found.next_remedy or ("" if stops else None))


def test_on_the_paths_of_every_written_order_the_browser_goes_on_as_python_does(tab, site, published, complaints):
    """Four places of each order: its start, the longest line of answers, and two more."""
    rng, kinds = random.Random(3), set()

    def places(complaint):
        logs = [log for log, node in _logs(published.diagnosed(complaint).order.policy) if node is not None]
        return [(), max(logs, key=len), *rng.sample(logs, min(2, len(logs)))]

    for complaint, log, stand in _stands(tab, site, complaints, places):
        found = walk(published, complaint, log)
        _same_stand(stand, found, stops=True)
        kinds.add((stand["planned"], stand["step"]["kind"]))
    assert {(True, "check"), (True, "remedy"), (False, "check")} <= kinds


def _random_log(complaint, rng):
    """Answers as they come, true or not, with checks passed over and remedies that did not help."""
    checks = rng.sample(complaint.case.checks, min(len(complaint.case.checks), rng.randint(2, 6)))
    *seen, passed = checks
    ordinary = {c.id: [n for n in range(len(c.outcomes)) if n not in c.cured] for c in checks}
    log = [Entry("saw", c.id, rng.choice(ordinary[c.id])) for c in seen]
    if rng.random() < 0.5:
        log.insert(rng.randint(0, len(log)), Entry("skip", passed.id))
    if rng.random() < 0.5:
        log.insert(rng.randint(0, len(log)), Entry("tried", rng.choice(complaint.case.hypotheses).remedy.id))
    return tuple(log)


def test_off_the_written_order_the_browser_takes_the_same_step_and_says_the_same(tab, site, published, complaints):
    rng = random.Random(11)
    each = max(1, LOGS // len(complaints))
    drawn = {(c.view.id, c.symptom.id): [_random_log(c, rng) for _ in range(each)] for c in complaints}
    contradictions = 0
    for complaint, log, stand in _stands(tab, site, complaints, lambda c: drawn[c.view.id, c.symptom.id]):
        found = walk(published, complaint, log)
        _same_stand(stand, found, stops=True)
        contradictions += bool(found.ranking.said)
    assert contradictions > 10


def _drawn(table, rng):
    """A standing that jobs may come to: any beliefs, parts off, things done, signs seen, faults found."""
    bits = [rng.getrandbits(max(1, len(rows))) for rows in (table.checks, table.remedies, table.remedies)]
    opened = table.parts(rng.sample(table.part_ids, 3))
    faults = (rng.getrandbits(len(table.remedies)),) if rng.random() < 0.3 else ()
    return Standing(tuple(rng.random() for _ in table.prior), opened, *bits, faults)


def _told(table, now):
    """The same for the browser: ids for bits."""
    checks, remedies = [c.id for c in table.checks], [r.id for r in table.remedies]

    def ids(names, bits):
        return [name for n, name in enumerate(names) if bits >> n & 1]

    faults = [ids(remedies, mends) for mends in now.faults]
    done = [ids(checks, now.checked), ids(remedies, now.tried), ids(remedies, now.proved)]
    return [list(now.weights), list(table.part_names(now.open_parts)), *done, faults]


def test_every_next_step_from_a_random_standing_is_pythons_in_pythons_order(tab, site, complaints):
    rng = random.Random(7)
    for family in _by_family(complaints):
        tables = [Table(c.doubt) for c in family]
        drawn = [_drawn(t, rng)._replace(checked=0) if rng.random() < 0.2 else _drawn(t, rng) for t in tables]
        tab.goto(_address(site, family[0]))
        asked = [[c.view.id, c.symptom.id, _told(t, now)] for c, t, now in zip(family, tables, drawn, strict=True)]
        found = tab.evaluate(
            """([asked]) => asked.map(([family, symptom, told]) => {
                let of;
                handwheel.withFamily(family, (data) => { of = handwheel.caseOf(data, symptom); });
                const [weights, open, checked, tried, proved, faults] = told;
                const now = { weights, open: new Set(open), checked: new Set(checked), tried: new Set(tried), proved: new Set(proved), faults };
                const steps = handwheel.diagnosis.nextSteps(of, now);
                return [steps.map(({ kind, id, minutes }) => [kind, id, minutes]), handwheel.diagnosis.outlook(of, now)];
            })""",
            [asked],
        )
        for table, now, (steps, left) in zip(tables, drawn, found, strict=True):
            expected = next_steps(table, now)
            assert [s[:2] for s in steps] == [[s.move.kind, s.id] for s in expected]
            assert [s[2] for s in steps] == pytest.approx([s.minutes for s in expected], abs=CLOSE)
            assert left == pytest.approx(outlook(table, now) / now.share, abs=1e-6)


def test_a_closed_machine_is_believed_to_have_what_the_book_says(complaints):
    for complaint in complaints:
        assert sum(start(Table(complaint.doubt)).weights) == pytest.approx(1)


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
    while (step := opened.locator("#walk [data-check], #walk [data-remedy]")).count() and len(passed) < 80:
        name = step.get_attribute("data-check") or step.get_attribute("data-remedy")
        assert name not in passed
        passed.add(name)
        opened.locator("#walk [data-skip]").click()
    expect(opened.locator("#walk [data-stop]")).to_contain_text("Stop and think")


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


def test_rows_of_causes_glide_within_their_list_and_never_over_a_button(opened):
    """Each glide is held at its first moment, where a row stands farthest from its place."""
    strayed, moved = opened.evaluate("""() => {
        let [strayed, moved] = [0, 0];
        for (let press = 0; press < 4; press++) {
            const choices = document.querySelectorAll('#walk [data-outcome]');
            if (!choices.length) break;
            choices[choices.length - 1].click();
            const list = document.querySelector('#walk .hw-causes');
            for (const glide of list.getAnimations({ subtree: true }).filter((a) => a.effect.target.matches('li'))) {
                glide.pause();
                glide.currentTime = 0;
                const [row, all] = [glide.effect.target, list].map((node) => node.getBoundingClientRect());
                moved += 1;
                strayed += row.top < all.top - 1 || row.bottom > all.bottom + 1;
                glide.cancel();
            }
        }
        return [strayed, moved];
    }""")
    assert moved, "no row has moved: nothing was tried"
    assert strayed == 0


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
        if opened.locator("#walk [data-remedy]").count():
            opened.get_by_role("button", name="Still there").click()
        else:
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
        and item.open_parts - c.case.machine.way_in(c.view.checks[item.check].reach)
    ]
    assert found
    for complaint, item in found[:4]:
        tab.goto((site / "bench" / complaint.view.id / f"{complaint.symptom.id}.html").as_uri())
        warned = tab.locator(f"#step-{item.number} .hw-danger-line", has_text="Off from before")
        part = min(item.open_parts - complaint.case.machine.way_in(complaint.view.checks[item.check].reach))
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
