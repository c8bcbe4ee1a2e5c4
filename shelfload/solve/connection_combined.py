"""Axial and lateral load on one fastener at once."""

from __future__ import annotations

from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats


def combined_linear(F_ax: ArrayLike, R_ax: ArrayLike, F_v: ArrayLike, R_v: ArrayLike) -> Floats:
    """Use of a smooth nail under axial and lateral load together.

    Parameters
    ----------
    F_ax : array_like
        Axial design load [N]
    R_ax : array_like
        Axial design resistance [N]
    F_v : array_like
        Lateral design load [N]
    R_v : array_like
        Lateral design resistance [N]

    Returns
    -------
    ndarray
        Share of the resistance in use, 1 at the limit [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.3, equation (8.27).
    """
    F_ax, R_ax, F_v, R_v = floats(F_ax, R_ax, F_v, R_v)
    return F_ax / R_ax + F_v / R_v


def combined_quadratic(F_ax: ArrayLike, R_ax: ArrayLike, F_v: ArrayLike, R_v: ArrayLike) -> Floats:
    """Use of a screw or profiled nail under axial and lateral load together.

    Parameters
    ----------
    F_ax : array_like
        Axial design load [N]
    R_ax : array_like
        Axial design resistance [N]
    F_v : array_like
        Lateral design load [N]
    R_v : array_like
        Lateral design resistance [N]

    Returns
    -------
    ndarray
        Left side of the interaction, 1 at the limit; its root is the factor on both
        loads [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.3 and 8.7.3, equation (8.28).
    """
    F_ax, R_ax, F_v, R_v = floats(F_ax, R_ax, F_v, R_v)
    return (F_ax / R_ax) ** 2 + (F_v / R_v) ** 2
