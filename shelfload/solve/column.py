"""Columns and plates on edge: buckling, compression with bending, bearing."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

BETA_C_SOLID = 0.2
"""Straightness factor of solid timber, EN 1995-1-1 (6.29). The clause gives none for panel
products: they take this one too, the larger and therefore the safer of the two."""

BETA_C_GLUED = 0.1
"""Straightness factor of glulam and LVL, EN 1995-1-1 (6.29)."""

END_CONDITIONS: dict[str, tuple[float, float]] = {
    "fixed-fixed": (0.5, 0.7),
    "fixed-pinned": (0.6991556596428412, 0.85),
    "pinned-pinned": (1.0, 1.0),
    "fixed-guided": (1.0, 1.5),
    "pinned-guided": (2.0, 2.0),
    "fixed-free": (2.0, 2.0),
}
"""End conditions -> (ideal, practical) effective length factor [-].

"guided" turns nowhere but may move sideways; "free" may do both. The ideal ones are the
Euler cases (0.699 = pi / 4.4934, the first root of tan u = u). The practical ones allow for
ends that give a little: BS 5268-2 table of effective lengths 0.7, 0.85, 1.0, 1.5, 2.0
(0.7, 0.85 and 1.0 read in a public thread on posts in position and in direction; 1.5 and
2.0 from memory; "pinned-guided" is the ideal value, BS 5268-2 has no such case)."""


def effective_length(L: ArrayLike, ends: str, *, ideal: bool = False) -> Array:
    """Length of the pinned column that buckles at the same load.

    Parameters
    ----------
    L : array_like
        Length between restraints [mm]
    ends : str
        A key of ``END_CONDITIONS`` [-]
    ideal : bool
        Euler's factor instead of the practical, larger one [-]

    Returns
    -------
    L_ef : ndarray
        Effective length [mm]

    Raises
    ------
    KeyError
        Unknown end condition.

    Notes
    -----
    Source: Timoshenko & Gere, Theory of Elastic Stability, 2.2 (ideal); BS 5268-2, effective
    lengths of compression members (practical, partly from memory).
    """
    euler, practical = END_CONDITIONS[ends]
    return np.asarray(L, np.float64) * (euler if ideal else practical)


def euler_load(EI: ArrayLike, L_ef: ArrayLike) -> Array:
    """Elastic critical load of a straight column.

    Parameters
    ----------
    EI : array_like
        Bending stiffness about the axis of buckling [N mm2]
    L_ef : array_like
        Effective length [mm]

    Returns
    -------
    N_cr : ndarray
        Critical load [N]

    Notes
    -----
    Source: Euler; Timoshenko & Gere, Theory of Elastic Stability, 2.1. For strength with
    imperfections use ``instability_factor``; E is then the 5th percentile.
    """
    return np.asarray(np.pi**2 * np.asarray(EI, np.float64) / np.square(L_ef), np.float64)


def slenderness(L_ef: ArrayLike, EI: ArrayLike, EA: ArrayLike) -> Array:
    """Slenderness ratio, effective length over radius of gyration.

    Parameters
    ----------
    L_ef : array_like
        Effective length [mm]
    EI : array_like
        Bending stiffness about the axis of buckling; of a built-up section the effective
        one: glued as one piece, screwed by the slip of the screws, lying as the sum of
        the layers [N mm2]
    EA : array_like
        Axial stiffness of the whole section [N]

    Returns
    -------
    lambda_ : ndarray
        Slenderness ratio [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 6.3.2(1); for built-up columns C.3.2, lambda_ef =
    l sqrt(A_tot / I_ef). For a uniform section I [mm4] and A [mm2] give the same.
    """
    stiff = np.asarray(EI, np.float64)
    return np.asarray(L_ef, np.float64) * np.sqrt(np.asarray(EA, np.float64) / stiff)


def relative_slenderness(lambda_: ArrayLike, f_c_0_k: ArrayLike, E_0_05: ArrayLike) -> Array:
    """Relative slenderness.

    Parameters
    ----------
    lambda_ : array_like
        Slenderness ratio [-]
    f_c_0_k : array_like
        Characteristic compression strength along the column [MPa]
    E_0_05 : array_like
        5th percentile modulus along the column [MPa]

    Returns
    -------
    lambda_rel : ndarray
        Relative slenderness [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, (6.21) and (6.22).
    """
    root = np.sqrt(np.asarray(f_c_0_k, np.float64) / np.asarray(E_0_05, np.float64))
    return np.asarray(lambda_, np.float64) / np.pi * root


def buckling_k(lambda_rel: ArrayLike, beta_c: ArrayLike) -> Array:
    """Auxiliary factor k of the buckling curve.

    Parameters
    ----------
    lambda_rel : array_like
        Relative slenderness [-]
    beta_c : array_like
        Straightness factor, ``BETA_C_SOLID`` or ``BETA_C_GLUED`` [-]

    Returns
    -------
    k : ndarray
        Auxiliary factor [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, (6.27) and (6.28).
    """
    rel = np.asarray(lambda_rel, np.float64)
    return 0.5 * (1.0 + np.asarray(beta_c, np.float64) * (rel - 0.3) + rel**2)


def instability_factor(lambda_rel: ArrayLike, beta_c: ArrayLike) -> Array:
    """Share of the compression strength that is left by buckling.

    Parameters
    ----------
    lambda_rel : array_like
        Relative slenderness [-]
    beta_c : array_like
        Straightness factor, ``BETA_C_SOLID`` or ``BETA_C_GLUED`` [-]

    Returns
    -------
    k_c : ndarray
        Instability factor, 1 up to a relative slenderness of 0.3 [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, (6.25) and (6.26); 6.3.2(2) below 0.3.
    Valid for: columns bowed by no more than length / 300 (solid) or length / 500 (glued), 10.2.
    """
    rel = np.asarray(lambda_rel, np.float64)
    k = buckling_k(rel, beta_c)
    # Below 0.3 the root may turn negative before the cap of 1 sets in.
    root = np.sqrt(np.maximum(k**2 - rel**2, 0.0))
    return np.where(rel <= 0.3, 1.0, np.minimum(1.0 / (k + root), 1.0))


def compression_bending_ratios(
    sigma_c: ArrayLike,
    sigma_m_y: ArrayLike,
    sigma_m_z: ArrayLike,
    *,
    f_c_0_d: ArrayLike,
    f_m_y_d: ArrayLike,
    f_m_z_d: ArrayLike,
    lambda_rel_y: ArrayLike,
    lambda_rel_z: ArrayLike,
    beta_c: ArrayLike,
    k_m: ArrayLike = 0.7,
) -> Array:
    """Use of a column in compression and bending, both formulas of the clause.

    Parameters
    ----------
    sigma_c : array_like
        Design compression stress, compression positive here [MPa]
    sigma_m_y : array_like
        Design bending stress about y, size only [MPa]
    sigma_m_z : array_like
        Design bending stress about z, size only [MPa]
    f_c_0_d : array_like
        Design compression strength [MPa]
    f_m_y_d : array_like
        Design bending strength about y [MPa]
    f_m_z_d : array_like
        Design bending strength about z [MPa]
    lambda_rel_y : array_like
        Relative slenderness about y [-]
    lambda_rel_z : array_like
        Relative slenderness about z [-]
    beta_c : array_like
        Straightness factor [-]
    k_m : array_like
        0.7 for rectangles of solid timber, glulam and LVL; 1 for everything else [-]

    Returns
    -------
    ratios : ndarray, shape (2, ...)
        Left-hand sides of (6.23) and (6.24), or of (6.19) and (6.20) where both relative
        slendernesses are at most 0.3; above 1 fails [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 6.3.2(2) and (3); k_m 6.1.6(2).
    """
    c, m_y, m_z, f_c, f_y, f_z, rel_y, rel_z, b_c, km = (
        np.asarray(v, np.float64)
        for v in np.broadcast_arrays(
            sigma_c, sigma_m_y, sigma_m_z, f_c_0_d, f_m_y_d, f_m_z_d,
            lambda_rel_y, lambda_rel_z, beta_c, k_m,
        )
    )  # fmt: skip
    stocky = (rel_y <= 0.3) & (rel_z <= 0.3)
    pure_y = np.where(stocky, (c / f_c) ** 2, c / (instability_factor(rel_y, b_c) * f_c))
    pure_z = np.where(stocky, (c / f_c) ** 2, c / (instability_factor(rel_z, b_c) * f_c))
    about_y = np.abs(m_y) / f_y
    about_z = np.abs(m_z) / f_z
    return np.stack([pure_y + about_y + km * about_z, pure_z + km * about_y + about_z])


def unbalanced_moment(
    N_left: ArrayLike, N_right: ArrayLike, e_left: ArrayLike, e_right: ArrayLike
) -> Array:
    """Couple on a column from loads that rest on both of its faces.

    Parameters
    ----------
    N_left : array_like
        Load handed over on the left [N]
    N_right : array_like
        Load handed over on the right [N]
    e_left : array_like
        Distance of the left load from the column's axis [mm]
    e_right : array_like
        Distance of the right load from the column's axis [mm]

    Returns
    -------
    M : ndarray
        Couple, clockwise (right side heavier) positive [N mm]

    Notes
    -----
    Source: statics, moments about the axis of the column.
    """
    right = np.asarray(N_right, np.float64) * np.asarray(e_right, np.float64)
    return right - np.asarray(N_left, np.float64) * np.asarray(e_left, np.float64)


def couple_moment(M: ArrayLike, a: ArrayLike, L: ArrayLike) -> Array:
    """Largest bending moment in a pinned column from a couple on its way up.

    Parameters
    ----------
    M : array_like
        Couple [N mm]
    a : array_like
        Height of the couple above the lower end [mm]
    L : array_like
        Length between the pins [mm]

    Returns
    -------
    M_max : ndarray
        Largest moment, size only [N mm]

    Notes
    -----
    Source: statics: the pins push with M / L; the moment jumps at the couple from M a / L to
    M (L - a) / L of the other sign.
    """
    low, length = np.asarray(a, np.float64), np.asarray(L, np.float64)
    return np.abs(np.asarray(M, np.float64)) * np.maximum(low, length - low) / length
