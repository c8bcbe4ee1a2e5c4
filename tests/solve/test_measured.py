"""Stiffness from a bending test: formulas, Student's points, and coverage over many seeds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed
from scipy import stats

from shelfload.solve import beam
from shelfload.solve.measured import (
    bending_stress,
    expanded,
    modulus_from_sag,
    stiffness_of_readings,
    t_quantile,
)


def sag_of(E, E_over_G, L, b, h, loading):
    """Sag at mid-span under 1 N in all, by the beam solver."""
    points = {"centre": [(0, L / 2, 1.0)], "thirds": [(0, L / 3, 0.5), (0, 2 * L / 3, 0.5)]}
    solved = beam.solve(
        beam.Beam(
            length=L,
            support_at=np.array([0.0, L]),
            EI=np.array(E * b * h**3 / 12),
            GA=np.array(E / E_over_G * b * h * 5 / 6),
        ),
        beam.Loads.of(cases=1, points=points[loading]),
    )
    return float(solved.at([L / 2])[0][0, 0]), float(solved.at([L / 2])[1][0, 0])


@settings(max_examples=60, deadline=None)
@given(
    loading=st.sampled_from(["centre", "thirds"]),
    L=st.floats(200.0, 2000.0),
    h=st.floats(3.0, 40.0),
    ratio=st.floats(1.0, 150.0),
)
def test_modulus_is_the_one_that_sags_so(loading, L, h, ratio):
    E, b = 8765.0, 90.0
    w, M = sag_of(E, ratio, L, b, h, loading)
    assert float(modulus_from_sag(1.0 / w, L, b, h, ratio, loading)) == pytest.approx(E, rel=1e-9)
    stress = float(bending_stress(1.0, L, b, h, loading))
    assert stress == pytest.approx(M / (b * h**2 / 6), rel=1e-9)


def test_apparent_modulus_at_span_14_depths_is_a_tenth_low_for_wood():
    # Wood Handbook (FPL-GTR-282), chapter 5: add 10 % to the tabled value, which includes the
    # shear of a test at span/depth 14 (from memory); E/G = 16 of softwood
    w, _ = sag_of(11000.0, 16.0, 14 * 20.0, 50.0, 20.0, "centre")
    apparent = float(modulus_from_sag(1.0 / w, 280.0, 50.0, 20.0, 0.0, "centre"))
    assert 11000.0 / apparent - 1.0 == printed("0.1")


@pytest.mark.parametrize(
    ("degrees", "tabled"),
    [(1, "12.706"), (2, "4.303"), (4, "2.776"), (9, "2.262"), (30, "2.042"), (120, "1.980")],
)
def test_students_point_is_that_of_the_printed_table(degrees, tabled):
    # 97.5 % points of Student's t, any statistical table
    assert float(t_quantile(degrees)) == printed(tabled)


def test_students_point_over_all_degrees_is_scipys():
    degrees = np.array([1.0, 2.0, 2.7, 3.0, 5.5, 17.0, 200.0, 999.0, 1001.0, 1e5, np.inf])
    assert t_quantile(degrees) == pytest.approx(stats.t.ppf(0.975, degrees), rel=2e-7)
    with pytest.raises(ValueError, match="degrees"):
        t_quantile(0.5)


def test_slope_and_its_error_are_those_of_least_squares():
    rng = np.random.default_rng(8)
    P = np.array([50.0, 50.0, 100.0, 150.0])
    w = 0.02 * P + rng.normal(0.0, 0.05, 4)
    k, error = stiffness_of_readings(P, w)
    slope, residual = np.linalg.lstsq(P[:, None], w, rcond=None)[:2]  # numpy is the reference
    assert float(k) == pytest.approx(1.0 / slope[0], rel=1e-9)
    expected = np.sqrt(residual[0] / 3 / (P**2).sum()) / slope[0]
    assert float(error) == pytest.approx(expected, rel=1e-9)


def test_one_reading_has_no_scatter_and_lifting_is_refused():
    k, error = stiffness_of_readings([100.0], [2.0])
    assert float(k) == 50.0
    assert np.isnan(error)
    assert float(expanded(error, 1, [0.03])[0]) == pytest.approx(1.959964 * 0.03, rel=1e-6)
    with pytest.raises(ValueError, match="w:"):
        stiffness_of_readings([100.0], [-2.0])
    with pytest.raises(ValueError, match="E_over_G"):
        modulus_from_sag(1.0, 500.0, 50.0, 18.0, -1.0, "centre")
    with pytest.raises(ValueError, match="L"):
        modulus_from_sag(1.0, 0.0, 50.0, 18.0, 16.0, "centre")


@pytest.mark.parametrize("readings", [3, 6])
def test_interval_from_noisy_readings_holds_the_true_value_19_times_in_20(readings):
    rng = np.random.default_rng(20)
    tests = 20_000
    E, ratio, L, b, h = 9000.0, 49.0, 800.0, 100.0, 18.0
    P = np.linspace(50.0, 100.0, readings)
    w, _ = sag_of(E, ratio, L, b, h, "centre")
    noisy = w * P + rng.normal(0.0, 0.05, (tests, readings))
    k, scatter = stiffness_of_readings(P, noisy)
    found = modulus_from_sag(k, L, b, h, ratio, "centre")
    half, degrees = expanded(scatter, readings, np.zeros((tests, 1)))
    assert degrees == pytest.approx(readings - 1)
    # sag, whose error is normal, is 1 / E: the interval stands about it
    holds = np.abs(E / found - 1.0) <= half * E / found
    assert holds.mean() == pytest.approx(0.95, abs=4 * np.sqrt(0.95 * 0.05 / tests))


def test_interval_holds_when_sizes_are_off_as_well():
    rng = np.random.default_rng(21)
    tests, n = 20_000, 4
    E, ratio, L, b, h = 9000.0, 49.0, 800.0, 100.0, 18.0
    w, _ = sag_of(E, ratio, L, b, h, "thirds")
    noisy = w * 80.0 + rng.normal(0.0, 0.03, (tests, n))
    k, scatter = stiffness_of_readings(np.full(n, 80.0), noisy)
    # calipers off by up to 0.1 mm, tape by up to 1 mm: evenly anywhere in between
    thick, long = h + rng.uniform(-0.1, 0.1, tests), L + rng.uniform(-1.0, 1.0, tests)
    found = modulus_from_sag(k, long, b, thick, ratio, "thirds")
    others = np.array([3 * 0.1 / h, 3 * 1.0 / L]) / np.sqrt(3.0)
    half, _ = expanded(scatter, n, np.broadcast_to(others, (tests, 2)))
    holds = (np.abs(E / found - 1.0) <= half).mean()
    # the formula is approximate: a little more than promised does no harm, less would
    assert 0.945 < holds < 0.97
