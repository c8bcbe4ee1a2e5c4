"""Axial resistance of nails.

Too little penetration gives nan: no design value, which is never a pass.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats


def smooth_nail_withdrawal(
    rho_k: ArrayLike, d: ArrayLike, t_pen: ArrayLike, t: ArrayLike, d_h: ArrayLike
) -> Floats:
    """Axial resistance of a smooth nail driven across the grain.

    Parameters
    ----------
    rho_k : array_like
        Characteristic density of both members [kg/m3]
    d : array_like
        Nail diameter [mm]
    t_pen : array_like
        Point-side penetration [mm]
    t : array_like
        Thickness of the head-side member [mm]
    d_h : array_like
        Head diameter [mm]

    Returns
    -------
    ndarray
        F_ax,Rk; nan with less than 8 d of penetration [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.2, equations (8.24) to (8.26), reduction for
    penetration below 12 d by (7), from memory.
    Valid for: loads that are not permanent or long-term, 8.3.2(1).
    """
    rho_k, d, t_pen, t, d_h = floats(rho_k, d, t_pen, t, d_h)
    share = np.where(t_pen >= (8.0 - 1e-9) * d, np.clip(t_pen / (4.0 * d) - 2.0, 0.0, 1.0), np.nan)
    f_ax_k = 20e-6 * rho_k**2 * share
    f_head_k = 70e-6 * rho_k**2
    return np.minimum(f_ax_k * d * t_pen, 20e-6 * rho_k**2 * d * t + f_head_k * d_h**2)


def profiled_nail_withdrawal(
    f_ax_k: ArrayLike, f_head_k: ArrayLike, d: ArrayLike, t_pen: ArrayLike, d_h: ArrayLike
) -> Floats:
    """Axial resistance of a ring or helically threaded nail, declared strengths.

    Parameters
    ----------
    f_ax_k : array_like
        Withdrawal strength [MPa]
    f_head_k : array_like
        Pull-through strength [MPa]
    d : array_like
        Nail diameter [mm]
    t_pen : array_like
        Length of the threaded part in the point-side member [mm]
    d_h : array_like
        Head diameter [mm]

    Returns
    -------
    ndarray
        F_ax,Rk; nan with less than 6 d of penetration [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.2, equation (8.23), reduction for penetration below 8 d
    by (7), from memory.
    """
    f_ax_k, f_head_k, d, t_pen, d_h = floats(f_ax_k, f_head_k, d, t_pen, d_h)
    share = np.where(t_pen >= (6.0 - 1e-9) * d, np.clip(t_pen / (2.0 * d) - 3.0, 0.0, 1.0), np.nan)
    return np.minimum(f_ax_k * share * d * t_pen, f_head_k * d_h**2)
