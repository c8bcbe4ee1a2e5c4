"""The rectangles that a shelf's cross-section is made of, and how each is held to the rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.joins import Join
from shelfload.describe.parts import Lipping, Panel, Shelf, Strip
from shelfload.idealise.doubles import double_slip
from shelfload.idealise.properties import Direction, Stiffness, Strength, stiffness, strength
from shelfload.tables import Material
from shelfload.wording import size

STANDARD_GRAVITY = 9.80665  # m/s2, CGPM 1901
MM3_PER_M3 = 1e9
ASSUMED_SCREW = "chipboard-screw-4"
"""The screw of strips and doubles whose screws are described by their spacing alone."""


class NoFigure(Exception):
    """A material lacks a figure that the section needs; the message says which."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sliding:
    """Fasteners that let a piece slide: stiffness of their row, against what [N/mm2].

    ``stiffness`` 0 is a piece that only lies there.
    """

    stiffness: float
    against: Material
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One rectangle of the cross-section [mm]; z runs down from the top face, y from the front.

    ``sliding`` is None for pieces of the glued group; ``fix`` names the strip it belongs to.
    """

    name: str
    material: Material
    width: float
    height: float
    y: float
    z: float
    direction: Direction
    stiffness: Stiffness
    strength: Strength
    sliding: Sliding | None = None
    fix: str = ""

    @property
    def weight(self) -> float:
        """Weight per length of shelf [N/mm]."""
        return weight_of(self.material, self.width * self.height)


def weight_of(material: Material, area_or_volume: float) -> float:
    """Return the weight of a volume [mm3] in N, or of an area [mm2] in N per mm of length."""
    return material.density / MM3_PER_M3 * STANDARD_GRAVITY * area_or_volume


@dataclass(slots=True, kw_only=True)
class Pieces:
    """All pieces of a shelf, panels first, and what was assumed."""

    pieces: list[Piece]
    thickness: float
    said: list[str]


def pieces_of(shelf: Shelf, depth: float, panel: Panel | None, catalogue: Catalogue) -> Pieces:
    """Return the pieces of a shelf as described; see :func:`.sections.shelf_section`."""
    said: list[str] = []
    edges = _edges(shelf)
    front, rear = (sum(strip.width for name, strip in edges if name == at) for at in _AT)
    width = depth - front - rear
    if width <= 0.0:
        raise NoFigure("its lippings and strips are deeper than the shelf")
    if shelf.pins is not None and shelf.pins.from_front + shelf.pins.from_rear >= depth:
        raise NoFigure("its rear pins do not stand behind its front pins")
    pieces, top = _panels(shelf, panel, catalogue, width, front + width / 2, said)
    pieces += _webs(shelf, pieces, catalogue, said)
    at = {"front": front, "rear": depth - rear}
    for number, (name, edge) in enumerate(edges):
        inward = -1.0 if name == "front" else 1.0
        y = at[name] + inward * edge.width / 2.0
        at[name] += inward * edge.width
        pieces += _strip(edge, y, edge.height / 2.0, pieces[0], catalogue, said, number, name)
    for number, strip in enumerate(shelf.strips):
        if strip.where in ("front", "rear"):
            continue
        y = depth / 2.0 if strip.at is None else strip.at
        if strip.where == "groove":
            pieces = _let_in(pieces, strip, y, catalogue, said, number)
            continue
        z = -strip.height / 2.0 if strip.where == "over" else top + strip.height / 2.0
        name = f"{strip.where} strip"
        pieces += _strip(strip, y, z, pieces[0], catalogue, said, number, name)
    _require_places(pieces, depth)
    said += [piece.stiffness.said for piece in pieces if piece.stiffness.said]
    return Pieces(pieces=pieces, thickness=top, said=said)


_AT = ("front", "rear")
_SLACK = 0.01  # mm; parts that touch differ by rounding


def _require_places(pieces: Sequence[Piece], depth: float) -> None:
    """Raise NoFigure for strips that stand in each other's place, or hang on nothing."""
    for number, one in enumerate(pieces):
        if not one.width / 2.0 - _SLACK <= one.y <= depth - one.width / 2.0 + _SLACK:
            raise NoFigure(f"its {one.name} reaches beyond the panel")
        for other in pieces[:number]:
            beside = abs(one.y - other.y) >= (one.width + other.width) / 2.0 - _SLACK
            above = abs(one.z - other.z) >= (one.height + other.height) / 2.0 - _SLACK
            if not (beside or above):
                raise NoFigure(f"its {one.name} stands where its {other.name} is")
    lower = next((one for one in pieces if one.name == "lower panel"), None)
    if lower is not None and lower.sliding is not None:
        for one in pieces:
            if one.name == "under strip" and one.sliding is None:
                raise NoFigure(
                    "a strip glued under the lower of two panels that slide on each other is not "
                    "modelled; glue the panels too, or screw the strip"
                )


