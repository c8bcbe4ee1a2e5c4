"""One shelf found in a description, and the description with that shelf changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shelfload.describe.model import LoneShelf, Project, Unit
from shelfload.describe.parts import Shelf
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.place import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A shelf in a description: of a unit, counted from the bottom panel, or on its own.

    Attributes
    ----------
    project : Project
        The whole description.
    place : Place
        Where the shelf is.
    unit, lone : Unit or None, LoneShelf or None
        What it belongs to: one of them is set.
    number : int
        Of the shelf in its unit, 0 for the bottom panel.
    shelf : Shelf
        As described for it or for its unit.
    material, thickness : str, float
        What it is made of [mm].
    """

    project: Project
    place: Place
    unit: Unit | None
    lone: LoneShelf | None
    number: int
    shelf: Shelf
    material: str
    thickness: float

    @property
    def in_unit(self) -> Unit:
        """The unit, for a shelf that has one."""
        if self.unit is None:
            raise AssertionError("this shelf has no unit")
        return self.unit

    @property
    def on_its_own(self) -> LoneShelf:
        """The shelf as described, for one without a unit."""
        if self.lone is None:
            raise AssertionError("this shelf is in a unit")
        return self.lone

    def with_unit(self, **update: Any) -> Project:
        """Return the description with keys of the unit changed."""
        changed = self.in_unit.model_copy(update=update)
        units = tuple(changed if one.name == changed.name else one for one in self.project.unit)
        return self.project.model_copy(update={"unit": units})

    def with_level(self, number: int, **update: Any) -> Project:
        """Return the description with keys of one level of the unit changed."""
        levels = list(self.in_unit.level)
        levels[number] = levels[number].model_copy(update=update)
        return self.with_unit(level=tuple(levels))

    def with_lone(self, **update: Any) -> Project:
        """Return the description with keys of this shelf on its own changed."""
        changed = self.on_its_own.model_copy(update=update)
        shelves = tuple(changed if one.name == changed.name else one for one in self.project.shelf)
        return self.project.model_copy(update={"shelf": shelves})

    def with_shelf(self, **update: Any) -> Project:
        """Return the description with keys of what the shelf is made of changed."""
        changed = self.shelf.model_copy(update=update)
        if self.lone is not None:
            return self.with_lone(shelf=changed)
        if self.number == len(self.in_unit.level):
            return self.with_unit(top=changed)
        return self.with_level(self.number, shelf=changed)


def concerned(project: Project, place: Place) -> Project:
    """Return the project with only what a change to the shelf at a place can touch.

    Units that stand on, bridge or hang between others belong together; every other unit and
    shelf is on its own.
    """
    if any(unit.on or unit.between is not None for unit in project.unit):
        return project
    return project.model_copy(
        update={
            "unit": tuple(unit for unit in project.unit if unit.name == place.unit),
            "shelf": tuple(lone for lone in project.shelf if lone.name == place.unit),
        }
    )


def spot(project: Project, place: Place) -> Spot | None:
    """Find the shelf at a place; None where the place is no shelf."""
    for lone in project.shelf:
        here = lone.name == place.unit and not place.part
        if here and lone.shelf.material and lone.shelf.thickness:
            return Spot(
                project=project,
                place=place,
                unit=None,
                lone=lone,
                number=0,
                shelf=lone.shelf,
                material=lone.shelf.material,
                thickness=lone.shelf.thickness,
            )
    for unit in project.unit:
        names = [shelf_name(unit, number) for number in range(len(unit.level) + 1)]
        if unit.name == place.unit and place.part in names:
            number = names.index(place.part)
            own = unit.top if number == len(unit.level) else unit.level[number].shelf
            shelf = own or unit.shelf
            return Spot(
                project=project,
                place=place,
                unit=unit,
                lone=None,
                number=number,
                shelf=shelf,
                material=shelf.material or unit.panel.material,
                thickness=shelf.thickness or unit.panel.thickness,
            )
    return None
