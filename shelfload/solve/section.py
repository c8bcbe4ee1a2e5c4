"""Cross-sections of several parts: glued to one, or merely lying on each other.

Arrays broadcast; the last axis runs over the parts, leading axes over samples or cells.
z runs down, y across; places are those of a part's centre.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.modulus import plywood_layup, require_positive, true_modulus

__all__ = ["Section", "bonded", "lying", "plywood_layup", "true_modulus"]

Array = NDArray[np.float64]

_GAUSS_T, _GAUSS_W = np.polynomial.legendre.leggauss(3)  # exact to the fifth degree
_TOUCH = 1e-9  # share of the section's depth or width below which parts touch


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Section:
    """Stiffness of a section, and the stress that a moment or a shear force brings.

    Attributes
    ----------
    EA : ndarray, shape (...)
        Stiffness in tension [N]
    EI : ndarray, shape (...)
        Bending stiffness where the section is held to bend in the vertical plane [N mm2]
    EI_free : ndarray, shape (...)
        Bending stiffness where it may also move sideways, EI - EI_yz^2 / EI_zz; equal to EI
        for a section that is symmetric about either axis [N mm2]
    GA : ndarray, shape (...)
        Shear stiffness, shape factor included [N]
    z_na, y_na : ndarray, shape (...)
        Neutral axis and its counterpart across; nan for parts that only lie on each other [mm]
    stress_top, stress_bottom : ndarray, shape (..., parts)
        Stress on the upper and lower face of each part per moment, held to the vertical
        plane, tension positive [MPa/(N mm)]
    stress_free : ndarray, shape (..., parts)
        Largest size of the stress anywhere in each part per moment, free to move sideways
        [MPa/(N mm)]
    shear_peak : ndarray, shape (..., parts)
        Largest shear stress in each part per shear force [MPa/N]
    flow : ndarray, shape (..., parts)
        Change along the beam of each part's axial force per shear force, tension positive;
        see glue_flow [1/mm]
    """

    EA: Array
    EI: Array
    EI_free: Array
    GA: Array
    z_na: Array
    y_na: Array
    stress_top: Array
    stress_bottom: Array
    stress_free: Array
    shear_peak: Array
    flow: Array

    def glue_flow(self, cut_off: ArrayLike) -> Array:
        """Force per length on a glue line, per shear force [1/mm]; divide by the glued width.

        ``cut_off`` says (bool per part) which parts lie beyond the line; for a joint that
        has two lines, such as a part let in, the force is that on both together.
        """
        beyond = np.asarray(cut_off, dtype=np.bool_)
        result: Array = np.abs((self.flow * beyond).sum(axis=-1))
        return result


def bonded(
    E: ArrayLike, G: ArrayLike, b: ArrayLike, h: ArrayLike, y: ArrayLike, z: ArrayLike
) -> Section:
    r"""Rectangles of any materials, rigidly glued to one section.

    .. math:: GA = \frac{EI^2}{\int ES(z)^2 / \sum_i G_i b_i \, dz}

    with the sum over the parts that lie at depth z.

    Parameters
    ----------
    E : array_like, shape (..., parts)
        Modulus of elasticity along the beam [MPa]
    G : array_like, shape (..., parts)
        Shear modulus in the vertical plane along the beam; for a sheet on the flat that is
        the one through its thickness [MPa]
    b : array_like, shape (..., parts)
        Width [mm]
    h : array_like, shape (..., parts)
        Depth [mm]
    y : array_like, shape (..., parts)
        Place of the centre across [mm]
    z : array_like, shape (..., parts)
        Depth of the centre below any level, such as the top face [mm]

    Returns
    -------
    section : Section
        See there for units [-]

    Raises
    ------
    ValueError
        If a figure is not above zero, parts overlap, or a gap leaves parts unconnected.

    Notes
    -----
    Sections stay plane. The shear strain is taken as even over the width at each depth, and
    flow across the width (from a wide panel into a deep lipping) costs nothing: exact for
    stacked layers of one width, an upper bound of GA where the width jumps. Shear figures are
    those of the section held to the vertical plane. A section that its supports let move
    sideways takes EI_free for sag and stress_free, never stress_top and stress_bottom, for
    strength.

    Source: transformed section and unsymmetric bending, Gere, Mechanics of Materials, chapter
    6; shear stiffness from the energy of the shear flow, own derivation (5/6 G A for a
    rectangle as in EN 1995-1-1 practice).
    Valid for: slender parts, rigid glue.
    """
    E, G, b, h, y, z = (
        np.asarray(a, dtype=np.float64) for a in np.broadcast_arrays(E, G, b, h, y, z)
    )
    if E.ndim == 0:
        raise ValueError("E: the last axis runs over the parts; a single part needs it too")
    require_positive(E=E, G=G, b=b, h=h)
    _require_apart(b, h, y, z)

    EA = E * b * h
    total = EA.sum(axis=-1)
    z_na = (EA * z).sum(axis=-1) / total
    y_na = (EA * y).sum(axis=-1) / total
    dz, dy = z - z_na[..., None], y - y_na[..., None]
    EI = (EA * (h**2 / 12.0 + dz**2)).sum(axis=-1)
    EI_zz = (EA * (b**2 / 12.0 + dy**2)).sum(axis=-1)
    EI_yz = (EA * dy * dz).sum(axis=-1)

    # Corner stress if free: the sideways bending that no support forbids is added.
    side = np.array([-0.5, 0.5])
    corner_z = (dz[..., None] + h[..., None] * side)[..., :, None]
    corner_y = (dy[..., None] + b[..., None] * side)[..., None, :]
    lean = (EI_yz / EI_zz)[..., None, None, None]
    EI_free = EI - EI_yz**2 / EI_zz
    corner = np.abs(corner_z - lean * corner_y).max(axis=(-2, -1))
    shear_energy, peak = _shear(E, G, b, h, dz)
    return Section(
        EA=total,
        EI=EI,
        EI_free=EI_free,
        GA=EI**2 / shear_energy,
        z_na=z_na,
        y_na=y_na,
        stress_top=E * (dz - h / 2.0) / EI[..., None],
        stress_bottom=E * (dz + h / 2.0) / EI[..., None],
        stress_free=E * corner / EI_free[..., None],
        shear_peak=G * peak / EI[..., None],
        flow=EA * dz / EI[..., None],
    )


def lying(E: ArrayLike, G: ArrayLike, b: ArrayLike, h: ArrayLike) -> Section:
    """Parts that merely lie on each other or side by side, and bend together.

    Parameters
    ----------
    E : array_like, shape (..., parts)
        Modulus of elasticity along the beam [MPa]
    G : array_like, shape (..., parts)
        Shear modulus in the vertical plane along the beam [MPa]
    b : array_like, shape (..., parts)
        Width [mm]
    h : array_like, shape (..., parts)
        Depth [mm]

    Returns
    -------
    section : Section
        See there for units [-]

    Raises
    ------
    ValueError
        If a figure is not above zero.

    Notes
    -----
    Moments and shear forces are shared in proportion to E I; GA follows from the energy of
    that sharing, and never exceeds the sum of the parts.

    Source: own derivation; no composite action, so gamma = 0 in EN 1995-1-1:2004, B.2.
    """
    E, G, b, h = (np.asarray(a, dtype=np.float64) for a in np.broadcast_arrays(E, G, b, h))
    if E.ndim == 0:
        raise ValueError("E: the last axis runs over the parts; a single part needs it too")
    require_positive(E=E, G=G, b=b, h=h)
    each = E * b * h**3 / 12.0
    EI = each.sum(axis=-1)
    share = each / EI[..., None]
    edge = E * h / 2.0 / EI[..., None]
    nowhere = np.full_like(EI, np.nan)
    return Section(
        EA=(E * b * h).sum(axis=-1),
        EI=EI,
        EI_free=EI,
        GA=1.0 / (share**2 / (5.0 / 6.0 * G * b * h)).sum(axis=-1),
        z_na=nowhere,
        y_na=nowhere,
        stress_top=-edge,
        stress_bottom=edge,
        stress_free=edge,
        shear_peak=1.5 * share / (b * h),
        flow=np.zeros_like(E),
    )


def _shear(E: Array, G: Array, b: Array, h: Array, dz: Array) -> tuple[Array, Array]:
    """Integral of ES^2 / sum(G b) over the depth, and the peak of |ES| / sum(G b) per part."""
    top, bottom = dz - h / 2.0, dz + h / 2.0
    cuts = np.sort(np.concatenate([top, bottom], axis=-1), axis=-1)
    start, width = cuts[..., :-1], np.diff(cuts, axis=-1)
    middle = (start + width / 2.0)[..., None]
    crosses = (top[..., None, :] <= middle) & (middle <= bottom[..., None, :])
    slack = _TOUCH * (cuts[..., -1] - cuts[..., 0])[..., None]
    real = width > slack
    Gb = (crosses * (G * b)[..., None, :]).sum(axis=-1)
    if (real & (Gb == 0.0)).any():
        raise ValueError("z: a gap over the whole width leaves parts unconnected")
    Gb = np.where(Gb == 0.0, np.inf, Gb)

    def ES(depth: Array) -> Array:
        """First moment, about the neutral axis, of what lies below a depth."""
        lower = bottom[..., None, None, :]
        from_ = np.clip(depth[..., None], top[..., None, None, :], lower)
        each = (E * b)[..., None, None, :] * (lower - from_) * (lower + from_) / 2.0
        result: Array = each.sum(axis=-1)
        return result

    gauss = ES(middle + width[..., None] / 2.0 * _GAUSS_T)
    energy = ((gauss**2 @ _GAUSS_W) * width / 2.0 / Gb).sum(axis=-1)
    # ES turns at the neutral axis only, so a slice has its peak there or at an end.
    ends = np.stack([start, start + width, np.clip(0.0, start, start + width)], axis=-1)
    peak = np.abs(ES(ends)).max(axis=-1) / Gb * real
    return energy, (crosses * peak[..., None]).max(axis=-2)


def _require_apart(b: Array, h: Array, y: Array, z: Array) -> None:
    if not (np.isfinite(y) & np.isfinite(z)).all():
        raise ValueError("y, z: must be finite")

    def overlap(place: Array, size: Array) -> Array:
        gap = np.abs(place[..., :, None] - place[..., None, :])
        result: Array = (size[..., :, None] + size[..., None, :]) / 2.0 - gap
        return result

    slack = _TOUCH * (b + h).sum(axis=-1)[..., None, None]
    both = (overlap(y, b) > slack) & (overlap(z, h) > slack)
    if (both & ~np.eye(b.shape[-1], dtype=np.bool_)).any():
        raise ValueError("y, z: parts overlap; places are those of the centres")
