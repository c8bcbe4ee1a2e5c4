r"""Two layers that slide on fasteners smeared along them: the exact elastic solution.

Both layers bend alike. With N the force in the layers (compression in the upper, tension in
the lower), r the distance of their centroids, k = K / s the stiffness of the row,
EI_0 the layers lying loose, EI_inf glued::

    M = EI_0 kappa + N r                  equilibrium of the section
    N' = k (slip)                         fasteners
    slip' = r kappa - N / EA_r            compatibility, 1/EA_r = 1/E_1 A_1 + 1/E_2 A_2
    N'' - alpha^2 N = - (k r / EI_0) M    alpha^2 = k (1/EA_r + r^2/EI_0)

Writing N as its glued value plus a rest, the sag is that of the glued section plus
c / alpha^2 times an integral that decays with alpha from every change of shear, with
c = 1/EI_0 - 1/EI_inf. Layers are free to slide at both ends (N = 0). Shear deflection of the
layers and friction are not in here.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.connection_arrays import Floats, floats


class TwoLayers(NamedTuple):
    """Stiffnesses of a two-layer section with a sliding joint; arrays of one shape.

    EI_0 lying loose [N mm2], EI_inf glued [N mm2], alpha decay of the slip [1/mm],
    r distance of the centroids [mm].
    """

    EI_0: Floats
    EI_inf: Floats
    alpha: Floats
    r: Floats


def two_layers(
    E_1: ArrayLike,
    A_1: ArrayLike,
    I_1: ArrayLike,
    E_2: ArrayLike,
    A_2: ArrayLike,
    I_2: ArrayLike,
    r: ArrayLike,
    s: ArrayLike,
    K: ArrayLike,
) -> TwoLayers:
    """Gather what the exact solution needs of a section.

    Parameters
    ----------
    E_1 : array_like
        Modulus of elasticity of one layer [MPa]
    A_1 : array_like
        Its cross-section [mm2]
    I_1 : array_like
        Its second moment of area [mm4]
    E_2 : array_like
        Modulus of elasticity of the other layer [MPa]
    A_2 : array_like
        Its cross-section [mm2]
    I_2 : array_like
        Its second moment of area [mm4]
    r : array_like
        Distance between the two centroids [mm]
    s : array_like
        Spacing of the fasteners, 0 for glue, infinite for no fasteners [mm]
    K : array_like
        Slip modulus of one fastener [N/mm]

    Returns
    -------
    TwoLayers
        The section's stiffnesses, broadcast [N mm2, 1/mm, mm]

    Notes
    -----
    Source: Newmark, Siess and Viest (1951) and Granholm (1949), own derivation in the head
    of this file.
    """
    E_1, A_1, I_1, E_2, A_2, I_2, r, s, K = np.broadcast_arrays(
        *floats(E_1, A_1, I_1, E_2, A_2, I_2, r, s, K)
    )
    EI_0 = E_1 * I_1 + E_2 * I_2
    EA_r = E_1 * A_1 * E_2 * A_2 / (E_1 * A_1 + E_2 * A_2)
    with np.errstate(divide="ignore"):
        k = np.where(s > 0.0, K / s, np.inf)
    alpha = np.sqrt(k * (1.0 / EA_r + r**2 / EI_0))
    return TwoLayers(EI_0, EI_0 + EA_r * r**2, alpha, r)


def _slip_sag_share(z: Floats) -> Floats:
    """[1/2 - (1 - sech z) / z^2] / z^2: 5/24 without fasteners, 0 with glue."""
    small = z < 0.05
    finite = np.where(small | np.isinf(z), 1.0, z)
    sech = 2.0 * np.exp(-finite) / (1.0 + np.exp(-2.0 * finite))
    closed = (0.5 - (1.0 - sech) / finite**2) / finite**2
    low = np.where(small, z, 0.0)
    series = 5.0 / 24.0 - 61.0 / 720.0 * low**2 + 277.0 / 8064.0 * low**4
    return np.where(small, series, np.where(np.isinf(z), 0.0, closed))


def midspan_sag_uniform(layers: TwoLayers, q: ArrayLike, L: ArrayLike) -> Floats:
    """Bending sag at midspan, simply supported, uniform load.

    Parameters
    ----------
    layers : TwoLayers
        The section [N mm2, 1/mm, mm]
    q : array_like
        Load for each mm of span [N/mm]
    L : array_like
        Span [mm]

    Returns
    -------
    ndarray
        Sag, down positive [mm]

    Notes
    -----
    Source: own derivation (sympy test), the classical result of Newmark, Siess and Viest.
    """
    q, L = floats(q, L)
    glued = 5.0 * q * L**4 / (384.0 * layers.EI_inf)
    c = 1.0 / layers.EI_0 - 1.0 / layers.EI_inf
    return glued + q * L**4 / 16.0 * c * _slip_sag_share(0.5 * layers.alpha * L)


def effective_stiffness_uniform(layers: TwoLayers, L: ArrayLike) -> Floats:
    """Bending stiffness of a solid beam with the same sag at midspan, uniform load.

    Parameters
    ----------
    layers : TwoLayers
        The section [N mm2, 1/mm, mm]
    L : array_like
        Span, simply supported [mm]

    Returns
    -------
    ndarray
        (EI)_ef, between lying loose and glued [N mm2]

    Notes
    -----
    Source: own derivation, from :func:`midspan_sag_uniform`.
    """
    (L,) = floats(L)
    return 5.0 * L**4 / (384.0 * midspan_sag_uniform(layers, 1.0, L))


def end_slip_flow_uniform(layers: TwoLayers, q: ArrayLike, L: ArrayLike) -> Floats:
    """Greatest shear flow in the joint, at the supports, simply supported, uniform load.

    Parameters
    ----------
    layers : TwoLayers
        The section [N mm2, 1/mm, mm]
    q : array_like
        Load for each mm of span [N/mm]
    L : array_like
        Span [mm]

    Returns
    -------
    ndarray
        Shear flow; times the spacing it is the force on the outermost fastener [N/mm]

    Notes
    -----
    Source: own derivation (sympy test).
    """
    q, L = floats(q, L)
    z = 0.5 * layers.alpha * L
    safe = np.where((z > 0.0) & np.isfinite(z), z, 1.0)
    lag = np.where(np.isinf(z), 0.0, np.where(z > 1e-3, np.tanh(safe) / safe, 1.0 - z**2 / 3.0))
    glued = (layers.EI_inf - layers.EI_0) / (layers.EI_inf * layers.r) * q * L / 2.0
    return glued * (1.0 - lag)


def _influence(layers: TwoLayers, x: Floats, a: Floats, L: Floats) -> Floats:
    """Sag at x under a unit load at a, simply supported over L."""
    low, high = np.minimum(x, a), np.maximum(x, a)
    b = L - high
    glued = low * b * (L**2 - low**2 - b**2) / (6.0 * L * layers.EI_inf)
    chord = low * b / L
    no_slip = np.isinf(layers.alpha)
    loose = layers.alpha * L < 1e-4
    al = np.where(no_slip | loose, 1.0, layers.alpha)
    decay = (
        np.exp(-al * (high - low))
        - np.exp(-al * (high + low))
        - np.exp(-al * (2.0 * L - high - low))
        + np.exp(-al * (2.0 * L - high + low))
    ) / (2.0 * al * -np.expm1(-2.0 * al * L))
    slip = np.where(no_slip, 0.0, (chord - decay) / al**2)
    unslipped = low * b * (L**2 - low**2 - b**2) / (6.0 * L)
    c = 1.0 / layers.EI_0 - 1.0 / layers.EI_inf
    return np.asarray(glued + c * np.where(loose, unslipped, slip))


def sag_point_load(
    layers: TwoLayers, x: ArrayLike, P: ArrayLike, a: ArrayLike, L: ArrayLike
) -> Floats:
    """Bending sag anywhere under a point load, simply supported.

    Parameters
    ----------
    layers : TwoLayers
        The section [N mm2, 1/mm, mm]
    x : array_like
        Where the sag is asked, from the left support [mm]
    P : array_like
        Load [N]
    a : array_like
        Where the load stands, from the left support [mm]
    L : array_like
        Span [mm]

    Returns
    -------
    ndarray
        Sag, down positive [mm]

    Notes
    -----
    Source: own derivation. The rest of N obeys n'' - alpha^2 n = P delta(x - a) k r /
    (EI_0 alpha^2), whose answer is the hyperbolic influence line g with g'' - alpha^2 g =
    -delta; integrating c g twice gives c / alpha^2 times the chord line less g.
    """
    x, P, a, L = floats(x, P, a, L)
    return P * _influence(layers, x, a, L)


def _uniform(layers: TwoLayers, x: Floats, L: Floats) -> Floats:
    """Sag at x under a unit uniform load, simply supported over L."""
    shape = x * (L - x)
    solid = shape * (L**2 + shape) / 24.0
    c = 1.0 / layers.EI_0 - 1.0 / layers.EI_inf
    no_slip = np.isinf(layers.alpha)
    loose = layers.alpha * L < 1e-3
    al = np.where(no_slip | loose, 1.0, layers.alpha)
    # 1 - cosh(al (x - L/2)) / cosh(al L/2), in exponentials that can't overflow
    rise = np.expm1(-al * x) * np.expm1(-al * (L - x)) / (1.0 + np.exp(-al * L))
    slip = np.where(no_slip, 0.0, (0.5 * shape - rise / al**2) / al**2)
    return np.asarray(solid / layers.EI_inf + c * np.where(loose, solid, slip))


def sag_uniform(layers: TwoLayers, x: ArrayLike, q: ArrayLike, L: ArrayLike) -> Floats:
    """Bending sag anywhere under a uniform load, simply supported.

    Parameters
    ----------
    layers : TwoLayers
        The section [N mm2, 1/mm, mm]
    x : array_like
        Where the sag is asked, from the left support [mm]
    q : array_like
        Load for each mm of span [N/mm]
    L : array_like
        Span [mm]

    Returns
    -------
    ndarray
        Sag, down positive [mm]

    Notes
    -----
    Source: own derivation (sympy test), as :func:`midspan_sag_uniform`.
    """
    x, q, L = floats(x, q, L)
    return q * _uniform(layers, x, L)


def sag_continuous(
    layers: TwoLayers, spans: ArrayLike, q: ArrayLike, x: ArrayLike
) -> tuple[Floats, Floats]:
    """Bending sag and inner reactions of a continuous two-layer beam, uniform load.

    Parameters
    ----------
    layers : TwoLayers
        The section, any batch shape [N mm2, 1/mm, mm]
    spans : array_like, shape (n,)
        Spans from left to right [mm]
    q : array_like
        Load for each mm on all spans, of the batch shape or a number [N/mm]
    x : array_like, shape (m,)
        Where the sag is asked, from the left end [mm]

    Returns
    -------
    sag : ndarray, batch shape + (m,)
        Sag, down positive [mm]
    reactions : ndarray, batch shape + (n - 1,)
        Inner support reactions, up positive [N]

    Notes
    -----
    Source: own derivation, force method on the simply supported solutions; exact for
    layers that run through and slide freely at both ends.
    """
    spans, q, x = floats(spans, q, x)
    supports = np.cumsum(spans)
    at, L = supports[:-1], supports[-1:]
    wide = TwoLayers(*(np.asarray(field)[..., None] for field in layers))
    q = q[..., None]
    free = q * _uniform(wide, x, L)
    if at.size == 0:
        return free, np.zeros((*free.shape[:-1], 0))
    square = TwoLayers(*(field[..., None] for field in wide))
    flexibility = _influence(square, at[:, None], at[None, :], L)
    load = q * _uniform(wide, at, L)
    reactions = np.asarray(np.linalg.solve(flexibility, load[..., None])[..., 0], dtype=np.float64)
    lift = _influence(square, x[:, None], at[None, :], L) @ reactions[..., None]
    return np.asarray(free - lift[..., 0]), reactions
