"""The fastener itself under lateral load: diameter that counts, yield moment, head."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.connection_arrays import Floats, floats


def head_is_wide(d_h: ArrayLike, d: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether the head is wide enough for the panel formulas.

    Parameters
    ----------
    d_h : array_like
        Head diameter [mm]
    d : array_like
        Diameter of the fastener [mm]

    Returns
    -------
    ndarray of bool
        True from 2 d up [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(3).
    """
    d_h, d = floats(d_h, d)
    return np.asarray(d_h >= 2.0 * d)


def yield_moment(f_u: ArrayLike, d: ArrayLike) -> Floats:
    """Yield moment of round nails, bolts, dowels and screws.

    Parameters
    ----------
    f_u : array_like
        Tensile strength of the wire or bolt [MPa]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        M_y,Rk [N mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, equations (8.14) and (8.30); a declared value goes first.
    """
    f_u, d = floats(f_u, d)
    return np.asarray(0.3 * f_u * d**2.6)


def yield_moment_square(f_u: ArrayLike, d: ArrayLike) -> Floats:
    """Yield moment of square and grooved nails.

    Parameters
    ----------
    f_u : array_like
        Tensile strength of the wire [MPa]
    d : array_like
        Side of the square, smallest side of a grooved nail [mm]

    Returns
    -------
    ndarray
        M_y,Rk [N mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.1(4), equation (8.14).
    """
    f_u, d = floats(f_u, d)
    return np.asarray(0.45 * f_u * d**2.6)


def effective_diameter(
    d_shank: ArrayLike, d_root: ArrayLike, shank_in_point_member: ArrayLike
) -> Floats:
    """Diameter with which a screw counts under lateral load.

    Parameters
    ----------
    d_shank : array_like
        Smooth shank diameter, 0 for a screw threaded up to its head [mm]
    d_root : array_like
        Root (inner) diameter of the thread [mm]
    shank_in_point_member : array_like
        Length of smooth shank inside the point-side member [mm]

    Returns
    -------
    ndarray
        The shank where it reaches 4 diameters into the point-side member, else 1.1 times
        the root [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.7.1(2)-(3).
    """
    d_shank, d_root, reach = floats(d_shank, d_root, shank_in_point_member)
    return np.where((d_shank > 0.0) & (reach >= 4.0 * d_shank), d_shank, 1.1 * d_root)


def acts_as_bolt(d_ef: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether a screw follows the rules for bolts instead of those for nails.

    Parameters
    ----------
    d_ef : array_like
        Effective diameter [mm]

    Returns
    -------
    ndarray of bool
        True above 6 mm [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.7.1(4)-(5).
    """
    (d_ef,) = floats(d_ef)
    return np.asarray(d_ef > 6.0)
