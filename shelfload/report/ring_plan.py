"""Plan of a unit that is curved in plan, its front at the foot of the sheet."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from shelfload.describe.model import Unit
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import UprightAt, uprights
from shelfload.idealise.ring import RingPlan, ring_of
from shelfload.idealise.stack import back_of
from shelfload.report.elevation import LEFT, NARROW, RIGHT, TOP
from shelfload.report.svg import Drawing, across, label, number, path, shortened
from shelfload.units import UnitSystem
from shelfload.wording import figure, size, spelled

_STEPS = 48
_TALLEST = 380.0


def ring_plan(placed: Placed, key: str, system: UnitSystem) -> Drawing:
    """Draw the lowest level of a curved unit from above."""
    unit = placed.unit
    ring = ring_of(unit)
    if ring is None:
        raise ValueError(f"{unit.name} is straight")
    along = np.linspace(0.0, ring.width, _STEPS + 1)
    outline = np.concatenate([ring.at(0.0, along), ring.at(unit.depth, along[::-1])])
    low, high = outline.min(axis=0), outline.max(axis=0)
    wide, tall = high - low
    per_mm = float(min((NARROW - LEFT - RIGHT) / wide, _TALLEST / tall))

    def drawn(places: np.ndarray) -> str:
        at = (places - low) * per_mm + (LEFT, TOP)
        return f"M{' L'.join(f'{number(x)},{number(y)}' for x, y in at)} Z"

    parts = [path(drawn(outline), "d-frame")]
    back = back_of(unit, unit.level[0])
    rear = 0.0 if back is None else back.thickness
    if back is not None:
        behind = np.concatenate([ring.at(0.0, along), ring.at(rear, along[::-1])])
        parts.append(path(drawn(behind), "", fill=f"url(#{key}-back)"))
    lowest = uprights(unit, unit.level[0])
    parts += [path(drawn(_board(ring, rear, upright)), "d-board") for upright in lowest]
    others = _elsewhere(unit, lowest)
    parts += [
        path(drawn(_board(ring, rear, upright)), "d-thin", stroke_dasharray="4 3")
        for upright in others
    ]
    foot = TOP + float(tall) * per_mm
    front = (ring.at(unit.depth, ring.width / 2) - low) * per_mm + (LEFT, TOP)
    parts.append(
        label(float(front[0]), float(front[1]) + 15, "front", at="middle", class_="d-soft")
    )
    parts.append(across(LEFT, LEFT + float(wide) * per_mm, foot + 34, _mm(float(wide), system)))
    sizes = (
        f"inner radius {_mm(ring.inner, system)}, {_mm(unit.depth, system)} deep, "
        f"{spelled(figure(ring.angle, 'angle'), system)}"
    )
    middle = f"{_mm(ring.width, system)} along the middle of its depth"
    parts.append(label(8, foot + 58, sizes, class_="d-soft"))
    parts.append(label(8, foot + 74, middle, class_="d-soft"))
    said = f"{sizes}; {middle}; {len(lowest) - 1} bays; the front is the {_front(ring)} edge"
    if others:
        said += "; uprights of upper levels that stand elsewhere are dashed"
        parts.append(label(8, foot + 90, "dashed: higher up", class_="d-soft"))
    return Drawing(
        key=key,
        title=f"{shortened(unit.name)} from above, lowest level",
        description=said + ".",
        width=NARROW,
        height=foot + 98,
        body="".join(parts),
    )


def _board(ring: RingPlan, rear: float, upright: UprightAt) -> np.ndarray:
    """Corners of an upright, as thick inside as outside."""
    middle = ring.at([rear, ring.depth], upright.centre)
    run = middle[1] - middle[0]
    aside = np.array([run[1], -run[0]]) / np.hypot(*run) * (upright.right - upright.left) / 2.0
    return np.array([middle[0] - aside, middle[1] - aside, middle[1] + aside, middle[0] + aside])


def _elsewhere(unit: Unit, lowest: Sequence[UprightAt]) -> list[UprightAt]:
    """Uprights of upper levels that do not stand over one of the lowest."""
    standing = {round(one.centre, 1) for one in lowest}
    found: dict[float, UprightAt] = {}
    for level in unit.level[1:]:
        for one in uprights(unit, level):
            if round(one.centre, 1) not in standing:
                found.setdefault(round(one.centre, 1), one)
    return [found[at] for at in sorted(found)]


def _front(ring: RingPlan) -> str:
    return "outer" if ring.front_is_outer else "inner"


def _mm(value: float, system: UnitSystem) -> str:
    return spelled(size(value), system)
