"""Changes to one shelf that might help it: each gives a whole changed description."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from shelfload.advise.spot import Spot
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.joins import Join
from shelfload.describe.model import Level, LoneShelf, Project, Unit, upright_thickness
from shelfload.describe.parts import Back, Fill, Lipping
from shelfload.describe.standing import Brackets
from shelfload.errors import QuantityError, UnknownName
from shelfload.idealise.stack import back_of
from shelfload.units import Load
from shelfload.wording import size

LIPPING_MATERIAL = "c16"
LIPPING_THICKNESS = 20.0
LIPPING_HEIGHTS = tuple(float(height) for height in range(30, 110, 10))
"""A softwood strip of a timber yard's size [mm], height in steps of 10 mm."""

SCREW_SPACING = 150.0
"""Between the screws of a double that is screwed together [mm]."""

BACK = Back.model_construct(material="birch-plywood", thickness=6.5, fixed="glued")
"""What a back that is put in is made of, where none is described."""

Kind = Literal[
    "divider", "double", "thicker", "lipping", "back", "grain", "material", "corners", "join",
    "span", "load",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change: what it is, and the description with it made."""

    kind: Kind
    words: str
    project: Project


def changes(at: Spot, catalogue: Catalogue) -> Iterator[Change]:
    """Return single changes to a shelf, every kind that applies to it."""
    yield from backs(at)
    yield from lippings(at)
    yield from doubles(at)
    yield from thicker(at, catalogue)
    yield from turned(at)
    yield from dividers(at)
    yield from other_materials(at, catalogue)


def dividers(at: Spot, most: int = 2) -> Iterator[Change]:
    """Put dividers under a shelf, and under them down to the floor where bays match."""
    for count in range(1, most + 1):
        words = "a divider" if count == 1 else f"{count} dividers"
        if at.lone is not None:
            if at.lone.plan is not None:
                return  # a curved shelf is held at its two ends only
            if not at.lone.spans:
                yield from _more_brackets(at.lone, at, count)
                continue
            split = _split_spans(at.lone, count)
            pitch = size(split["spans"][0])
            words = f"{words.replace('divider', 'support')} in each span ({pitch} clear)"
            yield Change(kind="divider", words=words, project=at.with_lone(**split))
            continue
        unit = at.in_unit
        if at.number == 0:
            return  # below the bottom panel there is no level to divide
        widths = unit.level[at.number - 1].bays
        own = tuple(
            _split_level(unit, level, count)
            if number < at.number and level.bays == widths
            else level
            for number, level in enumerate(unit.level)
        )
        base = "plinth" if unit.base == "sides" else unit.base
        width = size(own[at.number - 1].bays[0])
        under = " on a plinth" if base != unit.base else ""
        words = f"{words} in each bay below it, down to the floor{under} ({width} clear)"
        yield Change(kind="divider", words=words, project=at.with_unit(level=own, base=base))


def _more_brackets(lone: LoneShelf, at: Spot, count: int) -> Iterator[Change]:
    """Set more brackets, placed along the length for the least sag."""
    if isinstance(lone.supports, Brackets) and lone.supports.number is not None:
        number = lone.supports.number + count
        supports = lone.supports.model_copy(update={"number": number})
        words = f"{number} brackets instead of {lone.supports.number}"
        yield Change(kind="divider", words=words, project=at.with_lone(supports=supports))


def doubles(at: Spot) -> Iterator[Change]:
    """Put a second panel of the same sheet under the shelf, or glue two that only lie."""
    if at.shelf.panels == 1:
        every = size(SCREW_SPACING, down=True)
        screws = Join.model_construct(by="screws", spacing=SCREW_SPACING)
        yield Change(
            kind="double",
            words="a second panel glued under it",
            project=at.with_shelf(panels=2, joined="glued"),
        )
        yield Change(
            kind="double",
            words=f"a second panel screwed under it every {every}",
            project=at.with_shelf(panels=2, joined="screwed", screws=screws),
        )
        yield Change(
            kind="double",
            words="a second panel lying on it",
            project=at.with_shelf(panels=2, joined="lying"),
        )
    elif at.shelf.joined != "glued":
        yield Change(
            kind="double", words="its two panels glued", project=at.with_shelf(joined="glued")
        )


def thicker(at: Spot, catalogue: Catalogue, most: int = 3) -> Iterator[Change]:
    """Take the next sheets that are sold."""
    try:
        row = catalogue.material(at.material, at.thickness).material
    except (QuantityError, UnknownName):
        return
    larger = [sheet for sheet in catalogue.sheets(row) if sheet > at.thickness + 1.0]
    for sheet in larger[:most]:
        words = f"{size(sheet)} {row.called}"
        yield Change(kind="thicker", words=words, project=at.with_shelf(thickness=sheet))


def rear_lippings(at: Spot) -> Iterator[Change]:
    """Glue a strip to the rear edge alone: where the front has to stay as it is."""
    yield from lippings(at, {("lipping_rear",): "rear lipping"})


def lippings(at: Spot, where_to: Mapping[tuple[str, ...], str] | None = None) -> Iterator[Change]:
    """Glue a strip to the front edge, or to both edges, in rising heights."""
    for edges, where in (where_to or _EDGES).items():
        own = [getattr(at.shelf, edge) for edge in edges]
        if any(strip is not None for strip in own):
            if len(edges) == 1:
                yield from _taller(at, edges[0], where, own[0])
            continue
        for height in LIPPING_HEIGHTS:
            strip = Lipping.model_construct(
                material=LIPPING_MATERIAL, thickness=LIPPING_THICKNESS, height=height
            )
            words = (
                f"a glued {where} {size(LIPPING_THICKNESS, up=True)} x "
                f"{size(height, up=True)} of softwood"
            )
            project = at.with_shelf(**dict.fromkeys(edges, strip))
            yield Change(kind="lipping", words=words, project=project)


def _taller(at: Spot, edge: str, where: str, strip: Lipping) -> Iterator[Change]:
    """Make a strip that is there taller."""
    for height in LIPPING_HEIGHTS:
        if height > strip.height:
            words = f"its {where} {size(height, up=True)} tall"
            project = at.with_shelf(**{edge: strip.model_copy(update={"height": height})})
            yield Change(kind="lipping", words=words, project=project)


_EDGES = {
    ("lipping_front",): "front lipping",
    ("lipping_front", "lipping_rear"): "lipping front and rear",
}


def backs(at: Spot) -> Iterator[Change]:
    """Fix the back of the bays above and below, or put one in."""
    if at.unit is None or at.unit.plan is not None:
        return  # a back bent round a curve is not counted on
    levels = list(at.unit.level)
    for number in (at.number - 1, at.number):
        if not 0 <= number < len(levels):
            continue
        back = back_of(at.unit, levels[number])
        if back is not None and back.fixed == "glued":
            return
        fixed = BACK if back is None else back.model_copy(update={"fixed": "glued"})
        levels[number] = levels[number].model_copy(update={"back": fixed})
    words = "its back glued on" if at.unit.back is not None else "a back glued on"
    yield Change(kind="back", words=words, project=at.with_unit(level=tuple(levels)))


def turned(at: Spot) -> Iterator[Change]:
    """Turn the face grain."""
    if at.shelf.grain == "across":
        yield Change(
            kind="grain",
            words="its face grain along the span",
            project=at.with_shelf(grain="along"),
        )


def other_materials(at: Spot, catalogue: Catalogue) -> Iterator[Change]:
    """Take another sheet of the same thickness."""
    try:
        now = catalogue.material(at.material, at.thickness)
    except (QuantityError, UnknownName):
        return
    for name in ("birch-plywood", "spruce-plywood", "mdf", "c24", "european-beech"):
        try:
            other = catalogue.material(name, at.thickness)
        except (QuantityError, UnknownName):
            continue
        if other.material.E_0 <= now.material.E_0 or other.material.family == now.material.family:
            continue
        words = f"{size(at.thickness)} {other.material.called} instead"
        yield Change(kind="material", words=words, project=at.with_shelf(material=name))


def _split_level(unit: Unit, level: Level, count: int) -> Level:
    divider = upright_thickness(unit, unit.dividers)
    bays: list[float] = []
    fills: list[Fill | None] = []
    for width, fill in zip(level.bays, level.fills, strict=True):
        each = (width - count * divider) / (count + 1)
        bays += [each] * (count + 1)
        fills += _split_fill(fill, count + 1, each, each + divider)
    return level.model_copy(update={"bays": tuple(bays), "contents": tuple(fills)})


def _split_spans(lone: LoneShelf, count: int) -> dict[str, Any]:
    spans: list[float] = []
    fills: list[Fill | None] = []
    for width, fill in zip(lone.spans, lone.fills, strict=True):
        each = (width - count * lone.support_width) / (count + 1)
        spans += [each] * (count + 1)
        fills += _split_fill(fill, count + 1, each, each + lone.support_width)
    return {"spans": tuple(spans), "contents": tuple(fills)}


def _split_fill(fill: Fill | None, parts: int, width: float, pitch: float) -> list[Fill | None]:
    """Share what stood in one bay between its parts; a total load is divided, points move."""
    if fill is None:
        return [None] * parts
    shared: dict[str, Any] = {"points": ()}
    if fill.load is not None and fill.load.kind == "total":
        shared["load"] = Load("total", fill.load.value / parts)
    if fill.count is not None:
        shared["fill"] = fill.fill / parts
    pieces: list[Fill | None] = []
    for part in range(parts):
        points = tuple(
            point.model_copy(update={"at": min(max(point.at - part * pitch, 0.0), width)})
            for point in fill.points
            if min(int(point.at / pitch), parts - 1) == part
        )
        piece = fill.model_copy(update={**shared, "points": points})
        pieces.append(None if piece.is_empty else piece)
    return pieces
