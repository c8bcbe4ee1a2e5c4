"""Sheet flooring over joists under a concentrated load."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

_CARRY = {1: 0.0, 2: 1.0 / 4.0, 3: 4.0 / 15.0}
"""Moment over the first inner support from a point load at s in the end span of equal spans is
-k s (1 - s^2) P L: three-moment equation, 2 spans 4 M = -..., 3 spans (4 - 1/4) M = -..."""


class PointLoadFactors(NamedTuple):
    """Worst results of one load at its worst place; the end span governs each.

    ``sagging`` and ``hogging`` are moments over P L, sizes [-]; ``deflection`` is over
    P L^3 / EI [-].
    """

    sagging: float
    hogging: float
    deflection: float


def point_load_factors(spans: int) -> PointLoadFactors:
    """Worst moments and deflection of equal spans under one load at the worst place.

    Parameters
    ----------
    spans : int
        Number of equal spans that the sheet runs over, 1 to 3 [-]

    Returns
    -------
    factors : PointLoadFactors
        Sagging and hogging moment over P L, deflection over P L^3 / EI [-]

    Raises
    ------
    ValueError
        Another number of spans.

    Notes
    -----
    Source: three-moment equation (Timoshenko, Strength of Materials, part I), influence lines of
    the end span: moment under the load s (1 - s) - k s^2 (1 - s^2), over the support
    k s (1 - s^2), deflection under the load s^2 (1 - s)^2 / 3 - k s^2 (1 - s^2)^2 / 6. The largest
    deflection of all is under a load, because the influence matrix is positive.
    Valid for: one load, bending only; more than three spans differ by under 1 %; the hogging of
    loads in two neighbouring spans adds up.
    """
    if spans not in _CARRY:
        raise ValueError(f"found {spans} spans; allowed 1, 2, 3 (more: take 3)")
    k = _CARRY[spans]
    under = np.array([k, 0.0, -1.0 - k, 1.0, 0.0])
    sag = np.array([-k / 6, 0.0, 1 / 3 + k / 3, -2 / 3, 1 / 3 - k / 6, 0.0, 0.0])
    best = [_largest_inside(curve) for curve in (under, sag)]
    return PointLoadFactors(best[0], float(2.0 * k / (3.0 * np.sqrt(3.0))), best[1])


def _largest_inside(curve: Array) -> float:
    """Return the largest value of a polynomial between 0 and 1."""
    roots = np.roots(np.polyder(curve))
    inside = roots.real[(np.abs(roots.imag) < 1e-9) & (roots.real > 0) & (roots.real < 1)]
    return float(np.polyval(curve, inside).max())


def effective_width(load_length: ArrayLike, x: ArrayLike, L: ArrayLike, spread: ArrayLike) -> Array:
    """Width of sheet that helps to carry a short load.

    Parameters
    ----------
    load_length : array_like
        Length of the load across the span [mm]
    x : array_like
        Distance of the load from the nearer support [mm]
    L : array_like
        Span [mm]
    spread : array_like
        0: only the sheet under the load; 2.4: solid slabs that are as stiff across as along [-]

    Returns
    -------
    b_ef : ndarray
        Effective width [mm]

    Notes
    -----
    Source: form and 2.4 from BS 8110-1:1997, 3.5.2.2 (solid slabs), from memory. No source
    for wood panels: with less stiffness across than along the spread is less; 0 is safe.
    """
    near, span = np.asarray(x, np.float64), np.asarray(L, np.float64)
    wide = np.asarray(spread, np.float64) * near * (1.0 - near / span)
    return np.asarray(load_length, np.float64) + wide
