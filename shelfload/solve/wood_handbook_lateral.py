"""Direct lateral loads of the US Wood Handbook, for short fasteners.

A second basis beside EN 1995-1-1, for fasteners that miss its least penetration. All
results are mean loads at the proportional limit, never characteristic or design values; a
working load is a share of them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# US allowable lateral loads before 1991 were p = C D^2 with C 2520, 3240, 3960 psi for wood
# screws where Table 8-4 has 3360, 4320, 5280: three quarters of the proportional limit
# (handbook formulas for timber, equation (6.38)). A fifth, as in withdrawal, is cautious.
ALLOWABLE_SHARE_1991 = 0.75
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

# Penetration for the full lateral load in diameters; lag screws: harder and softer woods,
# FPL-GTR-190, chapter 8.
FULL_PENETRATION = {"wood screw": 7.0, "lag screw, hard": 7.0, "lag screw, soft": 11.0}

LAG_SIDE_RATIO = (2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5)
LAG_SIDE_FACTOR = (0.62, 0.77, 0.93, 1.00, 1.07, 1.13, 1.18, 1.21, 1.22, 1.22)
LAG_ACROSS_DIAMETER = (4.8, 6.4, 7.9, 9.5, 11.1, 12.7, 15.9)
LAG_ACROSS_FACTOR = (1.00, 0.97, 0.85, 0.76, 0.70, 0.65, 0.60)


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
    Source: Wood Handbook, FPL-GTR-282, chapter 8, Table 8-4 (the same in FPL-GTR-190).
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
        Mean load along the grain, with full penetration [N]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8, Table 8-4 and text; lag screws equation
    (8-15) of FPL-GTR-190.
    Valid for: penetrations of ``FULL_PENETRATION``; lag screws further
    :func:`lag_side_member_factor` and :func:`lag_across_grain_factor`.
    """
    K, D = floats(K, D)
    return np.asarray(K * D**2)


def lag_side_member_factor(t: ArrayLike, D: ArrayLike) -> Floats:
    """Factor on the lateral load of a lag screw for the thickness of its side member.

    Parameters
    ----------
    t : array_like
        Thickness of the side member [mm]
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        1 at 3.5 D; nan below 2 D [-]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-190, Table 8-10, linear in between.
    """
    t, D = floats(t, D)
    ratio = t / D
    factor = np.interp(ratio, LAG_SIDE_RATIO, LAG_SIDE_FACTOR)
    return np.where(ratio >= LAG_SIDE_RATIO[0] - 1e-9, factor, np.nan)


def lag_across_grain_factor(D: ArrayLike) -> Floats:
    """Factor on the lateral load of a lag screw for load across the grain.

    Parameters
    ----------
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        From 1 at 4.8 mm down to 0.60 at 15.9 mm; nan above [-]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-190, Table 8-11, linear in between.
    """
    (D,) = floats(D)
    factor = np.interp(D, LAG_ACROSS_DIAMETER, LAG_ACROSS_FACTOR)
    return np.where(D <= LAG_ACROSS_DIAMETER[-1], factor, np.nan)


def penetration_share(L: ArrayLike, D: ArrayLike, full: ArrayLike = 7.0) -> Floats:
    """Share of the lateral load that a screw with little penetration keeps.

    Parameters
    ----------
    L : array_like
        Penetration into the member with the point [mm]
    D : array_like
        Shank diameter [mm]
    full : array_like
        Penetration for the full load in diameters, see ``FULL_PENETRATION`` [-]

    Returns
    -------
    ndarray
        L / (full D), at most 1; nan below 4 D [-]

    Notes
    -----
    Source: Wood Handbook, FPL-GTR-282, chapter 8: full load from 7 D, in proportion below;
    no value below 4 D from memory.
    """
    L, D, full = floats(L, D, full)
    return np.where(L >= (4.0 - 1e-9) * D, np.minimum(L / (full * D), 1.0), np.nan)
