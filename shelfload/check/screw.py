"""One screw through a panel and a gap into timber: head, pull-out, shear, by EN 1995-1-1."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from shelfload import tables
from shelfload.idealise.loads import Duration
from shelfload.solve import embedment
from shelfload.solve.connection import SINGLE_SHEAR_MODES, governing, single_shear
from shelfload.solve.fastener import effective_diameter, yield_moment
from shelfload.solve.interlayer import GAP_MODES, single_shear_over_gap, thin_plate_over_gap
from shelfload.solve.withdrawal import (
    screw_formula_applies,
    screw_withdrawal,
    screw_withdrawal_strength,
)
from shelfload.tables import Fastener, Material
from shelfload.wording import size

EC5 = "EN 1995-1-1:2004+A1"
THIN_HEAD_PANEL = 12.0
THIN_HEAD_LIMIT = 400.0
"""Below 12 mm of panel under the head no more than 400 N counts, DIN 1052:2008 (from memory)."""

STEEL: Final = "steel"
"""Stands for a thin steel bracket or strap under the head."""

Head = tuple[Material, float] | Literal["steel"] | None
"""Panel under the head and its thickness [mm], a steel bracket, or not known."""

LEAST_LENGTHS = 6.0
"""Thread and screw in the last member, in diameters, EN 1995-1-1, 8.7.2(3) and 8.3.1.2."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A resistance [N], or in words why there is none."""

    value: float | str
    source: str
    values: Literal["design", "recommended"] = "design"
    governs: str = ""
    remedy: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Driven:
    """A screw of a length [mm] in its place.

    ``gap`` is board and other layers that are not counted on [mm], ``into`` the timber that
    is screwed into across its grain.
    """

    screw: Fastener
    length: float
    head: Head
    gap: float
    into: Material
    service_class: int
    duration: Duration

    @property
    def inside(self) -> float:
        """Length of the screw in the timber [mm]."""
        thickness = self.head[1] if isinstance(self.head, tuple) else 0.0
        return self.length - thickness - self.gap

    @property
    def thread(self) -> float:
        """Length of thread in the timber [mm]."""
        return min((self.screw.thread_share or 0.0) * self.length, max(self.inside, 0.0))

    def too_short(self, length: float, what: str) -> str:
        """Say that too little of the screw is in the timber; empty where it is enough."""
        needed = LEAST_LENGTHS * self.screw.diameter
        if length >= needed - 1e-9:
            return ""
        return (
            f"{size(max(length, 0.0), down=True)} of {what} in the stud, "
            f"{size(needed, up=True)} needed"
        )


def connection_kmod(
    materials: list[Material], service_class: int, duration: Duration
) -> float | None:
    """Return kmod of a connection: root of the product of its members, 2.3.2.1(2)."""
    factors = [tables.kmod(m.duration_class, service_class, duration) for m in materials]
    known = [factor.value for factor in factors if factor is not None]
    if len(known) < len(factors):
        return None
    return float(np.prod(known) ** (1.0 / len(known)))


def designed(
    characteristic: float, materials: list[Material], service_class: int, duration: Duration
) -> float | str:
    """Return the design resistance of a connection [N], or why there is none."""
    kmod = connection_kmod(materials, service_class, duration)
    if kmod is None:
        return f"the code allows no {duration} load in service class {service_class}"
    return characteristic * kmod / tables.gamma_M("connections").value


def dense(material: Material) -> float:
    """Return the characteristic density, 0.85 of the mean where none is tabled [kg/m3]."""
    return material.density_k if material.density_k is not None else 0.85 * material.density


def head_pull_through(driven: Driven) -> Figure | None:
    """Return what the panel under the head holds; None where the head bears on steel."""
    source = f"{EC5}, (8.26) for nails stands in, as no maker's strength is given"
    screw = driven.screw
    if driven.head == STEEL:
        return None
    if not isinstance(driven.head, tuple):
        return Figure(
            value="what lies under the head is not described",
            source=source,
            remedy="Say what the head bears on: through = { material, thickness }.",
        )
    material, thickness = driven.head
    if screw.head_diameter is None:
        return Figure(value=f"{screw.title}: no head size", source=source)
    strength = 70e-6 * dense(material) ** 2 * screw.head_diameter**2
    if thickness < THIN_HEAD_PANEL:
        strength = min(strength, THIN_HEAD_LIMIT)
        source += "; thin panels: DIN 1052:2008 (from memory)"
    return Figure(
        value=designed(strength, [material], driven.service_class, driven.duration),
        source=source,
        governs=f"{size(thickness)} {material.called} under the head",
        remedy="Use a thicker rail under the heads, or washers of 20 mm and more.",
    )


