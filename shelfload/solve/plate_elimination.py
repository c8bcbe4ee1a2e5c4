"""Solution of the plate equations strip by strip, and the search for free motions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.errors import Mechanism
from shelfload.solve.plate_assembly import HeldLine, nodes_of
from shelfload.solve.plate_element import A, B, Discretisation, W

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class PointHold:
    """A point support on the mesh: nodal weights of the deflection it holds, and its spring.

    Parameters
    ----------
    weights : ndarray, shape (along, across)
        Nodal weights [-]
    k_w : float
        Spring, infinite for rigid [N/mm]
    strip : int
        The strip that holds all of the footprint [-]
    """

    weights: Array
    k_w: float
    strip: int


def require_held(
    plate: Discretisation,
    fixed: NDArray[np.bool_],
    lines: Sequence[HeldLine],
    points: Sequence[PointHold],
) -> None:
    """Raise Mechanism if the plate can move without bending.

    A plate that moves without bending stays plane, ``w = c0 + c1 x + c2 y``; it is free if some
    such motion meets every support, that is if the motions seen by the supports have rank < 3.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    fixed : ndarray of bool, shape (along, 3, across)
        Unknowns held at 0 [-]
    lines : sequence of HeldLine
        Held lines, for their springs [-]
    points : sequence of PointHold
        Point supports [-]

    Raises
    ------
    Mechanism
        With the free motions: 0 lift, 1 tilt along x, 2 tilt along y.

    Notes
    -----
    Source: own derivation, rank of the constraints on rigid motions.
    """
    motions = rigid_motions(plate)
    rows = [motions[:, fixed].T]
    for line in lines:
        i, k = nodes_of(plate, line)
        if line.hold.k_w:
            rows.append(motions[:, i, W, k].T)
        if line.hold.k_turn:
            rows.append(motions[:, i, B if line.runs_along else A, k].T)
    rows.extend(np.tensordot(motions[:, :, W], p.weights, 2)[None] for p in points)
    seen = np.concatenate(rows)
    if not len(seen):
        seen = np.zeros((1, 3))
    _, values, vectors = np.linalg.svd(seen, full_matrices=True)
    rank = int(np.sum(values > 1e-7 * max(values[0], 1.0)))
    if rank == 3:
        return
    free = vectors[rank:]
    first = 1 if np.abs(seen[:, 0]).max() > 0.0 else 0  # held somewhere: it can only tilt
    moved = [n for n in range(first, 3) if np.abs(free[:, n]).max() > 1e-6]
    names = ("move up and down", "tilt along x", "tilt along y")
    message = f"the plate is free to {' and to '.join(names[n] for n in moved)}"
    raise Mechanism(moved, message)


def rigid_motions(plate: Discretisation) -> Array:
    """Unknowns of a lift and of tilts along x and y, over the size: (3, along, 3, across)."""
    x, y = np.meshgrid(plate.along.nodes, plate.across.nodes, indexing="ij")
    size = max(plate.geometry.size)
    out = np.zeros((3, plate.along.size, 3, plate.across.size))
    c, s = np.cos(plate.rotation(x)), np.sin(plate.rotation(x))
    X, Y = (y * s, y * c) if plate.geometry.curved else (x, y)
    h = plate.scale(y)
    out[0, :, W] = 1.0
    out[1, :, W], out[1, :, A], out[1, :, B] = X - X.mean(), h * c, s
    out[2, :, W], out[2, :, A], out[2, :, B] = Y - Y.mean(), -h * s, c
    out[1:] /= size
    return out


def eliminate(
    plate: Discretisation,
    strips: Sequence[Array],
    fixed: NDArray[np.bool_],
    points: Sequence[PointHold],
    loads: Array,
) -> tuple[Array, Array, Array]:
    """Unknowns, point reactions and forces at the fixed unknowns.

    Each strip is condensed onto its last mesh line and passed on to the next, so the work
    grows with the number of strips and never with its cube. A point support is a Lagrange
    multiplier within its strip: the same lines serve rigid ones and springs.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    strips : sequence of ndarray, shape (m, 3, n, m, 3, n)
        Stiffness of each strip, springs included [N/mm, N, N mm]
    fixed : ndarray of bool, shape (along, 3, across)
        Unknowns held at 0 [-]
    points : sequence of PointHold
        Point supports [N/mm]
    loads : ndarray, shape (along, across, cases)
        Nodal loads [N]

    Returns
    -------
    unknowns : ndarray, shape (along, 3, across, cases)
        Deflection and covariant slopes [mm, -]
    reactions : ndarray, shape (points, cases)
        Upward reaction of each point support [N]
    nodal : ndarray, shape (along, 3, across, cases)
        Upward forces and moments at the fixed unknowns, near 0 elsewhere [N, N mm]

    Notes
    -----
    Source: block Gauss elimination (static condensation), textbook.
    """
    n, cases = plate.across.size, loads.shape[-1]
    line = 3 * n
    forces = np.zeros((plate.along.size, 3, n, cases))
    forces[:, W] = loads
    unknowns = np.zeros_like(forces)
    reactions = np.zeros((len(points), cases))
    carried, passed = np.zeros((line, line)), np.zeros((line, cases))
    back: list[tuple[NDArray[np.intp], list[int], NDArray[np.intp], Array]] = []
    last = len(strips) - 1
    starts = plate.along.starts
    for e, strip in enumerate(strips):
        part = slice(starts[e], starts[e + 1] + 1)
        size = strip.shape[0] * line
        K = strip.reshape(size, size).copy()
        K[:line, :line] += carried
        f = forces[part].reshape(size, cases).copy()
        f[:line] += passed
        free = np.flatnonzero(~fixed[part].reshape(size))
        tail: NDArray[np.intp] = free[:0] if e == last else free[free >= size - line]
        head = free[: len(free) - len(tail)]
        here = [p for p, point in enumerate(points) if point.strip == e]
        seen = np.zeros((strip.shape[0], 3, n, len(here)))
        for column, p in enumerate(here):
            seen[:, W, :, column] = points[p].weights[part]
        C = seen.reshape(size, len(here))
        # scaling keeps multipliers and unknowns of different units comparable for the pivots
        weight = np.sqrt(np.abs(K[head, head]).max()) if len(head) else 1.0
        m = len(head)
        system = np.zeros((m + len(here), m + len(here)))
        system[:m, :m] = K[np.ix_(head, head)]
        system[:m, m:] = C[head] * weight
        system[m:, :m] = system[:m, m:].T
        system[m:, m:] -= np.diag([weight**2 / points[p].k_w for p in here])
        coupling = np.zeros((m + len(here), len(tail) + cases))
        coupling[:m, : len(tail)] = K[np.ix_(head, tail)]
        coupling[m:, : len(tail)] = C[tail].T * weight
        coupling[:m, len(tail) :] = f[head]
        solved = np.asarray(np.linalg.solve(system, coupling), dtype=np.float64)
        back.append((head, here, tail, solved))
        if e < last:
            reduced = coupling[:, : len(tail)].T @ solved
            spot = tail - (size - line)
            carried, passed = np.zeros((line, line)), np.zeros((line, cases))
            carried[np.ix_(spot, spot)] = K[np.ix_(tail, tail)] - reduced[:, : len(tail)]
            passed[spot] = -reduced[:, len(tail) :]
        for p in here:
            reactions[p] = weight
    nodal = forces.copy()
    for e in range(last, -1, -1):
        part = slice(starts[e], starts[e + 1] + 1)
        head, here, tail, solved = back[e]
        flat = unknowns[part].reshape(-1, cases)
        values = solved[:, len(tail) :] - solved[:, : len(tail)] @ flat[tail]
        flat[head] = values[: len(head)]
        unknowns[part] = flat.reshape(unknowns[part].shape)
        for column, p in enumerate(here):
            reactions[p] *= values[len(head) + column]
            nodal[:, W] -= points[p].weights[:, :, None] * reactions[p]
        size = flat.shape[0]
        nodal[part] -= (strips[e].reshape(size, size) @ flat).reshape(nodal[part].shape)
    return unknowns, reactions, nodal
