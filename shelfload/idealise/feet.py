"""What the uprights of a unit pass down, shelf by shelf, and what its feet put on what is below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Level, Unit
from shelfload.describe.parts import Shelf, Upright
from shelfload.idealise.geometry import BayAt, UprightAt, uprights
from shelfload.idealise.loads import BayLoad
from shelfload.idealise.place import Place
from shelfload.idealise.plates import end_forces
from shelfload.idealise.sections import ShelfSection, weight_of
from shelfload.idealise.shelf_beam import ShelfBeam, end_bearing
from shelfload.solve.beam import reaction_range


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightForce:
    """What a side or divider of a level carries down at its foot [N], all bays full.

    ``skew`` is how much more than its even share a quarter of its depth may carry: the ends of
    a shelf cut on a curve press hardest at one of their corners.
    """

    place: Place
    upright: UprightAt
    level: int
    dead: float
    imposed: float
    skew: float = 1.0


def past_the_beams(
    shelf: Shelf,
    runs: Sequence[tuple[UprightAt, ...]],
    standing: Sequence[UprightAt],
    landing: Sequence[UprightForce],
) -> list[tuple[str, UprightForce]]:
    """Feet that stand right above an upright and never load the shelf between."""
    half = end_bearing(shelf)[0] / 2
    ends = [(run[0].right - half, run[-1].left + half) for run in runs]
    found = []
    for foot in landing:
        x = foot.upright.centre
        if not any(start < x < end for start, end in ends):
            nearest = min(standing, key=lambda upright: abs(upright.centre - x))
            found.append((nearest.name, foot))
    return found


def feet(
    unit: Unit,
    number: int,
    level: Level | None,
    made: Sequence[ShelfBeam],
    standing: Sequence[UprightAt],
    direct: Sequence[tuple[str, UprightForce]],
    catalogue: Catalogue,
) -> tuple[UprightForce, ...]:
    """What each upright passes on: the shelf it carries, what stands above it, its own weight.

    ``level`` is None for the feet of the whole unit, which have no upright of their own.
    """
    dead: dict[str, float] = dict.fromkeys((upright.name for upright in standing), 0.0)
    imposed, skew = dict(dead), dict.fromkeys(dead, 1.0)
    for beam in made:
        always = beam.weights({"self": 1.0, "landing dead": 1.0})
        sometimes = beam.weights({"contents": 1.0, "landing": 1.0, "spot": 1.0})
        if beam.plan is None:
            steady = always @ beam.result.reactions
            most, _ = reaction_range(beam.result, always, sometimes)
            uneven = np.ones(len(beam.supports))
        else:
            steady, most, uneven = end_forces(beam, always, sometimes)
        for support, low, high, more in zip(beam.supports, steady, most, uneven, strict=True):
            dead[support.name] += float(low)
            imposed[support.name] += float(high - low)
            skew[support.name] = max(skew[support.name], float(more))
    for name, foot in direct:
        dead[name] += foot.dead
        imposed[name] += foot.imposed
        skew[name] = max(skew[name], foot.skew)
    if level is not None:
        for upright in standing:
            dead[upright.name] += _upright_weight(unit, level, upright, catalogue)
    part = "feet" if level is None else f"level {number + 1}"
    return tuple(
        UprightForce(
            place=Place(unit=unit.name, part=part, bay=upright.name),
            upright=upright,
            level=number,
            dead=dead[upright.name],
            imposed=imposed[upright.name],
            skew=skew[upright.name],
        )
        for upright in standing
    )


def flat_feet(
    unit: Unit,
    loaded: Sequence[tuple[BayAt, BayLoad]],
    shape: ShelfSection,
    landing: Sequence[UprightForce],
) -> list[UprightForce]:
    """Feet of a unit whose lowest panel lies flat: what stands on that panel goes to all alike."""
    lowest = uprights(unit, unit.level[0])
    contents = sum(
        load.even * (bay.right - bay.left) + sum(force for force, _, _ in load.points)
        for bay, load in loaded
    )
    own = shape.weight * (lowest[-1].right - lowest[0].left)
    return [
        replace(
            foot,
            place=Place(unit=unit.name, part="feet", bay=foot.upright.name),
            level=-1,
            dead=foot.dead + own / len(landing),
            imposed=foot.imposed + contents / len(landing),
        )
        for foot in landing
    ]


def _upright_weight(unit: Unit, level: Level, upright: UprightAt, catalogue: Catalogue) -> float:
    described: Upright = unit.sides if upright.name.endswith("side") else unit.dividers
    material = described.material or unit.panel.material
    row = catalogue.material(material, described.thickness or unit.panel.thickness).material
    return weight_of(row, level.height * unit.depth * (upright.right - upright.left))
