"""What a unit weighs, piece by piece, and where each weight is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Level, Unit, outer_width, upright_thickness
from shelfload.describe.parts import Fill, Shelf, Upright
from shelfload.idealise.geometry import BayAt, shelf_name, uprights
from shelfload.idealise.loads import BayLoad
from shelfload.idealise.people import BEHIND_EDGE, CENTRE_ABOVE
from shelfload.idealise.pieces import NoFigure, pieces_of, weight_of
from shelfload.idealise.ring import ring_of
from shelfload.idealise.stack import back_of, loaded_bays

PEOPLE = "people"
"""First word of the name of a person's weight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """One weight [N]: x forward of the back, y from the left end, z above the underside [mm].

    ``moving`` is what stands in the unit; ``loose`` a shelf that is taken out before lifting.
    ``across`` and ``along`` say how far it is spread about its place, forward and along [mm].
    """

    name: str
    force: float
    x: float
    y: float
    z: float
    level: int
    bay: int | None = None
    moving: bool = False
    loose: bool = False
    across: float = 0.0
    along: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A horizontal: its name, how it was described, thickness and underside [mm]."""

    name: str
    shelf: Shelf
    thickness: float
    z: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitWeights:
    """All weights of a unit and its outer size [mm]."""

    unit: Unit
    items: tuple[Weight, ...]
    panels: tuple[Panel, ...]
    width: float
    depth: float
    height: float

    @property
    def dead(self) -> float:
        """Weight of the unit itself, all shelves in [N]."""
        return sum(item.force for item in self.items if not item.moving)

    @property
    def contents(self) -> float:
        """Weight of what stands in it [N]."""
        return sum(item.force for item in self.items if item.moving)

    @property
    def total(self) -> float:
        """Both together [N]."""
        return self.dead + self.contents

    def moment(self, arm: Callable[[Weight], float], *, moving: bool) -> float:
        """Sum of weights times an arm, of the unit itself or of its contents [N mm]."""
        return sum(item.force * arm(item) for item in self.items if item.moving is moving)

    def floor_of(self, level: int) -> float:
        """Top face of the panel under a level, above the unit's underside [mm]."""
        panel = self.panels[level]
        return panel.z + panel.thickness


def unit_weights(unit: Unit, catalogue: Catalogue) -> UnitWeights:
    """Weigh a unit as described; horizontals between the sides, sides over the full height.

    Contents stand at mid-depth, their weight at half the clear height of their bay.
    """
    panels = _panels(unit, catalogue)
    width = outer_width(unit, unit.level[0])
    height = panels[-1].z + panels[-1].thickness
    items: list[Weight] = []
    side = upright_thickness(unit, unit.sides)
    inner = width - 2 * side
    for number, panel in enumerate(panels):
        items.append(
            Weight(
                name=panel.name,
                force=_horizontal(unit, panel.shelf, inner, catalogue),
                x=unit.depth / 2,
                y=width / 2,
                z=panel.z + panel.thickness / 2,
                level=min(number, len(unit.level) - 1),
                loose=panel.shelf.loose,
                across=unit.depth,
                along=inner,
            )
        )
    for number, level in enumerate(unit.level):
        items += _standing(unit, number, level, panels, height, catalogue)
        items += _contents(unit, number, level, panels, catalogue)
    items += _on_top(unit, panels[-1], catalogue)
    return UnitWeights(
        unit=unit,
        items=tuple(item for item in items if item.force > 0.0),
        panels=tuple(panels),
        width=width,
        depth=unit.depth,
        height=height,
    )


def horizontal(unit: Unit, number: int) -> Shelf:
    """Return how the horizontal under level ``number`` (from 0) was described."""
    own = unit.top if number == len(unit.level) else unit.level[number].shelf
    return own if own is not None else unit.shelf


def _layers(unit: Unit, shelf: Shelf, catalogue: Catalogue) -> list[tuple[float, float]]:
    """Weight per area [N/mm2] and thickness [mm] of each panel of a horizontal."""
    first = (shelf.material or unit.panel.material, shelf.thickness or unit.panel.thickness)
    second = (shelf.second.material, shelf.second.thickness) if shelf.second else first
    found = []
    for material, thickness in [first, second][: shelf.panels]:
        resolved = catalogue.material(material, thickness)
        found.append((weight_of(resolved.material, resolved.thickness), resolved.thickness))
    return found


def _panels(unit: Unit, catalogue: Catalogue) -> list[Panel]:
    z, found = 0.0, []
    for number in range(len(unit.level) + 1):
        shelf = horizontal(unit, number)
        thickness = sum(t for _, t in _layers(unit, shelf, catalogue))
        thickness += shelf.hollow.height if shelf.hollow is not None else 0.0
        found.append(Panel(name=shelf_name(unit, number), shelf=shelf, thickness=thickness, z=z))
        z += thickness + (unit.level[number].height if number < len(unit.level) else 0.0)
    return found


