"""A plate solved for unit loads, looked at in points, edges and corners."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shelfload.solve import plate

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """What the load cases do at the points looked at; every array ends with the cases.

    Attributes
    ----------
    w : ndarray, shape (points, cases)
        Sag [mm].
    M_x, M_y, M_xy : ndarray, shape (points, cases)
        Moments per length along and across the shelf, and twist [N].
    Q : ndarray, shape (points, 2, cases)
        Shear per length along and across, a thickness away from supports [N/mm].
    rear : ndarray, shape (places, cases)
        Line load on the back [N/mm].
    total, ends, back : ndarray, shape (cases,)
        Load, what both ends take, and what the back takes [N].
    corners : ndarray, shape (corners, cases)
        Reaction of pins, or of the outermost part of the ends [N].
    supports : ndarray, shape (supports, cases)
        Reaction of the left end, of lines between the ends, and of the right end [N].
    quarters : ndarray, shape (supports, 2, cases)
        The part of it in the front and in the rear quarter, of a shelf cut on a curve [N].
    """

    w: Array
    M_x: Array
    M_y: Array
    M_xy: Array
    Q: Array
    rear: Array
    total: Array
    ends: Array
    back: Array
    corners: Array
    supports: Array
    quarters: Array


@lru_cache(maxsize=32)
def unit_response(
    geometry: plate.PlateGeometry,
    stiff: plate.Stiffness,
    edges: plate.Edges,
    units: tuple[plate.Load, ...],
    pins: tuple[plate.PointSupport, ...],
    lines: tuple[plate.LineSupport, ...],
    points: tuple[bytes, bytes],
    thickness: float,
    rear_name: str,
) -> Response:
    """Solve a plate for unit loads; equal shelves are solved once."""
    u, v = (np.frombuffer(raw) for raw in points)
    found = plate.solve_plate(
        geometry,
        stiff,
        edges,
        [[load] for load in units],
        points=pins,
        lines=lines,
        settle="deflection",
    )
    moments = found.moments(u, v)
    inset = _inset(geometry, u, v, thickness)
    rear_edge = edges.far if rear_name == "far" else edges.near
    x = np.unique(u)
    if rear_edge.kind == "elastic":
        rear = found.reaction_along(rear_name, x)
        back = found.reaction(rear_name)
    else:
        rear, back = np.zeros((len(x), len(units))), np.zeros(len(units))
    held = edges.left.kind != "free"
    ends = found.reaction("left") + found.reaction("right") if held else np.zeros(len(units))
    names = ["left", *(f"line {number}" for number in range(len(lines))), "right"] if held else []
    curved = names if geometry.curved else []
    corners = (
        found.point_reactions
        if pins
        else np.concatenate([_end_quarters(found, geometry, name) for name in ("left", "right")])
    )
    return Response(
        w=found.deflection(u, v),
        M_x=moments[:, 0],
        M_y=moments[:, 1],
        M_xy=moments[:, 2],
        Q=found.shears(*inset),
        rear=rear,
        total=found.loads,
        ends=ends,
        back=back,
        corners=corners,
        supports=np.array([found.reaction(name) for name in names]).reshape(-1, len(units)),
        quarters=np.array([_end_quarters(found, geometry, name) for name in curved]).reshape(
            -1, 2, len(units)
        ),
    )


def _inset(
    geometry: plate.PlateGeometry, u: Array, v: Array, thickness: float
) -> tuple[Array, Array]:
    """Points moved a thickness away from the edges.

    Loads nearer to a support than the depth of the member go straight into it, EN
    1995-1-1:2004, 6.1.7(3); right at an edge a plate's shear is no figure either.
    """
    length, depth = geometry.size
    share = (geometry.along[1] - geometry.along[0]) / length * min(thickness, length / 8.0)
    step = min(thickness, depth / 8.0)
    return (
        np.clip(u, geometry.along[0] + share, geometry.along[1] - share),
        np.clip(v, geometry.across[0] + step, geometry.across[1] - step),
    )


def _end_quarters(found: plate.PlateResult, geometry: plate.PlateGeometry, name: str) -> Array:
    """Reaction of the front and the rear quarter of an end [N]."""
    first, last = geometry.across
    quarter = (last - first) / 4.0
    parts = []
    for start in (first, last - quarter):
        at = start + quarter * (np.arange(16) + 0.5) / 16.0
        parts.append(found.reaction_along(name, at).mean(axis=0) * quarter)
    return np.array(parts)
