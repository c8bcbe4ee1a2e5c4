"""Elevation of one unit, and of units that stand on each other, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from shelfload.check.assess import Findings
from shelfload.check.result import Verdict
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import uprights
from shelfload.idealise.loads import BayLoad
from shelfload.idealise.stack import back_of, carriers, loaded_bays
from shelfload.report import carcass
from shelfload.report.chip import chip
from shelfload.report.document import MARKS
from shelfload.report.ink import CLASSES
from shelfload.report.key import key_of
from shelfload.report.states import (
    UNKNOWN,
    SagShape,
    State,
    drawn_as,
    exaggeration,
    gravest,
    sag_shapes,
    states,
)
from shelfload.report.svg import (
    Drawing,
    Scale,
    across,
    alike,
    label,
    number,
    path,
    shortened,
    up,
    width_of,
)
from shelfload.units import UnitSystem
from shelfload.wording import size, spelled

LEFT, RIGHT, TOP, FOOT = 68.0, 146.0, 52.0, 80.0
NARROW, WIDE = 500.0, 790.0
LEAST = 430.0
TALLEST = 470.0
_CHIP = 34.0
_SAG_SHOWN = 16.0
_MOST_BAYS = 4


def sheet_scale(width: float, height: float, bays: int = 1) -> tuple[Scale, bool]:
    """Return the scale that fits a unit [mm] on a sheet, and whether the sheet is a wide one."""
    wide = width > 1.7 * height or bays > _MOST_BAYS
    room = (WIDE if wide else NARROW) - LEFT - RIGHT
    per_mm = min(room / width, TALLEST / height)
    return Scale(per_mm=per_mm, left=LEFT, foot=TOP + height * per_mm), wide


def unit_elevation(findings: Findings, name: str, key: str, system: UnitSystem) -> Drawing:
    """Draw one unit from the front with its contents, verdicts, sag and dimensions."""
    whole = findings.whole
    placed, site = whole.placed[name], whole.project.site
    width, height = placed.weights.width, placed.weights.height
    bays = max(len(level.bays) for level in placed.unit.level)
    scale, wide = sheet_scale(width, height, bays)
    known = states(findings, name)
    joins = [line for line in findings.joins if line.place.unit == name]
    shapes = sag_shapes(findings, name)
    lowest = min(level.height for level in placed.unit.level) * scale.per_mm
    deepest = max((float(np.abs(shape.sag).max()) for shape in shapes), default=0.0)
    times = exaggeration(deepest, scale.per_mm, min(_SAG_SHOWN, 0.4 * lowest))
    screws = [*carcass.screw_marks(scale, placed, joins)]
    parts = [
        *carcass.backs(scale, placed, key),
        *carcass.contents(scale, placed, whole.catalogue, system),
        *carcass.boards(scale, placed, known, key),
        *carcass.ground(scale, placed),
        *(_sagging(scale, placed, shape, times) for shape in shapes),
        *screws,
        *carcass.wall_marks(scale, placed, site),
        *_measured(scale, placed, system),
        *_chips(scale, placed, known, key),
    ]
    shown = _key(findings, placed, known, shapes, times, bool(screws))
    sheet = WIDE if wide else NARROW
    if not wide:
        sheet = max(LEFT + width * scale.per_mm + RIGHT, LEAST)
    legend, tall = key_of(shown, key, 8.0, scale.foot + FOOT, sheet - 16.0)
    return Drawing(
        key=key,
        title=f"{shortened(name)} from the front"
        + (", unrolled along the middle of its depth" if placed.unit.plan is not None else ""),
        description=_described(placed, known, system),
        width=sheet,
        height=scale.foot + FOOT + tall + 4.0,
        body="".join(parts) + legend,
        wide=wide,
    )


def group_elevation(
    findings: Findings, names: Sequence[str], key: str, system: UnitSystem
) -> Drawing:
    """Draw units that stand on each other or hang between each other, as they stand."""
    whole = findings.whole
    group = [whole.placed[name] for name in names]
    left = min(placed.left for placed in group)
    low = min(placed.bottom for placed in group)
    width = max(placed.right for placed in group) - left
    height = max(placed.top for placed in group) - low
    sheet, wide = sheet_scale(width, height, _MOST_BAYS + 1)
    parts: list[str] = []
    names_at: list[str] = []
    for placed in group:
        scale = Scale(
            per_mm=sheet.per_mm,
            left=sheet.x(placed.left - left),
            foot=sheet.y(placed.bottom - low),
        )
        parts += [
            *carcass.backs(scale, placed, key),
            *carcass.boards(scale, placed, states(findings, placed.unit.name), key),
            *(() if placed.below else carcass.ground(scale, placed)),
            *carcass.wall_marks(scale, placed, whole.project.site),
        ]
        middle = scale.x(placed.weights.width / 2), scale.y(placed.weights.height / 2)
        verdict = gravest(states(findings, placed.unit.name).values())
        name = shortened(placed.unit.name, 26)
        names_at.append(label(*middle, name, at="middle", class_="d-name"))
        names_at.append(
            label(
                middle[0],
                middle[1] + 17,
                MARKS[verdict],
                at="middle",
                class_=f"d-name d-{CLASSES[verdict]}",
            )
        )
    parts += names_at
    parts.append(across(sheet.x(0.0), sheet.x(width), sheet.foot + 30, _mm(width, system)))
    parts.append(up(sheet.left - 24, sheet.y(0.0), sheet.y(height), _mm(height, system)))
    return Drawing(
        key=key,
        title="How the units stand, from the front",
        description=f"{', '.join(shortened(name) for name in names)}: together "
        f"{_mm(width, system)} wide and {_mm(height, system)} high.",
        width=WIDE,
        height=sheet.foot + FOOT,
        body="".join(parts),
        wide=wide,
    )


def _sagging(scale: Scale, placed: Placed, shape: SagShape, times: float) -> str:
    """Draw the sag of one shelf below its underside."""
    at = next(
        (n for n, panel in enumerate(placed.weights.panels) if panel.name == shape.beam.place.part),
        None,
    )
    if at is None:
        return ""
    unit, panel = placed.unit, placed.weights.panels[at]
    standing = {one.name: one for one in carriers(unit, unit.level[at - 1] if at else None)}
    first = standing.get(shape.beam.supports[0].name)
    if first is None:
        return ""
    start = first.right - shape.beam.supports[0].bearing / 2
    points = " ".join(
        f"{number(scale.x(start + x))},{number(scale.y(panel.z) + w * scale.per_mm * times)}"
        for x, w in zip(shape.along, shape.sag, strict=True)
    )
    return path(f"M{points}", "d-sag")


def _measured(scale: Scale, placed: Placed, system: UnitSystem) -> list[str]:
    """Dimensions: bays under the unit, clear heights and the total beside it."""
    unit, width, height = placed.unit, placed.weights.width, placed.weights.height
    foot = scale.foot + 36
    lowest = uprights(unit, unit.level[0])
    bays = [(before.right, after.left) for before, after in pairwise(lowest)]
    parts = [
        across(scale.x(left), scale.x(right), foot, _times(count, one, system))
        for left, right, one, count in _grouped(bays, scale, system)
    ]
    parts.append(across(scale.x(0.0), scale.x(width), foot + 24, _mm(width, system)))
    storeys = [(low, high) for _, low, high in carcass.storeys(placed)]
    parts += [
        up(scale.left - 10, scale.y(low), scale.y(high), _times(count, one, system))
        for low, high, one, count in _grouped(storeys, scale, system)
    ]
    parts.append(up(scale.left - 38, scale.y(0.0), scale.y(height), _mm(height, system)))
    if placed.bottom > 0.0:
        at = f"underside {_mm(placed.bottom, system)} above the floor"
        parts.append(label(scale.x(0.0), 14, at, class_="d-soft"))
    return parts


def _grouped(
    stretches: Sequence[tuple[float, float]], scale: Scale, system: UnitSystem
) -> list[tuple[float, float, float, int]]:
    """Keep stretches one by one where all their dimensions fit, else put equal ones together."""
    fits = all(
        width_of(_mm(end - start, system)) <= (end - start) * scale.per_mm - 4
        for start, end in stretches
    )
    return [(a, b, b - a, 1) for a, b in stretches] if fits else alike(stretches)


def _times(count: int, one: float, system: UnitSystem) -> str:
    return _mm(one, system) if count == 1 else f"{count} x {_mm(one, system)}"


def _chips(scale: Scale, placed: Placed, known: dict[str, State], key: str) -> list[str]:
    """Write beside each shelf how far it is used; neighbours keep clear of each other."""
    x = scale.x(placed.weights.width) + 22
    shelves = {panel.name for panel in placed.weights.panels}
    others = [state for part, state in known.items() if part not in shelves]
    parts: list[str] = []
    if others:
        whole = gravest(others)
        parts.append(label(x, 12, "as a whole", class_="d-soft"))
        parts.append(label(x, 27, MARKS[whole], class_=f"d-{CLASSES[whole]}"))
    last = np.inf
    for panel in placed.weights.panels:
        level = scale.y(panel.z + panel.thickness / 2)
        y = min(level, last - _CHIP)
        last = y
        parts.append(chip(x, y, level, panel.name, known.get(panel.name, UNKNOWN), key))
    return parts


def _key(
    findings: Findings,
    placed: Placed,
    known: dict[str, State],
    shapes: Sequence[SagShape],
    times: float,
    screws: bool,
) -> list[tuple[str, str]]:
    unit = placed.unit
    shelves = [known.get(panel.name, UNKNOWN) for panel in placed.weights.panels]
    found = [
        (CLASSES[verdict], f"shelf: {MARKS[verdict]}")
        for verdict in Verdict
        if any(state.verdict is verdict for state in shelves)
    ]
    doubled = {panel.shelf.joined for panel in placed.weights.panels if panel.shelf.panels == 2}
    doubled |= {one.joined for one in (unit.sides, unit.dividers) if one.panels == 2}
    found += [(bond, f"doubled, {bond}") for bond in sorted(filter(None, doubled))]
    if any(back_of(unit, level) is not None for level in unit.level):
        found.append(("back", "back"))
    if any(load.even for load in _loads(findings, placed)):
        found.append(("goods", "contents, with their mass"))
    if shapes:
        found.append(("sag", f"{shapes[0].when}, all bays full, {drawn_as(times)}"))
    if screws:
        found.append(("screw", "fasteners, see the joins"))
    rows = carcass.wall_rows(placed, findings.whole.project.site)
    if rows:
        here = rows[0].located
        found.append(
            ("wall" if here else "row", f"{rows[0].word} to the wall")
            if here
            else ("row", f"{rows[0].word} to the wall: in studs, which are not located")
        )
    return found


def _loads(findings: Findings, placed: Placed) -> list[BayLoad]:
    unit, depth = placed.unit, placed.weights.depth
    return [
        load
        for level in (*unit.level, None)
        for _, load in loaded_bays(unit, level, depth, findings.whole.catalogue)
    ]


def _described(placed: Placed, known: dict[str, State], system: UnitSystem) -> str:
    """Say in words what the drawing shows."""
    weights = placed.weights
    size = (
        f"{_mm(weights.width, system)} wide, {_mm(weights.height, system)} high, "
        f"{_mm(weights.depth, system)} deep"
    )
    shelves = "; ".join(
        f"{panel.name} {known.get(panel.name, UNKNOWN).text}" for panel in reversed(weights.panels)
    )
    return f"{size}. From the top: {shelves}."


def _mm(value: float, system: UnitSystem) -> str:
    return spelled(size(value), system)
