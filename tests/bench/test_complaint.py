"""A symptom on a family as diagnosis takes it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.tree import Gate
from generator.bench.doubt import NONE_OF_THESE
from generator.bench.walk import Entry, walk
from generator.records.model import Found, Tally
from tests.building import bench, gate, two_families


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


def _counted(*found, **shows):
    """The complaint with these counts in one tally, and modes that show so."""
    records = two_families()
    modes = {id.replace("_", "-"): said for id, said in shows.items()}
    return bench(
        replace(
            records,
            tallies={"one": Tally("one", "full", 400, found)},
            failure_modes={m.id: replace(m, shows=modes.get(m.id, {})) for m in records.failure_modes.values()},
        )
    )


def _of(asked, symptom="skips"):
    return asked.complaint(asked.library.for_family("full"), symptom)


def _estimates(complaint):
    return {h: share.estimate for h, share in complaint.odds.items()}


def test_a_share_is_the_rate_times_how_it_shows():
    """Rates 50, 30 and 10 in 1,000; the gear shows in most as skips, the needle in one of the one tree
    that names it, the timing in one of two; the two faults together always."""
    found = _estimates(_of(_counted(gear_cracked={"skips": "most"})))
    weights = {"gear-cracked": 0.05 * 0.6, "needle-bent": 0.03, "timing-off": 0.01 / 2, "lever-down+needle-worn": 0.04 * 0.03}
    assert found == pytest.approx({h: w / sum(weights.values()) for h, w in weights.items()})


def test_jobs_with_the_complaint_move_its_shares_and_no_other_complaints():
    plain, counted = _counted(), _counted(Found("timing-off", 20, "skips"))
    assert _of(counted).odds["timing-off"].mean == pytest.approx((20 * _estimates(_of(plain))["timing-off"] + 20) / 40)
    assert _of(counted, "still").odds == _of(plain, "still").odds


def test_a_count_of_unknown_complaint_moves_the_rates_alone():
    plain, counted = _counted(), _counted(Found("timing-off", 40))
    assert _of(counted).odds["timing-off"].estimate > _of(plain).odds["timing-off"].estimate
    assert _of(counted).odds["timing-off"].jobs == 0


def test_how_often_a_mode_is_met_counts_every_complaint():
    rate = _of(_counted(Found("timing-off", 20, "still"), Found("timing-off", 4))).rates["timing-off"]
    assert (rate.found, rate.machines) == (24, 400)


def test_what_a_share_rests_on_is_said_by_complaint():
    counted = _counted(Found("timing-off", 20, "still"), Found("lever-down", 2, "still"), Found("needle-bent", 9))
    assert _of(counted, "still").rests_on("timing-off") == "20 of 22 bench jobs with this complaint"
    assert _of(counted, "still").rests_on("gear-cracked") == "none of 22 bench jobs with this complaint"
    assert _of(counted).rests_on("timing-off") == "author's estimate; met with other complaints"
    assert _of(counted).rests_on("needle-bent") == "author's estimate; met with a complaint that was not noted"
    assert _of(counted).rests_on("gear-cracked") == "author's estimate"
    assert _of(counted).rests_on("lever-down+needle-worn") == "two faults together"


def test_importance_takes_the_chance_that_the_machine_comes_in_so():
    complaint = _of(_counted(Found("timing-off", 20, "skips"), timing_off={"skips": 0.5}))
    chance = complaint.probabilities
    assert chance["timing-off"] == pytest.approx(complaint.chance * complaint.odds["timing-off"].mean)
    assert chance["needle-worn"] == complaint.rates["needle-worn"].mean


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


def saw(name, outcome):
    return Entry("saw", name, outcome)


def test_where_the_order_ends_the_rule_goes_on_and_never_repeats_what_was_done(skips):
    log, at = [], bench()
    for _ in range(12):
        found = walk(at, skips, log)
        step = found.next_check or found.next_remedy
        if step is None:
            break
        assert step not in {entry.id for entry in log}
        log.append(saw(step, len(check(skips, step).outcomes) - 1) if found.next_check else Entry("tried", step))
    assert step is None and found.expected_minutes > 0, "it ends in stopping to think"


def test_an_answer_that_cures_ends_the_job(skips):
    found = walk(bench(), skips, [saw("new-needle", 0)])
    assert (found.expected_minutes, found.next_check, found.next_remedy) == (0, None, None)


def test_answers_that_nothing_fits_are_said_plainly(skips):
    found = walk(bench(), skips, [saw("look", 1), saw("new-needle", 1), saw("open-ended", 0)])
    assert "No single cause fits" in found.ranking.said
    assert sum(found.ranking.shares.values()) == pytest.approx(1)


def test_a_skipped_check_is_not_the_next_one(skips):
    first = walk(bench(), skips).next_check
    assert walk(bench(), skips, [Entry("skip", first)]).next_check != first


def test_a_gate_of_some_without_a_title_says_how_many() -> None:
    records = two_families()
    some = replace(records.symptoms["still"], tree=gate("any", gate("at_least", "needle-bent", "needle-worn", "timing-off", k=2), "gear-cracked"))
    asked = bench(replace(records, symptoms={**records.symptoms, "still": some}))
    tree = asked.complaint(asked.library.for_family("full"), "still").tree
    assert [node.title for node in tree.inputs if isinstance(node, Gate)] == ["at least 2 of these"]
