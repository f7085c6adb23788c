"""A symptom on a family as diagnosis takes it."""

from __future__ import annotations

import pytest

from generator.analysis.diagnosis import Answer
from generator.bench.complaint import NONE_OF_THESE
from generator.bench.walk import walk
from tests.building import bench


@pytest.fixture
def skips():
    asked = bench()
    return asked.complaint(asked.library.for_family("full"), "skips")


def check(complaint, name):
    return next(c for c in complaint.case.checks if c.id == name)


def test_hypotheses_are_the_minimal_cut_sets(skips):
    assert {h.causes for h in skips.case.hypotheses} == {
        ("gear-cracked",),
        ("lever-down", "needle-worn"),
        ("needle-bent",),
        ("timing-off",),
    }


def test_a_tally_updates_the_estimate_and_one_that_does_not_name_a_mode_says_nothing_of_it(skips):
    bent = skips.rates["needle-bent"]
    assert (bent.found, bent.machines) == (40, 500)
    assert bent.mean == pytest.approx((50 * 0.03 + 40) / (50 + 500))
    timing = skips.rates["timing-off"]
    assert (timing.found, timing.machines) == (0, 100)
    assert skips.rates["gear-cracked"].machines == 0
    assert skips.rates["gear-cracked"].mean == pytest.approx(0.05)


def test_a_cause_shows_the_first_outcome_that_fits_it(skips):
    sees = check(skips, "look").sees
    assert (sees["gear-cracked"], sees["timing-off"], sees["needle-bent"]) == (0, 0, 1)


def test_a_trial_cures_two_faults_together_only_if_it_fits_both(skips):
    new = check(skips, "new-needle")
    assert new.sees["needle-bent"] == 0 and 0 in new.cured
    assert new.sees["lever-down+needle-worn"] == 1


def test_what_no_outcome_fits_shows_none_of_these(skips):
    open_ended = check(skips, "open-ended")
    assert open_ended.outcomes[-1] == NONE_OF_THESE
    assert open_ended.sees["timing-off"] == 2


def test_a_check_for_another_symptom_is_not_offered(skips):
    assert "only-still" not in {c.id for c in skips.case.checks}


def test_two_faults_together_take_both_remedies(skips):
    both = next(h for h in skips.case.hypotheses if len(h.causes) == 2)
    assert both.remedy.renew == ("needle",)
    assert both.remedy.minutes == 1
    assert both.remedy.id == "advise:lever-down+renew:needle"


def test_causes_with_equal_remedies_share_its_id():
    asked = bench()
    found = asked.remedies(asked.library.for_family("plain"))
    assert found["needle-bent"] == found["needle-worn"]


def answer(complaint, name, outcome, trust=0.95):
    asked = check(complaint, name)
    return Answer(name, outcome, len(asked.outcomes), asked.sees, trust)


def test_planning_after_answers_goes_on_with_what_fits_them(skips):
    found = walk(bench(), skips, [answer(skips, "look", 0)])
    assert set(found.ranking.agreeing) == {"gear-cracked", "timing-off"}
    assert found.next_check in (None, "open-ended")


def test_an_answer_that_cures_ends_the_job(skips):
    found = walk(bench(), skips, [answer(skips, "new-needle", 0)])
    assert (found.expected_minutes, found.next_check, found.next_remedy) == (0, None, None)


def test_answers_that_nothing_fits_are_said_plainly(skips):
    found = walk(bench(), skips, [answer(skips, "look", 1), answer(skips, "new-needle", 1), answer(skips, "open-ended", 0)])
    assert "No single cause fits" in found.ranking.said
    assert sum(found.ranking.shares.values()) == pytest.approx(1)


def test_a_skipped_check_is_not_the_next_one(skips):
    first = walk(bench(), skips).next_check
    assert walk(bench(), skips, skipped=[first]).next_check != first
