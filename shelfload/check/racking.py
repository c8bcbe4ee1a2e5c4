"""Does it stay square? Sideways load on every unit, and the backs and corners that resist it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import isfinite, pi

import numpy as np

from shelfload.check.back_fasteners import back_fasteners
from shelfload.check.criteria import GAMMA_G, GAMMA_Q, design
from shelfload.check.frame import (
    Loosened,
    least_backs,
    level_height,
    loosened,
    pushed,
    sway,
)
from shelfload.check.result import Answer, Check
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.corners import corner_hold
from shelfload.idealise.elevation import Elevation
from shelfload.idealise.elevation_plan import BackedBay, Plan
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole
from shelfload.solve.frame_model import TURN
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.shear_panel import sheet_slenderness
from shelfload.wording import figure, size

LEAN = 1.0 / 200.0
"""Sideways share of the vertical load: initial lean, EN 1995-1-1:2004, 5.4.4(2)."""
PUSH = 150.0
"""Someone leaning on one end, sideways [N] (common practice, no source)."""
LEANED_ON = 1000.0
"""Height of the top from which someone leans on it like that [mm]; on lower ones less in
proportion (common practice, no source)."""
SWAY = 1.0 / 200.0
"""Largest sway of a level over its height (common practice, no source)."""
TENSION_ACROSS = {
    "solid": 0.4,
    "glulam": 0.4,
    "plywood": 0.4,
    "blockboard": 0.4,
    "bamboo": 0.4,
    "mdf": 0.55,
    "hardboard": 0.5,
    "particleboard": 0.35,
    "osb": 0.32,
}
"""Least strength in tension across the layers [MPa]: internal bond of the boards (EN 312 P2,
EN 622-5, EN 300 OSB/3), f_t,90,k of EN 338 for wood and what is made of veneers."""
WOOD = ("solid", "glulam", "plywood", "blockboard")
VOLUME = 1e7
"""Volume that the strength of wood across the grain is given for, EN 1995-1-1:2004, 6.4.3 [mm3]."""
BUCKLING_SAFETY = 1.5
NU = 0.3
QUESTION = "stays square"


def staying_square(whole: Whole) -> Iterable[Answer]:
    """Which levels resist a sideways load, and by how much do they sway?"""
    for elevation in whole.elevations:
        checks = tuple(_asked(whole, elevation))
        said = [
            f"a sideways push of {figure(PUSH, 'force')} at the top, less in proportion where that "
            f"is below {size(LEANED_ON)}, and 1/200 of every weight",
            *(elevation.plan.said if elevation.plan is not None else ()),
            *dict.fromkeys(_corners_in_words(whole, elevation, name) for name in elevation.units),
        ]
        yield Answer(checks=checks, assumptions=tuple(said))


def push_on(placed: Placed) -> float:
    """Return the sideways push at the top of a unit [N]."""
    return PUSH * min(1.0, placed.top / LEANED_ON)


def _pushes(elevation: Elevation) -> dict[str, float]:
    return {placed.unit.name: push_on(placed) for placed in elevation.placed}


def _corners_in_words(whole: Whole, elevation: Elevation, name: str) -> str:
    """Say how far the corners of a unit are counted on."""
    unit = next(one.unit for one in elevation.placed if one.unit.name == name)
    row = whole.catalogue.material(unit.panel.material, unit.panel.thickness)
    hold = corner_hold(unit, row.material.kind, row.thickness, row.thickness)
    return f"{name}: {hold.words}"


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
    leaned = sway(elevation, elevation.result, _pushes(elevation), LEAN)
    for name in elevation.units:
        yield _swaying(whole, elevation, elevation.plan, name, leaned)
        yield from _corners(whole, elevation, name)
    yield from _backs(whole, elevation, elevation.plan, elevation.result)


def _moving(whole: Whole, elevation: Elevation) -> Iterator[Check]:
    """One check for each unit that folds, with the fewest backs that stop it."""
    moves = loosened(elevation)
    helped = least_backs(
        elevation, moves, whole.catalogue, pushes=_pushes(elevation), lean=LEAN, limit=SWAY
    )
    folding = dict.fromkeys(move.place.unit for move in moves)
    for name in elevation.units:
        if name not in folding:
            yield Check(
                place=Place(unit=name),
                question=QUESTION,
                method="elevation frame",
                source="rank of the frame's geometry, own method",
                measure="length",
                reason=f"{' and '.join(folding)} folds, and it is built together with that",
            )
    for unit in folding:
        own = [move for move in moves if move.place.unit == unit]
        yield Check(
            place=own[0].place if len(own) == 1 else Place(unit=unit),
            question=QUESTION,
            method="elevation frame: it folds without resistance",
            source="rank of the frame's geometry, own method",
            measure="force",
            value=_sideways_force(elevation),
            limit=0.0,
            governs="; ".join(move.words for move in own),
            remedy=_remedy(own, helped.words if helped else ""),
        )


def _remedy(moves: Sequence[Loosened], backs: str) -> str:
    if not any(move.levels for move in moves):
        return "Stand it on something under each of its uprights."
    others = 'glue its corners (corners = "glued"), or fix each of these levels to the wall'
    if backs:
        return f"The least that stops it: {backs}. Or {others}."
    return f"{others[0].upper()}{others[1:]}."


def _sideways_force(elevation: Elevation) -> float:
    weight = sum(placed.weights.total for placed in elevation.placed)
    return max(_pushes(elevation).values()) + LEAN * weight


def _swaying(
    whole: Whole, elevation: Elevation, plan: Plan, name: str, leaned: dict[tuple[str, int], float]
) -> Check:
    """The level of a unit that leans most for its height."""
    own = {level: over for (unit, level), over in leaned.items() if unit == name}
    worst = max(own, key=lambda level: own[level] / level_height(plan, name, level))
    height = level_height(plan, name, worst)
    place = Place(unit=name, part=f"level {worst + 1}")
    backed = any(back.bay.unit == name for back in plan.backs)
    what = "corners and backs" if backed else "corners alone"
    source = (
        "EN 1995-1-1:2004, Table 7.1 (slip), 9.2.4.2 (shear flow), 5.4.4 (lean); "
        "limit height / 200: common practice, no source"
    )
    remedy = "Give one bay of each level a fixed back."
    if backed:
        remedy = "Fix the back at a closer spacing, glue it, use a thicker one, or back more bays."
    if not isfinite(own[worst]):
        return Check(
            place=place,
            question=QUESTION,
            method="elevation frame: it buckles sideways under what stands in it",
            source=source,
            measure="force",
            value=_pushes(elevation)[name],
            limit=0.0,
            governs=f"{what} are too soft for the weight above",
            remedy=remedy,
        )
    push = _pushes(elevation)[name]
    unit = next(one.unit for one in elevation.placed if one.unit.name == name)
    if unit.hangs is not None or unit.between is not None:
        return Check(
            place=Place(unit=name),
            question=QUESTION,
            method="statics: what it hangs on keeps it plumb",
            source="as described",
            measure="length",
            value=0.0,
            limit=SWAY * height,
            governs="what it hangs on must take a sideways push as well",
        )
    words = f"{figure(push, 'force')} sideways and the lean of the weight"
    words += f"; {_corners_in_words(whole, elevation, name).partition(': ')[2]}"
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


def _corners(whole: Whole, elevation: Elevation, name: str) -> Iterator[Check]:
    """Do glued corners hold the moment that keeps the unit square?

    The edge is torn off the face across the panels' layers: M / (b t^2 / 6).
    """
    placed = next(one for one in elevation.placed if one.unit.name == name)
    unit, plan, result = placed.unit, elevation.plan, elevation.result
    if unit.corners != "glued" or plan is None or result is None:
        return
    own = [stand.member for stand in plan.stands if stand.unit == name]
    own += [member for line in plan.lines if line.unit == name for member in line.members]
    sprung = np.isfinite(result.frame.joints[own])
    moments = np.abs(result.end_forces[own][:, :, TURN][sprung])
    gravity = elevation.factors(dead=GAMMA_G, contents=GAMMA_Q, spot=GAMMA_Q, lean=LEAN * GAMMA_Q)
    most = moments @ (GAMMA_Q * pushed(elevation, _pushes(elevation)).T)
    moment = float((moments @ gravity + most.max(axis=1)).max())
    row = whole.catalogue.material(unit.panel.material, unit.panel.thickness)
    source = (
        "strength across: EN 338 with k_vol of EN 1995-1-1:2004, 6.4.3 (wood, veneers), EN 312, "
        "EN 622-5, EN 300 (boards), from memory"
    )
    across = TENSION_ACROSS.get(row.material.kind)
    if across is not None and row.material.kind in WOOD:
        # the layer that is torn is as thick as the panel
        across *= max(1.0, (VOLUME / (unit.depth * row.thickness**2)) ** 0.2)
    strength = design(
        across,
        row.material,
        whole.project.site.service_class,
        "short-term",
    )
    unknown = isinstance(strength, str)
    yield Check(
        place=Place(unit=name),
        question="glued corners hold",
        method="factored loads and push; the edge torn off the face, elastic",
        source=source,
        measure="stress",
        value=6.0 * moment / (unit.depth * row.thickness**2),
        limit=None if unknown else float(strength),
        reason=f"{row.material.called}: {strength}" if unknown else "",
        governs=f"{figure(moment, 'moment')} in the hardest worked corner",
        remedy="Give one bay of each level a fixed back: it takes this off the corners.",
    )


def _backs(whole: Whole, elevation: Elevation, plan: Plan, result: FrameResult) -> Iterator[Check]:
    """The thin back that comes nearest to buckling, and the hardest worked fastener."""
    if not plan.backs:
        return
    pushes = pushed(elevation, _pushes(elevation))
    flow = np.abs(result.shear_flow @ elevation.factors(lean=LEAN))
    flow += np.abs(result.shear_flow @ pushes.T).max(axis=1)
    yield from back_fasteners(whole, plan.backs, flow)
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
