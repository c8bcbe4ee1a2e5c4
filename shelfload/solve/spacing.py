"""Least spacings, edge and end distances, member thickness and penetration of fasteners.

nan stands for "not allowed that way": for example nails in dense wood without predrilling.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.connection_arrays import Floats, floats

PANEL_FACTOR = 0.85  # a_1 and a_2, panel to timber, EN 1995-1-1:2004, 8.3.1.3(1)
STEEL_FACTOR = 0.70  # a_1 and a_2, steel to timber, EN 1995-1-1:2004, 8.3.1.4(1)

# Least point-side penetration in diameters.
PENETRATION = {
    "smooth nail": 8.0,  # lateral and axial, EN 1995-1-1:2004, 8.3.1.2(1) and 8.3.2(7)
    "other nail": 6.0,  # lateral and axial, EN 1995-1-1:2004, 8.3.1.2(2) and 8.3.2(7)
    "screw": 6.0,  # thread, axial 8.7.2(3); lateral by the nail rule through 8.7.1(5)
}
SCREW_MEMBER_THICKNESS = 12.0  # diameters, axially loaded, EN 1995-1-1:2004, 8.7.2(2)


class Distances(NamedTuple):
    """Least distances between fasteners and to the rim of a member, all in mm.

    a_1 along the grain, a_2 across it, a_3t loaded and a_3c unloaded end, a_4t loaded and
    a_4c unloaded edge. A loaded rim is one that the force on the member points to.
    """

    a_1: Floats
    a_2: Floats
    a_3t: Floats
    a_3c: Floats
    a_4t: Floats
    a_4c: Floats


def nail_distances(
    d: ArrayLike, rho_k: ArrayLike, alpha: ArrayLike, predrilled: ArrayLike
) -> Distances:
    """Least distances in timber for nails and for screws with d_ef up to 6 mm.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    rho_k : array_like
        Characteristic density [kg/m3]
    alpha : array_like
        Angle of the force to the grain [rad]
    predrilled : array_like of bool
        True where the holes are predrilled [-]

    Returns
    -------
    Distances
        The six distances; nan without predrilling above 500 kg/m3 [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.2(5), Table 8.2; sine and cosine are taken positive,
    which is the larger distance.
    """
    d, rho_k, alpha = floats(d, rho_k, alpha)
    drilled = np.asarray(predrilled, dtype=np.bool_)
    d, rho_k, alpha, drilled = np.broadcast_arrays(d, rho_k, alpha, drilled)
    c, s = np.abs(np.cos(alpha)), np.abs(np.sin(alpha))
    thin = d < 5.0
    case = [drilled, rho_k <= 420.0, rho_k <= 500.0]

    def least(drilled_d: Floats, light_d: Floats, dense_d: Floats) -> Floats:
        return np.asarray(d * np.select(case, [drilled_d, light_d, dense_d], default=np.nan))

    def same(value: float) -> Floats:
        return np.full_like(d, value)

    return Distances(
        a_1=least(4.0 + c, 5.0 + np.where(thin, 5.0, 7.0) * c, 7.0 + 8.0 * c),
        a_2=least(3.0 + s, same(5.0), same(7.0)),
        a_3t=least(7.0 + 5.0 * c, 10.0 + 5.0 * c, 15.0 + 5.0 * c),
        a_3c=least(same(7.0), same(10.0), same(15.0)),
        a_4t=least(
            3.0 + np.where(thin, 2.0, 4.0) * s,
            5.0 + np.where(thin, 2.0, 5.0) * s,
            7.0 + np.where(thin, 2.0, 5.0) * s,
        ),
        a_4c=least(same(3.0), same(5.0), same(7.0)),
    )


def with_other_material(distances: Distances, factor: ArrayLike) -> Distances:
    """Distances where timber meets a panel or steel: closer rows, same rims.

    Parameters
    ----------
    distances : Distances
        Least distances for timber to timber [mm]
    factor : array_like
        ``PANEL_FACTOR`` or ``STEEL_FACTOR`` [-]

    Returns
    -------
    Distances
        a_1 and a_2 reduced, the rest as before [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(1) and 8.3.1.4(1).
    """
    (factor,) = floats(factor)
    return distances._replace(a_1=factor * distances.a_1, a_2=factor * distances.a_2)


def plywood_rim_distances(d: ArrayLike, alpha: ArrayLike) -> tuple[Floats, Floats]:
    """Least distances to the rim of a plywood member.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    alpha : array_like
        Angle between the force and the loaded edge or end [rad]

    Returns
    -------
    loaded : ndarray
        From a rim that the force points to [mm]
    unloaded : ndarray
        From any other rim [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.3(2).
    """
    d, alpha = floats(d, alpha)
    return (3.0 + 4.0 * np.abs(np.sin(alpha))) * d, 3.0 * d


def bolt_distances(d: ArrayLike, alpha: ArrayLike) -> Distances:
    """Least distances in timber for bolts and for screws over 6 mm.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    alpha : array_like
        Angle of the force to the grain [rad]

    Returns
    -------
    Distances
        The six distances [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.5.1.1(3), Table 8.4, a_3c from memory. An unloaded
    end sees the force under pi - alpha; sine and cosine are taken positive.
    """
    d, alpha = floats(d, alpha)
    c, s = np.abs(np.cos(alpha)), np.abs(np.sin(alpha))
    return Distances(
        a_1=(4.0 + c) * d,
        a_2=4.0 * d + 0.0 * alpha,
        a_3t=np.maximum(7.0 * d, 80.0) + 0.0 * alpha,
        a_3c=np.maximum(1.0 + 6.0 * s, 4.0) * d,
        a_4t=np.maximum(2.0 + 2.0 * s, 3.0) * d,
        a_4c=3.0 * d + 0.0 * alpha,
    )


def axial_distances(d: ArrayLike) -> Distances:
    """Least distances of screws loaded along their axis.

    Parameters
    ----------
    d : array_like
        Outer thread diameter [mm]

    Returns
    -------
    Distances
        a_1 7 d, a_2 5 d, ends (a_1,CG) 10 d, edges (a_2,CG) 4 d [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(2), Table 8.6.
    """
    (d,) = floats(d)
    return Distances(
        a_1=7.0 * d, a_2=5.0 * d, a_3t=10.0 * d, a_3c=10.0 * d, a_4t=4.0 * d, a_4c=4.0 * d
    )


def splitting_thickness(d: ArrayLike, rho_k: ArrayLike, sensitive: ArrayLike) -> Floats:
    """Least thickness of timber that takes nails or thin screws without predrilling.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    rho_k : array_like
        Characteristic density [kg/m3]
    sensitive : array_like of bool
        True for species that split easily (fir, Douglas fir, spruce) [-]

    Returns
    -------
    ndarray
        t [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.2(6) and (7), equations (8.18) and (8.19).
    """
    d, rho_k = floats(d, rho_k)
    twice = np.where(np.asarray(sensitive, dtype=np.bool_), 2.0, 1.0)
    return twice * np.maximum(7.0 * d, (13.0 * d - 30.0) * rho_k / 400.0)


def predrilling_needed(d: ArrayLike, rho_k: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether timber has to be predrilled whatever its thickness.

    Parameters
    ----------
    d : array_like
        Diameter [mm]
    rho_k : array_like
        Characteristic density [kg/m3]

    Returns
    -------
    ndarray of bool
        True above 500 kg/m3 or 6 mm [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 8.3.1.1(2); screws by 10.4.5, which asks it of all hardwoods.
    """
    d, rho_k = floats(d, rho_k)
    return np.asarray((rho_k > 500.0) | (d > 6.0))


def screw_pilot_hole(d_shank: ArrayLike) -> Floats:
    """Pilot hole for the thread of a screw that is predrilled.

    Parameters
    ----------
    d_shank : array_like
        Shank diameter; the hole for the shank itself has this diameter [mm]

    Returns
    -------
    ndarray
        Hole diameter for the threaded part [mm]

    Notes
    -----
    Source: EN 1995-1-1:2004, 10.4.5(2): about 70 % of the shank.
    """
    (d_shank,) = floats(d_shank)
    return np.asarray(0.7 * d_shank)
