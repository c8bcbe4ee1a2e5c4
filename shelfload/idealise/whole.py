"""A whole description idealised once, for every question to look at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.idealise.arrangement import Placed, arrange, stacks
from shelfload.idealise.lone import lone_beam
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent
from shelfload.idealise.stack import Stack


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
    """

    project: Project
    catalogue: Catalogue
    stacks: tuple[Stack, ...]
    lone: tuple[ShelfBeam | Unbent, ...]
    placed: Mapping[str, Placed]

    @property
    def shelves(self) -> tuple[ShelfBeam | Unbent, ...]:
        """Every shelf described, in the order of the description, from the floor up."""
        in_units = [shelf for stack in self.stacks for shelf in (*stack.unbent, *stack.shelves)]
        return (*self.lone, *in_units)

    @property
    def beams(self) -> tuple[ShelfBeam, ...]:
        """The shelves that bend as beams."""
        return tuple(shelf for shelf in self.shelves if isinstance(shelf, ShelfBeam))


def idealise(project: Project, catalogue: Catalogue) -> Whole:
    """Idealise and solve everything a description holds."""
    placed = arrange(project, catalogue)
    return Whole(
        project=project,
        catalogue=catalogue,
        placed=placed,
        stacks=tuple(stacks(project, catalogue, placed).values()),
        lone=tuple(lone_beam(lone, project.site, catalogue) for lone in project.shelf),
    )
