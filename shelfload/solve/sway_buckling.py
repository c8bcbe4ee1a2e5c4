"""How often the load would have to be on a frame for it to buckle sideways."""

from __future__ import annotations

import numpy as np

from shelfload.solve.frame_model import Floats
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.frame_stiffness import assemble

# Integral over a member of (slope from the chord)^2 per length, by the turns of its ends.
_BENT = np.array([[4.0, -1.0], [-1.0, 4.0]]) / 30.0


def sway_buckling_factor(result: FrameResult) -> Floats:
    r"""Factor on each load case at which the frame buckles as a whole.

    .. math:: \det(K + \alpha K_g(N)) = 0

    Parameters
    ----------
    result : FrameResult
        The solved frame; each case gives its own axial forces [-]

    Returns
    -------
    factor : ndarray, shape (cases,)
        Least factor; infinite where nothing is pressed. First-order sway grows by about
        1 / (1 - 1 / factor) [-]

    Notes
    -----
    The axial force of a member is its mean. Its bent shape is that of end moments, so a
    column that sways is up to 1.4 % too strong, and up to 6 % where shear has a large part.
    A member that buckles between its nodes is up to 22 % too strong, and not seen at all
    where its ends can't turn: a straight upright needs its own check by its length.

    Source: geometric stiffness, own derivation from the shape under end moments (any
    textbook on stability of frames has it for Euler-Bernoulli members and rigid joints).
    Valid for: sway of frames with straight members, elastic.
    """
    frame = result.frame
    parts = assemble(frame)
    free = np.flatnonzero(parts.free)
    numbers, size = parts.numbers, len(parts.whole)
    c, s = frame.direction.T
    chord = np.zeros((len(c), 6))
    chord[:, 0], chord[:, 1] = s / frame.length, -c / frame.length
    chord[:, 3], chord[:, 4] = -chord[:, 0], -chord[:, 1]
    # Only bending bends a member off its chord; shear under end moments is straight.
    turn = frame.length / (6.0 * frame.EI)
    flexibility = turn[:, None, None] * np.array([[2.0, -1.0], [-1.0, 2.0]])
    bent = flexibility @ parts.basic[:, 1:, 1:] @ parts.kinematics[:, 1:]
    per_force = chord[:, :, None] * chord[:, None, :] + bent.transpose(0, 2, 1) @ _BENT @ bent
    per_force *= frame.length[:, None, None]
    moved = result.displacements.reshape(size, -1)[numbers]
    force = (frame.EA / frame.length)[:, None] * (parts.kinematics[:, :1] @ moved)[:, 0]
    places = (numbers[:, :, None] * size + numbers[:, None, :]).ravel()

    stiffness = parts.whole[np.ix_(free, free)]
    scale = 1.0 / np.sqrt(stiffness.diagonal())
    root = np.linalg.cholesky(stiffness * scale[:, None] * scale)
    factors = np.full(force.shape[1], np.inf)
    for case, N in enumerate(force.T):
        weights = (N[:, None, None] * per_force).ravel()
        geometric = np.bincount(places, weights, size * size).reshape(size, size)
        softening = -geometric[np.ix_(free, free)] * scale[:, None] * scale
        half = np.linalg.solve(root, softening)
        greatest = np.linalg.eigvalsh(np.linalg.solve(root, half.T)).max(initial=0.0)
        # Against the scaled stiffness, less than this is rounding: nothing is pressed.
        if greatest > 1e-12:
            factors[case] = 1.0 / greatest
    return factors
