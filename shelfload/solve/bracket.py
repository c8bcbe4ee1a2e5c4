"""What holds a plate to a wall without a carcass: arms, strips and rods let into the wall."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def upper_fixing_pull(F: ArrayLike, d: ArrayLike, h: ArrayLike) -> Array:
    """Tension in the upper fixing of an arm that bears against the wall at its foot.

    Parameters
    ----------
    F : array_like
        Load on the arm, down [N]
    d : array_like
        Distance of the load from the wall; half the depth for an even load [mm]
    h : array_like
        Height of the upper fixing above the foot that bears [mm]

    Returns
    -------
    T : ndarray
        Tension, F d / h [N]

    Raises
    ------
    ValueError
        No height.

    Notes
    -----
    Source: statics, moments about the foot. A strip (cleat) prises likewise about its own lower
    edge: h is then the height of its screws above that edge.
    """
    lever = np.asarray(h, np.float64)
    if np.any(lever <= 0):
        raise ValueError("the fixing must lie above the foot")
    return np.asarray(F, np.float64) * np.asarray(d, np.float64) / lever


def rod_wall_pressure(
    F: ArrayLike, c: ArrayLike, l_wall: ArrayLike, d: ArrayLike
) -> tuple[Array, Array]:
    """Pressure of a stiff rod on its hole, at the face of the wall and at the inner end.

    Parameters
    ----------
    F : array_like
        Load on the rod outside the wall [N]
    c : array_like
        Distance of the load from the bearing face of the wall [mm]
    l_wall : array_like
        Length of the rod in sound wall [mm]
    d : array_like
        Diameter of the rod [mm]

    Returns
    -------
    (p_face, p_end) : tuple of ndarray
        Pressure down at the face, up at the inner end, on the projected diameter [MPa]

    Notes
    -----
    Source: own derivation: pressure linear along the rod, A + B x, with integral F and moment
    -F c about the face: A = F (4 + 6 c / l) / l, at the end -F (2 + 6 c / l) / l.
    Valid for: rods stiff against the wall, no play; plaster and board don't count as wall.
    """
    load, length = np.asarray(F, np.float64), np.asarray(l_wall, np.float64)
    lever, mean = np.asarray(c, np.float64) / length, load / (length * np.asarray(d, np.float64))
    return mean * (4.0 + 6.0 * lever), mean * (2.0 + 6.0 * lever)


def rod_moment(F: ArrayLike, c: ArrayLike, l_wall: ArrayLike) -> Array:
    """Largest bending moment in the rod, a little inside the wall.

    Parameters
    ----------
    F : array_like
        Load on the rod outside the wall [N]
    c : array_like
        Distance of the load from the bearing face of the wall [mm]
    l_wall : array_like
        Length of the rod in sound wall [mm]

    Returns
    -------
    M : ndarray
        Largest moment, at x = l / (3 + 6 c / l) behind the face [N mm]

    Notes
    -----
    Source: own derivation from the linear pressure of ``rod_wall_pressure``: shear is zero there.
    """
    load, out, length = (np.asarray(v, np.float64) for v in (F, c, l_wall))
    A = load * (4.0 + 6.0 * out / length) / length
    B = -load * (6.0 + 12.0 * out / length) / length**2
    x = length / (3.0 + 6.0 * out / length)
    return np.asarray(load * (out + x) - A * x**2 / 2 - B * x**3 / 6, np.float64)


def round_bar_stress(M: ArrayLike, d: ArrayLike) -> Array:
    """Bending stress in a solid round bar.

    Parameters
    ----------
    M : array_like
        Bending moment [N mm]
    d : array_like
        Diameter; of a thread the root [mm]

    Returns
    -------
    sigma : ndarray
        Stress at the edge, 32 M / (pi d^3) [MPa]

    Notes
    -----
    Source: section modulus of a circle, any handbook.
    """
    return 32.0 * np.asarray(M, np.float64) / (np.pi * np.asarray(d, np.float64) ** 3)


def rod_tip_sag(F: ArrayLike, depth: ArrayLike, EI: ArrayLike, x_fix: ArrayLike = 0.0) -> Array:
    """Sag at the front of a rod under an even load over its length outside the wall.

    Parameters
    ----------
    F : array_like
        Load on the rod, spread over the depth [N]
    depth : array_like
        Length of the rod outside the wall [mm]
    EI : array_like
        Bending stiffness of the rod [N mm2]
    x_fix : array_like
        How far behind the face the rod may be taken as held [mm]

    Returns
    -------
    w : ndarray
        Sag of the tip from bending of the rod; play in the hole comes on top [mm]

    Notes
    -----
    Source: cantilever formulas of any beam table: F D^3 / 8 EI outside, plus sag and slope at
    the face from F and F D / 2 over the free length inside.
    """
    load, D, x, stiff = (np.asarray(v, np.float64) for v in (F, depth, x_fix, EI))
    couple = load * D / 2
    at_face = load * x**3 / 3 + couple * x**2 / 2
    slope = load * x**2 / 2 + couple * x
    return np.asarray((load * D**3 / 8 + at_face + slope * D) / stiff, np.float64)


def rod_play_sag(play: ArrayLike, l_wall: ArrayLike, depth: ArrayLike) -> Array:
    """Droop of the front from play between rod and hole.

    Parameters
    ----------
    play : array_like
        Diameter of the hole less that of the rod [mm]
    l_wall : array_like
        Length of the rod in the hole [mm]
    depth : array_like
        Length of the rod outside the hole [mm]

    Returns
    -------
    w : ndarray
        Drop of the tip below the line of a rod without play [mm]

    Notes
    -----
    Source: own derivation: the rod rests on the lower lip and under the top of the inner end,
    tilted by play / l_wall.
    """
    tilt = np.asarray(play, np.float64) / np.asarray(l_wall, np.float64)
    return tilt * np.asarray(depth, np.float64)
