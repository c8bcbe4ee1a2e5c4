"""Extremes of many polynomials on the interval from 0 to 1, all at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.intp]

_NEAR = 1e-11
"""Last step of the search; near an extreme the value then errs by its square."""


def polynomial_values(coefficients: Floats, at: Floats) -> Floats:
    """Values of polynomials.

    Parameters
    ----------
    coefficients : ndarray, shape (degree + 1, ...)
        Coefficients by rising power [-]
    at : ndarray, broadcasts to (...)
        Where [-]

    Returns
    -------
    values : ndarray
        Values [-]

    Notes
    -----
    Source: Horner's scheme, textbook.
    """
    value: Floats = coefficients[-1] + np.zeros_like(at)
    for coefficient in coefficients[-2::-1]:
        value = value * at + coefficient
    return value


def roots_within(coefficients: Floats) -> Floats:
    """Where polynomials cross zero between 0 and 1.

    Parameters
    ----------
    coefficients : ndarray, shape (degree + 1, ...)
        Coefficients by rising power, degree 4 or less [-]

    Returns
    -------
    roots : ndarray, shape (degree, ...)
        Crossings, rising; where there are fewer, the rest lies at 0 or 1, or repeats [-]

    Notes
    -----
    Up to the second power by formula; above it between the roots of the derivative,
    where the polynomial only rises or only falls, by Newton steps kept in the bracket.

    Source: own method; the formula without cancellation is in any numerical textbook.
    """
    while len(coefficients) > 1 and not np.any(coefficients[-1]):
        coefficients = coefficients[:-1]
    degree = len(coefficients) - 1
    if degree < 1:
        return np.zeros((0, *coefficients.shape[1:]))
    with np.errstate(divide="ignore", invalid="ignore"):
        if degree == 1:
            return _inside((-coefficients[0] / coefficients[1])[None])
        if degree == 2:
            c, b, a = coefficients
            root = np.sqrt(b * b - 4.0 * a * c)
            q = -0.5 * (b + np.copysign(root, b))
            first, second = _inside(np.stack([q / a, c / q]))
            return np.stack([np.minimum(first, second), np.maximum(first, second)])
    powers = np.arange(1.0, degree + 1.0).reshape(-1, *[1] * (coefficients.ndim - 1))
    slope = coefficients[1:] * powers
    breaks = np.zeros((degree + 1, *coefficients.shape[1:]))
    inner = roots_within(slope)
    breaks[1 : 1 + len(inner)] = inner
    breaks[1 + len(inner) :] = 1.0
    ends = polynomial_values(coefficients[:, None], breaks)
    crossing = np.nonzero((ends[:-1] < 0) != (ends[1:] < 0))
    roots = breaks[1:].copy()
    if crossing[0].size:
        column: tuple[slice | Ints, ...] = (slice(None), *crossing[1:])
        low, high = breaks[:-1][crossing], breaks[1:][crossing]
        at_low, at_high = ends[:-1][crossing], ends[1:][crossing]
        guess = low + (high - low) * (at_low / (at_low - at_high))
        with np.errstate(divide="ignore", invalid="ignore"):
            roots[crossing] = _bracketed(
                coefficients[column], slope[column], low, high, guess, at_low >= 0
            )
    return roots


def _inside(roots: Floats) -> Floats:
    """Move what is no number to 0 and the rest into the interval."""
    return np.asarray(np.clip(np.nan_to_num(roots, nan=0.0, posinf=1.0, neginf=0.0), 0.0, 1.0))


def _bracketed(
    p: Floats, slope: Floats, low: Floats, high: Floats, x: Floats, falls: Bools
) -> Floats:
    """Newton steps from x; one that leaves the bracket is replaced by halving it."""
    for _ in range(80):
        value = polynomial_values(p, x)
        beyond = (value > 0) != falls
        high = np.where(beyond, x, high)
        low = np.where(beyond, low, x)
        step = x - value / polynomial_values(slope, x)
        outside = ~((step >= low) & (step <= high))
        if outside.any():
            step = np.where(outside, 0.5 * (low + high), step)
        change = np.abs(step - x).max()
        x = step
        if change < _NEAR:
            break
    return x


def highest_and_lowest(coefficients: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Greatest and least value of polynomials between 0 and 1, and where.

    Parameters
    ----------
    coefficients : ndarray, shape (degree + 1, ...)
        Coefficients by rising power, degree 5 or less [-]

    Returns
    -------
    highest, highest_at, lowest, lowest_at : ndarray, shape (...)
        Values and places [-]

    Notes
    -----
    Source: own method: ends and roots of the derivative.
    """
    powers = np.arange(1.0, len(coefficients)).reshape(-1, *[1] * (coefficients.ndim - 1))
    inner = roots_within(coefficients[1:] * powers)
    at = np.zeros((len(inner) + 2, *coefficients.shape[1:]))
    at[1:-1] = inner
    at[-1] = 1.0
    values = polynomial_values(coefficients[:, None], at)
    top = values.argmax(axis=0)[None]
    bottom = values.argmin(axis=0)[None]
    return (
        np.take_along_axis(values, top, 0)[0],
        np.take_along_axis(at, top, 0)[0],
        np.take_along_axis(values, bottom, 0)[0],
        np.take_along_axis(at, bottom, 0)[0],
    )
