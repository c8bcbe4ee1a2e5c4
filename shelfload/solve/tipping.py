"""Tipping of a rigid body about an edge of its base, and sliding.

Coordinates go with the body: x forward from its back, z up from its base. The tilt leans the
whole forward, about the edge: a soft or sloping base.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def holding_arm(x: ArrayLike, z: ArrayLike, x_edge: ArrayLike, tilt: ArrayLike = 0.0) -> Array:
    """Lever of a weight about the tipping edge.

    Parameters
    ----------
    x : array_like
        Place of the weight forward of the back [mm]
    z : array_like
        Its height above the base [mm]
    x_edge : array_like
        Place of the tipping edge forward of the back [mm]
    tilt : array_like
        Forward lean of the base [rad]

    Returns
    -------
    arm : ndarray
        Horizontal lever, positive if the weight holds the body down, negative if it tips [mm]

    Notes
    -----
    Source: statics: gravity seen from the leaning body has the parts cos tilt down and
    sin tilt forward.
    """
    back = np.asarray(x_edge, np.float64) - np.asarray(x, np.float64)
    lean = np.asarray(tilt, np.float64)
    return np.asarray(back * np.cos(lean) - np.asarray(z, np.float64) * np.sin(lean))


def tipping_moments(
    W: ArrayLike,
    x: ArrayLike,
    z: ArrayLike,
    x_edge: ArrayLike,
    *,
    H: ArrayLike = 0.0,
    h: ArrayLike = 0.0,
    P: ArrayLike = 0.0,
    d: ArrayLike = 0.0,
    z_P: ArrayLike = 0.0,
    tilt: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Sum up what holds and what tips about an edge.

    Parameters
    ----------
    W : array_like, shape (..., n)
        Weights [N]
    x : array_like, shape (..., n)
        Their places forward of the back [mm]
    z : array_like, shape (..., n)
        Their heights above the base [mm]
    x_edge : array_like, shape (...)
        Tipping edge forward of the back [mm]
    H : array_like, shape (...)
        Pull forward, along the base [N]
    h : array_like, shape (...)
        Its height above the base [mm]
    P : array_like, shape (...)
        Extra load, down: a body that climbs or leans [N]
    d : array_like, shape (...)
        Its distance beyond the edge [mm]
    z_P : array_like, shape (...)
        Its height above the base [mm]
    tilt : array_like, shape (...)
        Forward lean of the base [rad]

    Returns
    -------
    (holding, tipping) : tuple of ndarray, shape (...)
        Moments about the edge; each weight counts on the side that it really acts on [N mm]

    Notes
    -----
    Source: statics, moments about the edge: tips when P d + H h > sum of W (x_edge - x).
    """
    edge, lean = np.asarray(x_edge, np.float64), np.asarray(tilt, np.float64)
    arms = holding_arm(x, z, edge[..., np.newaxis], lean[..., np.newaxis])
    weights = np.asarray(W, np.float64)
    by_load = np.asarray(P, np.float64) * holding_arm(d, z_P, 0.0, lean)
    holding = np.sum(weights * np.maximum(arms, 0.0), axis=-1) + np.maximum(by_load, 0.0)
    pulled = np.asarray(H, np.float64) * np.asarray(h, np.float64)
    tipping = np.sum(weights * np.maximum(-arms, 0.0), axis=-1) + np.maximum(-by_load, 0.0)
    holding, tipping = np.broadcast_arrays(holding, tipping + pulled)
    return np.asarray(holding, np.float64), np.asarray(tipping, np.float64)


def tipping_margin(holding: ArrayLike, tipping: ArrayLike) -> Array:
    """Divide the holding by the tipping moment.

    Parameters
    ----------
    holding : array_like
        Holding moment [N mm]
    tipping : array_like
        Tipping moment [N mm]

    Returns
    -------
    margin : ndarray
        Below 1 it goes over; infinite where nothing tips, nan where nothing acts at all [-]

    Notes
    -----
    Source: statics.
    """
    hold, tip = np.broadcast_arrays(np.asarray(holding, np.float64), np.asarray(tipping))
    blank = np.where(hold > 0, np.inf, np.nan)
    with np.errstate(over="ignore"):  # a next to nothing that tips: infinite is right
        return np.asarray(np.divide(hold, tip, out=blank, where=tip > 0), np.float64)


