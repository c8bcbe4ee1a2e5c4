"""Will it tip over? Units that stand, with or without something that ties them back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from shelfload import tables
from shelfload.check.demand import LASTING, Pull, Shared, link_checks
from shelfload.check.fixing import FIND_OUT, wall_chain
from shelfload.check.result import Answer, Check
from shelfload.check.screw import STEEL
from shelfload.describe.model import Unit
from shelfload.describe.site import NO_FIXING, Site
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.weights import Weight
from shelfload.idealise.whole import Whole
from shelfload.solve.tipping import (
    push_to_tip,
    restraint_force,
    tilt_by_block,
    tipping_moments,
)
from shelfload.wording import figure

TALL_SHARE = 3.0
"""A unit higher than this many times its depth is tall (common practice, no source)."""
PLINTH_BACK = 50.0
"""How far a plinth is taken to stand behind the front where it is not said [mm]."""
MARGIN = 1.5
"""Holding over tipping moment that is asked for beyond published test loads (judgement)."""
CHILD_OUT = 100.0
"""A climbing child's weight is this far in front of the edge it stands on [mm] (judgement)."""
UNDER_TOP = 50.0
"""How far below the top a restraint is taken where its height is not said [mm]."""


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
    """What may go over together about one edge: weights with their places [N, mm]."""

    items: tuple[Weight, ...]
    edge: float
    tilt: float
    height: float
    said: tuple[str, ...]


def standing_up(whole: Whole) -> Iterable[Answer]:
    """Will each standing unit stay upright, and what must hold it?"""
    for placed in whole.placed.values():
        if placed.unit.hangs is None and placed.unit.between is None:
            yield _asked(whole, placed)


def is_tall(placed: Placed) -> bool:
    """Whether a standing unit is to be tied back whatever the figures say."""
    limit = tables.figures()["toppling-height-au"].low
    return placed.top >= limit or placed.weights.height > TALL_SHARE * placed.unit.depth


def body_of(whole: Whole, placed: Placed) -> Body:
    """Gather a unit with its share of what stands on it, and the edge it would turn about."""
    unit, site = placed.unit, whole.project.site
    said: list[str] = []
    back = unit.feet_back
    if back is None:
        back = PLINTH_BACK if unit.base == "plinth" and not placed.below else 0.0
        if back:
            said.append(f"{unit.name}: its plinth stands {_length(back)} behind the front")
    edge = unit.depth - back
    if placed.below:
        edge = min([edge, *(whole.placed[name].unit.depth for name in placed.below)])
        said.append(f"{unit.name}: its back is flush with the back of what it stands on")
    items = list(placed.weights.items) + _openings(placed)
    items += _from_above(whole, placed, placed.bottom)
    tilt = 0.0
    if site.floor.covering != "hard":
        block = tables.figures()["carpet-block"]
        tilt += float(tilt_by_block(block.low, edge))
        if site.floor.covering is None:
            said.append("floor taken as carpeted")
        said.append(f"carpet lifts the back by {_length(block.low)} ({block.source}; {block.status})")
    if site.floor.slope:
        tilt += float(np.arctan2(site.floor.slope, unit.depth))
    height = max([placed.top, *(whole.placed[name].top for name in placed.above)]) - placed.bottom
    return Body(
        items=tuple(items),
        edge=edge,
        tilt=tilt,
        height=height,
        said=tuple(said),
    )


def _length(value: float) -> str:
    return figure(value, "length")


def _openings(placed: Placed) -> list[Weight]:
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
                )
            )
    return found


