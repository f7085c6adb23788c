"""The Beta-binomial update and its interval."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from generator.analysis.evidence import WEIGHT, beta_cumulative, beta_quantile, rate

SHAPES = st.floats(0.05, 5000)


@given(SHAPES, SHAPES, st.floats(0.001, 0.999))
def test_the_cumulative_is_that_of_scipy(a, b, x):
    assert beta_cumulative(a, b, x) == pytest.approx(beta.cdf(x, a, b), abs=1e-9)


@given(SHAPES, SHAPES, st.sampled_from([0.05, 0.5, 0.95]))
def test_the_quantile_is_that_of_scipy(a, b, p):
    assert beta_quantile(a, b, p) == pytest.approx(beta.ppf(p, a, b), abs=1e-9)


def test_the_estimate_weighs_as_fifty_machines():
    assert WEIGHT == 50
    assert rate(0.02, found=0, machines=50).mean == pytest.approx(0.01)


def test_an_estimate_alone_has_the_interval_of_its_prior():
    found = rate(0.02)
    assert (found.low, found.high) == pytest.approx((beta.ppf(0.05, 1, 49), beta.ppf(0.95, 1, 49)), abs=1e-9)


@pytest.mark.parametrize(("estimate", "found", "machines"), [(0, 0, 0), (1, 0, 0), (-0.1, 0, 0), (0.5, 3, 2), (0.5, -1, 2)])
def test_what_cannot_be_a_rate_is_refused(estimate, found, machines):
    with pytest.raises(ValueError, match=r"\.$"):
        rate(estimate, found, machines)


@pytest.mark.parametrize(("x", "below"), [(-0.5, 0), (0, 0), (1, 1), (1.5, 1), (2.5, 1)])
def test_nothing_lies_below_none_and_everything_at_the_whole(x, below):
    assert beta_cumulative(2, 3, x) == below
