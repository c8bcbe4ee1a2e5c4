"""Direct withdrawal loads of the US Wood Handbook, for short fasteners.

A second basis beside EN 1995-1-1, for fasteners that miss its least penetration. All
results are mean loads at failure, never characteristic or design values; a working load is
a fraction of them, ``WORKING_SHARE``. Lateral loads: :mod:`wood_handbook_lateral`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# Working load as a share of the mean. The ratio of the mean to the US design value is 5.5
# for a No. 10 screw and 5.7 for a nail in withdrawal (common practice, no source).
WORKING_SHARE = 0.2


def nail_withdrawal(G: ArrayLike, D: ArrayLike, L: ArrayLike) -> Floats:
    """Mean load that pulls a plain nail out of side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry mass and volume at 12 % moisture [-]
    D : array_like
        Nail diameter [mm]
    L : array_like
        Penetration into the member with the point [mm]

    Returns
    -------
    ndarray
        Mean failure load [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, equation (8-1).
    """
    G, D, L = floats(G, D, L)
    return np.asarray(54.12 * G**2.5 * D * L)


def threaded_nail_withdrawal(G: ArrayLike, D: ArrayLike, L: ArrayLike) -> Floats:
    """Mean load that pulls a ring or helically threaded nail out of side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry mass and volume at 12 % moisture [-]
    D : array_like
        Nail diameter [mm]
    L : array_like
        Penetration into the member with the point [mm]

    Returns
    -------
    ndarray
        Mean failure load [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, equation (8-2).
    """
    G, D, L = floats(G, D, L)
    return np.asarray(77.57 * G**2 * D * L)


def wood_screw_withdrawal(G: ArrayLike, D: ArrayLike, L: ArrayLike) -> Floats:
    """Mean load that pulls a wood screw out of side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry mass and volume at 12 % moisture [-]
    D : array_like
        Shank diameter [mm]
    L : array_like
        Length of thread in the member with the point [mm]

    Returns
    -------
    ndarray
        Mean failure load [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, equation (8-10). End grain averages
    three quarters of it and is erratic: no value. Over-predicts in plywood.
    """
    G, D, L = floats(G, D, L)
    return np.asarray(108.25 * G**2 * D * L)


def lag_screw_withdrawal(G: ArrayLike, D: ArrayLike, L: ArrayLike) -> Floats:
    """Mean load that pulls a lag screw out of side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry mass and volume at 12 % moisture [-]
    D : array_like
        Shank diameter [mm]
    L : array_like
        Length of thread in the member with the point [mm]

    Returns
    -------
    ndarray
        Mean failure load [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, equation (8-14).
    """
    G, D, L = floats(G, D, L)
    return np.asarray(125.4 * G**1.5 * D**0.75 * L)


def particleboard_withdrawal(G: ArrayLike, D: ArrayLike, L: ArrayLike, edge: ArrayLike) -> Floats:
    """Mean load that pulls a screw out of particleboard.

    Parameters
    ----------
    G : array_like
        Specific gravity of the board [-]
    D : array_like
        Shank diameter [mm]
    L : array_like
        Depth of embedment [mm]
    edge : array_like of bool
        True for a screw in the edge, False in the face [-]

    Returns
    -------
    ndarray
        Mean failure load [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, equation (8-11), from memory.
    """
    G, D, L = floats(G, D, L)
    K = np.where(np.asarray(edge, dtype=np.bool_), 31.8, 41.1)
    return np.asarray(K * np.sqrt(D) * np.maximum(L - D / 3.0, 0.0) ** 1.25 * G**2)


def lead_hole(d_root: ArrayLike, wood: str) -> Floats:
    """Pilot hole for the thread of a wood screw.

    Parameters
    ----------
    d_root : array_like
        Root diameter of the thread [mm]
    wood : str
        softwood or hardwood [-]

    Returns
    -------
    ndarray
        Hole diameter [mm]

    Raises
    ------
    ValueError
        If the wood is neither.

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8: about 70 % of the root in softwood, 90 %
    in hardwood.
    """
    if wood not in ("softwood", "hardwood"):
        raise ValueError(f"wood {wood!r} is not softwood or hardwood")
    (d_root,) = floats(d_root)
    return np.asarray(d_root * (0.7 if wood == "softwood" else 0.9))
