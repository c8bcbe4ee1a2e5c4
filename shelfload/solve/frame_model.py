"""What a plane frame is made of, and what acts on it.

Geometry: x to the right, z up. Loads and movements: to the right, down, and clockwise are
positive, so that gravity and sag are positive. Along a member, from its first node to its
second, the transverse axis points down for a member that runs to the right and to the
right for one that runs up; a moment is positive when it stretches that side (sagging),
an axial force when it is tension.

An upright is best given from bottom to top, a shelf from left to right.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Bools = NDArray[np.bool_]

RIGHT, DOWN, TURN = 0, 1, 2
"""Order of the three movements of a node; number of a movement: 3 * node + this."""


def _indices(values: ArrayLike, width: int, bound: int, what: str) -> Ints:
    """Return whole numbers below ``bound``, in rows of ``width``."""
    found = np.asarray(values)
    if found.size == 0:
        return np.zeros((0, width), dtype=np.intp)
    if found.dtype.kind not in "iu" or found.ndim != 2 or found.shape[1] != width:
        raise ValueError(f"{what} must be whole numbers in rows of {width}")
    if found.min() < 0 or found.max() >= bound:
        raise ValueError(f"{what} name a node that does not exist")
    return found.astype(np.intp)


def _positive(values: ArrayLike, count: int, what: str, *, infinite: bool = False) -> Floats:
    """Return ``count`` positive numbers from one or as many."""
    found = np.array(np.broadcast_to(np.asarray(values, dtype=float), (count,)))
    if not np.all(found > 0) or not (infinite or np.all(np.isfinite(found))):
        raise ValueError(f"{what} must be positive" + ("" if infinite else " and finite"))
    return found


def _stiffnesses(values: ArrayLike, shape: tuple[int, ...], what: str) -> Floats:
    """Return stiffnesses from nothing to infinite."""
    found = np.array(np.broadcast_to(np.asarray(values, dtype=float), shape))
    if not np.all(found >= 0):
        raise ValueError(f"{what} must be 0 or more, and a number")
    return found


@dataclass(frozen=True, slots=True, init=False, eq=False)
class Frame:
    """A plane frame of straight Timoshenko members, with panels that stiffen its bays.

    Parameters
    ----------
    nodes : array_like, shape (n, 2)
        Places of the nodes, x to the right and z up [mm]
    members : array_like, shape (m, 2)
        First and second node of each member [-]
    EA : array_like, one or (m,)
        Axial stiffness [N]
    EI : array_like, one or (m,)
        Bending stiffness [N mm2]
    GA : array_like, one or (m,)
        Shear stiffness, shear factor included; infinite for none of its sag [N]
    joints : array_like, broadcasts to (m, 2)
        Rotational stiffness of the joint at the first and second end of each member:
        0 pinned, infinite rigid, between them sprung [N mm/rad]
    fixed : array_like, shape (n, 3)
        Which movements of a node (right, down, turn) are held: floor (True, True, False),
        wall (True, False, False) [-]
    springs : array_like, shape (n, 3), optional
        Stiffness of elastic supports of the same movements [N/mm] and [N mm/rad]
    panels : array_like, shape (p, 4), optional
        Corner nodes of each panel in order round its edge; several may coincide [-]
    panel_stiffness : array_like, one or (p,), optional
        Shear flow per shear angle, see :func:`shear_panel_stiffness` [N/mm]
    length : ndarray, shape (m,)
        Length of each member, worked out [mm]
    direction : ndarray, shape (m, 2)
        Direction (right, down) of each member, worked out [-]

    Raises
    ------
    ValueError
        A size, index or stiffness makes no sense (all are checked here, once).

    Notes
    -----
    A sheet that runs over several bays is one panel in each of them. A panel acts on the
    nodes at its corners, so the axial force of a member along its
    edge is the mean of what the shear flow makes rise along it: at the ends it differs by
    half of flow times length.

    Source: own definition.
    """

    nodes: Floats
    members: Ints
    EA: Floats
    EI: Floats
    GA: Floats
    joints: Floats
    fixed: Bools
    springs: Floats
    panels: Ints
    panel_stiffness: Floats
    length: Floats
    direction: Floats

    def __init__(
        self,
        *,
        nodes: ArrayLike,
        members: ArrayLike,
        EA: ArrayLike,
        EI: ArrayLike,
        GA: ArrayLike = np.inf,
        joints: ArrayLike = np.inf,
        fixed: ArrayLike,
        springs: ArrayLike = 0.0,
        panels: ArrayLike = (),
        panel_stiffness: ArrayLike = (),
    ) -> None:
        places = np.array(nodes, dtype=float)
        if places.ndim != 2 or places.shape[1] != 2 or not np.all(np.isfinite(places)):
            raise ValueError("nodes must be finite pairs (x, z)")
        n = len(places)
        pairs = _indices(members, 2, n, "members")
        m = len(pairs)
        if not m:
            raise ValueError("a frame has at least one member")
        held = np.asarray(fixed)
        if held.shape != (n, 3) or held.dtype != np.bool_:
            raise ValueError("fixed must be three truth values for each node")
        bays = _indices(panels, 4, n, "panels")
        used = np.zeros(n, dtype=bool)
        used[pairs] = True
        if not used.all():
            raise ValueError(f"no member meets node {int(np.argmin(used))}")
        span = places[pairs[:, 1]] - places[pairs[:, 0]]
        length = np.hypot(span[:, 0], span[:, 1])
        if not np.all(length > 0):
            raise ValueError(f"member {int(np.argmin(length))} has no length")
        values = {
            "nodes": places,
            "members": pairs,
            "EA": _positive(EA, m, "EA"),
            "EI": _positive(EI, m, "EI"),
            "GA": _positive(GA, m, "GA", infinite=True),
            "joints": _stiffnesses(joints, (m, 2), "joints"),
            "fixed": held.copy(),
            "springs": _stiffnesses(springs, (n, 3), "springs"),
            "panels": bays,
            "panel_stiffness": _stiffnesses(panel_stiffness, (len(bays),), "panel_stiffness")
            if len(bays)
            else np.zeros(0),
            "length": length,
            "direction": span * (1.0, -1.0) / length[:, None],
        }
        if not (
            np.all(np.isfinite(values["springs"])) and np.isfinite(values["panel_stiffness"]).all()
        ):
            raise ValueError("springs and panel_stiffness must be finite; hold a node with fixed")
        for name, value in values.items():
            value.flags.writeable = False
            object.__setattr__(self, name, value)
