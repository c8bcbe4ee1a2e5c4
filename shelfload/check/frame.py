"""How a frame of units moves, in words by level, and the least change that stops it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Back
from shelfload.errors import Mechanism
from shelfload.idealise.corners import back_hold
from shelfload.idealise.elevation import Elevation
from shelfload.idealise.elevation_plan import Bay, Plan
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.place import Place
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.mechanism import FreeMotion
from shelfload.solve.stiffening import AddedPanel, least_changes, with_changes
from shelfload.solve.sway_buckling import sway_buckling_factor
from shelfload.wording import size

Array = NDArray[np.float64]

TRIED = ("hardboard", 3.2, 100.0)
"""The thin nailed back that is tried where one is missing: material, thickness, spacing."""


_FEW = 12
"""Sets of equally few backs that are tried for their sway."""
_MOST = 1000
"""Levels that move times bays of the frame, up to which the fewest backs are looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loosened:
    """One way in which units move freely: where, what it is called, and the levels that sway."""

    place: Place
    words: str
    levels: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffened:
    """Backs that stop all free motion, and the largest sway that is left over its limit."""

    bays: tuple[Bay, ...]
    ratio: float
    words: str


def loosened(elevation: Elevation) -> list[Loosened]:
    """Say of each free motion which levels it moves and why."""
    if elevation.plan is None:
        return []
    return [_named(elevation, elevation.plan, motion) for motion in elevation.motions]


def _named(elevation: Elevation, plan: Plan, motion: FreeMotion) -> Loosened:
    turning = set(motion.members.tolist())
    levels = tuple(
        dict.fromkeys((stand.unit, stand.level) for stand in plan.stands if stand.member in turning)
    )
    if levels and motion.sideways > 0.0:
        units = tuple(dict.fromkeys(unit for unit, _ in levels))
        which = _levels_in_words([level for unit, level in levels if unit == units[0]])
        others = "".join(
            f", with {_levels_in_words([n for name, n in levels if name == unit])} of {unit}"
            for unit in units[1:]
        )
        several = len(levels) > 1
        verb = "sway" if several else "sways"
        together = " together" if several else ""
        part = which if not several else ""
        return Loosened(
            place=Place(unit=units[0], part=part),
            words=f"{which}{others} {verb} sideways{together}: no back and pinned joints",
            levels=levels,
        )
    for line in plan.lines:
        if turning & set(line.members):
            unit = next(one.unit for one in elevation.placed if one.unit.name == line.unit)
            name = shelf_name(unit, line.number)
            words = f"{name} drops: something stands where its pieces meet, with nothing below"
            return Loosened(place=Place(unit=line.unit, part=name), words=words, levels=())
    return Loosened(
        place=Place(unit=elevation.units[-1]),
        words="the unit slides sideways: nothing holds its feet",
        levels=(),
    )


def _levels_in_words(levels: Sequence[int]) -> str:
    numbers = [level + 1 for level in levels]
    if len(numbers) == 1:
        return f"level {numbers[0]}"
    if numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"levels {numbers[0]} to {numbers[-1]}"
    return f"levels {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"


def pushed(elevation: Elevation, pushes: Mapping[str, float]) -> Array:
    """Return one row of factors on the load cases for the push on each unit [N]."""
    return np.array(
        [
            [
                pushes[unit] * float(case.kind == "push" and case.unit == unit)
                for case in elevation.cases
            ]
            for unit in elevation.units
        ]
    )


def sway(
    elevation: Elevation, result: FrameResult, pushes: Mapping[str, float], lean: float
) -> dict[tuple[str, int], float]:
    """Return how far each level leans sideways [mm], its worst of all pushes.

    ``pushes`` act at the top of one unit at a time [N], ``lean`` is a share of all weights.
    What the weights add by leaning is in it: times 1 / (1 - 1 / factor), factor being how
    often they would have to be there for the frame to buckle sideways; infinite where it does.
    """
    plan = elevation.plan
    if plan is None:
        return {}
    combinations = pushed(elevation, pushes) + elevation.factors(lean=lean)
    gravity = result.combine(elevation.factors(dead=1.0, contents=1.0))
    factor = float(sway_buckling_factor(gravity)[0])
    grown = 1.0 / (1.0 - 1.0 / factor) if factor > 1.0 else np.inf
    moved = np.abs(_leaned(plan, result.displacements[:, 0] @ combinations.T)).max(axis=1) * grown
    found: dict[tuple[str, int], float] = {}
    for stand, over in zip(plan.stands, moved, strict=True):
        key = (stand.unit, stand.level)
        found[key] = max(found.get(key, 0.0), float(over))
    return found


