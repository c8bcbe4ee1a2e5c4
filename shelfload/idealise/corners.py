"""What holds a unit square: its corners, and the backs in its bays."""

from __future__ import annotations

from dataclasses import dataclass

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Back
from shelfload.idealise.properties import stiffness
from shelfload.solve.shear_panel import shear_panel_stiffness
from shelfload.solve.slip import mean_density, slip_modulus, slip_modulus_nail
from shelfload.tables import Material
from shelfload.wording import figure

E_EDGE_ON_FACE = 100.0
"""Modulus of the face of one board under the edge of another, glued [MPa].

Estimate, no source: boards have 50-300 MPa across their face.
"""
ASSUMED_DIAMETER = {"screwed": 3.0, "nailed": 1.4}
"""Least diameter that backs are usually fixed with [mm] (common practice, no source)."""
BORROWED_G = 300.0
"""Shear modulus in its plane of a board without a published one: the table's lowest [MPa]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerHold:
    """How far the corners of a unit resist turning.

    Attributes
    ----------
    stiffness : float
        Moment per turn of one corner over the whole depth [N mm/rad].
    words : str
        As a report says it, with its source.
    """

    stiffness: float
    words: str


def corner_hold(unit: Unit, t_edge: float, t_face: float) -> CornerHold:
    """Return what one corner of a unit resists.

    Parameters
    ----------
    unit : Unit
        As described.
    t_edge, t_face : float
        Thickness of the panel whose edge butts, and of the one whose face it meets [mm].

    Notes
    -----
    Glued: the edge turns on the other panel as on an elastic layer of that panel's
    thickness, K = E b t^3 / 12 / t_face. Source: own idealisation, E an estimate.
    """
    if unit.corners == "pinned":
        return CornerHold(stiffness=0.0, words="corners counted as pinned")
    if unit.corners == "glued":
        K = E_EDGE_ON_FACE * unit.depth * t_edge**3 / 12.0 / t_face
        said = f"{figure(K, 'rotational stiffness')} for each glued corner (estimate)"
        return CornerHold(stiffness=K, words=said)
    K = float(unit.corners)
    return CornerHold(
        stiffness=K, words=f"{figure(K, 'rotational stiffness')} for each corner, as described"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BackHold:
    """A back in one bay as a shear panel.

    Attributes
    ----------
    stiffness : float
        Shear flow per shear angle, slip of the fasteners included [N/mm].
    spacing : float or None
        Of the fasteners [mm]; None where it is glued.
    material : Material
        Of the sheet.
    thickness : float
        Actual [mm].
    said : str
        What was assumed.
    """

    stiffness: float
    spacing: float | None
    material: Material
    thickness: float
    said: str


def back_hold(
    back: Back, frame: Material, width: float, height: float, catalogue: Catalogue
) -> BackHold:
    """Return what a back gives one bay, taken as a sheet of its own fixed on all four edges.

    Parameters
    ----------
    back : Back
        As described.
    frame : Material
        What its fasteners go into.
    width, height : float
        Of the bay, centre to centre [mm].
    catalogue : Catalogue
        Resolves names.
    """
    resolved = catalogue.material(back.material, back.thickness)
    material = resolved.material
    G = material.G_panel or BORROWED_G
    said = [] if material.G_panel else [f"{material.called}: shear modulus in its plane borrowed"]
    slip = float("inf")
    if back.fixed != "glued":
        d = back.diameter or ASSUMED_DIAMETER[back.fixed]
        if back.diameter is None:
            kind = "screws" if back.fixed == "screwed" else "nails"
            said.append(f"backs: {kind} of {figure(d, 'length')} assumed")
        rho = mean_density(material.density, frame.density)
        slip = float(slip_modulus(rho, d) if back.fixed == "screwed" else slip_modulus_nail(rho, d))
    value = shear_panel_stiffness(
        G, resolved.thickness, width, height, slip, back.spacing or 1.0
    )
    return BackHold(
        stiffness=float(value),
        spacing=None if back.fixed == "glued" else back.spacing,
        material=material,
        thickness=resolved.thickness,
        said="; ".join(said),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightStiffness:
    """A side or divider as a member of a frame [N], [N mm2]; its thickness together [mm]."""

    EA: float
    EI: float
    GA: float
    thickness: float
    material: Material


def upright_stiffness(unit: Unit, is_side: bool, catalogue: Catalogue) -> UprightStiffness | None:
    """Return how a side or divider bends, its grain upright; None where that is unknown.

    A double counts as two panels lying on each other unless it is glued.
    """
    described = unit.sides if is_side else unit.dividers
    resolved = catalogue.material(
        described.material or unit.panel.material, described.thickness or unit.panel.thickness
    )
    stiff = stiffness(resolved.material, "along")
    if stiff is None:
        return None
    count, t = described.panels, resolved.thickness
    bent = (count * t) ** 3 if described.joined == "glued" else count * t**3
    area = unit.depth * count * t
    return UprightStiffness(
        EA=stiff.E * area,
        EI=stiff.E * unit.depth * bent / 12.0,
        GA=stiff.G * area * 5.0 / 6.0,
        thickness=count * t,
        material=resolved.material,
    )
