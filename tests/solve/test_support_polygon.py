"""The outline of feet: corners by hand, properties of the convex hull."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from shelfload.solve.support_polygon import convex_hull, tipping_edges

SQUARE = [(0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0)]
PLACES = st.lists(
    st.tuples(st.floats(-1000.0, 1000.0), st.floats(-1000.0, 1000.0)), min_size=4, max_size=30
)


def test_corners_of_a_rectangle_with_points_inside_and_on_its_edges():
    hull = convex_hull([*SQUARE, (200.0, 150.0), (200.0, 0.0)])
    assert {tuple(corner) for corner in hull} == set(SQUARE)


def test_edges_of_a_rectangle():
    normals, edges, depths = tipping_edges(SQUARE)
    found = {
        tuple(np.round(n).astype(int)): (e, d)
        for n, e, d in zip(normals, edges, depths, strict=True)
    }
    assert found == {
        (0, -1): (0.0, 300.0),
        (1, 0): (400.0, 400.0),
        (0, 1): (300.0, 300.0),
        (-1, 0): (0.0, 400.0),
    }


def test_triangle_stands_on_the_heights_over_its_sides():
    # sides 300, 400, 500: heights 400, 300 and 2 x area / 500 = 240
    _, _, depths = tipping_edges([(0.0, 0.0), (300.0, 0.0), (0.0, 400.0)])
    assert sorted(depths) == pytest.approx([240.0, 300.0, 400.0])


def test_nothing_stands_on_a_point():
    with pytest.raises(ValueError, match="point"):
        tipping_edges([(0.0, 0.0), (0.0, 0.5), (0.5, 0.0)])


@given(PLACES)
@example([(0.0, 0.0), (0.0, 0.0), (0.0, 0.5), (0.5, 0.0)])
def test_every_point_lies_inside_every_edge(points):
    try:
        normals, edges, depths = tipping_edges(points)
    except ValueError:
        return
    behind = edges[:, None] - normals @ np.array(points).T
    # an edge shorter than a millimetre is left out, and its points lie on its neighbours
    assert (behind > -1.0).all()
    assert behind.max(axis=1) == pytest.approx(depths, abs=1e-6)


def test_points_on_a_line_carry_nothing():
    with pytest.raises(ValueError, match="one line"):
        convex_hull([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])
