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
_STEPS = 100
_SETTLED = 1e-9  # Newton's next step would be of the order of its square
_ROUNDING = 1e-14


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
    result = np.zeros_like(coefficients)
    result[..., :-1] = coefficients[..., 1:] * np.arange(1.0, TERMS)
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
    start, which = np.nonzero(_sign_changes(parts))
    net = parts[start, which]
    low = start / _PARTS
    width = 1.0 / _PARTS
    found: list[tuple[NDArray[Any], ...]] = []
    for depth in range(_DEPTH):
        changes = _sign_changes(net)
        many = changes > 1
        if not many.any():
            found.append((which, low, low + width, net[:, -1] >= 0.0))
            break
        single = changes == 1 if depth < _DEPTH - 1 else changes > 0
        found.append((which[single], low[single], low[single] + width, net[single, -1] >= 0.0))
        width /= 2.0
        halves = net[many] @ _HALVES
        halves[0, :, -1] = halves[1, :, 0]
        net = halves.reshape(-1, TERMS)
        which = np.tile(which[many], 2)
        low = np.concatenate([low[many], low[many] + width])
    which, low, high, rising = (np.concatenate(column) for column in zip(*found, strict=True))
    return which, _polish(coefficients[which], low, high, rising)


def _sign_changes(net: Array) -> Index:
    positive = net >= 0.0
    changes: Index = np.count_nonzero(positive[..., 1:] != positive[..., :-1], axis=-1)
    return changes


def _polish(c: Array, low: Array, high: Array, rising: NDArray[np.bool_]) -> Array:
    """Newton's method on brackets that hold one root; a step that leaves one is halved."""
    t = (low + high) / 2.0
    slope = derivative(c)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        for _ in range(_STEPS):
            f = value(c, t)
            beyond = (f >= 0.0) == rising
            high = np.where(beyond, t, high)
            low = np.where(beyond, low, t)
            step = t - f / value(slope, t)
            # A hair beyond the bracket is where rounding puts a root found: no reason to halve.
            near = (step >= low - _ROUNDING) & (step <= high + _ROUNDING)
            step = np.where(near, step, (low + high) / 2.0)
            settled = np.abs(step - t).max(initial=0.0) <= _SETTLED
            t = step
            if settled:
                break
    return t
