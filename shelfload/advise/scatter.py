"""How much boards, strengths, thicknesses and contents scatter, each with who says so."""

from __future__ import annotations

from shelfload.tables import Material
from shelfload.wording import figure

STIFFNESS_UNKNOWN = 0.20
"""Coefficient of variation of E where a row has none (judgement: the upper half of the rows)."""

STRENGTH = {
    "solid": (0.25, "JCSS Probabilistic Model Code, part 3.5, bending strength, from memory"),
    "glulam": (0.15, "JCSS Probabilistic Model Code, part 3.5, glued laminated, from memory"),
    "glass": (0.20, "common practice, no source"),
    "acrylic": (0.10, "common practice, no source"),
    "steel": (0.07, "JCSS Probabilistic Model Code, part 3.2, yield, from memory"),
    "aluminium": (0.07, "as steel, common practice, no source"),
}
STRENGTH_OF_BOARDS = (0.15, "common practice for panels, no source")
"""Coefficient of variation of strength where a row has none, by kind."""

STIFF_AND_STRONG = 0.8
"""Correlation of bending strength and stiffness (JCSS PMC, part 3.5, from memory)."""

TOLERANCE = {
    "plywood": (0.4, 0.03, "EN 315, from memory"),
    "blockboard": (0.4, 0.03, "as plywood, EN 315, from memory"),
    "particleboard": (0.3, 0.0, "EN 312, sanded, from memory"),
    "mdf": (0.3, 0.0, "EN 622-1, over 19 mm, from memory"),
    "hardboard": (0.3, 0.0, "EN 622-1, from memory"),
    "osb": (0.8, 0.0, "EN 300, unsanded, from memory"),
    "steel": (0.3, 0.0, "common practice, no source"),
    "aluminium": (0.2, 0.0, "common practice, no source"),
    "glass": (0.3, 0.0, "EN 572-2, from memory"),
    "acrylic": (0.4, 0.1, "cast sheet, common practice, no source"),
}
TOLERANCE_OF_WOOD = (0.5, 0.0, "planed boards, common practice, no source")
"""Plus and minus on the thickness: a fixed part [mm], and a share of the thickness."""

CONTENTS_UNKNOWN = 0.20
CREEP = 0.30
"""Coefficients of variation of a stated load and of kdef: judgement, nobody publishes them."""


def stiffness_cov(material: Material) -> tuple[float, str]:
    """Return the coefficient of variation of E [-] and where it comes from."""
    if material.cov_E is None:
        return STIFFNESS_UNKNOWN, "judgement, none published"
    basis = material.E_basis
    low = "; about the product minimum, so that odds look worse than they are"
    return material.cov_E, "materials table" + (low if basis == "product minimum" else "")


def strength_cov(material: Material) -> tuple[float, str]:
    """Return the coefficient of variation of strength [-] and where it comes from."""
    if material.cov_f is not None:
        return material.cov_f, "materials table"
    return STRENGTH.get(material.kind, STRENGTH_OF_BOARDS)


def thickness_cov(material: Material, thickness: float) -> tuple[float, str]:
    """Return the coefficient of variation of a thickness [mm] and where it comes from.

    The tolerance is taken as two standard deviations.
    """
    fixed, share, source = TOLERANCE.get(material.kind, TOLERANCE_OF_WOOD)
    tolerance = fixed + share * thickness
    return tolerance / 2.0 / thickness, f"{figure(tolerance, 'length')} either way, {source}"
