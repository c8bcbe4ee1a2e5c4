"""Many beams on several rigid supports at once, each with spans of its own.

:mod:`shelfload.solve.beam` solves one geometry for any loads and supports. Here the geometry
differs from beam to beam and everything else is plain: rigid supports, free ends, an even
load all over and one on a stretch of each span. That is what a table of spans needs.

Signs: load and sag down, sagging moment positive; V = dM/dx; reactions up.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.stationary import polynomial_values

Array = NDArray[np.float64]

_STARTS = np.array([0.2, 0.5, 0.8])
"""Where the search for the places of most sag starts, along the loaded stretch."""
_STEPS = 4
"""Newton steps from there; the value errs by the square of what is left of the way."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpanRows:
    """Solved rows of spans: unit loads 0 all over, 1 to n on the stretch of each span.

    Attributes
    ----------
    L : ndarray, shape (..., n)
        Spans between supports [mm]
    start, end : ndarray, shape (..., n)
        Loaded stretch of each span from its left support [mm]
    EI, GA : ndarray, shape (...)
        Bending stiffness [N mm2] and shear stiffness [N]
    M_left, V_left, psi_left : ndarray, shape (..., n + 1, n)
        At the left end of each span, per load of 1 N/mm: moment [N mm], shear [N] and
        rotation [rad]
    V_right : ndarray, shape (..., n + 1, n)
        Shear at the right end of each span likewise [N]
    M_support : ndarray, shape (..., n + 1, n + 1)
        Moment over each support likewise [N mm]
    reactions : ndarray, shape (..., n + 1, n + 1)
        Force of each support likewise [N]
    """

    L: Array
    start: Array
    end: Array
    EI: Array
    GA: Array
    M_left: Array
    V_left: Array
    V_right: Array
    psi_left: Array
    M_support: Array
    reactions: Array

    def some(self, rows: NDArray[np.intp]) -> SpanRows:
        """Return the beams of some rows, numbers along the first axis."""
        chosen = {item.name: getattr(self, item.name)[rows] for item in fields(self)}
        return SpanRows(**chosen)

    def largest_sag(self, always: ArrayLike, sometimes: ArrayLike) -> Array:
        """Return the largest size of the sag in each span over all patterns [mm], (..., n).

        ``always`` [N/mm] acts all over, ``sometimes`` [N/mm] on any choice of the stretches.
        """
        on = self._patterns_of_sag(sometimes)
        sag = self._sag(*_loads(always, sometimes), on)
        t = np.broadcast_to(_STARTS, (*sag.shape[1:], _STARTS.size))
        at = sag[..., None]
        slope, bend = _derivative(at), _derivative(_derivative(at))
        for _ in range(_STEPS):
            turn = polynomial_values(bend, t)
            with np.errstate(divide="ignore", invalid="ignore"):
                t = t - polynomial_values(slope, t) / np.where(turn == 0.0, np.inf, turn)
            t = np.clip(t, 0.0, 1.0)
        inside = np.abs(polynomial_values(at, t)).max(axis=-1)
        ends = np.maximum(np.abs(sag[0]), np.abs(sag.sum(axis=0)))
        return self._mirrored(np.maximum(inside, ends).max(axis=-2))

    def largest_moment(self, always: ArrayLike, sometimes: ArrayLike) -> Array:
        """Return the largest size of the moment in each span likewise [N mm], (..., n)."""
        g, q = _loads(always, sometimes)
        M_a, V_a, _, _, u = self._at_start(g, q, self._patterns_of_moment(sometimes))
        h = (self.end - self.start)[..., None, : self._half]
        with np.errstate(divide="ignore", invalid="ignore"):
            x = np.where(u > 0.0, np.clip(V_a / u, 0.0, h), 0.0)
        inside = self._mirrored(np.abs(M_a + V_a * x - u * x**2 / 2.0).max(axis=-2))
        over = _worst(self.M_support, always, sometimes)
        return np.maximum(inside, np.maximum(over[..., :-1], over[..., 1:]))

    def largest_shear(self, always: ArrayLike, sometimes: ArrayLike) -> Array:
        """Return the largest size of the shear in each span likewise [N], (..., n)."""
        return np.maximum(
            _worst(self.V_left, always, sometimes), _worst(self.V_right, always, sometimes)
        )

    def largest_reaction(self, always: ArrayLike, sometimes: ArrayLike) -> Array:
        """Return the largest upward force of each support likewise [N], (..., n + 1)."""
        g, q = _loads(always, sometimes)
        share = q * np.maximum(self.reactions[..., 1:, :], 0.0).sum(axis=-2)
        return np.asarray(np.maximum(g * self.reactions[..., 0, :] + share, 0.0))

    @property
    def _half(self) -> int:
        """How many spans from the left tell all: half of them where the rest is their image."""
        n: int = self.L.shape[-1]
        same = np.allclose(self.L, self.L[..., ::-1], rtol=1e-12, atol=0.0) and np.allclose(
            self.start, (self.L - self.end)[..., ::-1], rtol=0.0, atol=1e-9
        )
        return (n + 1) // 2 if same else n

    def _mirrored(self, half: Array) -> Array:
        n = self.L.shape[-1]
        return np.concatenate([half, half[..., : n - half.shape[-1]][..., ::-1]], axis=-1)

    def _patterns_of_sag(self, sometimes: ArrayLike) -> Array:
        """Which spans to load for the most sag down and up in each, (..., 2, spans, n).

        A span that is not loaded itself takes the shape M_left (2 L - x) + M_right (L + x): of
        one sign wherever that holds at both its ends.
        """
        M_left, M_right, own = self._of_others()
        near, far = 2.0 * M_left + M_right, M_left + 2.0 * M_right
        return _stacked(
            [own | (near > 0.0) | (far > 0.0), ~own & ((near < 0.0) | (far < 0.0))], sometimes
        )

    def _patterns_of_moment(self, sometimes: ArrayLike) -> Array:
        """Which spans to load for the most sagging moment left, mid and right in each span.

        The moment of a load elsewhere runs straight through a span. Hogging is worst over the
        supports.
        """
        M_left, M_right, own = self._of_others()
        return _stacked([own | (M > 0.0) for M in (M_left, M_left + M_right, M_right)], sometimes)

    def _of_others(self) -> tuple[Array, Array, NDArray[np.bool_]]:
        """End moments by loaded span and span, (..., n, spans), and which is the span's own."""
        half, n = self._half, self.L.shape[-1]
        M_left, M_right = self.M_left[..., 1:, :half], self.M_support[..., 1:, 1 : half + 1]
        return M_left, M_right, np.eye(n)[:, :half] > 0.0

    def _sag(self, g: Array, q: Array, on: Array) -> Array:
        """Sag over 0 to 1 along the stretches as power coefficients, (5, ..., patterns, spans)."""
        M_a, V_a, psi_a, w_a, u = self._at_start(g, q, on)
        EI, GA = self.EI[..., None, None], self.GA[..., None, None]
        h = (self.end - self.start)[..., None, : self._half]
        return np.stack(
            np.broadcast_arrays(
                w_a,
                (psi_a + V_a / GA) * h,
                -(M_a / EI + u / GA) / 2.0 * h**2,
                -V_a / (6.0 * EI) * h**3,
                u / (24.0 * EI) * h**4,
            )
        )

    def _at_start(self, g: Array, q: Array, on: Array) -> tuple[Array, Array, Array, Array, Array]:
        """Moment, shear, rotation and sag where a stretch begins, and the load on it.

        ``on`` is (..., patterns, spans or 1, n); each result (..., patterns, spans).
        """
        half = self._half
        g, q = g[..., None], q[..., None]

        def summed(cases: Array) -> Array:
            moving = np.einsum("...psj,...js->...ps", on, cases[..., 1:, :half])
            return np.asarray(g * cases[..., :1, :half] + q * moving)

        M, V, psi = summed(self.M_left), summed(self.V_left), summed(self.psi_left)
        EI, GA = self.EI[..., None, None], self.GA[..., None, None]
        a = self.start[..., None, :half]
        M_a = M + V * a - g * a**2 / 2.0
        w_a = psi * a - (M * a**2 / 2.0 + V * a**3 / 6.0 - g * a**4 / 24.0) / EI + (M_a - M) / GA
        psi_a = psi - (M * a + V * a**2 / 2.0 - g * a**3 / 6.0) / EI
        loaded = np.einsum("...psj,js->...ps", on, np.eye(self.L.shape[-1])[:, :half])
        return M_a, V - g * a, psi_a, w_a, g + q * loaded


