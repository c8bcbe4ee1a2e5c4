"""Two panels of a shelf held together by screws: between lying loose and glued."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.solve import composite, fastener, slip

Array = NDArray[np.float64]

SPACINGS = (50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 400.0)  # mm; offered in the table


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelOfDouble:
    """One panel of a double: E along the span [MPa], width and thickness [mm]."""

    E: float
    width: float
    thickness: float

    @property
    def area(self) -> float:
        """Cross-section [mm2]."""
        return self.width * self.thickness

    @property
    def second_moment(self) -> float:
        """About its own axis [mm4]."""
        return self.width * self.thickness**3 / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewedDouble:
    """Bending stiffness of a screwed double over spacings of its screws.

    Attributes
    ----------
    spacing : ndarray
        Centre to centre in a row [mm].
    EI : ndarray, same shape
        Effective stiffness (gamma method) [N mm2].
    EI_lying, EI_glued : float
        The two limits [N mm2].
    gamma : ndarray, same shape
        Efficiency of the screws, of the upper panel on the lower [-].
    force_per_shear : ndarray, same shape
        Force on one screw per shear force in the shelf [-].
    """

    spacing: Array
    EI: Array
    EI_lying: float
    EI_glued: float
    gamma: Array
    force_per_shear: Array


def screwed_double(
    upper: PanelOfDouble,
    lower: PanelOfDouble,
    *,
    span: float,
    slip_modulus: float,
    spacing: float | Sequence[float] | Array,
    rows: int = 1,
    support: str = "simple",
) -> ScrewedDouble:
    """Return the bending stiffness of two panels that slide on their screws.

    Parameters
    ----------
    upper, lower : PanelOfDouble
        The two panels, in contact.
    span : float
        Centre to centre of the supports [mm].
    slip_modulus : float
        Of one screw: in service for sag, two thirds of it for strength, divided by
        1 + kdef of the joint after years [N/mm].
    spacing : float or sequence
        Of the screws in a row along the span [mm].
    rows : int
        Of screws side by side over the depth.
    support : str
        One of ``composite.SLIP_SPAN``.

    Notes
    -----
    Source: EN 1995-1-1:2004, Annex B, equations (B.1), (B.5), (B.6) and (B.10).
    """
    s = np.atleast_1d(np.asarray(spacing, dtype=np.float64))
    L = span * composite.SLIP_SPAN[support]
    r = (upper.thickness + lower.thickness) / 2.0
    parts = (
        (upper.E, upper.area, upper.second_moment),
        (lower.E, lower.area, lower.second_moment),
    )
    gamma = composite.gamma_slip(upper.E, upper.area, s / rows, slip_modulus, L)
    lying, glued = (
        float(composite.two_part_stiffness(*parts[0], *parts[1], r, at, slip_modulus, L))
        for at in (np.inf, 0.0)
    )
    EI = composite.two_part_stiffness(*parts[0], *parts[1], r, s / rows, slip_modulus, L)
    pull, hold = gamma * upper.E * upper.area, lower.E * lower.area
    arm = hold / (pull + hold) * r  # a_1 of (B.6) for two parts
    return ScrewedDouble(
        spacing=s,
        EI=EI,
        EI_lying=lying,
        EI_glued=glued,
        gamma=gamma,
        force_per_shear=pull * arm * (s / rows) / EI,
    )


def double_slip(
    upper: tables.Material, lower: tables.Material, screw: tables.Fastener, reach: float
) -> float | None:
    """Return the slip modulus in service of one screw of a double [N/mm]; None if unknown.

    Parameters
    ----------
    upper, lower : Material
        The panels; the head is in one of them.
    screw : Fastener
        A row of the fasteners table.
    reach : float
        Length of smooth shank in the panel with the point [mm].

    Notes
    -----
    Source: EN 1995-1-1:2004, Table 7.1 and equation (7.1). The code gives it for timber and
    for panels whose embedment it gives; MDF and bamboo have none.
    """
    if screw.root_diameter is None or not {upper.kind, lower.kind} <= _WITH_SLIP:
        return None
    d = fastener.effective_diameter(screw.shank_diameter or 0.0, screw.root_diameter, reach)
    return float(slip.slip_modulus(slip.mean_density(upper.density, lower.density), d))


_WITH_SLIP = {"solid", "glulam", "plywood", "particleboard", "osb", "hardboard"}


def half_gain_spacing(double: ScrewedDouble) -> float:
    """Return the spacing that gives half of what glue adds [mm].

    Up to it each screw adds about as much as the last; closer than it each adds less than a
    quarter of that: more screws buy little.

    Notes
    -----
    Source: own derivation. The gain over loose panels g of (B.1) follows
    1 / g = 1 / g_glued + c s, so that g = g_glued / 2 at c s = 1 / g_glued.
    """
    gain, glued = double.EI - double.EI_lying, double.EI_glued - double.EI_lying
    return float(double.spacing[0] * (1.0 / glued) / (1.0 / gain[0] - 1.0 / glued))
