"""Deflection, moments and shear of a solved plate, anywhere on it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.plate_element import Discretisation, W, local_stiffness, strain_rotation

Array = NDArray[np.float64]
CORNER = 0.05
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
class PlateField:
    """Deflection, moments and shear of a solved plate; arrays end with one column per case.

    Parameters
    ----------
    plate : Discretisation
        The mesh it was solved on [mm, rad]
    unknowns : ndarray, shape (along, 3, across, cases)
        Deflection and covariant slopes at the nodes [mm, -]
    """

    plate: Discretisation
    unknowns: Array

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
        grid = self.grid_deflection(x, y)[:, :, case]
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
            fine = self.grid_deflection(u, v)[:, :, case]
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
        Source: own choice of grid, 2 p steps per interval and direction.
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
        return self.grid(2 * max(self.plate.along.orders + self.plate.across.orders))

    def grid(self, steps: int) -> tuple[Array, Array]:
        """Coordinates along and across: steps per interval, and the sides of the corner squares.

        With the sides in it, what is read beside a singular corner does not hang on the grid.
        """
        out = []
        side = CORNER * min(self.plate.geometry.size)
        for axis, size in zip(
            (self.plate.along, self.plate.across), self.plate.geometry.size, strict=True
        ):
            first, last = axis.breaks[0], axis.breaks[-1]
            inward = side / size * (last - first)
            parts = [np.linspace(a, b, steps + 1) for a, b in pairwise(axis.breaks.tolist())]
            out.append(np.unique(np.concatenate([*parts, [first + inward, last - inward]])))
        return out[0], out[1]

    def away_from_corners(self, x: Array, y: Array) -> NDArray[np.bool_]:
        """Which points of a grid lie outside the corner squares of 1/20 of the depth.

        Where an edge changes from held to free, and at oblique grain, the theory's moments are
        infinite at the corner itself: no figure there means anything.
        """
        side = (CORNER - 1e-9) * min(self.plate.geometry.size)
        length, depth = self.plate.geometry.size
        u = (x - x[0]) / (x[-1] - x[0]) * length
        v = (y - y[0]) / (y[-1] - y[0]) * depth
        end = (u < side) | (u > length - side)
        edge = (v < side) | (v > depth - side)
        return np.asarray(~(end[:, None] & edge[None, :]))

    def grid_deflection(self, x: Array, y: Array) -> Array:
        """Deflection on the product of coordinates along and across, (x, y, cases) [mm]."""
        rows = np.tensordot(self.plate.along.basis(x), self.unknowns[:, W], (1, 0))
        return np.asarray(self.plate.across.basis(y) @ rows)

    def grid_moments(self, x: Array, y: Array) -> Array:
        """Moments in edge axes on a product of coordinates, (3, x, y, cases) [N]."""
        along, across = (axis.recovery for axis in (self.plate.along, self.plate.across))
        rows = np.moveaxis(np.tensordot(along.basis(x), self.recovered, (1, 1)), 1, 0)
        return np.asarray(across.basis(y) @ rows)

    @cached_property
    def recovered(self) -> Array:
        """Moments in local axes at the points of recovery, shape (3, along, across, cases) [N]."""
        along, across = self.plate.along, self.plate.across
        points = along.recovery.nodes, across.recovery.nodes
        tables = [
            np.stack([axis.basis(x, d) for d in (0, 1)])
            for axis, x in zip((along, across), points, strict=True)
        ]
        strains = self.plate.strains(self.unknowns, *tables)[:3]
        D = local_stiffness(self.plate.stiffness, self.plate.rotation(points[0]))[:, :3, :3]
        return np.asarray(np.einsum("pij,jpqc->ipqc", D, strains))

    def _recovered(self, x: Array, y: Array, d_along: int, d_across: int) -> Array:
        """Recovered moments or a derivative of them at points, shape (n, 3, cases)."""
        along, across = self.plate.along.recovery, self.plate.across.recovery
        first = (along.basis(x, d_along) + along.basis(x, d_along, last=True)) / 2.0
        second = (across.basis(y, d_across) + across.basis(y, d_across, last=True)) / 2.0
        rows = np.einsum("np,ipqc->niqc", first, self.recovered, optimize=True)
        return np.asarray(np.einsum("niqc,nq->nic", rows, second))
