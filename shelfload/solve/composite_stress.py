"""Stresses and fastener forces of mechanically jointed beams, gamma method.

Use stiffnesses of the ultimate limit state (K_u) where strength is asked.
"""

from __future__ import annotations

from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats


def normal_stress(
    gamma: ArrayLike, E: ArrayLike, a: ArrayLike, M: ArrayLike, EI_ef: ArrayLike
) -> Floats:
    """Mean stress of a part, at its centroid.

    Parameters
    ----------
    gamma : array_like
        Efficiency of its fasteners [-]
    E : array_like
        Its modulus of elasticity [MPa]
    a : array_like
        Distance of its centroid from the neutral axis [mm]
    M : array_like
        Bending moment [N mm]
    EI_ef : array_like
        Effective bending stiffness [N mm2]

    Returns
    -------
    ndarray
        sigma_i [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.3, equation (B.7).
    """
    gamma, E, a, M, EI_ef = floats(gamma, E, a, M, EI_ef)
    return gamma * E * a * M / EI_ef


def bending_stress(E: ArrayLike, h: ArrayLike, M: ArrayLike, EI_ef: ArrayLike) -> Floats:
    """Bending stress of a part, from its centroid to its rim.

    Parameters
    ----------
    E : array_like
        Its modulus of elasticity [MPa]
    h : array_like
        Its depth [mm]
    M : array_like
        Bending moment [N mm]
    EI_ef : array_like
        Effective bending stiffness [N mm2]

    Returns
    -------
    ndarray
        sigma_m,i, to be added to and taken from the mean stress [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.3, equation (B.8).
    """
    E, h, M, EI_ef = floats(E, h, M, EI_ef)
    return 0.5 * E * h * M / EI_ef


def shear_stress(
    gamma_3: ArrayLike,
    E_3: ArrayLike,
    A_3: ArrayLike,
    a_3: ArrayLike,
    E_2: ArrayLike,
    b_2: ArrayLike,
    h: ArrayLike,
    V: ArrayLike,
    EI_ef: ArrayLike,
) -> Floats:
    """Greatest shear stress of the reference part, at the neutral axis.

    Parameters
    ----------
    gamma_3 : array_like
        Efficiency of the fasteners of the part below [-]
    E_3 : array_like
        Modulus of elasticity of the part below [MPa]
    A_3 : array_like
        Cross-section of the part below, 0 where there is none [mm2]
    a_3 : array_like
        Distance of its centroid from the neutral axis [mm]
    E_2 : array_like
        Modulus of elasticity of the reference part [MPa]
    b_2 : array_like
        Breadth of the reference part [mm]
    h : array_like
        Distance from the neutral axis to the lower edge of the reference part [mm]
    V : array_like
        Shear force [N]
    EI_ef : array_like
        Effective bending stiffness [N mm2]

    Returns
    -------
    ndarray
        tau_2,max [MPa]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.4, equation (B.9).
    """
    g_3, E_3, A_3, a_3, E_2, b_2, h, V, EI_ef = floats(
        gamma_3, E_3, A_3, a_3, E_2, b_2, h, V, EI_ef
    )
    return (g_3 * E_3 * A_3 * a_3 + 0.5 * E_2 * b_2 * h**2) * V / (b_2 * EI_ef)


def fastener_force(
    gamma: ArrayLike,
    E: ArrayLike,
    A: ArrayLike,
    a: ArrayLike,
    s: ArrayLike,
    V: ArrayLike,
    EI_ef: ArrayLike,
) -> Floats:
    """Shear force on one fastener between an outer part and the reference part.

    Parameters
    ----------
    gamma : array_like
        Efficiency of the fasteners [-]
    E : array_like
        Modulus of elasticity of the outer part [MPa]
    A : array_like
        Cross-section of the outer part [mm2]
    a : array_like
        Distance of its centroid from the neutral axis [mm]
    s : array_like
        Spacing of the fasteners [mm]
    V : array_like
        Shear force at the fastener [N]
    EI_ef : array_like
        Effective bending stiffness [N mm2]

    Returns
    -------
    ndarray
        F_i [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, B.5, equation (B.10).
    """
    gamma, E, A, a, s, V, EI_ef = floats(gamma, E, A, a, s, V, EI_ef)
    return gamma * E * A * a * s * V / EI_ef
