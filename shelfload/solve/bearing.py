"""Bearing across the grain or the face of a panel, and what a sagging beam leaves of it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

UNIFORM_SHORTENING = 2176.0 / 875.0
"""Shortening of the chord of a simple beam under uniform load, times L / w_max^2 [-].

w = (16/5) w_max (s - 2 s^3 + s^4), s = x / L; half the integral of w'^2 is
(128/25) (17/35) w_max^2 / L = 2.4869 w_max^2 / L (a parabola of the same sag: 8/3)."""

UNIFORM_END_SLOPE = 16.0 / 5.0
"""End slope of a simple beam under uniform load, times L / w_max [-]."""


def effective_bearing_length(
    l: ArrayLike,  # noqa: E741  (the clause's symbol)
    a_left: ArrayLike,
    a_right: ArrayLike,
    l_1: ArrayLike = np.inf,
) -> Array:
    """Contact length across the grain, with the help of the fibres beside it.

    Parameters
    ----------
    l : array_like
        Contact length along the grain [mm]
    a_left : array_like
        Wood beyond the contact on the left [mm]
    a_right : array_like
        Wood beyond the contact on the right [mm]
    l_1 : array_like
        Clear distance to the next contact [mm]

    Returns
    -------
    l_ef : ndarray
        Length to which the pressure is referred [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1, 6.1.5(1): at each side up to 30 mm, but not more than a, l or
    l_1 / 2. k_c,90 is 1.0 unless 6.1.5(2)-(4) gives more (1.25 or 1.5 for softwood with
    l_1 >= 2 h).
    Valid for: timber loaded across the grain; panel products are not in the clause, take l.
    """
    contact = np.asarray(l, np.float64)
    most = np.minimum(np.minimum(30.0, contact), np.asarray(l_1, np.float64) / 2)
    left = np.minimum(most, np.asarray(a_left, np.float64))
    return contact + left + np.minimum(most, np.asarray(a_right, np.float64))


def bearing_ratio(
    F: ArrayLike, b: ArrayLike, l_ef: ArrayLike, f_c_90_d: ArrayLike, k_c_90: ArrayLike = 1.0
) -> Array:
    """Bearing stress over bearing strength.

    Parameters
    ----------
    F : array_like
        Design load [N]
    b : array_like
        Contact width [mm]
    l_ef : array_like
        Effective contact length [mm]
    f_c_90_d : array_like
        Design compression strength across the grain or the face [MPa]
    k_c_90 : array_like
        Load arrangement factor; 1 for panel products [-]

    Returns
    -------
    ratio : ndarray
        Above 1 fails [-]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1, (6.3) and (6.4).
    """
    pressure = np.asarray(F, np.float64) / (np.asarray(b, np.float64) * np.asarray(l_ef))
    return np.asarray(pressure / (np.asarray(k_c_90) * np.asarray(f_c_90_d)), np.float64)


def uniform_shortening(w_max: ArrayLike, L: ArrayLike) -> Array:
    """How much closer the ends of a simply supported, evenly loaded beam come.

    Parameters
    ----------
    w_max : array_like
        Sag at mid-span from bending [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    shortening : ndarray
        Both ends together [mm]

    Notes
    -----
    Source: own derivation, see ``UNIFORM_SHORTENING``; half the integral of the slope squared.
    Valid for: slopes below about 0.1 (the next term is smaller by slope squared / 4).
    """
    return UNIFORM_SHORTENING * np.asarray(w_max, np.float64) ** 2 / np.asarray(L, np.float64)


def uniform_end_slope(w_max: ArrayLike, L: ArrayLike) -> Array:
    """End rotation of a simply supported, evenly loaded beam.

    Parameters
    ----------
    w_max : array_like
        Sag at mid-span from bending [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    slope : ndarray
        Rotation at each end [rad]

    Notes
    -----
    Source: q L^3 / (24 EI) over 5 q L^4 / (384 EI), any beam table.
    """
    return UNIFORM_END_SLOPE * np.asarray(w_max, np.float64) / np.asarray(L, np.float64)


def curve_shortening(x: ArrayLike, w: ArrayLike) -> Array:
    """Shortening of the chord of any deflected curve given by points.

    Parameters
    ----------
    x : array_like, shape (n,)
        Places along the beam, rising [mm]
    w : array_like, shape (..., n)
        Deflection at those places [mm]

    Returns
    -------
    shortening : ndarray, shape (...)
        Both ends together; from below, closer with more points [mm]

    Notes
    -----
    Source: own derivation: half the integral of the slope squared, chord by chord.
    """
    step = np.diff(np.asarray(x, np.float64))
    return np.asarray(np.sum(np.diff(np.asarray(w, np.float64)) ** 2 / (2 * step), axis=-1))


def bearing_left(b: ArrayLike, play: ArrayLike, shortening: ArrayLike) -> Array:
    """Bearing length that is left at the worse end.

    Parameters
    ----------
    b : array_like
        Length of the ledge, cleat or pin under the end [mm]
    play : array_like
        Opening less length of the beam, both ends together [mm]
    shortening : array_like
        Shortening from sag, both ends together [mm]

    Returns
    -------
    left : ndarray
        Bearing left if the beam has crept wholly to the other end; at or below 0 it falls [mm]

    Notes
    -----
    Source: own derivation, geometry. The lower edge's gain of slope times half the thickness
    is left out, on the safe side; the turned end presses on the inner edge of what is left.
    """
    lost = np.asarray(play, np.float64) + np.asarray(shortening, np.float64)
    return np.asarray(b, np.float64) - lost


def sag_at_slip(b: ArrayLike, play: ArrayLike, L: ArrayLike) -> Array:
    """Sag at which an evenly loaded beam slips off its bearing.

    Parameters
    ----------
    b : array_like
        Length of the ledge, cleat or pin under the end [mm]
    play : array_like
        Opening less length of the beam, both ends together [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    w_slip : ndarray
        Sag at mid-span; 0 where the play alone is enough [mm]

    Notes
    -----
    Source: own derivation: ``uniform_shortening`` solved for the sag.
    """
    room = np.maximum(np.asarray(b, np.float64) - np.asarray(play, np.float64), 0.0)
    return np.sqrt(room * np.asarray(L, np.float64) / UNIFORM_SHORTENING)
