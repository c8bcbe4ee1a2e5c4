"""Sag over time: loaded, unloaded and turned over, by adding up what each load step leaves."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

_HALVINGS = 80


def crept(t: ArrayLike, k_def: ArrayLike, t_full: ArrayLike, m: ArrayLike) -> Array:
    r"""Creep after some time, as a multiple of the first-day sag.

    .. math:: c(t) = k_{def} \min(1, t / t_{full})^m

    Parameters
    ----------
    t : array_like
        Time under load [years]
    k_def : array_like
        Creep in the end [-]
    t_full : array_like
        When it has come to its end [years]
    m : array_like
        Power of time [-]

    Returns
    -------
    c : ndarray
        Creep over first-day sag [-]

    Raises
    ------
    ValueError
        If a time is negative, or t_full or m is not above zero.

    Notes
    -----
    Source: the end value is k_def of EN 1995-1-1:2004, 2.2.3; the power law between is Findley's,
    with m of 0.2 to 0.33 for wood and panels (from memory). The code names no law in time.
    """
    t, k, full, m = (np.asarray(a, dtype=np.float64) for a in (t, k_def, t_full, m))
    if not ((t >= 0.0).all() and (full > 0.0).all() and (m > 0.0).all()):
        raise ValueError("t must not be negative, t_full and m above zero")
    return np.asarray(k * np.minimum(t / full, 1.0) ** m)


def turned_over(
    since: ArrayLike, loaded: ArrayLike, k_def: ArrayLike, t_full: ArrayLike, m: ArrayLike
) -> Array:
    r"""Sag of a shelf that was loaded, then turned over and loaded again the same.

    .. math:: w / w_1 = 1 + 2 c(\tau) - c(T + \tau)

    Parameters
    ----------
    since : array_like
        Time since it was turned over, tau [years]
    loaded : array_like
        Time under load before, T [years]
    k_def, t_full, m : array_like
        As in crept [-]

    Returns
    -------
    ratio : ndarray
        Sag over the first-day sag of the new shelf; below zero it stands up [-]

    Notes
    -----
    Seen from the panel, its load is 1 until T and -1 from then on: a step of 1 at 0 and one of
    -2 at T. What recovers after turning is in it.

    Source: Boltzmann's superposition of load steps; any textbook of linear viscoelasticity.
    Valid for: stresses low enough for creep to be in proportion, below a third of strength.
    """
    tau, T = (np.asarray(a, dtype=np.float64) for a in (since, loaded))
    return np.asarray(1.0 + 2.0 * crept(tau, k_def, t_full, m) - crept(T + tau, k_def, t_full, m))


def set_left(
    since: ArrayLike, loaded: ArrayLike, k_def: ArrayLike, t_full: ArrayLike, m: ArrayLike
) -> Array:
    r"""Sag that stays in a shelf some time after its load was taken off.

    .. math:: w / w_1 = c(T + \tau) - c(\tau)

    Parameters
    ----------
    since : array_like
        Time since it was unloaded, tau [years]
    loaded : array_like
        Time under load before, T [years]
    k_def, t_full, m : array_like
        As in crept [-]

    Returns
    -------
    ratio : ndarray
        Sag over the first-day sag of the new shelf [-]

    Notes
    -----
    Source: Boltzmann's superposition of load steps, as in turned_over. Wood keeps some of its
    creep for good, after changes of moisture above all: this is the least that stays.
    """
    tau, T = (np.asarray(a, dtype=np.float64) for a in (since, loaded))
    return np.asarray(crept(T + tau, k_def, t_full, m) - crept(tau, k_def, t_full, m))


def turned_until(
    sag: ArrayLike, loaded: ArrayLike, k_def: ArrayLike, t_full: ArrayLike, m: ArrayLike
) -> Array:
    """Time after turning over until a shelf sags so much again.

    Parameters
    ----------
    sag : array_like
        Sag that is waited for, over the first-day sag of the new shelf [-]
    loaded : array_like
        Time under load before [years]
    k_def, t_full, m : array_like
        As in crept [-]

    Returns
    -------
    time : ndarray
        0 where it sags more at once, inf where it never does [years]

    Notes
    -----
    Source: turned_over, backwards; it rises with time for m up to 1.
    """
    sag, T, k, full, m = np.broadcast_arrays(
        *(np.asarray(a, dtype=np.float64) for a in (sag, loaded, k_def, t_full, m))
    )
    low, high = np.zeros(sag.shape), full.copy()
    never = turned_over(high, T, k, full, m) < sag
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        below = turned_over(middle, T, k, full, m) < sag
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.where(never, np.inf, high)
