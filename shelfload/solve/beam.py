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
from shelfload.solve.beam_layout import Layout, layout
from shelfload.solve.beam_model import Beam, Loads, within
from shelfload.solve.beam_result import BeamResult, Extremes
from shelfload.solve.polynomial import TERMS

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


class _Cut(NamedTuple):
    """What statics alone says about a beam cut over its supports."""

    V: Array  # (C, P, 4) shear, power coefficients over the piece
    M: Array  # (C, P, 4) moment likewise
    M_end: Array  # (C, n - 1) moment at the right end of each span, cut at its left
    down: Array  # (C, n) force that spans, overhangs and loads right there hand to a support
    moment: Array  # (C, n) moment likewise


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
    patches, points = loads.patches, loads.points
    start = within(patches[:, 1], beam.length, "patches: start")
    end = within(patches[:, 2], beam.length, "patches: end")
    at = within(points[:, 1], beam.length, "points: place")
    loaded_at = frozenset(start.tolist() + end.tolist() + at.tolist())
    lay = layout(beam.length, tuple(beam.support_at.tolist()), loaded_at)
    cut = _cut(lay, loads, start, end, at)
    n, L, spans, span = lay.ends.size, lay.L, lay.spans, lay.span

    # End moments of a span: near and far times the rotations of its ends from the chord.
    EI = beam.EI[..., None]
    stiff = EI / L
    bowed = stiff * (3.0 / (1.0 + 12.0 * EI / (beam.GA[..., None] * (L * L))))
    near, far = (stiff + bowed)[..., None, None, :], (stiff - bowed)[..., None, None, :]
    hinged = _hinged(lay, cut) / EI[..., None, None]
    clamped = near * hinged + far * hinged[..., ::-1, :]  # (..., C, 2, n - 1)
    f = clamped.reshape(*clamped.shape[:-2], -1) @ lay.strains
    f[..., :n] += cut.down
    f[..., n:] += cut.moment
    u = _movements(beam, lay, near, far, f)
    strain = (u @ lay.strains.T).reshape(*u.shape[:-1], 2, n - 1)
    bent = near * strain + far * strain[..., ::-1, :] - clamped
    M_left, M_right = bent[..., 0, :], bent[..., 1, :]

    # Continuity adds a straight line to the moments of each cut span.
    line = (M_right - M_left) / L
    curves = np.zeros((3, *line.shape[:-1], lay.h.size, TERMS))
    V, M = curves[2, ..., :4], curves[1, ..., :4]
    V[:], M[:] = cut.V, cut.M
    rise = (line - cut.M_end / L).take(span, axis=-1)
    V[..., spans, 0] += rise
    M[..., spans, 0] += M_left.take(span, axis=-1) + rise * lay.along
    M[..., spans, 1] += rise * lay.h[spans]
    _sag(beam, lay, u, M, curves[0])
    return BeamResult(
        beam=beam,
        edges=lay.edges,
        segment=lay.segment,
        marks=lay.marks,
        curves=curves,
        reactions=_at_supports(cut.down, line, line, beam.support_stiffness),
        support_moments=_at_supports(-cut.moment, M_left, M_right, beam.turn_stiffness),
        support_sag=u[..., :n],
        support_rotation=u[..., n:],
    )


def _cut(lay: Layout, loads: Loads, start: Array, end: Array, at: Array) -> _Cut:
    ends, h = lay.ends, lay.h
    q_left, q_right = _patch_loads(loads, start, end, lay.edges)
    # Load up to each edge and just right of it; what stands right over a support is its own.
    passed = np.zeros((loads.cases, lay.edges.size + 1))
    passed[:, 2:] = h * 0.5 * (q_left + q_right)
    down = np.zeros((loads.cases, ends.size))
    if at.size:
        of_case = _by_case(loads.points[:, 0], loads.cases)
        forces = of_case @ (loads.points[:, 2, None] * (at[:, None] == lay.edges))
        down += forces[:, ends]
        forces[:, ends] = 0.0
        passed[:, 1:] += forces
    passed.cumsum(axis=-1, out=passed)
    V, M = np.zeros((2, loads.cases, h.size, 4))
    V[..., 0] = passed.take(lay.cut_load, axis=-1) - passed[:, 1:-1]
    V[..., 1] = -h * q_left
    V[..., 2] = h * 0.5 * (q_left - q_right)
    M[..., 1:] = V[..., :3] * -lay.turn[:, :3]
    bent = np.zeros((loads.cases, lay.edges.size))
    M.sum(axis=-1).cumsum(axis=-1, out=bent[:, 1:])
    M[..., 0] = bent[:, :-1] - bent.take(lay.cut_edge, axis=-1)

    over = bent.take(ends, axis=-1)
    load = passed.take(ends + 1, axis=-1)
    M_end = over[:, 1:] - over[:, :-1]
    lever = M_end / lay.L
    down[:, 0] += load[:, 0]
    down[:, 1:] += load[:, 1:] - load[:, :-1] + lever
    down[:, :-1] -= lever
    down[:, -1] += passed[:, -1] - load[:, -1]
    moment = np.zeros(down.shape)
    moment[:, 0] += over[:, 0]
    moment[:, -1] += bent[:, -1] - over[:, -1]
    return _Cut(V, M, M_end, down, moment)


