"""Does it stay square? Sideways load on every unit, and the backs and corners that resist it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import isfinite, pi

import numpy as np

from shelfload.check.frame import (
    Loosened,
    least_backs,
    level_height,
    loosened,
    sway,
)
from shelfload.check.result import Answer, Check
from shelfload.idealise.corners import corner_hold
from shelfload.idealise.elevation import Elevation
from shelfload.idealise.elevation_plan import BackedBay, Plan
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.shear_panel import sheet_slenderness
from shelfload.wording import figure

LEAN = 1.0 / 200.0
"""Sideways share of the vertical load: initial lean, EN 1995-1-1:2004, 5.4.4(2)."""
PUSH = 150.0
"""Someone leaning on one end, sideways [N] (common practice, no source)."""
SWAY = 1.0 / 200.0
"""Largest sway of a level over its height (common practice, no source)."""
BUCKLING_SAFETY = 1.5
NU = 0.3
QUESTION = "stays square"


def staying_square(whole: Whole) -> Iterable[Answer]:
    """Which levels resist a sideways load, and by how much do they sway?"""
    for elevation in whole.elevations:
        checks = tuple(_asked(whole, elevation))
        said = [
            f"a sideways push of {figure(PUSH, 'force')} at the top, and 1/200 of every weight",
            *(elevation.plan.said if elevation.plan is not None and elevation.plan.backs else ()),
            *dict.fromkeys(_corners_in_words(elevation, name) for name in elevation.units),
        ]
        yield Answer(checks=checks, assumptions=tuple(said))


def _corners_in_words(elevation: Elevation, name: str) -> str:
    """Say how far the corners of a unit are counted on."""
    unit = next(one.unit for one in elevation.placed if one.unit.name == name)
    sold = unit.panel.thickness
    return f"{name}: {corner_hold(unit, sold, sold).words}"


def _asked(whole: Whole, elevation: Elevation) -> Iterator[Check]:
    if elevation.result is None or elevation.plan is None:
        if not elevation.motions:
            for name in elevation.units:
                yield Check(
                    place=Place(unit=name),
                    question=QUESTION,
                    method="elevation frame",
                    source="",
                    measure="length",
                    reason=elevation.reason,
                )
            return
        yield from _moving(whole, elevation)
        return
    leaned = sway(elevation, elevation.result, PUSH, LEAN)
    for name in elevation.units:
        yield _swaying(elevation, elevation.plan, name, leaned)
    yield from _backs(elevation, elevation.plan, elevation.result)


def _moving(whole: Whole, elevation: Elevation) -> Iterator[Check]:
    """One check for each way it folds, with the fewest backs that stop them all."""
    moves = loosened(elevation)
    helped = least_backs(
        elevation, moves, whole.catalogue, push=PUSH, lean=LEAN, limit=SWAY
    )
    for move in moves:
        yield Check(
            place=move.place,
            question=QUESTION,
            method="elevation frame: it folds without resistance",
            source="rank of the frame's geometry, own method",
            measure="force",
            value=_sideways_force(elevation, move),
            limit=0.0,
            governs=move.words,
            remedy=_remedy(move, helped.words if helped else ""),
        )


def _remedy(move: Loosened, backs: str) -> str:
    if not move.levels:
        return "Stand it on something under each of its uprights."
    others = "glue its corners (corners = \"glued\"), or fix each of these levels to the wall"
    if backs:
        return f"The least that stops it: {backs}. Or {others}."
    return f"{others[0].upper()}{others[1:]}."


def _sideways_force(elevation: Elevation, move: Loosened) -> float:
    weight = sum(placed.weights.total for placed in elevation.placed)
    return PUSH + LEAN * weight


def _swaying(
    elevation: Elevation, plan: Plan, name: str, leaned: dict[tuple[str, int], float]
) -> Check:
    """The level of a unit that leans most for its height."""
    own = {level: over for (unit, level), over in leaned.items() if unit == name}
    worst = max(own, key=lambda level: own[level] / level_height(plan, name, level))
    height = level_height(plan, name, worst)
    place = Place(unit=name, part=f"level {worst + 1}")
    what = "corners and backs" if plan.backs else "corners alone"
    source = (
        "EN 1995-1-1:2004, Table 7.1 (slip), 9.2.4.2 (shear flow), 5.4.4 (lean); "
        "limit height / 200: common practice, no source"
    )
    remedy = "Fix the back at a closer spacing, glue it, use a thicker one, or back another bay."
    if not isfinite(own[worst]):
        return Check(
            place=place,
            question=QUESTION,
            method="elevation frame: it buckles sideways under what stands in it",
            source=source,
            measure="force",
            value=PUSH,
            limit=0.0,
            governs=f"{what} are too soft for the weight above",
            remedy=remedy,
        )
    words = f"{figure(PUSH, 'force')} sideways and the lean of the weight"
    words += f"; {_corners_in_words(elevation, name).partition(': ')[2]}"
    return Check(
        place=place,
        question=QUESTION,
        method="elevation frame, backs as shear panels with slipping fasteners, what the "
        "weights add by leaning included",
        source=source,
        measure="length",
        value=own[worst],
        limit=SWAY * height,
        governs=words,
        remedy=remedy,
    )


def _backs(elevation: Elevation, plan: Plan, result: FrameResult) -> Iterator[Check]:
    """The thin back that comes nearest to buckling, and the hardest worked fastener."""
    if not plan.backs:
        return
    pushes = elevation.factors(push=PUSH)
    flow = np.abs(result.shear_flow @ elevation.factors(lean=LEAN))
    flow += np.abs(result.shear_flow * pushes).max(axis=1)
    slender = [
        (flow[number] / back.hold.thickness / _critical(back), number)
        for number, back in enumerate(plan.backs)
        if _slenderness(back) > 100.0
    ]
    if not slender:
        return
    _, number = max(slender)
    back = plan.backs[number]
    yield Check(
        place=Place(
            unit=back.bay.unit, part=f"level {back.bay.level + 1}", bay=f"bay {back.bay.number}"
        ),
        question="back buckles in shear",
        method=f"plate on hinged edges, safety {BUCKLING_SAFETY:g}",
        source="Timoshenko & Gere, Theory of Elastic Stability, 9.7: buckling in shear",
        measure="stress",
        value=float(flow[number]) / back.hold.thickness,
        limit=_critical(back) / BUCKLING_SAFETY,
        governs=f"clear size over thickness {_slenderness(back):.0f}, above the 100 of "
        "EN 1995-1-1, 9.2.4.2",
        remedy="Use a thicker back.",
    )


def _slenderness(back: BackedBay) -> float:
    return float(sheet_slenderness(min(back.bay.width, back.bay.height), back.hold.thickness))


def _critical(back: BackedBay) -> float:
    """Shear stress at which a sheet on hinged edges buckles [MPa]."""
    short, long = sorted((back.bay.width, back.bay.height))
    material = back.hold.material
    E = min(material.E_0, material.E_90 or material.E_0)
    k = 5.34 + 4.0 * (short / long) ** 2
    return k * pi**2 * E / (12.0 * (1.0 - NU**2)) * (back.hold.thickness / short) ** 2