def _edges(shelf: Shelf) -> list[tuple[str, Strip]]:
    """Lippings and strips on the edges, from the panel outwards."""
    found = [
        (at, _as_strip(lipping))
        for at, lipping in zip(_AT, (shelf.lipping_front, shelf.lipping_rear), strict=True)
        if lipping is not None
    ]
    return found + [(strip.where, strip) for strip in shelf.strips if strip.where in _AT]


def _as_strip(lipping: Lipping) -> Strip:
    return Strip.model_construct(
        material=lipping.material,
        width=lipping.thickness,
        height=lipping.height,
        where="front",
        fixed="glued",
        tube_wall=None,
        screws=None,
    )


def _panels(
    shelf: Shelf,
    panel: Panel | None,
    catalogue: Catalogue,
    width: float,
    y: float,
    said: list[str],
) -> tuple[list[Piece], float]:
    found: list[Piece] = []
    top = 0.0
    for name, material, thickness in _described(shelf, panel):
        resolved = _resolved(catalogue, material, thickness, said)
        if found and shelf.hollow is not None:
            top += shelf.hollow.height
        found.append(
            piece_of(
                name,
                resolved.material,
                (width, resolved.thickness),
                (y, top + resolved.thickness / 2),
                "along" if shelf.grain == "along" else "across",
            )
        )
        top += resolved.thickness
    if len(found) == 2 and shelf.joined != "glued":
        upper, lower = found
        slide = Sliding(stiffness=0.0, against=upper.material)
        if shelf.joined == "screwed":
            slide = _screwed(shelf.screws, upper.material, lower.material, said)
        found[1] = replace(lower, sliding=slide, fix="screws")
    return found, top


def _described(shelf: Shelf, panel: Panel | None) -> list[tuple[str, str, float]]:
    material = shelf.material or (panel.material if panel else "")
    thickness = shelf.thickness or (panel.thickness if panel else 0.0)
    if shelf.panels == 1:
        return [("panel", material, thickness)]
    second = shelf.second
    lower = (second.material, second.thickness) if second else (material, thickness)
    return [("upper panel", material, thickness), ("lower panel", *lower)]


def _webs(
    shelf: Shelf, panels: Sequence[Piece], catalogue: Catalogue, said: list[str]
) -> list[Piece]:
    hollow = shelf.hollow
    if hollow is None:
        return []
    skin = panels[0]
    material = skin.material
    if hollow.material is not None:
        material = _resolved(catalogue, hollow.material, hollow.web, said).material
    first = skin.y - (skin.width - hollow.web) / 2.0
    step = (skin.width - hollow.web) / (hollow.webs - 1)
    if step <= hollow.web:
        raise NoFigure("its webs leave no hollow between them")
    z = skin.height + hollow.height / 2.0
    return [
        piece_of(
            f"web {n + 1}", material, (hollow.web, hollow.height), (first + n * step, z), "along"
        )
        for n in range(hollow.webs)
    ]


def _strip(
    strip: Strip,
    y: float,
    z: float,
    panel: Piece,
    catalogue: Catalogue,
    said: list[str],
    number: int,
    name: str,
) -> list[Piece]:
    """A strip's rectangle, or the four of a tube, with how it is held."""
    material = _resolved(catalogue, strip.material, strip.thinnest, said).material
    called = name if " " in name else f"{name} {'lipping' if strip.fixed == 'glued' else 'strip'}"
    whole = piece_of(called, material, (strip.width, strip.height), (y, z), "along")
    slide = None
    if strip.fixed == "screwed":
        slide = _screwed(strip.screws, panel.material, material, said)
    whole = replace(whole, sliding=slide, fix=f"{called} {number + 1}")
    return [whole] if strip.tube_wall is None else list(_tube(whole, strip.tube_wall))


