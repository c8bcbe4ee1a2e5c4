"""Mechanically jointed beams: parts that slide on their fasteners, by the gamma method.

The parts are numbered from the top as in EN 1995-1-1:2004, Annex B: part 2 is the
reference (gamma = 1), parts 1 and 3 slide on it. Leave part 3 out with ``A_3 = 0``. Shear
deflection of the parts is not in here; whoever asks for a sag adds it.
The exact solution for two parts is in :mod:`shelfload.solve.composite_exact`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

# Length for the slip factor as a share of the span, EN 1995-1-1:2004, B.1.3(2). For two equal
# spans it understates the sag of a double by up to a seventh: composite_exact.sag_continuous.
SLIP_SPAN = {"simple": 1.0, "continuous": 0.8, "cantilever": 2.0}


def gamma_slip(E: ArrayLike, A: ArrayLike, s: ArrayLike, K: ArrayLike, L: ArrayLike) -> Floats:
    r"""Efficiency of the fasteners between an outer part and its reference part.

    .. math:: \gamma = \left[1 + \frac{\pi^2 E A s}{K L^2}\right]^{-1}

    Parameters
    ----------
    E : array_like
        Mean modulus of elasticity of the outer part along the span [MPa]
    A : array_like
        Cross-section of the outer part [mm2]
    s : array_like
        Spacing of the fasteners, 0 for glue, infinite for parts that only lie on each
        other; with several rows the spacing in a row by the number of rows [mm]
    K : array_like
        Slip modulus of one fastener: service for sag, ultimate for strength [N/mm]
    L : array_like
        Span, by its support times ``SLIP_SPAN`` [mm]

    Returns
    -------
    ndarray
        0 for parts that only lie on each other, 1 for rigid glue [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.2, equation (B.5).
    Valid for: loads with a half-wave of moment over L, 0 < K < infinity.

    Examples
    --------
    >>> round(float(gamma_slip(E=9000, A=5400, s=100, K=1000, L=900)), 5)
    0.01661
    """
    E, A, s, K, L = floats(E, A, s, K, L)
    return 1.0 / (1.0 + np.pi**2 * E * A * s / (K * L**2))


def effective_spacing(s_min: ArrayLike, s_max: ArrayLike) -> Floats:
    """Spacing that stands for one that follows the shear force.

    Parameters
    ----------
    s_min : array_like
        Smallest spacing, near the supports [mm]
    s_max : array_like
        Largest spacing, in the middle [mm]

    Returns
    -------
    ndarray
        s_ef; nan where s_max exceeds 4 s_min [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 9.1.3(3) and B.1.3(3).
    """
    s_min, s_max = floats(s_min, s_max)
    s_ef = 0.75 * s_min + 0.25 * s_max
    return np.where((s_max >= s_min) & (s_max <= 4.0 * s_min), s_ef, np.nan)


def axis_offset(
    gamma_1: ArrayLike,
    E_1: ArrayLike,
    A_1: ArrayLike,
    h_1: ArrayLike,
    E_2: ArrayLike,
    A_2: ArrayLike,
    h_2: ArrayLike,
    gamma_3: ArrayLike = 0.0,
    E_3: ArrayLike = 0.0,
    A_3: ArrayLike = 0.0,
    h_3: ArrayLike = 0.0,
) -> Floats:
    """Distances of the parts' centroids from the neutral axis of the joint section.

    Parameters
    ----------
    gamma_1 : array_like
        Efficiency of the fasteners of part 1 [-]
    E_1 : array_like
        Modulus of elasticity of part 1 [MPa]
    A_1 : array_like
        Cross-section of part 1 [mm2]
    h_1 : array_like
        Depth of part 1 [mm]
    E_2 : array_like
        Modulus of elasticity of part 2 [MPa]
    A_2 : array_like
        Cross-section of part 2 [mm2]
    h_2 : array_like
        Depth of part 2 [mm]
    gamma_3 : array_like
        Efficiency of the fasteners of part 3 [-]
    E_3 : array_like
        Modulus of elasticity of part 3 [MPa]
    A_3 : array_like
        Cross-section of part 3, 0 where there is none [mm2]
    h_3 : array_like
        Depth of part 3 [mm]

    Returns
    -------
    ndarray, broadcast shape + (3,)
        a_1 (axis below it), a_2 (axis above it), a_3 (axis above it), each positive when
        the axis is on that side [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.2, equation (B.6) and figure B.1 with parts in contact.
    """
    g_1, E_1, A_1, h_1 = floats(gamma_1, E_1, A_1, h_1)
    E_2, A_2, h_2 = floats(E_2, A_2, h_2)
    g_3, E_3, A_3, h_3 = floats(gamma_3, E_3, A_3, h_3)
    pull_1, pull_3 = g_1 * E_1 * A_1, g_3 * E_3 * A_3
    a_2 = (pull_1 * (h_1 + h_2) - pull_3 * (h_2 + h_3)) / (2.0 * (pull_1 + E_2 * A_2 + pull_3))
    a_1 = 0.5 * (h_1 + h_2) - a_2
    a_3 = 0.5 * (h_2 + h_3) + a_2
    return np.stack(np.broadcast_arrays(a_1, a_2, a_3), axis=-1)


def effective_stiffness(
    gamma: ArrayLike,
    E: ArrayLike,
    I: ArrayLike,  # noqa: E741
    A: ArrayLike,
    a: ArrayLike,
) -> Floats:
    """Effective bending stiffness of the joint section.

    Parameters
    ----------
    gamma : array_like, parts on the last axis
        Efficiencies of the fasteners, 1 for the reference part [-]
    E : array_like, parts on the last axis
        Moduli of elasticity [MPa]
    I : array_like, parts on the last axis
        Second moments of area of the parts about their own axes [mm4]
    A : array_like, parts on the last axis
        Cross-sections [mm2]
    a : array_like, parts on the last axis
        Distances of the centroids from the neutral axis [mm]

    Returns
    -------
    ndarray
        (EI)_ef, summed over the last axis [N mm2]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.2, equation (B.1).
    """
    gamma, E, I, A, a = floats(gamma, E, I, A, a)  # noqa: E741
    return np.asarray(np.sum(E * I + gamma * E * A * a**2, axis=-1))


def two_part_stiffness(
    E_1: ArrayLike,
    A_1: ArrayLike,
    I_1: ArrayLike,
    E_2: ArrayLike,
    A_2: ArrayLike,
    I_2: ArrayLike,
    r: ArrayLike,
    s: ArrayLike,
    K: ArrayLike,
    L: ArrayLike,
) -> Floats:
    """Effective bending stiffness of two parts that slide on each other.

    Parameters
    ----------
    E_1 : array_like
        Modulus of elasticity of one part [MPa]
    A_1 : array_like
        Its cross-section [mm2]
    I_1 : array_like
        Its second moment of area [mm4]
    E_2 : array_like
        Modulus of elasticity of the other part [MPa]
    A_2 : array_like
        Its cross-section [mm2]
    I_2 : array_like
        Its second moment of area [mm4]
    r : array_like
        Distance between the two centroids [mm]
    s : array_like
        Spacing of the fasteners, 0 for glue, infinite for no fasteners [mm]
    K : array_like
        Slip modulus of one fastener [N/mm]
    L : array_like
        Span, by its support times ``SLIP_SPAN`` [mm]

    Returns
    -------
    ndarray
        (EI)_ef [N mm2]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.2, equations (B.1), (B.5), (B.6) for two parts. It does not
    matter which part is called 1.
    """
    E_1, A_1, I_1 = floats(E_1, A_1, I_1)
    E_2, A_2, I_2 = floats(E_2, A_2, I_2)
    (r,) = floats(r)
    pull = gamma_slip(E_1, A_1, s, K, L) * E_1 * A_1
    hold = E_2 * A_2
    return E_1 * I_1 + E_2 * I_2 + pull * hold / (pull + hold) * r**2
