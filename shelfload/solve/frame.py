"""Stiffness method for plane frames of Timoshenko members, many load cases at once.

Loads along members enter by what they do to the member on two simple
supports. Results are exact for loads that are linear along a member.
"""

from __future__ import annotations

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
from shelfload.solve.frame_model import Floats, Frame
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.frame_segments import member_segments
from shelfload.solve.frame_stiffness import assemble
from shelfload.solve.mechanism import free_motions, idle_turns, motions_in_words

_SOUND = 1e-10
"""Least eigenvalue of the scaled stiffness above which no further test is needed."""

_LOST = 1e-14
"""Least eigenvalue below which the frame is held, but no figure of its sway is right."""


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
        if on_nodes.ndim != 3 or on_nodes.shape[:2] != (len(frame.nodes), 3):
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
    back = parts.kinematics.transpose(0, 2, 1)
    np.add.at(load, parts.numbers, back @ (parts.basic @ turned) + carried)

    moved = np.zeros_like(load)
    free = parts.free
    moved[free] = _solve_scaled(frame, parts.whole[np.ix_(free, free)], load[free])
    unheld = ~free & ~frame.fixed.ravel()
    if np.any(load[unheld]):
        spun = np.flatnonzero(unheld & np.any(load, axis=1))
        raise Mechanism(spun.tolist(), "a moment acts on a node where every member is pinned")

    member_moved = moved[parts.numbers]
    basic_forces = parts.basic @ (parts.kinematics @ member_moved - turned)
    end_forces = carried - back @ basic_forces
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


def _on_simple_supports(frame: Frame, forces: MemberForces) -> tuple[Floats, Floats]:
    """Stretch and end turns of loaded members on simple supports; what these carry.

    Turn at the first end: integral of q x (L - x) (2 L - x) / (6 L EI); shear turns no end
    section. The axial load rests on the first node. (Source: textbook virtual work.)
    """
    count, cases = len(frame.members), forces.cases
    if not (forces.member.size or forces.point_member.size):
        return np.zeros((count, 3, cases)), np.zeros((count, 6, cases))
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
    try:
        np.linalg.cholesky(scaled - _SOUND * np.eye(len(scaled)))
    except np.linalg.LinAlgError:
        _refuse_if_loose(frame, scaled)
    return np.asarray(np.linalg.solve(scaled, load * scale[:, None]) * scale[:, None])


def _refuse_if_loose(frame: Frame, scaled: Floats) -> None:
    """Raise Mechanism if anything moves freely, or so easily that figures are lost."""
    if free_motions(frame):
        raise _not_held(frame)
    values, shapes = np.linalg.eigh(scaled)
    if values[0] < _LOST:
        free = np.flatnonzero(~(frame.fixed | idle_turns(frame)).ravel())
        weakest = np.abs(shapes[:, values < _LOST]).max(axis=1)
        taking_part = free[weakest > 0.1 * weakest.max()]
        raise Mechanism(taking_part.tolist(), motions_in_words([]))


def _not_held(frame: Frame) -> Mechanism:
    """Build the error for a frame that moves freely."""
    motions = free_motions(frame)
    numbers = sorted({int(number) for motion in motions for number in motion.numbers})
    return Mechanism(numbers, motions_in_words(motions))
