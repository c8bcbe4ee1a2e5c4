"""What a solved beam says: its curves anywhere, their true extremes, sums of cases."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.beam_model import Beam, within
from shelfload.solve.polynomial import TERMS, derivative, unit_roots, value

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Extremes:
    """Largest and smallest sag, moment and shear, and where, per case and segment.

    Segments are the overhangs and the spans from the left, as in BeamResult.spans. Both
    ends of a segment count; over a support, shear is taken on the segment's own side.

    Attributes
    ----------
    w_max, w_min : ndarray, shape (..., cases, segments)
        Sag, down positive, from the unloaded straight line [mm]
    M_max, M_min : ndarray, shape (..., cases, segments)
        Moment, sagging positive [N mm]
    V_max, V_min : ndarray, shape (..., cases, segments)
        Shear [N]
    w_max_at, w_min_at, M_max_at, M_min_at, V_max_at, V_min_at : ndarray, same shape
        Place from the left end of the beam [mm]
    """

    w_max: Array
    w_max_at: Array
    w_min: Array
    w_min_at: Array
    M_max: Array
    M_max_at: Array
    M_min: Array
    M_min_at: Array
    V_max: Array
    V_max_at: Array
    V_min: Array
    V_min_at: Array

    @property
    def V_abs_max(self) -> Array:
        """Largest size of the shear [N], (..., cases, segments)."""
        return np.maximum(self.V_max, -self.V_min)

    @property
    def M_abs_max(self) -> Array:
        """Largest size of the moment [N mm], (..., cases, segments)."""
        return np.maximum(self.M_max, -self.M_min)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamResult:
    """A solved beam; all of it is linear in the loads.

    Attributes
    ----------
    beam : Beam
        The beam that was solved [-]
    edges : ndarray, shape (pieces + 1,)
        Places between which the curves are polynomials [mm]
    segment : ndarray of int, shape (pieces,)
        Overhang or span that a piece lies in, counted from the left [-]
    marks : ndarray, shape (segments + 1,)
        Ends of the segments: supports and free ends [mm]
    curves : ndarray, shape (3, ..., cases, pieces, 6)
        Power coefficients, over 0 to 1 along each piece, of sag [mm], moment [N mm] and
        shear [N]
    reactions : ndarray, shape (..., cases, n)
        Force of each support on the beam, up positive [N]
    support_moments : ndarray, shape (..., cases, n)
        Moment of each support on the beam: what the beam's moment rises by from left to
        right of the support, so negative for a loaded clamp at the left end [N mm]
    support_sag : ndarray, shape (..., cases, n)
        Sag at the supports, down positive [mm]
    support_rotation : ndarray, shape (..., cases, n)
        Rotation of the cross-section over the supports, positive where sag grows to the
        right; the slope of a beam that shears differs from it by V / GA [rad]
    """

    beam: Beam
    edges: Array
    segment: NDArray[np.intp]
    marks: Array
    curves: Array
    reactions: Array
    support_moments: Array
    support_sag: Array
    support_rotation: Array

    @property
    def cases(self) -> int:
        """Number of load cases."""
        return int(self.reactions.shape[-2])

    @property
    def spans(self) -> Array:
        """From and to [mm] of each segment, overhangs included, (segments, 2)."""
        return np.stack([self.marks[:-1], self.marks[1:]], axis=-1)

    @property
    def is_overhang(self) -> NDArray[np.bool_]:
        """Which segments are overhangs, (segments,)."""
        supports = self.beam.support_at
        beyond: NDArray[np.bool_] = (self.marks[1:] <= supports[0]) | (
            self.marks[:-1] >= supports[-1]
        )
        return beyond

    def at(self, x: ArrayLike, *, left: bool = False) -> tuple[Array, Array, Array]:
        """Sag [mm], moment [N mm] and shear [N] at places x [mm], each (..., cases, len(x)).

        Where the shear jumps, it is the value just right of x, or just left of it with
        ``left``; at the two ends of the beam it is always the value inside the beam.
        """
        places = within(np.atleast_1d(np.asarray(x, dtype=np.float64)), self.beam.length, "x")
        piece = np.searchsorted(self.edges, places, side="left" if left else "right") - 1
        piece = np.clip(piece, 0, self.edges.size - 2)
        t = (places - self.edges[piece]) / np.diff(self.edges)[piece]
        w, M, V = value(self.curves[..., piece, :], t)
        return w, M, V

    def combine(self, weights: ArrayLike) -> BeamResult:
        """Add up cases: weights (..., m, cases) [-] give a result with m cases."""
        factors = np.asarray(weights, dtype=np.float64)
        if factors.ndim < 2 or factors.shape[-1] != self.cases:
            raise ValueError(f"weights: shape (m, {self.cases}) needed, not {factors.shape}")
        flat = self.curves.reshape(*self.curves.shape[:-2], -1)
        curves = factors @ flat
        return replace(
            self,
            curves=curves.reshape(*curves.shape[:-1], -1, TERMS),
            reactions=factors @ self.reactions,
            support_moments=factors @ self.support_moments,
            support_sag=factors @ self.support_sag,
            support_rotation=factors @ self.support_rotation,
        )

    def extremes(self) -> Extremes:
        """Find the true extremes of every curve in every segment, to rounding.

        Candidates are both ends of every piece and all roots of the derivative between.
        """
        edges, segments = self.edges, self.marks.size - 1
        h = edges[1:] - edges[:-1]
        c = self.curves.reshape(-1, h.size, TERMS)  # (curve and case, piece, term)
        rows = c.reshape(-1, TERMS)
        which, t = unit_roots(derivative(rows))
        piece = which % h.size
        ends_at = np.empty((2, len(c), h.size))
        ends_at[0], ends_at[1] = edges[:-1], edges[1:]
        group = (np.arange(len(c))[:, None] * segments + self.segment).ravel()
        values = np.concatenate([rows[:, 0], rows.sum(axis=-1), value(rows[which], t)])
        places = np.concatenate([ends_at.ravel(), edges[piece] + h[piece] * t])
        groups = np.concatenate([group, group, group[which]])
        order = np.lexsort((values, groups))
        count = np.bincount(groups, minlength=c.shape[0] * segments)
        last = np.cumsum(count) - 1
        ends = order[np.stack([last, last - count + 1])]  # largest, smallest
        ends = ends.reshape(2, *self.curves.shape[:-2], segments).swapaxes(0, 1)
        (w, M, V), (w_at, M_at, V_at) = values[ends], places[ends]
        return Extremes(
            w_max=w[0],
            w_max_at=w_at[0],
            w_min=w[1],
            w_min_at=w_at[1],
            M_max=M[0],
            M_max_at=M_at[0],
            M_min=M[1],
            M_min_at=M_at[1],
            V_max=V[0],
            V_max_at=V_at[0],
            V_min=V[1],
            V_min_at=V_at[1],
        )
