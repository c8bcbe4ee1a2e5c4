"""Plans: a unit cut through its lowest level, and a lone shelf from above, curved or straight."""

from __future__ import annotations

from math import cos, sin

from shelfload.check.assess import Findings
from shelfload.describe.model import LoneShelf
from shelfload.describe.parts import Arc
from shelfload.idealise.geometry import bays, uprights
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.stack import back_of
from shelfload.report import carcass
from shelfload.report.elevation import LEAST, LEFT, NARROW, RIGHT, TOP, WIDE, sheet_scale
from shelfload.report.ring_plan import ring_plan
from shelfload.report.svg import (
    Drawing,
    Scale,
    across,
    label,
    number,
    path,
    shortened,
    up,
)
from shelfload.units import UnitSystem
from shelfload.wording import figure, size, spelled

_STEPS = 48


def unit_plan(findings: Findings, name: str, key: str, system: UnitSystem) -> Drawing:
    """Draw the lowest level of a unit from above, at the scale of its elevation."""
    whole = findings.whole
    placed, site = whole.placed[name], whole.project.site
    if placed.unit.plan is not None:
        return ring_plan(placed, key, system)
    unit, width, depth = placed.unit, placed.weights.width, placed.weights.depth
    most = max(len(level.bays) for level in unit.level)
    front, wide = sheet_scale(width, placed.weights.height, most)
    scale = Scale(per_mm=front.per_mm, left=LEFT, foot=TOP + depth * front.per_mm)
    lowest = unit.level[0]
    back = back_of(unit, lowest)
    rear = depth - (back.thickness if back is not None else 0.0)
    parts = [scale.box(0.0, 0.0, width, depth, "d-frame")]
    if back is not None:
        parts.append(scale.box(0.0, rear, width, depth, "", fill=f"url(#{key}-back)"))
        parts.append(scale.box(0.0, rear, width, depth, "d-seam"))
    for upright in uprights(unit, lowest):
        described = unit.sides if upright.name.endswith("side") else unit.dividers
        parts.append(scale.box(upright.left, 0.0, upright.right, rear, "d-board"))
        if described.panels == 2:
            x = number(scale.x(upright.centre))
            parts.append(path(f"M{x},{number(scale.y(rear))} V{number(scale.y(0.0))}", "d-seam"))
    lipping = unit.shelf.lipping_front
    if lipping is not None:
        parts += [
            scale.box(bay.left, 0.0, bay.right, lipping.thickness, "d-board")
            for bay in bays(unit, lowest)
        ]
    standing = {round(one.left, 1) for one in uprights(unit, lowest)}
    others = {
        (round(one.left, 1), one.right)
        for level in unit.level[1:]
        for one in uprights(unit, level)
        if round(one.left, 1) not in standing
    }
    for left, right in sorted(others):
        parts.append(scale.box(left, 0.0, right, rear, "d-thin", stroke_dasharray="4 3"))
    parts += _wall(scale, placed.weights.width, depth, carcass.wall_rows(placed, site))
    parts.append(across(scale.x(0.0), scale.x(width), scale.foot + 32, _mm(width, system)))
    parts.append(up(scale.left - 14, scale.y(0.0), scale.y(depth), _mm(depth, system)))
    parts.append(label(scale.x(width / 2), scale.foot + 13, "front", at="middle", class_="d-soft"))
    said = f"{_mm(width, system)} wide, {_mm(depth, system)} deep, {len(lowest.bays)} bays"
    if others:
        said += "; uprights of upper levels that stand elsewhere are dashed"
        parts.append(
            label(scale.x(width) + 8, scale.y(depth / 2), "dashed: higher up", class_="d-soft")
        )
    sheet = WIDE if wide else max(LEFT + width * scale.per_mm + RIGHT, LEAST)
    return Drawing(
        key=key,
        title=f"{shortened(name)} from above, lowest level",
        description=said + ".",
        width=sheet,
        height=scale.foot + 52,
        body="".join(parts),
        wide=wide,
    )


