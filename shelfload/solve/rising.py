"""Where rising functions reach 1, for many of them at once."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Rows = NDArray[np.intp]

_CLOSE = 1e-10
"""Relative distance from 1 at which a root is found."""
_ROUNDS = 60


def reaches_one(
    demand: Callable[[Array, Rows], Array],
    *,
    start: ArrayLike,
    low: float,
    high: float,
    power: float,
) -> Array:
    """Find x for which demands that rise with x reach 1.

    Demands of structures run nearly as powers of length or load; their logarithms are therefore
    followed by secants, kept in the bracket by halving it where a step would leave it.

    Parameters
    ----------
    demand : callable
        Takes x and the numbers of the rows it belongs to, returns their demands [-]
    start : array_like, shape (n,)
        First guess, between low and high [any]
    low, high : float
        Ends of the search, above zero [as start]
    power : float
        Guess at the power of x that demands grow with [-]

    Returns
    -------
    x : ndarray, shape (n,)
        Roots; 0 where the demand at ``low`` is above 1, inf where it stays below 1 up to
        ``high`` [as start]

    Notes
    -----
    Source: secant method with bisection as a safeguard; any numerical textbook.
    """
    x = np.log(np.asarray(start, dtype=np.float64))
    bottom, top = np.full_like(x, -np.inf), np.full_like(x, np.inf)
    found = np.full_like(x, np.nan)
    slope = np.full_like(x, power)
    rows: Rows = np.arange(x.size)
    before, y_before = x, np.zeros_like(x)
    for number in range(_ROUNDS):
        y = np.log(np.maximum(demand(np.exp(x), rows), np.finfo(np.float64).tiny))
        if number:
            step = x - before
            moved = np.abs(step) > 0.0
            slope = np.where(moved, (y - y_before) / np.where(moved, step, 1.0), slope)
        at_low, at_high = x <= np.log(low), x >= np.log(high)
        done = (np.abs(y) < _CLOSE) | (at_low & (y > 0.0)) | (at_high & (y < 0.0))
        beyond = np.where(y > 0.0, 0.0, np.inf)
        found[rows[done]] = np.where(np.abs(y) < _CLOSE, np.exp(x), beyond)[done]
        if done.all():
            return found
        bottom, top = np.where(y < 0.0, x, bottom), np.where(y > 0.0, x, top)
        with np.errstate(divide="ignore", invalid="ignore"):
            following = np.nan_to_num(x - y / slope, nan=-np.inf)
        # a step that leaves the search tries its end: the root may lie beyond
        following = np.clip(following, np.log(low), np.log(high))
        tried = np.isfinite(bottom) & np.isfinite(top)
        slow = (np.abs(y) > 0.5 * np.abs(y_before)) & (number > 0)
        outside = (following <= bottom) | (following >= top)
        halve = tried & (slow | outside)
        following[halve] = (bottom[halve] + top[halve]) / 2.0
        going = ~done
        rows, before, y_before, x = rows[going], x[going], y[going], following[going]
        bottom, top, slope = bottom[going], top[going], slope[going]
    found[rows] = np.exp(bottom)
    return found
