"""Lognormal factors, counted chances, and shares of a variance."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from shelfload.solve.scatter import Tally, lognormal_spread, share_with_error


def test_spread_of_the_logarithm_gives_the_coefficient_of_variation_back():
    for cov in (0.01, 0.1, 0.22, 0.5):
        sigma = float(lognormal_spread(cov))
        # scipy is the reference for the moments
        found = stats.lognorm(s=sigma, scale=np.exp(-(sigma**2) / 2))
        assert found.mean() == pytest.approx(1.0, rel=1e-9)
        assert found.std() == pytest.approx(cov, rel=1e-9)
    with pytest.raises(ValueError, match="cov"):
        lognormal_spread(-0.1)


@pytest.mark.parametrize(("hits", "samples"), [(0, 1000), (3, 1000), (500, 1000), (1000, 1000)])
def test_interval_is_wilsons(hits, samples):
    share, lower, upper = share_with_error(hits, samples)
    # scipy is the reference for the interval
    expected = stats.binomtest(hits, samples).proportion_ci(0.95, method="wilson")
    assert float(share) == hits / samples
    assert float(lower) == pytest.approx(expected.low, rel=1e-9, abs=1e-12)
    assert float(upper) == pytest.approx(expected.high, rel=1e-9)


def test_counts_that_cannot_be_are_refused():
    for hits, samples in ((1, 0), (-1, 10), (11, 10)):
        with pytest.raises(ValueError, match="hits"):
            share_with_error(hits, samples)


def test_shares_of_a_product_are_those_of_its_variances():
    rng = np.random.default_rng(5)
    tally = Tally(3)
    spreads = np.array([0.3, 0.1, 0.0])
    n = 200_000
    for part in (3 * n // 4, n // 4):
        z = rng.standard_normal((3, part))
        tally.add(np.exp(spreads @ z), z, 1.0)
    assert tally.count == n
    # variances add up: 0.09 and 0.01 of 0.10; error of a correlation is about 1 / sqrt(n)
    assert tally.shares == pytest.approx([0.9, 0.1, 0.0], abs=8.0 / np.sqrt(n))
    # half of them above the median
    assert tally.hits / n == pytest.approx(0.5, abs=4.0 * 0.5 / np.sqrt(n))
