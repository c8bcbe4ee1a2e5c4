"""Stiffness from a bending test of an offcut, and how sure it is."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.modulus import require_positive

Array = NDArray[np.float64]
Loading = Literal["centre", "thirds"]

_BENDING = {"centre": 1.0 / 48.0, "thirds": 23.0 / 1296.0}
"""Sag at mid-span per P L^3 / (E I); P is the whole load."""
_SHEAR = {"centre": 1.0 / 4.0, "thirds": 1.0 / 6.0}
"""Sag at mid-span per P L / (G A_s), with A_s = 5/6 of a rectangle."""
_MOMENT = {"centre": 1.0 / 4.0, "thirds": 1.0 / 6.0}
"""Largest moment per P L."""

_GAUSS_X, _GAUSS_W = np.polynomial.legendre.leggauss(60)
_HALVINGS = 60


def modulus_from_sag(
    stiffness: ArrayLike,
    L: ArrayLike,
    b: ArrayLike,
    h: ArrayLike,
    E_over_G: ArrayLike,
    loading: Loading,
) -> Array:
    r"""True modulus of elasticity of a rectangle from how stiff it was in a bending test.

    .. math:: E = k_b \frac{P}{w} \frac{L^3}{I} \left(1 + \frac{k_s}{k_b}
              \frac{E}{G} \frac{I}{L^2 A_s}\right)

    Parameters
    ----------
    stiffness : array_like
        Whole load over sag at mid-span, P / w [N/mm]
    L : array_like
        Between the supports [mm]
    b : array_like
        Width of the piece [mm]
    h : array_like
        Its thickness, upright in the test [mm]
    E_over_G : array_like
        Modulus of elasticity over shear modulus in the plane of bending; 0 for no shear [-]
    loading : str
        "centre" for one load at mid-span, "thirds" for half of it at each third point [-]

    Returns
    -------
    E : ndarray
        True modulus, the shear sag taken off [MPa]

    Raises
    ------
    ValueError
        If a figure is not above zero (E_over_G: negative).

    Notes
    -----
    Source: w = P L^3 / (48 E I) + P L / (4 G A_s) at the centre, 23 P L^3 / (1296 E I)
    + P L / (6 G A_s) at the third points; Gere, Mechanics of Materials, tables of beams, and
    own arithmetic for the shear.
    Valid for: small sags; a strip that bends as a beam, its width well below its span.
    """
    k, L, b, h = (np.asarray(a, dtype=np.float64) for a in (stiffness, L, b, h))
    ratio = np.asarray(E_over_G, dtype=np.float64)
    require_positive(stiffness=k, L=L, b=b, h=h)
    if not (ratio >= 0.0).all():
        raise ValueError("E_over_G: must not be negative")
    inertia, area = b * h**3 / 12.0, 5.0 / 6.0 * b * h
    plain = _BENDING[loading] * k * L**3 / inertia
    share = _SHEAR[loading] / _BENDING[loading] * ratio * inertia / (L**2 * area)
    return np.asarray(plain * (1.0 + share))


def bending_stress(
    P: ArrayLike, L: ArrayLike, b: ArrayLike, h: ArrayLike, loading: Loading
) -> Array:
    """Largest bending stress of a rectangle in a bending test.

    Parameters
    ----------
    P : array_like
        Whole load [N]
    L : array_like
        Between the supports [mm]
    b : array_like
        Width [mm]
    h : array_like
        Thickness, upright [mm]
    loading : str
        As in modulus_from_sag [-]

    Returns
    -------
    sigma : ndarray
        Stress [MPa]

    Notes
    -----
    Source: M / W with M = P L / 4 at the centre, P L / 6 at the third points.
    """
    P, L, b, h = (np.asarray(a, dtype=np.float64) for a in (P, L, b, h))
    return np.asarray(_MOMENT[loading] * P * L / (b * h**2 / 6.0))


def stiffness_of_readings(P: ArrayLike, w: ArrayLike) -> tuple[Array, Array]:
    r"""Load over sag from several readings, by least squares through the unloaded state.

    .. math:: s = \frac{\sum P w}{\sum P^2}, \quad
              u(s) = \sqrt{\frac{\sum (w - s P)^2}{(n - 1) \sum P^2}}

    Parameters
    ----------
    P : array_like, shape (..., n)
        Loads [N]
    w : array_like, shape (..., n)
        Sags that they add [mm]

    Returns
    -------
    stiffness : ndarray, shape (...)
        1 / s [N/mm]
    error : ndarray, shape (...)
        Standard error of s over s; nan for a single reading [-]

    Raises
    ------
    ValueError
        If a load or the fitted sag is not above zero.

    Notes
    -----
    Source: least squares of one slope, any textbook; the reading error is taken as the same at
    every load.
    """
    P, w = np.broadcast_arrays(np.asarray(P, dtype=np.float64), np.asarray(w, dtype=np.float64))
    require_positive(P=P)
    square = (P**2).sum(axis=-1)
    s = (P * w).sum(axis=-1) / square
    if not (s > 0.0).all():
        raise ValueError("w: a load must add to the sag")
    left = w - s[..., None] * P
    n = P.shape[-1]
    if n == 1:
        return 1.0 / s, np.full_like(s, np.nan)
    return 1.0 / s, np.sqrt((left**2).sum(axis=-1) / (n - 1) / square) / s


def expanded(scatter: ArrayLike, readings: int, others: ArrayLike) -> tuple[Array, Array]:
    r"""Half of the 95 % interval from the scatter of readings and from estimated errors.

    .. math:: u = \sqrt{u_A^2 + \sum u_B^2}, \quad
              \nu = (n - 1) \, u^4 / u_A^4, \quad U = t_{0.975}(\nu) \, u

    Parameters
    ----------
    scatter : array_like
        Relative standard error from the readings, u_A; nan where there is none [-]
    readings : int
        How many, n [-]
    others : array_like, shape (..., m)
        Relative standard errors that were estimated, u_B [-]

    Returns
    -------
    half : ndarray
        Relative half width U [-]
    degrees : ndarray
        Effective degrees of freedom [-]

    Notes
    -----
    Source: Guide to the expression of uncertainty in measurement, JCGM 100:2008, 4.3 and G.4.1
    (Welch-Satterthwaite), from memory.
    """
    u_A = np.nan_to_num(np.asarray(scatter, dtype=np.float64), nan=0.0)
    u_B = np.asarray(others, dtype=np.float64)
    u2 = u_A**2 + (u_B**2).sum(axis=-1)
    with np.errstate(divide="ignore", invalid="ignore"):
        # never fewer than the readings give, whatever rounding says
        effective = np.maximum((readings - 1) * u2**2 / u_A**4, readings - 1.0)
        degrees = np.where(u_A > 0.0, effective, np.inf)
    return t_quantile(degrees) * np.sqrt(u2), degrees


def t_quantile(degrees: ArrayLike) -> Array:
    r"""Point of Student's distribution that 2.5 % lie above.

    Parameters
    ----------
    degrees : array_like
        Degrees of freedom, 1 or more and not necessarily whole; inf for the normal
        distribution [-]

    Returns
    -------
    t : ndarray
        97.5 % point [-]

    Raises
    ------
    ValueError
        If there is less than one degree of freedom.

    Notes
    -----
    With t = sqrt(nu) tan(theta) the density is proportional to cos(theta)^(nu - 1) on
    -pi/2 to pi/2: smooth, so that Gauss's rule integrates it, and halving finds the angle.
    Above 1000 degrees the first terms of the expansion about the normal point are used.

    Source: own derivation; expansion: Abramowitz and Stegun, 26.7.5.

    Examples
    --------
    >>> float(t_quantile(4))
    2.776
    """
    nu = np.asarray(degrees, dtype=np.float64)
    if not (nu >= 1.0).all():
        raise ValueError("degrees: one or more are needed")
    x = 1.959963984540054
    with np.errstate(invalid="ignore"):
        far = x + (x**3 + x) / (4.0 * nu) + (5 * x**5 + 16 * x**3 + 3 * x) / (96.0 * nu**2)
    few = np.minimum(nu, 1000.0)
    low, high = np.zeros_like(few), np.full_like(few, np.pi / 2.0)
    whole = _area(few, np.full_like(few, np.pi / 2.0))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        beyond = _area(few, middle) > 0.95 * whole  # of one half: 0.5 + 0.475
        low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
    return np.where(nu > 1000.0, far, np.sqrt(few) * np.tan((low + high) / 2.0))


def _area(nu: Array, angle: Array) -> Array:
    """Integral of cos^(nu - 1) from 0 to an angle; above 12 / sqrt(nu) it is nothing."""
    reach = np.minimum(angle, 12.0 / np.sqrt(nu))
    theta = reach[..., None] * (_GAUSS_X + 1.0) / 2.0
    return np.asarray((np.cos(theta) ** (nu[..., None] - 1.0)) @ _GAUSS_W * reach / 2.0)
