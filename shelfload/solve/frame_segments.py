"""Members of a frame cut where loads begin and end: polynomials between the cuts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from shelfload.solve.frame_loads import MemberForces, gauss_points
from shelfload.solve.frame_model import Floats, Frame, Ints

_SAME = 1e-9
"""Places on a member nearer than this part of its length are one place."""


@dataclass(frozen=True, slots=True, eq=False)
class Segments:
    """State at the start of each segment and load on it, for every case.

    Parameters
    ----------
    member : ndarray, shape (s,)
        Member of each segment, rising [-]
    first : ndarray, shape (m + 1,)
        Number of each member's first segment [-]
    start : ndarray, shape (s,)
        Where it begins, from the member's first node [mm]
    length : ndarray, shape (s,)
        Length [mm]
    axial, shear, moment, slope, deflection, stretch : ndarray, shape (s, cases)
        State at the start; slope is that of the section, stretch the movement along
        the member [N], [N], [N mm], [rad], [mm], [mm]
    across, across_end, along, along_end : ndarray, shape (s, cases)
        Load at both ends of the segment, in member axes [N/mm]

    Notes
    -----
    Source: own definition.
    """

    member: Ints
    first: Ints
    start: Floats
    length: Floats
    axial: Floats
    shear: Floats
    moment: Floats
    slope: Floats
    deflection: Floats
    stretch: Floats
    across: Floats
    across_end: Floats
    along: Floats
    along_end: Floats


STATES = (
    "axial",
    "shear",
    "moment",
    "slope",
    "deflection",
    "stretch",
    "across",
    "across_end",
    "along",
    "along_end",
)


def member_segments(
    frame: Frame,
    forces: MemberForces,
    flexibility: Floats,
    moved: Floats,
    basic_forces: Floats,
    turned: Floats,
) -> Segments:
    """Cut members at their loads, and find the state at each cut from equilibrium.

    Parameters
    ----------
    frame : Frame
        The frame [-]
    forces : MemberForces
        Loads in member axes [N/mm] and [N]
    flexibility : ndarray, shape (2, m)
        Turn of the ends under unit end moments [rad/(N mm)]
    moved : ndarray, shape (m, 6, cases)
        Movements of the two nodes of each member [mm] and [rad]
    basic_forces : ndarray, shape (m, 3, cases)
        Axial force at the far end and clockwise moments at both [N] and [N mm]
    turned : ndarray, shape (m, 3, cases)
        Stretch and end turns of the loaded member on simple supports [mm] and [rad]

    Returns
    -------
    segments : Segments
        All that is needed along the members [N], [N mm], [mm], [rad]

    Notes
    -----
    Source: own derivation: the part of each load before a cut counts as a sum over Gauss
    points, exact because the kernels are cubic and the loads linear.
    """
    member, first, start, length = _cuts(frame, forces)
    shape = (len(member), forces.cases)
    c, s = frame.direction.T
    c, s, L = c[:, None], s[:, None], frame.length[:, None]
    N, m_near, m_far = basic_forces.transpose(1, 0, 2)
    w_near = c * moved[:, 1] - s * moved[:, 0]
    chord = (c * moved[:, 4] - s * moved[:, 3] - w_near) / L
    a, b = flexibility[0][:, None], flexibility[1][:, None]
    V = -(m_near + m_far) / L
    theta = chord + a * m_near + b * m_far
    theta = theta + turned[:, 1]
    N = N.copy()
    _add_whole_loads(frame, forces, V, N)
    x = start[:, None]
    EI, GA = frame.EI[member][:, None], frame.GA[member][:, None]
    EA = frame.EA[member][:, None]
    N0, V0, M0, theta0 = N[member], V[member], m_near[member], theta[member]
    w0 = w_near[member]
    stretch0 = (c * moved[:, 0] + s * moved[:, 1])[member]
    zero = np.zeros(shape)
    if len(member) == len(frame.members):
        state = (N0, V0, M0, theta0, w0, stretch0)
    else:
        before = _before(frame, forces, first, start, shape)
        n0, v0, m1, m2, m3, n1 = before
        state = (
            N0 - n0,
            V0 - v0,
            M0 + V0 * x - m1,
            theta0 - (M0 * x + V0 * x**2 / 2 - m2 / 2) / EI,
            w0 + theta0 * x - (M0 * x**2 / 2 + V0 * x**3 / 6 - m3 / 6) / EI + (V0 * x - m1) / GA,
            stretch0 + (N0 * x - n1) / EA,
        )
    if not forces.member.size:
        return Segments(member, first, start, length, *state, zero, zero, zero, zero)
    return Segments(
        member, first, start, length, *state, *_on_segments(forces, first, start, length, shape)
    )


def _cuts(frame: Frame, forces: MemberForces) -> tuple[Ints, Ints, Floats, Floats]:
    """Member, first segment, start and length of all segments."""
    count = len(frame.members)
    member = np.concatenate([forces.member, forces.member, forces.point_member])
    at = np.concatenate([forces.start, forces.end, forces.point_at])
    near = _SAME * frame.length[member]
    inner = (at > near) & (at < frame.length[member] - near)
    everyone = np.arange(count)
    if not inner.any():
        return everyone, np.arange(count + 1), np.zeros(count), frame.length
    member = np.concatenate([everyone, member[inner]])
    at = np.concatenate([np.zeros(count), at[inner]])
    order = np.lexsort((at, member))
    member, at = member[order], at[order]
    new = np.ones(len(at), dtype=bool)
    new[1:] = (member[1:] != member[:-1]) | (at[1:] - at[:-1] > _SAME * frame.length[member[1:]])
    member, at = member[new], at[new]
    first = np.searchsorted(member, np.arange(count + 1))
    stop = np.empty_like(at)
    stop[:-1] = at[1:]
    stop[first[1:] - 1] = frame.length
    return member, first, at, stop - at


def _add_whole_loads(frame: Frame, forces: MemberForces, V: Floats, N: Floats) -> None:
    """Add to shear and axial force at the first node what the loads on the member make."""
    at, across = gauss_points(
        forces.start, forces.end, forces.end, forces.across, forces.across_end
    )
    _, along = gauss_points(forces.start, forces.end, forces.end, forces.along, forces.along_end)
    rest = 1.0 - at / frame.length[forces.member]
    where = (forces.member, forces.case)
    np.add.at(V, where, (across * rest).sum(axis=0))
    np.add.at(N, where, along.sum(axis=0))
    part = forces.point_at / frame.length[forces.point_member]
    within = part > _SAME  # a force at the first node rests on it, not on the member
    where = (forces.point_member[within], forces.point_case[within])
    np.add.at(V, where, (forces.point_across * (1.0 - part))[within])
    np.add.at(N, where, forces.point_along[within])


def _pairs(first: Ints, members: Ints) -> tuple[Ints, Ints]:
    """All pairs of a load and a segment of its member: number of load, of segment."""
    many = first[members + 1] - first[members]
    load = np.repeat(np.arange(len(members)), many)
    offset = np.arange(len(load)) - np.repeat(np.cumsum(many) - many, many)
    return load, first[members][load] + offset


def _before(
    frame: Frame, forces: MemberForces, first: Ints, start: Floats, shape: tuple[int, int]
) -> Floats:
    """Sums over the loads before each segment: along, across times powers 0 to 3, along times x."""
    load, segment = _pairs(first, forces.member)
    stop = np.minimum(forces.end[load], start[segment])
    reached = stop > forces.start[load]
    load, segment, stop = load[reached], segment[reached], stop[reached]
    begin, end = forces.start[load], forces.end[load]
    at, across = gauss_points(begin, stop, end, forces.across[load], forces.across_end[load])
    _, along = gauss_points(begin, stop, end, forces.along[load], forces.along_end[load])
    point, point_segment = _pairs(first, forces.point_member)
    # A force at a cut belongs to what lies before the segment that begins there.
    slack = 2.0 * _SAME * frame.length[forces.point_member[point]]
    reached = (forces.point_at[point] <= start[point_segment] + slack) & (start[point_segment] > 0)
    reached &= forces.point_at[point] > 0.5 * slack
    point, point_segment = point[reached], point_segment[reached]
    P = np.concatenate([across.ravel(), forces.point_across[point]])
    N = np.concatenate([along.ravel(), forces.point_along[point]])
    segments = np.concatenate([segment, segment, segment, point_segment])
    arm = np.maximum(start[segments] - np.concatenate([at.ravel(), forces.point_at[point]]), 0.0)
    case = np.concatenate([np.tile(forces.case[load], 3), forces.point_case[point]])
    moments = P * arm
    values = np.stack([N, P, moments, moments * arm, moments * arm**2, N * arm])
    size = shape[0] * shape[1]
    bins = segments * shape[1] + case + np.arange(6)[:, None] * size
    summed: Floats = np.bincount(bins.ravel(), weights=values.ravel(), minlength=6 * size).astype(
        float
    )
    return summed.reshape(6, *shape)


def _on_segments(
    forces: MemberForces, first: Ints, start: Floats, length: Floats, shape: tuple[int, int]
) -> Floats:
    """Load across and along at both ends of each segment."""
    if shape[0] == len(first) - 1:
        load, segment = np.arange(len(forces.member)), forces.member
    else:
        load, segment = _pairs(first, forces.member)
        middle = start[segment] + 0.5 * length[segment]
        covered = (forces.start[load] < middle) & (middle < forces.end[load])
        load, segment = load[covered], segment[covered]
    reach = forces.end[load] - forces.start[load]
    near = (start[segment] - forces.start[load]) / reach
    far = near + length[segment] / reach
    rise = forces.across_end[load] - forces.across[load]
    rise_along = forces.along_end[load] - forces.along[load]
    values = np.stack(
        [
            forces.across[load] + rise * near,
            forces.across[load] + rise * far,
            forces.along[load] + rise_along * near,
            forces.along[load] + rise_along * far,
        ]
    )
    size = shape[0] * shape[1]
    bins = segment * shape[1] + forces.case[load] + np.arange(4)[:, None] * size
    summed: Floats = np.bincount(bins.ravel(), weights=values.ravel(), minlength=4 * size).astype(
        float
    )
    return summed.reshape(4, *shape)
