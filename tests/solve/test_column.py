"""Columns: Euler cases, the code's curve, combined stress, built-up sections."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from shelfload.solve import column

BETA = st.sampled_from([column.BETA_C_SOLID, column.BETA_C_GLUED])
SLENDER = st.floats(0.0, 6.0)


@pytest.mark.parametrize("ends", list(column.END_CONDITIONS))
def test_practical_length_is_never_below_the_ideal_one(ends: str) -> None:
    assert column.effective_length(1000, ends) >= column.effective_length(1000, ends, ideal=True)


def test_ideal_factor_of_fixed_pinned_is_the_root_of_its_equation() -> None:
    # Timoshenko & Gere, Theory of Elastic Stability, 2.2: tan u = u, L_ef = pi L / u.
    u = brentq(lambda v: np.sin(v) - v * np.cos(v), 4.0, 4.6)
    assert column.effective_length(1.0, "fixed-pinned", ideal=True) == pytest.approx(pi / u)


def test_unknown_end_condition_is_refused() -> None:
    with pytest.raises(KeyError):
        column.effective_length(1000, "loose")


def test_euler_load_against_finite_differences() -> None:
    # -EI w'' = N w on a pinned column: least eigenvalue of the second difference.
    n, L, EI = 400, 1200.0, 3.0e8
    step = L / n
    off = np.full(n - 2, -1.0)
    matrix = (np.diag(np.full(n - 1, 2.0)) + np.diag(off, 1) + np.diag(off, -1)) / step**2
    least = EI * np.linalg.eigvalsh(matrix)[0]
    # The difference scheme is low by (pi / n)^2 / 12.
    assert least / column.euler_load(EI, L) == pytest.approx(1 - (pi / n) ** 2 / 12, rel=1e-6)


def test_stress_at_euler_load_is_strength_over_relative_slenderness_squared() -> None:
    b, t, L, E, f = 300.0, 18.0, 1800.0, 6000.0, 15.0
    EI, EA = E * b * t**3 / 12, E * b * t
    rel = column.relative_slenderness(column.slenderness(L, EI, EA), f, E)
    assert column.euler_load(EI, L) / (b * t) == pytest.approx(float(f / rel**2), rel=1e-12)


def test_plate_on_edge_by_hand() -> None:
    # Plate 18 x 300, L_ef 700: i = 18 / sqrt 12 = 5.196; lambda = 134.7;
    # f_c 15, E_05 3500: sqrt(15/3500) = 0.06547; lambda_rel = 134.7/3.1416 x 0.06547 = 2.807;
    # k = 0.5 (1 + 0.2 x 2.507 + 7.880) = 4.691; k_c = 1/(4.691 + sqrt(22.00 - 7.880)) = 0.1184
    # (steps carried with more digits than shown)
    lam = column.slenderness(700.0, 300 * 18**3 / 12, 300 * 18)
    rel = column.relative_slenderness(lam, 15.0, 3500.0)
    assert lam == pytest.approx(134.7, rel=5e-4)
    assert rel == pytest.approx(2.807, rel=5e-4)
    assert column.buckling_k(rel, 0.2) == pytest.approx(4.691, rel=5e-4)
    assert column.instability_factor(rel, 0.2) == pytest.approx(0.1184, rel=5e-4)


@given(SLENDER, BETA)
def test_instability_factor_lies_in_its_range(rel: float, beta: float) -> None:
    assert 0.0 < column.instability_factor(rel, beta) <= 1.0


@given(SLENDER, SLENDER, BETA)
def test_more_slender_never_carries_more(one: float, other: float, beta: float) -> None:
    slim, stout = max(one, other), min(one, other)
    k_c = column.instability_factor(np.array([stout, slim]), beta)
    assert k_c[1] <= k_c[0] + 1e-15


@given(st.floats(0.31, 6.0))
def test_never_above_euler_and_solid_never_above_glued(rel: float) -> None:
    solid = column.instability_factor(rel, column.BETA_C_SOLID)
    glued = column.instability_factor(rel, column.BETA_C_GLUED)
    assert solid <= glued <= 1.0 / rel**2 + 1e-12


def test_curve_has_no_step_where_it_begins() -> None:
    k_c = column.instability_factor(np.array([0.3, 0.3 + 1e-9]), 0.2)
    assert k_c[1] == pytest.approx(float(k_c[0]), abs=1e-8)


def test_two_layers_lying_are_twice_as_slender_as_glued() -> None:
    E, b, t, L = 4000.0, 300.0, 16.0, 1500.0
    EA = 2 * E * b * t
    lying = column.slenderness(L, 2 * E * b * t**3 / 12, EA)
    glued = column.slenderness(L, E * b * (2 * t) ** 3 / 12, EA)
    between = column.slenderness(L, 0.5 * (2 + 8) * E * b * t**3 / 12, EA)
    assert lying == pytest.approx(2 * float(glued), rel=1e-12)
    assert glued < between < lying


COMBINED = {
    "f_c_0_d": 12.0,
    "f_m_y_d": 14.0,
    "f_m_z_d": 14.0,
    "beta_c": 0.2,
}


def test_combined_stress_by_hand_stocky_and_slender() -> None:
    # Stocky: (3/12)^2 + 7/14 + 0.7 x 2.8/14 = 0.0625 + 0.5 + 0.14 = 0.7025;
    #         (3/12)^2 + 0.7 x 7/14 + 2.8/14 = 0.0625 + 0.35 + 0.2 = 0.6125.
    stocky = column.compression_bending_ratios(
        3.0, 7.0, 2.8, lambda_rel_y=0.2, lambda_rel_z=0.3, **COMBINED
    )
    assert stocky == pytest.approx([0.7025, 0.6125], rel=1e-12)
    # Slender about z only, lambda_rel 1: k = 0.5 (1 + 0.14 + 1) = 1.07,
    # k_c,z = 1 / (1.07 + sqrt(0.1449)) = 1 / 1.4507 = 0.6893; 0.25 / 0.6893 = 0.3627:
    # (6.23) 0.25 + 0.5 + 0.14 = 0.89; (6.24) 0.3627 + 0.35 + 0.2 = 0.9127.
    slender = column.compression_bending_ratios(
        3.0, 7.0, 2.8, lambda_rel_y=0.2, lambda_rel_z=1.0, **COMBINED
    )
    assert slender == pytest.approx([0.89, 0.9127], abs=5e-5)


def test_combined_stress_takes_arrays_and_ignores_the_sense_of_bending() -> None:
    ratios = column.compression_bending_ratios(
        np.linspace(0, 5, 7), -7.0, 2.8, lambda_rel_y=0.8, lambda_rel_z=1.6, **COMBINED
    )
    assert ratios.shape == (2, 7)
    assert np.all(np.diff(ratios, axis=1) > 0)
    assert ratios[0, 0] == pytest.approx(0.5 + 0.7 * 0.2)


def test_unbalanced_moment_by_hand_one_side_empty() -> None:
    # Divider 18 mm, loads 400 N right and 150 N left at 9 + 4 = 13 mm from its axis:
    # 400 x 13 - 150 x 13 = 3250 N mm; at 1100 of 1800 up: pins push 3250/1800 = 1.806 N,
    # moment just below the couple 1.806 x 1100 = 1986, just above 1.806 x 700 = 1264.
    M = column.unbalanced_moment(150, 400, 13, 13)
    assert pytest.approx(3250.0) == M
    assert column.couple_moment(M, 1100, 1800) == pytest.approx(1986, abs=0.5)
    assert column.couple_moment(-M, 700, 1800) == pytest.approx(1986, abs=0.5)


@given(st.floats(0, 1e4), st.floats(0, 1), st.floats(100, 3000))
def test_couple_moment_lies_between_half_and_all_of_the_couple(
    M: float, s: float, L: float
) -> None:
    peak = column.couple_moment(M, s * L, L)
    assert M / 2 - 1e-9 * M <= peak <= M * (1 + 1e-9)


def test_radius_of_gyration_of_a_rectangle() -> None:
    assert column.slenderness(sqrt(12.0), 1.0 / 12.0, 1.0) == pytest.approx(12.0)
