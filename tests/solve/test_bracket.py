"""Arms on a wall and rods let into it: free bodies by hand, pressure integrated again."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import bracket

LOAD, OUT, IN = st.floats(10, 2000), st.floats(0, 400), st.floats(20, 200)


def test_pull_on_the_upper_fixing_by_hand() -> None:
    # Depth 250, half of 40 kg on each of two arms: 196.1 N at 125; upper screw 180 above the
    # foot: 196.1 x 125 / 180 = 136.2 N. A hand with 250 N at the front adds 250 x 250/180 = 347.2.
    load = 20 * 9.80665
    assert bracket.upper_fixing_pull(load, 125, 180) == pytest.approx(136.2, abs=0.05)
    assert bracket.upper_fixing_pull(250, 250, 180) == pytest.approx(347.2, abs=0.05)


@given(LOAD, st.floats(1, 600), st.floats(10, 500), st.floats(1, 300))
def test_taller_arm_never_pulls_more(F: float, d: float, h: float, more: float) -> None:
    assert bracket.upper_fixing_pull(F, d, h + more) < bracket.upper_fixing_pull(F, d, h)


def test_arm_without_height_is_refused() -> None:
    with pytest.raises(ValueError, match="above the foot"):
        bracket.upper_fixing_pull(100, 100, 0)


def test_rod_by_hand() -> None:
    # Rod 12, 80 in the wall, 100 N at 120 from the face: 6 c / l = 9.
    # Mean 100 / (80 x 12) = 0.1042 MPa; face x 13 = 1.354, end x 11 = 1.146 MPa.
    # Zero shear at 80 / 12 = 6.667 behind the face: A = 16.25 N/mm, B = -100 x 24/6400 = -0.375,
    # M = 100 x 126.667 - 16.25 x 22.22 + 0.375 x 49.38 = 12 666.7 - 361.1 + 18.5 = 12 324.
    face, end = bracket.rod_wall_pressure(100, 120, 80, 12)
    assert face == pytest.approx(1.354, abs=5e-4)
    assert end == pytest.approx(1.146, abs=5e-4)
    M = bracket.rod_moment(100, 120, 80)
    assert M == pytest.approx(12_324, abs=0.5)
    # W = pi 12^3 / 32 = 169.6 mm3: 72.65 MPa.
    assert bracket.round_bar_stress(M, 12) == pytest.approx(72.65, abs=0.01)


@given(LOAD, OUT, IN, st.floats(4, 20))
def test_pressure_holds_the_rod_in_equilibrium(F: float, c: float, l_wall: float, d: float) -> None:
    face, end = bracket.rod_wall_pressure(F, c, l_wall, d)
    # Linear from +face to -end, times d: resultant F, moment about the face -F c. Exact by
    # Simpson's rule.
    x = np.array([0, l_wall / 2, l_wall])
    push = d * np.array([float(face), (float(face) - float(end)) / 2, -float(end)])
    weights = l_wall / 6 * np.array([1, 4, 1])
    assert (weights * push).sum() == pytest.approx(F, rel=1e-9)
    assert (weights * push * x).sum() == pytest.approx(-F * c, rel=1e-9, abs=1e-6 * F * l_wall)


@given(LOAD, OUT, IN)
def test_largest_rod_moment_is_the_largest_along_the_rod(F: float, c: float, l_wall: float) -> None:
    face, end = bracket.rod_wall_pressure(F, c, l_wall, 1.0)
    x = np.linspace(0, l_wall, 4001)
    slope = -(face + end) / l_wall
    along = F * (c + x) - face * x**2 / 2 - slope * x**3 / 6
    M = bracket.rod_moment(F, c, l_wall)
    assert along.max() <= M * (1 + 1e-9)
    assert along.max() == pytest.approx(float(M), rel=1e-5)
    assert abs(along[-1]) < 1e-6 * M


@given(LOAD, OUT, IN, st.floats(1, 200))
def test_deeper_hole_never_presses_more(F: float, c: float, l_wall: float, more: float) -> None:
    shallow = bracket.rod_wall_pressure(F, c, l_wall, 12)
    deep = bracket.rod_wall_pressure(F, c, l_wall + more, 12)
    assert deep[0] < shallow[0]
    assert deep[1] < shallow[1]


def test_rod_tip_sag_by_hand_and_in_the_limit() -> None:
    # Steel rod 12, EI = 210 000 x pi 12^4 / 64 = 2.138e8; 100 N over 240:
    # 100 x 240^3 / (8 x 2.138e8) = 0.8084 mm.
    EI = 210_000 * np.pi * 12**4 / 64
    assert bracket.rod_tip_sag(100, 240, EI) == pytest.approx(0.8084, abs=5e-4)
    # Held 10 mm behind the face: V = 100, couple 12 000 there; at the face w = (100 x 1000/3 +
    # 12 000 x 50)/EI = 0.002962, slope (5000 + 120 000)/EI = 5.847e-4; 0.8084 + 0.0030 + 0.1403.
    assert bracket.rod_tip_sag(100, 240, EI, 10) == pytest.approx(0.9517, abs=5e-4)


def test_free_length_inside_against_double_integration() -> None:
    D, x_fix, q = 200.0, 30.0, 0.5
    s = np.linspace(0, D + x_fix, 20_001)
    outside = np.minimum(D + x_fix - s, D)
    centre = np.where(s < x_fix, x_fix + D / 2 - s, outside / 2)
    moment = q * outside * centre
    step = s[1] - s[0]
    slope = np.concatenate([[0], np.cumsum((moment[1:] + moment[:-1]) / 2 * step)])
    tip = np.sum((slope[1:] + slope[:-1]) / 2 * step)
    assert bracket.rod_tip_sag(q * D, D, 1.0, x_fix) == pytest.approx(tip, rel=1e-6)


def test_play_droops_the_front_by_hand() -> None:
    # 0.5 mm of play over 80 in the wall, 240 outside: 1.5 mm.
    assert bracket.rod_play_sag(0.5, 80, 240) == pytest.approx(1.5)
