"""Joins of boxes to boxes: side by side, on each other, bridges, and hung between towers."""

from __future__ import annotations

from collections.abc import Iterator

from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.join_at import JoinAt, joint_of, member_of
from shelfload.idealise.join_demand import HANDLING, HANDLING_PULL, LEAN, PUSH, lasting, passing
from shelfload.idealise.place import Place
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole


def side_by_side(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    """Return the joins of boxes that stand side by side: doubled dividers and sides."""
    unit = placed.unit
    join = unit.joins.sides
    for upright in (unit.dividers, unit.sides):
        if upright.panels < 2 or upright.joined == "lying":
            continue
        for number, level in enumerate(unit.level):
            count = len(level.bays) - 1 if upright is unit.dividers else 2
            if not count:
                continue
            panel = member_of(whole, unit, upright)
            glued = upright.joined == "glued" or (join is not None and "glue" in join.by)
            # one row near the front and one near the back share the force
            force = passing(HANDLING / 2.0)
            yield JoinAt(
                place=Place(unit=unit.name, part=f"level {number + 1}"),
                kind="side by side",
                words="side to side of two boxes, one row near the front and one near the back",
                joint=None if glued else joint_of(whole, join, panel, panel, level.height, force),
                join=join,
                carries="nothing",
                along="up the side",
                joins=2 * count,
                glued=glued,
            )


def box_on_box(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    """Return the joins of levels that are lifted apart."""
    unit = placed.unit
    join = unit.joins.stack
    if unit.comes_apart == "no" and join is None:
        return
    for number in range(1, len(unit.level)):
        shelf = horizontal(unit, number)
        if shelf.panels < 2 or shelf.joined == "glued" or (shelf.screws and join is None):
            continue
        above = sum(item.force for item in placed.weights.items if item.level >= number)
        boxes = len(unit.level[number].bays) if unit.comes_apart == "boxes" else 1
        rows = 2 * boxes
        force = passing(max((PUSH + LEAN * above) / 2.0, HANDLING) / 2.0)
        first = member_of(whole, unit, shelf)
        yield JoinAt(
            place=Place(unit=unit.name, part=shelf_name(unit, number)),
            kind="box on box",
            words="bottom of the upper box to top of the lower, a row near each side",
            joint=joint_of(
                whole, join, first, first, unit.depth, force, passing(HANDLING_PULL / 2.0)
            ),
            join=join,
            carries="friction",
            along="along the depth",
            joins=rows,
        )


def on_units(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    """Return the joins of a unit to those it stands on or hangs between."""
    unit = placed.unit
    join = unit.joins.stack
    if unit.between is not None:
        yield from _between(whole, placed)
    if not unit.on or unit.base == "plinth":
        return
    bottom = member_of(whole, unit, horizontal(unit, 0))
    force = passing(max((PUSH + LEAN * placed.weights.total) / 2.0, HANDLING) / 2.0)
    for name in unit.on:
        lower = whole.placed[name].unit
        top = member_of(whole, lower, horizontal(lower, len(lower.level)))
        yield JoinAt(
            place=Place(unit=unit.name, part="standing"),
            kind="box on box",
            words=f"bottom panel down into the top of {name}, a row near each side of it",
            joint=joint_of(
                whole, join, bottom, top, min(unit.depth, lower.depth), force,
                passing(HANDLING_PULL / 2.0),
            ),
            join=join,
            carries="friction",
            along="along the depth",
            joins=2,
        )  # fmt: skip


def _between(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    unit = placed.unit
    hung = unit.between
    if hung is None or hung.screw is not None or hung.maker is not None:
        return  # what is described is checked with the unit's fixings
    own = member_of(whole, unit, unit.sides)
    force = lasting(placed.weights.dead / 2.0, placed.weights.contents / 2.0)
    for name in (hung.left, hung.right):
        neighbour = whole.placed[name].unit
        other = member_of(whole, neighbour, neighbour.sides)
        yield JoinAt(
            place=Place(unit=unit.name, part="neighbours"),
            kind="between",
            words="side through into the side of the neighbour, a row near the front",
            joint=joint_of(
                whole, None, own, other, placed.weights.height, force, passing(HANDLING_PULL)
            ),
            join=None,
            carries="screws",
            along="up the side",
        )