def _horizontal(unit: Unit, shelf: Shelf, width: float, catalogue: Catalogue) -> float:
    try:
        pieces = pieces_of(shelf, unit.depth, unit.panel, catalogue).pieces
    except NoFigure:
        pass  # no stiffness, but still a weight
    else:
        return sum(piece.weight for piece in pieces) * width
    lippings = [lip for lip in (shelf.lipping_front, shelf.lipping_rear) if lip is not None]
    depth = unit.depth - sum(lip.thickness for lip in lippings)
    weight = sum(per_area for per_area, _ in _layers(unit, shelf, catalogue)) * width * depth
    for lip in lippings:
        row = catalogue.material(lip.material, lip.thickness).material
        weight += weight_of(row, lip.thickness * lip.height * width)
    return weight


def upright_row(unit: Unit, upright: Upright, catalogue: Catalogue) -> tuple[float, float]:
    """Return weight per area [N/mm2] and actual thickness [mm] of one panel of an upright."""
    material = upright.material or unit.panel.material
    resolved = catalogue.material(material, upright.thickness or unit.panel.thickness)
    return weight_of(resolved.material, resolved.thickness), resolved.thickness


def _standing(
    unit: Unit,
    number: int,
    level: Level,
    panels: list[Panel],
    height: float,
    catalogue: Catalogue,
) -> list[Weight]:
    """Sides, dividers and back of one level; a side takes its share of the full height."""
    low = panels[number].z
    top = height if number == len(unit.level) - 1 else panels[number + 1].z
    found = []
    for at in uprights(unit, level):
        is_side = at.name.endswith("side")
        described = unit.sides if is_side else unit.dividers
        per_area, _ = upright_row(unit, described, catalogue)
        start = low if is_side else low + panels[number].thickness
        end = top if is_side else start + level.height
        found.append(
            Weight(
                name=at.name,
                force=per_area * described.panels * (end - start) * unit.depth,
                x=unit.depth / 2,
                y=at.centre,
                z=(start + end) / 2,
                level=number,
            )
        )
    back = back_of(unit, level)
    if back is not None:
        resolved = catalogue.material(back.material, back.thickness)
        width = outer_width(unit, level)
        ring = ring_of(unit)
        if ring is not None:
            width *= float(ring.radius(resolved.thickness / 2)) / ring.middle
        found.append(
            Weight(
                name="back",
                force=weight_of(resolved.material, resolved.thickness * width * (top - low)),
                x=resolved.thickness / 2,
                y=outer_width(unit, level) / 2,
                along=outer_width(unit, level),
                z=(low + top) / 2,
                level=number,
            )
        )
    return found


def _contents(
    unit: Unit, number: int, level: Level, panels: list[Panel], catalogue: Catalogue
) -> list[Weight]:
    floor = panels[number].z + panels[number].thickness
    back = back_of(unit, level)
    depth = unit.depth - (back.thickness if back is not None else 0.0)
    found = []
    for bay, load in loaded_bays(unit, level, depth, catalogue):
        goods = Weight(
            name=f"contents of level {number + 1}, {bay.name}",
            force=0.0,
            x=unit.depth - depth / 2,
            y=0.0,
            z=floor + level.height / 2,
            level=number,
            bay=bay.number,
            moving=True,
        )
        fill = level.fills[bay.number - 1]
        found += _standing_in(goods, fill, bay, load, floor, unit.depth)
    return found


def _on_top(unit: Unit, top: Panel, catalogue: Catalogue) -> list[Weight]:
    if not unit.top_contents:
        return []
    fill, floor = unit.top_contents[0], top.z + top.thickness
    goods = Weight(
        name="contents on top",
        force=0.0,
        x=unit.depth / 2,
        y=0.0,
        z=floor + unit.level[-1].height / 2,
        level=len(unit.level) - 1,
        moving=True,
    )
    return [
        weight
        for bay, load in loaded_bays(unit, None, unit.depth, catalogue)
        for weight in _standing_in(goods, fill, bay, load, floor, unit.depth)
    ]


def _standing_in(
    goods: Weight, fill: Fill | None, bay: BayAt, load: BayLoad, floor: float, front: float
) -> list[Weight]:
    """Weights on one bay, like ``goods`` but each with its force and place along the unit.

    What is said to stand on the front edge does; what is said to stand further back than
    mid-depth is not counted on there. Persons are where they tip a unit most: near its front
    edge, upright on the panel at height ``floor`` [mm].
    """
    first, last, _ = load.patch(bay.left, bay.right)
    found = [
        replace(
            goods,
            force=load.even * (bay.right - bay.left),
            x=front if load.line == "front" else goods.x,
            y=(first + last) / 2,
            across=0.0 if load.line == "front" else 2.0 * (front - goods.x),
            along=last - first,
        )
    ]
    for (force, at, _), y in zip(load.points, load.from_front, strict=True):
        x = goods.x if y is None else max(front - y, goods.x)
        found.append(replace(goods, force=force, x=x, y=bay.left + at))
    if fill is None or fill.people is None:
        return found
    x = max(front - BEHIND_EDGE[fill.people], goods.x)
    z = floor + CENTRE_ABOVE[fill.people]
    for number in range(1, load.persons + 1):
        found[number] = replace(found[number], name=f"{PEOPLE} {fill.people}", x=x, z=z)
    return found
