"""The step after leaving the policy."""

from __future__ import annotations

from statistics import fmean

import pytest

from generator.analysis.check_order import Case, next_step, solve, solve_from
from tests.analysis.check_order.order_cases import bench_case
from tests.analysis.check_order.order_hand_case import CASE

WEIGHTS = {h.id: h.share for h in CASE.hypotheses}


def test_the_scores_follow_the_formula() -> None:
    """By hand, after(T, O) = endings + half of the waiting.

    trial 2: then lint 7 at 0.3 / 7 before gear 12 at 0.2 / 12: 0.3 x 7 + 0.2 x 12 + 7 x 0.2 / 2.
    watch 3, plate off: gear 0.2 x 10; needle 3 at 0.5 / 3 before lint 5 at 0.3 / 5:
    0.5 x 3 + 0.3 x 5 + 3 x 0.3 / 2.
    needle 3: then as after the trial. clean 7, plate off: needle, then gear 10.
    """
    scores = {step.id: step.score for step in next_step(CASE, WEIGHTS)}
    assert scores["trial"] == pytest.approx(2 + 2.1 + 2.4 + 0.7)
    assert scores["watch"] == pytest.approx(3 + 2.0 + 1.5 + 1.5 + 0.45)
    assert scores["renew-needle"] == pytest.approx(3 + 2.1 + 2.4 + 0.7)
    assert scores["clean"] == pytest.approx(7 + 1.5 + 2.0 + 0.3)
    assert scores["renew-gear"] == pytest.approx(12 + 1.5 + 1.5 + 0.45)


def test_steps_are_ranked_by_score_whatever_the_scale_of_the_weights() -> None:
    steps = next_step(CASE, {h: 40 * w for h, w in WEIGHTS.items()})
    assert [step.id for step in steps] == ["trial", "renew-needle", "watch", "clean", "renew-gear"]
    assert steps[0].score == pytest.approx(next_step(CASE, WEIGHTS)[0].score)


def test_a_step_done_or_impossible_is_not_offered_again() -> None:
    steps = next_step(CASE, WEIGHTS, done=("trial", "renew-needle"))
    assert [step.id for step in steps] == ["watch", "clean", "renew-gear"]


def test_what_is_open_costs_nothing_to_open() -> None:
    (watch,) = [s for s in next_step(CASE, WEIGHTS, ["plate"]) if s.id == "watch"]
    assert (watch.opens, watch.minutes) == ((), 1)


def test_one_remedy_left_is_the_only_step() -> None:
    (step,) = next_step(CASE, {"dull": 0.7, "lint": 0.0})
    assert (step.kind, step.id, step.minutes, step.score) == ("remedy", "renew-needle", 3, 3)


def test_nothing_left_gives_no_step() -> None:
    assert next_step(CASE, {}) == ()


@pytest.mark.parametrize(
    ("weights", "opened", "message"),
    [
        ({"worn": 1}, (), "'worn' is no hypothesis"),
        ({"dull": -1}, (), "'dull' has the weight -1"),
        ({"dull": float("nan")}, (), "'dull' has the weight nan"),
        ({"dull": 1}, ("lid",), "'lid' is no part"),
    ],
)
def test_what_cannot_be_ranked_is_refused(
    weights: dict[str, float], opened: tuple[str, ...], message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        next_step(CASE, weights, opened)


def test_following_the_first_step_costs_little_more_than_the_best_order() -> None:
    ratios = []
    for number in range(40):
        job = bench_case(number, 10, 10)
        minutes = _followed(job, {h.id: h.share for h in job.hypotheses}, frozenset())
        ratios.append(minutes / solve(job).expected_minutes)
    assert min(ratios) >= 1 - 1e-9
    assert fmean(ratios) <= 1.1


def _followed(job: Case, weights: dict[str, float], opened: frozenset[str]) -> float:
    """Expected minutes (times weight) when the first step is always done."""
    if not weights:
        return 0.0
    step = next_step(job, weights, opened)[0]
    here = step.minutes * sum(weights.values())
    opened |= set(step.opens)
    if step.kind == "remedy":
        cured = {h.id for h in job.hypotheses if h.remedy.id == step.id}
        return here + _followed(job, {h: w for h, w in weights.items() if h not in cured}, opened)
    (check,) = [c for c in job.checks if c.id == step.id]
    going = sorted(set(check.sees.values()) - check.cured)
    shown = [{h: w for h, w in weights.items() if check.sees[h] == n} for n in going]
    return here + sum(_followed(job, left, opened) for left in shown)


def test_solving_from_the_start_is_solving() -> None:
    ids = [h.id for h in CASE.hypotheses]
    assert solve_from(CASE, ids, ()) == solve(CASE)


def test_solving_from_the_middle_counts_what_is_open_and_scales_the_shares() -> None:
    """By hand: plate off, watch 1; then gear 8 + 2 at 0.4, or clean 3 + 2 at 0.6."""
    solution = solve_from(CASE, ["lint", "gear"], ["plate"])
    assert solution.expected_minutes == pytest.approx(1 + 0.4 * 10 + 0.6 * 5)
