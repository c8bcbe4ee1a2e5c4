"""Lateral resistance of one dowel-type fastener, per shear plane: all failure modes.

Every function returns the modes stacked on the last axis, in the order of their letters in
the clause, so that one call serves a whole table of fasteners, joins and thicknesses.
The smallest governs: :func:`governing`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.connection_arrays import Floats, floats, stacked

SINGLE_SHEAR_MODES = "abcdef"
DOUBLE_SHEAR_MODES = "ghjk"

# Cap of the rope effect as a share of the Johansen part, EN 1995-1-1:2004, 8.2.2(2).
ROPE_CAP = {
    "round nail": 0.15,
    "square or grooved nail": 0.25,
    "other nail": 0.50,
    "screw": 1.00,
    "bolt": 0.25,
    "dowel": 0.00,
}


def rope_effect(F_johansen: ArrayLike, F_ax_Rk: ArrayLike, cap: ArrayLike) -> Floats:
    """Part of the withdrawal resistance that helps against sideways load.

    Parameters
    ----------
    F_johansen : array_like
        Johansen part of the mode [N]
    F_ax_Rk : array_like
        Characteristic withdrawal resistance, 0 where it is not known [N]
    cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray
        What is added to the Johansen part [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.2(2).
    """
    F_johansen, F_ax_Rk, cap = floats(F_johansen, F_ax_Rk, cap)
    return np.minimum(F_ax_Rk / 4.0, cap * F_johansen)


def roped(F_johansen: ArrayLike, F_ax_Rk: ArrayLike, cap: ArrayLike) -> Floats:
    """Add the rope effect to the Johansen part of a mode.

    Parameters
    ----------
    F_johansen : array_like
        Johansen part of the mode [N]
    F_ax_Rk : array_like
        Characteristic withdrawal resistance, 0 where it is not known [N]
    cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray
        Resistance of the mode [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.2(2).
    """
    (F_johansen,) = floats(F_johansen)
    return F_johansen + rope_effect(F_johansen, F_ax_Rk, cap)


def _one_hinge(beta: Floats, f_h_1: Floats, t_1: Floats, d: Floats, M_y: Floats) -> Floats:
    """Mode (d) of 8.6, which is also mode (j) of 8.7: hinge in the other member."""
    root = np.sqrt(
        2.0 * beta * (1.0 + beta) + 4.0 * beta * (2.0 + beta) * M_y / (f_h_1 * d * t_1**2)
    )
    return np.asarray(1.05 * f_h_1 * t_1 * d / (2.0 + beta) * (root - beta))


def _two_hinges(beta: Floats, f_h_1: Floats, d: Floats, M_y: Floats) -> Floats:
    """Mode (f) of 8.6, which is also mode (k) of 8.7: a hinge in each member."""
    return np.asarray(1.15 * np.sqrt(2.0 * beta / (1.0 + beta)) * np.sqrt(2.0 * M_y * f_h_1 * d))


def single_shear(
    f_h_1: ArrayLike,
    f_h_2: ArrayLike,
    t_1: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Characteristic resistance in single shear between timber or panels, modes a to f.

    Parameters
    ----------
    f_h_1 : array_like
        Embedment strength of the head-side member [MPa]
    f_h_2 : array_like
        Embedment strength of the point-side member [MPa]
    t_1 : array_like
        Thickness of the head-side member [mm]
    t_2 : array_like
        Penetration into the point-side member [mm]
    d : array_like
        Diameter of the fastener, for screws the effective one [mm]
    M_y_Rk : array_like
        Yield moment of the fastener [N mm]
    F_ax_Rk : array_like
        Withdrawal resistance for the rope effect, 0 where it is not known [N]
    rope_cap : array_like
        Largest share of the Johansen part, see ``ROPE_CAP`` [-]

    Returns
    -------
    ndarray, broadcast shape + (6,)
        Modes a, b, c, d, e, f, per fastener and shear plane [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.2, equation (8.6).
    Valid for: minimum penetration and spacings kept (8.3 to 8.7); zero thickness gives nan.
    """
    f_h_1, f_h_2, t_1, t_2, d, M_y = floats(f_h_1, f_h_2, t_1, t_2, d, M_y_Rk)
    t_1, t_2 = np.where(t_1 > 0, t_1, np.nan), np.where(t_2 > 0, t_2, np.nan)
    beta = f_h_2 / f_h_1
    ratio = t_2 / t_1
    c = (
        f_h_1 * t_1 * d / (1.0 + beta)
        * (
            np.sqrt(
                beta
                + 2.0 * beta**2 * (1.0 + ratio + ratio**2)
                + beta**3 * ratio**2
            )
            - beta * (1.0 + ratio)
        )
    )  # fmt: skip
    # (e) is (d) seen from the other member: swap the members and beta becomes 1 / beta
    e = _one_hinge(1.0 / beta, f_h_2, t_2, d, M_y)
    return stacked(
        f_h_1 * t_1 * d,
        f_h_2 * t_2 * d,
        roped(c, F_ax_Rk, rope_cap),
        roped(_one_hinge(beta, f_h_1, t_1, d, M_y), F_ax_Rk, rope_cap),
        roped(e, F_ax_Rk, rope_cap),
        roped(_two_hinges(beta, f_h_1, d, M_y), F_ax_Rk, rope_cap),
    )


def double_shear(
    f_h_1: ArrayLike,
    f_h_2: ArrayLike,
    t_1: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    M_y_Rk: ArrayLike,
    F_ax_Rk: ArrayLike = 0.0,
    rope_cap: ArrayLike = 0.0,
) -> Floats:
    """Characteristic resistance in symmetric double shear, per shear plane, modes g to k.

    Parameters
    ----------
    f_h_1 : array_like
        Embedment strength of the outer members [MPa]
    f_h_2 : array_like
        Embedment strength of the middle member [MPa]
    t_1 : array_like
        Thickness of the thinner outer member, or the penetration into it [mm]
    t_2 : array_like
        Thickness of the middle member [mm]
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
    ndarray, broadcast shape + (4,)
        Modes g, h, j, k, per fastener and shear plane [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.2, equation (8.7).
    """
    f_h_1, f_h_2, t_1, t_2, d, M_y = floats(f_h_1, f_h_2, t_1, t_2, d, M_y_Rk)
    t_1, t_2 = np.where(t_1 > 0, t_1, np.nan), np.where(t_2 > 0, t_2, np.nan)
    beta = f_h_2 / f_h_1
    return stacked(
        f_h_1 * t_1 * d,
        0.5 * f_h_2 * t_2 * d,
        roped(_one_hinge(beta, f_h_1, t_1, d, M_y), F_ax_Rk, rope_cap),
        roped(_two_hinges(beta, f_h_1, d, M_y), F_ax_Rk, rope_cap),
    )


def governing(modes: ArrayLike, letters: str) -> tuple[Floats, NDArray[np.str_]]:
    """Smallest mode on the last axis and its letter.

    Parameters
    ----------
    modes : array_like
        Resistances, one failure mode for each entry of the last axis [N]
    letters : str
        Letters of the modes in order, for example ``SINGLE_SHEAR_MODES`` [-]

    Returns
    -------
    F_v_Rk : ndarray
        Governing resistance; nan where any mode has no value [N]
    letter : ndarray of str
        Its letter, empty where there is no value [-]

    Raises
    ------
    ValueError
        If there are not as many letters as modes.

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.2.2(1): the smallest of the expressions.
    """
    (modes,) = floats(modes)
    if modes.shape[-1] != len(letters):
        raise ValueError(f"{modes.shape[-1]} modes on the last axis, {len(letters)} letters")
    unknown = np.isnan(modes).any(axis=-1)
    index = np.argmin(np.where(np.isnan(modes), np.inf, modes), axis=-1)
    letter = np.where(unknown, "", np.array(list(letters))[index])
    return np.min(modes, axis=-1), letter
