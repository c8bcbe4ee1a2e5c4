"""Units on units and bridges: do they land on something, press it too hard, or slide?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from shelfload import tables
from shelfload.check.criteria import GAMMA_G, GAMMA_Q
from shelfload.check.hanging import hand
from shelfload.check.pressing import pressing
from shelfload.check.result import Answer, Check
from shelfload.describe.model import Unit
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.join_demand import HANDLING, HANDLING_PULL
from shelfload.idealise.place import Place
from shelfload.idealise.stack import Stack
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve.tipping import sliding_ratio
from shelfload.wording import figure, size

FRICTION = 0.2
"""Friction of painted or lacquered wood on wood, the low end (common practice, no source)."""
HOLD_DOWN = ("screws", "bolts", "inserts", "connectors")
LOST = ", one line of screws lost"


def standing_on_units(whole: Whole) -> Iterable[Answer]:
    """Does each unit that stands on others land well, and does it stay there?"""
    for placed, stack in zip(whole.placed.values(), whole.stacks, strict=True):
        if placed.unit.on:
            yield _asked(whole, placed, stack)
        elif (
            (placed.unit.underside or placed.unit.rests_on)
            and not placed.unit.hangs
            and placed.unit.between is None
        ):
            yield Answer(checks=(_on_something(placed, stack),))


def _on_something(placed: Placed, stack: Stack) -> Check:
    rest = placed.unit.rests_on
    if rest is not None:
        return Check(
            place=Place(unit=placed.unit.name, part="standing"),
            question=f"weight on the {rest.what}",
            method="whole unit, full",
            source=rest.source,
            measure="force",
            value=placed.weights.total,
            limit=rest.allowed,
            as_mass=True,
            remedy="Put less on it, or hang it from the wall.",
        )
    most = max((foot.dead + foot.imposed for foot in stack.feet), default=placed.weights.total)
    return Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="what carries it",
        method="none",
        source="not described",
        measure="force",
        reason="it stands above the floor on something that is not described; it weighs "
        f"{figure(placed.weights.total, 'force', as_mass=True)} full, up to "
        f"{figure(most, 'force', as_mass=True)} on one upright",
        remedy="Name the unit below (on), what else carries it (rests_on), or say how it hangs "
        "(hangs).",
    )


def _asked(whole: Whole, placed: Placed, stack: Stack) -> Answer:
    below = [whole.placed[name] for name in placed.below]
    lines = screw_lines(placed.unit)
    checks = [_sliding(placed, lines), _lifting_off(whole, placed, lines)]
    for foot in whole_feet(placed, stack):
        checks += _landing(whole, placed, foot, below)
    if not stack.feet:
        checks.append(
            Check(
                place=Place(unit=placed.unit.name, part="standing"),
                question="presses on what is below",
                method="none",
                source="not known",
                measure="stress",
                reason=f"what its uprights bring is not known ({stack.unknown})",
            )
        )
    if len(below) > 1:
        checks += _level(placed, below)
    name = placed.unit.name
    counted = (
        f"{lines - 1} of {lines} lines of screws, each for {figure(HANDLING / 2, 'force')} "
        f"sideways and {figure(HANDLING_PULL / 2, 'force')} apart, as its joins are checked for"
        if lines
        else "no screws between them are counted"
    )
    said = (*placed.said, f"{name}: friction {FRICTION:g} on what it stands on; {counted}")
    return Answer(checks=tuple(checks), assumptions=said)


def screw_lines(unit: Unit) -> int:
    """Return how many lines of screws hold a unit down: two for each unit below."""
    join = unit.joins.stack
    described = join is not None and any(word in join.by for word in HOLD_DOWN)
    return 2 * len(unit.on) if described and unit.base != "plinth" else 0


def _sliding(placed: Placed, lines: int) -> Check:
    push = tables.figures()["pull-on-a-tall-unit"]
    empty = placed.weights.dead
    friction = push.low / float(sliding_ratio(push.low, empty, FRICTION))
    return Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="slides when pulled, empty" + (LOST if lines else ""),
        method="push against friction" + (" and the lines that are left" if lines else ""),
        source=f"{push.source} ({push.status})",
        measure="force",
        value=push.low,
        limit=friction + max(lines - 1, 0) * HANDLING / 2,
        remedy="Screw it down to what it stands on.",
    )


def _lifting_off(whole: Whole, placed: Placed, lines: int) -> Check:
    """Moments about the front edge of what is below: it must not lift at its back.

    Its own weight holds it at mid-depth, and so do the lines of screws that are left.
    """
    unit, weights = placed.unit, placed.weights
    push = tables.figures()["pull-on-a-tall-unit"]
    edge = min([unit.depth, *(whole.placed[name].unit.depth for name in placed.below)])
    pulled = push.low * weights.height
    leant_on = hand(whole.project.site) * (unit.depth - edge)
    holding = sum(item.force * (edge - item.x) for item in weights.items if not item.moving)
    left = max(lines - 1, 0) * HANDLING_PULL / 2
    return Check(
        place=Place(unit=unit.name, part="standing"),
        question="lifts off at its back, empty" + (LOST if lines else ""),
        method="moments about the front edge of what is below",
        source=f"{push.source} ({push.status}); hand on a front edge: common practice, no source",
        measure="moment",
        value=max(pulled, leant_on),
        limit=max(holding, 0.0) + left * edge / 2,
        governs=f"{figure(push.low, 'force')} at its top"
        if pulled >= leant_on
        else f"a hand of {figure(hand(whole.project.site), 'force')} on its front edge",
        remedy="Screw it down to what it stands on, and tie it to the wall.",
    )


def _level(placed: Placed, below: list[Placed]) -> Iterator[Check]:
    tops = [one.top for one in below]
    yield Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="towers of one height",
        method="tops of what is below",
        source="as described; 2 mm: judgement, to be packed",
        measure="length",
        value=max(tops) - min(tops),
        limit=2.0,
        remedy="Pack the lower one or make both of one height.",
    )


def whole_feet(placed: Placed, stack: Stack) -> list[UprightForce]:
    """Feet that together bring the whole weight of a unit.

    The walk down its shelves leaves out its backs and the ends of its sides: shared evenly.
    """
    missing = placed.weights.dead - sum(foot.dead for foot in stack.feet)
    return [replace(foot, dead=foot.dead + missing / len(stack.feet)) for foot in stack.feet]


def _landing(
    whole: Whole, placed: Placed, foot: UprightForce, below: list[Placed]
) -> Iterator[Check]:
    """Contact of one upright with the top panel of what it stands on."""
    place = Place(unit=placed.unit.name, part="standing", bay=foot.upright.name)
    left, right = placed.left + foot.upright.left, placed.left + foot.upright.right
    contact, carrier = max(
        ((min(right, one.right) - max(left, one.left), number) for number, one in enumerate(below)),
    )
    under = below[carrier]
    wanted = right - left
    yield Check(
        place=place,
        question="part of the upright over nothing",
        method="upright over the top of the unit below; 1 mm is let pass",
        source="geometry as described",
        measure="length",
        value=wanted - max(contact, 0.0),
        limit=1.0,
        governs=f"{size(max(contact, 0.0), down=True)} of {size(wanted)} on {under.unit.name}"
        if contact > 0
        else "nothing is under it",
        remedy="Move or widen what is below so that the whole upright stands on it.",
    )
    if contact <= 0.0:
        return
    depth = min(placed.unit.depth, under.unit.depth)
    force = GAMMA_G * foot.dead + GAMMA_Q * foot.imposed
    yield pressing(
        whole,
        under.unit,
        horizontal(under.unit, len(under.unit.level)),
        place=place,
        question="presses on what is below",
        method="factored load over the contact",
        force=force,
        depth=depth,
        width=contact,
        words=f"{figure(force, 'force', as_mass=True)} on {size(contact)} x {size(depth)}",
    )
