"""Sections of which parts slide on fasteners: limits, Annex B for two and three parts, balance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import composite
from shelfload.solve.section import bonded, lying
from shelfload.solve.sliding import sliding

# a panel, a lower panel of another board, a rib, and a lipping on the front edge
PARTS = {
    "E": np.array([9000.0, 2000.0, 11000.0, 12000.0]),
    "G": np.array([200.0, 100.0, 690.0, 700.0]),
    "b": np.array([300.0, 300.0, 20.0, 18.0]),
    "h": np.array([18.0, 12.0, 40.0, 45.0]),
    "y": np.array([168.0, 168.0, 200.0, 9.0]),
    "z": np.array([9.0, 24.0, 50.0, 22.5]),
}
GA = 1e6
shares = st.lists(st.floats(0.0, 1.0), min_size=3, max_size=3)


def test_all_glued_is_the_bonded_section():
    glued, slid = bonded(**PARTS), sliding(**PARTS, gamma=np.ones(4), GA=GA)
    for name in ("EA", "EI", "EI_free", "z_na", "y_na", "stress_top", "stress_bottom"):
        assert getattr(slid, name) == pytest.approx(getattr(glued, name), rel=1e-12)
    assert slid.stress_free == pytest.approx(glued.stress_free, rel=1e-12)
    assert slid.flow == pytest.approx(glued.flow, rel=1e-12)


def test_nothing_fixed_is_the_sum_of_the_parts():
    columns = {key: PARTS[key] for key in ("E", "G", "b", "h")}
    loose, slid = lying(**columns), sliding(**PARTS, gamma=np.array([1.0, 0, 0, 0]), GA=GA)
    assert slid.EI == pytest.approx(loose.EI, rel=1e-12)
    assert slid.stress_bottom == pytest.approx(loose.stress_bottom, rel=1e-12)
    # each takes its share of the shear force by E I, and 1.5 V / A of it as its peak
    A = columns["b"] * columns["h"]
    stiff = columns["E"] * A * columns["h"] ** 2
    assert slid.shear_peak == pytest.approx(1.5 * stiff / stiff.sum() / A, rel=1e-12)
    assert slid.flow == pytest.approx(np.zeros(4), abs=1e-15)


@pytest.mark.parametrize("s", [25.0, 150.0, 400.0])
def test_two_parts_are_those_of_annex_b(s):
    two = {key: value[:2] for key, value in PARTS.items()}
    gamma = float(composite.gamma_slip(2000.0, 3600.0, s, 1500.0, 900.0))
    A, I = two["b"] * two["h"], two["b"] * two["h"] ** 3 / 12  # noqa: E741
    slid = sliding(**two, gamma=np.array([1.0, gamma]), GA=GA)
    annex = composite.two_part_stiffness(
        9000.0, A[0], I[0], 2000.0, A[1], I[1], 15.0, s, 1500.0, 900.0
    )
    assert slid.EI == pytest.approx(annex, rel=1e-12)


def test_three_parts_are_those_of_annex_b():
    # parts 1 and 3 above and below the reference, as in EN 1995-1-1, figure B.1
    E, b = np.array([8000.0, 11000.0, 6000.0]), np.array([300.0, 60.0, 200.0])
    h = np.array([15.0, 80.0, 20.0])
    z = np.array([7.5, 55.0, 105.0])
    gamma = np.array([0.3, 1.0, 0.6])
    A, I = b * h, b * h**3 / 12  # noqa: E741
    a_1, a_2, a_3 = composite.axis_offset(
        0.3, E[0], A[0], h[0], E[1], A[1], h[1], 0.6, E[2], A[2], h[2]
    )
    annex = composite.effective_stiffness(gamma, E, I, A, [a_1, a_2, a_3])
    slid = sliding(E=E, G=E / 16, b=b, h=h, y=np.zeros(3), z=z, gamma=gamma, GA=GA)
    assert slid.EI == pytest.approx(annex, rel=1e-12)


@given(shares)
def test_stresses_balance_and_give_the_moment_back(gammas):
    gamma = np.array([1.0, *gammas])
    slid = sliding(**PARTS, gamma=gamma, GA=GA)
    A = PARTS["b"] * PARTS["h"]
    mean = (slid.stress_top + slid.stress_bottom) / 2
    assert (mean * A).sum() == pytest.approx(0.0, abs=1e-12 * (slid.stress_bottom * A).max())
    swing = (slid.stress_bottom - slid.stress_top) / 2 * A * PARTS["h"] / 6
    assert (mean * A * PARTS["z"] + swing).sum() == pytest.approx(1.0, rel=1e-9)


@given(shares, st.integers(0, 2))
def test_better_fasteners_never_soften(gammas, which):
    better = list(gammas)
    better[which] = (1.0 + better[which]) / 2
    one, two = (sliding(**PARTS, gamma=np.array([1.0, *g]), GA=GA) for g in (gammas, better))
    assert two.EI >= one.EI * (1 - 1e-12)


@pytest.mark.parametrize("gamma", [[0.5, 0.5, 0.5, 0.5], [1.0, 1.1, 0, 0], [1.0, -0.1, 0, 0]])
def test_a_gamma_out_of_range_is_refused(gamma):
    gamma = np.array(gamma)
    with pytest.raises(ValueError, match="gamma"):
        sliding(**PARTS, gamma=gamma, GA=GA)