def _from_above(whole: Whole, placed: Placed, datum: float) -> list[Weight]:
    """Weights of what stands on a unit, its share where several carry it."""
    found: list[Weight] = []
    for name in placed.above:
        upper = whole.placed[name]
        share = 1.0 / len(upper.below)
        lifted = upper.bottom - datum
        own = [*upper.weights.items, *_openings(upper)]
        found += [_moved(item, share, lifted) for item in own]
        found += [
            _moved(item, share, 0.0) for item in _from_above(whole, upper, datum)
        ]
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
        (body.edge - item.x) * np.cos(body.tilt) - item.z * np.sin(body.tilt)
        for item in body.items
    ]
    kept = [
        item
        for item, arm in zip(body.items, arms, strict=True)
        if not (item.moving and arm > 0.0)
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


def scenarios(placed: Placed, body: Body, site: Site) -> Iterator[Scenario]:
    """Return what a unit must stand up to: its own weight, and published test loads."""
    unit = placed.unit
    figures = tables.figures()
    opened = " and ".join(
        name for name, one in (("drawers", unit.drawers), ("doors", unit.doors)) if one
    )
    yield Scenario(
        question="stands by itself" + (f", {opened} open" if opened else ""),
        source="statics; margin 1.5: judgement, no source",
        margin=MARGIN,
    )
    pull, at = figures["pull-on-a-tall-unit"], figures["pull-height"]
    if is_tall(placed):
        yield Scenario(
            question="pulled at a height",
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
            question=f"child on an {on}" if unit.drawers else f"child on a {on}",
            source=f"{child.source} ({child.status})",
            margin=1.0,
            P=child.low,
            d=unit.depth - body.edge + out,
            z_P=(unit.drawers.height if unit.drawers and unit.drawers.height else 0.0),
        )


def _asked(whole: Whole, placed: Placed) -> Answer:
    site, unit = whole.project.site, placed.unit
    body = body_of(whole, placed)
    place = Place(unit=unit.name, part="standing")
    asked = list(scenarios(placed, body, site))
    checks: list[Check] = []
    said = list(body.said)
    if unit.restraint is None:
        checks += [_scenario_check(place, body, scenario) for scenario in asked]
    if unit.restraint is not None or is_tall(placed):
        restrained, texts = _restraint(whole, placed, body, asked)
        checks += restrained
        said += texts
    if any(item.moving for item in body.items):
        said.append("tipping: contents are left out wherever they would hold a unit down")
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def _scenario_check(place: Place, body: Body, scenario: Scenario) -> Check:
    holding, tipping = moments(body, scenario)
    spare = float(push_to_tip(holding, tipping, body.height))
    words = [f"a pull of {figure(spare, 'force')} more at the top tips it"] if spare > 0 else []
    if scenario.H:
        words.insert(0, f"{figure(scenario.H, 'force')} at {_length(scenario.h)}")
    if scenario.P:
        words.insert(
            0,
            f"{figure(scenario.P, 'force', as_mass=True)}, {_length(scenario.d)} in front of "
            "the feet",
        )
    return Check(
        place=place,
        question=scenario.question,
        method="moments about the front feet, filling that tips soonest, no restraint",
        source=scenario.source,
        measure="moment",
        value=tipping,
        limit=max(holding, 0.0) / scenario.margin,
        governs="; ".join(words),
        remedy="Tie its top back to the wall, or make it deeper or lower.",
    )


def _restraint(
    whole: Whole, placed: Placed, body: Body, asked: list[Scenario]
) -> tuple[list[Check], list[str]]:
    """Force and number of the fixings that tie a unit back, and whether they hold."""
    unit, site = placed.unit, whole.project.site
    place = Place(unit=unit.name, part="restraint")
    height = (unit.restraint.height if unit.restraint else None) or (
        placed.weights.height - UNDER_TOP
    )
    count = (unit.restraint.count if unit.restraint else None) or 2
    least = tables.figures()["tip-restraint"]
    needed = {}
    for values, factor in (("design", MARGIN), ("recommended", 1.0)):
        total = max(
            float(restraint_force(*moments(body, scenario), height, factor)) for scenario in asked
        )
        needed[values] = Pull(tension=max(total / count, least.low), shear=0.0)
    said = [
        f"{unit.name}: each restraint holds {figure(least.low, 'force')} or more "
        f"({least.source}; {least.status})"
    ]
    words = (
        f"{count} fixings at {_length(height)} above its underside, each for "
        f"{figure(needed['design'].tension, 'force')}"
    )
    if unit.restraint is None:
        return [_not_tied(place, site, words)], said
    demand = {
        (lasting, values): pull for lasting in LASTING for values, pull in needed.items()
    }
    shared = Shared(demand=demand, count=count, method="moments about the front feet")  # type: ignore[arg-type]
    chains = {
        lasting: wall_chain(unit.restraint, STEEL, site, whole.catalogue, lasting, pull_only=True)
        for lasting in LASTING
    }
    said += [f"{unit.name}: {text}" for text in chains["long-term"].said]
    if unit.restraint.count is None:
        said.append(f"{unit.name}: two restraints")
    checks = link_checks(place, chains, shared, shared)
    if count < 2:
        checks.append(
            Check(
                place=place,
                question="number of restraints",
                method="counted",
                source="two studs near the top: common practice, no source",
                measure="count",
                value=float(count),
                limit=2.0,
                at_least=True,
                remedy="Use two restraints, as far apart as the studs allow.",
            )
        )
    return checks, said


def _not_tied(place: Place, site: Site, words: str) -> Check:
    if site.wall == NO_FIXING:
        reason = f"no fixing to this wall is allowed; needed are {words}"
        remedy = (
            "Tie it to the ceiling joists, the floor or to units beside it by a means that a "
            "licensed person accepts, or make it lower and deeper."
        )
    elif site.wall is None or site.wall == "unknown":
        reason = f"the wall is not known; needed are {words}"
        remedy = FIND_OUT
    else:
        reason = f"nothing that ties it back is described; needed are {words}"
        remedy = "Say how it is tied back: [unit.restraint] with screw and length, or maker."
    return Check(
        place=place,
        question="tied to the wall",
        method="moments about the front feet, margin 1.5",
        source="ASTM F2057-23 and the Australian information standard of 2024: scope from "
        "686 mm (published)",
        measure="force",
        reason=reason,
        remedy=remedy,
    )


def restrained(unit: Unit) -> bool:
    """Whether something ties a unit back at two places or more."""
    return unit.restraint is not None and (unit.restraint.count or 2) >= 2
