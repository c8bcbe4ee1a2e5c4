"""Material rows turned into the numbers mechanics uses, with their basis said in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from shelfload.solve import section
from shelfload.tables import Material

Direction = Literal["along", "across"]

GRADE_REDUCTION = 0.5
"""Share of clear-wood strength kept for boards with knots and sloping grain.

Visual grades of ASTM D245 run from about 0.45 to 0.65 of clear wood (from memory); one half
is this project's choice for shelf boards picked by hand.
"""
NORMAL_QUANTILE_05 = 1.645
CLEAR_WOOD_COV_SHEAR = 0.14  # Wood Handbook GTR-282 Table 5-6, from memory
BORROWED_BEARING = 2.2
"""Bearing strength across the face for boards whose own is not published [MPa].

The value of strength class C16, EN 338:2016: the lowest of the table's solid timbers and
below every panel's density.
"""
BORROWED_SHEAR = {
    "solid": (3.0, "borrowed from strength class C14, EN 338:2016, from memory"),
    "glulam": (3.0, "borrowed from strength class C14, EN 338:2016, from memory"),
    "plywood": (0.8, "borrowed: rolling shear of softwood, common practice"),
    "blockboard": (0.8, "borrowed: rolling shear of softwood, common practice"),
    "mdf": (0.5, "borrowed: least internal bond of MDF, EN 622-5, from memory"),
    "hardboard": (0.5, "borrowed: least internal bond of MDF, EN 622-5, from memory"),
    "particleboard": (0.2, "borrowed: least internal bond of P2, EN 312, from memory"),
    "bamboo": (0.8, "borrowed: rolling shear of softwood, common practice"),
}
"""Shear strength for bending flat where a board has none of its own [MPa], and from what.

A board's layers are pulled apart across the face more easily than they are sheared along
it, so that its required internal bond is a safe stand-in.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffness:
    """Stiffness of a panel bending flat [MPa]."""

    E: float
    G: float
    said: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Characteristic strengths of a panel bending flat [MPa]; None where unknown."""

    f_m: float | None
    f_shear: float | None
    shear_kind: str
    f_bearing: float
    basis: str
    shear_basis: str
    bearing_basis: str


def stiffness(material: Material, direction: Direction) -> Stiffness | None:
    """Return E and G for bending flat along or across the face grain, None if unknown.

    A handbook's apparent E is raised to the true one, since shear sag is added separately.
    """
    along = direction == "along"
    E = material.E_0 if along else material.E_90
    G = material.G_0 if along else material.G_90
    if E is None or G is None:
        return None
    if material.E_basis == "apparent":
        true = float(section.true_modulus(E, G))
        return Stiffness(
            E=true, G=G, said=f"{material.called}: handbook E raised {true / E - 1:.0%}"
        )
    return Stiffness(E=E, G=G)


CROSS_GRAIN = 30.0
"""E along over E across of softwood, EN 384; stands in where a board's own is unknown."""


def stiffness_or_guess(material: Material, direction: Direction) -> Stiffness:
    """Return E and G for bending flat, with a cautious figure where the table has none."""
    known = stiffness(material, direction)
    if known is not None:
        return known
    along = material.G_0 if material.G_0 is not None else material.E_0 / ROLLING
    G = material.G_90 if direction == "across" and material.G_90 is not None else along
    E = material.E_0 if direction == "along" else material.E_90 or material.E_0 / CROSS_GRAIN
    return Stiffness(
        E=E, G=G, said=f"{material.called}: stiffness {direction} the grain is a cautious guess"
    )


ROLLING = 160.0
"""E along over rolling shear modulus of softwood: a tenth of G = E / 16, EN 384."""


def in_plane_shear(material: Material) -> tuple[float, str]:
    """Return the shear modulus of twisting [MPa] and what was assumed for it."""
    if material.G_panel is not None:
        return material.G_panel, ""
    through = [G for G in (material.G_0, material.G_90) if G is not None]
    G = min([*through, material.E_0 / CROSS_GRAIN])
    return G, f"{material.called}: its twisting stiffness is a cautious guess"


def strength(material: Material, direction: Direction) -> Strength:
    """Return characteristic strengths and say on which basis they stand."""
    along = direction == "along"
    f_m = material.f_m_0 if along else material.f_m_90
    rolling = material.f_r_0 if along else material.f_r_90
    # panels bent flat shear between their layers; solid wood along the grain does not roll
    solid_along = material.kind in ("solid", "glulam") and along
    f_shear = material.f_v if solid_along or rolling is None else rolling
    shear_kind = "rolling shear" if rolling is not None and not solid_along else "shear"
    basis = material.strength_basis
    if basis == "clear-wood mean":
        cov = material.cov_f or 0.16
        f_m = _from_mean(f_m, cov)
        f_shear = _from_mean(f_shear, CLEAR_WOOD_COV_SHEAR)
        basis = f"clear-wood mean less 1.645 COV, times {GRADE_REDUCTION:g} for grade"
    shear_basis = basis
    if f_shear is None and material.kind in BORROWED_SHEAR:
        f_shear, shear_basis = BORROWED_SHEAR[material.kind]
    elif f_shear is None and material.kind in ("glass", "acrylic"):
        # pure shear pulls at 45 degrees with the same stress, and that is what breaks them
        f_shear, shear_basis = f_m, "tension at 45 degrees, bending strength"
    bearing = material.f_c_90
    return Strength(
        f_m=f_m,
        f_shear=f_shear,
        shear_kind=shear_kind,
        f_bearing=BORROWED_BEARING if bearing is None else bearing,
        basis=basis,
        shear_basis=shear_basis,
        bearing_basis="borrowed from strength class C16" if bearing is None else basis,
    )


def in_plane_strength(material: Material) -> float | None:
    """Return the strength against shear in the plane of the faces, for twist [MPa]."""
    if material.f_v is None:
        bending = [f for f in (material.f_m_0, material.f_m_90) if f is not None]
        share = IN_PLANE_SHARE.get(material.kind, IN_PLANE_LEAST)
        known = min(bending) * share if bending else None
    else:
        known = material.f_v
    if material.strength_basis == "clear-wood mean":
        return _from_mean(known, CLEAR_WOOD_COV_SHEAR)
    return known


IN_PLANE_SHARE = {"particleboard": 0.4, "mdf": 0.4, "hardboard": 0.4, "osb": 0.35, "glass": 1.0}
"""Panel shear over bending strength where the former is not published.

Below the ratios of the tables of EN 12369-1:2001 (from memory); glass breaks in tension.
"""
IN_PLANE_LEAST = 0.12


def _from_mean(mean: float | None, cov: float) -> float | None:
    if mean is None:
        return None
    return mean * (1.0 - NORMAL_QUANTILE_05 * cov) * GRADE_REDUCTION
