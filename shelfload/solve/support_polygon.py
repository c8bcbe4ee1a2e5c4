"""The outline that a body stands on, and its edges, about which it can go over."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
SHORTEST = 1.0  # edges shorter than this are left to their neighbours [mm]


def convex_hull(points: ArrayLike) -> Array:
    """Corners of the smallest convex outline round some points, counter-clockwise.

    Parameters
    ----------
    points : array_like, shape (n, 2)
        Places in plan [mm]

    Returns
    -------
    corners : ndarray, shape (m, 2)
        From the leftmost, lowest point on; points on a straight edge left out [mm]

    Raises
    ------
    ValueError
        If the points lie on one line.

    Notes
    -----
    Source: Andrew's monotone chain, textbook of computational geometry.
    """
    order = sorted(map(tuple, np.asarray(points, dtype=np.float64).reshape(-1, 2).tolist()))

    def chain(row: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
        kept: list[tuple[float, ...]] = []
        for place in row:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], place) <= 0.0:
                kept.pop()
            kept.append(place)
        return kept[:-1]

    corners = chain(order) + chain(order[::-1])
    if len(corners) < 3:
        raise ValueError("the points lie on one line: nothing can stand on them")
    return np.array(corners)


def _turn(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def tipping_edges(points: ArrayLike) -> tuple[Array, Array, Array]:
    """Edges of the outline that a body stands on.

    Parameters
    ----------
    points : array_like, shape (n, 2)
        Where it touches the floor [mm]

    Returns
    -------
    normals : ndarray, shape (m, 2)
        Direction out of each edge [-]
    edges : ndarray, shape (m,)
        Where the edge is in that direction: the largest of ``points @ normal`` [mm]
    depths : ndarray, shape (m,)
        From the point farthest behind the edge up to it [mm]

    Raises
    ------
    ValueError
        If the points lie on one line, or as good as in one place.

    Notes
    -----
    Source: statics: a body on a floor that only pushes goes over about an edge of the convex
    outline of its feet.
    """
    corners = convex_hull(points)
    normals, edges, depths = [], [], []
    for a, b in pairwise([*corners, corners[0]]):
        run = b - a
        length = float(np.hypot(*run))
        if length < SHORTEST:
            continue
        normal = np.array([run[1], -run[0]]) / length
        along = corners @ normal
        normals.append(normal)
        edges.append(float(along.max()))
        depths.append(float(along.max() - along.min()))
    if not normals:
        raise ValueError(f"no edge is {SHORTEST:g} long: nothing can stand on a point")
    return np.array(normals), np.array(edges), np.array(depths)
