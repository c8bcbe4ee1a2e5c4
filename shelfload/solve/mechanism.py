"""Free motions of a plane frame, found by rank, and the least change that stops them.

The rank is that of the geometry alone: which movements stretch, bend, shear or load
anything at all. How stiff things are does not enter, so a soft joint is never taken for
none, however soft.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shelfload.solve.frame_model import Bools, Floats, Frame, Ints
from shelfload.solve.shear_panel import panel_shear_rows

_RANK = 1e-9
"""Singular values below this are zero; true ones of a tall stack are above 1e-6."""


@dataclass(frozen=True, slots=True, eq=False)
class FreeMotion:
    """One way in which a frame moves without resistance.

    Parameters
    ----------
    shape : ndarray, shape (n, 3)
        Movement of each node, right, down, clockwise; the greatest movement is 1 mm (or,
        where no node moves from its place, the greatest turn 1 rad) [mm] and [rad]
    turning : ndarray, shape (m,)
        Turn of each member's chord, clockwise: the uprights of the level that sways [rad]

    Notes
    -----
    Motions are chosen so that each turns as few members as may be: in a stack in which
    several levels sway, each level has its own motion, with all above it going along.

    Source: own definition.
    """

    shape: Floats
    turning: Floats

    @property
    def nodes(self) -> Ints:
        """Nodes that move from their place."""
        return np.flatnonzero(np.any(self.shape[:, :2] != 0, axis=1))

    @property
    def spinning(self) -> Ints:
        """Nodes that turn."""
        return np.flatnonzero(self.shape[:, 2])

    @property
    def members(self) -> Ints:
        """Members whose chord turns."""
        return np.flatnonzero(self.turning)

    @property
    def numbers(self) -> Ints:
        """Numbers of the movements that take part (3 * node + 0 right, 1 down, 2 turn)."""
        return np.flatnonzero(self.shape)

    @property
    def sideways(self) -> float:
        """Greatest movement to either side [mm]."""
        return float(np.abs(self.shape[:, 0]).max())

    @property
    def vertical(self) -> float:
        """Greatest movement up or down [mm]."""
        return float(np.abs(self.shape[:, 1]).max())


def idle_turns(frame: Frame) -> Bools:
    """Turns that mean nothing: no member is joined to them, and no support.

    Parameters
    ----------
    frame : Frame
        The frame [-]

    Returns
    -------
    idle : ndarray, shape (n, 3)
        True for the turn of a node where every member is pinned and nothing else holds [-]

    Notes
    -----
    Source: own definition.
    """
    idle = np.zeros((len(frame.nodes), 3), dtype=bool)
    joined = (frame.springs[:, 2] > 0) | frame.fixed[:, 2]
    joined[frame.members[frame.joints > 0]] = True
    idle[:, 2] = ~joined
    return idle


def compatibility(frame: Frame) -> Floats:
    """Rows that relate movements to all that resists them, without its stiffness.

    Parameters
    ----------
    frame : Frame
        The frame [-]

    Returns
    -------
    rows : ndarray, shape (r, 3 n)
        Each row has length 1; turns count times the mean length of the members [-]

    Notes
    -----
    Source: kinematic matrix of structural analysis (e.g. Pellegrino and Calladine, 1986,
    for its null space as the mechanisms).
    """
    m, size = len(frame.members), 3 * len(frame.nodes)
    lever = _lever(frame)
    c, s = frame.direction.T
    near, far = 3 * frame.members.T
    each = np.arange(m)
    stretch = np.zeros((m, size))
    stretch[each, near], stretch[each, near + 1] = -c, -s
    stretch[each, far], stretch[each, far + 1] = c, s
    ratio = lever / frame.length
    chord = np.zeros((m, size))
    chord[each, near], chord[each, near + 1] = s * ratio, -c * ratio
    chord[each, far], chord[each, far + 1] = -s * ratio, c * ratio
    blocks = [stretch]
    for end, node in enumerate((near, far)):
        turn = -chord
        turn[each, node + 2] += 1.0
        blocks.append(turn[frame.joints[:, end] > 0])
    sprung = np.flatnonzero(frame.springs)
    support = np.zeros((len(sprung), size))
    support[np.arange(len(sprung)), sprung] = 1.0
    blocks.append(support)
    stiff = np.flatnonzero(frame.panel_stiffness)
    if stiff.size:
        rows, _ = panel_shear_rows(frame.nodes[frame.panels[stiff]])
        panel = np.zeros((len(stiff), size))
        numbers = (3 * frame.panels[stiff][:, :, None] + np.arange(2)).reshape(-1, 8)
        panel[np.arange(len(stiff))[:, None], numbers] = rows
        blocks.append(panel)
    whole = np.concatenate(blocks)
    return np.asarray(whole / np.linalg.norm(whole, axis=1, keepdims=True))


def free_motions(frame: Frame) -> list[FreeMotion]:
    """Find all ways in which a frame moves without resistance.

    Parameters
    ----------
    frame : Frame
        The frame [-]

    Returns
    -------
    motions : list of FreeMotion
        Independent motions, every free motion being a sum of these; empty for a frame
        that is held [-]

    Notes
    -----
    Source: null space of the kinematic matrix by singular values; own choice of basis by
    Gauss-Jordan steps on the turns of the members.
    Valid for: small movements; what is only held by being nearly straight counts as held.
    """
    shapes = _null_space(frame)
    if not shapes.shape[1]:
        return []
    lever = _lever(frame)
    c, s = frame.direction.T
    near, far = shapes.reshape(-1, 3, shapes.shape[1])[frame.members.T]
    turns = c[:, None] * (far[:, 1] - near[:, 1]) - s[:, None] * (far[:, 0] - near[:, 0])
    turns *= (lever / frame.length)[:, None]
    m = len(turns)
    basis = _localised(np.concatenate([turns, shapes]), m)
    motions = []
    for column in basis.T:
        shape = column[m:].reshape(-1, 3).copy()
        shape[:, 2] /= lever
        greatest = np.abs(shape[:, :2]).max()
        if greatest < 1e-9 * np.abs(column).max():
            greatest = np.abs(shape[:, 2]).max()
        shape /= greatest
        turning = column[:m] / (lever * greatest)
        shape[np.abs(shape) < 1e-9 * np.array([1.0, 1.0, 1.0 / lever])] = 0.0
        turning[np.abs(turning) < 1e-9 / lever] = 0.0
        lead = shape.flat[np.argmax(np.abs(shape) > 0.999 * np.abs(shape).max())]
        motions.append(FreeMotion(shape * np.sign(lead), turning * np.sign(lead)))
    return motions


def motions_in_words(motions: Sequence[FreeMotion]) -> str:
    """Say by number what moves, for whoever knows what the numbers stand for.

    Parameters
    ----------
    motions : sequence of FreeMotion
        The motions [-]

    Returns
    -------
    words : str
        One clause for each motion [-]

    Notes
    -----
    Source: own definition.
    """
    if not motions:
        return "the frame is held, but so softly that its movements can't be computed"
    clauses = []
    for motion in motions:
        way = "sideways" if motion.sideways >= motion.vertical else "up and down"
        if motion.members.size:
            clauses.append(f"members {motion.members.tolist()} turn, {way}")
        elif motion.nodes.size:
            clauses.append(f"nodes {motion.nodes.tolist()} slide {way}")
        else:
            clauses.append(f"nodes {motion.spinning.tolist()} turn on the spot")
    return "the frame moves freely: " + "; ".join(clauses)


def _lever(frame: Frame) -> float:
    """Length by which turns are made comparable with movements."""
    return float(frame.length.mean())


def _null_space(frame: Frame) -> Floats:
    """Orthonormal free motions, shape (3 n, motions); turns times the lever."""
    able = np.flatnonzero(~(frame.fixed | idle_turns(frame)).ravel())
    rows = compatibility(frame)[:, able]
    _, values, right = np.linalg.svd(rows, full_matrices=True)
    rank = int(np.sum(values > _RANK))
    shapes = np.zeros((3 * len(frame.nodes), len(able) - rank))
    shapes[able] = right[rank:].T
    return shapes


def _localised(columns: Floats, preferred: int) -> Floats:
    """Gauss-Jordan steps on columns; pivots in the first rows as long as there are any."""
    columns = columns.copy()
    for number in range(columns.shape[1]):
        rest = np.abs(columns[:, number:])
        rows = rest[:preferred]
        base = 0
        if not rows.size or rows.max() < 1e-7:
            rows, base = rest[preferred:], preferred
        row, column = np.unravel_index(int(np.argmax(rows > 0.99 * rows.max())), rows.shape)
        pivot = number + int(column)
        columns[:, [number, pivot]] = columns[:, [pivot, number]]
        columns[:, number] /= columns[base + int(row), number]
        others = np.arange(columns.shape[1]) != number
        columns[:, others] -= np.outer(columns[:, number], columns[base + int(row), others])
    return columns
