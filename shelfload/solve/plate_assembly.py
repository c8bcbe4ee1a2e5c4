"""Supports and loads of a plate as springs, fixed unknowns and nodal forces on its mesh."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from shelfload.solve.plate_element import A, B, Discretisation, W
from shelfload.solve.plate_input import PlateGeometry, Range
from shelfload.solve.plate_loads import placed
from shelfload.solve.plate_support import (
    EDGE_NAMES,
    Edge,
    Edges,
    LineSupport,
)

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class HeldLine:
    """A line of the mesh that is held: an edge or an inner line.

    Parameters
    ----------
    name : str
        "left", "right", "near", "far" or "line 0", "line 1" ... [-]
    runs_along : bool
        True for a line of constant across coordinate [-]
    at : float
        Its constant coordinate [mm] or [rad]
    reach : tuple of float
        Its range in the other coordinate [mm] or [rad]
    hold : Edge
        How it is held [-]
    """

    name: str
    runs_along: bool
    at: float
    reach: Range
    hold: Edge

    @property
    def rigid(self) -> bool:
        """Whether the deflection is held at 0."""
        return self.hold.kind in ("soft", "hard", "clamped")


def held_lines(
    geometry: PlateGeometry, edges: Edges, lines: Sequence[LineSupport]
) -> list[HeldLine]:
    """Edges and line supports in one list, the four edges first.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    edges : Edges
        The four edges [-]
    lines : sequence of LineSupport
        Inner supports [-]

    Returns
    -------
    list of HeldLine
        Left, right, near, far, then the inner lines [mm, rad]

    Raises
    ------
    ValueError
        If a line support lies outside the plate.

    Notes
    -----
    Source: definition.
    """
    out = [
        HeldLine(
            name,
            name in ("near", "far"),
            {
                "left": geometry.along[0],
                "right": geometry.along[1],
                "near": geometry.across[0],
                "far": geometry.across[1],
            }[name],
            geometry.along if name in ("near", "far") else geometry.across,
            getattr(edges, name),
        )
        for name in EDGE_NAMES
    ]
    for n, line in enumerate(lines):
        runs_along, at, reach = placed(geometry, line, f"line support {n}")
        rigid = math.isinf(line.k_w)
        hold = Edge("soft") if rigid else Edge("elastic", k_w=line.k_w)
        out.append(HeldLine(f"line {n}", runs_along, at, reach, hold))
    return out


def fixed_unknowns(
    plate: Discretisation, lines: Sequence[HeldLine]
) -> tuple[NDArray[np.bool_], Array]:
    """Unknowns held at 0, and how many lines hold each deflection.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    lines : sequence of HeldLine
        Edges and line supports [-]

    Returns
    -------
    fixed : ndarray of bool, shape (along, 3, across)
        Which unknowns are 0 [-]
    holders : ndarray, shape (along, across)
        Number of rigid lines through a node [-]

    Notes
    -----
    Source: definition.
    """
    fixed = np.zeros((plate.along.size, 3, plate.across.size), dtype=bool)
    holders = np.zeros((plate.along.size, plate.across.size))
    for line in lines:
        if not line.rigid:
            continue
        i, k = nodes_of(plate, line)
        tangent, normal = (A, B) if line.runs_along else (B, A)
        fixed[i, W, k] = True
        holders[i, k] += 1.0
        if line.hold.kind in ("hard", "clamped"):
            fixed[i, tangent, k] = True
        if line.hold.kind == "clamped":
            fixed[i, normal, k] = True
    return fixed, holders


def nodes_of(
    plate: Discretisation, line: HeldLine
) -> tuple[NDArray[np.intp] | int, NDArray[np.intp] | int]:
    """Nodes on a line.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    line : HeldLine
        The line [mm, rad]

    Returns
    -------
    along, across : ndarray of int, or int
        Indices: an array the way the line runs, one number the other way [-]

    Notes
    -----
    Source: definition.
    """
    runs, stands = (plate.along, plate.across) if line.runs_along else (plate.across, plate.along)
    slack = 1e-6 * (runs.breaks[-1] - runs.breaks[0])
    nodes = runs.nodes
    on = np.flatnonzero((nodes >= line.reach[0] - slack) & (nodes <= line.reach[1] + slack))
    index = stands.line(line.at)
    return (on, index) if line.runs_along else (index, on)


def add_springs(plate: Discretisation, lines: Sequence[HeldLine], strips: Sequence[Array]) -> None:
    """Add springs and edge beams of the held lines to the strips, in place.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    lines : sequence of HeldLine
        Edges and line supports [-]
    strips : sequence of ndarray, shape (m, 3, n, m, 3, n)
        Stiffness of each strip [N/mm, N, N mm]

    Notes
    -----
    Source: energy of springs and of a Timoshenko beam that follows the edge.
    """
    for line in lines:
        hold = line.hold
        if not (hold.k_w or hold.k_turn or hold.EI or hold.GJ or hold.GA):
            continue
        if line.runs_along:
            k = plate.across.line(line.at)
            h = float(plate.scale(np.array([line.at]))[0])
            for e, strip in enumerate(strips):
                middle = (plate.along.breaks[e] + plate.along.breaks[e + 1]) / 2.0
                if line.reach[0] < middle < line.reach[1]:
                    _add_along(plate, e, strip[:, :, k, :, :, k], hold, h)
        else:
            i = plate.along.line(line.at)
            e = max(plate.along.starts.index(i) - 1, 0)
            end = strips[e][-1, :, :, -1] if i > 0 else strips[e][0, :, :, 0]
            end[W, :, W] += hold.k_w * plate.across.matrix(0, 0, inside(line))
            on = inside(line)
            turn = plate.across.matrix(0, 0, partial(_per_square, on, plate))
            end[A, :, A] += hold.k_turn * turn


def _per_square(on: Callable[[Array], Array], plate: Discretisation, y: Array) -> Array:
    """1 / h^2 within a range: the slope across a radial line is the unknown over h."""
    return on(y) / plate.scale(y) ** 2


def inside(line: HeldLine) -> Callable[[Array], Array]:
    """1 within the range of a line, 0 outside, as a function of the coordinate along it.

    Parameters
    ----------
    line : HeldLine
        The line [mm, rad]

    Returns
    -------
    callable
        From ndarray [mm, rad] to ndarray [-]

    Notes
    -----
    Source: definition.
    """
    low, high = line.reach
    return lambda s: np.where((s > low) & (s < high), 1.0, 0.0)


def _add_along(plate: Discretisation, e: int, line: Array, hold: Edge, h: float) -> None:
    """Add springs and a beam along one line of strip e; ``line`` is a view (m, 3, m, 3)."""
    _, weights, (values, slopes) = plate.along.table(e)
    line[:, W, :, W] += (values.T * (weights * h * hold.k_w)) @ values
    line[:, B, :, B] += (values.T * (weights * h * hold.k_turn)) @ values
    if not (hold.EI or hold.GJ or hold.GA):
        return
    none = np.zeros_like(values)
    turn = 1.0 if plate.geometry.curved else 0.0
    bend = np.stack([none, slopes / h**2, turn * values / h], axis=-1)
    twist = np.stack([none, -turn * values / h**2, slopes / h], axis=-1)
    shear = np.stack([slopes / h, -values / h, none], axis=-1)
    for strain, rigidity in ((bend, hold.EI), (twist, hold.GJ), (shear, hold.GA)):
        line += np.einsum("q,qia,qjb->iajb", weights * h * rigidity, strain, strain)
