"""A unit as a stack of shelves: what each carries, what stands on it, top to bottom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Level, Unit
from shelfload.describe.parts import Arc, Back, Fill, Shelf
from shelfload.describe.site import Site
from shelfload.idealise.backs import BackHold, back_hold, sheet_of
from shelfload.idealise.feet import UprightForce, feet, flat_feet, past_the_beams
from shelfload.idealise.geometry import BayAt, UprightAt, bays, shelf_name, uprights
from shelfload.idealise.loads import BayLoad, bay_load
from shelfload.idealise.people_between import people_between
from shelfload.idealise.place import Place
from shelfload.idealise.ring import sector
from shelfload.idealise.sections import (
    NoFigure,
    ShelfSection,
    SlipSpan,
    shelf_section,
)
from shelfload.idealise.shelf_beam import (
    Landing,
    LoadedBay,
    ShelfBeam,
    Support,
    Unbent,
    end_bearing,
    shelf_beam,
)


@dataclass(slots=True, kw_only=True)
class Stack:
    """Everything found on the way down one unit; ``feet`` is what it puts on what is below."""

    shelves: list[ShelfBeam] = field(default_factory=list)
    unbent: list[Unbent] = field(default_factory=list)
    forces: list[UprightForce] = field(default_factory=list)
    feet: list[UprightForce] = field(default_factory=list)
    unknown: str = ""


def unit_stack(
    unit: Unit,
    site: Site,
    catalogue: Catalogue,
    landing: tuple[UprightForce, ...] = (),
    unknown: str = "",
) -> Stack:
    """Walk a unit from the top panel down, passing the feet of each level to the shelf below.

    ``landing`` is what other units put on its top; ``unknown`` says why that is not known.
    Below a shelf that can't be worked out no load is known, and no shelf is answered.
    """
    found = Stack(unknown=unknown)
    for number in range(len(unit.level), -1, -1):
        above = unit.level[number] if number < len(unit.level) else None
        below = unit.level[number - 1] if number > 0 else None
        standing = carriers(unit, below)
        place = Place(unit=unit.name, part=shelf_name(unit, number))
        shelf = _shelf(unit, above)
        try:
            shape = horizontal_section(unit, number, catalogue)
        except NoFigure as missing:
            found.unbent.append(Unbent(place=place, words="", reason=str(missing)))
            found.unknown = found.unknown or f"{place}: {missing}"
            continue
        if found.unknown and standing:
            reason = f"what stands on it is not known ({found.unknown})"
            found.unbent.append(Unbent(place=place, words=shape.words, reason=reason))
            continue
        if not standing:
            found.unbent.append(Unbent(place=place, words=shape.words))
            if not found.unknown:
                loaded = loaded_bays(unit, above, shape.depth, catalogue)
                found.feet += flat_feet(unit, loaded, shape, landing)
            continue
        loaded = loaded_bays(unit, above, shape.depth, catalogue)
        hold = _hold(unit, shelf, shape, below, above, site, catalogue)
        arcs = [
            sector(unit, back_thickness(unit, below, above), run, end_bearing(shelf)[0])
            for run in beam_runs(shelf, standing)
        ]
        made = _beams(site, shelf, shape, place, standing, loaded, landing, hold, arcs)
        if unit.plan is not None and made[0].creep is None:
            # a curved shelf is never answered as a straight beam
            reason = f"no creep figure for this board in service class {site.service_class}"
            found.unbent.append(Unbent(place=place, words=shape.words, reason=reason))
            found.unknown = f"{place}: {reason}"
            continue
        found.shelves += reversed(made)
        direct = past_the_beams(shelf, beam_runs(shelf, standing), standing, landing)
        landing = feet(unit, number - 1, below, made, standing, direct, catalogue)
        if below is not None:
            found.forces += landing
        else:
            found.feet += landing
    found.shelves.reverse()
    return found


def carriers(unit: Unit, below: Level | None) -> tuple[UprightAt, ...]:
    """Return the uprights that carry a horizontal; none where it lies flat."""
    if below is not None:
        return uprights(unit, below)
    if unit.base == "flat":
        return ()
    lowest = uprights(unit, unit.level[0])
    return lowest if unit.base == "plinth" else (lowest[0], lowest[-1])


def horizontal_section(unit: Unit, number: int, catalogue: Catalogue) -> ShelfSection:
    """Return the cross-section of the horizontal under level ``number`` (from 0).

    Raises
    ------
    NoFigure
        If a part has no known stiffness.
    """
    above = unit.level[number] if number < len(unit.level) else None
    below = unit.level[number - 1] if number > 0 else None
    back = back_thickness(unit, below, above)
    shelf = _shelf(unit, above)
    standing = carriers(unit, below)
    spans = [
        min(after.centre - before.centre for before, after in pairwise(run))
        for run in (beam_runs(shelf, standing) if standing else ())
    ]
    slips = SlipSpan(span=min(spans), continuous=shelf.runs == "through") if spans else None
    return shelf_section(shelf, unit.depth - back, unit.panel, catalogue, slips)


def _shelf(unit: Unit, above: Level | None) -> Shelf:
    own = unit.top if above is None else above.shelf
    return own if own is not None else unit.shelf


def back_thickness(unit: Unit, *levels: Level | None) -> float:
    """Return the thickest back beside a horizontal: it takes that much off the depth [mm]."""
    backs = [back_of(unit, level) for level in levels if level is not None]
    return max((back.thickness for back in backs if back is not None), default=0.0)


def back_of(unit: Unit, level: Level) -> Back | None:
    """Return the back of a level's bays, None where they are open."""
    if level.back == "none":
        return None
    return level.back if level.back is not None else unit.back


