"""Joists: a simple span under an even load and a part load, and sharing between joists."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def part_load_reactions(
    w: ArrayLike, a: ArrayLike, c: ArrayLike, L: ArrayLike
) -> tuple[Array, Array]:
    """Reactions of a simple span with an even load on a part of it.

    Parameters
    ----------
    w : array_like
        Load on the part [N/mm]
    a : array_like
        Start of the part from the left support [mm]
    c : array_like
        Length of the part [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    (R_left, R_right) : tuple of ndarray
        Reactions; the sum is w c [N]

    Raises
    ------
    ValueError
        A part that leaves the span.

    Notes
    -----
    Source: statics, moments about the supports.
    """
    start, part, span = (np.asarray(v, np.float64) for v in (a, c, L))
    if np.any(start < 0) or np.any(part < 0) or np.any(start + part > span * (1 + 1e-12)):
        raise ValueError("the loaded part must lie within the span")
    total = np.asarray(w, np.float64) * part
    right = total * (start + part / 2) / span
    return np.asarray(total - right, np.float64), np.asarray(right, np.float64)


def joist_moment(w_0: ArrayLike, w: ArrayLike, a: ArrayLike, c: ArrayLike, L: ArrayLike) -> Array:
    """Largest moment of a simple span under an even load and a part load.

    Parameters
    ----------
    w_0 : array_like
        Even load over the whole span [N/mm]
    w : array_like
        Further load on the part [N/mm]
    a : array_like
        Start of the part from the left support [mm]
    c : array_like
        Length of the part [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    M_max : ndarray
        Largest sagging moment [N mm]

    Raises
    ------
    ValueError
        A part that leaves the span.

    Notes
    -----
    Source: statics: the shear is zero before, in or behind the part; the true maximum is the
    largest of the moments there, each place kept within its own range.
    """
    even, part, start, length, span = (
        np.asarray(v, np.float64) for v in np.broadcast_arrays(w_0, w, a, c, L)
    )
    left = part_load_reactions(part, start, length, span)[0] + even * span / 2

    def moment(x: Array) -> Array:
        run = np.clip(x - start, 0.0, length)
        return np.asarray(left * x - even * x**2 / 2 - part * run * (x - start - run / 2))

    def place(force: Array, load: Array, low: Array, high: Array) -> Array:
        # Where the zero lies past the span there is nothing to divide, and the load may be 0.
        past = np.where(force > 0, high, low)
        x = np.divide(force, load, out=past, where=load * span > np.abs(force))
        return np.clip(x, low, high)

    before = moment(place(left, even, np.zeros_like(start), start))
    within = moment(place(left + part * start, even + part, start, start + length))
    behind = moment(place(left - part * length, even, start + length, span))
    return np.asarray(np.maximum(np.maximum(before, within), behind), np.float64)


def joist_shear(w_0: ArrayLike, w: ArrayLike, a: ArrayLike, c: ArrayLike, L: ArrayLike) -> Array:
    """Largest shear of a simple span under an even load and a part load.

    Parameters
    ----------
    w_0 : array_like
        Even load over the whole span [N/mm]
    w : array_like
        Further load on the part [N/mm]
    a : array_like
        Start of the part from the left support [mm]
    c : array_like
        Length of the part [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    V_max : ndarray
        Larger of the two reactions [N]

    Raises
    ------
    ValueError
        A part that leaves the span.

    Notes
    -----
    Source: statics.
    """
    left, right = part_load_reactions(w, a, c, L)
    half = np.asarray(w_0, np.float64) * np.asarray(L, np.float64) / 2
    return np.asarray(np.maximum(left, right) + half, np.float64)


def joist_deflection(
    w_0: ArrayLike, w: ArrayLike, a: ArrayLike, c: ArrayLike, L: ArrayLike, EI: ArrayLike
) -> Array:
    """Largest deflection of a simple span under an even load and a part load.

    Parameters
    ----------
    w_0 : array_like
        Even load over the whole span [N/mm]
    w : array_like
        Further load on the part [N/mm]
    a : array_like
        Start of the part from the left support [mm]
    c : array_like
        Length of the part [mm]
    L : array_like
        Span [mm]
    EI : array_like
        Bending stiffness [N mm2]

    Returns
    -------
    w_max : ndarray
        Largest deflection, bending only [mm]

    Raises
    ------
    ValueError
        A part that leaves the span.

    Notes
    -----
    Source: Macaulay's brackets (any strength-of-materials textbook): with R at the left,
    EI w = S x - R x^3 / 6 + w_0 x^4 / 24 + w (<x - a>^4 - <x - a - c>^4) / 24; the slope falls all
    along a span that only sags, so its one zero is found by halving.
    """
    even, part, start, length, span = (
        np.asarray(v, np.float64) for v in np.broadcast_arrays(w_0, w, a, c, L)
    )
    left = part_load_reactions(part, start, length, span)[0] + even * span / 2
    end = start + length

    def bent(x: Array, power: int, factorial: float) -> Array:
        inside = np.maximum(x - start, 0.0) ** power - np.maximum(x - end, 0.0) ** power
        lead = left * x ** (power - 1) * power
        return np.asarray((even * x**power + part * inside - lead) / factorial)

    slope_0 = -bent(span, 4, 24.0) / span
    low, high = np.zeros_like(span), span.copy()
    for _ in range(60):
        x = (low + high) / 2
        falls = slope_0 + bent(x, 3, 6.0) > 0
        low, high = np.where(falls, x, low), np.where(falls, high, x)
    x = (low + high) / 2
    return np.asarray((slope_0 * x + bent(x, 4, 24.0)) / np.asarray(EI, np.float64), np.float64)


def shared_by_joists(W: ArrayLike, y_G: ArrayLike, y: ArrayLike) -> Array:
    """Load of each of n equal joists under a stiff body.

    Parameters
    ----------
    W : array_like, shape (...)
        Weight of the body [N]
    y_G : array_like, shape (...)
        Place of its centre of gravity across the joists [mm]
    y : array_like, shape (n,)
        Places of the joists under it, two or more unless y_G is on the one [mm]

    Returns
    -------
    R : ndarray, shape (..., n)
        Load per joist; the sum is W; below 0 a joist is not pressed at all [N]

    Raises
    ------
    ValueError
        One joist that is not under the centre of gravity.

    Notes
    -----
    Source: own derivation: equal springs under a rigid bar, W / n + W e y / sum(y^2).
    """
    place = np.asarray(y, np.float64)
    middle = place - place.mean()
    weight = np.asarray(W, np.float64)[..., np.newaxis]
    e = np.asarray(y_G, np.float64)[..., np.newaxis] - place.mean()
    squares = float(np.sum(middle**2))
    if squares == 0.0:
        if np.any(np.abs(e) > 1e-9):
            raise ValueError("a body on one joist must have its centre of gravity above it")
        return np.broadcast_to(weight / place.size, np.broadcast(weight * e, middle).shape).copy()
    return np.asarray(weight / place.size + weight * e * middle / squares, np.float64)
