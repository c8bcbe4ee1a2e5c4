"""Forces on a group of fixings: rotation about an edge, eccentric groups, rails on studs."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def wall_moment(
    W: ArrayLike,
    e: ArrayLike,
    P: ArrayLike = 0.0,
    d: ArrayLike = 0.0,
    H: ArrayLike = 0.0,
    z_H: ArrayLike = 0.0,
) -> Array:
    """Moment on the wall about the lower bearing edge of a hung body.

    Parameters
    ----------
    W : array_like
        Weight of body and load [N]
    e : array_like
        Distance of that weight from the wall [mm]
    P : array_like
        Extra pull, down, at the front edge [N]
    d : array_like
        Distance of the front edge from the wall [mm]
    H : array_like
        Pull straight out from the wall [N]
    z_H : array_like
        Height of that pull above the lower bearing edge [mm]

    Returns
    -------
    M : ndarray
        Moment that turns the top away from the wall [N mm]

    Notes
    -----
    Source: statics, moments about the lower bearing edge.
    """
    down = np.asarray(W, np.float64) * np.asarray(e) + np.asarray(P, np.float64) * np.asarray(d)
    return np.asarray(down + np.asarray(H, np.float64) * np.asarray(z_H), np.float64)


def tension_by_rotation(M: ArrayLike, z: ArrayLike) -> Array:
    """Tension in each fixing of a rigid body that turns about its lower bearing edge.

    Parameters
    ----------
    M : array_like, shape (...)
        Moment about the edge [N mm]
    z : array_like, shape (..., n)
        Height of each fixing above the edge [mm]

    Returns
    -------
    T : ndarray, shape (..., n)
        Tension; the sum of T z is M [N]

    Raises
    ------
    ValueError
        A fixing below the edge, or none above it.

    Notes
    -----
    Source: statics and own derivation: equal fixings stretch by z times the turn, so
    T = M z / sum(z^2). A body or rail that bends loads the fixings nearest to the load more:
    multiply by an uneven share.
    """
    height = np.asarray(z, np.float64)
    squares = np.sum(height**2, axis=-1, keepdims=True)
    if np.any(height < 0) or np.any(squares == 0):
        raise ValueError("fixings must lie above the bearing edge, at least one of them clearly")
    moment = np.asarray(M, np.float64)[..., np.newaxis]
    return np.asarray(moment * height / squares, np.float64)


def tension_with_one_lost(M: ArrayLike, z: ArrayLike) -> Array:
    """Largest tension in a group if any one of its fixings gives out.

    Parameters
    ----------
    M : array_like, shape (...)
        Moment about the bearing edge [N mm]
    z : array_like, shape (n,)
        Height of each fixing above the edge [mm]

    Returns
    -------
    T_max : ndarray, shape (...)
        Largest tension left among the others over all single losses; infinite where the
        others have no lever [N]

    Notes
    -----
    Source: own derivation: ``tension_by_rotation`` without the lost one.
    """
    height = np.asarray(z, np.float64)
    others = np.where(np.eye(height.size, dtype=bool), 0.0, height[np.newaxis, :])
    squares, top = np.sum(others**2, axis=-1), np.max(others, axis=-1, initial=0.0)
    share = np.divide(top, squares, out=np.full(height.size, np.inf), where=squares > 0)
    moment = np.asarray(M, np.float64)
    # 0 times infinity has no value; the smallest number stands in and is then dropped.
    return np.where(moment > 0, np.maximum(moment, np.finfo(np.float64).tiny) * share.max(), 0.0)


def edge_compression(T: ArrayLike, H: ArrayLike = 0.0) -> Array:
    """Push of the lower edge against the wall.

    Parameters
    ----------
    T : array_like, shape (..., n)
        Tension of each fixing [N]
    H : array_like, shape (...)
        Pull straight out from the wall [N]

    Returns
    -------
    C : ndarray, shape (...)
        Compression; below 0 the edge lifts and rotation about it is the wrong picture [N]

    Notes
    -----
    Source: statics, horizontal forces.
    """
    return np.asarray(np.sum(np.asarray(T, np.float64), axis=-1) - np.asarray(H), np.float64)


def shear_per_fixing(V: ArrayLike, n: ArrayLike, uneven: ArrayLike = 1.0) -> Array:
    """Shear on the most loaded of n fixings.

    Parameters
    ----------
    V : array_like
        Vertical load on the group [N]
    n : array_like
        Number of fixings that carry it [-]
    uneven : array_like
        Share of the most loaded fixing over an equal share, 1 or more [-]

    Returns
    -------
    F_v : ndarray
        Shear; n times it is the load where the share is even [N]

    Raises
    ------
    ValueError
        No fixing, or an uneven share below 1.

    Notes
    -----
    Source: statics; the size of the uneven share is a matter of judgement, no source.
    """
    count, share = np.asarray(n, np.float64), np.asarray(uneven, np.float64)
    if np.any(count < 1) or np.any(share < 1):
        raise ValueError("at least one fixing, and an uneven share of 1 or more")
    return np.asarray(V, np.float64) / count * share


def interaction(
    F_ax: ArrayLike, R_ax: ArrayLike, F_v: ArrayLike, R_v: ArrayLike, power: int
) -> Array:
    """Use of a fixing in tension and shear together.

    Parameters
    ----------
    F_ax : array_like
        Design tension [N]
    R_ax : array_like
        Design resistance in tension [N]
    F_v : array_like
        Design shear [N]
    R_v : array_like
        Design resistance in shear [N]
    power : int
        1 for smooth nails and whatever has no rule of its own, 2 for screws [-]

    Returns
    -------
    ratio : ndarray
        Above 1 fails; infinite where there is a load and no resistance [-]

    Raises
    ------
    ValueError
        A power other than 1 or 2.

    Notes
    -----
    Source: EN 1995-1-1:2004, (8.27) with power 1, (8.28) with power 2.
    """
    if power not in {1, 2}:
        raise ValueError(f"found power {power}; (8.27) has 1, (8.28) has 2")
    pull, hold, shear, bear = np.broadcast_arrays(
        *(np.asarray(v, np.float64) for v in (F_ax, R_ax, F_v, R_v))
    )
    F, R = np.stack([np.maximum(pull, 0.0), np.abs(shear)]), np.stack([hold, bear])
    blank = np.where(F > 0, np.inf, 0.0)
    return np.asarray(np.sum(np.divide(F, R, out=blank, where=R > 0) ** power, axis=0))


def eccentric_group(
    x: ArrayLike, z: ArrayLike, F_x: ArrayLike, F_z: ArrayLike, M: ArrayLike
) -> tuple[Array, Array]:
    """Force on each of a plane group of equal fasteners, elastic.

    Parameters
    ----------
    x : array_like, shape (n,)
        Place of each fastener [mm]
    z : array_like, shape (n,)
        Place of each fastener [mm]
    F_x : array_like, shape (...)
        Load along x at the centroid of the group [N]
    F_z : array_like, shape (...)
        Load along z at the centroid [N]
    M : array_like, shape (...)
        Moment about the centroid, turning x towards z [N mm]

    Returns
    -------
    (f_x, f_z) : tuple of ndarray, shape (..., n)
        Load that each fastener takes; the sums give back the load and the moment [N]

    Raises
    ------
    ValueError
        A moment on fasteners that all lie in one point.

    Notes
    -----
    Source: elastic (polar) method of any steel or timber textbook: F / n + M r / sum(r^2).
    """
    dx, dz = np.asarray(x, np.float64), np.asarray(z, np.float64)
    dx, dz = dx - dx.mean(), dz - dz.mean()
    polar = float(np.sum(dx**2 + dz**2))
    moment = np.asarray(M, np.float64)[..., np.newaxis]
    if polar == 0.0 and np.any(moment != 0):
        raise ValueError("fasteners in one point cannot take a moment")
    turn = moment / polar if polar > 0.0 else np.zeros_like(moment)
    along_x = np.asarray(F_x, np.float64)[..., np.newaxis] / dx.size - turn * dz
    return along_x, np.asarray(F_z, np.float64)[..., np.newaxis] / dx.size + turn * dx
