"""The joins of a described unit: what meets what, over which length, under which forces."""

from __future__ import annotations

from collections.abc import Iterator

from shelfload import tables
from shelfload.describe.model import Level, Unit
from shelfload.describe.parts import Back, Shelf
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.box_joins import box_on_box, on_units, side_by_side
from shelfload.idealise.geometry import bays, shelf_name
from shelfload.idealise.join_at import JoinAt, add_join, edge_of, joint_of, member_of
from shelfload.idealise.join_demand import (
    HANDLING,
    HANDLING_PULL,
    LEAN,
    PUSH,
    at_least,
    lasting,
    passing,
    shelf_end,
    shelf_shear,
)
from shelfload.idealise.joint import NOTHING, Member
from shelfload.idealise.place import Place
from shelfload.idealise.sections import weight_of
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.stack import back_of
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole

CLEAT = ("c16", 20.0)
"""A cleat that is not described: softwood 20 mm thick [name, mm] (common practice, no source)."""


def unit_joins(whole: Whole) -> list[JoinAt]:
    """Return every join of every unit, alike ones once."""
    found: list[JoinAt] = []
    for placed in whole.placed.values():
        for one in (
            *_shelf_ends(whole, placed),
            *_doubles(whole, placed),
            *side_by_side(whole, placed),
            *box_on_box(whole, placed),
            *on_units(whole, placed),
            *_backs(whole, placed),
        ):
            add_join(found, one)
    return found


def _beams(whole: Whole, unit: Unit, number: int) -> list[ShelfBeam]:
    name = shelf_name(unit, number)
    return [
        beam for beam in whole.beams if beam.place.unit == unit.name and beam.place.part == name
    ]


def _shelf_ends(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    unit = placed.unit
    for number in range(len(unit.level) + 1):
        shelf = horizontal(unit, number)
        for beam in _beams(whole, unit, number):
            yield _shelf_end(whole, unit, shelf, beam)


def _shelf_end(whole: Whole, unit: Unit, shelf: Shelf, beam: ShelfBeam) -> JoinAt:
    join = unit.joins.shelves
    side = member_of(whole, unit, unit.sides)
    end = edge_of(member_of(whole, unit, shelf), end_grain=shelf.grain == "along")
    force = shelf_end(beam)
    if join is not None and join.by == "cleat":
        cleat = Member(material=tables.material(*CLEAT).material, thickness=CLEAT[1])
        joint = joint_of(whole, join, cleat, side, unit.depth, force)
        return JoinAt(
            place=beam.place, kind="cleat", words="cleat under shelf end, to side or divider",
            joint=joint, join=join, carries="screws", along="along the depth", joins=2,
        )  # fmt: skip
    on_screws = join is not None and join.by not in ("housing", "glue") and shelf.bearing is None
    joint = joint_of(whole, join, side, end, unit.depth, force)
    return JoinAt(
        place=beam.place,
        kind="shelf end",
        words="loose shelf on its pins or cleats"
        if shelf.loose
        else "shelf end into side or divider",
        joint=joint if join is not None and join.by not in ("housing", "glue") else None,
        join=join,
        carries="screws" if on_screws else "bearing",
        along="along the depth",
        joins=2,
        glued=join is not None and "glue" in join.by,
    )


def _doubles(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    unit = placed.unit
    for number in range(len(unit.level) + 1):
        shelf = horizontal(unit, number)
        beams = _beams(whole, unit, number)
        if shelf.panels < 2 or not beams:
            continue
        between_boxes = unit.comes_apart != "no" and 0 < number < len(unit.level)
        if between_boxes and shelf.screws is None and shelf.joined != "glued":
            continue  # its two panels are bottom and top of two boxes
        upper = member_of(whole, unit, shelf)
        lower = upper
        if shelf.second is not None:
            resolved = whole.catalogue.material(shelf.second.material, shelf.second.thickness)
            lower = Member(material=resolved.material, thickness=resolved.thickness)
        beam = max(beams, key=lambda one: shelf_shear(one).service)
        span = float(max(end - start for start, end in beam.result.spans))
        glued = shelf.joined == "glued"
        join = shelf.screws
        if glued and join is None:
            joint = None
        elif glued:
            weight = weight_of(lower.material, lower.thickness * unit.depth * span)
            pull = at_least(lasting(weight, 0.0), passing(HANDLING_PULL))
            joint = joint_of(whole, join, lower, upper, span, NOTHING, pull)
        else:
            joint = joint_of(whole, join, lower, upper, span, passing(HANDLING))
        yield JoinAt(
            place=Place(unit=unit.name, part=shelf_name(unit, number)),
            kind="double",
            words="lower panel to upper panel of the doubled shelf",
            joint=joint if shelf.joined != "lying" or join is not None else None,
            join=join,
            carries="glue" if glued else "nothing",
            along="along the span",
            joins=len(beam.bays),
            spacing=join.spacing if join is not None else None,
            glued=glued,
        )


def _backs(whole: Whole, placed: Placed) -> Iterator[JoinAt]:
    unit = placed.unit
    for number, level in enumerate(unit.level):
        back = back_of(unit, level)
        if back is not None:
            yield _back(whole, placed, number, level, back)


def _back(whole: Whole, placed: Placed, number: int, level: Level, back: Back) -> JoinAt:
    unit = placed.unit
    place = Place(unit=unit.name, part=f"level {number + 1}")
    glued = back.fixed == "glued"
    width = sum(bay.right - bay.left for bay in bays(unit, level))
    above = sum(item.force for item in placed.weights.items if item.level >= number)
    flow = (PUSH + LEAN * above) / width
    first = member_of(whole, unit, back)
    side = edge_of(member_of(whole, unit, unit.sides), end_grain=False)
    spacing = back.spacing or 0.0
    length = level.height
    joint = None
    if back.fixed == "screwed" and length > 2.0 * spacing:
        joint = joint_of(whole, back.screws, first, side, length, passing(flow * length))
    return JoinAt(
        place=place,
        kind="back",
        words=f"back to the rear edges all round, {back.fixed}",
        joint=joint,
        join=back.screws,
        carries="nothing",
        along="along each edge",
        spacing=back.spacing,
        glued=glued,
    )
