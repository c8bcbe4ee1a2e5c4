"""What may go over about which edge, and the ways in which it is made to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from shelfload import tables
from shelfload.describe.site import Site
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.weights import PEOPLE, Weight
from shelfload.idealise.whole import Whole
from shelfload.solve.tipping import tilt_by_block, tipping_moments
from shelfload.wording import size

TALL_SHARE = 3.0
"""A unit higher than this many times its depth is tall (common practice, no source)."""
PLINTH_BACK = 50.0
"""How far a plinth is taken to stand behind the front where it is not said [mm]."""
MARGIN = 1.5
"""Holding over tipping moment that is asked for beyond published test loads (judgement)."""
CHILD_OUT = 100.0
"""A climbing child's weight is this far in front of the edge it stands on [mm] (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """One way to tip a unit; ``margin`` is what holding over tipping must reach."""

    question: str
    source: str
    margin: float
    H: float = 0.0
    h: float = 0.0
    P: float = 0.0
    d: float = 0.0
    z_P: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """What may go over together about one edge: weights with their places [N, mm].

    ``front`` is how far the unit reaches in the direction in which it goes over.
    """

    items: tuple[Weight, ...]
    edge: float
    tilt: float
    height: float
    said: tuple[str, ...]
    front: float

    @property
    def carries_people(self) -> bool:
        """Whether anyone sits, stands, sleeps or leans on it."""
        return any(item.name.startswith(PEOPLE) for item in self.items)


def top_of(whole: Whole, placed: Placed) -> float:
    """Return how high a unit reaches above the floor with all that stands on it [mm]."""
    return max([placed.top, *(top_of(whole, whole.placed[name]) for name in placed.above)])


def is_tall(whole: Whole, placed: Placed) -> bool:
    """Whether a unit is to be tied back whatever the figures say, with what stands on it."""
    limit = tables.figures()["toppling-height-au"].low
    top = top_of(whole, placed)
    return top >= limit or top - placed.bottom > TALL_SHARE * placed.unit.depth


def body_of(whole: Whole, placed: Placed) -> Body:
    """Gather a unit with its share of what stands on it, and the edge it would turn about."""
    unit, site = placed.unit, whole.project.site
    back, said = plinth_back(placed)
    edge = unit.depth - back
    if placed.below:
        edge = min([edge, *(whole.placed[name].unit.depth for name in placed.below)])
        said.append(f"{unit.name}: its back is flush with the back of what it stands on")
    items = list(placed.weights.items) + openings(placed)
    items += from_above(whole, placed, placed.bottom)
    lifted, texts = carpet(site)
    tilt = float(tilt_by_block(min(lifted, edge), edge)) if lifted else 0.0
    said += texts
    if site.floor.slope:
        tilt += float(np.arctan2(site.floor.slope, unit.depth))
    height = top_of(whole, placed) - placed.bottom
    return Body(
        items=tuple(items),
        edge=edge,
        tilt=tilt,
        height=height,
        said=tuple(said),
        front=unit.depth,
    )


def plinth_back(placed: Placed) -> tuple[float, list[str]]:
    """Return how far the front feet stand behind the front [mm], and what was assumed."""
    unit = placed.unit
    if unit.feet_back is not None:
        return unit.feet_back, []
    if unit.base != "plinth" or placed.below:
        return 0.0, []
    return PLINTH_BACK, [f"{unit.name}: its plinth stands {_length(PLINTH_BACK)} behind the front"]


def carpet(site: Site) -> tuple[float, list[str]]:
    """Return how much a soft floor lifts what is away from the edge [mm], and what was assumed."""
    if site.floor.covering == "hard":
        return 0.0, []
    block = tables.figures()["carpet-block"]
    said = ["floor taken as carpeted"] if site.floor.covering is None else []
    said.append(f"carpet lifts the back by {_length(block.low)} ({block.source}; {block.status})")
    return block.low, said


def _length(value: float) -> str:
    return size(value)


def openings(placed: Placed) -> list[Weight]:
    """Open drawers and doors as weights in front of the unit."""
    found = []
    for name, opening in (("drawers", placed.unit.drawers), ("doors", placed.unit.doors)):
        if opening is not None:
            found.append(
                Weight(
                    name=f"open {name}",
                    force=opening.mass * 9.80665,
                    x=placed.unit.depth + opening.out / 2,
                    y=placed.weights.width / 2,
                    z=opening.height or placed.weights.height / 2,
                    level=0,
                    # over a deeper unit below it would stand behind its edge, and may be closed
                    moving=True,
                )
            )
    return found


def from_above(whole: Whole, placed: Placed, datum: float) -> list[Weight]:
    """Weights of what stands on a unit, its share where several carry it."""
    found: list[Weight] = []
    for name in placed.above:
        upper = whole.placed[name]
        share = 1.0 / len(upper.below)
        lifted = upper.bottom - datum
        own = [*upper.weights.items, *openings(upper)]
        found += [_moved(item, share, lifted) for item in own]
        found += [_moved(item, share, 0.0) for item in from_above(whole, upper, datum)]
    return found


def _moved(item: Weight, share: float, lifted: float) -> Weight:
    return Weight(
        name=item.name,
        force=item.force * share,
        x=item.x,
        y=item.y,
        z=item.z + lifted,
        level=item.level,
        moving=item.moving,
    )


def moments(body: Body, scenario: Scenario) -> tuple[float, float]:
    """Return holding and tipping moment with the filling that tips soonest [N mm]."""
    arms = [
        (body.edge - item.x) * np.cos(body.tilt) - item.z * np.sin(body.tilt) for item in body.items
    ]
    kept = [
        item for item, arm in zip(body.items, arms, strict=True) if not (item.moving and arm > 0.0)
    ]
    holding, tipping = tipping_moments(
        [item.force for item in kept],
        [item.x for item in kept],
        [item.z for item in kept],
        body.edge,
        H=scenario.H,
        h=scenario.h,
        P=scenario.P,
        d=scenario.d,
        z_P=scenario.z_P,
        tilt=body.tilt,
    )
    return float(holding), float(tipping)


def scenarios(whole: Whole, placed: Placed, body: Body) -> Iterator[Scenario]:
    """Return what a unit must stand up to: its own weight, and published test loads."""
    unit, site = placed.unit, whole.project.site
    figures = tables.figures()
    opened = " and ".join(
        name for name, one in (("drawers", unit.drawers), ("doors", unit.doors)) if one
    )
    yield Scenario(
        question="tips over by itself"
        + (f", {opened} open" if opened else "")
        + (", people near its front edge" if body.carries_people else ""),
        source="statics; margin 1.5: judgement, no source",
        margin=MARGIN,
    )
    pull, at = figures["pull-on-a-tall-unit"], figures["pull-height"]
    if is_tall(whole, placed):
        yield Scenario(
            question="tips over when pulled",
            source=f"{pull.source} ({pull.status})",
            margin=1.0,
            H=pull.low,
            h=min(at.low, body.height),
        )
    child = figures["child-climbing"]
    if site.children:
        out = unit.drawers.out if unit.drawers else CHILD_OUT
        on = "open drawer" if unit.drawers else "shelf edge"
        yield Scenario(
            question=f"tips over with a child on the {on}",
            source=f"{child.source} ({child.status})",
            margin=1.0,
            P=child.low,
            d=body.front - body.edge + out,
            z_P=(unit.drawers.height if unit.drawers and unit.drawers.height else 0.0),
        )
