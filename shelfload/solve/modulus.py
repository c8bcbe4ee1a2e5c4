"""Moduli to put into a section: free of shear, and of plywood from its plies."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def true_modulus(E_apparent: ArrayLike, G: ArrayLike, span_to_depth: ArrayLike = 14.0) -> Array:
    r"""Modulus free of shear from one that a centre-point bending test gave with shear in it.

    .. math:: \frac{1}{E_{app}} = \frac{1}{E} + \frac{1.2}{G (L/h)^2}

    Parameters
    ----------
    E_apparent : array_like
        Modulus from the sag of the test, taken as if all of it were bending [MPa]
    G : array_like
        Shear modulus in the plane of bending [MPa]
    span_to_depth : array_like
        Span of the test over the depth of the specimen [-]

    Returns
    -------
    E : ndarray
        True modulus of elasticity [MPa]

    Raises
    ------
    ValueError
        If a figure is not above zero, or shear alone would explain more than the whole sag.

    Notes
    -----
    Source: own derivation, from w = P L^3 / (48 E I) + 1.2 P L / (4 G A) of a rectangle; Wood
    Handbook (FPL-GTR-282), chapter 5, says that its values are from centre-loaded beams at
    span/depth 14 and suggests adding 10 % (from memory).
    Valid for: rectangular specimens, one load at mid-span.
    """
    E_apparent, G, ratio = (np.asarray(a, dtype=np.float64) for a in (E_apparent, G, span_to_depth))
    require_positive(E_apparent=E_apparent, G=G, span_to_depth=ratio)
    remainder = 1.0 / E_apparent - 1.2 / (G * ratio**2)
    if (remainder <= 0.0).any():
        raise ValueError("G: so low that shear alone would sag more than the test did")
    result: Array = 1.0 / remainder
    return result


def plywood_layup(
    E_parallel: ArrayLike, E_perp: ArrayLike, thicknesses: ArrayLike
) -> tuple[Array, Array]:
    """Effective bending modulus of plywood along and across the grain of its face.

    Parameters
    ----------
    E_parallel : array_like, shape (...)
        Modulus of the veneer along its grain [MPa]
    E_perp : array_like, shape (...)
        Modulus of the veneer across its grain [MPa]
    thicknesses : array_like, shape (..., plies)
        Thickness of each ply from one face to the other; grain turns with each ply [mm]

    Returns
    -------
    E_along, E_across : ndarray, shape (...)
        Modulus of an even sheet of the same thickness and bending stiffness [MPa]

    Raises
    ------
    ValueError
        If a figure is not above zero.

    Notes
    -----
    Source: transformed section of the plies, each about the common neutral axis; any textbook
    on plywood or laminates.
    """
    t = np.atleast_1d(np.asarray(thicknesses, dtype=np.float64))
    stiff = np.asarray(E_parallel, dtype=np.float64)[..., None]
    soft = np.asarray(E_perp, dtype=np.float64)[..., None]
    require_positive(E_parallel=stiff, E_perp=soft, thicknesses=t)
    even = np.arange(t.shape[-1]) % 2 == 0
    z = np.cumsum(t, axis=-1) - t / 2.0
    whole = t.sum(axis=-1) ** 3 / 12.0
    found = []
    for along in (even, ~even):
        EA = np.where(along, stiff, soft) * t
        z_na = (EA * z).sum(axis=-1) / EA.sum(axis=-1)
        found.append((EA * (t**2 / 12.0 + (z - z_na[..., None]) ** 2)).sum(axis=-1) / whole)
    return found[0], found[1]


def require_positive(**figures: Array) -> None:
    """Refuse figures that are not above zero and finite, by name.

    Parameters
    ----------
    figures : ndarray
        Any figures by the name of their argument, each in its own unit [-]

    Raises
    ------
    ValueError
        If a figure is zero, negative, nan or infinite.

    Notes
    -----
    Source: own rule.
    """
    for name, figure in figures.items():
        if not (np.isfinite(figure) & (figure > 0.0)).all():
            raise ValueError(f"{name}: must be above zero and finite")
