"""Several fasteners together: effective number in a row, and splitting of the member."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# a_1 / d and k_ef of EN 1995-1-1:2004, Table 8.1; 4 d for predrilled holes only.
K_EF_SPACING = (4.0, 7.0, 10.0, 14.0)
K_EF = (0.5, 0.7, 0.85, 1.0)


def k_ef(a_1: ArrayLike, d: ArrayLike, predrilled: ArrayLike) -> Floats:
    """Exponent of the effective number of nails or thin screws in a row along the grain.

    Parameters
    ----------
    a_1 : array_like
        Spacing along the grain [mm]
    d : array_like
        Diameter [mm]
    predrilled : array_like of bool
        True where the holes are predrilled [-]

    Returns
    -------
    ndarray
        k_ef; nan below 7 d, or below 4 d where predrilled [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.1(8), Table 8.1, linear in between.
    """
    a_1, d = floats(a_1, d)
    least = np.where(np.asarray(predrilled, dtype=np.bool_), K_EF_SPACING[0], K_EF_SPACING[1])
    ratio = a_1 / d
    # the spacing is often a multiple of d in decimals that binary numbers miss
    return np.where(ratio >= least - 1e-9, np.interp(ratio, K_EF_SPACING, K_EF), np.nan)


def effective_number_nails(n: ArrayLike, k_ef: ArrayLike) -> Floats:
    """Effective number of nails or thin screws in a row along the grain.

    Parameters
    ----------
    n : array_like
        Number in the row; staggered by a diameter or more, each row counts alone [-]
    k_ef : array_like
        Exponent by spacing [-]

    Returns
    -------
    ndarray
        n_ef [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.1(8), equation (8.17).
    """
    n, k_ef = floats(n, k_ef)
    return np.asarray(n**k_ef)


def effective_number_bolts(n: ArrayLike, a_1: ArrayLike, d: ArrayLike) -> Floats:
    """Effective number of bolts, dowels or thick screws in a row along the grain.

    Parameters
    ----------
    n : array_like
        Number in the row [-]
    a_1 : array_like
        Spacing along the grain [mm]
    d : array_like
        Diameter [mm]

    Returns
    -------
    ndarray
        n_ef for load along the grain; across the grain it is n [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.5.1.1(4), equation (8.34).
    """
    n, a_1, d = floats(n, a_1, d)
    return np.minimum(n, n**0.9 * (a_1 / (13.0 * d)) ** 0.25)


def splitting_resistance(b: ArrayLike, h: ArrayLike, h_e: ArrayLike, w: ArrayLike = 1.0) -> Floats:
    """Resistance of a softwood member against splitting by a force across the grain.

    Parameters
    ----------
    b : array_like
        Member thickness [mm]
    h : array_like
        Member depth [mm]
    h_e : array_like
        Distance from the loaded edge to the furthest fastener [mm]
    w : array_like
        Factor for punched metal plates, 1 for all other fasteners [-]

    Returns
    -------
    ndarray
        F_90,Rk; nan where h_e reaches h [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.1.4, equation (8.4).
    """
    b, h, h_e, w = floats(b, h, h_e, w)
    share = np.where(h_e < h, h_e / h, np.nan)
    return np.asarray(14.0 * b * w * np.sqrt(h_e / (1.0 - share)))