def span_rows(
    L: ArrayLike, start: ArrayLike, end: ArrayLike, EI: ArrayLike, GA: ArrayLike
) -> SpanRows:
    r"""Solve rows of spans for their unit loads.

    .. math::
        M_{i-1} \left(\frac{L_i}{6} - \frac{k}{L_i}\right)
        + M_i \left(\frac{L_i + L_{i+1}}{3} + \frac{k}{L_i} + \frac{k}{L_{i+1}}\right)
        + M_{i+1} \left(\frac{L_{i+1}}{6} - \frac{k}{L_{i+1}}\right)
        = -(a_i + b_{i+1})

    with k = EI / GA and a, b the end rotations of the simply supported spans, times EI.

    Parameters
    ----------
    L : array_like, shape (..., n)
        Spans between supports [mm]
    start, end : array_like, shape (..., n)
        Loaded stretch of each span from its left support [mm]
    EI : array_like, shape (...)
        Bending stiffness [N mm2]
    GA : array_like, shape (...)
        Shear stiffness, shape factor included [N]

    Returns
    -------
    rows : SpanRows
        See there for units [-]

    Notes
    -----
    The largest sag and moment are sought on the loaded stretch and its ends, and the moment also
    over the supports; what lies between a stretch and a support is half the support's width.

    Source: Clapeyron's equation of three moments, any textbook, with the rotations of shear
    added: own derivation from EI psi' = -M and w' = psi + V / GA.
    Valid for: one to three spans of about equal length, stretches over most of their span. (The
    patterns tried are all that can rule then; the sag of more spans errs upwards only.)
    """
    L, start, end = (np.asarray(a, dtype=np.float64) for a in (L, start, end))
    EI, GA = (np.asarray(a, dtype=np.float64) for a in (EI, GA))
    n = L.shape[-1]
    k = (EI / GA)[..., None]
    own = np.eye(n)
    length, middle = end - start, (start + end) / 2.0

    def cases(all_over: Array, stretch: Array) -> Array:
        """(..., n + 1, n): load all over, then the stretch of one span after the other."""
        return np.concatenate([all_over[..., None, :], stretch[..., None, :] * own], axis=-2)

    R_left = cases(L / 2.0, length * (L - middle) / L)
    R_right = cases(L / 2.0, length * middle / L)
    turned_left = cases(L**3 / 24.0, _rotation(L, L - end, L - start))
    turned_right = cases(L**3 / 24.0, _rotation(L, start, end))

    M = np.zeros((*R_left.shape[:-1], n + 1))
    if n > 1:
        K = np.zeros((*L.shape[:-1], n - 1, n - 1))
        step = L / 6.0 - k / L
        for i in range(n - 1):
            K[..., i, i] = ((L[..., i : i + 2] / 3.0) + k / L[..., i : i + 2]).sum(axis=-1)
            if i:
                K[..., i, i - 1] = K[..., i - 1, i] = step[..., i]
        right = -(turned_right[..., :-1] + turned_left[..., 1:])
        M[..., 1:-1] = np.linalg.solve(K, right.swapaxes(-1, -2)).swapaxes(-1, -2)
    span = L[..., None, :]
    M_left, M_right = M[..., :-1], M[..., 1:]
    slope = (M_right - M_left) / span
    V_left, V_right = R_left + slope, slope - R_right
    reactions = np.zeros_like(M)
    reactions[..., :-1] += V_left
    reactions[..., 1:] -= V_right
    EI_, GA_ = EI[..., None, None], GA[..., None, None]
    psi = (turned_left + M_left * span / 3.0 + M_right * span / 6.0) / EI_ - slope / GA_
    return SpanRows(
        L=L,
        start=start,
        end=end,
        EI=EI,
        GA=GA,
        M_left=M_left,
        V_left=V_left,
        V_right=V_right,
        psi_left=psi,
        M_support=M,
        reactions=reactions,
    )


