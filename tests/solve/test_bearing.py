"""Bearing lengths, and a sagging beam that draws in its ends."""

from __future__ import annotations

import numpy as np
import pytest
import sympy as sp
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import bearing


def test_shortening_constant_from_the_exact_curve() -> None:
    s, w, L = sp.symbols("s w L", positive=True)
    # Simple beam, even load: w (16/5) (s - 2 s^3 + s^4); slope by x = s L.
    slope = sp.diff(sp.Rational(16, 5) * w * (s - 2 * s**3 + s**4), s) / L
    half = sp.integrate(slope**2 / 2 * L, (s, 0, 1))
    assert sp.simplify(half * L / w**2) == sp.Rational(2176, 875)
    assert slope.subs(s, 0) * L / w == sp.Rational(16, 5)
    assert pytest.approx(2176 / 875) == bearing.UNIFORM_SHORTENING


def test_shortening_by_hand() -> None:
    # Span 900, sag 12: 2.487 x 144 / 900 = 0.3979 mm; slope 3.2 x 12 / 900 = 0.04267 rad.
    assert bearing.uniform_shortening(12, 900) == pytest.approx(0.3979, abs=5e-5)
    assert bearing.uniform_end_slope(12, 900) == pytest.approx(0.04267, abs=5e-6)


def test_curve_by_points_tends_to_the_closed_form_with_second_order() -> None:
    errors = []
    for n in (20, 40, 80):
        s = np.linspace(0, 1, n + 1)
        curve = 12 * 3.2 * (s - 2 * s**3 + s**4)
        exact = float(bearing.uniform_shortening(12, 900))
        errors.append(exact - float(bearing.curve_shortening(900 * s, curve)))
    assert min(errors) > 0
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.02)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.02)


def test_curve_of_a_parabola_shortens_by_eight_thirds() -> None:
    s = np.linspace(0, 1, 2001)
    curve = 10 * 4 * s * (1 - s)
    assert bearing.curve_shortening(1000 * s, curve) == pytest.approx(8 / 3 * 100 / 1000, rel=1e-6)


def test_bearing_left_by_hand() -> None:
    # Pin bears 6 mm, opening 2 mm wider than the shelf, shortening 0.3979: 6 - 2 - 0.398 = 3.602.
    assert bearing.bearing_left(6, 2, 0.3979) == pytest.approx(3.602, abs=5e-4)


@given(st.floats(1, 30), st.floats(0, 10), st.floats(200, 2500))
def test_nothing_is_left_at_the_sag_at_slip(b: float, play: float, L: float) -> None:
    sag = bearing.sag_at_slip(b, play, L)
    left = bearing.bearing_left(b, play, bearing.uniform_shortening(sag, L))
    assert left == pytest.approx(min(0.0, b - play), abs=1e-9)


def test_effective_length_at_the_end_and_in_the_middle() -> None:
    # EN 1995-1-1:2004+A1, 6.1.5(1): l 40, end distance 10, far side free, next contact 50 away:
    # 40 + min(30, 10, 40, 25) + min(30, 200, 40, 25) = 40 + 10 + 25 = 75.
    assert bearing.effective_bearing_length(40, 10, 200, 50) == pytest.approx(75)
    assert bearing.effective_bearing_length(18, 500, 500) == pytest.approx(18 * 3)
    assert bearing.effective_bearing_length(100, 0, 0) == pytest.approx(100)


def test_bearing_ratio_by_hand() -> None:
    # 2400 N on 18 x 300 = 5400 mm2: 0.4444 MPa; against 1.25 x 1.5 = 1.875: 0.2370.
    assert bearing.bearing_ratio(2400, 18, 300, 1.5, 1.25) == pytest.approx(0.2370, abs=5e-5)
