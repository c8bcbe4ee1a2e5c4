"""Fixings on a wall and groups in a plane: free bodies by hand, equilibrium always."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from shelfload.solve import fixing_group as group

HEIGHTS = arrays(np.float64, st.integers(1, 8), elements=st.floats(10, 900))
LOADS = st.floats(1, 1e4)


def test_hung_box_by_hand() -> None:
    # W = 600 N at 160 mm, a hand with 250 N on the front edge at 320 mm; 2 fixings at 650,
    # 2 at 50 above the lower edge. M = 96 000 + 80 000 = 176 000 N mm.
    # sum z^2 = 2 x 422 500 + 2 x 2500 = 850 000; T = 176 000 x 650/850 000 = 134.6 N above,
    # 10.35 N below. Check about the edge: 2 x 134.6 x 650 + 2 x 10.35 x 50 = 176 000.
    # Edge pushes back with 2 x 134.6 + 2 x 10.35 = 289.9 N; shear 850/4 = 212.5 N each.
    M = group.wall_moment(600, 160, 250, 320)
    T = group.tension_by_rotation(M, [650, 650, 50, 50])
    assert pytest.approx(176_000) == M
    assert pytest.approx([134.6, 134.6, 10.35, 10.35], rel=5e-4) == T
    assert group.edge_compression(T) == pytest.approx(289.9, abs=0.05)
    assert group.shear_per_fixing(850, 4) == pytest.approx(212.5)
    assert group.shear_per_fixing(850, 4, 1.5) == pytest.approx(318.75)


def test_straight_pull_is_moment_and_less_push_at_the_edge() -> None:
    # 100 N straight out at 600: M = 60 000; one fixing at 500: T = 120 N, edge pushes 20 N back.
    M = group.wall_moment(0, 0, H=100, z_H=600)
    T = group.tension_by_rotation(M, [500])
    assert group.edge_compression(T, 100) == pytest.approx(20)
    # The same pull below the fixing would need an edge that pulls: the picture is wrong there.
    low = group.tension_by_rotation(group.wall_moment(0, 0, H=100, z_H=400), [500])
    assert group.edge_compression(low, 100) < 0


@given(LOADS, HEIGHTS)
def test_tensions_balance_the_moment(M: float, z: np.ndarray) -> None:
    T = group.tension_by_rotation(M, z)
    assert np.sum(T * z) == pytest.approx(M, rel=1e-9)
    assert np.all(T >= 0)


@given(LOADS, HEIGHTS, st.floats(10, 900))
def test_a_further_fixing_never_raises_a_tension(M: float, z: np.ndarray, extra: float) -> None:
    before = group.tension_by_rotation(M, z)
    after = group.tension_by_rotation(M, np.append(z, extra))[:-1]
    assert np.all(after <= before)


@given(LOADS, HEIGHTS)
def test_losing_one_never_helps(M: float, z: np.ndarray) -> None:
    lost = group.tension_with_one_lost(M, z)
    assert lost >= group.tension_by_rotation(M, z).max() * (1 - 1e-12)


def test_losing_the_only_one_or_the_only_high_one() -> None:
    # Heights 600 and 50: without the upper one 176 000 / 50 = 3520 N hang on the lower.
    assert group.tension_with_one_lost(176_000, [600, 50]) == pytest.approx(3520)
    assert group.tension_with_one_lost([1.0, 0.0], [600]) == pytest.approx([np.inf, 0.0])


@pytest.mark.parametrize("z", [[-5, 600], [0, 0]])
def test_fixings_without_lever_are_refused(z: list[float]) -> None:
    with pytest.raises(ValueError, match="above the bearing edge"):
        group.tension_by_rotation(1000, z)


@pytest.mark.parametrize(("n", "uneven"), [(0, 1.0), (4, 0.9)])
def test_shear_without_fixings_or_with_a_flattering_share_is_refused(n: int, uneven: float) -> None:
    with pytest.raises(ValueError, match="at least one fixing"):
        group.shear_per_fixing(100, n, uneven)


@given(LOADS, st.integers(1, 40))
def test_shears_sum_to_the_load(V: float, n: int) -> None:
    assert n * group.shear_per_fixing(V, n) == pytest.approx(V, rel=1e-12)


def test_interaction_linear_and_quadratic_by_hand() -> None:
    # 300/500 = 0.6 and 400/1000 = 0.4: linear 1.0, quadratic 0.36 + 0.16 = 0.52.
    assert group.interaction(300, 500, 400, 1000, 1) == pytest.approx(1.0)
    assert group.interaction(300, 500, 400, 1000, 2) == pytest.approx(0.52)


def test_interaction_without_resistance_or_with_push() -> None:
    assert group.interaction(300, 0, 0, 1000, 2) == np.inf
    assert group.interaction([0, -50], 0, [100, 100], 1000, 1) == pytest.approx([0.1, 0.1])
    with pytest.raises(ValueError, match="power 3"):
        group.interaction(1, 1, 1, 1, 3)


def test_eccentric_group_by_hand() -> None:
    # Four at (+-60, +-40): sum r^2 = 4 (3600 + 1600) = 20 800. V = 1000 N down (z) at 150 right:
    # about the centroid M = 150 000 (x towards z). At (60, 40): f_x = -7.212 x 40 = -288.5,
    # f_z = 250 + 7.212 x 60 = 682.7; at (-60, 40): f_z = 250 - 432.7 = -182.7.
    x, z = [60, 60, -60, -60], [40, -40, 40, -40]
    f_x, f_z = group.eccentric_group(x, z, 0, 1000, 150_000)
    assert f_x == pytest.approx([-288.5, 288.5, -288.5, 288.5], abs=0.05)
    assert f_z == pytest.approx([682.7, 682.7, -182.7, -182.7], abs=0.05)


@given(
    arrays(np.float64, (2, 5), elements=st.floats(-500, 500)),
    st.floats(-1e3, 1e3),
    st.floats(-1e3, 1e3),
    st.floats(-1e5, 1e5),
)
def test_eccentric_group_gives_back_load_and_moment(
    places: np.ndarray, F_x: float, F_z: float, M: float
) -> None:
    x, z = places
    x = x + 200.0 * np.arange(5)
    f_x, f_z = group.eccentric_group(x, z, F_x, F_z, M)
    turned = np.sum((x - x.mean()) * f_z - (z - z.mean()) * f_x)
    assert f_x.sum() == pytest.approx(F_x, abs=1e-6)
    assert f_z.sum() == pytest.approx(F_z, abs=1e-6)
    assert turned == pytest.approx(M, abs=1e-6 * max(1.0, abs(M), 500 * abs(F_z), 500 * abs(F_x)))


def test_group_in_one_point_takes_force_but_no_moment() -> None:
    f_x, f_z = group.eccentric_group([5, 5], [7, 7], 100, -40, 0)
    assert f_x == pytest.approx([50, 50])
    assert f_z == pytest.approx([-20, -20])
    with pytest.raises(ValueError, match="one point"):
        group.eccentric_group([5, 5], [7, 7], 0, 0, 1)


def test_rotation_about_the_edge_against_the_elastic_group() -> None:
    # Two rows only: about the centroid the group takes the moment as a couple M / (z2 - z1);
    # about the edge the lever is longer and the upper row gets less, the rest is the edge's push.
    z, M = np.array([100.0, 700.0]), 120_000.0
    f_x, _ = group.eccentric_group([0, 0], z, 0, 0, -M)
    assert group.tension_by_rotation(M, z)[1] == pytest.approx(M * 700 / (100**2 + 700**2))
    assert f_x[1] == pytest.approx(M / 600)
    assert group.tension_by_rotation(M, z)[1] < f_x[1]
