"""What a solved plate can be asked: the fields, and the reactions of its supports."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.plate_assembly import HeldLine, inside, nodes_of
from shelfload.solve.plate_element import W
from shelfload.solve.plate_field import PlateField

Array = NDArray[np.float64]
DEFLECTION_CHANGE = 0.0025
MOMENT_CHANGE = 0.01
NEGLIGIBLE = 1e-8


@dataclass(frozen=True, eq=False)
class PlateResult(PlateField):
    """A solved plate; every array ends with one column per load case.

    Parameters
    ----------
    plate : Discretisation
        The mesh it was solved on [mm, rad]
    unknowns : ndarray, shape (along, 3, across, cases)
        Deflection and covariant slopes at the nodes [mm, -]
    nodal : ndarray, shape (along, 3, across, cases)
        Upward forces of the rigid lines at the nodes [N, N mm]
    lines : sequence of HeldLine
        Edges and line supports [-]
    holders : ndarray, shape (along, across)
        Number of rigid lines that share a node [-]
    point_reactions : ndarray, shape (points, cases)
        Upward reaction of each point support, negative where it must hold down [N]
    loads : ndarray, shape (cases,)
        Total load, down positive [N]
    order : int
        Polynomial order in the longest interval [-]
    deflection_error, moment_error : float
        Estimated relative error: change against the next lower order [-]
    """

    nodal: Array
    lines: Sequence[HeldLine]
    holders: Array
    point_reactions: Array
    loads: Array
    order: int
    deflection_error: float
    moment_error: float

    @property
    def settled(self) -> bool:
        """Whether sag is known to 0.5 % and moments to 2 % of their largest values.

        Half of that is asked of the change between two orders, since beside a singular corner
        the error falls slowly and can be as large as the last change.
        """
        return self.deflection_error < DEFLECTION_CHANGE and self.moment_error < MOMENT_CHANGE

    def line(self, name: str) -> HeldLine:
        """The held line of a name: left, right, near, far, line 0, line 1 ..."""
        for line in self.lines:
            if line.name == name:
                return line
        raise KeyError(f"no line {name!r}; known: {', '.join(x.name for x in self.lines)}")

    def reaction(self, name: str) -> Array:
        """Total upward reaction of an edge or line support, shape (cases,) [N].

        The force at a node where two rigid lines cross is shared between them in halves; on
        soft supports of a thin plate it is the concentrated corner force.
        """
        line = self.line(name)
        i, k = nodes_of(self.plate, line)
        if line.rigid:
            shares = self.nodal[i, W, k] / self.holders[i, k][:, None]
            return np.asarray(shares.sum(axis=0))
        if not line.hold.k_w:
            return np.zeros(len(self.loads))
        runs = self.plate.along if line.runs_along else self.plate.across
        h = float(self.plate.scale(np.array([line.at]))[0]) if line.runs_along else 1.0
        weights = line.hold.k_w * h * runs.load(*line.reach, np.ones_like)
        values = self.unknowns[:, W, k] if line.runs_along else self.unknowns[i, W]
        return np.asarray(weights @ values)

    def reaction_along(self, name: str, position: ArrayLike) -> Array:
        """Upward reaction per length along an edge or line support, shape (n, cases) [N/mm].

        On a rigid line this is the distribution that does the same work as the nodal forces;
        its integral is :meth:`reaction`. On a sprung line it is k_w w.

        Parameters
        ----------
        name : str
            Edge or line [-]
        position : array_like, shape (n,)
            Coordinate along the line: along for near, far and lines along, else across [mm, rad]

        Returns
        -------
        ndarray, shape (n, cases)
            Reaction per length [N/mm]

        Notes
        -----
        Source: consistent (work-equivalent) boundary flux, textbook.
        """
        line = self.line(name)
        i, k = nodes_of(self.plate, line)
        runs = self.plate.along if line.runs_along else self.plate.across
        where = np.atleast_1d(np.asarray(position, dtype=np.float64))
        if not line.rigid:
            values = self.unknowns[:, W, k] if line.runs_along else self.unknowns[i, W]
            within = (where >= line.reach[0]) & (where <= line.reach[1])
            return np.asarray(line.hold.k_w * within[:, None] * (runs.basis(where) @ values))
        on = np.asarray(i if line.runs_along else k)
        h = float(self.plate.scale(np.array([line.at]))[0]) if line.runs_along else 1.0
        mass = h * runs.matrix(0, 0, inside(line))[on][:, on]
        values = np.linalg.solve(mass, self.nodal[i, W, k] / self.holders[i, k][:, None])
        return np.asarray(runs.basis(where)[:, on] @ values)

    def corner_uplift(self, corner: str) -> Array:
        """Force that must hold a corner down, positive where it would lift, (cases,) [N].

        ``2 M_xy`` at the corner (Kirchhoff's concentrated force) where both edges are "hard":
        there the theory carries it as a couple spread along the edges, but nails or a housing
        see the force. Where an edge is soft: the total of the downward holding run of nodal
        forces that begins at the corner. 0 where an edge does not hold w, or is clamped.

        Parameters
        ----------
        corner : str
            "left near", "right near", "left far" or "right far" [-]

        Returns
        -------
        ndarray, shape (cases,)
            Uplift force [N]

        Notes
        -----
        Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed.,
        art. 22, R = 2 M_xy; for soft edges own writing.
        """
        side, end = corner.split()
        one, two = self.line(side), self.line(end)
        kinds = {one.hold.kind, two.hold.kind}
        if not kinds <= {"soft", "hard"}:
            return np.zeros(len(self.loads))
        if kinds == {"hard"}:
            twist = self.moments(one.at, two.at, "edge")[0, 2]
            return np.asarray(2.0 * twist * (-1.0 if (side == "left") == (end == "near") else 1.0))
        i = 0 if side == "left" else -1
        k = 0 if end == "near" else -1
        run = self.nodal[:, W, k] if i == 0 else self.nodal[::-1, W, k]
        rise = self.nodal[i, W, :] if k == 0 else self.nodal[i, W, ::-1]
        total = run[0].copy()
        for forces in (run, rise):
            holding = np.logical_and.accumulate(forces[1:] < 0.0, axis=0) & (run[0] < 0.0)
            total += np.where(holding, forces[1:], 0.0).sum(axis=0)
        return np.asarray(np.maximum(-total, 0.0))


def change_between(coarse: PlateResult, fine: PlateResult) -> tuple[float, float]:
    """Largest change of deflection and of moments between two orders, over the largest value.

    Parameters
    ----------
    coarse, fine : PlateResult
        The same plate at two orders [-]

    Returns
    -------
    deflection, moment : float
        Largest change at 9 x 9 points per element, mesh lines included, over the largest value of
        the same case; the worst case counts [-]

    Notes
    -----
    Twist on the edges themselves is not counted: there it is 0 (free, soft) or balanced by the
    support, and the last to converge in an edge layer. Corner squares are not counted either,
    see ``away_from_corners``.

    Source: own choice.
    """
    x, y = fine.grid(8)
    w, M = fine.grid_deflection(x, y), fine.grid_moments(x, y)
    changes = fine.grid_moments(x, y) - coarse.grid_moments(x, y)
    away = fine.away_from_corners(x, y)
    M, changes = M * away[:, :, None], changes * away[:, :, None]
    changes[2, [0, -1]] = changes[2, :, [0, -1]] = 0.0
    # a load that goes straight into a rigid support bends nothing: what is left is rounding
    least = NEGLIGIBLE * np.abs(fine.loads)
    bend = (
        max(fine.plate.stiffness.D11, fine.plate.stiffness.D22) / min(fine.plate.geometry.size) ** 2
    )
    return (
        _relative(w - coarse.grid_deflection(x, y), w, (0, 1), least / bend),
        _relative(changes, M, (0, 1, 2), least),
    )


def _relative(change: Array, values: Array, axes: tuple[int, ...], least: Array) -> float:
    """Largest change over the largest value of the same case, the worst case of all."""
    size, change = (np.abs(part).max(axis=axes) for part in (values, change))
    return float(np.max(np.where(size > least, change, 0.0) / np.where(size > least, size, 1.0)))
