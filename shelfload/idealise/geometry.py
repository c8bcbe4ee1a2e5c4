"""Where the uprights and bays of a unit are, measured from its left outer face."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from shelfload.describe.model import Level, Unit, upright_thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightAt:
    """A side or divider: its faces [mm] from the left outer face of the unit."""

    name: str
    left: float
    right: float

    @property
    def centre(self) -> float:
        """Middle of the thickness [mm]."""
        return (self.left + self.right) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class BayAt:
    """A clear width [mm] between two uprights."""

    number: int
    left: float
    right: float

    @property
    def name(self) -> str:
        """Name in reports."""
        return f"bay {self.number}"


def uprights(unit: Unit, level: Level) -> tuple[UprightAt, ...]:
    """Return sides and dividers of a level from left to right."""
    side = upright_thickness(unit, unit.sides)
    divider = upright_thickness(unit, unit.dividers)
    found = [UprightAt(name="left side", left=0.0, right=side)]
    x = side
    for number, width in enumerate(level.bays[:-1], start=1):
        x += width
        found.append(UprightAt(name=f"divider {number}", left=x, right=x + divider))
        x += divider
    x += level.bays[-1]
    found.append(UprightAt(name="right side", left=x, right=x + side))
    return tuple(found)


def bays(unit: Unit, level: Level) -> tuple[BayAt, ...]:
    """Return the clear widths of a level from left to right."""
    standing = uprights(unit, level)
    return tuple(
        BayAt(number=number, left=left.right, right=right.left)
        for number, (left, right) in enumerate(pairwise(standing), start=1)
    )


def shelf_name(unit: Unit, number: int) -> str:
    """Return what the horizontal under level ``number`` (from 0) is called."""
    if number == 0:
        return "bottom panel"
    return "top panel" if number == len(unit.level) else f"shelf {number}"
