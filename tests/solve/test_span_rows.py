"""Rows of spans against the general beam solver, tables and equilibrium."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.solve import beam
from shelfload.solve.span_rows import span_rows

NO_SHEAR = 1e30


def general(L, start, end, EI, GA, g, q):
    """The same row by the general solver, worst pattern of full and empty spans."""
    n = len(L)
    at = np.concatenate([[0.0], np.cumsum(L)])
    patches = [(0, 0.0, at[-1], 1.0, 1.0)]
    patches += [(i + 1, at[i] + start[i], at[i] + end[i], 1.0, 1.0) for i in range(n)]
    solved = beam.solve(
        beam.Beam(length=at[-1], support_at=at, EI=np.array(EI), GA=np.array(GA)),
        beam.Loads.of(cases=n + 1, patches=patches),
    )
    return beam.envelope(solved, [g] + [0.0] * n, [0.0] + [q] * n)


@settings(max_examples=150, deadline=None)
@given(
    n=st.integers(1, 3),
    clear=st.floats(150.0, 3000.0),
    stretch=st.lists(st.floats(0.9, 1.1), min_size=3, max_size=3),
    bearing=st.floats(2.0, 40.0),
    support=st.floats(2.0, 40.0),
    shear=st.one_of(st.just(0.0), st.floats(1e-4, 0.15)),
    share=st.floats(0.01, 0.99),
)
def test_every_peak_is_that_of_the_general_solver(
    n, clear, stretch, bearing, support, shear, share
):
    # lopsided on purpose: spans that differ by up to a fifth, ends unlike inner supports
    widths = np.array([bearing, *[support] * (n - 1), bearing / 2.0])
    gaps = clear * np.array(stretch[:n])
    L = gaps + (widths[:-1] + widths[1:]) / 2.0
    start = widths[:-1] / 2.0
    EI = 1e9
    GA = EI / (shear * clear**2) if shear else NO_SHEAR
    g, q = share, 1.0 - share
    rows = span_rows(L, start, start + gaps, EI, GA)
    found = general(L, start, start + gaps, EI, GA, g, q)
    sag = np.maximum(found.extremes.w_max, -found.extremes.w_min)
    assert rows.largest_sag(g, q).max() == pytest.approx(sag.max(), rel=1e-9)
    moment = found.extremes.M_abs_max
    assert rows.largest_moment(g, q).max() == pytest.approx(moment.max(), rel=1e-9)
    assert rows.largest_shear(g, q) == pytest.approx(found.extremes.V_abs_max, rel=1e-9)
    assert rows.largest_reaction(g, q) == pytest.approx(
        np.maximum(found.reaction_max, 0.0), rel=1e-9, abs=1e-9 * L.sum()
    )


@pytest.mark.parametrize("n", [1, 2, 3])
def test_equal_spans_give_every_span_as_the_general_solver_does(n):
    gaps, EI, GA = np.full(n, 700.0), 8e8, 5e5
    widths = np.array([6.0, *[20.0] * (n - 1), 6.0])
    L, start = gaps + (widths[:-1] + widths[1:]) / 2.0, widths[:-1] / 2.0
    rows = span_rows(L, start, start + gaps, EI, GA)
    found = general(L, start, start + gaps, EI, GA, 0.05, 0.3)
    sag = np.maximum(found.extremes.w_max, -found.extremes.w_min)
    assert rows.largest_sag(0.05, 0.3) == pytest.approx(sag, rel=1e-9)
    assert rows.largest_moment(0.05, 0.3) == pytest.approx(found.extremes.M_abs_max, rel=1e-9)


def test_three_equal_spans_under_even_load_everywhere():
    # continuous beam of three equal spans, load everywhere: M over inner supports 0.1 w L^2,
    # end reaction 0.4 w L, inner 1.1 w L (standard beam table, from memory)
    w, L = 0.7, 900.0
    spans = np.full(3, L)
    rows = span_rows(spans, np.zeros(3), spans, 1e9, NO_SHEAR)
    assert np.abs(w * rows.M_support[0]) == pytest.approx([0, 0.1 * w * L**2, 0.1 * w * L**2, 0])
    assert w * rows.reactions[0] == pytest.approx(
        [0.4 * w * L, 1.1 * w * L, 1.1 * w * L, 0.4 * w * L]
    )


def test_one_span_with_shear_has_the_closed_form():
    w, L, EI, GA = 0.4, 800.0, 6e8, 3e5
    rows = span_rows([L], [0.0], [L], EI, GA)
    sag = 5 * w * L**4 / (384 * EI) + w * L**2 / (8 * GA)
    assert rows.largest_sag(0.0, w)[0] == pytest.approx(sag, rel=1e-9)
    assert rows.largest_moment(0.0, w)[0] == pytest.approx(w * L**2 / 8)


def test_reactions_carry_the_loads():
    rng = np.random.default_rng(3)
    L = rng.uniform(500.0, 700.0, (40, 3))
    rows = span_rows(L, 0.02 * L, 0.97 * L, 1e9, rng.uniform(1e4, 1e7, 40))
    assert rows.reactions[:, 0].sum(axis=-1) == pytest.approx(L.sum(axis=-1), rel=1e-9)
    assert rows.reactions[:, 1:].sum(axis=-1) == pytest.approx(0.95 * L, rel=1e-9)
