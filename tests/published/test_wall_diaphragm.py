"""Wall diaphragms by EN 1995-1-1:2004, 9.2.4.2: the formula by hand, and the elastic group."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve.wall_diaphragm import hardest_fastener, narrow_share, racking_resistance


@pytest.mark.parametrize(
    ("width", "expected"),
    [
        # F_f,Rd b c / s with b_0 = h / 2 = 1200 mm (equations 9.21 and 9.22)
        (1200.0, 400.0 * 1200.0 / 150.0),
        (2400.0, 400.0 * 2400.0 / 150.0),
        (600.0, 400.0 * 600.0 * 0.5 / 150.0),
    ],
)
def test_equation_9_21_by_hand(width, expected):
    assert racking_resistance(400.0, width, 2400.0, 150.0) == pytest.approx(expected)


def test_narrow_panels_count_in_proportion():
    assert narrow_share([300.0, 600.0, 1200.0, 5000.0], 2400.0) == pytest.approx(
        [0.25, 0.5, 1.0, 1.0]
    )


def test_corner_of_a_square_with_close_fasteners_by_hand():
    """sum y^2 = (h^3 / 6 + b h^2 / 2) / s: both parts 3 / 4 of the even share at a corner."""
    assert hardest_fastener(1000.0, 1000.0, 1.0) == pytest.approx(0.75 * 2**0.5, rel=5e-3)


def test_corner_of_a_panel_twice_as_high_as_wide_by_hand():
    # b = 1, h = 2: F_x = 2 x 1 / (8/6 + 2) = 0.6, F_y = 2 x 0.5 / (1/6 + 1) = 6/7
    assert hardest_fastener(1000.0, 2000.0, 1.0) == pytest.approx(np.hypot(0.6, 6 / 7), rel=5e-3)


def test_four_fasteners_at_the_corners_by_hand():
    # each corner: F_x = h (h/2) / (4 h^2 / 4) = 1/2 of H, F_y = h (b/2) / (4 b^2 / 4) = h / 2 b
    b, h = 900.0, 400.0
    assert hardest_fastener(b, h, 900.0) * 900.0 / b == pytest.approx(
        np.hypot(0.5, h / (2 * b)) * 1.0, rel=1e-9
    )


@given(width=st.floats(200, 2000), height=st.floats(200, 2000), spacing=st.floats(30, 200))
def test_hardest_fastener_is_near_the_even_share_and_the_group_balances(width, height, spacing):
    # fastened closer than described where the spacing does not go into a side, and corners
    # serve two edges: few fasteners take less than the even share
    assert 0.4 < hardest_fastener(width, height, spacing) < 1.5


def test_bad_sizes_are_refused():
    with pytest.raises(ValueError, match="positive"):
        hardest_fastener(0.0, 100.0, 50.0)
