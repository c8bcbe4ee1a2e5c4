"""A unit as a stack of shelves: what each carries, what stands on it, top to bottom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Level, Unit
from shelfload.describe.parts import Back, Fill, Shelf, Upright
from shelfload.describe.site import Site
from shelfload.idealise.backs import BackHold, back_hold, sheet_of
from shelfload.idealise.geometry import BayAt, UprightAt, bays, shelf_name, uprights
from shelfload.idealise.loads import BayLoad, bay_load
from shelfload.idealise.people_between import people_between
from shelfload.idealise.place import Place
from shelfload.idealise.sections import (
    NoFigure,
    ShelfSection,
    SlipSpan,
    shelf_section,
    weight_of,
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
from shelfload.solve.beam import reaction_range


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightForce:
    """What a side or divider of a level carries down at its foot [N], all bays full."""

    place: Place
    upright: UprightAt
    level: int
    dead: float
    imposed: float


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
                found.feet += _flat_feet(unit, above, shape, landing, catalogue)
            continue
        loaded = loaded_bays(unit, above, shape.depth, catalogue)
        hold = _hold(unit, shelf, shape, below, above, site, catalogue)
        made = _beams(site, shelf, shape, place, standing, loaded, landing, hold)
        found.shelves += reversed(made)
        direct = _past_the_beams(shelf, standing, landing)
        landing = _feet(unit, number - 1, below, made, standing, direct, catalogue)
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
) -> list[ShelfBeam]:
    """One beam over all uprights, or one for each gap between them."""
    bearing, said = end_bearing(shelf)
    if isinstance(hold, str):
        said = [*said, f"the back is not counted on: {hold}"]
    runs = beam_runs(shelf, standing)
    made = []
    for number, run in enumerate(runs, start=1):
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


def _past_the_beams(
    shelf: Shelf, standing: Sequence[UprightAt], landing: Sequence[UprightForce]
) -> list[tuple[str, UprightForce]]:
    """Feet that stand right above an upright and never load the shelf between."""
    half = end_bearing(shelf)[0] / 2
    ends = [(run[0].right - half, run[-1].left + half) for run in beam_runs(shelf, standing)]
    found = []
    for foot in landing:
        x = foot.upright.centre
        if not any(start < x < end for start, end in ends):
            nearest = min(standing, key=lambda upright: abs(upright.centre - x))
            found.append((nearest.name, foot))
    return found


def _clipped(bay: BayAt, load: BayLoad, start: float, end: float) -> LoadedBay | None:
    """The part of a bay above one beam, with its share of the load."""
    left, right = max(bay.left, start), min(bay.right, end)
    if right - left <= 1.0:
        return None
    kept = load.clipped(left - bay.left, right - bay.left, bay.right - bay.left)
    return LoadedBay(name=bay.name, start=left - start, end=right - start, load=kept)


def _feet(
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
    imposed = dict(dead)
    for beam in made:
        always = beam.weights({"self": 1.0, "landing dead": 1.0})
        sometimes = beam.weights({"contents": 1.0, "landing": 1.0, "spot": 1.0})
        steady = always @ beam.result.reactions
        most, _ = reaction_range(beam.result, always, sometimes)
        for support, low, high in zip(beam.supports, steady, most, strict=True):
            dead[support.name] += float(low)
            imposed[support.name] += float(high - low)
    for name, foot in direct:
        dead[name] += foot.dead
        imposed[name] += foot.imposed
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
        )
        for upright in standing
    )


def _flat_feet(
    unit: Unit,
    above: Level | None,
    shape: ShelfSection,
    landing: Sequence[UprightForce],
    catalogue: Catalogue,
) -> list[UprightForce]:
    """Feet of a unit whose lowest panel lies flat: what stands on that panel goes to all alike."""
    lowest = uprights(unit, unit.level[0])
    loaded = loaded_bays(unit, above, shape.depth, catalogue)
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
