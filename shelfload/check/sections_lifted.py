"""What is lifted: a unit, its levels or its boxes, and what one person can lift of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from shelfload.describe.site import Site
from shelfload.idealise.arrangement import Placed
from shelfload.solve.lifting import (
    distance_multiplier,
    horizontal_multiplier,
    recommended_weight_limit,
    vertical_multiplier,
)
from shelfload.wording import figure, size

GRAVITY = 9.80665
COUPLING = 0.95
"""Fair grip on a box without handles, coupling table of NIOSH 94-110 (from memory)."""
REACH = 200.0
"""Ankles to the near face of what is held [mm], NIOSH 94-110 (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A piece as lifted: empty, loose shelves out. Mass [kg], where its underside goes [mm]."""

    name: str
    mass: float
    bottom: float
    height: float


def sections(placed: Placed) -> list[Section]:
    """Cut a unit into what is lifted; the heaviest box stands for its level."""
    unit, weights = placed.unit, placed.weights
    lifted = [item for item in weights.items if not item.moving and not item.loose]
    if unit.comes_apart == "no":
        mass = sum(item.force for item in lifted) / GRAVITY
        return [Section(name="whole unit", mass=mass, bottom=placed.bottom, height=weights.height)]
    found = []
    for number, level in enumerate(unit.level):
        here = sum(item.force for item in lifted if item.level == number) / GRAVITY
        name = f"level {number + 1}"
        if unit.comes_apart == "boxes":
            # boxes share what is between them; the widest has its part of the width
            here *= max(level.bays) / sum(level.bays)
            name = f"largest box of {name}"
        found.append(
            Section(
                name=name,
                mass=here,
                bottom=placed.bottom + weights.panels[number].z,
                height=level.height + weights.panels[number].thickness,
            )
        )
    return found


def one_person(depth: float, height: float, bottom: float) -> float:
    """Return what one person may lift from the floor to where a section goes [kg].

    Hands hold the section at its underside, or at knuckle height where it stays low.
    """
    start = min(bottom, 750.0) if bottom > 0 else min(height / 2, 750.0)
    hands = np.array([start, max(bottom, start)])
    limit = recommended_weight_limit(
        horizontal_multiplier(REACH + depth / 2),
        vertical_multiplier(hands),
        distance_multiplier(bottom),
        1.0,
        1.0,
        COUPLING,
    )
    return float(limit.min())


def lighter(placed: Placed) -> Iterator[str]:
    """Say what each box weighs where a unit comes apart into them, and what is out already."""
    unit = placed.unit
    if unit.comes_apart == "boxes":
        for number, (level, box) in enumerate(zip(unit.level, sections(placed), strict=True)):
            share = box.mass / max(level.bays)
            masses = ", ".join(figure(share * bay, "mass") for bay in level.bays)
            yield f"{unit.name}: boxes of level {number + 1}, by their widths: {masses}"
    loose = sum(item.force for item in placed.weights.items if item.loose) / GRAVITY
    if loose:
        yield f"{unit.name}: {figure(loose, 'mass')} of loose shelves taken out first"


def largest_box(placed: Placed, site: Site) -> Iterator[str]:
    """Say how wide a box of this make one person can lift to where the unit's levels are.

    A box has the two sides of its level, and of the rest as much as it is wide.
    """
    weights, unit = placed.weights, placed.unit
    lifted = [item for item in weights.items if not item.moving and not item.loose]
    widest = []
    for number, level in enumerate(unit.level):
        here = [item for item in lifted if item.level == number]
        sides = sum(item.force for item in here if item.name.endswith("side")) / GRAVITY
        per_width = (sum(item.force for item in here) / GRAVITY - sides) / weights.width
        bottom = placed.bottom + weights.panels[number].z - (site.platform or 0.0)
        height = level.height + weights.panels[number].thickness
        single = one_person(unit.depth, height, max(bottom, 0.0))
        if per_width > 0.0:  # else its shelves and all are out: sides alone are no box
            widest.append(((single - sides) / per_width, single, number))
    if not widest:
        return
    width, single, number = min(widest)
    if width <= 0.0:
        yield f"{unit.name}: one person can lift no box of level {number + 1}, however narrow"
        return
    yield (
        f"{unit.name}: the largest box that one person can lift, of its make and depth, weighs "
        f"{figure(single, 'mass')} and is {size(width)} wide (level {number + 1})"
    )
