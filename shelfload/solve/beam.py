"""Beams on any supports under any loads: the stiffness method, exact for beams that shear.

Nodes lie at the supports only. Overhangs are determinate and act on the outer supports;
what happens between supports follows from statics and two integrations, piece by piece
between the places where the load changes. Nothing depends on a mesh.

Signs: load and sag down, sagging moment positive; V = dM/dx, so that it is positive at the
left end of a loaded span; rotation positive where sag grows to the right; reactions up.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shelfload.solve.beam_envelope import Envelope, envelope, envelopes, reaction_range
from shelfload.solve.beam_model import Beam, Loads, within
from shelfload.solve.beam_result import BeamResult, Extremes

__all__ = [
    "Beam",
    "BeamResult",
    "Envelope",
    "Extremes",
    "Loads",
    "envelope",
    "envelopes",
    "reaction_range",
    "solve",
]

Array = NDArray[np.float64]
Index = NDArray[np.intp]
_MEAN = 1.0 / np.arange(1.0, 5.0)  # of the powers of t over 0..1
_FIRST_MOMENT = 1.0 / np.arange(2.0, 6.0)


class _Cut(NamedTuple):
    """A beam cut over its supports: pieces, and what statics alone says about each."""

    edges: Array  # (P + 1,)
    segment: Index  # (P,) which overhang or span a piece lies in, from the left
    marks: Array  # (S + 1,) ends of the segments
    first: int  # segment to the right of the first support
    passed: Array  # (P, P) signed sums over the pieces on the way from the cut
    V: Array  # (C, P, 4) shear, power coefficients over the piece
    M: Array  # (C, P, 4) moment likewise
    on_support: Array  # (C, n) forces right over the supports


def solve(beam: Beam, loads: Loads) -> BeamResult:
    """Solve a beam for all its load cases at once.

    Parameters
    ----------
    beam : Beam
        The beam on its supports [-]
    loads : Loads
        The load cases on it [-]

    Returns
    -------
    result : BeamResult
        Reactions, and sag, moment and shear as exact polynomials; see there for units [-]

    Raises
    ------
    Mechanism
        If the supports let the beam move freely.
    ValueError
        If a load lies off the beam.

    Notes
    -----
    Rigid supports and clamps are left out of the unknowns, not replaced by stiff springs.

    Source: own derivation from EI psi' = -M and w' = psi + V / GA; the same as the stiffness
    matrix with phi = 12 EI / (GA L^2) in Przemieniecki, Theory of Matrix Structural Analysis,
    section 5.6 (from memory).
    """
    beam.require_held()
    cut = _cut(beam, loads)
    n = beam.support_at.size
    h = np.diff(cut.edges)
    L = np.diff(beam.support_at)
    EI, GA = beam.EI[..., None], beam.GA[..., None]

    # Spans as simply supported: area of the moment about either end.
    inside = cut.segment[:, None] == np.arange(cut.first, cut.first + n - 1)
    ends = np.searchsorted(cut.edges, beam.support_at)
    (V_before, M_before), (V_after, M_after) = _beside(np.stack([cut.V, cut.M]), ends)
    M_end = M_before[:, 1:]
    along = cut.edges[:-1] - cut.marks[cut.segment]
    area = h * (cut.M @ _MEAN)
    about_left = (along * area + h**2 * (cut.M @ _FIRST_MOMENT)) @ inside
    about_right = (area @ inside) * L - about_left
    turned = np.stack([about_right - M_end * L**2 / 6.0, about_left - M_end * L**2 / 3.0], axis=-1)
    turned = turned / (EI * L)[..., None, :, None]  # (..., C, n - 1, 2)

    # What overhangs and cut spans hand to the supports: force down, moment.
    down = cut.on_support - V_before + V_after
    down[:, :-1] -= M_end / L
    down[:, 1:] += M_end / L
    moment = -M_after
    moment[:, 0] += M_before[:, 0]

    # End moments of a span are S (Q' u - turned), forces on its nodes Q times those.
    ratio = 1.0 / (1.0 + 12.0 * EI / (GA * L**2))
    near, far = 1.0 + 3.0 * ratio, 1.0 - 3.0 * ratio
    S = np.stack([near, far, far, near], axis=-1).reshape(*near.shape, 2, 2)
    S = S * (EI / L)[..., None, None]
    one, nil = np.ones_like(L), np.zeros_like(L)
    Q = np.array([[1 / L, -1 / L], [one, nil], [-1 / L, 1 / L], [nil, -one]]).transpose(2, 0, 1)
    u = _movements(beam, Q, S, turned, np.stack([down, moment], axis=-1))
    strain = np.concatenate([u[..., :-1, :], u[..., 1:, :]], axis=-1)  # (..., C, n - 1, 4)
    held = _each(S, _each(Q.swapaxes(-1, -2), strain) - turned)

    # Continuity adds a straight line to the moments of each cut span.
    rise = ((held[..., 1] - held[..., 0] - M_end) / L) @ inside.T
    V, M = VM = np.empty((2, *rise.shape, 4))
    V[:], M[:] = cut.V, cut.M
    V[..., 0] += rise
    M[..., 0] += held[..., 0] @ inside.T + rise * along
    M[..., 1] += rise * h
    (V_before, M_before), (V_after, M_after) = _beside(VM, ends)
    k, turn = beam.support_stiffness[..., None, :], beam.turn_stiffness[..., None, :]
    return BeamResult(
        beam=beam,
        edges=cut.edges,
        segment=cut.segment,
        marks=cut.marks,
        curves=_curves(beam, cut, u, V, M),
        reactions=np.where(k > 0.0, V_after - V_before + cut.on_support, 0.0),
        support_moments=np.where(turn > 0.0, M_after - M_before, 0.0),
        support_sag=u[..., 0],
        support_rotation=u[..., 1],
    )


def _cut(beam: Beam, loads: Loads) -> _Cut:
    patches = loads.patches.copy()
    patches[:, 1] = within(patches[:, 1], beam.length, "patches: start")
    patches[:, 2] = within(patches[:, 2], beam.length, "patches: end")
    point_at = within(loads.points[:, 1], beam.length, "points: place")
    marks = np.unique(np.concatenate([[0.0], beam.support_at, [beam.length]]))
    edges = np.unique(np.concatenate([marks, patches[:, 1], patches[:, 2], point_at]))
    h = np.diff(edges)
    segment = np.searchsorted(marks, edges[:-1], side="right") - 1
    q_left, q_right = _patch_loads(patches, edges, loads.cases)
    force = _by_case(loads.points[:, 0], loads.cases) @ (
        loads.points[:, 2, None] * (point_at[:, None] == edges)
    )
    support_edge = np.searchsorted(edges, beam.support_at)
    on_support = force[:, support_edge]
    force[:, support_edge] = 0.0

    # The cut is at the left end of a segment; that of the right overhang at its free end.
    from_right = (edges[:-1] >= beam.support_at[-1])[:, None]
    left, here, begin = edges[:-1], edges[:-1, None], marks[segment][:, None]
    passed = np.where(from_right, left >= here, -1.0 * ((left < here) & (left >= begin)))
    met = np.where(from_right, edges > here, -1.0 * ((edges <= here) & (edges >= begin)))
    V, M = np.zeros((2, loads.cases, h.size, 4))
    V[..., 0] = (h / 2.0 * (q_left + q_right)) @ passed.T + force @ met.T
    V[..., 1] = -h * q_left
    V[..., 2] = -h / 2.0 * (q_right - q_left)
    M[..., 1:] = V[..., :-1] * (h[:, None] * _MEAN[:-1])
    M[..., 0] = -M.sum(axis=-1) @ passed.T
    first = int(beam.support_at[0] > 0.0)
    return _Cut(edges, segment, marks, first, passed, V, M, on_support)


def _patch_loads(patches: Array, edges: Array, cases: int) -> tuple[Array, Array]:
    """Load per length at the left and right edge of each piece, (cases, pieces)."""
    case, start, end, w_start, w_end = patches.T[..., None]
    w = w_start + (w_end - w_start) / (end - start) * (edges - start)
    covered = (edges[:-1] >= start) & (edges[1:] <= end)
    by_case = _by_case(case[:, 0], cases)
    return by_case @ (covered * w[:, :-1]), by_case @ (covered * w[:, 1:])


def _by_case(case: Array, cases: int) -> Array:
    """1 where a load belongs to a case, (cases, loads)."""
    belongs: Array = (case == np.arange(cases)[:, None]).astype(np.float64)
    return belongs


def _beside(curve: Array, edges: Index) -> tuple[Array, Array]:
    """Value of a curve just left and just right of some edges, 0 outside the beam."""
    nothing = np.zeros((*curve.shape[:-2], 1))
    left = np.concatenate([nothing, curve.sum(axis=-1)], axis=-1)
    right = np.concatenate([curve[..., 0], nothing], axis=-1)
    return left[..., edges], right[..., edges]


def _each(matrix: Array, vector: Array) -> Array:
    """Multiply a matrix per span with a vector per case and span."""
    product: Array = (matrix[..., None, :, :, :] @ vector[..., None])[..., 0]
    return product


def _movements(beam: Beam, Q: Array, S: Array, turned: Array, given: Array) -> Array:
    """Sag and rotation of every support, (..., cases, n, 2)."""
    n = beam.support_at.size
    K = np.zeros((*S.shape[:-3], 2 * n, 2 * n))
    k = Q @ S @ Q.swapaxes(-1, -2)
    pushed = _each(Q @ S, turned)
    f = np.broadcast_to(given, (*pushed.shape[:-2], n, 2)).copy()
    f[..., :-1, :] += pushed[..., :2]
    f[..., 1:, :] += pushed[..., 2:]
    for i in range(n - 1):
        K[..., 2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += k[..., i, :, :]
    k_w, k_turn = np.broadcast_arrays(beam.support_stiffness, beam.turn_stiffness)
    spring = np.stack([k_w, k_turn], axis=-1).reshape(*k_w.shape[:-1], 2 * n)
    fixed = np.isinf(spring)
    free = 1.0 - fixed
    K = (K + np.eye(2 * n) * np.where(fixed, 0.0, spring)[..., None, :]) * (
        free[..., :, None] * free[..., None, :]
    ) + np.eye(2 * n) * fixed[..., None, :]
    # Sag and rotation differ in unit: scaled to a unit diagonal, neither swamps the other.
    scale = 1.0 / np.sqrt(np.diagonal(K, axis1=-2, axis2=-1))
    K = K * scale[..., :, None] * scale[..., None, :]
    b = f.reshape(*f.shape[:-2], 2 * n) * (scale * free)[..., None, :]
    u = np.linalg.solve(K, b.swapaxes(-1, -2)).swapaxes(-1, -2) * scale[..., None, :]
    movements: Array = u.reshape(*u.shape[:-1], n, 2)
    return movements


def _curves(beam: Beam, cut: _Cut, u: Array, V: Array, M: Array) -> Array:
    """Sag, moment and shear over each piece as power coefficients, (3, ..., C, P, 6)."""
    h = np.diff(cut.edges)
    EI, GA = beam.EI[..., None, None, None], beam.GA[..., None, None, None]
    # Sag is integrated from the left support of each segment; the left overhang from its right.
    left, here, begin = cut.edges[:-1], cut.edges[:-1, None], cut.marks[cut.segment][:, None]
    back = (left >= here) & (left < beam.support_at[0])
    forth = (left < here) & (left >= begin)
    way = np.where(here < beam.support_at[0], -1.0 * back, forth)
    anchor = np.maximum(cut.segment - cut.first, 0)
    curvature = -M * h[:, None] / EI  # of psi, per piece
    psi = np.zeros((*M.shape[:-1], 5))
    psi[..., 1:] = curvature * _MEAN
    psi[..., 0] = u[..., anchor, 1] + psi.sum(axis=-1) @ way.T
    curves = np.zeros((3, *M.shape[:-1], 6))
    curves[0, ..., 1:] = psi * (h[:, None] / np.arange(1.0, 6.0))
    curves[0, ..., 1:4] += M[..., 1:] / GA
    curves[0, ..., 0] = u[..., anchor, 0] + curves[0].sum(axis=-1) @ way.T
    curves[1, ..., :4] = M
    curves[2, ..., :4] = V
    return curves
