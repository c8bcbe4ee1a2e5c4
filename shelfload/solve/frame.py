"""Stiffness method for plane frames of Timoshenko members, many load cases at once.

Each member is described by its stretch and by the turn of its two nodes against its
chord. The stiffness of its joints is part of the relation between these and its end
moments (springs in series with the member), so that pinned and rigid are the exact ends
of one formula. Loads along members enter by what they do to the member on two simple
supports. Results are exact for loads that are linear along a member.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from shelfload.errors import Mechanism
from shelfload.solve.frame_loads import (
    LineLoads,
    MemberForces,
    PointLoads,
    gauss_points,
    member_forces,
)
from shelfload.solve.frame_model import Bools, Floats, Frame, Ints
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.frame_segments import member_segments
from shelfload.solve.mechanism import free_motions, idle_turns, motions_in_words
from shelfload.solve.shear_panel import panel_shear_rows

_SOUND = 1e-10
"""Least eigenvalue of the scaled stiffness above which no further test is needed."""


@dataclass(frozen=True, slots=True, eq=False)
class Stiffness:
    """Stiffness of all parts of a frame, and of the whole."""

    flexibility: Floats
    basic: Floats
    kinematics: Floats
    numbers: Ints
    panel_rows: Floats
    panel_numbers: Ints
    whole: Floats
    free: Bools


def end_flexibility(length: ArrayLike, EI: ArrayLike, GA: ArrayLike) -> Floats:
    """Turn of the ends of a simply supported member under moments at its ends.

    Parameters
    ----------
    length : array_like, shape (m,)
        Length [mm]
    EI : array_like, shape (m,)
        Bending stiffness [N mm2]
    GA : array_like, shape (m,)
        Shear stiffness, infinite for none of its sag [N]

    Returns
    -------
    flexibility : ndarray, shape (2, m)
        Turn of the near and of the far end by a unit moment, both clockwise [rad/(N mm)]

    Notes
    -----
    L / (3 EI) + 1 / (GA L) and -L / (6 EI) + 1 / (GA L).

    Source: virtual work for a Timoshenko beam (textbook, e.g. Przemieniecki, Theory of
    Matrix Structural Analysis, 5.6, in inverted form).
    """
    L, EI, GA = (np.asarray(value, dtype=float) for value in (length, EI, GA))
    shear = 1.0 / (GA * L)
    bending = L / (6.0 * EI)
    return np.stack([2.0 * bending + shear, shear - bending])


def sprung_end_stiffness(flexibility: ArrayLike, joints: ArrayLike) -> Floats:
    r"""End moments of a member by the turn of its nodes, joints between them included.

    .. math:: S = \frac{1}{a^2 - b^2 p_i p_j}
        \begin{pmatrix} a p_i & -b p_i p_j \\ -b p_i p_j & a p_j \end{pmatrix},
        \quad p = \frac{1}{1 + 1 / (k a)}

    Parameters
    ----------
    flexibility : array_like, shape (2, m)
        a and b as :func:`end_flexibility` gives them [rad/(N mm)]
    joints : array_like, shape (m, 2)
        Stiffness k of the joint at each end, 0 to infinite [N mm/rad]

    Returns
    -------
    stiffness : ndarray, shape (m, 2, 2)
        Moments on the ends by turns of the nodes against the chord [N mm/rad]

    Notes
    -----
    Source: own derivation: inverse of the flexibility with 1 / k added on its diagonal.
    """
    a, b = np.asarray(flexibility, dtype=float)
    with np.errstate(divide="ignore"):
        p = 1.0 / (1.0 + 1.0 / (np.asarray(joints, dtype=float) * a[:, None]))
    both = p[:, 0] * p[:, 1]
    # a2 - b2 p p without loss of figures where a and b are nearly alike (soft in shear).
    scale = 1.0 / ((a - b) * (a + b) + b * b * (1.0 - both))
    stiffness = np.empty((len(a), 2, 2))
    stiffness[:, 0, 0] = scale * a * p[:, 0]
    stiffness[:, 1, 1] = scale * a * p[:, 1]
    stiffness[:, 0, 1] = stiffness[:, 1, 0] = -scale * b * both
    return stiffness


def assemble(frame: Frame) -> Stiffness:
    """Stiffness matrix of a frame, with the parts that the results need again.

    Parameters
    ----------
    frame : Frame
        The frame [-]

    Returns
    -------
    stiffness : Stiffness
        ``whole`` is square over all movements of all nodes [N/mm], [N], [N mm]

    Notes
    -----
    Source: displacement method, any textbook on matrix structural analysis.
    """
    m = len(frame.members)
    c, s = frame.direction.T
    per_length = 1.0 / frame.length
    kinematics = np.zeros((m, 3, 6))
    kinematics[:, 0, 0] = -c
    kinematics[:, 0, 1] = -s
    kinematics[:, 0, 3] = c
    kinematics[:, 0, 4] = s
    kinematics[:, 1:, 0] = -(s * per_length)[:, None]
    kinematics[:, 1:, 1] = (c * per_length)[:, None]
    kinematics[:, 1:, 3] = (s * per_length)[:, None]
    kinematics[:, 1:, 4] = -(c * per_length)[:, None]
    kinematics[:, 1, 2] = kinematics[:, 2, 5] = 1.0
    flexibility = end_flexibility(frame.length, frame.EI, frame.GA)
    basic = np.zeros((m, 3, 3))
    basic[:, 0, 0] = frame.EA * per_length
    basic[:, 1:, 1:] = sprung_end_stiffness(flexibility, frame.joints)
    blocks = kinematics.transpose(0, 2, 1) @ (basic @ kinematics)
    numbers = (3 * frame.members[:, :, None] + np.arange(3)).reshape(m, 6)

    size = 3 * len(frame.nodes)
    places = (numbers[:, :, None] * size + numbers[:, None, :]).ravel()
    values = blocks.ravel()
    panel_rows, panel_numbers = np.zeros((0, 8)), np.zeros((0, 8), dtype=np.intp)
    if len(frame.panels):
        panel_rows, area = panel_shear_rows(frame.nodes[frame.panels])
        panel_numbers = (3 * frame.panels[:, :, None] + np.arange(2)).reshape(-1, 8)
        spread = (frame.panel_stiffness / area)[:, None]
        panel_blocks = (spread * panel_rows)[:, :, None] * panel_rows[:, None, :]
        panel_places = panel_numbers[:, :, None] * size + panel_numbers[:, None, :]
        places = np.concatenate([places, panel_places.ravel()])
        values = np.concatenate([values, panel_blocks.ravel()])
        panel_rows = panel_rows * spread
    whole = np.bincount(places, weights=values, minlength=size * size).reshape(size, size)
    whole.flat[:: size + 1] += frame.springs.ravel()
    free = ~(frame.fixed | idle_turns(frame)).ravel()
    return Stiffness(
        flexibility, basic, kinematics, numbers, panel_rows, panel_numbers, whole, free
    )


def solve_frame(
    frame: Frame,
    *,
    lines: LineLoads | None = None,
    points: PointLoads | None = None,
    nodal: ArrayLike | None = None,
    cases: int = 1,
) -> FrameResult:
    """Movements and forces of a plane frame under one or many load cases.

    Parameters
    ----------
    frame : Frame
        The frame [-]
    lines : LineLoads, optional
        Loads spread along members [N/mm]
    points : PointLoads, optional
        Forces along members [N]
    nodal : array_like, shape (n, 3, cases), optional
        Forces on nodes to the right and down, and moments clockwise [N] and [N mm]
    cases : int, optional
        Number of load cases, if more than the loads name [-]

    Returns
    -------
    result : FrameResult
        One column for each load case [mm], [N], [N mm]

    Raises
    ------
    Mechanism
        The frame can move without resistance; ``free`` holds the numbers of the movements
        (3 * node + 0 right, 1 down, 2 turn).
    ValueError
        A load makes no sense.

    Notes
    -----
    A node whose members are all pinned has no turn of its own; this is no mechanism, and
    its turn is given as 0. A moment on such a node is a mechanism.

    Source: displacement method, any textbook on matrix structural analysis; sprung ends
    and loads along members by own derivation, tested against a reference library.
    Valid for: small movements, linear elastic; axial force does not soften the frame.
    """
    on_nodes = None if nodal is None else np.asarray(nodal, dtype=float)
    if on_nodes is not None:
        if on_nodes.ndim != 3 or on_nodes.shape[:2] != frame.nodes.shape[:1] + (3,):
            raise ValueError("nodal must have the shape (nodes, 3, cases)")
        if not np.isfinite(on_nodes).all():
            raise ValueError("every load must be a finite number")
        cases = max(cases, on_nodes.shape[2])
    forces = member_forces(frame, lines, points, cases)
    parts = assemble(frame)
    size = len(parts.whole)
    load = np.zeros((size, forces.cases))
    if on_nodes is not None:
        load[:, : on_nodes.shape[2]] = on_nodes.reshape(size, -1)
    turned, carried = _on_simple_supports(frame, forces)
    if turned is not None:
        equivalent = parts.kinematics.transpose(0, 2, 1) @ (parts.basic @ turned)
        equivalent += carried
        np.add.at(load, parts.numbers, equivalent)

    moved = np.zeros_like(load)
    free = parts.free
    moved[free] = _solve_scaled(frame, parts.whole[np.ix_(free, free)], load[free])
    unheld = ~free & ~frame.fixed.ravel()
    if np.any(load[unheld]):
        spun = np.flatnonzero(unheld & np.any(load, axis=1))
        raise Mechanism(spun.tolist(), "a moment acts on a node where every member is pinned")

    member_moved = moved[parts.numbers]
    bent = parts.kinematics @ member_moved
    if turned is not None:
        bent -= turned
    basic_forces = parts.basic @ bent
    end_forces = -(parts.kinematics.transpose(0, 2, 1) @ basic_forces)
    if turned is not None:
        end_forces += carried
    shear_flow = np.zeros((0, forces.cases))
    if len(frame.panels):
        shear_flow = np.sum(parts.panel_rows[:, :, None] * moved[parts.panel_numbers], axis=1)
    return FrameResult(
        frame=frame,
        displacements=moved.reshape(-1, 3, forces.cases),
        end_forces=end_forces.reshape(-1, 2, 3, forces.cases),
        shear_flow=shear_flow,
        support_forces=np.where(
            frame.fixed.reshape(-1, 1),
            load - parts.whole @ moved,
            frame.springs.reshape(-1, 1) * moved,
        ).reshape(-1, 3, forces.cases),
        segments=member_segments(
            frame, forces, parts.flexibility, member_moved, basic_forces, turned
        ),
    )


def _on_simple_supports(frame: Frame, forces: MemberForces) -> tuple[Floats | None, Floats | None]:
    """Stretch and end turns of loaded members on simple supports; what these carry.

    Turn at the first end: integral of q x (L - x) (2 L - x) / (6 L EI); shear turns no end
    section. The axial load rests on the first node. (Source: textbook virtual work.)
    """
    if not (forces.member.size or forces.point_member.size):
        return None, None
    at, across = gauss_points(
        forces.start, forces.end, forces.end, forces.across, forces.across_end
    )
    _, along = gauss_points(forces.start, forces.end, forces.end, forces.along, forces.along_end)
    x = np.concatenate([at.ravel(), forces.point_at])
    P = np.concatenate([across.ravel(), forces.point_across])
    N = np.concatenate([along.ravel(), forces.point_along])
    member = np.concatenate([forces.member, forces.member, forces.member, forces.point_member])
    case = np.concatenate([forces.case, forces.case, forces.case, forces.point_case])
    L = frame.length[member]
    rest = L - x
    moment = P * x * rest / (6.0 * L * frame.EI[member])
    c, s = frame.direction[member].T
    far = P * x / L
    near = P - far
    quantities = np.stack(
        [
            N * x / frame.EA[member],
            moment * (L + rest),
            -moment * (L + x),
            N * c - near * s,
            N * s + near * c,
            -far * s,
            far * c,
        ]
    )
    count, cases = len(frame.members), forces.cases
    bins = (member * cases + case) + np.arange(7)[:, None] * (count * cases)
    summed = np.bincount(
        bins.ravel(), weights=quantities.ravel(), minlength=7 * count * cases
    ).reshape(7, count, cases)
    carried = np.zeros((count, 6, cases))
    carried[:, [0, 1, 3, 4]] = summed[3:].transpose(1, 0, 2)
    return np.ascontiguousarray(summed[:3].transpose(1, 0, 2)), carried


def _solve_scaled(frame: Frame, stiffness: Floats, load: Floats) -> Floats:
    """Solve for the free movements; a frame that is not held raises Mechanism."""
    diagonal = stiffness.diagonal()
    if not diagonal.size:
        return np.zeros_like(load)
    if diagonal.min() <= 0:
        raise _not_held(frame)
    scale = 1.0 / np.sqrt(diagonal)
    scaled = stiffness * scale[:, None] * scale
    sound = True
    try:
        shifted = scaled.copy()
        shifted.flat[:: len(scaled) + 1] -= _SOUND
        np.linalg.cholesky(shifted)
    except np.linalg.LinAlgError:
        sound = False
    if not sound and free_motions(frame):
        raise _not_held(frame)
    try:
        moved = np.linalg.solve(scaled, load * scale[:, None])
    except np.linalg.LinAlgError:
        raise _not_held(frame) from None
    return np.asarray(moved * scale[:, None])


def _not_held(frame: Frame) -> Mechanism:
    """Build the error for a frame that moves freely."""
    motions = free_motions(frame)
    numbers = sorted({int(number) for motion in motions for number in motion.numbers})
    return Mechanism(numbers, motions_in_words(motions))
