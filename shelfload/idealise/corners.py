"""What holds a unit square: its corners, and the backs in its bays."""

from __future__ import annotations

from dataclasses import dataclass

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Back
from shelfload.idealise.backs import EDGE_SHARE, NAIL_DIAMETER, SCREW_DIAMETER, back_joint
from shelfload.idealise.properties import stiffness
from shelfload.solve.shear_panel import shear_panel_stiffness
from shelfload.solve.slip import mean_density, slip_modulus, slip_modulus_nail
from shelfload.tables import Material
from shelfload.wording import figure

E_FACE = {"solid": 270.0, "glulam": 270.0, "plywood": 270.0, "blockboard": 270.0}
"""Modulus across the face, under the edge of another panel that is glued to it [MPa].

E_90,mean of strength class C16, EN 338:2016, for wood and what is made of veneers.
"""
E_FACE_OF_BOARDS = 100.0
"""The same for boards of chips and fibres [MPa] (estimate, no source: 50-300)."""
BORROWED_G = 300.0
"""Shear modulus in its plane of a board without a published one: the table's lowest [MPa]."""


LARGEST_KDEF = 4.0
"""Creep of a board that the code does not allow in a climate, EN 1995-1-1:2004 Table 3.2."""


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


def corner_hold(unit: Unit, kind: str, t_edge: float, t_face: float) -> CornerHold:
    """Return what one corner of a unit resists.

    Parameters
    ----------
    unit : Unit
        As described.
    kind : str
        Of material that the panels are made of.
    t_edge, t_face : float
        Thickness of the panel whose edge butts, and of the one whose face it meets [mm].

    Notes
    -----
    Glued: the edge turns on the other panel as on an elastic layer of that panel's
    thickness, K = E b t^3 / 12 / t_face. Source: own idealisation; an estimate.
    """
    if unit.corners == "pinned":
        return CornerHold(stiffness=0.0, words="corners counted as pinned")
    if unit.corners == "glued":
        K = E_FACE.get(kind, E_FACE_OF_BOARDS) * unit.depth * t_edge**3 / 12.0 / t_face
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
    aged : float
        The same after years: G over 1 + kdef, slip over 1 + 2 kdef (EN 1995-1-1:2004,
        2.3.2.2) [N/mm].
    fixed : str
        Glued, screwed or nailed.
    spacing : float or None
        Of the fasteners [mm]; None where it is glued.
    material : Material
        Of the sheet.
    thickness : float
        Actual [mm].
    said : tuple of str
        What was assumed.
    """

    stiffness: float
    aged: float
    fixed: str
    spacing: float | None
    material: Material
    thickness: float
    said: tuple[str, ...]


def back_hold(
    back: Back,
    frame: Material,
    width: float,
    height: float,
    service_class: int,
    catalogue: Catalogue,
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
    service_class : int
        Of the site.
    catalogue : Catalogue
        Resolves names.
    """
    resolved = catalogue.material(back.material, back.thickness)
    material = resolved.material
    G = material.G_panel or BORROWED_G
    said = [] if material.G_panel else [f"{material.called}: shear modulus in its plane borrowed"]
    joint = back_joint(back, material, frame)
    if joint is None:
        # the code's formula, for want of one for this board
        d = back.diameter or (NAIL_DIAMETER if back.fixed == "nailed" else SCREW_DIAMETER)
        rho = mean_density(material.density, frame.density)
        own = slip_modulus_nail(rho, d) if back.fixed == "nailed" else slip_modulus(rho, d)
        slip = EDGE_SHARE * float(own)
        said.append(f"slip of fasteners in {frame.called} borrowed from that in timber and plywood")
    else:
        slip = joint.K
        said += joint.said
    creep = kdef_of(material, service_class)
    slip_creep = 2.0 * (creep * kdef_of(frame, service_class)) ** 0.5
    new, old = shear_panel_stiffness(
        [G, G / (1.0 + creep)],
        resolved.thickness,
        width,
        height,
        [slip, slip / (1.0 + slip_creep)],
        back.spacing or 1.0,
    )
    return BackHold(
        stiffness=float(new),
        aged=float(old),
        fixed=back.fixed,
        spacing=None if back.fixed == "glued" else back.spacing,
        material=material,
        thickness=resolved.thickness,
        said=tuple(said),
    )


def kdef_of(material: Material, service_class: int) -> float:
    """Return kdef of a material; the code's largest where it has none for the climate."""
    found = tables.kdef(material.duration_class, service_class)
    return LARGEST_KDEF if found is None else found.value


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
