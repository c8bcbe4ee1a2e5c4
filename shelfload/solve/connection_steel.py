"""Lateral resistance of one fastener between a steel plate and timber or a panel.

The modes are stacked on the last axis, as in :mod:`shelfload.solve.connection`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection import roped
from shelfload.solve.connection_arrays import Floats, floats, stacked

THIN_PLATE_MODES = "ab"
THICK_PLATE_MODES = "cde"
MIDDLE_PLATE_MODES = "fgh"
OUTER_THIN_PLATES_MODES = "jk"
OUTER_THICK_PLATES_MODES = "lm"


def thin_plate(
    f_h: ArrayLike,
    t_1: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Single shear with a thin steel plate (thickness up to 0.5 d), modes a and b.

    Parameters
    ----------
    f_h : array_like
        Embedment strength of the timber or panel [MPa]
    t_1 : array_like
        Thickness of the timber or panel, or the penetration into it [mm]
    d : array_like
        Diameter of the fastener [mm]
    M_y_Rk : array_like
        Yield moment of the fastener [N mm]
    F_ax_Rk : array_like
        Withdrawal resistance for the rope effect, 0 where it is not known [N]
    rope_cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray, broadcast shape + (2,)
        Modes a, b [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.3, equation (8.9).
    """
    f_h, t_1, d, M_y = floats(f_h, t_1, d, M_y_Rk)
    t_1 = np.where(t_1 > 0, t_1, np.nan)
    b = np.asarray(1.15 * np.sqrt(2.0 * M_y * f_h * d))
    return stacked(0.4 * f_h * t_1 * d, roped(b, F_ax_Rk, rope_cap))


def thick_plate(
    f_h: ArrayLike,
    t_1: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Single shear with a thick steel plate (thickness from d up), modes c, d, e.

    Parameters
    ----------
    f_h : array_like
        Embedment strength of the timber or panel [MPa]
    t_1 : array_like
        Thickness of the timber or panel, or the penetration into it [mm]
    d : array_like
        Diameter of the fastener [mm]
    M_y_Rk : array_like
        Yield moment of the fastener [N mm]
    F_ax_Rk : array_like
        Withdrawal resistance for the rope effect, 0 where it is not known [N]
    rope_cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray, broadcast shape + (3,)
        Modes c, d, e [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.3, equation (8.10).
    Valid for: a plate hole at most 0.1 d wider than the fastener, 8.2.3(1).
    """
    f_h, t_1, d, M_y = floats(f_h, t_1, d, M_y_Rk)
    t_1 = np.where(t_1 > 0, t_1, np.nan)
    c = f_h * t_1 * d * (np.sqrt(2.0 + 4.0 * M_y / (f_h * d * t_1**2)) - 1.0)
    two_hinges = np.asarray(2.3 * np.sqrt(M_y * f_h * d))
    return stacked(
        roped(c, F_ax_Rk, rope_cap),
        roped(two_hinges, F_ax_Rk, rope_cap),
        f_h * t_1 * d,
    )


def middle_plate(
    f_h_1: ArrayLike,
    t_1: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Double shear with a steel plate of any thickness in the middle, modes f, g, h.

    Parameters
    ----------
    f_h_1 : array_like
        Embedment strength of the outer members [MPa]
    t_1 : array_like
        Thickness of the thinner outer member, or the penetration into it [mm]
    d : array_like
        Diameter of the fastener [mm]
    M_y_Rk : array_like
        Yield moment of the fastener [N mm]
    F_ax_Rk : array_like
        Withdrawal resistance for the rope effect, 0 where it is not known [N]
    rope_cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray, broadcast shape + (3,)
        Modes f, g, h, per shear plane [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.3, equation (8.11).
    """
    modes = thick_plate(f_h_1, t_1, d, M_y_Rk, F_ax_Rk, rope_cap)
    return modes[..., [2, 0, 1]]


def outer_plates(
    f_h_2: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    thick: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Double shear with steel plates outside, modes j, k (thin) or l, m (thick).

    Parameters
    ----------
    f_h_2 : array_like
        Embedment strength of the middle member [MPa]
    t_2 : array_like
        Thickness of the middle member [mm]
    d : array_like
        Diameter of the fastener [mm]
    M_y_Rk : array_like
        Yield moment of the fastener [N mm]
    thick : array_like of bool
        True where the plates are thick, False where they are thin [-]
    F_ax_Rk : array_like
        Withdrawal resistance for the rope effect, 0 where it is not known [N]
    rope_cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray, broadcast shape + (2,)
        Modes j, k or l, m, per shear plane [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.3, equations (8.12) and (8.13).
    """
    f_h, t_2, d, M_y = floats(f_h_2, t_2, d, M_y_Rk)
    t_2 = np.where(t_2 > 0, t_2, np.nan)
    coefficient = np.where(np.asarray(thick, dtype=np.bool_), 2.3, 1.15 * np.sqrt(2.0))
    bending = np.asarray(coefficient * np.sqrt(M_y * f_h * d))
    return stacked(0.5 * f_h * t_2 * d, roped(bending, F_ax_Rk, rope_cap))


def between_thin_and_thick(
    F_thin: ArrayLike, F_thick: ArrayLike, t: ArrayLike, d: ArrayLike, clearance: ArrayLike = 0.0
) -> Floats:
    """Resistance with a steel plate of any thickness, from the thin and the thick case.

    Parameters
    ----------
    F_thin : array_like
        Governing resistance with a thin plate [N]
    F_thick : array_like
        Governing resistance with a thick plate [N]
    t : array_like
        Thickness of the steel plate [mm]
    d : array_like
        Diameter of the fastener [mm]
    clearance : array_like
        Hole diameter in the plate less d; from 0.1 d up the plate counts as thin [mm]

    Returns
    -------
    ndarray
        F_thin up to t = 0.5 d, F_thick from t = d, straight in between [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.3(1); that a plate with wide holes counts as thin is the
    safe reading of that clause.
    """
    F_thin, F_thick, t, d, clearance = floats(F_thin, F_thick, t, d, clearance)
    share = np.clip((t / d - 0.5) / 0.5, 0.0, 1.0)
    share = np.where(clearance < 0.1 * d, share, 0.0)
    return F_thin + share * (F_thick - F_thin)
