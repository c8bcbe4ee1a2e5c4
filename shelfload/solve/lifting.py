"""Lifting by hand: the recommended weight of one lift, teams, tilting a body up."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

LOAD_CONSTANT = 23.0
"""Weight limit of the best lift [kg], revised NIOSH lifting equation."""


def horizontal_multiplier(H: ArrayLike) -> Array:
    """Loss by reaching out.

    Parameters
    ----------
    H : array_like
        Hands forward of the ankles [mm]

    Returns
    -------
    HM : ndarray
        25 cm / H, 1 below 25 cm, 0 beyond 63 cm [-]

    Notes
    -----
    Source: Waters, Putz-Anderson & Garg, Applications Manual for the Revised NIOSH Lifting
    Equation (NIOSH 94-110), table of multipliers; cut-off of 63 cm from memory.
    """
    reach = np.asarray(H, np.float64)
    return np.where(reach > 630.0, 0.0, 250.0 / np.maximum(reach, 250.0))


def vertical_multiplier(V: ArrayLike) -> Array:
    """Loss by lifting from low or high.

    Parameters
    ----------
    V : array_like
        Hands above the floor [mm]

    Returns
    -------
    VM : ndarray
        1 - 0.003 |V - 75 cm|, 0 beyond 175 cm [-]

    Notes
    -----
    Source: NIOSH 94-110, table of multipliers; cut-off of 175 cm from memory.
    """
    height = np.asarray(V, np.float64)
    return np.where((height > 1750.0) | (height < 0.0), 0.0, 1.0 - 0.0003 * np.abs(height - 750.0))


def distance_multiplier(D: ArrayLike) -> Array:
    """Loss by lifting far.

    Parameters
    ----------
    D : array_like
        Height from where it is taken to where it is put, size only [mm]

    Returns
    -------
    DM : ndarray
        0.82 + 4.5 cm / D, 1 below 25 cm, 0 beyond 175 cm [-]

    Notes
    -----
    Source: NIOSH 94-110, table of multipliers; cut-offs from memory.
    """
    far = np.abs(np.asarray(D, np.float64))
    return np.where(far > 1750.0, 0.0, 0.82 + 45.0 / np.maximum(far, 250.0))


def asymmetry_multiplier(A: ArrayLike) -> Array:
    """Loss by twisting.

    Parameters
    ----------
    A : array_like
        Angle between the load and straight ahead, size only [rad]

    Returns
    -------
    AM : ndarray
        1 - 0.0032 per degree, 0 beyond 135 degrees [-]

    Notes
    -----
    Source: NIOSH 94-110, table of multipliers; cut-off of 135 degrees from memory.
    """
    angle = np.abs(np.degrees(np.asarray(A, np.float64)))
    return np.where(angle > 135.0, 0.0, 1.0 - 0.0032 * angle)


def recommended_weight_limit(
    HM: ArrayLike,
    VM: ArrayLike,
    DM: ArrayLike,
    AM: ArrayLike,
    FM: ArrayLike,
    CM: ArrayLike,
) -> Array:
    """Weight that nearly all healthy people may lift alone under these conditions.

    Parameters
    ----------
    HM : array_like
        Horizontal multiplier [-]
    VM : array_like
        Vertical multiplier [-]
    DM : array_like
        Distance multiplier [-]
    AM : array_like
        Asymmetry multiplier [-]
    FM : array_like
        Frequency multiplier, from the standard's table [-]
    CM : array_like
        Coupling multiplier, from the standard's table [-]

    Returns
    -------
    RWL : ndarray
        Recommended weight limit [kg]

    Notes
    -----
    Source: NIOSH 94-110, RWL = LC HM VM DM AM FM CM.
    Valid for: one person, two hands, standing on firm ground; worked out where the load is
    taken and where it is put, the lower counts.
    """
    limit = np.asarray(LOAD_CONSTANT, np.float64)
    for multiplier in (HM, VM, DM, AM, FM, CM):
        limit = limit * np.asarray(multiplier, np.float64)
    return limit


def people_needed(m: ArrayLike, single: ArrayLike, team_share: ArrayLike) -> NDArray[np.int64]:
    """Smallest team that may lift a mass.

    Parameters
    ----------
    m : array_like, shape (...)
        Mass as lifted [kg]
    single : array_like, shape (...)
        What one of them may lift alone here [kg]
    team_share : array_like, shape (n,)
        What each person in a team of 1, 2, ... n counts for, 1 for the first [-]

    Returns
    -------
    people : ndarray of int, shape (...)
        Number of people; 0 where no team in the list is enough [-]

    Notes
    -----
    Source: own derivation from the caller's shares (published guidance has a team lift less
    than the sum of its people).
    """
    share = np.asarray(team_share, np.float64)
    team = np.asarray(single, np.float64)[..., np.newaxis] * share * np.arange(1, share.size + 1)
    enough = team >= np.asarray(m, np.float64)[..., np.newaxis]
    return np.where(enough.any(axis=-1), enough.argmax(axis=-1) + 1, 0).astype(np.int64)


def tilting_up_force(W: ArrayLike, x_G: ArrayLike, L: ArrayLike) -> Array:
    """Lift at the far end that starts to tilt up a body lying on the floor.

    Parameters
    ----------
    W : array_like
        Weight [N]
    x_G : array_like
        Distance of the centre of gravity from the end that stays on the floor [mm]
    L : array_like
        Length from that end to the hands [mm]

    Returns
    -------
    F : ndarray
        Force of all hands together, W x_G / L [N]

    Notes
    -----
    Source: statics, moments about the end on the floor; the force falls as the body comes up.
    """
    return np.asarray(W, np.float64) * np.asarray(x_G, np.float64) / np.asarray(L, np.float64)
