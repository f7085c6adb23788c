"""The key to the families: it leads to each of them, in the fewest looks, with and without scripts."""

from __future__ import annotations

from functools import cache

import pytest
from playwright.sync_api import expect

from generator.analysis.policy import CheckNode, RemedyNode
from generator.bench.which_machine import NONE_OF_THESE, Key, key_to_families
from generator.library import Library


@pytest.fixture(scope="module")
def library(published) -> Library:
    return published.library


@pytest.fixture(scope="module")
def key(library) -> Key:
    return key_to_families(library)


def _answered(key: Key, family: str) -> list[str]:
    """The families that the order ends at for a machine of a family."""
    node = key.solution.policy
    while isinstance(node, CheckNode):
        shown = key.questions[node.check].shows[family]
        node = next(b.then for b in node.branches if b.outcome == shown)
    ends = []
    while isinstance(node, RemedyNode):
        ends.append(node.remedy)
        node = node.otherwise
    return ends


def test_true_answers_lead_to_the_family_alone(library, key):
    for view in library.views:
        assert _answered(key, view.id) == [view.id]


def test_no_order_of_questions_needs_fewer_looks(library, key):
    """Against a plain recursion over all sets of families and all questions, written for this test."""
    weights = {v.id: sum(t.machines for t in v.tallies) if key.counted else 1 for v in library.views}

    @cache
    def least(left: frozenset[str]) -> float:
        if len(left) < 2:
            return 0.0
        found = []
        for question in key.questions.values():
            parts: dict[int, set[str]] = {}
            for family in left:
                parts.setdefault(question.shows[family], set()).add(family)
            if len(parts) > 1:
                whole = sum(weights[f] for f in left)
                found.append(question.looks * whole + sum(least(frozenset(p)) for p in parts.values()))
        return min(found)

    families = frozenset(weights)
    assert key.solution.exact
    assert key.looks == pytest.approx(least(families) / sum(weights.values()))


def test_every_question_has_an_answer_for_every_family(library, key):
    for question in key.questions.values():
        assert set(question.shows) == {v.id for v in library.views}
        assert set(question.shows.values()) <= set(range(len(question.answers)))
        assert len(set(question.answers)) == len(question.answers)
        assert NONE_OF_THESE not in question.answers[:-1]


def test_the_whole_key_reads_without_scripts(browser, site, library, key):
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto((site / "which-machine.html").as_uri())
    for view in library.views:
        expect(page.locator(".hw-key-end").get_by_role("link", name=view.family.title, exact=True)).to_have_count(1)
    expect(page.locator(".hw-key-ask").first).to_have_text(key.questions[key.solution.policy.check].ask)
    context.close()


@pytest.fixture
def asking(browser, site):
    page = browser.new_page(viewport={"width": 390, "height": 844})
    problems = []
    page.on("pageerror", lambda error: problems.append(str(error)))
    page.goto((site / "which-machine.html").as_uri())
    yield page
    assert problems == []
    page.close()


def _question(page, key: Key):
    asked = page.locator("#which-machine h2").inner_text()
    return next((q for q in key.questions.values() if q.ask == asked), None)


def test_one_question_at_a_time_leads_to_every_family(asking, library, key):
    for view in library.views:
        asking.reload()
        while (question := _question(asking, key)) is not None:
            answer = question.answers[question.shows[view.id]]
            asking.locator("#which-machine .hw-answer").get_by_text(answer, exact=True).click()
        found = asking.locator("#which-machine .hw-key-found a")
        expect(found).to_have_count(1)
        expect(found).to_have_text(view.family.title)


def test_what_cannot_be_told_is_asked_another_way(asking, library, key):
    view = library.views[0]
    skipped = _question(asking, key)
    asking.get_by_role("button", name="I cannot tell").click()
    while (question := _question(asking, key)) is not None:
        assert question != skipped
        asking.locator("#which-machine .hw-answer").get_by_text(question.answers[question.shows[view.id]], exact=True).click()
    expect(asking.locator("#which-machine .hw-key-found a")).to_have_text(view.family.title)


def test_with_nothing_told_all_are_left_and_what_differs_is_said(asking, library, key):
    while _question(asking, key) is not None:
        asking.get_by_role("button", name="I cannot tell").click()
    expect(asking.locator("#which-machine .hw-key-found a")).to_have_count(len(library.views))
    expect(asking.locator("#which-machine")).to_contain_text("What differs")


def test_back_returns_to_the_question_before(asking, key):
    first = _question(asking, key)
    asking.locator("#which-machine .hw-answer").first.click()
    asking.get_by_role("button", name="Back").click()
    assert _question(asking, key) == first


def test_the_family_found_is_chosen_for_the_finder(asking, library, key, site):
    view = library.views[0]
    while (question := _question(asking, key)) is not None:
        asking.locator("#which-machine .hw-answer").get_by_text(question.answers[question.shows[view.id]], exact=True).click()
    asking.get_by_role("button", name="Choose it for the finder").click()
    asking.goto((site / "index.html").as_uri())
    expect(asking.locator("#finder-family")).to_have_value(view.id)
