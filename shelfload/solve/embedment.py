"""Embedment strength of timber and panels under dowel-type fasteners.

MDF has no embedment formula in EN 1995-1-1 and so has none here.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# First term of k_90, EN 1995-1-1:2004, equation (8.33).
K_90_BASE = {"softwood": 1.35, "LVL": 1.30, "hardwood": 0.90}


def embedment_not_predrilled(rho_k: ArrayLike, d: ArrayLike) -> Floats:
    """Embedment strength of timber and LVL, nails and thin screws without predrilling.

    Parameters
    ----------
    rho_k : array_like
        Characteristic density [kg/m3]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        f_h,k at any angle to the grain [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.1(5), equation (8.15); screws with d_ef up to 6 mm by
    8.7.1(5).
    Valid for: d up to 8 mm; nan above.
    """
    rho_k, d = floats(rho_k, d)
    return np.where(d <= 8.0, 0.082 * rho_k * d**-0.3, np.nan)


def embedment_predrilled(rho_k: ArrayLike, d: ArrayLike) -> Floats:
    """Embedment strength of timber and LVL, predrilled; for d over 8 mm along the grain.

    Parameters
    ----------
    rho_k : array_like
        Characteristic density [kg/m3]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        f_h,k, which is f_h,0,k of bolts, dowels and thick screws [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, equations (8.16) and (8.32).
    Valid for: d up to 30 mm; nan above.
    """
    rho_k, d = floats(rho_k, d)
    return np.where(d <= 30.0, 0.082 * (1.0 - 0.01 * d) * rho_k, np.nan)


def k_90(d: ArrayLike, wood: str) -> Floats:
    """Ratio of the embedment strengths along and across the grain.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    wood : str
        One of ``K_90_BASE``: softwood, LVL, hardwood [-]

    Returns
    -------
    ndarray
        k_90 [-]

    Raises
    ------
    ValueError
        If the wood is not one of the three.

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.5.1.1(2), equation (8.33); the LVL value from memory.
    """
    if wood not in K_90_BASE:
        raise ValueError(f"wood {wood!r} is not one of {', '.join(K_90_BASE)}")
    (d,) = floats(d)
    return np.asarray(K_90_BASE[wood] + 0.015 * d)


def embedment_at_angle(f_h_0: ArrayLike, k_90: ArrayLike, alpha: ArrayLike) -> Floats:
    """Embedment strength of timber under bolts, dowels and thick screws at an angle.

    Parameters
    ----------
    f_h_0 : array_like
        Embedment strength along the grain [MPa]
    k_90 : array_like
        Ratio along to across the grain [-]
    alpha : array_like
        Angle of the load to the grain [rad]

    Returns
    -------
    ndarray
        f_h,alpha,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.5.1.1(2), equation (8.31).
    """
    f_h_0, k_90, alpha = floats(f_h_0, k_90, alpha)
    return np.asarray(f_h_0 / (k_90 * np.sin(alpha) ** 2 + np.cos(alpha) ** 2))


def embedment_plywood(rho_k: ArrayLike, d: ArrayLike) -> Floats:
    """Embedment strength of plywood under nails and thin screws.

    Parameters
    ----------
    rho_k : array_like
        Characteristic density of the plywood [kg/m3]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        f_h,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(3), equation (8.20).
    Valid for: heads of at least 2 d, see ``fastener.head_is_wide``.
    """
    rho_k, d = floats(rho_k, d)
    return np.asarray(0.11 * rho_k * d**-0.3)


def embedment_plywood_bolt(rho_k: ArrayLike, d: ArrayLike) -> Floats:
    """Embedment strength of plywood under bolts, dowels and screws over 6 mm.

    Parameters
    ----------
    rho_k : array_like
        Characteristic density of the plywood [kg/m3]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        f_h,k at any angle to the face grain [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.5.1.2(2), equation (8.36).
    """
    rho_k, d = floats(rho_k, d)
    return np.asarray(0.11 * (1.0 - 0.01 * d) * rho_k)


def embedment_particleboard(d: ArrayLike, t: ArrayLike) -> Floats:
    """Embedment strength of particleboard and OSB under nails and thin screws.

    Parameters
    ----------
    d : array_like
        Diameter, for screws the effective one [mm]
    t : array_like
        Panel thickness [mm]

    Returns
    -------
    ndarray
        f_h,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(3), equation (8.22).
    Valid for: heads of at least 2 d, see ``fastener.head_is_wide``.
    """
    d, t = floats(d, t)
    return np.asarray(65.0 * d**-0.7 * t**0.1)


def embedment_particleboard_bolt(d: ArrayLike, t: ArrayLike) -> Floats:
    """Embedment strength of particleboard and OSB under bolts and screws over 6 mm.

    Parameters
    ----------
    d : array_like
        Diameter, for screws the effective one [mm]
    t : array_like
        Panel thickness [mm]

    Returns
    -------
    ndarray
        f_h,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.5.1.2(3), equation (8.37).
    """
    d, t = floats(d, t)
    return np.asarray(50.0 * d**-0.6 * t**0.2)


def embedment_hardboard(d: ArrayLike, t: ArrayLike) -> Floats:
    """Embedment strength of hardboard (EN 622-2) under nails and thin screws.

    Parameters
    ----------
    d : array_like
        Diameter, for screws the effective one [mm]
    t : array_like
        Panel thickness [mm]

    Returns
    -------
    ndarray
        f_h,k [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(3), equation (8.21).
    Valid for: heads of at least 2 d, see ``fastener.head_is_wide``; not for MDF.
    """
    d, t = floats(d, t)
    return np.asarray(30.0 * d**-0.3 * t**0.6)
