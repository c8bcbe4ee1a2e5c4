"""Where rising functions reach 1."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.solve.rising import reaches_one


def test_powers_are_found_whatever_the_guess_at_the_power():
    size = np.array([0.5, 3.0, 700.0, 12.0])
    power = np.array([1.0, 2.0, 3.0, 4.0])
    found = reaches_one(
        lambda x, rows: (x / size[rows]) ** power[rows],
        start=np.full(4, 10.0), low=1e-3, high=1e4, power=2.0,
    )  # fmt: skip
    assert found == pytest.approx(size, rel=1e-9)


def test_roots_outside_the_search_are_0_and_inf():
    size = np.array([0.5, 50.0, 5000.0])
    found = reaches_one(
        lambda x, rows: (x / size[rows]) ** 3,
        start=np.full(3, 40.0),
        low=1.0,
        high=100.0,
        power=3.0,
    )
    assert found == pytest.approx([0.0, 50.0, np.inf])


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.0, 0.95), st.floats(1e-3, 1e3), st.floats(0.2, 6.0)),
        min_size=1, max_size=20,
    )
)  # fmt: skip
def test_a_standing_share_and_a_kink_do_not_mislead(figures):
    base, size, power = np.array(figures).T

    def demand(x, rows):
        # a load that is there anyway, and a second mechanism that takes over with a kink
        return base[rows] + (1.0 - base[rows]) * np.maximum(
            (x / size[rows]) ** power[rows], 0.3 * x / size[rows]
        )

    found = reaches_one(demand, start=np.ones(size.size), low=1e-5, high=1e5, power=1.0)
    assert found == pytest.approx(size, rel=1e-6)
