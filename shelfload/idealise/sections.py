"""The cross-section of a shelf: panels and lippings as parts that bend together or apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Lipping, Panel, Shelf
from shelfload.idealise.properties import Direction, Stiffness, Strength, stiffness, strength
from shelfload.solve import section
from shelfload.tables import Material
from shelfload.wording import figure

STANDARD_GRAVITY = 9.80665  # m/s2, CGPM 1901
MM3_PER_M3 = 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One rectangle of the cross-section [mm]; z runs down from the top face, y from the front."""

    name: str
    material: Material
    width: float
    height: float
    y: float
    z: float
    direction: Direction
    stiffness: Stiffness
    strength: Strength

    @property
    def weight(self) -> float:
        """Weight per length of shelf [N/mm]."""
        return weight_of(self.material, self.width * self.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfSection:
    """A shelf's cross-section, ready to bend.

    Attributes
    ----------
    pieces : tuple of Piece
        Panels first, then lippings.
    section : solve.section.Section
        Stiffness and stress coefficients on the first day.
    EI_used : float
        Bending stiffness used: held straight, or free to move sideways [N mm2].
    depth : float
        Front to back, lippings included [mm].
    thickness : float
        Of the panels together [mm].
    bonded : bool
        Whether the pieces bend as one.
    weight : float
        Self-weight per length [N/mm].
    words : str
        The section in words.
    said : tuple of str
        What was assumed on the way.
    panels_EI : float or None
        Bending stiffness of the panels alone where they slide on screws [N mm2].
    """

    pieces: tuple[Piece, ...]
    section: section.Section
    EI_used: float
    depth: float
    thickness: float
    bonded: bool
    weight: float
    words: str
    said: tuple[str, ...]
    panels_EI: float | None = None


class NoFigure(Exception):
    """A material lacks a figure that the section needs; the message says which."""


def weight_of(material: Material, area_or_volume: float) -> float:
    """Return the weight of a volume [mm3] in N, or of an area [mm2] in N per mm of length."""
    return material.density / MM3_PER_M3 * STANDARD_GRAVITY * area_or_volume


def shelf_section(
    shelf: Shelf, depth: float, panel: Panel | None, catalogue: Catalogue
) -> ShelfSection:
    """Build the cross-section of a shelf.

    Parameters
    ----------
    shelf : Shelf
        As described.
    depth : float
        Front to back, lippings included [mm].
    panel : Panel or None
        Stands for material and thickness where the shelf says none.
    catalogue : Catalogue
        Resolves names.

    Raises
    ------
    NoFigure
        If a part has no known stiffness.
    """
    lippings = [lip for lip in (shelf.lipping_front, shelf.lipping_rear) if lip is not None]
    panel_width = depth - sum(lip.thickness for lip in lippings)
    front = shelf.lipping_front.thickness if shelf.lipping_front else 0.0
    said: list[str] = []
    pieces: list[Piece] = []
    top = 0.0
    for name, material, thickness in _panels(shelf, panel):
        resolved = catalogue.material(material, thickness)
        if resolved.said:
            said.append(resolved.said)
        piece = _piece(
            name,
            resolved,
            panel_width,
            resolved.thickness,
            front + panel_width / 2,
            top + resolved.thickness / 2,
            "along" if shelf.grain == "along" else "across",
        )
        pieces.append(piece)
        top += resolved.thickness
    pieces += _lippings(shelf, catalogue, depth, said)
    said += [piece.stiffness.said for piece in pieces if piece.stiffness.said]
    bonded = len(pieces) == 1 or shelf.joined in (None, "glued")
    shape = _bent_together(pieces) if bonded else _bent_apart(pieces)
    if bonded:
        EI = float(shape.EI_free)
        if EI < 0.999 * float(shape.EI):
            said.append("a lipping on one edge: the shelf is taken as free to move sideways")
    else:
        EI = float(shape.EI)
    if shelf.joined == "screwed":
        said.append("a double held by screws alone is counted as two panels lying on each other")
    return ShelfSection(
        pieces=tuple(pieces),
        section=shape,
        EI_used=EI,
        depth=depth,
        thickness=top,
        bonded=bonded,
        weight=sum(piece.weight for piece in pieces),
        words=_in_words(pieces, shelf),
        said=tuple(dict.fromkeys(said)),
    )


def aged_stiffness(shape: ShelfSection, kdefs: Sequence[float]) -> float:
    """Return the bending stiffness after years, each piece's E over 1 + kdef [N mm2].

    Source: EN 1995-1-1:2004, 2.2.3 and equation (2.7).
    """
    if shape.bonded:
        return float(_bent_together(shape.pieces, kdefs).EI_free)
    return float(_bent_apart(shape.pieces, kdefs).EI)


def _panels(shelf: Shelf, panel: Panel | None) -> list[tuple[str, str, float]]:
    material = shelf.material or (panel.material if panel else "")
    thickness = shelf.thickness or (panel.thickness if panel else 0.0)
    if shelf.panels == 1:
        return [("panel", material, thickness)]
    second = shelf.second
    lower = (second.material, second.thickness) if second else (material, thickness)
    return [("upper panel", material, thickness), ("lower panel", *lower)]


def _lippings(shelf: Shelf, catalogue: Catalogue, depth: float, said: list[str]) -> list[Piece]:
    places: tuple[tuple[str, Lipping | None], ...] = (
        ("front lipping", shelf.lipping_front),
        ("rear lipping", shelf.lipping_rear),
    )
    pieces = []
    for name, lipping in places:
        if lipping is None:
            continue
        resolved = catalogue.material(lipping.material, lipping.thickness)
        if resolved.said:
            said.append(resolved.said)
        half = lipping.thickness / 2
        y = half if name.startswith("front") else depth - half
        pieces.append(
            _piece(
                name, resolved, lipping.thickness, lipping.height, y, lipping.height / 2, "along"
            )
        )
    return pieces


def _piece(
    name: str,
    resolved: tables.Resolved,
    width: float,
    height: float,
    y: float,
    z: float,
    direction: Direction,
) -> Piece:
    material = resolved.material
    stiff = stiffness(material, direction)
    if stiff is None:
        raise NoFigure(f"{material.called} has no known stiffness {direction} the face grain")
    return Piece(
        name=name,
        material=material,
        width=width,
        height=height,
        y=y,
        z=z,
        direction=direction,
        stiffness=stiff,
        strength=strength(material, direction),
    )


def _columns(pieces: Sequence[Piece], kdefs: Sequence[float] | None) -> dict[str, np.ndarray]:
    aging = 1.0 + np.asarray(kdefs if kdefs is not None else [0.0] * len(pieces))
    return {
        "E": np.array([piece.stiffness.E for piece in pieces]) / aging,
        "G": np.array([piece.stiffness.G for piece in pieces]) / aging,
        "b": np.array([piece.width for piece in pieces]),
        "h": np.array([piece.height for piece in pieces]),
    }


def _bent_together(
    pieces: Sequence[Piece], kdefs: Sequence[float] | None = None
) -> section.Section:
    y = np.array([piece.y for piece in pieces])
    z = np.array([piece.z for piece in pieces])
    return section.bonded(**_columns(pieces, kdefs), y=y, z=z)


def _bent_apart(pieces: Sequence[Piece], kdefs: Sequence[float] | None = None) -> section.Section:
    return section.lying(**_columns(pieces, kdefs))


def _in_words(pieces: Sequence[Piece], shelf: Shelf) -> str:
    panels = [piece for piece in pieces if piece.name.endswith("panel")]
    words = " on ".join(f"{_mm(piece.height)} {piece.material.called}" for piece in panels)
    if shelf.joined:
        words += f", {shelf.joined}"
    if shelf.grain == "across":
        words += ", grain across"
    for piece in pieces[len(panels) :]:
        words += f", {piece.name} {_mm(piece.width)} x {_mm(piece.height)} {piece.material.called}"
    return words


def _mm(value: float) -> str:
    return figure(value, "length")