def _patch_loads(loads: Loads, start: Array, end: Array, edges: Array) -> tuple[Array, Array]:
    """Load per length at the left and right edge of each piece, (cases, pieces)."""
    case, _, _, w_start, w_end = loads.patches.T
    slope = (w_end - w_start) / (end - start)
    start, end = start[:, None], end[:, None]
    w = w_start[:, None] + slope[:, None] * (edges - start)
    covered = (edges[:-1] >= start) & (edges[1:] <= end)
    of_case = _by_case(case, loads.cases)
    return of_case @ (covered * w[:, :-1]), of_case @ (covered * w[:, 1:])


def _by_case(case: Array, cases: int) -> Array:
    """1 where a load belongs to a case, (cases, loads)."""
    belongs: Array = (case == np.arange(cases)[:, None]).astype(np.float64)
    return belongs


def _hinged(lay: Layout, cut: _Cut) -> Array:
    """Rotation of both ends of each span on two hinges, times EI, (cases, 2, n - 1)."""
    of_pieces = (lay.hinged @ cut.M[:, lay.spans, :, None])[..., 0]
    return np.add.reduceat(of_pieces, lay.first_piece, axis=-2).swapaxes(-1, -2)


def _movements(beam: Beam, lay: Layout, near: Array, far: Array, f: Array) -> Array:
    """Sag of every support, then rotation of every support, (..., cases, 2 n)."""
    strains = lay.strains.reshape(2, -1, lay.strains.shape[-1])
    near, far = near[..., 0, :, :, None], far[..., 0, :, :, None]
    moments = near * strains + far * strains[::-1]
    K = lay.strains.T @ moments.reshape(*moments.shape[:-3], *lay.strains.shape)
    k, turn = beam.support_stiffness, beam.turn_stiffness
    if k.shape != turn.shape:
        k, turn = np.broadcast_arrays(k, turn)
    spring = np.concatenate([k, turn], axis=-1)
    # Each row over its own diagonal and spring: no unit swamps the other, and the row of a
    # rigid support says that nothing moves.
    give = 1.0 / (K.diagonal(axis1=-2, axis2=-1) + spring)
    held = np.ones(give.shape)
    np.multiply(spring, give, out=held, where=spring < np.inf)
    A = give[..., None] * K
    np.einsum("...ii->...i", A)[...] += held
    b = f * give[..., None, :]
    u: Array = np.linalg.solve(A, b.swapaxes(-1, -2)).swapaxes(-1, -2)
    return u


def _sag(beam: Beam, lay: Layout, u: Array, M: Array, w: Array) -> None:
    """Integrate the moment twice, and add what the shear does, which is the moment over GA."""
    EI, GA = beam.EI[..., None, None, None], beam.GA[..., None, None, None]
    slope = np.empty((*M.shape[:-1], TERMS - 1))
    slope[..., 1:] = M * lay.turn / EI
    slope[..., 0] = _from(slope[..., 1:], lay, u.take(lay.held + lay.ends.size, axis=-1))
    w[..., 1:] = slope * lay.rise
    w[..., 1:4] += M[..., 1:] / GA
    w[..., 0] = _from(w[..., 1:], lay, u.take(lay.held, axis=-1))


def _from(change: Array, lay: Layout, value: Array) -> Array:
    """What a quantity is at the left of each piece, from its value where the piece is held."""
    total = np.zeros((*change.shape[:-2], lay.edges.size))
    change.sum(axis=-1).cumsum(axis=-1, out=total[..., 1:])
    start: Array = total[..., :-1] - total.take(lay.held_edge, axis=-1) + value
    return start


def _at_supports(given: Array, right: Array, left: Array, stiffness: Array) -> Array:
    """What supports do: what they are given, and the spans to the right and left of them."""
    total = np.empty((*right.shape[:-1], given.shape[-1]))
    total[:] = given
    total[..., :-1] += right
    total[..., 1:] -= left
    total *= (stiffness > 0.0)[..., None, :]
    return total
