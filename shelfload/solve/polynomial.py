"""Roots of many short polynomials at once on the unit interval, none missed."""

from __future__ import annotations

from math import comb
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]

TERMS = 6  # a beam's sag under a load that varies linearly is of degree five
_PARTS = 3  # odd, so that the middle, the usual place of a maximum, is no edge of a part
_DEPTH = 12
_HASTY_STEPS = 4
_STEPS = 100
_SETTLED = 5e-4  # Halley's next step would be of the order of its cube
_ROUNDING = 1e-14
_ASIDE = 0.1


def _bernstein(start: float, width: float) -> Array:
    """Matrix that turns power coefficients into Bernstein ones on a part of the interval."""
    n = TERMS - 1
    shift = np.zeros((TERMS, TERMS))
    for power in range(TERMS):
        for k in range(power + 1):
            shift[power, k] = comb(power, k) * start ** (power - k) * width**k
    raised = np.array([[comb(i, k) / comb(n, k) for i in range(TERMS)] for k in range(TERMS)])
    matrix: Array = shift @ raised
    return matrix


def _halves() -> Array:
    """De Casteljau's split at the middle, left and right half, as two matrices."""
    left = np.array([[comb(i, j) / 2**i for i in range(TERMS)] for j in range(TERMS)])
    return np.stack([left, left[::-1, ::-1]])


_POWERS = np.arange(1.0, TERMS)
_HALF_POWERS = _POWERS / 2.0
_TO_PARTS = np.stack([_bernstein(i / _PARTS, 1 / _PARTS) for i in range(_PARTS)])
_HALVES = _halves()


def value(coefficients: Array, t: Array) -> Array:
    """Value of polynomials given by their power coefficients, by Horner's rule.

    Parameters
    ----------
    coefficients : ndarray, shape (..., 6)
        Power coefficients, constant first, in the unit of the result [-]
    t : ndarray, broadcast against the leading shape
        Place along the piece, 0 to 1 [-]

    Returns
    -------
    value : ndarray
        In the unit of the coefficients [-]

    Notes
    -----
    Source: Horner's rule, any textbook on numerical analysis.
    """
    result: Array = coefficients[..., TERMS - 1] * t
    for power in range(TERMS - 2, 0, -1):
        result += coefficients[..., power]
        result *= t
    result += coefficients[..., 0]
    return result


def derivative(coefficients: Array) -> Array:
    """Power coefficients of the derivative, kept at six terms.

    Parameters
    ----------
    coefficients : ndarray, shape (..., 6)
        Power coefficients, constant first, in the unit of the result [-]

    Returns
    -------
    derivative : ndarray, shape (..., 6)
        In the unit of the coefficients, per unit of t [-]

    Notes
    -----
    Source: differentiation term by term.
    """
    result = np.zeros(coefficients.shape)
    result[..., :-1] = coefficients[..., 1:] * _POWERS
    return result


def unit_roots(coefficients: Array) -> tuple[Index, Array]:
    """Find all roots within the unit interval, of all polynomials, as one flat list.

    The number of sign changes among the Bernstein coefficients bounds the number of
    roots: none means no root, one means just one. Parts with more are halved, so that
    no root is missed however close to another, down to parts of 1 / 6144. Roots on an end
    of the interval may be left out: take both ends as candidates of their own.

    Parameters
    ----------
    coefficients : ndarray, shape (m, 6)
        Power coefficients, constant first, in any unit [-]

    Returns
    -------
    which : ndarray of int, shape (r,)
        Row that each root belongs to [-]
    t : ndarray, shape (r,)
        The roots, 0 to 1 [-]

    Notes
    -----
    Source: Descartes' rule of signs in Bernstein form, e.g. Farouki, The Bernstein
    polynomial basis: a centennial retrospective, 2012 (from memory); Newton's method kept
    in its bracket by bisection.
    """
    parts = coefficients @ _TO_PARTS  # (part, row, term)
    # Neighbours must agree on the value between them: a root just there is lost otherwise.
    parts[:-1, :, -1] = parts[1:, :, 0]
    changes = _sign_changes(parts)
    start, which = changes.nonzero()
    net, changes = parts[start, which], changes[start, which]
    low = start / _PARTS
    width = 1.0 / _PARTS
    if changes.max(initial=0) <= 1:  # as good as always
        return which, _polish(coefficients[which], low, width, net[:, 0], net[:, -1])
    found: list[tuple[NDArray[Any], ...]] = []
    for depth in range(_DEPTH):
        many = changes > 1
        single = changes == 1 if depth < _DEPTH - 1 else changes > 0
        wide = np.full(np.count_nonzero(single), width)
        found.append((which[single], low[single], wide, net[single, 0], net[single, -1]))
        width /= 2.0
        halves = net[many] @ _HALVES
        halves[0, :, -1] = halves[1, :, 0]
        net = halves.reshape(-1, TERMS)
        which = np.tile(which[many], 2)
        low = np.concatenate([low[many], low[many] + width])
        changes = _sign_changes(net)
    which, low, wide, at_low, at_high = (np.concatenate(x) for x in zip(*found, strict=True))
    return which, _polish(coefficients[which], low, wide, at_low, at_high)


def _sign_changes(net: Array) -> Index:
    positive = net >= 0.0
    changes: Index = np.add.reduce(positive[..., 1:] != positive[..., :-1], axis=-1)
    return changes


def _polish(c: Array, low: Array, width: Array | float, at_low: Array, at_high: Array) -> Array:
    """Halley's method on brackets that hold one root, where it leaves them halving them too."""
    high = low + width
    # f, its slope and half its second derivative: all three by one Horner's rule.
    curves = np.zeros((3, *c.shape))
    curves[0] = c
    curves[1, :, :-1] = c[:, 1:] * _POWERS
    curves[2, :, :-1] = curves[1, :, 1:] * _HALF_POWERS
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        # Where the chord over the bracket passes through zero, near the root already; but not at
        # an end, which may be a root of its own, and not the one in the bracket.
        chord = at_low / (at_low - at_high)
        start = t = low + width * np.fmin(np.fmax(chord, _ASIDE), 1.0 - _ASIDE)
        for _ in range(_HASTY_STEPS):
            last = t
            t, _ = _halley(curves, t)
            if np.abs(t - last).max(initial=0.0) <= _SETTLED:
                if ((t > low + _SETTLED) & (t < high - _SETTLED)).all():
                    return t
                break
        return _guarded(curves, start, low, high, at_high >= 0.0)


def _halley(curves: Array, t: Array) -> tuple[Array, Array]:
    """Next place, and the value at this one."""
    f, slope, bend = value(curves, t)
    return t - f * slope / (slope * slope - f * bend), f


def _guarded(curves: Array, t: Array, low: Array, high: Array, rising: NDArray[np.bool_]) -> Array:
    for _ in range(_STEPS):
        step, f = _halley(curves, t)
        beyond = (f >= 0.0) == rising
        high = np.where(beyond, t, high)
        low = np.where(beyond, low, t)
        # A hair beyond the bracket is where rounding puts a root found: no reason to halve.
        near = (step >= low - _ROUNDING) & (step <= high + _ROUNDING)
        step = np.where(near, step, (low + high) / 2.0)
        settled = np.abs(step - t).max(initial=0.0) <= _SETTLED
        t = step
        if settled:
            break
    return t
