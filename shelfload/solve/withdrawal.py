"""Axial resistance of screws: withdrawal, head pull-through, steel.

Where a clause does not apply (end grain, too short a thread) the result is nan: no design
value, which is never a pass.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.connection_arrays import Floats, floats


def screw_formula_applies(d: ArrayLike, d_1: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether (8.39) covers a screw; where not, its declared strength is needed.

    Parameters
    ----------
    d : array_like
        Outer thread diameter [mm]
    d_1 : array_like
        Inner thread diameter [mm]

    Returns
    -------
    ndarray of bool
        True for d from 6 to 12 mm and d_1/d from 0.6 to 0.75 [-]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(4).
    """
    d, d_1 = floats(d, d_1)
    return np.asarray((d >= 6.0) & (d <= 12.0) & (d_1 >= 0.6 * d) & (d_1 <= 0.75 * d))


def screw_withdrawal_strength(d: ArrayLike, l_ef: ArrayLike, rho_k: ArrayLike) -> Floats:
    """Withdrawal strength of a screw perpendicular to the grain.

    Parameters
    ----------
    d : array_like
        Outer thread diameter [mm]
    l_ef : array_like
        Thread length in the point-side member [mm]
    rho_k : array_like
        Characteristic density [kg/m3]

    Returns
    -------
    ndarray
        f_ax,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(4), equation (8.39).
    Valid for: :func:`screw_formula_applies`.
    """
    d, l_ef, rho_k = floats(d, l_ef, rho_k)
    return np.asarray(0.52 * d**-0.5 * l_ef**-0.1 * rho_k**0.8)


def _axial_angle(alpha: Floats) -> Floats:
    """Denominator of (8.38); nan below 30 degrees, where the clause gives nothing."""
    covered = np.abs(alpha) >= np.deg2rad(30.0) - 1e-12
    return np.where(covered, 1.2 * np.cos(alpha) ** 2 + np.sin(alpha) ** 2, np.nan)


def _long_enough(l_ef: Floats, d: Floats) -> Floats:
    """Thread length, nan below the 6 d of 8.7.2(3); the slack is for binary decimals."""
    return np.where(l_ef >= (6.0 - 1e-9) * d, l_ef, np.nan)


def screw_withdrawal(
    f_ax_k: ArrayLike,
    d: ArrayLike,
    l_ef: ArrayLike,
    alpha: ArrayLike,
    n_ef: ArrayLike = 1.0,
) -> Floats:
    """Withdrawal resistance of screws with the strength of (8.39).

    Parameters
    ----------
    f_ax_k : array_like
        Withdrawal strength perpendicular to the grain [MPa]
    d : array_like
        Outer thread diameter [mm]
    l_ef : array_like
        Thread length in the point-side member [mm]
    alpha : array_like
        Angle between screw axis and grain, pi/2 in a face [rad]
    n_ef : array_like
        Effective number of screws [-]

    Returns
    -------
    ndarray
        F_ax,alpha,Rk; nan below 30 degrees or with less than 6 d of thread [N]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(4), equations (8.38) and (8.40); penetration of
    the thread by 8.7.2(3).
    """
    f_ax_k, d, l_ef, alpha, n_ef = floats(f_ax_k, d, l_ef, alpha, n_ef)
    k_d = np.minimum(d / 8.0, 1.0)
    held = _long_enough(l_ef, d)
    return n_ef * f_ax_k * d * held * k_d / _axial_angle(alpha)


def screw_withdrawal_declared(
    f_ax_k: ArrayLike,
    d: ArrayLike,
    l_ef: ArrayLike,
    alpha: ArrayLike,
    rho_k: ArrayLike,
    rho_a: ArrayLike,
    n_ef: ArrayLike = 1.0,
) -> Floats:
    """Withdrawal resistance of screws with a strength declared by their maker.

    Parameters
    ----------
    f_ax_k : array_like
        Declared withdrawal strength perpendicular to the grain [MPa]
    d : array_like
        Outer thread diameter [mm]
    l_ef : array_like
        Thread length in the point-side member [mm]
    alpha : array_like
        Angle between screw axis and grain, pi/2 in a face [rad]
    rho_k : array_like
        Characteristic density of the member [kg/m3]
    rho_a : array_like
        Density that the declared strength belongs to [kg/m3]
    n_ef : array_like
        Effective number of screws [-]

    Returns
    -------
    ndarray
        F_ax,alpha,Rk; nan below 30 degrees or with less than 6 d of thread [N]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(5), equation (8.40a).
    """
    f_ax_k, d, l_ef, alpha, rho_k, rho_a, n_ef = floats(f_ax_k, d, l_ef, alpha, rho_k, rho_a, n_ef)
    held = _long_enough(l_ef, d)
    return n_ef * f_ax_k * d * held / _axial_angle(alpha) * (rho_k / rho_a) ** 0.8


def head_pull_through(
    f_head_k: ArrayLike,
    d_h: ArrayLike,
    rho_k: ArrayLike,
    rho_a: ArrayLike,
    n_ef: ArrayLike = 1.0,
) -> Floats:
    """Resistance of a screw head against being pulled through the first member.

    Parameters
    ----------
    f_head_k : array_like
        Declared pull-through strength [MPa]
    d_h : array_like
        Head diameter [mm]
    rho_k : array_like
        Characteristic density of the member under the head [kg/m3]
    rho_a : array_like
        Density that the declared strength belongs to [kg/m3]
    n_ef : array_like
        Effective number of screws [-]

    Returns
    -------
    ndarray
        F_ax,alpha,Rk [N]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(6), equation (8.40b).
    """
    f_head_k, d_h, rho_k, rho_a, n_ef = floats(f_head_k, d_h, rho_k, rho_a, n_ef)
    return n_ef * f_head_k * d_h**2 * (rho_k / rho_a) ** 0.8


def screw_tension(f_tens_k: ArrayLike, n_ef: ArrayLike = 1.0) -> Floats:
    """Resistance of the steel of screws in tension.

    Parameters
    ----------
    f_tens_k : array_like
        Declared tensile capacity of one screw, or head tear-off [N]
    n_ef : array_like
        Effective number of screws [-]

    Returns
    -------
    ndarray
        F_t,Rk [N]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(7), equation (8.40c).
    """
    f_tens_k, n_ef = floats(f_tens_k, n_ef)
    return n_ef * f_tens_k


def effective_number_axial(n: ArrayLike) -> Floats:
    """Effective number of screws that share an axial load.

    Parameters
    ----------
    n : array_like
        Number of screws acting together [-]

    Returns
    -------
    ndarray
        n_ef [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.7.2(8), equation (8.41).
    """
    (n,) = floats(n)
    return np.asarray(n**0.9)
