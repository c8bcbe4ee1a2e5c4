"""Stiffness of the members and panels of a plane frame, and of the whole.

Each member is described by its stretch and by the turn of its two nodes against its
chord. The stiffness of its joints is part of the relation between these and its end
moments (springs in series with the member), so that pinned and rigid are the exact ends
of one formula.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.frame_model import Bools, Floats, Frame, Ints
from shelfload.solve.mechanism import idle_turns
from shelfload.solve.shear_panel import panel_shear_rows


@dataclass(frozen=True, slots=True, eq=False)
class Stiffness:
    """Stiffness of all parts of a frame, and of the whole.

    Parameters
    ----------
    flexibility : ndarray, shape (2, m)
        Turn of the ends of a simply supported member [rad/(N mm)]
    basic : ndarray, shape (m, 3, 3)
        Axial force and end moments by stretch and end turns [N/mm] and [N mm/rad]
    kinematics : ndarray, shape (m, 3, 6)
        Stretch and end turns by the movements of the two nodes [-] and [1/mm]
    numbers : ndarray, shape (m, 6)
        Numbers of the movements of each member's nodes [-]
    panel_rows : ndarray, shape (p, 8)
        Shear flow of each panel by (right, down) of its corners [N/mm2]
    panel_numbers : ndarray, shape (p, 8)
        Numbers of these movements [-]
    whole : ndarray, shape (3 n, 3 n)
        Forces on all nodes by all movements [N/mm], [N], [N mm/rad]
    free : ndarray, shape (3 n,)
        Movements that are neither held nor without meaning [-]

    Notes
    -----
    Source: own definition.
    """

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
    summed: Floats = np.bincount(places, weights=values, minlength=size * size).astype(float)
    whole = summed.reshape(size, size)
    every = np.arange(size)
    whole[every, every] += frame.springs.ravel()
    free = ~(frame.fixed | idle_turns(frame)).ravel()
    return Stiffness(
        flexibility, basic, kinematics, numbers, panel_rows, panel_numbers, whole, free
    )
