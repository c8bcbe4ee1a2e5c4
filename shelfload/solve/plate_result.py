"""What a solved plate can be asked: deflection, moments, shear and reactions anywhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.plate_assembly import HeldLine, nodes_of
from shelfload.solve.plate_element import Discretisation, W, local_stiffness, strain_rotation
from shelfload.solve.plate_mesh import Axis

Array = NDArray[np.float64]
Axes = Literal["grain", "edge"]


@dataclass(frozen=True, slots=True)
class Peak:
    """A largest value and where it is.

    Parameters
    ----------
    value : float
        The value, with its sign [mm, N or N/mm]
    along, across : float
        Plate coordinates [mm, rad]
    """

    value: float
    along: float
    across: float


@dataclass(frozen=True, eq=False)
class PlateResult:
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

    plate: Discretisation
    unknowns: Array
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
        """Whether sag is known to 0.5 % and moments to 2 % of their largest values."""
        return self.deflection_error < 0.005 and self.moment_error < 0.02

    def deflection(self, along: ArrayLike, across: ArrayLike) -> Array:
        """Deflection at points, down positive.

        Parameters
        ----------
        along, across : array_like, shape (n,)
            Plate coordinates [mm, rad]

        Returns
        -------
        ndarray, shape (n, cases)
            Deflection [mm]

        Notes
        -----
        Source: interpolation.
        """
        x, y = np.broadcast_arrays(np.atleast_1d(along), np.atleast_1d(across))
        rows = np.tensordot(self.plate.along.basis(x), self.unknowns[:, W], (1, 0))
        return np.asarray(np.einsum("nk,nkc->nc", self.plate.across.basis(y), rows))

    def moments(self, along: ArrayLike, across: ArrayLike, axes: Axes = "grain") -> Array:
        """Moments per length at points, sagging positive.

        Computed where a polynomial's derivative is most accurate, at the p x p Gauss points of
        each element of order p, and carried to any other point by the polynomial of order
        p - 1 through them. On a line between elements the mean of both sides is given.

        Parameters
        ----------
        along, across : array_like, shape (n,)
            Plate coordinates [mm, rad]
        axes : str
            "grain": M_x, M_y, M_xy in the plan; "edge": along, across and twist, which on a
            sector turn with the curve [-]

        Returns
        -------
        ndarray, shape (n, 3, cases)
            Moments [N]

        Notes
        -----
        Source: J. Barlow, Int. J. Num. Meth. Eng. 10 (1976) 243 for the points of recovery.
        """
        x, y = np.broadcast_arrays(np.atleast_1d(along), np.atleast_1d(across))
        local = np.asarray(self._recovered(x, y, 0, 0))
        if axes == "edge":
            return local
        turn = strain_rotation(-self.plate.rotation(np.asarray(x, dtype=np.float64)))
        # moments turn like stresses: the transposed inverse of the turn of strains
        return np.asarray(turn[:, :3, :3].transpose(0, 2, 1) @ local)

    def shears(self, along: ArrayLike, across: ArrayLike, axes: Axes = "grain") -> Array:
        """Shear forces per length at points, from the slopes of the moments (equilibrium).

        The constitutive shear is not used: in a thin plate it is the small difference of two
        slopes and noisy. Within about a thickness of a free or soft edge, and of the ends of
        line supports, shear changes faster than any plate mesh of practical order follows.

        Parameters
        ----------
        along, across : array_like, shape (n,)
            Plate coordinates [mm, rad]
        axes : str
            "grain": Q_x, Q_y in the plan; "edge": along and across [-]

        Returns
        -------
        ndarray, shape (n, 2, cases)
            Shear; Q = dM/dx, positive as in a beam [N/mm]

        Notes
        -----
        Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed.,
        art. 21; polar form art. 62.
        """
        x, y = np.broadcast_arrays(np.atleast_1d(along), np.atleast_1d(across))
        h = self.plate.scale(np.asarray(y, dtype=np.float64))[:, None]
        M_1 = self._recovered(x, y, 1, 0) / h[:, None]
        M_2 = self._recovered(x, y, 0, 1)
        Q = np.stack([M_1[:, 0] + M_2[:, 2], M_2[:, 1] + M_1[:, 2]], axis=1)
        if self.plate.geometry.curved:
            M = self._recovered(x, y, 0, 0)
            Q[:, 0] += 2.0 * M[:, 2] / h
            Q[:, 1] += (M[:, 1] - M[:, 0]) / h
        if axes == "edge":
            return Q
        turn = strain_rotation(self.plate.rotation(np.asarray(x, dtype=np.float64)))
        return np.asarray(turn[:, 3:, 3:] @ Q)

    def principal_moments(self, along: ArrayLike, across: ArrayLike) -> Array:
        """Larger and smaller principal moment at points, shape (n, 2, cases) [N]."""
        M = self.moments(along, across, "edge")
        mean, half = (M[:, 0] + M[:, 1]) / 2.0, (M[:, 0] - M[:, 1]) / 2.0
        radius = np.hypot(half, M[:, 2])
        return np.stack([mean + radius, mean - radius], axis=1)

    def largest_deflection(self, case: int = 0) -> Peak:
        """Deflection largest in size in one case [mm], found on a grid and refined."""
        x, y = self.samples
        grid = self._grid_deflection(x, y)[:, :, case]
        i, k = np.unravel_index(int(np.argmax(np.abs(grid))), grid.shape)
        best = Peak(float(grid[i, k]), float(x[i]), float(y[k]))
        widths = [float(np.diff(axis).max()) for axis in (x, y)]
        extents = (self.plate.geometry.along, self.plate.geometry.across)
        for _ in range(3):
            (u, v) = (
                np.clip(centre + width * np.linspace(-1.0, 1.0, 9), *extent)
                for centre, width, extent in zip(
                    (best.along, best.across), widths, extents, strict=True
                )
            )
            fine = self._grid_deflection(u, v)[:, :, case]
            i, k = np.unravel_index(int(np.argmax(np.abs(fine))), fine.shape)
            best = Peak(float(fine[i, k]), float(u[i]), float(v[k]))
            widths = [width / 4.0 for width in widths]
        return best

    def largest_moment(self, component: int, sign: float = 1.0, case: int = 0) -> Peak:
        """Largest moment of one component in grain axes in one case, over a dense grid.

        Squares of 1/20 of the depth at the corners are left out (see away_from_corners).

        Parameters
        ----------
        component : int
            0 M_x, 1 M_y, 2 M_xy, 3 principal (larger for sign 1, smaller for sign -1) [-]
        sign : float
            1 for the largest sagging, -1 for the largest hogging [-]
        case : int
            Load case [-]

        Returns
        -------
        Peak
            Moment with its sign [N]

        Notes
        -----
        Source: own choice of grid, 2 p + 1 points per interval and direction.
        """
        x, y = self.samples
        away = self.away_from_corners(x, y)
        u, v = (grid[away] for grid in np.meshgrid(x, y, indexing="ij"))
        if component == 3:
            values = self.principal_moments(u, v)[:, 0 if sign > 0 else 1, case]
        else:
            values = self.moments(u, v)[:, component, case]
        best = int(np.argmax(sign * values))
        return Peak(float(values[best]), float(u[best]), float(v[best]))

    @cached_property
    def samples(self) -> tuple[Array, Array]:
        """Coordinates along and across of the grid on which extremes are sought [mm, rad]."""
        return dense(self.plate.along), dense(self.plate.across)

    def away_from_corners(self, x: Array, y: Array) -> NDArray[np.bool_]:
        """Which points of a grid lie outside the corner squares of 1/20 of the depth.

        Where an edge changes from held to free, and at oblique grain, the theory's moments are
        infinite at the corner itself: no figure there means anything.
        """
        side = 0.05 * min(self.plate.geometry.size)
        length, depth = self.plate.geometry.size
        u = (x - x[0]) / (x[-1] - x[0]) * length
        v = (y - y[0]) / (y[-1] - y[0]) * depth
        end = (u < side) | (u > length - side)
        edge = (v < side) | (v > depth - side)
        return ~(end[:, None] & edge[None, :])

    def _grid_deflection(self, x: Array, y: Array) -> Array:
        rows = np.tensordot(self.plate.along.basis(x), self.unknowns[:, W], (1, 0))
        return np.asarray(self.plate.across.basis(y) @ rows)

    def _grid_moments(self, x: Array, y: Array) -> Array:
        along, across = (axis.recovery() for axis in (self.plate.along, self.plate.across))
        rows = np.moveaxis(np.tensordot(along.basis(x), self.recovered, (1, 1)), 1, 0)
        return np.asarray(across.basis(y) @ rows)

    @cached_property
    def recovered(self) -> Array:
        """Moments in local axes at the points of recovery, shape (3, along, across, cases) [N]."""
        along, across = self.plate.along, self.plate.across
        points = along.recovery().nodes, across.recovery().nodes
        tables = [
            np.stack([axis.basis(x, d) for d in (0, 1)])
            for axis, x in zip((along, across), points, strict=True)
        ]
        strains = self.plate.strains(self.unknowns, *tables)[:3]
        D = local_stiffness(self.plate.stiffness, self.plate.rotation(points[0]))[:, :3, :3]
        return np.asarray(np.einsum("pij,jpqc->ipqc", D, strains))

    def _recovered(self, x: Array, y: Array, d_along: int, d_across: int) -> Array:
        """Recovered moments or a derivative of them at points, shape (n, 3, cases)."""
        along, across = self.plate.along.recovery(), self.plate.across.recovery()
        first = (along.basis(x, d_along) + along.basis(x, d_along, last=True)) / 2.0
        second = (across.basis(y, d_across) + across.basis(y, d_across, last=True)) / 2.0
        rows = np.einsum("np,ipqc->niqc", first, self.recovered, optimize=True)
        return np.asarray(np.einsum("niqc,nq->nic", rows, second))

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
            inside = (where >= line.reach[0]) & (where <= line.reach[1])
            return np.asarray(line.hold.k_w * inside[:, None] * (runs.basis(where) @ values))
        on = i if line.runs_along else k
        h = float(self.plate.scale(np.array([line.at]))[0]) if line.runs_along else 1.0
        low, high = line.reach
        mass = h * runs.matrix(0, 0, lambda s: ((s > low) & (s < high)) * 1.0)[np.ix_(on, on)]
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
        return np.maximum(-total, 0.0)


def dense(axis: Axis) -> Array:
    """Evenly spaced points in each interval, 2 p + 1 of them, mesh lines included."""
    parts = [
        np.linspace(a, b, 2 * order + 1)[:-1]
        for a, b, order in zip(axis.breaks[:-1], axis.breaks[1:], axis.orders, strict=True)
    ]
    return np.concatenate([*parts, axis.breaks[-1:]])


def change_between(coarse: PlateResult, fine: PlateResult) -> tuple[float, float]:
    """Largest change of deflection and of moments between two orders, over the largest value.

    Parameters
    ----------
    coarse, fine : PlateResult
        The same plate at two orders [-]

    Returns
    -------
    deflection, moment : float
        Largest change at 9 x 9 points per element, edges included, over the largest value of
        the same case; the worst case counts [-]

    Notes
    -----
    Source: own choice.
    """
    x, y = (
        np.concatenate([np.linspace(a, b, 9) for a, b in zip(breaks, breaks[1:], strict=False)])
        for breaks in (fine.plate.along.breaks, fine.plate.across.breaks)
    )
    away = fine.away_from_corners(x, y)
    out = []
    for field in ("_grid_deflection", "_grid_moments"):
        one, two = (getattr(result, field)(x, y) for result in (coarse, fine))
        change, size = np.abs(two - one)[..., away, :], np.abs(two)[..., away, :]
        axes = tuple(range(change.ndim - 1))
        size = size.max(axis=axes)
        out.append(float(np.max(change.max(axis=axes) / np.where(size > 0.0, size, 1.0))))
    return out[0], out[1]