def _tube(whole: Piece, wall: float) -> Iterator[Piece]:
    """Split a solid rectangle into the walls of a tube; corners go to the flanges."""
    inner = whole.height - 2.0 * wall
    for sign in (-1.0, 1.0):
        z = whole.z + sign * (whole.height - wall) / 2.0
        yield replace(whole, height=wall, z=z)
    for sign in (-1.0, 1.0):
        y = whole.y + sign * (whole.width - wall) / 2.0
        yield replace(whole, height=inner, width=wall, y=y)


def _let_in(
    pieces: list[Piece],
    strip: Strip,
    y: float,
    catalogue: Catalogue,
    said: list[str],
    number: int,
) -> list[Piece]:
    """Cut a groove into the underside of the lowest panel and put a strip into it."""
    at = max(n for n, piece in enumerate(pieces) if piece.name.endswith("panel"))
    panel = pieces[at]
    front, rear = panel.y - panel.width / 2.0, panel.y + panel.width / 2.0
    first, last = y - strip.width / 2.0, y + strip.width / 2.0
    if strip.height >= panel.height or first <= front or last >= rear:
        raise NoFigure("a groove must lie within the panel and leave some of it above")
    bottom = panel.z + panel.height / 2.0
    over = panel.height - strip.height
    parts = [
        replace(panel, width=first - front, y=(front + first) / 2.0),
        replace(panel, name="panel behind a groove", width=rear - last, y=(last + rear) / 2.0),
        replace(
            panel,
            name="panel over a groove",
            width=strip.width,
            height=over,
            y=y,
            z=bottom - strip.height - over / 2.0,
        ),
    ]
    inlay = _strip(
        strip, y, bottom - strip.height / 2.0, panel, catalogue, said, number, "let-in strip"
    )
    inlay = [replace(piece, sliding=panel.sliding) for piece in inlay]
    return [*pieces[:at], parts[0], *pieces[at + 1 :], *parts[1:], *inlay]


def _screwed(screws: Join | None, first: Material, second: Material, said: list[str]) -> Sliding:
    """How a row of screws holds a piece; no more than lying where that is unknown."""
    loose = Sliding(stiffness=0.0, against=first)
    if screws is None or screws.spacing is None:
        said.append("panels held by screws of unknown spacing are counted as lying on each other")
        return loose
    row = screws.screw.row if screws.screw is not None else tables.fasteners()[ASSUMED_SCREW]
    if screws.screw is None:
        said.append(f"screws between parts of a shelf are taken as {row.title}")
    metal = second.kind in ("steel", "aluminium")
    K = double_slip(first, first if metal else second, row, 0.0)
    if K is not None and metal:
        K *= 2.0  # EN 1995-1-1:2004, 7.1(3)
    if K is None:
        said.append(
            f"no slip is published for screws in {first.called} and {second.called}: parts "
            "screwed together are counted as lying on each other"
        )
        return loose
    said.append("screws between parts of a shelf stand in one row")
    every = size(screws.spacing, down=True)
    return Sliding(stiffness=K / screws.spacing, against=first, words=f"screws every {every}")


def piece_of(
    name: str,
    material: Material,
    size: tuple[float, float],
    place: tuple[float, float],
    direction: Direction,
) -> Piece:
    """Return a piece of some width and height at y and z [mm].

    Raises
    ------
    NoFigure
        If its material has no known stiffness.
    """
    stiff = stiffness(material, direction)
    if stiff is None:
        raise NoFigure(f"{material.called} has no known stiffness {direction} the face grain")
    return Piece(
        name=name,
        material=material,
        width=size[0],
        height=size[1],
        y=place[0],
        z=place[1],
        direction=direction,
        stiffness=stiff,
        strength=strength(material, direction),
    )


def _resolved(
    catalogue: Catalogue, material: str, thickness: float, said: list[str]
) -> tables.Resolved:
    resolved = catalogue.material(material, thickness)
    if resolved.said:
        said.append(resolved.said)
    return resolved
