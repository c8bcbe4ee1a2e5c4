"""What goes over about which edge, of a unit that is curved in plan.

A curved unit stands on the outline of its feet, which reaches neither as far as a bow bulges
out nor as little as its depth says. It may go over about any edge of that outline: it is not
taken to lean on a wall, which it touches in a line or two at most.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.tipping_body import (
    MARGIN,
    Body,
    Scenario,
    carpet,
    moments,
    openings,
    plinth_back,
    scenarios,
    top_of,
)
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import uprights
from shelfload.idealise.ring import RingPlan
from shelfload.idealise.weights import Weight
from shelfload.idealise.whole import Whole
from shelfload.solve.support_polygon import tipping_edges
from shelfload.solve.tipping import restraint_force, tilt_by_block

Array = NDArray[np.float64]
STEPS = 49
"""Places along an arc of feet: the chords between them lie a hair inside it."""


def edges_of(whole: Whole, placed: Placed, ring: RingPlan) -> Iterator[tuple[str, Body]]:
    """Return each edge that a curved unit may go over, in words, and what goes over it."""
    back, said = plinth_back(placed)
    items = placed.weights.items + tuple(openings(placed))
    spots = [ring.spread(item.x, item.y, item.across, item.along) for item in items]
    front = ring.at(placed.unit.depth, np.linspace(0.0, ring.width, STEPS))
    soft, texts = carpet(whole.project.site)
    normals, edges, depths = tipping_edges(_feet(placed, ring, back))
    for normal, edge, depth in zip(normals, edges, depths, strict=True):
        lean = tilt_by_block(min(soft, float(depth)), depth) if soft else 0.0
        slope = np.arctan2(whole.project.site.floor.slope or 0.0, placed.unit.depth)
        yield (
            _side(normal),
            Body(
                items=tuple(_along(items, spots, normal)),
                edge=float(edge),
                tilt=float(lean + slope),
                height=top_of(whole, placed) - placed.bottom,
                said=(*said, *texts),
                front=float((front @ normal).max()),
            ),
        )


def _feet(placed: Placed, ring: RingPlan, back: float) -> Array:
    """Where a unit touches the floor: under its two sides, or along all of its plinth."""
    unit = placed.unit
    reach = np.array([0.0, unit.depth - back])
    at = uprights(unit, unit.level[0])
    ends = np.array([at[0].centre, at[-1].centre])
    y = ends if unit.base == "sides" else np.linspace(ends[0], ends[1], STEPS)
    return ring.at(*np.meshgrid(reach, y)).reshape(-1, 2)


def _along(items: tuple[Weight, ...], spots: list[Array], normal: Array) -> Iterator[Weight]:
    """Weights in parts, each with its place in the direction in which the unit goes over."""
    for item, places in zip(items, spots, strict=True):
        for x in places @ normal:
            yield Weight(
                name=item.name,
                force=item.force / len(places),
                x=float(x),
                y=item.y,
                z=item.z,
                level=item.level,
                moving=item.moving,
            )


def _side(normal: Array) -> str:
    """Name an edge by the way it faces."""
    turn = degrees(atan2(normal[0], normal[1]))
    if abs(turn) <= 45.0:
        return "front"
    if abs(turn) >= 135.0:
        return "rear"
    return "right" if turn > 0.0 else "left"


def worst_edge(
    whole: Whole, placed: Placed, ring: RingPlan
) -> Iterator[tuple[Scenario, str, Body]]:
    """Return each way to tip a unit with the edge about which it goes over most easily."""
    found: dict[str, tuple[tuple[float, float], Scenario, str, Body]] = {}
    for side, body in edges_of(whole, placed, ring):
        for scenario in scenarios(whole, placed, body):
            holding, tipping = moments(body, scenario)
            # where nothing tips, the edge over which least holds it
            used = tipping * scenario.margin / max(holding, 1e-9), tipping - holding
            before = found.get(scenario.question)
            if before is None or used > before[0]:
                found[scenario.question] = (used, scenario, side, body)
    for _, scenario, side, body in found.values():
        yield scenario, side, body


def pull_needed(whole: Whole, placed: Placed, ring: RingPlan, height: float) -> float:
    """Return what would have to hold a curved unit at a height, over its worst edge [N]."""
    least = tables.figures()["tip-restraint"].low
    return max(
        least,
        *(
            float(restraint_force(*moments(body, scenario), height, MARGIN))
            for scenario, _, body in worst_edge(whole, placed, ring)
        ),
    )