def withdrawal(driven: Driven) -> Figure:
    """Return what the thread in the timber holds."""
    source = f"{EC5}, (8.38) to (8.40)"
    remedy = "Use a screw of 6 mm or more and longer, or the maker's declared load."
    screw, into = driven.screw, driven.into
    if not bool(screw_formula_applies(screw.diameter, screw.root_diameter or 0.0)):
        why = f"{screw.title}: the code's pull-out formula covers 6 to 12 mm only"
        return Figure(value=why, source=source, remedy=remedy)
    short = driven.too_short(driven.thread, "thread")
    if short:
        return Figure(value=short, source=f"{EC5}, 8.7.2(3)", remedy=remedy)
    f_ax = screw_withdrawal_strength(screw.diameter, driven.thread, dense(into))
    R_k = float(screw_withdrawal(f_ax, screw.diameter, driven.thread, np.pi / 2))
    return Figure(
        value=designed(R_k, [into], driven.service_class, driven.duration),
        source=source,
        governs=f"{size(driven.thread)} of thread in {into.called}",
        remedy=remedy,
    )


def _panel_embedment(material: Material, thickness: float, d: float) -> float | None:
    if material.kind == "plywood":
        return float(embedment.embedment_plywood(dense(material), d))
    if material.kind in ("particleboard", "osb"):
        return float(embedment.embedment_particleboard(d, thickness))
    if material.kind == "hardboard":
        return float(embedment.embedment_hardboard(d, thickness))
    if material.kind in ("solid", "glulam"):
        return float(embedment.embedment_not_predrilled(dense(material), d))
    return None


def shear(driven: Driven) -> Figure:
    """Return what the screw holds sideways, bending across the gap."""
    source = f"{EC5}, 8.2.2 and 8.7.1" + (" with a gap, own derivation" if driven.gap else "")
    remedy = "Use a longer or thicker screw."
    screw, into = driven.screw, driven.into
    if driven.head is None:
        return Figure(value="what lies under the head is not described", source=source)
    if screw.f_u is None or screw.root_diameter is None:
        return Figure(value=f"{screw.title}: no strength of the steel is known", source=source)
    short = driven.too_short(driven.inside, "screw")
    if short:
        return Figure(value=short, source=source, remedy=remedy)
    d = float(effective_diameter(0.0, screw.root_diameter, 0.0))
    f_h_2 = float(embedment.embedment_not_predrilled(dense(into), d))
    M_y = float(yield_moment(screw.f_u, d))
    if not isinstance(driven.head, tuple):
        modes = thin_plate_over_gap(f_h_2, driven.inside, d, M_y, driven.gap)
        return Figure(
            value=designed(float(modes.min()), [into], driven.service_class, driven.duration),
            source=f"{EC5}, 8.2.3 as a thin plate, own derivation for the gap",
            governs=f"mode {'ab'[int(modes.argmin())]}, d_ef {d:.1f}",
            remedy=remedy,
        )
    material, thickness = driven.head
    f_h_1 = _panel_embedment(material, thickness, d)
    if f_h_1 is None:
        why = f"the code has no bearing strength for screws in {material.called}"
        return Figure(value=why, source=source, remedy="Use a rail of plywood or solid timber.")
    if driven.gap > 0.0:
        modes = single_shear_over_gap(f_h_1, thickness, f_h_2, driven.inside, d, M_y, driven.gap)
        R_k, letter = float(modes.min()), GAP_MODES[int(modes.argmin())]
    else:
        least, letters = governing(
            single_shear(f_h_1, f_h_2, thickness, driven.inside, d, M_y), SINGLE_SHEAR_MODES
        )
        R_k, letter = float(least), str(letters)
    words = f"mode {letter}, d_ef {d:.1f}"
    if driven.gap > 0.0:
        words += f", over a gap of {size(driven.gap)}"
    return Figure(
        value=designed(R_k, [material, into], driven.service_class, driven.duration),
        source=source,
        governs=words,
        remedy=remedy,
    )
