r"""How stiffly an upright sheet holds a line of load in its own plane.

A shelf whose rear edge is fixed to a thin back leans on it. The edge goes down by the sum of

- the slip of the fasteners between shelf and back,
- the bending and shear of the back, a deep beam on edge from upright to upright,
- the slip of the fasteners between back and uprights,

each caused by the same line load, so that the compliances add. What varies along the edge
is taken at its largest, in the middle of the span.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats

SHEAR_SHAPE = 1.2  # rectangle; a deep sheet is stiffer


def deep_sheet_compliance(
    E: ArrayLike, G: ArrayLike, t: ArrayLike, h: ArrayLike, b: ArrayLike
) -> Floats:
    r"""Sag in the middle of a sheet on edge under an even line load, per load.

    .. math:: c = \frac{5 b^4}{384 E t h^3 / 12} + \frac{1.2 b^2}{8 G t h}

    Parameters
    ----------
    E : array_like
        Modulus of elasticity in the plane of the sheet, along the span [MPa]
    G : array_like
        Modulus of shear in the plane of the sheet [MPa]
    t : array_like
        Thickness [mm]
    h : array_like
        Height of sheet that carries the line [mm]
    b : array_like
        Span between the uprights [mm]

    Returns
    -------
    ndarray
        Compliance [mm2/N]

    Notes
    -----
    Source: beam that bends and shears, any textbook; ends free to turn.
    Valid for: a sheet that does not buckle, see :func:`shear_buckling_stress`.

    Examples
    --------
    >>> round(float(deep_sheet_compliance(E=3100, G=1300, t=3.2, h=400, b=906)), 3)
    0.24
    """
    E, G, t, h, b = floats(E, G, t, h, b)
    return 5.0 * b**4 * 12.0 / (384.0 * E * t * h**3) + SHEAR_SHAPE * b**2 / (8.0 * G * t * h)


def end_slip_compliance(K: ArrayLike, s: ArrayLike, h: ArrayLike, b: ArrayLike) -> Floats:
    r"""Slip of a sheet down its uprights under an even line load, per load.

    .. math:: c = \frac{b s}{2 K h}

    Parameters
    ----------
    K : array_like
        Slip modulus of one fastener, infinite for glue [N/mm]
    s : array_like
        Spacing along the upright [mm]
    h : array_like
        Height of sheet that carries the line [mm]
    b : array_like
        Span between the uprights [mm]

    Returns
    -------
    ndarray
        Compliance [mm2/N]

    Notes
    -----
    Source: own derivation; each upright takes half the load on h / s fasteners alike.
    """
    K, s, h, b = floats(K, s, h, b)
    return b * s / (2.0 * K * h)


def series_spring(*compliances: ArrayLike) -> Floats:
    """Spring of several compliances that carry the same load one after the other.

    Parameters
    ----------
    *compliances : array_like
        Each, zero for rigid [mm2/N]

    Returns
    -------
    ndarray
        Line load per movement, infinite where all are rigid [N/mm2]

    Notes
    -----
    Source: springs in series, any textbook.
    """
    total = np.sum(np.broadcast_arrays(*floats(*compliances)), axis=0)
    with np.errstate(divide="ignore"):
        return np.asarray(1.0 / total)


def shear_buckling_stress(
    E: ArrayLike, nu: ArrayLike, t: ArrayLike, a: ArrayLike, b: ArrayLike
) -> Floats:
    r"""Shear stress at which a sheet held along four edges buckles.

    .. math:: \tau_{cr} = (5.34 + 4 (b/a)^2) \frac{\pi^2 E}{12 (1 - \nu^2)} (t/b)^2

    Parameters
    ----------
    E : array_like
        Modulus of elasticity in bending, the smaller of the two directions [MPa]
    nu : array_like
        Poisson's ratio [-]
    t : array_like
        Thickness [mm]
    a, b : array_like
        Clear width and height between the lines that hold it, in either order [mm]

    Returns
    -------
    ndarray
        Critical stress [MPa]

    Notes
    -----
    Source: EN 1993-1-5:2006, Annex A.3, equation (A.5), edges free to turn, without
    stiffeners; elastic plate theory, thus not tied to steel.
    """
    E, nu, t, a, b = floats(E, nu, t, a, b)
    short, long = np.minimum(a, b), np.maximum(a, b)
    k = 5.34 + 4.0 * (short / long) ** 2
    return k * np.pi**2 * E / (12.0 * (1.0 - nu**2)) * (t / short) ** 2


def upright_strip_turning(E: ArrayLike, t: ArrayLike, h: ArrayLike) -> Floats:
    r"""Moment per turn with which a sheet glued along a line resists turning.

    .. math:: k = \frac{3 E t^3 / 12}{h}

    Parameters
    ----------
    E : array_like
        Modulus of elasticity of the sheet bent upright [MPa]
    t : array_like
        Thickness [mm]
    h : array_like
        Height to the next line that holds it, which lets it turn [mm]

    Returns
    -------
    ndarray
        Moment per length and radian [N]

    Notes
    -----
    Source: strip clamped at the line and hinged at the next, any textbook.
    """
    E, t, h = floats(E, t, h)
    return E * t**3 / (4.0 * h)
