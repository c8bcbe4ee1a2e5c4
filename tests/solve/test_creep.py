"""Sag over time: the ends of the code, superposition, and turning over."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.solve.creep import crept, set_left, turned_over, turned_until

LAW = {"k_def": st.floats(0.3, 3.0), "m": st.floats(0.15, 0.5)}
FULL = 10.0


def test_creep_ends_at_the_codes_figure():
    # EN 1995-1-1:2004, Table 3.2: 0.8 for plywood in service class 1
    assert crept([0.0, 10.0, 50.0], 0.8, FULL, 0.25) == pytest.approx([0.0, 0.8, 0.8])
    for wrong in ((-1.0, FULL, 0.25), (1.0, 0.0, 0.25), (1.0, FULL, 0.0)):
        with pytest.raises(ValueError, match="t must"):
            crept(wrong[0], 0.8, wrong[1], wrong[2])


@settings(deadline=None)
@given(T=st.floats(0.01, 40.0), **LAW)
def test_turned_shelf_starts_lower_by_twice_its_set_and_ends_where_it_would_have(T, k_def, m):
    # the panel's own curve is continuous: loaded it sags 1 + c, turned it stands c up
    set_now = float(set_left(0.0, T, k_def, FULL, m))
    assert set_now == pytest.approx(float(crept(T, k_def, FULL, m)))
    assert float(turned_over(0.0, T, k_def, FULL, m)) == pytest.approx(1.0 - set_now)
    assert float(turned_over(1e6, T, k_def, FULL, m)) == pytest.approx(1.0 + k_def)


@settings(deadline=None)
@given(T=st.floats(0.01, 40.0), tau=st.floats(1e-3, 40.0), **LAW)
def test_sum_of_load_steps_written_out(T, tau, k_def, m):
    def panel(steps, now):
        return sum(
            size * (1.0 + float(crept(now - at, k_def, FULL, m))) for at, size in steps if now >= at
        )

    turned = -panel([(0.0, 1.0), (T, -2.0)], T + tau)
    assert float(turned_over(tau, T, k_def, FULL, m)) == pytest.approx(turned, abs=1e-9)
    empty = panel([(0.0, 1.0), (T, -1.0)], T + tau)
    assert float(set_left(tau, T, k_def, FULL, m)) == pytest.approx(empty, abs=1e-9)


@settings(deadline=None)
@given(T=st.floats(0.05, 40.0), share=st.floats(0.05, 0.95), **LAW)
def test_time_until_a_sag_is_when_it_sags_so(T, share, k_def, m):
    start = float(turned_over(0.0, T, k_def, FULL, m))
    sag = start + share * (1.0 + k_def - start)
    time = float(turned_until(sag, T, k_def, FULL, m))
    if np.isfinite(time):
        assert float(turned_over(time, T, k_def, FULL, m)) == pytest.approx(sag, rel=1e-6)
    assert float(turned_until(start - 0.1, T, k_def, FULL, m)) == pytest.approx(0.0, abs=1e-9)


@settings(deadline=None)
@given(T=st.floats(0.05, 40.0), **LAW)
def test_turned_shelf_only_sags_more_and_an_empty_one_only_recovers(T, k_def, m):
    times = np.linspace(0.0, 30.0, 200)
    assert (np.diff(turned_over(times, T, k_def, FULL, m)) >= -1e-12).all()
    assert (np.diff(set_left(times, T, k_def, FULL, m)) <= 1e-12).all()