def _derivative(coefficients: Array) -> Array:
    powers = np.arange(1.0, len(coefficients)).reshape(-1, *[1] * (coefficients.ndim - 1))
    return np.asarray(coefficients[1:] * powers)


def _rotation(L: Array, start: Array, end: Array) -> Array:
    """EI times the rotation at the far end under 1 N/mm from start to end, simply supported."""
    return np.asarray(((end**2 - start**2) * L**2 / 2.0 - (end**4 - start**4) / 4.0) / (6.0 * L))


def _stacked(patterns: list[NDArray[np.bool_]], sometimes: ArrayLike) -> Array:
    """Patterns (..., n, spans) as (..., patterns, spans, n); one is enough for no load."""
    kept = patterns if np.any(sometimes) else patterns[:1]
    return np.stack(kept, axis=-3).swapaxes(-1, -2).astype(np.float64)


def _loads(always: ArrayLike, sometimes: ArrayLike) -> tuple[Array, Array]:
    g, q = (np.asarray(load, dtype=np.float64)[..., None] for load in (always, sometimes))
    return g, q


def _worst(cases: Array, always: ArrayLike, sometimes: ArrayLike) -> Array:
    """Largest size at fixed places, where the worst pattern is that of the shares of one sign."""
    g, q = _loads(always, sometimes)
    base, share = g * cases[..., 0, :], cases[..., 1:, :]
    up = base + q * np.maximum(share, 0.0).sum(axis=-2)
    down = base + q * np.minimum(share, 0.0).sum(axis=-2)
    return np.asarray(np.maximum(up, -down))