def _leaned(plan: Plan, right: Array) -> Array:
    ends = np.array([plan.members[stand.member] for stand in plan.stands])
    return np.asarray(right[ends[:, 1]] - right[ends[:, 0]])


def level_height(plan: Plan, unit: str, level: int) -> float:
    """Return the height of a level between the middles of its panels [mm]."""
    return next(bay.height for bay in plan.bays if (bay.unit, bay.level) == (unit, level))


def least_backs(
    elevation: Elevation,
    moves: Sequence[Loosened],
    catalogue: Catalogue,
    *,
    pushes: Mapping[str, float],
    lean: float,
    limit: float,
) -> Stiffened | None:
    """Find the fewest bays that need a back so that nothing moves freely and sway is small.

    ``limit`` is the allowed sway over the height of a level. None where no back helps.
    """
    plan = elevation.plan
    if plan is None:
        return None
    levels = sorted({level for move in moves for level in move.levels})
    bays = [
        max((bay for bay in plan.bays if (bay.unit, bay.level) == level), key=lambda b: b.width)
        for level in levels
    ]
    if not bays or len(bays) * len(plan.bays) > _MOST:
        return None
    trials = [[_tried(elevation, bay, catalogue)] for bay in bays]
    frame = plan.frame()
    sets = least_changes(frame, trials)
    if not sets:
        return None

    def left_over(numbers: Sequence[int]) -> float:
        changed = with_changes(frame, [trials[number][0] for number in numbers])
        try:
            leaned = sway(elevation, elevation.solved(changed), pushes, lean)
        except Mechanism:
            return np.inf
        return max(over / (limit * level_height(plan, *level)) for level, over in leaned.items())

    for numbers in sets[:_FEW]:
        if (ratio := left_over(numbers)) <= 1.0:
            return _stiffened([bays[number] for number in numbers], ratio)
    kept = list(range(len(bays)))
    ratio = left_over(kept)
    for number in reversed(range(len(bays))):
        without = [one for one in kept if one != number]
        if without and ratio <= 1.0 and (fewer := left_over(without)) <= 1.0:
            kept, ratio = without, fewer
    return _stiffened([bays[number] for number in kept], ratio)


def _stiffened(bays: Sequence[Bay], ratio: float) -> Stiffened:
    return Stiffened(bays=tuple(bays), ratio=ratio, words=_bays_in_words(bays))


def _tried(elevation: Elevation, bay: Bay, catalogue: Catalogue) -> AddedPanel:
    material, thickness, spacing = TRIED
    back = Back.model_construct(
        material=material, thickness=thickness, fixed="nailed", spacing=spacing
    )
    unit = next(one.unit for one in elevation.placed if one.unit.name == bay.unit)
    side = catalogue.material(
        unit.sides.material or unit.panel.material, unit.sides.thickness or unit.panel.thickness
    )
    hold = back_hold(back, side.material, bay.width, bay.height, 1, catalogue)
    return AddedPanel(bay.corners, hold.stiffness)


def _bays_in_words(bays: Sequence[Bay]) -> str:
    material, thickness, spacing = TRIED
    units = dict.fromkeys(bay.unit for bay in bays)
    where = [
        f"{'each of ' if len(own) > 1 else ''}{_levels_in_words([bay.level for bay in own])}"
        + (f" of {unit}" if len(units) > 1 else "")
        for unit in units
        if (own := [bay for bay in bays if bay.unit == unit])
    ]
    such = f"{size(thickness)} {material} nailed every {size(spacing, down=True)}"
    return f"a back such as {such} in one bay of {' and of '.join(where)}"
