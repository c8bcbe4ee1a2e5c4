"""What acts along the members of a plane frame, for many load cases at once.

To the right and down are positive, see :mod:`shelfload.solve.frame_model`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.frame_model import Floats, Frame, Ints

# Gauss-Legendre points and weights on [0, 1]: exact to the fifth power.
_GAUSS_AT = 0.5 + 0.5 * np.sqrt(0.6) * np.array([-1.0, 0.0, 1.0])
_GAUSS_WEIGHT = np.array([5.0, 8.0, 5.0]) / 18.0


@dataclass(frozen=True, slots=True, init=False, eq=False)
class LineLoads:
    """Loads spread along parts of members, uniform or linear; a row is one load in one case.

    Parameters
    ----------
    member : array_like, shape (k,)
        Member that is loaded [-]
    case : array_like, one or (k,)
        Load case [-]
    start : array_like, one or (k,)
        Where it begins, from the member's first node [mm]
    end : array_like, one or (k,)
        Where it ends; infinite for the member's end [mm]
    down : array_like, one or (k,)
        Load downwards at ``start``, per length of member [N/mm]
    down_end : array_like, one or (k,), optional
        The same at ``end``; left out, it is uniform [N/mm]
    right : array_like, one or (k,)
        Load to the right at ``start``, per length of member [N/mm]
    right_end : array_like, one or (k,), optional
        The same at ``end``; left out, it is uniform [N/mm]

    Notes
    -----
    Source: own definition.
    """

    member: Ints
    case: Ints
    start: Floats
    end: Floats
    down: Floats
    down_end: Floats
    right: Floats
    right_end: Floats

    def __init__(
        self,
        *,
        member: ArrayLike,
        case: ArrayLike = 0,
        start: ArrayLike = 0.0,
        end: ArrayLike = np.inf,
        down: ArrayLike = 0.0,
        down_end: ArrayLike | None = None,
        right: ArrayLike = 0.0,
        right_end: ArrayLike | None = None,
    ) -> None:
        which = np.atleast_1d(np.asarray(member, dtype=np.intp))
        values: dict[str, ArrayLike] = {
            "start": start,
            "end": end,
            "down": down,
            "down_end": down if down_end is None else down_end,
            "right": right,
            "right_end": right if right_end is None else right_end,
        }
        object.__setattr__(self, "member", which)
        object.__setattr__(self, "case", np.broadcast_to(np.asarray(case, np.intp), which.shape))
        for name, value in values.items():
            spread = np.broadcast_to(np.asarray(value, dtype=float), which.shape)
            object.__setattr__(self, name, spread)


@dataclass(frozen=True, slots=True, init=False, eq=False)
class PointLoads:
    """Forces at places along members; a row is one force in one case.

    Parameters
    ----------
    member : array_like, shape (k,)
        Member that is loaded [-]
    case : array_like, one or (k,)
        Load case [-]
    at : array_like, one or (k,)
        Place, from the member's first node [mm]
    down : array_like, one or (k,)
        Force downwards [N]
    right : array_like, one or (k,)
        Force to the right [N]

    Notes
    -----
    Source: own definition.
    """

    member: Ints
    case: Ints
    at: Floats
    down: Floats
    right: Floats

    def __init__(
        self,
        *,
        member: ArrayLike,
        at: ArrayLike,
        case: ArrayLike = 0,
        down: ArrayLike = 0.0,
        right: ArrayLike = 0.0,
    ) -> None:
        which = np.atleast_1d(np.asarray(member, dtype=np.intp))
        object.__setattr__(self, "member", which)
        object.__setattr__(self, "case", np.broadcast_to(np.asarray(case, np.intp), which.shape))
        for name, value in (("at", at), ("down", down), ("right", right)):
            spread = np.broadcast_to(np.asarray(value, dtype=float), which.shape)
            object.__setattr__(self, name, spread)


@dataclass(frozen=True, slots=True, eq=False)
class MemberForces:
    """All loads along members in member axes, as lines and points, checked.

    A line load that bends a member is replaced by three forces at Gauss points where only
    its integral against powers of x up to the third counts: that is exact.

    Parameters
    ----------
    member, case : ndarray, shape (k,)
        Member and case of each spread load [-]
    start, end : ndarray, shape (k,)
        Where it begins and ends [mm]
    across, across_end, along, along_end : ndarray, shape (k,)
        Load across and along the member at both ends [N/mm]
    point_member, point_case : ndarray, shape (j,)
        Member and case of each force [-]
    point_at : ndarray, shape (j,)
        Its place [mm]
    point_across, point_along : ndarray, shape (j,)
        Force across and along the member [N]
    cases : int
        Number of load cases [-]

    Notes
    -----
    Source: own definition.
    """

    member: Ints
    case: Ints
    start: Floats
    end: Floats
    across: Floats
    across_end: Floats
    along: Floats
    along_end: Floats
    point_member: Ints
    point_case: Ints
    point_at: Floats
    point_across: Floats
    point_along: Floats
    cases: int


def member_forces(
    frame: Frame, lines: LineLoads | None, points: PointLoads | None, cases: int
) -> MemberForces:
    """Turn loads to the right and down into loads across and along each member.

    Parameters
    ----------
    frame : Frame
        The frame that is loaded [-]
    lines : LineLoads or None
        Spread loads [N/mm]
    points : PointLoads or None
        Forces [N]
    cases : int
        Number of load cases at least [-]

    Returns
    -------
    forces : MemberForces
        The same loads in member axes [N/mm] and [N]

    Raises
    ------
    ValueError
        A load is not a number, off its member, or on a member that does not exist.

    Notes
    -----
    Source: change of axes, own definition.
    """
    lines = _NO_LINES if lines is None else lines
    points = _NO_POINTS if points is None else points
    count = len(frame.members)
    for which, case in ((lines.member, lines.case), (points.member, points.case)):
        if which.size and (which.min() < 0 or which.max() >= count or case.min() < 0):
            raise ValueError("a load names a member or a case that does not exist")
        cases = max(cases, int(case.max()) + 1) if which.size else cases
    spread = (lines.down, lines.down_end, lines.right, lines.right_end)
    if not (np.isfinite(spread).all() and np.isfinite((points.down, points.right)).all()):
        raise ValueError("every load must be a finite number")
    length = frame.length[lines.member]
    end = np.where(np.isinf(lines.end), length, lines.end)
    at, reach = points.at, frame.length[points.member]
    slack = 1.0 + 1e-9
    if not (
        np.all((lines.start >= 0) & (lines.start < end) & (end <= length * slack))
        and np.all((at >= 0) & (at <= reach * slack))
    ):
        raise ValueError("a load lies off its member, or has no length")
    c, s = frame.direction[lines.member].T
    pc, ps = frame.direction[points.member].T
    return MemberForces(
        lines.member,
        lines.case,
        lines.start,
        np.minimum(end, length),
        lines.down * c - lines.right * s,
        lines.down_end * c - lines.right_end * s,
        lines.right * c + lines.down * s,
        lines.right_end * c + lines.down_end * s,
        points.member,
        points.case,
        np.minimum(at, reach),
        points.down * pc - points.right * ps,
        points.right * pc + points.down * ps,
        cases,
    )


def gauss_points(
    start: Floats, stop: Floats, end: Floats, first: Floats, last: Floats
) -> tuple[Floats, Floats]:
    """Forces that stand for the part up to ``stop`` of loads linear from start to end.

    Parameters
    ----------
    start, stop, end : ndarray, shape (k,)
        Where each load begins, is cut off, and would end [mm]
    first, last : ndarray, shape (k,)
        Load at ``start`` and at ``end`` [N/mm]

    Returns
    -------
    at, force : ndarray, shape (3, k)
        Places [mm] and forces [N]

    Notes
    -----
    Source: Gauss-Legendre quadrature with three points, exact to the fifth power.
    """
    reach = stop - start
    at = start + _GAUSS_AT[:, None] * reach
    load = first + (last - first) * ((at - start) / (end - start))
    return at, load * (_GAUSS_WEIGHT[:, None] * reach)


_NO_LINES = LineLoads(member=np.zeros(0, dtype=np.intp))
_NO_POINTS = PointLoads(member=np.zeros(0, dtype=np.intp), at=np.zeros(0))
