"""A shelf on supports of its own, without a carcass."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate, pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import LoneShelf
from shelfload.describe.parts import Fill, PointLoad
from shelfload.describe.site import Site
from shelfload.describe.standing import Brackets
from shelfload.idealise.loads import BayLoad, bay_load
from shelfload.idealise.people import single_force
from shelfload.idealise.place import Place
from shelfload.idealise.sections import NoFigure, SlipSpan, shelf_section
from shelfload.idealise.shelf_beam import (
    LoadedBay,
    ShelfBeam,
    Support,
    Unbent,
    end_bearing,
    shelf_beam,
)
from shelfload.solve.overhang import best_overhang


def lone_beam(lone: LoneShelf, site: Site, catalogue: Catalogue) -> ShelfBeam | Unbent:
    """Idealise and solve a shelf on supports of its own."""
    place = Place(unit=lone.name)
    along = () if lone.spans or lone.plan is not None else _points_of(lone)
    lone = laid_out(_without(lone) if along else lone)
    try:
        slips = SlipSpan(span=min(lone.spans), continuous=len(lone.spans) > 1)
        shape = shelf_section(lone.shelf, lone.depth, None, catalogue, slips)
    except NoFigure as missing:
        return Unbent(place=place, words="", reason=str(missing))
    bearing, said = end_bearing(lone.shelf)
    widths = [bearing, *[lone.support_width] * (len(lone.spans) - 1), bearing]
    left, right = lone.overhang_left or 0.0, lone.overhang_right or 0.0
    pitches = [
        gap + (before + after) / 2
        for gap, (before, after) in zip(lone.spans, pairwise(widths), strict=True)
    ]
    at = list(accumulate(pitches, initial=left))
    length = at[-1] + right
    loaded = [
        LoadedBay(
            name=f"span {number}",
            start=at[number - 1] + widths[number - 1] / 2,
            end=at[number] - widths[number] / 2,
            load=bay_load(fill, gap, lone.clear_height, shape.depth, catalogue),
        )
        for number, (gap, fill) in enumerate(zip(lone.spans, lone.fills, strict=True), start=1)
    ]
    # what stands in the outer spans goes on over the overhangs
    if left:
        beside = _beyond(loaded[0].load, lone.fills[0], 0.0)
        loaded.insert(0, LoadedBay(name="left overhang", start=0.0, end=left, load=beside))
    if right:
        beside = _beyond(loaded[-1].load, lone.fills[-1], right)
        loaded.append(LoadedBay(name="right overhang", start=at[-1], end=length, load=beside))
    for point in along:
        _set_down(point, loaded)
    return shelf_beam(
        place=place,
        shape=shape,
        length=length,
        supports=[
            Support(name=f"support {number}", at=x, bearing=width)
            for number, (x, width) in enumerate(zip(at, widths, strict=True), start=1)
        ],
        bays=loaded,
        shelf=lone.shelf,
        site=site,
        held_down=lone.fixed_down,
        said=said,
        plan=lone.plan,
    )


def _points_of(lone: LoneShelf) -> tuple[PointLoad, ...]:
    return tuple(point for fill in lone.fills if fill is not None for point in fill.points)


def _without(lone: LoneShelf) -> LoneShelf:
    """The shelf without its loads on single spots."""
    bare = tuple(
        None if fill is None else fill.model_copy(update={"points": ()}) for fill in lone.contents
    )
    return lone.model_copy(update={"contents": bare})


def _set_down(point: PointLoad, loaded: list[LoadedBay]) -> None:
    """Put a load on one spot, measured along the whole shelf, on the span that it stands on."""
    x = point.at
    number = min(range(len(loaded)), key=lambda n: max(loaded[n].start - x, x - loaded[n].end, 0.0))
    bay = loaded[number]
    inside = min(max(x, bay.start), bay.end) - bay.start
    load = replace(
        bay.load,
        points=(*bay.load.points, (point.load.value, inside, point.duration)),
        from_front=(*bay.load.from_front, point.from_front),
        words=" and ".join(filter(None, (bay.load.words, "a point load"))),
    )
    loaded[number] = replace(bay, load=load)


def _beyond(load: BayLoad, fill: Fill | None, tip: float) -> BayLoad:
    """What stands in an outer span goes on over the overhang; one person is at its tip [mm]."""
    if fill is None or fill.people is None:
        return BayLoad(even=load.even, words=load.words)
    return BayLoad(
        even=load.even,
        words=load.words,
        points=((single_force(fill.people), tip, "short-term"),),
        from_front=(None,),
    )


def laid_out(lone: LoneShelf) -> LoneShelf:
    """Place brackets for the least sag where only the length and their number are given."""
    count = lone.supports.number if isinstance(lone.supports, Brackets) else None
    if lone.plan is not None and not lone.spans:
        middle = lone.plan.inner_radius + lone.depth / 2
        clear = lone.plan.angle * middle - end_bearing(lone.shelf)[0]
        return lone.model_copy(update={"spans": (max(clear, 1.0),)})
    if lone.spans or lone.length is None or count is None:
        return lone
    over = best_overhang(count) * lone.length
    pitch = (lone.length - 2 * over) / (count - 1)
    bearing, _ = end_bearing(lone.shelf)
    widths = [bearing, *[lone.support_width] * (count - 2), bearing]
    gaps = tuple(pitch - (before + after) / 2 for before, after in pairwise(widths))
    return lone.model_copy(update={"spans": gaps, "overhang_left": over, "overhang_right": over})
