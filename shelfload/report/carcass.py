"""A unit seen from the front: backs, contents, uprights, shelves, supports, fixings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from shelfload.check.join_line import JoinLine
from shelfload.check.restraint import ASSUMED_SPACING, STUD_EDGE, UNDER_TOP
from shelfload.check.result import Verdict
from shelfload.check.wall import TOP_ROW
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Level, Unit
from shelfload.describe.parts import Shelf
from shelfload.describe.site import Site
from shelfload.describe.standing import Hung, Restraint
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import UprightAt, bays, uprights
from shelfload.idealise.loads import BayLoad
from shelfload.idealise.stack import back_of, beam_runs, carriers, loaded_bays
from shelfload.report.ink import CLASSES
from shelfload.report.states import UNKNOWN, State
from shelfload.report.svg import Scale, label, number, path, rect, tag, width_of, words
from shelfload.solve.studs import stud_places
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

_HEAPED = 0.55  # of the clear height, for contents whose height nobody described
_DOT = 2.4


def backs(scale: Scale, placed: Placed, key: str) -> Iterator[str]:
    """Draw the backs that show in open bays."""
    for level, low, high in storeys(placed):
        if back_of(placed.unit, level) is None:
            continue
        for bay in bays(placed.unit, level):
            yield scale.box(bay.left, low, bay.right, high, "", fill=f"url(#{key}-back)")


def storeys(placed: Placed) -> Iterator[tuple[Level, float, float]]:
    """Give each level with the heights of its floor and its ceiling [mm]."""
    for at, level in enumerate(placed.unit.level):
        floor = placed.weights.floor_of(at)
        yield level, floor, floor + level.height


def boards(scale: Scale, placed: Placed, states: dict[str, State], key: str) -> Iterator[str]:
    """Draw sides, dividers and shelves, each shelf hatched by its verdict."""
    unit, panels = placed.unit, placed.weights.panels
    for at, (level, low, high) in enumerate(storeys(placed)):
        for upright in uprights(unit, level):
            described = unit.sides if upright.name.endswith("side") else unit.dividers
            through = panels[at + 1].shelf.runs == "through"
            top = high if through else high + panels[at + 1].thickness
            foot = low
            if at == 0 and panels[0].shelf.runs != "through":
                foot = panels[0].z
            yield scale.box(upright.left, foot, upright.right, top, "d-board")
            if described.panels == 2:
                yield _seam(scale, upright.centre, foot, upright.centre, top, described.joined)
    for at, panel in enumerate(panels):
        below = unit.level[at - 1] if at else None
        state = states.get(panel.name, UNKNOWN)
        for left, right in extents(unit, panel.shelf, below):
            yield scale.box(left, panel.z, right, panel.z + panel.thickness, "d-board")
            yield from _shaded(scale, left, right, panel.z, panel.thickness, state.verdict, key)
            if panel.shelf.panels == 2:
                seam = panel.z + panel.thickness / 2
                yield _seam(scale, left, seam, right, seam, panel.shelf.joined)
            yield from _lipping(scale, left, right, panel.z + panel.thickness, panel.shelf)


def extents(unit: Unit, shelf: Shelf, below: Level | None) -> list[tuple[float, float]]:
    """Return where each panel of a horizontal starts and ends [mm]."""
    standing = carriers(unit, below)
    ends = uprights(unit, below if below is not None else unit.level[0])
    if shelf.runs == "through":
        return [(ends[0].left, ends[-1].right)]
    if not standing:
        return [(ends[0].right, ends[-1].left)]
    return [(run[0].right, run[-1].left) for run in beam_runs(shelf, standing)]


def _shaded(
    scale: Scale,
    left: float,
    right: float,
    z: float,
    thickness: float,
    verdict: Verdict,
    key: str,
) -> Iterator[str]:
    if verdict is Verdict.PASSES:
        return
    name = CLASSES[verdict]
    yield scale.box(left, z, right, z + thickness, f"d-tint-{name}")
    yield scale.box(
        left, z, right, z + thickness, f"d-edge-{name}", style=f"fill: url(#{key}-{name})"
    )


def _seam(scale: Scale, x1: float, z1: float, x2: float, z2: float, joined: str | None) -> str:
    dashes = {"screwed": "5 2", "lying": "1.5 2"}.get(joined or "")
    line = (
        f"M{number(scale.x(x1))},{number(scale.y(z1))}L{number(scale.x(x2))},{number(scale.y(z2))}"
    )
    return path(line, "d-seam", stroke_dasharray=dashes)


def _lipping(scale: Scale, left: float, right: float, top: float, shelf: Shelf) -> Iterator[str]:
    front = shelf.lipping_front
    if front is not None:
        yield scale.box(left, top - front.height, right, top, "d-seam")


def contents(
    scale: Scale, placed: Placed, catalogue: Catalogue, system: UnitSystem
) -> Iterator[str]:
    """Draw what stands in each bay and on top, with its mass; heights are a sign only."""
    unit = placed.unit
    deep = placed.weights.depth
    for level, low, high in storeys(placed):
        loads = loaded_bays(unit, level, deep, catalogue)
        for (bay, load), fill in zip(loads, level.fills, strict=True):
            share = fill.fill if fill is not None and fill.what is not None else _HEAPED
            tall = (high - low) * min(share, 0.94)
            yield from _standing(scale, bay.left, bay.right, low, tall, load, system)
    top = placed.weights.height
    for bay, load in loaded_bays(unit, None, deep, catalogue):
        tall = min(0.25 * unit.level[-1].height, 100.0)
        yield from _standing(scale, bay.left, bay.right, top, tall, load, system)


def _standing(
    scale: Scale,
    left: float,
    right: float,
    low: float,
    tall: float,
    load: BayLoad,
    system: UnitSystem,
) -> Iterator[str]:
    if load.even:
        first, last = load.reach or (0.0, right - left)
        inset = 0.04 * (last - first)
        x1, x2 = left + first + inset, left + last - inset
        mass = load.even * (right - left)
        text = spelled(figure(mass, "force", as_mass=True), system)
        block = scale.box(x1, low, x2, low + tall, "d-goods")
        yield tag("g", words("title", f"{text}: {load.words}") + block)
        if width_of(text) < (x2 - x1) * scale.per_mm and tall * scale.per_mm > 13:
            middle = scale.y(low + tall / 2) + 4
            # a point load's arrow stands in mid-bay more often than elsewhere
            aside = 0.25 if load.points and 2 * width_of(text) < (x2 - x1) * scale.per_mm else 0.5
            yield label(scale.x(x1 + aside * (x2 - x1)), middle, text, at="middle")
        elif width_of(text) < tall * scale.per_mm:
            x = scale.x((x1 + x2) / 2) + 4
            yield label(x, scale.y(low + tall / 2), text, at="middle", turned=True)
    for force, at, _ in load.points:
        x, y = scale.x(left + at), scale.y(low)
        text = spelled(figure(force, "force", as_mass=True), system)
        arrow = f"M{number(x)},{number(y - 22)} V{number(y - 1)} m-3.5,-6 l3.5,6 l3.5,-6"
        yield path(arrow, "d-seam")
        yield label(x, y - 25, text, at="middle")


def ground(scale: Scale, placed: Placed) -> Iterator[str]:
    """Draw what is under a unit: the floor, feet, or nothing."""
    unit, width = placed.unit, placed.weights.width
    foot = scale.foot
    bearers: Sequence[UprightAt] = carriers(unit, None)
    if unit.hangs is None and unit.between is None:
        for upright in bearers:
            middle = scale.x(upright.centre)
            yield path(f"M{number(middle - 6)},{number(foot + 8)} h12 l-6,-8 z", "d-mark")
        if not bearers:
            yield rect(scale.x(0.0), foot, width * scale.per_mm, 4.0, "d-mark")
    if placed.bottom == 0.0 and not placed.below and unit.hangs is None:
        y = number(foot + 8)
        strokes = " ".join(
            f"M{number(x)},{y} l-6,6" for x in np.arange(scale.x(0.0), scale.x(width) + 8, 9.0)
        )
        yield path(
            f"M{number(scale.x(0.0) - 8)},{y} H{number(scale.x(width) + 8)} {strokes}", "d-thin"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class WallRow:
    """A row of fixings to the wall: height above the underside and places along it [mm].

    ``located`` is False where nobody has said where the studs are; the places are then a
    drawing's guess and are not drawn.
    """

    height: float
    places: tuple[float, ...]
    located: bool
    word: str


def wall_rows(placed: Placed, site: Site) -> list[WallRow]:
    """Return the rows of wall fixings of a unit, as far as they are described."""
    unit, width = placed.unit, placed.weights.width
    if unit.hangs is not None:
        places, located = _along_wall(unit.hangs, width, site)
        rows = unit.hangs.heights or (placed.weights.height - TOP_ROW,)
        return [WallRow(height=z, places=places, located=located, word="fixed") for z in rows]
    if unit.restraint is not None:
        tie = unit.restraint
        places, located = _along_wall(tie, width, site)
        height = tie.height or placed.weights.height - UNDER_TOP
        return [WallRow(height=height, places=places, located=located, word="tied back")]
    return []


def _along_wall(held: Hung | Restraint, width: float, site: Site) -> tuple[tuple[float, ...], bool]:
    first = held.first_stud
    count = held.count or 2
    if site.wall in ("timber stud", "metal stud"):
        if first is None:
            return (), False
        spacing = site.stud_spacing or ASSUMED_SPACING
        studs = stud_places(0.0, width, spacing, first, STUD_EDGE)
        if isinstance(held, Restraint) and count < studs.size:
            studs = studs[np.linspace(0, studs.size - 1, count).round().astype(int)]
        return tuple(float(x) for x in studs), True
    edge = min(STUD_EDGE, width / 4)
    if count == 1:
        return (width / 2,), True
    return tuple(float(x) for x in np.linspace(edge, width - edge, count)), True


def wall_marks(scale: Scale, placed: Placed, site: Site) -> Iterator[str]:
    """Draw the fixings to the wall; a dashed line alone where the studs are not located."""
    width = placed.weights.width
    for row in wall_rows(placed, site):
        y = scale.y(row.height)
        yield path(
            f"M{number(scale.x(0.0))},{number(y)} H{number(scale.x(width))}", "d-dim",
            stroke_dasharray="7 3",
        )  # fmt: skip
        for x in row.places:
            yield cross(scale.x(x), y)


def cross(x: float, y: float) -> str:
    """Draw a fixing into the wall."""
    return tag("circle", cx=x, cy=y, r=4.0, class_="d-mark") + path(
        f"M{number(x - 4)},{number(y)} h8 M{number(x)},{number(y - 4)} v8", "d-seam"
    )


def screw_marks(scale: Scale, placed: Placed, joins: Sequence[JoinLine]) -> Iterator[str]:
    """Draw the fasteners of joins seen from the front, where their places are known."""
    for line in joins:
        if not line.positions:
            continue
        length = line.positions[0] + line.positions[-1]
        for x, z in _places(placed, line, length):
            yield tag("circle", cx=scale.x(x), cy=scale.y(z), r=_DOT, class_="d-mark")


def _places(placed: Placed, line: JoinLine, length: float) -> Iterator[tuple[float, float]]:
    unit, named = placed.unit, line.place.part.split(", ")
    panels = {panel.name: (at, panel) for at, panel in enumerate(placed.weights.panels)}
    if line.along == "along the span":
        for name in named:
            if name not in panels:
                continue
            at, panel = panels[name]
            level = unit.level[min(at, len(unit.level) - 1)]
            for bay in bays(unit, level):
                start = (bay.left + bay.right - length) / 2
                if abs(length - (bay.right - bay.left)) < placed.weights.width / 4:
                    for mark in line.positions:
                        yield start + mark, panel.z + panel.thickness / 2
    elif line.along == "up the side" and "side to side" in line.join:
        for at, (level, low, high) in enumerate(storeys(placed), start=1):
            if f"level {at}" not in named or abs(length - (high - low)) > 1.0:
                continue
            for upright in uprights(unit, level):
                described = unit.sides if upright.name.endswith("side") else unit.dividers
                if described.panels == 2 and described.joined not in ("lying", "glued"):
                    for mark in line.positions:
                        yield upright.centre, low + mark
