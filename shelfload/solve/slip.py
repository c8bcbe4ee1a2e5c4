"""Slip of fasteners under service load, of one and of a row."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats


def mean_density(rho_m_1: ArrayLike, rho_m_2: ArrayLike) -> Floats:
    """Density to be used for the slip of a joint of two materials.

    Parameters
    ----------
    rho_m_1 : array_like
        Mean density of one member [kg/m3]
    rho_m_2 : array_like
        Mean density of the other [kg/m3]

    Returns
    -------
    ndarray
        rho_m [kg/m3]

    Notes
    -----
    Source: EN 1995-1-1:2004, 7.1(2), equation (7.1).
    """
    rho_m_1, rho_m_2 = floats(rho_m_1, rho_m_2)
    return np.asarray(np.sqrt(rho_m_1 * rho_m_2))


def slip_modulus(rho_m: ArrayLike, d: ArrayLike) -> Floats:
    """Slip modulus of screws, dowels, tight bolts and predrilled nails.

    Parameters
    ----------
    rho_m : array_like
        Mean density of the joint [kg/m3]
    d : array_like
        Diameter, for screws the effective one [mm]

    Returns
    -------
    ndarray
        K_ser per fastener and shear plane [N/mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 7.1, Table 7.1; twice as much against steel, 7.1(3). The hole
    clearance of bolts is added to their slip.
    """
    rho_m, d = floats(rho_m, d)
    return np.asarray(rho_m**1.5 * d / 23.0)


def slip_modulus_nail(rho_m: ArrayLike, d: ArrayLike) -> Floats:
    """Slip modulus of nails that are not predrilled.

    Parameters
    ----------
    rho_m : array_like
        Mean density of the joint [kg/m3]
    d : array_like
        Diameter [mm]

    Returns
    -------
    ndarray
        K_ser per fastener and shear plane [N/mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 7.1, Table 7.1.
    """
    rho_m, d = floats(rho_m, d)
    return np.asarray(rho_m**1.5 * d**0.8 / 30.0)


def slip_modulus_staple(rho_m: ArrayLike, d: ArrayLike) -> Floats:
    """Slip modulus of staples.

    Parameters
    ----------
    rho_m : array_like
        Mean density of the joint [kg/m3]
    d : array_like
        Diameter of a leg [mm]

    Returns
    -------
    ndarray
        K_ser per staple and shear plane [N/mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 7.1, Table 7.1.
    """
    rho_m, d = floats(rho_m, d)
    return np.asarray(rho_m**1.5 * d**0.8 / 80.0)


def slip_modulus_ultimate(K_ser: ArrayLike) -> Floats:
    """Slip modulus for forces at the ultimate limit state.

    Parameters
    ----------
    K_ser : array_like
        Slip modulus in service [N/mm]

    Returns
    -------
    ndarray
        K_u [N/mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 2.2.2(2), equation (2.1).
    """
    (K_ser,) = floats(K_ser)
    return np.asarray(K_ser * 2.0 / 3.0)


def joint_creep(k_def_1: ArrayLike, k_def_2: ArrayLike) -> Floats:
    """Creep factor of a joint between two materials.

    Parameters
    ----------
    k_def_1 : array_like
        Creep factor of one member [-]
    k_def_2 : array_like
        Creep factor of the other; equal members get twice their own factor [-]

    Returns
    -------
    ndarray
        k_def of the joint [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 2.3.2.2(3)-(4), equation (2.13), from memory.
    """
    k_def_1, k_def_2 = floats(k_def_1, k_def_2)
    return np.asarray(2.0 * np.sqrt(k_def_1 * k_def_2))


def slip_modulus_final(K_ser: ArrayLike, k_def: ArrayLike) -> Floats:
    """Slip modulus after years of load.

    Parameters
    ----------
    K_ser : array_like
        Slip modulus in service [N/mm]
    k_def : array_like
        Creep factor of the joint [-]

    Returns
    -------
    ndarray
        K_ser,fin [N/mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 2.3.2.2(1), equation (2.9).
    """
    K_ser, k_def = floats(K_ser, k_def)
    return K_ser / (1.0 + k_def)


def row_stiffness(K: ArrayLike, s: ArrayLike) -> Floats:
    """Stiffness of a row of fasteners against sliding along it.

    Parameters
    ----------
    K : array_like
        Slip modulus of one fastener [N/mm]
    s : array_like
        Spacing in the row [mm]

    Returns
    -------
    ndarray
        Force for each mm of slip and each mm of row [N/mm2]

    Notes
    -----
    Source: own derivation; fasteners smeared along the row.
    """
    K, s = floats(K, s)
    return K / s
