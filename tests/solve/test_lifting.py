"""Lifting: limits of the multipliers, teams, tilting up."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import lifting


def test_best_lift_loses_nothing() -> None:
    one = lifting.recommended_weight_limit(
        lifting.horizontal_multiplier(200),
        lifting.vertical_multiplier(750),
        lifting.distance_multiplier(100),
        lifting.asymmetry_multiplier(0.0),
        1.0,
        1.0,
    )
    assert one == pytest.approx(23.0)


def test_out_of_reach_is_nothing_at_all() -> None:
    assert lifting.horizontal_multiplier([630, 631]) == pytest.approx([250 / 630, 0])
    assert lifting.vertical_multiplier([0, 1750, 1751, -1]) == pytest.approx([0.775, 0.7, 0, 0])
    assert lifting.distance_multiplier([250, 1750, 1751]) == pytest.approx([1, 0.82 + 4.5 / 175, 0])
    assert lifting.asymmetry_multiplier(np.radians([45, 135, 136])) == pytest.approx(
        [0.856, 0.568, 0]
    )


@given(st.floats(0, 2000), st.floats(0, 2000))
def test_further_or_lower_never_helps(one: float, other: float) -> None:
    near, far = sorted([one, other])
    for multiplier in (lifting.horizontal_multiplier, lifting.distance_multiplier):
        assert multiplier(far) <= multiplier(near)
    assert lifting.asymmetry_multiplier(far / 500) <= lifting.asymmetry_multiplier(near / 500)
    assert lifting.vertical_multiplier(750 + far) <= lifting.vertical_multiplier(750 + near)
    assert 0 <= lifting.vertical_multiplier(far) <= 1


def test_team_by_hand() -> None:
    # One may lift 18 kg; in a team of two each counts 2/3 of that, of three 1/2:
    # 18, 24, 27 kg.
    people = lifting.people_needed([18, 18.1, 24.5, 27.1], 18, [1, 2 / 3, 1 / 2])
    assert people.tolist() == [1, 2, 3, 0]


@given(st.floats(1, 100), st.floats(1, 100), st.floats(1, 30))
def test_heavier_never_needs_fewer(one: float, other: float, single: float) -> None:
    light, heavy = sorted([one, other])
    a, b = lifting.people_needed([light, heavy], single, [1, 2 / 3, 1 / 2])
    assert b == 0 or 0 < a <= b


def test_tilting_up_by_hand() -> None:
    # 60 kg, 2000 long, centre of gravity in the middle: half of 588.4 N.
    assert lifting.tilting_up_force(60 * 9.80665, 1000, 2000) == pytest.approx(294.2, abs=0.05)
