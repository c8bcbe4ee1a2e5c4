"""Joists under part loads: beam-table cases, dense sums, equilibrium."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import joist

SPAN = 3600.0
SHARE = st.floats(0.0, 1.0)
LOAD = st.floats(0.0, 5.0)


def dense(w_0: float, w: float, a: float, c: float, n: int = 20_000) -> tuple[float, float]:
    """Largest moment and deflection (EI = 1) from Green's function of the simple span."""
    x = (np.arange(n) + 0.5) * SPAN / n
    force = (w_0 + w * ((x > a) & (x < a + c))) * SPAN / n
    left = np.sum(force * (1 - x / SPAN))
    shear = left - np.cumsum(force)
    moment = np.cumsum(np.concatenate([[left], shear[:-1]])) * SPAN / n
    slope = -np.cumsum(moment) * SPAN / n
    sag = np.cumsum(slope) * SPAN / n
    sag = sag - x / SPAN * sag[-1]
    return float(moment.max()), float(sag.max())


def test_whole_span_is_the_uniform_case() -> None:
    assert joist.joist_moment(0, 2, 0, SPAN, SPAN) == pytest.approx(2 * SPAN**2 / 8)
    assert joist.joist_deflection(0, 2, 0, SPAN, SPAN, 1e12) == pytest.approx(
        5 * 2 * SPAN**4 / (384 * 1e12)
    )
    assert joist.joist_shear(0, 2, 0, SPAN, SPAN) == pytest.approx(2 * SPAN / 2)


def test_part_load_by_hand() -> None:
    # 3600 span, 0.9 N/mm all over, 2.5 N/mm on 1200 from 600: part 3000 N centred at 1200:
    # right 3000 x 1200/3600 = 1000, left 2000; with the even load 3620 and 2620.
    # Zero shear inside the part: 3620 - 0.9 x - 2.5 (x - 600) = 0, x = 5120/3.4 = 1505.9;
    # M = 3620 x 1505.9 - 0.45 x 1505.9^2 - 1.25 x 905.9^2 = 5.4513e6 - 1.0205e6 - 1.0258e6
    #   = 3.405e6 N mm.
    left, right = joist.part_load_reactions(2.5, 600, 1200, SPAN)
    assert (float(left), float(right)) == pytest.approx((2000, 1000))
    assert joist.joist_shear(0.9, 2.5, 600, 1200, SPAN) == pytest.approx(3620)
    assert joist.joist_moment(0.9, 2.5, 600, 1200, SPAN) == pytest.approx(3.405e6, rel=2e-4)


def test_short_part_tends_to_the_point_load_of_the_handbooks() -> None:
    # P at b from the right, b < L/2: w_max = P b (L^2 - b^2)^1.5 / (9 sqrt 3 L EI).
    P, b = 1000.0, 1000.0
    exact = P * b * (SPAN**2 - b**2) ** 1.5 / (9 * np.sqrt(3) * SPAN)
    short = joist.joist_deflection(0, P / 0.2, SPAN - b - 0.1, 0.2, SPAN, 1.0)
    assert short == pytest.approx(exact, rel=1e-6)
    M = joist.joist_moment(0, P / 0.2, SPAN - b - 0.1, 0.2, SPAN)
    assert pytest.approx(P * b * (SPAN - b) / SPAN, rel=1e-4) == M


@given(LOAD, st.floats(0.01, 5.0), SHARE, SHARE)
def test_maxima_against_dense_sums(w_0: float, w: float, one: float, other: float) -> None:
    a, end = sorted([one * SPAN, other * SPAN])
    moment, sag = dense(w_0, w, a, end - a)
    # Sums by cells lose the ends of the part: a cell of load at most, twice.
    slack = 4 * (w_0 + w) * SPAN / 20_000
    got = joist.joist_moment(w_0, w, a, end - a, SPAN)
    assert got == pytest.approx(moment, rel=2e-3, abs=slack * SPAN / 4)
    got = joist.joist_deflection(w_0, w, a, end - a, SPAN, 1.0)
    assert got == pytest.approx(sag, rel=2e-3, abs=slack * SPAN**3 / 48)


@given(LOAD, LOAD, SHARE, SHARE)
def test_mirror_image_gives_the_same(w_0: float, w: float, one: float, other: float) -> None:
    a, end = sorted([one * SPAN, other * SPAN])
    c = end - a
    mirrored = max(0.0, SPAN - a - c)
    for what in (joist.joist_moment, joist.joist_shear):
        assert what(w_0, w, a, c, SPAN) == pytest.approx(
            float(what(w_0, w, mirrored, c, SPAN)), rel=1e-7, abs=1e-6
        )
    sag = joist.joist_deflection(w_0, w, [a, mirrored], c, SPAN, 1e12)
    assert sag[0] == pytest.approx(sag[1], rel=1e-7, abs=1e-12)


@given(st.floats(0, 10), SHARE, SHARE)
def test_reactions_sum_to_the_part_load(w: float, one: float, other: float) -> None:
    a, end = sorted([one * SPAN, other * SPAN])
    left, right = joist.part_load_reactions(w, a, end - a, SPAN)
    assert left + right == pytest.approx(w * (end - a), abs=1e-9)


def test_no_load_no_result_and_a_part_outside_is_refused() -> None:
    assert joist.joist_moment(0, 0, 0, SPAN, SPAN) == 0
    assert joist.joist_deflection(0, 0, 0, SPAN, SPAN, 1.0) == 0
    with pytest.raises(ValueError, match="within the span"):
        joist.joist_moment(1, 1, 3000, 700, SPAN)


def test_sharing_by_hand() -> None:
    # 900 N, joists at 0, 450, 900, centre of gravity at 600: e = 150; sum y^2 = 405 000;
    # 300 +- 900 x 150 x 450 / 405 000 = 300 +- 150.
    assert joist.shared_by_joists(900, 600, [0, 450, 900]) == pytest.approx([150, 300, 450])


@given(st.floats(1, 5000), st.floats(-500, 2500), st.lists(st.floats(100, 700), min_size=1))
def test_shares_balance_force_and_moment(W: float, y_G: float, gaps: list[float]) -> None:
    y = np.concatenate([[0.0], np.cumsum(gaps)])
    R = joist.shared_by_joists(W, y_G, y)
    assert R.sum() == pytest.approx(W, rel=1e-9)
    assert (R * y).sum() == pytest.approx(W * y_G, abs=1e-9 * W * (y[-1] + 3000))


def test_one_joist_takes_all_or_is_refused() -> None:
    assert joist.shared_by_joists(700, 450, [450]) == pytest.approx([700])
    assert joist.shared_by_joists([700, 200], 450, [450]).shape == (2, 1)
    with pytest.raises(ValueError, match="one joist"):
        joist.shared_by_joists(700, 300, [450])
