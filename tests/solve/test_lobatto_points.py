"""Points of the plate elements."""

from __future__ import annotations

import numpy as np
import pytest
from printed import printed

from shelfload.solve.plate_mesh import lobatto

# Abramowitz & Stegun, Handbook of Mathematical Functions, Table 25.6, from memory: the
# points above nought but the last, which is 1
TABLE_25_6 = {
    3: ("0.44721360",),
    4: ("0.65465367",),
    5: ("0.28523152", "0.76505532"),
    6: ("0.46884879", "0.83022390"),
}


@pytest.mark.parametrize("order", TABLE_25_6)
def test_points_of_the_handbook(order: int) -> None:
    points, _ = lobatto(order)
    found = points[(points > 1e-9) & (points < 1.0)]
    assert list(found) == [printed(text) for text in TABLE_25_6[order]]


@pytest.mark.parametrize("order", range(1, 13))
def test_points_are_real_and_lie_the_same_both_ways(order: int) -> None:
    # some numpy releases find real roots of a Legendre series as complex numbers
    points, coefficients = lobatto(order)
    assert points.dtype == coefficients.dtype == np.float64
    assert points == pytest.approx(-points[::-1], abs=1e-13)
    assert np.all(np.diff(points) > 0)
