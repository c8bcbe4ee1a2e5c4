"""Numbers and arrays alike: the one conversion that every connection formula starts with."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


def floats(*values: ArrayLike) -> tuple[Floats, ...]:
    """Turn each argument into an array of floats, left unbroadcast.

    Parameters
    ----------
    *values : array_like
        Numbers or arrays, each in its own unit [any]

    Returns
    -------
    tuple of ndarray
        One array for each argument, its unit kept [any]

    Notes
    -----
    Source: own convention; no formula.
    """
    return tuple(np.asarray(value, dtype=np.float64) for value in values)


def stacked(*values: ArrayLike) -> Floats:
    """Broadcast the arguments against each other and stack them on a new last axis.

    Parameters
    ----------
    *values : array_like
        Resistances of the failure modes, in the order of their letters [N]

    Returns
    -------
    ndarray
        Broadcast shape of the arguments with one axis more [N]

    Notes
    -----
    Source: own convention; no formula.
    """
    return np.stack(np.broadcast_arrays(*floats(*values)), axis=-1)
