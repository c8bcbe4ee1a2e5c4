"""A sheet on edge as the hold of a shelf: springs in series, buckling, turning."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from printed import printed

from shelfload.solve.beam import Beam, Loads, solve
from shelfload.solve.edge_hold import (
    deep_sheet_compliance,
    end_slip_compliance,
    series_spring,
    shear_buckling_stress,
    upright_strip_turning,
)

lengths = st.floats(50.0, 3000.0)


@pytest.mark.parametrize(("b", "h", "t"), [(900.0, 400.0, 3.2), (600.0, 150.0, 6.5)])
def test_sheet_sags_as_a_beam_that_bends_and_shears(b, h, t):
    E, G = 3100.0, 1300.0
    beam = Beam(
        length=b,
        support_at=np.array([0.0, b]),
        EI=np.array(E * t * h**3 / 12),
        GA=np.array(G * t * h / 1.2),
        turn_stiffness=np.zeros(2),
    )
    result = solve(beam, Loads.of(cases=1, patches=[(0, 0.0, b, 1.0, 1.0)], points=[]))
    w = result.at(np.array([b / 2]))[0][0, 0]
    assert deep_sheet_compliance(E, G, t, h, b) == pytest.approx(w, rel=1e-9)


def test_slip_at_the_uprights_by_hand():
    # 1 N/mm on 900 mm: 450 N to each upright, on 400 / 100 = 4 nails of 500 N/mm each
    assert end_slip_compliance(K=500.0, s=100.0, h=400.0, b=900.0) == pytest.approx(450 / 4 / 500)


def test_springs_in_series_by_hand():
    assert series_spring(0.2, 0.3) == pytest.approx(2.0)
    assert series_spring(0.0, 0.0) == np.inf
    assert series_spring(np.array([0.1, 0.4]), 0.1) == pytest.approx([5.0, 2.0])


# S. Timoshenko, J. Gere, Theory of Elastic Stability, 2nd ed., table 9-10 (from memory):
# k of tau_cr = k pi^2 D / (b^2 h). The formula of EN 1993-1-5 is a fit: up to 1.5 % above
# the table at 1.2, 4 % below it at 2.
@pytest.mark.parametrize(
    ("ratio", "k"), [(1.0, 9.34), (1.2, 8.0), (1.4, 7.3), (1.6, 7.0), (2.0, 6.6), (3.0, 5.9)]
)
def test_buckling_factor_against_the_exact_table(ratio, k):
    b, t, E, nu = 400.0, 3.0, 3000.0, 0.3
    D = E * t**3 / (12 * (1 - nu**2))
    formula = shear_buckling_stress(E, nu, t, ratio * b, b) * b**2 * t / (np.pi**2 * D)
    assert 0.95 * k < formula < 1.016 * k
    if ratio == 1.0:
        assert formula == printed("9.34")


@given(a=lengths, b=lengths)
def test_buckling_does_not_care_which_side_is_called_which(a, b):
    one = shear_buckling_stress(3000.0, 0.0, 3.0, a, b)
    assert one == pytest.approx(shear_buckling_stress(3000.0, 0.0, 3.0, b, a), rel=1e-12)


def test_strip_glued_at_one_end_and_hinged_at_the_other():
    # moment at the hinged-clamped strip's clamped end for a turn of 1: 3 EI / h (textbook)
    assert upright_strip_turning(5000.0, 6.0, 400.0) == pytest.approx(3 * 5000 * 6**3 / 12 / 400)


@given(K=st.floats(10.0, 1e5), s=st.floats(20.0, 400.0), h=lengths, b=lengths)
def test_more_fasteners_hold_more(K, s, h, b):
    assert end_slip_compliance(K, s, h, b) < end_slip_compliance(K, 1.1 * s, h, b)
    assert deep_sheet_compliance(3000, 1000, 3, h, b) > deep_sheet_compliance(3000, 1000, 4, h, b)
