"""The search for the largest figure that passes: right to its tolerance, with few questions."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.advise.search import largest_below


@given(
    root=st.floats(0.02, 90.0),
    grows=st.floats(0.3, 5.0),
    said=st.floats(0.5, 4.0),
    dead=st.floats(0.0, 0.9),
)
def test_what_is_found_passes_and_a_little_more_does_not(root, grows, said, dead):
    asked = []

    def demand(x):
        asked.append(x)
        return dead + (1.0 - dead) * (x / root) ** grows

    found = largest_below(demand, 0.01, 100.0, start=1.0, power=said, within=1e-3)
    assert demand(found) <= 1.0
    assert demand(found * 1.00101) > 1.0
    assert len(asked) < 40


def test_a_jump_and_what_can_not_be_said_are_halved_in_on():
    found = largest_below(lambda x: 0.2 if x <= 7.0 else inf, 0.01, 100.0, start=1.0)
    assert found == pytest.approx(7.0, rel=2e-5)


def test_ends_are_told():
    assert largest_below(lambda _: 0.0, 0.01, 100.0, start=1.0) == 100.0
    assert largest_below(lambda _: inf, 0.01, 100.0, start=1.0) is None
    assert largest_below(lambda x: 1.1 + x, 0.01, 100.0, start=1.0) is None


def test_few_questions_are_enough_for_a_cubic():
    asked = []

    def demand(x):
        asked.append(x)
        return 0.1 + 3.0 * x**3

    largest_below(demand, 0.1, 10.0, start=1.0, power=3.0, within=2e-3)
    assert len(asked) <= 7
