"""A panel fixed round its edge in a bay of a frame: its shear stiffness, and how it moves.

The panel carries a constant shear flow, the same along all four edges. What it gives a
frame is one spring against the change of angle of the bay, and nothing else: moved or
turned as a whole, stretched, or bent, it feels no force.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_NEXT, _PREVIOUS = [1, 2, 3, 0], [3, 0, 1, 2]


def shear_panel_stiffness(
    G_panel: ArrayLike,
    thickness: ArrayLike,
    width: ArrayLike,
    height: ArrayLike,
    K_ser: ArrayLike,
    spacing: ArrayLike,
) -> Floats:
    r"""Shear flow per unit of shear angle of a panel fixed all round, slip included.

    .. math:: \frac{1}{(Gt)_{ef}} = \frac{1}{G t}
        + \frac{2 s}{K_{ser}} \left(\frac{1}{b} + \frac{1}{h}\right)

    Parameters
    ----------
    G_panel : array_like
        Mean modulus of shear in the plane of the panel (not rolling shear) [MPa]
    thickness : array_like
        Thickness of the panel [mm]
    width : array_like
        Width of the whole sheet, between the lines of fasteners along its edges; fasteners
        in dividers within the sheet carry nothing of a constant flow [mm]
    height : array_like
        Height of the whole sheet, likewise [mm]
    K_ser : array_like
        Slip modulus of one fastener; 0 for a panel that only lies there,
        infinite for rigid glue [N/mm]
    spacing : array_like
        Spacing of the fasteners along all four edges [mm]

    Returns
    -------
    stiffness : ndarray, broadcast shape of the arguments
        Equivalent G t of the bay, as :class:`Frame` takes it [N/mm]

    Raises
    ------
    ValueError
        A size is not positive, or a modulus is negative or not a number.

    Notes
    -----
    With a constant shear flow v each fastener carries v s along its edge and slips
    v s / K_ser; the work in panel and fasteners, v2 b h / (G t) + v2 (s / K_ser) 2 (b + h),
    equals v b h times the shear angle. Taking only force along the edges is a state in
    equilibrium, thus never too stiff: a frame whose members stay straight also loads the
    fasteners across the edges and is up to a third stiffer (square bay).

    Source: own derivation by complementary work; the constant shear flow is that of
    EN 1995-1-1:2004, 9.2.4.2.
    Valid for: small slips; a panel that does not buckle (see
    :func:`sheet_slenderness`); fasteners on all four edges.

    Examples
    --------
    >>> float(shear_panel_stiffness(600, 5, 800, 400, float("inf"), 100))
    3000.0
    """
    G, t, b, h, K, s = (
        np.asarray(value, dtype=float)
        for value in (G_panel, thickness, width, height, K_ser, spacing)
    )
    if not all(bool(np.all(value > 0)) for value in (t, b, h, s)):
        raise ValueError("thickness, width, height and spacing must be positive")
    if not (np.all(G >= 0) and np.all(K >= 0)):
        raise ValueError("G_panel and K_ser must not be negative")
    with np.errstate(divide="ignore"):
        compliance = 1.0 / (G * t) + 2.0 * s / K * (1.0 / b + 1.0 / h)
        return np.asarray(1.0 / compliance)


def fastener_force(shear_flow: ArrayLike, spacing: ArrayLike) -> Floats:
    """Force along the edge on each fastener of a panel with constant shear flow.

    Parameters
    ----------
    shear_flow : array_like
        Shear flow along the edges of the panel [N/mm]
    spacing : array_like
        Spacing of the fasteners [mm]

    Returns
    -------
    force : ndarray, broadcast shape of the arguments
        Shear force on one fastener, without sign [N]

    Notes
    -----
    Source: EN 1995-1-1:2004, 9.2.4.2 (equal force in all fasteners along an edge).
    """
    flow, s = np.asarray(shear_flow, dtype=float), np.asarray(spacing, dtype=float)
    return np.asarray(np.abs(flow) * s)


def sheet_slenderness(clear_width: ArrayLike, thickness: ArrayLike) -> Floats:
    """Clear width of a sheet over its thickness; above 100 it may buckle in shear.

    Parameters
    ----------
    clear_width : array_like
        Smaller clear distance between the lines that hold the sheet [mm]
    thickness : array_like
        Thickness of the sheet [mm]

    Returns
    -------
    slenderness : ndarray, broadcast shape of the arguments
        b_net / t; up to 100 buckling may be disregarded, above it the stiffness given
        by :func:`shear_panel_stiffness` can't be counted on [-]

    Notes
    -----
    Source: EN 1995-1-1:2004, 9.2.4.2 (b_net / t <= 100), from memory.
    """
    return np.asarray(
        np.asarray(clear_width, dtype=float) / np.asarray(thickness, dtype=float), dtype=float
    )


def panel_shear_rows(corners: ArrayLike) -> tuple[Floats, Floats]:
    """Relate the movement of four corners to the mean shear angle of the panel.

    Parameters
    ----------
    corners : array_like, shape (panels, 4, 2)
        Corners in order round the edge, x to the right and z up [mm]

    Returns
    -------
    rows : ndarray, shape (panels, 8)
        Shear angle times area = rows @ (right, down) of the four corners [mm]
    area : ndarray, shape (panels,)
        Area of the panel [mm2]

    Raises
    ------
    ValueError
        A panel has no area, or its edges cross.

    Notes
    -----
    The mean strain is the integral of n u over the edge, u taken straight between
    corners (divergence theorem); so a rigid movement gives exactly nothing. Shear is
    taken in the axes of the first and third edge's mean direction.

    Source: own derivation. Valid for: rectangles, turned or not; for other shapes the
    mean strain stands for the whole panel.
    """
    points = np.asarray(corners, dtype=float) * (1.0, -1.0)
    following = points[:, _NEXT]
    edge = following - points
    turn = points[..., 0] * following[..., 1] - points[..., 1] * following[..., 0]
    signed_area = 0.5 * turn.sum(axis=1)
    before = edge[:, _PREVIOUS]
    corner_turn = before[..., 0] * edge[..., 1] - before[..., 1] * edge[..., 0]
    if np.any(corner_turn * np.sign(signed_area)[:, None] <= 0):
        raise ValueError("the corners of a panel must go round a convex quadrilateral in order")
    sense = np.sign(signed_area)[:, None]
    # Outward normal times length of each edge, half of it to each end corner.
    normal = np.stack([edge[..., 1], -edge[..., 0]], axis=-1) * sense[..., None]
    share = 0.5 * (normal + normal[:, _PREVIOUS])
    axis = edge[:, 0] - edge[:, 2]
    axis /= np.hypot(axis[:, 0], axis[:, 1])[:, None]
    along = axis[:, None, :]
    across = np.stack([-axis[:, 1], axis[:, 0]], axis=-1)[:, None, :]
    share_along = np.sum(share * along, axis=-1, keepdims=True)
    share_across = np.sum(share * across, axis=-1, keepdims=True)
    rows = share_across * along + share_along * across
    return rows.reshape(len(points), 8), np.abs(signed_area)
