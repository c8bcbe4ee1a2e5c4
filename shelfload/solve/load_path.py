"""The way loads take through a frame to the floor."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.frame_model import DOWN, Floats
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.shear_panel import panel_shear_rows


def passed_down(result: FrameResult, members: ArrayLike, *, panels: bool = True) -> Floats:
    """Force that each member puts downwards on the lower one of its nodes.

    Parameters
    ----------
    result : FrameResult
        The solved frame [-]
    members : array_like, shape (k,)
        Members, as a rule the uprights of one level [-]
    panels : bool, optional
        Count what panels along the member's edge put on the same node [-]

    Returns
    -------
    force : ndarray, shape (k, cases)
        Positive where it presses, negative where it pulls up [N]

    Notes
    -----
    Of a panel's force on a corner, the downward part comes in along the edge that the
    member forms. Over all uprights of a level this sums to the weight above it.

    Source: own derivation, equilibrium.
    """
    which = np.atleast_1d(np.asarray(members, dtype=np.intp))
    frame = result.frame
    pair = frame.members[which]
    second_is_lower = frame.nodes[pair[:, 1], 1] < frame.nodes[pair[:, 0], 1]
    end = second_is_lower.astype(np.intp)
    force = result.end_forces[which, end, DOWN]
    if not (panels and len(frame.panels)):
        return np.asarray(force)
    force = force.copy()
    rows, _ = panel_shear_rows(frame.nodes[frame.panels])
    down = -rows.reshape(-1, 4, 2)[:, :, 1]
    node, other = pair[np.arange(len(which)), end], pair[np.arange(len(which)), 1 - end]
    corner = frame.panels
    for neighbour in (np.roll(corner, 1, axis=1), np.roll(corner, -1, axis=1)):
        meets = (corner == node[:, None, None]) & (neighbour == other[:, None, None])
        force += np.sum(meets * down, axis=2) @ result.shear_flow
    return np.asarray(force)


def cut_at(result: FrameResult, height: float) -> Floats:
    """Force that crosses a level cut through the whole frame.

    Parameters
    ----------
    result : FrameResult
        The solved frame [-]
    height : float
        Height z of the cut, between nodes [mm]

    Returns
    -------
    force : ndarray, shape (3, cases)
        What the part above puts on the part below: to the right and down [N], and
        clockwise about x = 0 at the height of the cut [N mm]

    Notes
    -----
    Source: equilibrium of the lower part, own derivation.
    """
    frame = result.frame
    below = frame.nodes[:, 1] < height
    side = below[frame.members]
    crossing = np.flatnonzero(side[:, 0] != side[:, 1])
    end = np.where(side[crossing, 0], 0, 1)
    node = frame.members[crossing, end]
    force = result.end_forces[crossing, end]
    total = _moved_to(force, frame.nodes[node], height)
    if len(frame.panels):
        rows, _ = panel_shear_rows(frame.nodes[frame.panels])
        part = below[frame.panels]
        corner_force = -rows.reshape(-1, 4, 2)[..., None] * result.shear_flow[:, None, None, :]
        corner_force = corner_force * (part & ~part.all(axis=1, keepdims=True))[..., None, None]
        turn = np.zeros_like(corner_force[:, :, :1])
        full = np.concatenate([corner_force, turn], axis=2).reshape(-1, 3, turn.shape[-1])
        total = total + _moved_to(full, frame.nodes[frame.panels].reshape(-1, 2), height)
    return total


def _moved_to(force: Floats, node: Floats, height: float) -> Floats:
    """Sum forces (k, 3, cases) at nodes (k, 2), with their moment about (0, height)."""
    right, down, turn = force[:, 0], force[:, 1], force[:, 2]
    arm, drop = node[:, :1], height - node[:, 1:]
    moment = turn + down * arm - right * drop
    return np.stack([right.sum(axis=0), down.sum(axis=0), moment.sum(axis=0)])
