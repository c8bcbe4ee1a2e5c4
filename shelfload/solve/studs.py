"""Studs behind a rail: how many it meets, and what each of them gets."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.beam import Beam, Loads, solve

Array = NDArray[np.float64]

_HAIR = 1e-9
"""Share of a spacing that is taken as rounding: a stud on the very limit counts."""


def _refuse_nonsense(width: Array, spacing: Array, edge: Array) -> None:
    if np.any(spacing <= 0) or np.any(width < 0) or np.any(edge < 0):
        raise ValueError("spacing must be above 0, width and edge not below 0")


def _first_and_last(
    offset: ArrayLike, width: ArrayLike, spacing: ArrayLike, first: ArrayLike, edge: ArrayLike
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    left, length, s, origin, margin = (
        np.asarray(v, np.float64) for v in (offset, width, spacing, first, edge)
    )
    _refuse_nonsense(length, s, margin)
    start, end = (left + margin - origin) / s, (left + length - margin - origin) / s
    low = np.maximum(np.ceil(start - _HAIR), 0.0)
    return low.astype(np.int64), np.floor(end + _HAIR).astype(np.int64)


def studs_met(
    offset: ArrayLike, width: ArrayLike, spacing: ArrayLike, first: ArrayLike, edge: ArrayLike
) -> NDArray[np.int64]:
    """How many studs a rail can be fixed to.

    Parameters
    ----------
    offset : array_like
        Left end of the rail from the datum on the wall [mm]
    width : array_like
        Length of the rail [mm]
    spacing : array_like
        Stud spacing, centre to centre [mm]
    first : array_like
        Centre of the first stud from the datum; none is counted before it [mm]
    edge : array_like
        Least distance of a fixing from the end of the rail [mm]

    Returns
    -------
    n : ndarray of int
        Studs whose centre lies in the usable length [-]

    Raises
    ------
    ValueError
        Spacing not above 0, width or edge below 0.

    Notes
    -----
    Source: own derivation, exact count of the k >= 0 with first + k spacing in the usable length.
    """
    low, high = _first_and_last(offset, width, spacing, first, edge)
    return np.asarray(np.maximum(high - low + 1, 0), np.int64)


def least_studs_met(width: ArrayLike, spacing: ArrayLike, edge: ArrayLike) -> NDArray[np.int64]:
    """How many studs a rail meets at the worst place, when nobody knows where they are.

    Parameters
    ----------
    width : array_like
        Length of the rail [mm]
    spacing : array_like
        Stud spacing, centre to centre [mm]
    edge : array_like
        Least distance of a fixing from the end of the rail [mm]

    Returns
    -------
    n : ndarray of int
        Least number over all offsets; one more is met at the best place [-]

    Raises
    ------
    ValueError
        Spacing not above 0, width or edge below 0.

    Notes
    -----
    Source: own derivation: a length u of a row of pitch s holds floor(u / s) at least.
    Valid for: a row of studs that runs past the rail on both sides, no opening.
    """
    length, s, margin = (np.asarray(v, np.float64) for v in (width, spacing, edge))
    _refuse_nonsense(length, s, margin)
    whole = np.floor((length - 2 * margin) / s + _HAIR)
    return np.asarray(np.maximum(whole, 0), np.int64)


def stud_places(offset: float, width: float, spacing: float, first: float, edge: float) -> Array:
    """Where along a rail the studs that it meets lie.

    Parameters
    ----------
    offset : float
        Left end of the rail from the datum on the wall [mm]
    width : float
        Length of the rail [mm]
    spacing : float
        Stud spacing, centre to centre [mm]
    first : float
        Centre of the first stud from the datum; none is counted before it [mm]
    edge : float
        Least distance of a fixing from the end of the rail [mm]

    Returns
    -------
    x : ndarray, shape (n,)
        Distance of each stud from the left end of the rail [mm]

    Raises
    ------
    ValueError
        Spacing not above 0, width or edge below 0.

    Notes
    -----
    Source: own derivation, see ``studs_met``.
    """
    low, high = _first_and_last(offset, width, spacing, first, edge)
    return first + spacing * np.arange(int(low), int(high) + 1, dtype=np.float64) - offset


class RailForces(NamedTuple):
    """What a rail on studs comes to: reactions (..., n) [N], largest moment (...) [N mm]."""

    reactions: Array
    moment: Array


def continuous_rail(F: ArrayLike, x: ArrayLike, studs: ArrayLike, length: float) -> RailForces:
    """Share of each stud in the loads on a rail that runs through over all of them.

    Parameters
    ----------
    F : array_like, shape (m,) or (cases, m)
        Loads on the rail, all in one direction of bending [N]
    x : array_like, shape (m,)
        Place of each load from the left end of the rail [mm]
    studs : array_like, shape (n,)
        Place of each stud from the left end, rising, two or more [mm]
    length : float
        Length of the rail [mm]

    Returns
    -------
    forces : RailForces
        Reactions at the studs, below 0 where the rail pries the other way, [N]; largest
        moment in the rail, size only [N mm]

    Raises
    ------
    Mechanism
        One stud: the rail turns about it.
    ValueError
        Studs not rising, or a stud or load off the rail.

    Notes
    -----
    Source: stiffness method of this package's beam solver; uniform rail, studs that don't give,
    no shear deflection. Inner studs get up to 1.375 times what the lever rule gives them.
    """
    places = np.atleast_1d(np.asarray(x, np.float64))
    loads = np.asarray(F, np.float64)
    table = np.broadcast_to(np.atleast_2d(loads), (np.atleast_2d(loads).shape[0], places.size))
    rail = Beam(
        length=length,
        support_at=np.asarray(studs, np.float64),
        EI=np.array(length**2),  # any stiffness gives these; this one is of the loads' size
    )
    case = np.arange(table.shape[0])[:, np.newaxis]
    result = solve(rail, Loads.point(case, places, table, cases=table.shape[0]))
    moment = result.extremes().M_abs_max.max(axis=-1)
    if loads.ndim < 2:
        return RailForces(result.reactions[0], np.asarray(moment[0], np.float64))
    return RailForces(result.reactions, np.asarray(moment, np.float64))
