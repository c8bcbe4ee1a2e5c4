"""A sheet fixed along its edges as a wall diaphragm: what its fasteners hold, and the hardest one.

Method A of the code shares the force evenly; a stiff sheet on a frame of hinged members works the
fasteners at its corners a little harder.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
WIDEST = {"nailed": 150.0, "screwed": 200.0}
"""Largest spacing along the edges [mm], EN 1995-1-1:2004, 9.2.4.2 with Figure 9.5, from memory."""


def narrow_share(width: ArrayLike, height: ArrayLike) -> Array:
    """Share of its width that counts of a narrow panel, c_i.

    Parameters
    ----------
    width : array_like
        b_i of the panel [mm]
    height : array_like
        h of the wall [mm]

    Returns
    -------
    c : ndarray
        1 from half the height on, less in proportion below [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, equation (9.22) with b_0 = h / 2.
    Valid for: panels at least a quarter as wide as high.
    """
    b, h = np.asarray(width, np.float64), np.asarray(height, np.float64)
    return np.asarray(np.minimum(b / (h / 2.0), 1.0))


def racking_resistance(
    F_f_Rd: ArrayLike, width: ArrayLike, height: ArrayLike, spacing: ArrayLike
) -> Array:
    """Horizontal force that a panel in a wall resists by its fasteners, F_i,v,Rd.

    Parameters
    ----------
    F_f_Rd : array_like
        Lateral design capacity of one fastener [N]
    width : array_like
        Of the panel [mm]
    height : array_like
        Of the wall [mm]
    spacing : array_like
        Of the fasteners along its edges [mm]

    Returns
    -------
    F : ndarray
        Along its lower or upper edge [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 9.2.4.2, equation (9.21): F_f,Rd b_i c_i / s; the factor 1.2 of
    9.2.4.2(5) is left to whoever takes F_f,Rd.
    """
    b, s = np.asarray(width, np.float64), np.asarray(spacing, np.float64)
    return np.asarray(np.asarray(F_f_Rd, np.float64) * b * narrow_share(b, height) / s)


def hardest_fastener(width: float, height: float, spacing: float) -> float:
    """Force on the fastener at a corner over the even share of method A.

    Parameters
    ----------
    width : float
        Between the lines of fasteners [mm]
    height : float
        Likewise [mm]
    spacing : float
        Along all four edges, at most; corners have one each [mm]

    Returns
    -------
    factor : float
        Largest force on a fastener over shear flow times spacing [-]

    Notes
    -----
    The members turn as links and the sheet as a rigid body: along the frame's two directions the
    fasteners slip in proportion to their place, and each set of forces holds the couple H h.
    With x and y from the middle, F_x = H h y / sum(y^2) and F_y = H h x / sum(x^2). Where the
    spacing does not go into a side, the next closer one that does is taken.

    Source: own derivation, elastic group of fasteners on a hinged frame.
    """
    if not (width > 0.0 and height > 0.0 and spacing > 0.0):
        raise ValueError("width, height and spacing must be positive")
    across = np.linspace(-0.5, 0.5, int(np.ceil(width / spacing - 1e-9)) + 1) * width
    up = np.linspace(-0.5, 0.5, int(np.ceil(height / spacing - 1e-9)) + 1) * height
    sides, ends = up[1:-1], across  # corners belong to the upper and lower edge
    x = np.concatenate([ends, ends, np.full(2 * len(sides), width / 2.0)])
    y = np.concatenate([np.full(2 * len(ends), height / 2.0), sides, sides])
    F_x = height * (height / 2.0) / float(y @ y)
    F_y = height * (width / 2.0) / float(x @ x)
    return float(np.hypot(F_x, F_y)) * width / spacing
