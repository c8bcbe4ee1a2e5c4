"""One direction of a plate: intervals with polynomials of high order between mesh lines.

The plate is the product of two such axes. Within an interval the unknowns are the values at
Gauss-Lobatto points, so that neighbours share the value on their common line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

Array = NDArray[np.float64]


@lru_cache(maxsize=64)
def lobatto(order: int) -> tuple[Array, Array]:
    """Gauss-Lobatto points and the Legendre coefficients of their Lagrange polynomials.

    Parameters
    ----------
    order : int
        Polynomial order, 1 or more [-]

    Returns
    -------
    points : ndarray, shape (order + 1,)
        Points on -1..1 [-]
    coefficients : ndarray, shape (order + 1, order + 1)
        Column j: Legendre series of the polynomial that is 1 at point j, 0 at the others [-]

    Notes
    -----
    Source: M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 25.4.32.
    """
    # all real, between -1 and 1; some numpy releases give them as complex numbers
    inner = legendre.legroots(legendre.legder(np.eye(order + 1)[order])).real
    points = np.concatenate([[-1.0], np.sort(inner), [1.0]])
    return points, np.asarray(np.linalg.inv(legendre.legvander(points, order)), dtype=np.float64)


@lru_cache(maxsize=64)
def gauss(order: int) -> tuple[Array, Array]:
    """Gauss points and the Legendre coefficients of their Lagrange polynomials.

    Parameters
    ----------
    order : int
        Polynomial order, one less than the number of points [-]

    Returns
    -------
    points : ndarray, shape (order + 1,)
        Points on -1..1 [-]
    coefficients : ndarray, shape (order + 1, order + 1)
        As in :func:`lobatto` [-]

    Notes
    -----
    Source: M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 25.4.29.
    """
    points: Array = legendre.leggauss(order + 1)[0]
    return points, np.asarray(np.linalg.inv(legendre.legvander(points, order)), dtype=np.float64)


@lru_cache(maxsize=256)
def quadrature_table(order: int, n: int) -> tuple[Array, Array, Array, Array]:
    """Gauss rule with the Lobatto polynomials and their derivatives tabulated at its points.

    Parameters
    ----------
    order : int
        Order of the polynomials [-]
    n : int
        Number of Gauss points [-]

    Returns
    -------
    points, weights : ndarray, shape (n,)
        Rule on -1..1 [-]
    values, slopes : ndarray, shape (n, order + 1)
        Polynomials and derivatives on -1..1 [-]

    Notes
    -----
    Source: M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 25.4.29.
    """
    x, weights = legendre.leggauss(n)
    coefficients = lobatto(order)[1]
    values = legendre.legvander(x, order) @ coefficients
    slopes = legendre.legvander(x, order - 1) @ legendre.legder(coefficients)
    return x, weights, values, slopes


@dataclass(frozen=True, eq=False)
class Axis:
    """Mesh lines and the order of the polynomials between them.

    Parameters
    ----------
    breaks : ndarray, shape (n + 1,)
        Mesh lines, rising [mm] or [rad]
    orders : tuple of int, length n
        Order in each interval [-]
    shared : bool
        True: Lobatto points, neighbours share their end; False: Gauss points, nothing shared,
        which is how moments are recovered [-]
    """

    breaks: Array
    orders: tuple[int, ...]
    shared: bool = True

    @cached_property
    def starts(self) -> list[int]:
        """Index of the first node of each interval, and one past the last."""
        step = 0 if self.shared else 1
        return [0, *np.cumsum([order + step for order in self.orders]).tolist()]

    @cached_property
    def size(self) -> int:
        """Number of nodes."""
        return self.starts[-1] + int(self.shared)

    @cached_property
    def nodes(self) -> Array:
        """Coordinates of the nodes [mm] or [rad]."""
        rule = lobatto if self.shared else gauss
        out = np.empty(self.size)
        for e, order in enumerate(self.orders):
            a, b = self.breaks[e], self.breaks[e + 1]
            first = self.starts[e]
            out[first : first + order + 1] = a + (b - a) * (rule(order)[0] + 1.0) / 2.0
        return out

    def line(self, position: float) -> int:
        """Index of the node on the mesh line nearest to a position [mm] or [rad]."""
        return self.starts[int(np.argmin(np.abs(self.breaks - position)))]

    def basis(self, x: Array, derivative: int = 0, last: bool = False) -> Array:
        """Values (or derivatives) of all basis functions at positions, shape (len(x), size).

        On a mesh line the interval before it is used, or the one after it if ``last``.
        """
        x = np.asarray(x, dtype=np.float64)
        index = np.searchsorted(self.breaks, x, "right" if last else "left")
        interval = np.clip(index - 1, 0, len(self.orders) - 1)
        out = np.zeros((len(x), self.size))
        starts = self.starts
        for e in np.unique(interval).tolist():
            order, a, b = self.orders[e], self.breaks[e], self.breaks[e + 1]
            rows = np.flatnonzero(interval == e)
            coefficients = (lobatto if self.shared else gauss)(order)[1]
            series = legendre.legder(coefficients, derivative) if derivative else coefficients
            local = 2.0 * (x[rows] - a) / (b - a) - 1.0
            table = legendre.legvander(local, len(series) - 1) @ series
            out[rows, starts[e] : starts[e] + order + 1] = table * (2.0 / (b - a)) ** derivative
        return out

    def table(self, e: int, extra: int = 2) -> tuple[Array, Array, tuple[Array, Array]]:
        """Quadrature of interval e: points, weights, (values, slopes) of its polynomials."""
        order, a, b = self.orders[e], self.breaks[e], self.breaks[e + 1]
        x, weights, values, slopes = quadrature_table(order, order + extra)
        half = (b - a) / 2.0
        return a + half * (x + 1.0), weights * half, (values, slopes / half)

    def matrix(self, d1: int, d2: int, weight: Callable[[Array], Array]) -> Array:
        """Integral of weight N_i^(d1) N_j^(d2) over the axis, shape (size, size)."""
        out = np.zeros((self.size, self.size))
        for e, (first, order) in enumerate(zip(self.starts, self.orders, strict=False)):
            x, weights, tables = self.table(e)
            part = slice(first, first + order + 1)
            out[part, part] += (tables[d1].T * (weights * weight(x))) @ tables[d2]
        return out

    def load(self, a: float, b: float, weight: Callable[[Array], Array]) -> Array:
        """Integral of weight N_i from a to b, shape (size,); exact also between mesh lines."""
        out = np.zeros(self.size)
        for e, (first, order) in enumerate(zip(self.starts, self.orders, strict=False)):
            low, high = max(a, self.breaks[e]), min(b, self.breaks[e + 1])
            if high <= low:
                continue
            x, weights = legendre.leggauss(order + 2)
            x = low + (high - low) * (x + 1.0) / 2.0
            local = 2.0 * (x - self.breaks[e]) / (self.breaks[e + 1] - self.breaks[e]) - 1.0
            values = legendre.legvander(local, order) @ lobatto(order)[1]
            out[first : first + order + 1] += (weights * weight(x) * (high - low) / 2.0) @ values
        return out

    @cached_property
    def recovery(self) -> Axis:
        """The axis of Gauss points, one order lower, on which derivatives are most accurate."""
        return Axis(self.breaks, tuple(order - 1 for order in self.orders), shared=False)


def axis_of(
    extent: tuple[float, float], lines: Iterable[float], order: int, longest: float
) -> Axis:
    """Axis with mesh lines where the solution has kinks; short intervals get lower orders.

    Parameters
    ----------
    extent : tuple of float
        First and last coordinate [mm] or [rad]
    lines : iterable of float
        Coordinates of kinks: ends of loads, supports, footprints [mm] or [rad]
    order : int
        Order of an interval as long as the axis [-]
    longest : float
        Longest interval, as a share of the axis [-]

    Returns
    -------
    Axis
        With Lobatto points [mm] or [rad]

    Notes
    -----
    Source: own choice; the order falls with the fourth root of the length of an interval,
    tested in the project's convergence tests.
    """
    length = extent[1] - extent[0]
    inside = sorted(x for x in lines if extent[0] < x < extent[1])
    breaks = [extent[0]]
    for x in [*inside, extent[1]]:
        if x - breaks[-1] <= 1e-6 * length:
            continue
        pieces = int(np.ceil((x - breaks[-1]) / (longest * length) - 1e-9))
        breaks.extend(np.linspace(breaks[-1], x, pieces + 1)[1:].tolist())
    breaks[-1] = extent[1]
    shares = np.diff(breaks) / length
    orders = tuple(max(3, order // 2, round(order * float(share) ** 0.25)) for share in shares)
    return Axis(np.array(breaks), orders)