def _wall(scale: Scale, width: float, depth: float, rows: list[carcass.WallRow]) -> list[str]:
    if not rows:
        return []
    y = scale.y(depth) - 8
    strokes = " ".join(
        f"M{number(scale.x(0.0) + step)},{number(y)} l6,-6"
        for step in range(0, int(width * scale.per_mm), 10)
    )
    parts = [
        path(f"M{number(scale.x(0.0))},{number(y)} H{number(scale.x(width))} {strokes}", "d-thin")
    ]
    parts += [carcass.cross(scale.x(x), y) for row in rows[:1] for x in row.places]
    parts.append(label(scale.x(width) + 8, y + 2, "wall", class_="d-soft"))
    return parts


def lone_plan(lone: LoneShelf, beam: ShelfBeam, key: str, system: UnitSystem) -> Drawing:
    """Draw a shelf without a carcass from above."""
    if lone.plan is not None:
        return _curved(lone, lone.plan, key, system)
    length, depth = beam.result.beam.length, lone.depth
    scale, _ = sheet_scale(length, max(depth, length / 1.7))
    scale = Scale(per_mm=scale.per_mm, left=LEFT, foot=TOP + depth * scale.per_mm)
    parts = [scale.box(0.0, 0.0, length, depth, "d-board")]
    for support in beam.supports:
        half = support.bearing / 2
        left, right = max(support.at - half, 0.0), min(support.at + half, length)
        parts.append(scale.box(left, 0.0, right, depth, "d-thin", stroke_dasharray="4 3"))
    parts.append(across(scale.x(0.0), scale.x(length), scale.foot + 28, _mm(length, system)))
    parts.append(up(scale.left - 14, scale.y(0.0), scale.y(depth), _mm(depth, system)))
    parts.append(label(scale.x(length / 2), scale.foot + 13, "front", at="middle", class_="d-soft"))
    return Drawing(
        key=key,
        title=f"{shortened(lone.name)} from above",
        description=f"{_mm(length, system)} long, {_mm(depth, system)} deep; "
        f"{len(beam.supports)} supports, dashed.",
        width=max(LEFT + length * scale.per_mm + RIGHT, LEAST),
        height=scale.foot + 52,
        body="".join(parts),
    )


def _curved(lone: LoneShelf, arc: Arc, key: str, system: UnitSystem) -> Drawing:
    """Draw a ring segment, its middle upwards on the sheet."""
    inner, outer = arc.inner_radius, arc.inner_radius + lone.depth
    half = arc.angle / 2
    wide = 2 * outer * (sin(half) if half < 1.5708 else 1.0)
    low = inner * cos(half) if half < 1.5708 else outer * cos(half)
    tall = outer - low
    per_mm = min((NARROW - LEFT - RIGHT) / wide, 380.0 / tall)

    def at(radius: float, turn: float) -> str:
        x = LEFT + (wide / 2 + radius * sin(turn)) * per_mm
        y = TOP + (outer - radius * cos(turn)) * per_mm
        return f"{number(x)},{number(y)}"

    turns = [half * (2 * step / _STEPS - 1) for step in range(_STEPS + 1)]
    outline = [at(outer, turn) for turn in turns] + [at(inner, turn) for turn in reversed(turns)]
    foot = TOP + tall * per_mm
    parts = [path(f"M{' L'.join(outline)} Z", "d-board")]
    parts.append(across(LEFT, LEFT + wide * per_mm, foot + 26, _mm(wide, system)))
    sizes = (
        f"inner radius {_mm(inner, system)}, depth {_mm(lone.depth, system)}, "
        f"{spelled(figure(arc.angle, 'angle'), system)}"
    )
    front = f"the front is the {arc.front} edge"
    parts.append(label(8, foot + 50, sizes, class_="d-soft"))
    parts.append(label(8, foot + 66, front, class_="d-soft"))
    said = f"{sizes}; {front}"
    return Drawing(
        key=key,
        title=f"{shortened(lone.name)} from above",
        description=said + ".",
        width=NARROW,
        height=foot + 76,
        body="".join(parts),
    )


def _mm(value: float, system: UnitSystem) -> str:
    return spelled(size(value), system)
