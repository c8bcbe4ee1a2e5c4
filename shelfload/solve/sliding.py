r"""A section of which some parts slide on their fasteners, each against one glued group.

The group is glued and keeps plane; every other part is fixed to it by fasteners that let it
slide, so that only a share :math:`\gamma_i` of its axial stiffness acts. For one or two
sliding parts this is the gamma method of EN 1995-1-1, Annex B; more of them are taken alike.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.modulus import require_positive
from shelfload.solve.section import Section


def sliding(
    E: ArrayLike,
    G: ArrayLike,
    b: ArrayLike,
    h: ArrayLike,
    y: ArrayLike,
    z: ArrayLike,
    gamma: ArrayLike,
    GA: ArrayLike,
) -> Section:
    r"""Rectangles of which some are glued to one group and others slide on it.

    .. math:: EI = \sum_i E_i I_i + \gamma_i E_i A_i a_i^2,\quad
        \sum_i \gamma_i E_i A_i a_i = 0

    Parameters
    ----------
    E : array_like, shape (parts,)
        Modulus of elasticity along the beam [MPa]
    G : array_like, shape (parts,)
        Shear modulus in the vertical plane along the beam [MPa]
    b : array_like, shape (parts,)
        Width [mm]
    h : array_like, shape (parts,)
        Depth [mm]
    y : array_like, shape (parts,)
        Place of the centre across [mm]
    z : array_like, shape (parts,)
        Depth of the centre below any level [mm]
    gamma : array_like, shape (parts,)
        1 for parts of the glued group, else the efficiency of the part's fasteners [-]
    GA : array_like
        Shear stiffness to count, that of the glued group alone to be safe [N]

    Returns
    -------
    section : Section
        See there; ``flow`` is each part's own axial force and ``z_na`` that of the axial
        forces [-]

    Raises
    ------
    ValueError
        If a figure is not above zero, gamma is not between 0 and 1, or no part has gamma 1.

    Notes
    -----
    The peak of shear in a part is that of its own bending and of its axial force together,
    which never lie at the same depth; glue lines within the group are not looked at.

    Source: EN 1995-1-1:2004, B.2, equations (B.1) and (B.6), and B.3, (B.7) and (B.8), written
    for any number of parts; sideways bending as in :func:`shelfload.solve.section.bonded`.
    Valid for: simply supported spans with gamma from the span; see
    :func:`shelfload.solve.composite.gamma_slip`.
    """
    E, G, b, h, y, z, g, GA = (
        np.asarray(a, dtype=np.float64) for a in (E, G, b, h, y, z, gamma, GA)
    )
    require_positive(E=E, G=G, b=b, h=h, GA=GA)
    if not (np.all(g >= 0.0) and np.all(g <= 1.0) and np.any(g == 1.0)):
        raise ValueError("gamma: from 0 to 1, and 1 for the parts that slide on nothing")
    A = b * h
    pull = g * E * A
    z_na, y_na = (pull * z).sum() / pull.sum(), (pull * y).sum() / pull.sum()
    dz, dy = z - z_na, y - y_na
    own = E * A * h**2 / 12.0
    EI = (own + pull * dz**2).sum()
    EI_zz = (E * A * b**2 / 12.0 + pull * dy**2).sum()
    EI_yz = (pull * dy * dz).sum()
    EI_free = EI - EI_yz**2 / EI_zz
    lean = EI_yz / EI_zz
    side = np.array([-0.5, 0.5])
    corner_z = (g * dz)[:, None, None] + (h[:, None] * side)[:, :, None]
    corner_y = (g * dy)[:, None, None] + (b[:, None] * side)[:, None, :]
    corner = np.abs(corner_z - lean * corner_y).max(axis=(1, 2))
    flow = pull * dz / EI
    peak = 1.5 * own / EI / A + np.abs(flow) / b
    return Section(
        EA=pull.sum(),
        EI=EI,
        EI_free=EI_free,
        GA=GA,
        z_na=z_na,
        y_na=y_na,
        stress_top=E * (g * dz - h / 2.0) / EI,
        stress_bottom=E * (g * dz + h / 2.0) / EI,
        stress_free=E * corner / EI_free,
        shear_peak=peak,
        flow=flow,
    )
