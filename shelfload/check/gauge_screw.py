"""Wood screws by gauge, which the European formulas do not cover: US allowable values.

Allowable values are held against loads as they are, never against factored ones.
"""

from __future__ import annotations

from math import isnan

from shelfload.check.screw import Driven, Figure
from shelfload.solve import nds
from shelfload.solve.interlayer import GAP_MODES, single_shear_over_gap, thin_plate_over_gap
from shelfload.wording import figure, size

SG_PER_DENSITY = 1120.0
"""Density at 12 % moisture over oven-dry specific gravity [kg/m3], as in the wood tables."""

PERMANENT_SHARE = 0.9
"""NDS load duration factor of permanent loads; stored contents count as such."""

_YIELD_BY_SHANK = ((3.61, 689.0), (4.50, 621.0), (6.00, 552.0), (7.00, 483.0))
"""Shank diameter up to [mm] and bending yield strength [MPa]: 100, 90, 80, 70 ksi, NDS 2018
Appendix I (from memory)."""


def withdrawal(driven: Driven) -> Figure:
    """Return what the thread in the timber may hold."""
    source = "NDS 2018, 12.2.2 (allowable), load duration 0.9"
    short = driven.too_short(driven.thread, "thread")
    if short:
        return Figure(value=short, source=source, remedy="Use a longer screw.")
    G = driven.into.density / SG_PER_DENSITY
    W = float(nds.wood_screw_withdrawal_allowable(G, driven.screw.diameter))
    return Figure(
        value=W * driven.thread * PERMANENT_SHARE,
        source=source,
        values="recommended",
        governs=f"{size(driven.thread)} of thread, specific gravity {G:.2f}",
    )


def shear(driven: Driven) -> Figure:
    """Return what the screw may hold sideways, bending across the gap."""
    source = "NDS 2018, 12.3.1 (allowable)"
    if driven.gap:
        source += ", with a gap as AWC TR12, own form"
    screw = driven.screw
    if driven.head is None:
        return Figure(value="what lies under the head is not described", source=source)
    D = screw.root_diameter
    F_yb = next((f for d, f in _YIELD_BY_SHANK if screw.diameter <= d), None)
    if D is None or F_yb is None:
        return Figure(value=f"{screw.title}: no yield strength is known", source=source)
    short = driven.too_short(driven.inside, "screw")
    if short:
        return Figure(value=short, source=source, remedy="Use a longer screw.")
    R_d = float(nds.reduction_term(D))
    if isnan(R_d):
        return Figure(value=f"{screw.title}: outside of the rule's range", source=source)
    F_e_2 = float(nds.dowel_bearing_strength(driven.into.density / SG_PER_DENSITY))
    M_y = F_yb * D**3 / 6
    if isinstance(driven.head, tuple):
        F_e_1 = float(nds.dowel_bearing_strength(driven.head[0].density / SG_PER_DENSITY))
        modes = single_shear_over_gap(
            F_e_1, driven.head[1], F_e_2, driven.inside, D, M_y, driven.gap
        )
    else:
        modes = thin_plate_over_gap(F_e_2, driven.inside, D, M_y, driven.gap)
    return Figure(
        value=float(modes.min()) / R_d * PERMANENT_SHARE,
        source=source,
        values="recommended",
        governs=f"mode {GAP_MODES[int(modes.argmin())]}, root {figure(D, 'length')}",
    )