def loaded_bays(
    unit: Unit, above: Level | None, depth: float, catalogue: Catalogue
) -> list[tuple[BayAt, BayLoad]]:
    """Return what stands on a horizontal: the bays of the level above, or the whole top."""
    if above is None:
        lower = uprights(unit, unit.level[-1])
        whole = BayAt(number=1, left=lower[0].left, right=lower[-1].right)
        fill = unit.top_contents[0] if unit.top_contents else None
        # what stands on top has no shelf above it: a bay's usual height is taken
        height = unit.level[-1].height
        pieces = _in_bay(fill, whole, lower, height, depth, catalogue)
        return [(replace(at, number=n), load) for n, (at, load) in enumerate(pieces, start=1)]
    number = next(n for n, level in enumerate(unit.level) if level is above)
    standing = carriers(unit, unit.level[number - 1] if number else None)
    return [
        piece
        for bay, fill in zip(bays(unit, above), above.fills, strict=True)
        for piece in _in_bay(fill, bay, standing, above.height, depth, catalogue)
    ]


def _in_bay(
    fill: Fill | None,
    bay: BayAt,
    standing: Sequence[UprightAt],
    height: float,
    depth: float,
    catalogue: Catalogue,
) -> list[tuple[BayAt, BayLoad]]:
    """What stands in a bay; with people in it, cut over the uprights that stand below."""
    if fill is not None and fill.people is not None:
        return people_between(fill, bay, standing, height, depth, catalogue)
    return [(bay, bay_load(fill, bay.right - bay.left, height, depth, catalogue))]


def _beams(
    site: Site,
    shelf: Shelf,
    shape: ShelfSection,
    place: Place,
    standing: Sequence[UprightAt],
    loaded: Sequence[tuple[BayAt, BayLoad]],
    landing: Sequence[UprightForce],
    hold: BackHold | str | None,
    arcs: Sequence[Arc | None],
) -> list[ShelfBeam]:
    """One beam over all uprights, or one for each gap between them."""
    bearing, said = end_bearing(shelf)
    if isinstance(hold, str):
        said = [*said, f"the back is not counted on: {hold}"]
    runs = beam_runs(shelf, standing)
    made = []
    for number, (run, arc) in enumerate(zip(runs, arcs, strict=True), start=1):
        start, end = run[0].right - bearing / 2, run[-1].left + bearing / 2
        supports = [Support(name=run[0].name, at=0.0, bearing=bearing)]
        supports += [
            Support(name=inner.name, at=inner.centre - start, bearing=inner.right - inner.left)
            for inner in run[1:-1]
        ]
        supports.append(Support(name=run[-1].name, at=end - start, bearing=bearing))
        on_it = [bay for bay in (_clipped(*pair, start, end) for pair in loaded) if bay]
        made.append(
            shelf_beam(
                place=place if len(runs) == 1 else replace(place, bay=f"bay {number}"),
                shape=shape,
                length=end - start,
                supports=supports,
                bays=on_it,
                landings=[
                    Landing(
                        name=foot.upright.name,
                        at=foot.upright.centre - start,
                        dead=foot.dead,
                        imposed=foot.imposed,
                    )
                    for foot in landing
                    if start < foot.upright.centre < end
                ],
                shelf=shelf,
                site=site,
                said=said,
                hold=hold if isinstance(hold, BackHold) else None,
                plan=arc,
                # straight ones lie still; the end of a curved one lifts at a corner
                held_down=arc is None or not shelf.loose,
                backed=arc is not None and hold is not None,
            )
        )
    return made


def _hold(
    unit: Unit,
    shelf: Shelf,
    shape: ShelfSection,
    below: Level | None,
    above: Level | None,
    site: Site,
    catalogue: Catalogue,
) -> BackHold | str | None:
    """What the back does for a horizontal, or why nothing; None where there is none."""
    closed = [
        (back, level)
        for level in (below, above)
        if level is not None and (back := back_of(unit, level)) is not None
    ]
    if not closed or shelf.loose or shelf.pins is not None:
        return None
    if unit.plan is not None:
        return "a back bent round a curve is not worked out"
    back, level = closed[0]
    if len({back.model_dump_json() for back, _ in closed}) > 1:
        # two sheets meet behind the shelf: the thinner is taken, with its own level alone
        back, level = min(closed, key=lambda pair: pair[0].thickness)
        closed = [(back, level)]
    if below is None or above is None:
        back = back.model_copy(update={"holds": "shelves"})  # the edge of the back itself
    sheet = sheet_of(
        [level.height for _, level in closed],
        [
            after.centre - before.centre
            for _, level in closed
            for before, after in pairwise(uprights(unit, level))
        ],
    )
    return back_hold(back, sheet, shape.pieces[0].material, site.service_class, catalogue)


def beam_runs(shelf: Shelf, standing: Sequence[UprightAt]) -> list[tuple[UprightAt, ...]]:
    """Return the uprights under each panel of a horizontal: all, or those beside each gap."""
    through = shelf.runs == "through" or len(standing) == 2
    return [tuple(standing)] if through else list(pairwise(standing))


def _clipped(bay: BayAt, load: BayLoad, start: float, end: float) -> LoadedBay | None:
    """The part of a bay above one beam, with its share of the load."""
    left, right = max(bay.left, start), min(bay.right, end)
    if right - left <= 1.0:
        return None
    kept = load.clipped(left - bay.left, right - bay.left, bay.right - bay.left)
    return LoadedBay(name=bay.name, start=left - start, end=right - start, load=kept)
