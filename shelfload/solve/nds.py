"""US yield modes and withdrawal values (NDS), as a cross-check of the other two bases.

Allowable-stress values: compare with service loads, never with factored ones. The
empirical coefficients belong to pounds and inches; here they stand in N and mm through
``INCH`` and ``PSI``, so that every argument is in N, mm, MPa.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats, stacked

INCH = 25.4  # [mm]
POUND = 4.4482216152605  # [N]
PSI = POUND / INCH**2  # [MPa]
YIELD_MODES = ("Im", "Is", "II", "IIIm", "IIIs", "IV")


def dowel_bearing_strength(G: ArrayLike) -> Floats:
    """Dowel bearing strength of wood under fasteners thinner than 6.35 mm.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry [-]

    Returns
    -------
    ndarray
        F_e [MPa]

    Notes
    -----
    Source: NDS 2018, Table 12.3.3; Wood Handbook, FPL-GTR-282, equation (8-3).
    """
    (G,) = floats(G)
    return np.asarray(16600.0 * PSI * G**1.84)


def reduction_term(D: ArrayLike) -> Floats:
    """Reduction term of the yield modes for fasteners thinner than 6.35 mm.

    Parameters
    ----------
    D : array_like
        Diameter, for screws the root [mm]

    Returns
    -------
    ndarray
        R_d = K_D; nan from 6.35 mm (1/4 in) up [-]

    Notes
    -----
    Source: NDS 2018, Table 12.3.1B.
    """
    (D,) = floats(D)
    return np.where(D / INCH < 0.25, np.where(D / INCH <= 0.17, 2.2, 10.0 * D / INCH + 0.5), np.nan)


def single_shear_allowable(
    F_em: ArrayLike,
    F_es: ArrayLike,
    l_m: ArrayLike,
    l_s: ArrayLike,
    D: ArrayLike,
    F_yb: ArrayLike,
    R_d: ArrayLike,
) -> Floats:
    """Lateral load allowed in single shear, the six yield modes.

    Parameters
    ----------
    F_em : array_like
        Bearing strength of the main (point-side) member [MPa]
    F_es : array_like
        Bearing strength of the side member [MPa]
    l_m : array_like
        Bearing length in the main member [mm]
    l_s : array_like
        Bearing length in the side member [mm]
    D : array_like
        Diameter, for screws the root [mm]
    F_yb : array_like
        Bending yield strength [MPa]
    R_d : array_like
        Reduction term; 1 gives the yield load itself [-]

    Returns
    -------
    ndarray, broadcast shape + (6,)
        Modes Im, Is, II, IIIm, IIIs, IV [N]

    Notes
    -----
    Source: NDS 2018, Table 12.3.1A.
    """
    F_em, F_es, l_m, l_s, D, F_yb, R_d = floats(F_em, F_es, l_m, l_s, D, F_yb, R_d)
    R_e = F_em / F_es
    R_t = l_m / l_s
    k_1 = (
        np.sqrt(R_e + 2.0 * R_e**2 * (1.0 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1.0 + R_t)
    ) / (1.0 + R_e)
    k_2 = -1.0 + np.sqrt(
        2.0 * (1.0 + R_e) + 2.0 * F_yb * (1.0 + 2.0 * R_e) * D**2 / (3.0 * F_em * l_m**2)
    )
    k_3 = -1.0 + np.sqrt(
        2.0 * (1.0 + R_e) / R_e + 2.0 * F_yb * (2.0 + R_e) * D**2 / (3.0 * F_em * l_s**2)
    )
    return stacked(
        D * l_m * F_em / R_d,
        D * l_s * F_es / R_d,
        k_1 * D * l_s * F_es / R_d,
        k_2 * D * l_m * F_em / ((1.0 + 2.0 * R_e) * R_d),
        k_3 * D * l_s * F_em / ((2.0 + R_e) * R_d),
        D**2 / R_d * np.sqrt(2.0 * F_em * F_yb / (3.0 * (1.0 + R_e))),
    )


def wood_screw_withdrawal_allowable(G: ArrayLike, D: ArrayLike) -> Floats:
    """Withdrawal load allowed for a wood screw in side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry [-]
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        W for each mm of thread [N/mm]

    Notes
    -----
    Source: NDS 2018, equation (12.2-2), 2850 G^2 D in lb/in.
    """
    G, D = floats(G, D)
    return np.asarray(2850.0 * PSI * G**2 * D)


def lag_screw_withdrawal_allowable(G: ArrayLike, D: ArrayLike) -> Floats:
    """Withdrawal load allowed for a lag screw in side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry [-]
    D : array_like
        Shank diameter [mm]

    Returns
    -------
    ndarray
        W for each mm of thread [N/mm]

    Notes
    -----
    Source: NDS 2018, equation (12.2-1), 1800 G^1.5 D^0.75 in lb/in.
    """
    G, D = floats(G, D)
    return np.asarray(1800.0 * PSI * INCH * G**1.5 * (D / INCH) ** 0.75)


def nail_withdrawal_allowable(G: ArrayLike, D: ArrayLike) -> Floats:
    """Withdrawal load allowed for a plain nail in side grain.

    Parameters
    ----------
    G : array_like
        Specific gravity, ovendry [-]
    D : array_like
        Nail diameter [mm]

    Returns
    -------
    ndarray
        W for each mm of penetration [N/mm]

    Notes
    -----
    Source: NDS 2018, equation (12.2-3), 1380 G^2.5 D in lb/in.
    """
    G, D = floats(G, D)
    return np.asarray(1380.0 * PSI * G**2.5 * D)
