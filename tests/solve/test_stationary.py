"""Extremes of polynomials on the interval from 0 to 1, against numpy's own roots."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.solve.stationary import highest_and_lowest, polynomial_values, roots_within

QUICK = settings(max_examples=80, deadline=None)


@QUICK
@given(st.integers(1, 5), st.integers(0, 2**32 - 1))
def test_extremes_as_by_numpy_roots(degree: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    p = rng.normal(size=(degree + 1, 6, 2)) * 10.0 ** rng.uniform(-3, 3, (degree + 1, 1, 1))
    p[rng.random(p.shape) < 0.15] = 0.0
    highest, highest_at, lowest, lowest_at = highest_and_lowest(p)
    assert polynomial_values(p, highest_at) == pytest.approx(highest)
    assert polynomial_values(p, lowest_at) == pytest.approx(lowest)
    for place in np.ndindex(6, 2):
        one = np.polynomial.Polynomial(p[:, *place])
        inner = one.deriv().roots()
        inner = inner[np.abs(inner.imag) < 1e-6].real
        values = one(np.r_[0.0, 1.0, inner[(inner > 0) & (inner < 1)]])
        room = 1e-9 * np.abs(p[:, *place]).max()
        assert highest[place] == pytest.approx(values.max(), rel=1e-9, abs=room)
        assert lowest[place] == pytest.approx(values.min(), rel=1e-9, abs=room)


@QUICK
@given(st.lists(st.floats(0.001, 0.999), min_size=1, max_size=4, unique=True))
def test_roots_are_found_in_order(roots: list[float]) -> None:
    wanted = np.sort(roots)
    if len(wanted) > 1 and np.diff(wanted).min() < 1e-3:
        return
    p = np.polynomial.polynomial.polyfromroots(wanted)
    assert roots_within(p[:, None])[:, 0] == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("far", [1e3, 1e9, -1e9, 1e15])
def test_quadratic_with_a_far_root_keeps_the_near_one(far: float) -> None:
    # (x - 0.3)(x - far) / far; the usual formula loses the near root by cancellation
    p = np.array([0.3, -(1 + 0.3 / far), 1 / far])
    near = roots_within(p[:, None])[:, 0]
    assert near[(near > 0) & (near < 1)] == pytest.approx([0.3], rel=1e-12)


def test_flat_and_straight_have_their_extremes_at_the_ends() -> None:
    for p in ([2.0], [2.0, 0.0, 0.0], [1.0, 3.0], [0.0, 0.0, 0.0, 5.0]):
        highest, _, lowest, _ = highest_and_lowest(np.array(p)[:, None])
        assert highest[0] == pytest.approx(sum(p))
        assert lowest[0] == pytest.approx(p[0])