def restraint_force(
    holding: ArrayLike, tipping: ArrayLike, h: ArrayLike, factor: ArrayLike
) -> Array:
    """Pull that restraints to the wall must hold together.

    Parameters
    ----------
    holding : array_like
        Holding moment [N mm]
    tipping : array_like
        Tipping moment [N mm]
    h : array_like
        Height of the restraint above the base [mm]
    factor : array_like
        Margin that is wanted [-]

    Returns
    -------
    F : ndarray
        Horizontal force; 0 where none is needed [N]

    Raises
    ------
    ValueError
        A restraint at the base.

    Notes
    -----
    Source: statics: holding + F h = factor tipping.
    """
    height = np.asarray(h, np.float64)
    if np.any(height <= 0):
        raise ValueError("a restraint must lie above the base")
    short = np.asarray(factor, np.float64) * np.asarray(tipping) - np.asarray(holding)
    return np.asarray(np.maximum(short, 0.0) / height, np.float64)


def push_to_tip(holding: ArrayLike, tipping: ArrayLike, h: ArrayLike) -> Array:
    """Further horizontal pull at a height that starts to tip the body.

    Parameters
    ----------
    holding : array_like
        Holding moment [N mm]
    tipping : array_like
        Tipping moment without this pull [N mm]
    h : array_like
        Height of the pull above the base [mm]

    Returns
    -------
    H : ndarray
        Pull; 0 where it tips already [N]

    Notes
    -----
    Source: statics: H h = holding - tipping.
    """
    net = np.asarray(holding, np.float64) - np.asarray(tipping, np.float64)
    return np.maximum(net, 0.0) / np.asarray(h, np.float64)


def tilt_to_tip(W: ArrayLike, x: ArrayLike, z: ArrayLike, x_edge: ArrayLike) -> Array:
    """Forward lean at which the body goes over by its weight alone.

    Parameters
    ----------
    W : array_like, shape (..., n)
        Weights [N]
    x : array_like, shape (..., n)
        Their places forward of the back [mm]
    z : array_like, shape (..., n)
        Their heights above the base [mm]
    x_edge : array_like, shape (...)
        Tipping edge forward of the back [mm]

    Returns
    -------
    tilt : ndarray, shape (...)
        Angle; below 0 the body does not stand [rad]

    Notes
    -----
    Source: statics: the common centre of gravity is above the edge at
    tan tilt = sum W (x_edge - x) / sum W z.
    """
    weights = np.asarray(W, np.float64)
    back = np.asarray(x_edge, np.float64)[..., np.newaxis] - np.asarray(x, np.float64)
    high = np.sum(weights * np.asarray(z, np.float64), axis=-1)
    return np.asarray(np.arctan2(np.sum(weights * back, axis=-1), high), np.float64)


def tilt_by_block(t: ArrayLike, base: ArrayLike) -> Array:
    """Lean from a strip under the back of the base, as in carpet tests.

    Parameters
    ----------
    t : array_like
        Thickness of the strip [mm]
    base : array_like
        Distance from the strip to the tipping edge, along the base [mm]

    Returns
    -------
    tilt : ndarray
        Forward lean, asin(t / base) [rad]

    Notes
    -----
    Source: own derivation, geometry.
    """
    return np.asarray(np.arcsin(np.asarray(t, np.float64) / np.asarray(base)), np.float64)


def sliding_ratio(H: ArrayLike, N: ArrayLike, mu: ArrayLike, tilt: ArrayLike = 0.0) -> Array:
    """Force along the base over friction.

    Parameters
    ----------
    H : array_like
        Pull along the base [N]
    N : array_like
        Weight on the base [N]
    mu : array_like
        Coefficient of friction [-]
    tilt : array_like
        Lean of the base in the direction of the pull [rad]

    Returns
    -------
    ratio : ndarray
        Above 1 it slides [-]

    Notes
    -----
    Source: statics with Coulomb friction: (H + N sin tilt) / (mu N cos tilt).
    """
    weight, lean = np.asarray(N, np.float64), np.asarray(tilt, np.float64)
    held = np.asarray(mu, np.float64) * weight * np.cos(lean)
    return np.asarray((np.asarray(H, np.float64) + weight * np.sin(lean)) / held, np.float64)
