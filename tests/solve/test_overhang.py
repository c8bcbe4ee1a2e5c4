"""Best overhang of a uniform beam on n supports: classical points, other routes, optimality."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from shelfload.solve import overhang as oh


def by_singularity_functions(n: int, a: float, cells: int = 2000) -> tuple[np.ndarray, np.ndarray]:
    """Reactions as unknowns: w'' = -M twice integrated, w = 0 at the supports."""
    place = np.linspace(a, 1 - a, n)
    x = np.union1d(np.linspace(0, 1, cells + 1), place)

    # M = -x^2/2 + sum R <x - p>; w = x^4/24 - sum R <x - p>^3 / 6 + c0 + c1 x.
    def basis(at: np.ndarray) -> np.ndarray:
        ramps = -(np.maximum(at[:, None] - place[None, :], 0) ** 3) / 6
        return np.column_stack([ramps, np.ones_like(at), at])

    system = np.zeros((n + 2, n + 2))
    right = np.zeros(n + 2)
    system[:n], right[:n] = basis(place), -(place**4) / 24
    system[n, :n], right[n] = 1.0, 1.0
    system[n + 1, :n], right[n + 1] = place, 0.5
    unknown = np.linalg.solve(system, right)
    moment = -(x**2) / 2 + np.maximum(x[:, None] - place[None, :], 0) @ unknown[:n]
    return moment, x**4 / 24 + basis(x) @ unknown


@pytest.mark.parametrize("n", [2, 3, 4, 6])
@pytest.mark.parametrize("a", [0.0, 0.05, 0.12, 0.21])
def test_factors_against_singularity_functions(n: int, a: float) -> None:
    moment, sag = by_singularity_functions(n, a)
    # Samples miss a peak between supports by (1 / 4000)^2 / 2 at most.
    peak = np.abs(moment).max()
    assert oh.moment_factor(n, a) == pytest.approx(peak, rel=0, abs=(1 / 4000) ** 2 / 2)
    assert oh.moment_factor(n, a) >= np.abs(moment).max() * (1 - 1e-9)
    assert oh.sag_factor(n, a) == pytest.approx(np.abs(sag).max(), rel=1e-4)


def test_two_supports_without_overhang_are_the_simple_beam() -> None:
    assert oh.sag_factor(2, 0.0) == pytest.approx(5 / 384)
    assert oh.moment_factor(2, 0.0) == pytest.approx(1 / 8)


def test_three_supports_without_overhang_are_the_two_span_beam() -> None:
    # Two spans L/2: hogging q l^2 / 8; largest deflection q l^4 / 185 (rounded in handbooks).
    assert oh.moment_factor(3, 0.0) == pytest.approx(0.5**2 / 8)
    assert oh.sag_factor(3, 0.0) == pytest.approx(0.5**4 / 185, rel=5e-3)


def test_least_moment_on_two_supports_has_its_closed_form() -> None:
    # a^2 / 2 = (1 - 2a)^2 / 8 - a^2 / 2: a = (sqrt 2 - 1) / 2.
    best = oh.best_overhang(2, oh.moment_factor)
    assert best == pytest.approx((np.sqrt(2) - 1) / 2, abs=1e-7)
    assert oh.moment_factor(2, best) == pytest.approx(best**2 / 2)


def test_least_sag_on_two_supports_balances_tips_and_middle() -> None:
    best = oh.best_overhang(2)
    _, sag = by_singularity_functions(2, best)
    assert sag[0] == pytest.approx(sag[sag.size // 2], rel=1e-4)
    # Tip and middle alike, from the beam table (overhangs a, span l = 1 - 2 a):
    # 5 l^4/384 - a^2 l^2/16 = a^4/8 - a (l^3/24 - a^2 l/4), that is 32 a^3 - 24 a + 5 = 0.
    root = brentq(lambda a: 32 * a**3 - 24 * a + 5, 0.1, 0.4)
    assert best == pytest.approx(root, abs=1e-7)


@given(st.integers(2, 7), st.floats(0.0, 0.4))
def test_nothing_beats_the_best(n: int, a: float) -> None:
    for factor in (oh.sag_factor, oh.moment_factor):
        assert factor(n, oh.best_overhang(n, factor)) <= factor(n, a) * (1 + 1e-6)


@given(st.integers(2, 8), st.floats(0.0, 0.45))
def test_support_moments_are_symmetric_and_balance(n: int, a: float) -> None:
    M = oh.support_moments(n, a)
    assert pytest.approx(M[::-1], abs=1e-15) == M
    span = (1 - 2 * a) / (n - 1)
    # Reactions from the moments: sum must be the load, 1.
    shear_right = span / 2 + np.diff(M) / span
    shear_left = span / 2 - np.diff(M) / span
    assert 2 * a + shear_right.sum() + shear_left.sum() == pytest.approx(1.0)
    if n > 2:
        three = M[:-2] + 4 * M[1:-1] + M[2:]
        assert three == pytest.approx(-(span**2) / 2)


def test_more_supports_sag_less() -> None:
    best = [oh.sag_factor(n, oh.best_overhang(n)) for n in range(2, 8)]
    assert np.all(np.diff(best) < 0)


@pytest.mark.parametrize(("n", "a"), [(1, 0.1), (2, 0.5), (2, -0.1)])
def test_nonsense_is_refused(n: int, a: float) -> None:
    with pytest.raises(ValueError, match="two supports"):
        oh.sag_factor(n, a)
