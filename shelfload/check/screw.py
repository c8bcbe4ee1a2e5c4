"""One wood screw through a panel and a gap into timber: head, pull-out, shear.

Screws that EN 1995-1-1 covers give design values (for factored loads); wood screws by gauge
follow the US allowable values (for loads as they are).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isnan
from typing import Literal

import numpy as np

from shelfload import tables
from shelfload.idealise.loads import Duration
from shelfload.solve import embedment, nds
from shelfload.solve.connection import SINGLE_SHEAR_MODES, governing, single_shear
from shelfload.solve.fastener import effective_diameter, yield_moment
from shelfload.solve.interlayer import GAP_MODES, single_shear_over_gap, thin_plate_over_gap
from shelfload.solve.withdrawal import (
    screw_formula_applies,
    screw_withdrawal,
    screw_withdrawal_strength,
)
from shelfload.tables import Fastener, Material
from shelfload.wording import figure

EC5 = "EN 1995-1-1:2004+A1"
THIN_HEAD_PANEL = 12.0
THIN_HEAD_LIMIT = 400.0
"""Below 12 mm of panel under the head no more than 400 N counts, DIN 1052:2008 (from memory)."""

SG_PER_DENSITY = 1120.0
"""Density at 12 % moisture over oven-dry specific gravity [kg/m3], as in the wood tables."""

PERMANENT_SHARE = 0.9
"""NDS load duration factor of permanent loads; stored contents count as such."""

STEEL = "steel"
"""Stands for a thin steel bracket or strap under the head."""

Head = tuple[Material, float] | Literal["steel"] | None
"""Panel under the head and its thickness [mm], a steel bracket, or not known."""

NOT_INTO_WALLS = ("nail", "ring-shank nail")
_YIELD_BY_SHANK = ((3.61, 689.0), (4.50, 621.0), (6.00, 552.0), (7.00, 483.0))
"""Shank diameter up to [mm] and bending yield strength [MPa]: 100, 90, 80, 70 ksi, NDS 2018
Appendix I (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A resistance [N], or in words why there is none."""

    value: float | str
    source: str
    values: Literal["design", "recommended"] = "design"
    governs: str = ""
    remedy: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwed:
    """What one screw holds; ``head`` is None where it bears on steel."""

    head: Figure | None
    withdrawal: Figure
    shear: Figure


def screwed(
    screw: Fastener,
    length: float,
    head: Head,
    gap: float,
    into: Material,
    service_class: int,
    duration: Duration,
) -> Screwed:
    """Return what a screw holds through a panel and a gap into the side of a timber.

    Parameters
    ----------
    screw, length : Fastener, float
        Which, and how long [mm].
    head : Head
        Panel under the head and its thickness [mm], steel, or None where it is not known.
    gap : float
        Board and other layers that are not counted on [mm].
    into : Material
        The timber.
    service_class, duration : int, Duration
        For kmod.
    """
    if screw.kind in NOT_INTO_WALLS:
        no = Figure(
            value="nails hold no lasting pull: use screws", source=f"{EC5}, 8.3.2(1), from memory"
        )
        return Screwed(head=no, withdrawal=no, shear=no)
    thickness = head[1] if isinstance(head, tuple) else 0.0
    inside = length - thickness - gap
    by_gauge = screw.kind == "wood screw"
    holds = _gauge_withdrawal if by_gauge else _withdrawal
    shears = _gauge_shear if by_gauge else _shear
    on_steel = head == STEEL
    return Screwed(
        head=None if on_steel else _head(screw, head, service_class, duration),
        withdrawal=holds(screw, length, inside, into, service_class, duration),
        shear=shears(screw, length, inside, head, gap, into, service_class, duration),
    )


def _kmod(materials: list[Material], service_class: int, duration: Duration) -> float | None:
    """The factor of a connection: root of the product of both members, 2.3.2.1(2)."""
    factors = [tables.kmod(m.duration_class, service_class, duration) for m in materials]
    product = 1.0
    for factor in factors:
        if factor is None:
            return None
        product *= factor.value
    return product ** (1.0 / len(factors))


def designed(
    characteristic: float, materials: list[Material], service_class: int, duration: Duration
) -> float | str:
    kmod = _kmod(materials, service_class, duration)
    if kmod is None:
        return f"the code allows no {duration} load in service class {service_class}"
    return characteristic * kmod / tables.gamma_M("connections").value


def dense(material: Material) -> float:
    """Return the characteristic density, 0.85 of the mean where none is tabled [kg/m3]."""
    return material.density_k if material.density_k is not None else 0.85 * material.density


def _head(
    screw: Fastener, head: Head, service_class: int, duration: Duration
) -> Figure:
    source = f"{EC5}, (8.26) for nails stands in, as no maker's strength is given"
    if head is None:
        return Figure(
            value="what lies under the head is not described",
            source=source,
            remedy="Say what the head bears on: through = { material, thickness }.",
        )
    if not isinstance(head, tuple):
        raise AssertionError("a head on steel is not pulled through")
    material, thickness = head
    if screw.head_diameter is None:
        return Figure(value=f"{screw.title}: no head size", source=source)
    f_head = 70e-6 * dense(material) ** 2
    strength = f_head * screw.head_diameter**2
    governs = f"{figure(thickness, 'length')} {material.called} under the head"
    if thickness < THIN_HEAD_PANEL:
        strength = min(strength, THIN_HEAD_LIMIT)
        source += "; thin panels: DIN 1052:2008 (from memory)"
    return Figure(
        value=designed(strength, [material], service_class, duration),
        source=source,
        governs=governs,
        remedy="Use a thicker rail under the heads, or washers of 20 mm and more.",
    )


def _thread_in(screw: Fastener, length: float, inside: float) -> float:
    return min((screw.thread_share or 0.0) * length, max(inside, 0.0))


def _withdrawal(
    screw: Fastener,
    length: float,
    inside: float,
    into: Material,
    service_class: int,
    duration: Duration,
) -> Figure:
    source = f"{EC5}, (8.38) to (8.40)"
    remedy = "Use a screw of 6 mm or more and longer, or the maker's declared load."
    root = screw.root_diameter or 0.0
    if not bool(screw_formula_applies(screw.diameter, root)):
        why = f"{screw.title}: the code's pull-out formula covers 6 to 12 mm only"
        return Figure(value=why, source=source, remedy=remedy)
    thread = _thread_in(screw, length, inside)
    if thread < 6.0 * screw.diameter:
        why = (
            f"{figure(thread, 'length')} of thread in the stud, "
            f"{figure(6 * screw.diameter, 'length')} needed"
        )
        return Figure(value=why, source=f"{EC5}, 8.7.2(3)", remedy=remedy)
    f_ax = screw_withdrawal_strength(screw.diameter, thread, dense(into))
    R_k = float(screw_withdrawal(f_ax, screw.diameter, thread, np.pi / 2))
    return Figure(
        value=designed(R_k, [into], service_class, duration),
        source=source,
        governs=f"{figure(thread, 'length')} of thread in {into.called}",
        remedy=remedy,
    )


def _head_embedment(material: Material, thickness: float, d: float) -> float | None:
    if material.kind == "plywood":
        return float(embedment.embedment_plywood(dense(material), d))
    if material.kind in ("particleboard", "osb"):
        return float(embedment.embedment_particleboard(d, thickness))
    if material.kind == "hardboard":
        return float(embedment.embedment_hardboard(d, thickness))
    if material.kind in ("solid", "glulam"):
        return float(embedment.embedment_not_predrilled(dense(material), d))
    return None


def _shear(
    screw: Fastener,
    length: float,
    inside: float,
    head: Head,
    gap: float,
    into: Material,
    service_class: int,
    duration: Duration,
) -> Figure:
    source = f"{EC5}, 8.2.2 and 8.7.1" + (" with a gap, own derivation" if gap else "")
    remedy = "Use a longer or thicker screw."
    if head is None:
        return Figure(value="what lies under the head is not described", source=source)
    if screw.f_u is None or screw.root_diameter is None:
        return Figure(value=f"{screw.title}: no strength of the steel is known", source=source)
    d = float(effective_diameter(0.0, screw.root_diameter, 0.0))
    if inside < 6.0 * screw.diameter:
        why = (
            f"{figure(max(inside, 0.0), 'length')} of screw in the stud, "
            f"{figure(6 * screw.diameter, 'length')} needed"
        )
        return Figure(value=why, source=source, remedy=remedy)
    f_h_2 = float(embedment.embedment_not_predrilled(dense(into), d))
    M_y = float(yield_moment(screw.f_u, d))
    if not isinstance(head, tuple):
        modes = thin_plate_over_gap(f_h_2, inside, d, M_y, gap)
        return Figure(
            value=designed(float(modes.min()), [into], service_class, duration),
            source=f"{EC5}, 8.2.3 as a thin plate, own derivation for the gap",
            governs=f"mode {'ab'[int(modes.argmin())]}, d_ef {d:.1f}",
            remedy=remedy,
        )
    material, thickness = head
    f_h_1 = _head_embedment(material, thickness, d)
    if f_h_1 is None:
        why = f"the code has no bearing strength for screws in {material.called}"
        return Figure(value=why, source=source, remedy="Use a rail of plywood or solid timber.")
    if gap > 0.0:
        modes = single_shear_over_gap(f_h_1, thickness, f_h_2, inside, d, M_y, gap)
        R_k, letter = float(modes.min()), GAP_MODES[int(modes.argmin())]
    else:
        least, letters = governing(
            single_shear(f_h_1, f_h_2, thickness, inside, d, M_y), SINGLE_SHEAR_MODES
        )
        R_k, letter = float(least), str(letters)
    words = f"mode {letter}, d_ef {d:.1f}"
    if gap > 0.0:
        words += f", over a gap of {figure(gap, 'length')}"
    return Figure(
        value=designed(R_k, [material, into], service_class, duration),
        source=source,
        governs=words,
        remedy=remedy,
    )


def _gauge_withdrawal(
    screw: Fastener,
    length: float,
    inside: float,
    into: Material,
    service_class: int,
    duration: Duration,
) -> Figure:
    source = "NDS 2018, 12.2.2 (allowable), load duration 0.9"
    thread = _thread_in(screw, length, inside)
    if thread < 6.0 * screw.diameter:
        why = (
            f"{figure(thread, 'length')} of thread in the stud, "
            f"{figure(6 * screw.diameter, 'length')} needed"
        )
        return Figure(value=why, source=source, remedy="Use a longer screw.")
    G = into.density / SG_PER_DENSITY
    W = float(nds.wood_screw_withdrawal_allowable(G, screw.diameter))
    return Figure(
        value=W * thread * PERMANENT_SHARE,
        source=source,
        values="recommended",
        governs=f"{figure(thread, 'length')} of thread, specific gravity {G:.2f}",
    )


def _gauge_shear(
    screw: Fastener,
    length: float,
    inside: float,
    head: Head,
    gap: float,
    into: Material,
    service_class: int,
    duration: Duration,
) -> Figure:
    source = "NDS 2018, 12.3.1 (allowable)" + (", with a gap as AWC TR12, own form" if gap else "")
    if head is None:
        return Figure(value="what lies under the head is not described", source=source)
    D = screw.root_diameter
    F_yb = next((f for d, f in _YIELD_BY_SHANK if screw.diameter <= d), None)
    if D is None or F_yb is None:
        return Figure(value=f"{screw.title}: no yield strength is known", source=source)
    if inside < 6.0 * screw.diameter:
        return Figure(
            value=f"{figure(max(inside, 0.0), 'length')} of screw in the stud, "
            f"{figure(6 * screw.diameter, 'length')} needed",
            source=source,
            remedy="Use a longer screw.",
        )
    F_e_2 = float(nds.dowel_bearing_strength(into.density / SG_PER_DENSITY))
    R_d = float(nds.reduction_term(D))
    if isnan(R_d):
        return Figure(value=f"{screw.title}: outside of the rule's range", source=source)
    M_y = F_yb * D**3 / 6
    if isinstance(head, tuple):
        F_e_1 = float(nds.dowel_bearing_strength(head[0].density / SG_PER_DENSITY))
        modes = single_shear_over_gap(F_e_1, head[1], F_e_2, inside, D, M_y, gap)
    else:
        modes = thin_plate_over_gap(F_e_2, inside, D, M_y, gap)
    return Figure(
        value=float(modes.min()) / R_d * PERMANENT_SHARE,
        source=source,
        values="recommended",
        governs=f"mode {GAP_MODES[int(modes.argmin())]}, root {figure(D, 'length')}",
    )


