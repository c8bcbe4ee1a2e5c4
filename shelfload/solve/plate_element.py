"""Stiffness of one strip of a plate, from mesh line to mesh line along, over the full depth.

Unknowns at each node are the deflection ``w``, the slope ``a`` along multiplied by the
length of a unit step along (1 on a rectangle, r on a sector) and the slope ``b`` across.
These are the covariant components of the rotation, so the gradient of any polynomial ``w``
is itself a pair of polynomials: the thin limit ``a = w,1`` and ``b = w,2`` can be met exactly
everywhere, and nothing locks. (Cartesian components on a sector would not do.)

With h = 1 (rectangle) or h = r (sector), and the terms in [] on a sector only::

    k_11  = -(a,1 / h^2 + [b / h])          M_1  sagging positive
    k_22  = -b,2
    2k_12 = -(b,1 / h + a,2 / h - [2 a / h^2])
    g_1   = (w,1 - a) / h
    g_2   = w,2 - b

Each integral is a product of one along and one across, so a strip is a sum of Kronecker
products of small matrices; no loop over elements or quadrature points is needed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shelfload.solve.plate_input import PlateGeometry, Stiffness
from shelfload.solve.plate_mesh import Axis

Array = NDArray[np.float64]
W, A, B = 0, 1, 2


@dataclass(frozen=True, slots=True)
class _Term:
    """One term of a strain: ``factor h^power`` times a derivative of an unknown."""

    strain: int
    unknown: int
    d_along: int
    d_across: int
    power: int
    factor: float


FLAT_TERMS = (
    _Term(0, A, 1, 0, -2, -1.0),
    _Term(1, B, 0, 1, 0, -1.0),
    _Term(2, B, 1, 0, -1, -1.0),
    _Term(2, A, 0, 1, -1, -1.0),
    _Term(3, W, 1, 0, -1, 1.0),
    _Term(3, A, 0, 0, -1, -1.0),
    _Term(4, W, 0, 1, 0, 1.0),
    _Term(4, B, 0, 0, 0, -1.0),
)
CURVED_TERMS = (*FLAT_TERMS, _Term(0, B, 0, 0, -1, -1.0), _Term(2, A, 0, 0, -2, 2.0))


def local_stiffness(stiffness: Stiffness, angle: Array) -> Array:
    """Stiffness in axes along and across at angles of a sector, the grain staying along x.

    Parameters
    ----------
    stiffness : Stiffness
        Bending [N mm] and shear [N/mm]
    angle : ndarray, shape (n,)
        Angle of the sector [rad]

    Returns
    -------
    ndarray, shape (n, 5, 5)
        From (k_11, k_22, 2 k_12, g_1, g_2) to (M_1, M_2, M_12, Q_1, Q_2) [N mm, N/mm]

    Notes
    -----
    Source: rotation of a second-order tensor; S. Timoshenko, S. Woinowsky-Krieger, Theory of
    Plates and Shells, 2nd ed., art. 85 for D in the material axes.
    """
    material = np.zeros((5, 5))
    material[:2, :2] = [[stiffness.D11, stiffness.D12], [stiffness.D12, stiffness.D22]]
    material[2, 2], material[3, 3], material[4, 4] = stiffness.D66, stiffness.S1, stiffness.S2
    to_material = strain_rotation(angle)
    return np.asarray(to_material.transpose(0, 2, 1) @ material @ to_material)


def strain_rotation(angle: Array) -> Array:
    """Matrices from strains in axes along and across to strains in the plan axes x and y.

    Parameters
    ----------
    angle : ndarray, shape (n,)
        Angle of the sector, 0 where along is x [rad]

    Returns
    -------
    ndarray, shape (n, 5, 5)
        Acting on (k_11, k_22, 2 k_12, g_1, g_2) [-]

    Notes
    -----
    Source: rotation of a second-order tensor and of a vector, own writing.
    """
    c, s = np.cos(angle), np.sin(angle)
    out = np.zeros((len(angle), 5, 5))
    out[:, 0, :3] = np.stack([c * c, s * s, c * s], axis=-1)
    out[:, 1, :3] = np.stack([s * s, c * c, -c * s], axis=-1)
    out[:, 2, :3] = np.stack([-2.0 * c * s, 2.0 * c * s, c * c - s * s], axis=-1)
    out[:, 3, 3], out[:, 3, 4] = c, s
    out[:, 4, 3], out[:, 4, 4] = -s, c
    return out


@dataclass(frozen=True)
class Discretisation:
    """A plate on a product of two axes.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    stiffness : Stiffness
        Bending [N mm] and shear [N/mm]
    along, across : Axis
        The two axes of the mesh [mm, rad]
    """

    geometry: PlateGeometry
    stiffness: Stiffness
    along: Axis
    across: Axis

    @property
    def terms(self) -> tuple[_Term, ...]:
        """Terms of the strains."""
        return CURVED_TERMS if self.geometry.curved else FLAT_TERMS

    def scale(self, across: Array) -> Array:
        """Length of a unit step along: 1, or the radius [mm]."""
        return across if self.geometry.curved else np.ones_like(across)

    def rotation(self, along: Array) -> Array:
        """Angle of the local axes against the plan axes [rad]."""
        return along if self.geometry.curved else np.zeros_like(along)

    @cached_property
    def across_matrices(self) -> dict[tuple[int, int, int], Array]:
        """Integrals over the depth by (derivative, derivative, power of h)."""
        return {}

    def across_matrix(self, d1: int, d2: int, power: int) -> Array:
        """Integral of h^power N_i^(d1) N_j^(d2) across, kept for the other strips."""
        if not self.geometry.curved:
            power = 0
        key = (d1, d2, power)
        if key not in self.across_matrices:
            self.across_matrices[key] = self.across.matrix(
                d1, d2, lambda y: self.scale(y) ** float(power)
            )
        return self.across_matrices[key]

    def strip(self, e: int) -> Array:
        """Stiffness of strip e, shape (m, 3, n, m, 3, n): node along, unknown, node across."""
        x, weights, tables = self.along.table(e, extra=4 if self.geometry.curved else 2)
        material = local_stiffness(self.stiffness, self.rotation(x))
        m, n = tables[0].shape[1], self.across.size
        out = np.zeros((m, 3, n, m, 3, n))
        pairs: dict[tuple[int, int], tuple[list[Array], list[Array]]] = {}
        for one in self.terms:
            for two in self.terms:
                if one.unknown > two.unknown:
                    continue
                D = material[:, one.strain, two.strain]
                if not D.any():
                    continue
                factor = one.factor * two.factor
                lengthwise = (tables[one.d_along].T * (weights * D * factor)) @ tables[two.d_along]
                depthwise = self.across_matrix(
                    one.d_across, two.d_across, one.power + two.power + 1
                )
                first, second = pairs.setdefault((one.unknown, two.unknown), ([], []))
                first.append(lengthwise.ravel())
                second.append(depthwise.ravel())
        for (i, j), (first, second) in pairs.items():
            product = np.stack(first, axis=1) @ np.stack(second)
            out[:, i, :, :, j, :] = product.reshape(m, m, n, n).transpose(0, 2, 1, 3)
            if i != j:
                out[:, j, :, :, i, :] = out[:, i, :, :, j, :].transpose(2, 3, 0, 1)
        return out

    def strains(self, unknowns: Array, along: Array, across: Array) -> Array:
        """Strains in local axes on the product of given axes' basis tables.

        ``along`` and ``across`` have shape (2, points, nodes): values and slopes; the scale at
        the points across is taken from the axis of recovery. Returned shape (5, p, q, cases).
        """
        h = self.scale(self.across.recovery.nodes)
        shape = (5, along.shape[1], across.shape[1], unknowns.shape[-1])
        out = np.zeros(shape)
        for term in self.terms:
            lengthwise = np.tensordot(along[term.d_along], unknowns[:, term.unknown], (1, 0))
            part = across[term.d_across] @ lengthwise
            out[term.strain] += term.factor * part * (h ** float(term.power))[None, :, None]
        return out
