"""Thin steel on timber over a gap: its limits and its equilibrium."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve.interlayer import thin_plate_over_gap


def test_without_a_gap_it_is_the_clause_without_its_factors():
    f_h, t, d, M = 20.0, 50.0, 5.0, 10_000.0
    # EN 1995-1-1 (8.9): a 0.4 f_h t d is root 2 less 1; b root (2 M f_h d), without 1.15
    a, b = thin_plate_over_gap(f_h, t, d, M, 0.0)
    assert a == pytest.approx((np.sqrt(2) - 1) * f_h * t * d)
    assert b == pytest.approx(np.sqrt(2 * M * f_h * d))


@given(gap=st.floats(0, 100), t=st.floats(20, 120), M=st.floats(1e3, 1e5))
def test_moments_about_the_face_balance(gap, t, M):
    p = 20.0 * 5.0
    a, b = thin_plate_over_gap(20.0, t, 5.0, M, gap)
    # the plate holds no moment: F g is what the timber side gives
    assert a * gap == pytest.approx(p * t**2 / 4 - a * t / 2 - a**2 / (4 * p), rel=1e-9, abs=1e-6)
    assert b * gap == pytest.approx(M - b**2 / (2 * p), rel=1e-9, abs=1e-6)
