"""Shear of a fastener that bridges a gap or a soft layer between the two parts it joins."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

GAP_MODES = "abcdef"
"""Letters of the rows of ``single_shear_over_gap``, those of EN 1995-1-1 (8.6)."""


def single_shear_over_gap(
    f_h_1: ArrayLike,
    t_1: ArrayLike,
    f_h_2: ArrayLike,
    t_2: ArrayLike,
    d: ArrayLike,
    M_y: ArrayLike,
    gap: ArrayLike,
) -> Array:
    r"""Johansen's modes of a single shear joint with a layer between that gives no support.

    With S(F) the moment of one side about its face of the gap, equilibrium of the fastener is
    S_1(F) + S_2(F) + F g = 0, where

    - a side in which the fastener turns without bending has
      S = F^2 / (4 f_h d) + F t / 2 - f_h d t^2 / 4,
    - a side with a plastic hinge has S = F^2 / (2 f_h d) - M_y.

    Parameters
    ----------
    f_h_1 : array_like
        Embedment strength of the head side [MPa]
    t_1 : array_like
        Thickness on the head side [mm]
    f_h_2 : array_like
        Embedment strength of the point side [MPa]
    t_2 : array_like
        Penetration on the point side [mm]
    d : array_like
        Diameter for shear [mm]
    M_y : array_like
        Yield moment [N mm]
    gap : array_like
        Thickness of everything between the two that is not counted on [mm]

    Returns
    -------
    F_v : ndarray, shape (6, ...)
        Load of modes a to f per fastener; the smallest counts [N]

    Notes
    -----
    Source: own derivation from Johansen's theory, as EN 1995-1-1 (8.6) is; gap 0 gives (8.6)
    without its factors 1.05 and 1.15 and without rope effect. The case is that of Blass &
    Laskewitz, Load-carrying capacity of joints with dowel-type fasteners and interlayers,
    CIB-W18/33-7-6 (2000); their formulas were not compared.
    Valid for: strength only; the joint slips much more than one without a gap. A crushable
    layer (foam, plasterboard) also lets the joint close up: the pull along the fastener that
    squeezes it needs its own check.
    """
    h_1, l_1, h_2, l_2, dia, M, g = (
        np.asarray(v, np.float64) for v in np.broadcast_arrays(f_h_1, t_1, f_h_2, t_2, d, M_y, gap)
    )
    p_1, p_2 = h_1 * dia, h_2 * dia
    turn_1 = (1 / (4 * p_1), l_1 / 2, p_1 * l_1**2 / 4)
    turn_2 = (1 / (4 * p_2), l_2 / 2, p_2 * l_2**2 / 4)
    zero = np.zeros_like(M)
    hinge_1, hinge_2 = (1 / (2 * p_1), zero, M), (1 / (2 * p_2), zero, M)

    def load(side_1: tuple[Array, ...], side_2: tuple[Array, ...]) -> Array:
        a, b, c = (one + two for one, two in zip(side_1, side_2, strict=True))
        b = b + g
        return np.asarray((np.sqrt(b**2 + 4 * a * c) - b) / (2 * a), np.float64)

    return np.stack(
        [
            p_1 * l_1,
            p_2 * l_2,
            load(turn_1, turn_2),
            load(turn_1, hinge_2),
            load(hinge_1, turn_2),
            load(hinge_1, hinge_2),
        ]
    )


def thin_plate_over_gap(
    f_h: ArrayLike, t: ArrayLike, d: ArrayLike, M_y: ArrayLike, gap: ArrayLike
) -> Array:
    """Johansen's modes of a thin steel plate on timber with a layer between that gives no support.

    Parameters
    ----------
    f_h : array_like
        Embedment strength of the timber [MPa]
    t : array_like
        Penetration into the timber [mm]
    d : array_like
        Diameter for shear [mm]
    M_y : array_like
        Yield moment of the fastener [N mm]
    gap : array_like
        Thickness of everything between plate and timber that is not counted on [mm]

    Returns
    -------
    F_v : ndarray, shape (2, ...)
        Load of modes a (turns in the timber) and b (hinge in it) per fastener [N]

    Notes
    -----
    Source: own derivation as ``single_shear_over_gap`` with a plate that holds no moment; gap 0
    gives (8.9) of EN 1995-1-1, 0.414 in place of its 0.4, without its factor 1.15.
    Valid for: plates up to half the diameter thick; strength only.
    """
    h, pen, dia, M, g = (
        np.asarray(v, np.float64) for v in np.broadcast_arrays(f_h, t, d, M_y, gap)
    )
    p = h * dia

    def load(a: Array, b: Array, c: Array) -> Array:
        return np.asarray((np.sqrt(b**2 + 4 * a * c) - b) / (2 * a), np.float64)

    return np.stack([load(1 / (4 * p), pen / 2 + g, p * pen**2 / 4), load(1 / (2 * p), g, M)])


def bar_moment_over_gap(F_v: ArrayLike, gap: ArrayLike, held: ArrayLike) -> Array:
    """Bending moment in a stiff bar or bolt that carries a shear across a gap.

    Parameters
    ----------
    F_v : array_like
        Shear [N]
    gap : array_like
        Distance between the two faces that hold it [mm]
    held : array_like
        True where both faces keep it from turning (bends in an S), False for one [-]

    Returns
    -------
    M : ndarray
        Moment at the face [N mm]

    Notes
    -----
    Source: statics: F g / 2 in an S, F g as a cantilever. For masonry and concrete fixings the
    maker's lever arm counts instead (usually the gap and half a diameter more).
    """
    arm = np.asarray(gap, np.float64) * np.where(np.asarray(held), 0.5, 1.0)
    return np.asarray(F_v, np.float64) * arm
