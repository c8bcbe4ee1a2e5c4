"""Solution of the plate equations strip by strip, and the search for free motions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

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
    motions = _rigid_motions(plate)
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


def _rigid_motions(plate: Discretisation) -> Array:
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

    The inside of each element is condensed onto its outline, each strip onto its last mesh
    line, and that is passed on to the next strip, so the work grows with the number of strips
    and never with its cube. A point support is a Lagrange
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
    back: list[list[_Solved]] = []
    last = len(strips) - 1
    starts = plate.along.starts
    for e, strip in enumerate(strips):
        part = slice(starts[e], starts[e + 1] + 1)
        size = strip.shape[0] * line
        here = [p for p, point in enumerate(points) if point.strip == e]
        K, f = _with_multipliers(strip, forces[part], part, [points[p] for p in here])
        K[:line, :line] += carried
        f[:line] += passed
        free = np.ones(len(K), dtype=bool)
        free[:size] = ~fixed[part].reshape(size)
        done: list[_Solved] = []
        for inner, around in _elements(plate, e, len(K)):
            done.append(_condense(K, f, inner[free[inner]], around[free[around]]))
            free[inner] = False
        tail = np.flatnonzero(free[size - line : size]) + size - line
        tail = tail[:0] if e == last else tail
        free[tail] = False
        done.append(_condense(K, f, np.flatnonzero(free), tail))
        back.append(done)
        if e < last:
            carried, passed = np.zeros((line, line)), np.zeros((line, cases))
            spot = tail - (size - line)
            carried[np.ix_(spot, spot)] = K[np.ix_(tail, tail)]
            # the next strip brings the loads of the shared line itself
            passed[spot] = f[tail] - forces[part].reshape(size, cases)[tail]
    nodal = forces.copy()
    for e in range(last, -1, -1):
        part = slice(starts[e], starts[e + 1] + 1)
        here = [p for p, point in enumerate(points) if point.strip == e]
        values = np.concatenate([unknowns[part].reshape(-1, cases), reactions[here]])
        for step in reversed(back[e]):
            values[step.inner] = step.forced - step.follow @ values[step.around]
        size = len(values) - len(here)
        unknowns[part] = values[:size].reshape(unknowns[part].shape)
        reactions[here] = values[size:] * _multiplier_scale(strips[e])
        for p in here:
            nodal[:, W] -= points[p].weights[:, :, None] * reactions[p]
        nodal[part] -= (strips[e].reshape(size, size) @ values[:size]).reshape(nodal[part].shape)
    return unknowns, reactions, nodal


@dataclass(frozen=True, slots=True, eq=False)
class _Solved:
    """Unknowns ``inner`` in terms of others: ``forced - follow @ around``."""

    inner: NDArray[np.intp]
    around: NDArray[np.intp]
    forced: Array
    follow: Array


def _condense(K: Array, f: Array, inner: NDArray[np.intp], around: NDArray[np.intp]) -> _Solved:
    """Eliminate unknowns; their effect is added to K and f of those around them, in place."""
    coupling = K[np.ix_(inner, around)]
    both = np.concatenate([coupling, f[inner]], axis=1)
    solved = np.asarray(np.linalg.solve(K[np.ix_(inner, inner)], both), dtype=np.float64)
    follow, forced = solved[:, : len(around)], solved[:, len(around) :]
    if len(around):
        K[np.ix_(around, around)] -= coupling.T @ follow
        f[around] -= coupling.T @ forced
    return _Solved(inner, around, forced, follow)


def _elements(
    plate: Discretisation, e: int, size: int
) -> list[tuple[NDArray[np.intp], NDArray[np.intp]]]:
    """Unknowns of strip e inside each of its elements, and those (and multipliers) around.

    A strip of one element has none: it is solved as a whole.
    """
    elements = len(plate.across.orders)
    if elements == 1:
        return []
    m, n = plate.along.orders[e] + 1, plate.across.size
    numbers = np.arange(m * 3 * n).reshape(m, 3, n)
    rows = np.ones(m, dtype=bool)
    rows[0] = e == 0
    rows[-1] = e == len(plate.along.orders) - 1
    extra = np.arange(m * 3 * n, size)
    out = []
    for first, last in pairwise(plate.across.starts):
        columns = np.ones(last - first + 1, dtype=bool)
        columns[0], columns[-1] = first == 0, last == n - 1
        within = rows[:, None, None] & columns[None, None, :] & np.ones((1, 3, 1), dtype=bool)
        element = numbers[:, :, first : last + 1]
        out.append((element[within], np.concatenate([element[~within], extra])))
    return out


def _multiplier_scale(strip: Array) -> float:
    """Factor that makes multipliers comparable with the other unknowns, for the pivots."""
    return float(np.sqrt(np.abs(strip).max()))


def _with_multipliers(
    strip: Array, forces: Array, part: slice, points: Sequence[PointHold]
) -> tuple[Array, Array]:
    """Matrix and right side of a strip with a Lagrange multiplier for each point support."""
    size, scale = forces[..., 0].size, _multiplier_scale(strip)
    K = np.zeros((size + len(points),) * 2)
    K[:size, :size] = strip.reshape(size, size)
    f = np.zeros((len(K), forces.shape[-1]))
    f[:size] = forces.reshape(size, -1)
    for n, point in enumerate(points, start=size):
        seen = np.zeros(forces.shape[:-1])
        seen[:, W] = point.weights[part] * scale
        K[n, :size] = K[:size, n] = seen.ravel()
        K[n, n] = -(scale**2) / point.k_w
    return K, f
