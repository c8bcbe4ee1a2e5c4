"""Direct withdrawal and lateral loads of the US Wood Handbook, for short fasteners.

A second basis beside EN 1995-1-1, for fasteners that miss its least penetration. All
results are means: withdrawal at failure, lateral at the proportional limit (a slip of
about 0.38 mm for nails). They are never characteristic or design values; a working load
is a fraction of them, ``WORKING_SHARE``.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# Working load as a share of the mean. The ratio of the mean to the US design value is 5.5
# for a No. 10 screw and 5.7 for a nail in withdrawal (common practice, no source).
WORKING_SHARE = 0.2

# Specific gravity up to (and including), then N and mm: nail, wood screw, lag screw.
# Wood Handbook, Table 8-4.
LATERAL_FASTENERS = ("nail", "wood screw", "lag screw")
LATERAL_HARDWOOD = (
    (0.47, 50.04, 23.17, 26.34),
    (0.56, 69.50, 31.99, 29.51),
    (0.74, 94.52, 44.13, 34.13),
)
LATERAL_SOFTWOOD = (
    (0.42, 50.04, 23.17, 23.30),
    (0.47, 62.55, 29.79, 26.34),
    (0.52, 76.45, 36.40, 29.51),
)
LATERAL_LEAST_GRAVITY = {"hardwood": 0.33, "softwood": 0.29}


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


def lateral_coefficient(G: ArrayLike, fastener: str, wood: str) -> Floats:
    """Coefficient of the direct lateral formula by density.

    Parameters
    ----------
    G : array_like
        Specific gravity; between two groups of the table the lighter one counts [-]
    fastener : str
        One of nail, wood screw, lag screw [-]
    wood : str
        softwood or hardwood [-]

    Returns
    -------
    ndarray
        K for N and mm; nan for wood lighter than the table, and the heaviest group's value
        for denser wood [N/mm^1.5 or N/mm2]

    Raises
    ------
    ValueError
        If the fastener or the wood is not in the table.

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, Table 8-4.
    """
    if fastener not in LATERAL_FASTENERS or wood not in LATERAL_LEAST_GRAVITY:
        raise ValueError(f"no lateral coefficient for {fastener!r} in {wood!r}")
    rows = np.array(LATERAL_HARDWOOD if wood == "hardwood" else LATERAL_SOFTWOOD)
    (G,) = floats(G)
    # a figure such as 0.4749 lies between two printed groups: it stays in the lighter one
    group = np.searchsorted(rows[:-1, 0] + 0.01, G + 1e-9, side="right")
    K = rows[group, 1 + LATERAL_FASTENERS.index(fastener)]
    return np.where(LATERAL_LEAST_GRAVITY[wood] - 1e-9 <= G, K, np.nan)


def nail_lateral(K: ArrayLike, D: ArrayLike) -> Floats:
    """Mean lateral load of a nail in side grain at the proportional limit.

    Parameters
    ----------
    K : array_like
        Coefficient by density [N/mm^1.5]
    D : array_like
        Nail diameter [mm]

    Returns
    -------
    ndarray
        Mean load at a slip of about 0.38 mm [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, Table 8-4 and text; the slip from memory.
    """
    K, D = floats(K, D)
    return np.asarray(K * D**1.5)


def screw_lateral(K: ArrayLike, D: ArrayLike) -> Floats:
    """Mean lateral load of a wood or lag screw in side grain at the proportional limit.

    Parameters
    ----------
    K : array_like
        Coefficient by density [N/mm2]
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        Mean load, for a penetration of 7 D and more [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, Table 8-4 and text.
    """
    K, D = floats(K, D)
    return np.asarray(K * D**2)


def penetration_share(L: ArrayLike, D: ArrayLike) -> Floats:
    """Share of the lateral load that a screw with little penetration keeps.

    Parameters
    ----------
    L : array_like
        Penetration into the member with the point [mm]
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        L / 7 D, at most 1; nan below 4 D [-]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8: full load from 7 D, in proportion below;
    no value below 4 D from memory.
    """
    L, D = floats(L, D)
    return np.where(L >= 4.0 * D - 1e-9, np.minimum(L / (7.0 * D), 1.0), np.nan)


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
    if wood not in LATERAL_LEAST_GRAVITY:
        raise ValueError(f"wood {wood!r} is not softwood or hardwood")
    (d_root,) = floats(d_root)
    return np.asarray(d_root * (0.7 if wood == "softwood" else 0.9))
