"""A whole description idealised once, for every question to look at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.idealise.arrangement import Placed, arrange, stacks
from shelfload.idealise.elevation import Elevation, elevations
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.layup import laid_up
from shelfload.idealise.lone import lone_beam
from shelfload.idealise.place import Place
from shelfload.idealise.plates import ShelfPlate, bends_as_plate, shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent
from shelfload.idealise.stack import Stack


class Plates(Mapping[Place, ShelfPlate]):
    """The shelves that bend as plates, by the place of their beam; solved when first asked for."""

    def __init__(self, beams: Sequence[ShelfBeam]) -> None:
        self._beams = {beam.place: beam for beam in beams if bends_as_plate(beam)}
        self._solved: dict[Place, ShelfPlate] = {}

    def __getitem__(self, place: Place) -> ShelfPlate:
        if place not in self._solved:
            plate = shelf_plate(self._beams[place])
            if plate is None:
                raise KeyError(place)
            self._solved[place] = plate
        return self._solved[place]

    def __iter__(self) -> Iterator[Place]:
        return iter(self._beams)

    def __len__(self) -> int:
        return len(self._beams)


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """What the checks look at.

    Attributes
    ----------
    project, catalogue : Project, Catalogue
        As described.
    stacks : tuple of Stack
        The shelves of each unit with the forces on its uprights, in the order of the units.
    lone : tuple of ShelfBeam or Unbent
        Shelves without a carcass.
    placed : mapping of str to Placed
        Where each unit stands and what it weighs, by name.
    elevations : tuple of Elevation
        Units that stand on each other as plane frames.
    plates : mapping of Place to ShelfPlate
        The shelves that bend as plates, by the place of their beam.
    """

    project: Project
    catalogue: Catalogue
    stacks: tuple[Stack, ...]
    lone: tuple[ShelfBeam | Unbent, ...]
    placed: Mapping[str, Placed]
    elevations: tuple[Elevation, ...] = ()
    plates: Mapping[Place, ShelfPlate] = field(default_factory=dict)

    @property
    def shelves(self) -> tuple[ShelfBeam | Unbent, ...]:
        """Every shelf described, in the order of the description, from the floor up."""
        in_units: list[ShelfBeam | Unbent] = []
        for stack in self.stacks:
            in_units += stack.unbent
            in_units += stack.shelves
        return (*self.lone, *in_units)

    def upright_forces(self, unit: str) -> tuple[UprightForce, ...]:
        """Return what each upright of a unit carries: beam by beam, or more by the frame [N]."""
        number = list(self.placed).index(unit)
        framed = {
            force.place: force
            for elevation in self.elevations
            if unit in elevation.units
            for force in elevation.upright_forces()
        }
        return tuple(
            max(force, framed.get(force.place, force), key=lambda one: one.dead + one.imposed)
            for force in self.stacks[number].forces
        )

    @property
    def beams(self) -> tuple[ShelfBeam, ...]:
        """The shelves that bend as beams."""
        return tuple(shelf for shelf in self.shelves if isinstance(shelf, ShelfBeam))


def idealise(project: Project, catalogue: Catalogue) -> Whole:
    """Idealise and solve everything a description holds."""
    catalogue = laid_up(project, catalogue)
    placed = arrange(project, catalogue)
    walked = stacks(project, catalogue, placed)
    lone = tuple(lone_beam(lone, project.site, catalogue) for lone in project.shelf)
    in_units = [shelf for stack in walked.values() for shelf in stack.shelves]
    beams: list[ShelfBeam | Unbent] = [*lone, *in_units]
    return Whole(
        project=project,
        catalogue=catalogue,
        placed=placed,
        stacks=tuple(walked.values()),
        lone=lone,
        elevations=elevations(placed, walked, project.site, catalogue),
        plates=Plates([beam for beam in beams if isinstance(beam, ShelfBeam)]),
    )
