"""A complaint's own odds: the scale, the default, and jobs counted with the complaint."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta, dirichlet, dirichlet_multinomial

from generator.analysis.odds import SCALE, WEIGHT, shares, shown

CAUSES = "abcd"
COUNTS = st.lists(st.integers(0, 40), min_size=4, max_size=4)
WEIGHTS = st.lists(st.floats(0.01, 10), min_size=4, max_size=4)


def _posterior(weights, counts):
    return WEIGHT * np.array(weights) / sum(weights) + np.array(counts)


@given(WEIGHTS, COUNTS)
def test_the_shares_are_the_means_of_scipys_dirichlet_after_the_count(weights, counts):
    found = shares(dict(zip(CAUSES, weights, strict=True)), dict(zip(CAUSES, counts, strict=True)))
    expected = dirichlet.mean(_posterior(weights, counts))
    assert [found[c].mean for c in CAUSES] == pytest.approx(list(expected), rel=1e-9)
    assert sum(s.mean for s in found.values()) == pytest.approx(1)


@given(WEIGHTS, COUNTS)
def test_a_share_is_the_chance_of_the_next_job_by_scipys_dirichlet_multinomial(weights, counts):
    """The probability of one job more, of that cause, given those counted."""
    found = shares(dict(zip(CAUSES, weights, strict=True)), dict(zip(CAUSES, counts, strict=True)))
    after = _posterior(weights, counts)
    for place, cause in enumerate(CAUSES):
        one_more = np.eye(4, dtype=int)[place]
        assert found[cause].mean == pytest.approx(dirichlet_multinomial.pmf(one_more, after, 1), rel=1e-6)


def test_the_interval_is_that_of_the_marginal_by_scipy():
    share = shares({"a": 3, "b": 1}, {"a": 4, "b": 6})["b"]
    a, b = WEIGHT / 4 + 6, WEIGHT * 3 / 4 + 4
    assert (share.low, share.high) == pytest.approx((beta.ppf(0.05, a, b), beta.ppf(0.95, a, b)), abs=1e-9)


def test_a_vote_worked_by_hand():
    """Bayesian Data Analysis, section 3.4 (from memory): 727, 583 and 137 of 1,447 voters, and a uniform
    prior, one for each: the posterior means are 728, 584 and 138 of 1,450. Here the prior weighs as 20."""
    found = shares({"one": 1, "other": 1, "none": 1}, {"one": 727, "other": 583, "none": 137})
    assert [s.mean for s in found.values()] == pytest.approx([(n + 20 / 3) / 1467 for n in (727, 583, 137)])


def test_without_a_job_the_authors_shares_stand():
    found = shares({"a": 3, "b": 1}, {"elsewhere": 9})
    assert (found["a"].mean, found["b"].mean, found["a"].jobs) == (0.75, 0.25, 0)


def test_one_cause_alone_is_the_whole():
    only = shares({"a": 2}, {})["a"]
    assert (only.mean, only.low, only.high) == (1, 1, 1)


def test_the_scale_goes_down_from_always_to_seldom():
    figures = [SCALE[w] for w in ("always", "most", "some", "seldom")]
    assert figures == sorted(figures, reverse=True)
    assert 0 < figures[-1] < figures[0] <= 1


@pytest.mark.parametrize(
    ("said", "complaints", "expected"),
    [({"skips": "most"}, 5, SCALE["most"]), ({"skips": 0.3}, 5, 0.3), ({"nest": "most"}, 5, SCALE["seldom"]), ({}, 5, 0.2), ({}, 1, 1)],
)
def test_what_a_record_leaves_out_is_seldom_and_what_says_nothing_is_alike(said, complaints, expected):
    assert shown(said, "skips", complaints) == expected
