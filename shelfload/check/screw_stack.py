"""How a fastener lies in the stack of two members: depths, thread, what is left at the tip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.check.screw_table import Columns
from shelfload.idealise.joint import Joint

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

TIP_COVER = 2.0
"""Least of the last member left before the point [mm] (common practice, no source)."""
NUT_AND_WASHERS = 1.5
"""Bolt beyond the stack for washers and nut, in diameters (common practice, no source)."""
CAP_NUT_REACH = 10.0
"""How far short of the far face a connector bolt may end in its cap nut [mm] (common practice,
no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """Where each fastener ends up in each joint; arrays of joints x fasteners [mm].

    Attributes
    ----------
    t_1 : ndarray
        Of the first member, less the recess of a countersunk head.
    reach : ndarray
        Of the fastener into the second member, point included.
    thread : ndarray
        Of its thread in the second member, point included.
    shank : ndarray
        Of its smooth shank in the second member.
    cover : ndarray
        Left of the second member before the point; negative where it comes through.
    through, short, long : ndarray of bool
        Screws that come through or leave too little cover; bolts too short or too long.
    """

    t_1: Array
    reach: Array
    thread: Array
    shank: Array
    cover: Array
    through: Flags
    short: Flags
    long: Flags


def lie(joints: Sequence[Joint], screws: Columns) -> Lie:
    """Lay every fastener into every joint."""
    t_1 = np.array([[joint.first.thickness] for joint in joints])
    depth = np.array([[joint.second.depth] for joint in joints])
    recess = np.array([[joint.recess] for joint in joints]) * screws.sunk
    full = screws.length + recess - t_1
    is_bolt = screws.is_bolt & np.ones_like(full, dtype=np.bool_)
    reach = np.where(is_bolt, np.minimum(depth, np.maximum(full, 0.0)), np.maximum(full, 0.0))
    thread = np.minimum(screws.thread_share * screws.length, reach)
    cover = depth - full
    hexagon = np.array([row.head_shape == "hexagon" for row in screws.rows])
    beyond = -cover
    return Lie(
        t_1=t_1 - recess,
        reach=reach,
        thread=thread,
        shank=np.maximum(reach - thread, 0.0),
        cover=cover,
        through=~is_bolt & (cover < TIP_COVER),
        short=is_bolt
        & np.where(hexagon, beyond < NUT_AND_WASHERS * screws.d, beyond < -CAP_NUT_REACH),
        long=is_bolt & ~hexagon & (beyond > 0.0),
    )
