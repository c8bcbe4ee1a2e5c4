"""Which unit stands where: on the floor, on others, between others, or on the wall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project, Unit
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.geometry import UprightAt
from shelfload.idealise.place import Place
from shelfload.idealise.stack import Stack, unit_stack
from shelfload.idealise.weights import UnitWeights, unit_weights
from shelfload.wording import figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A unit in its place.

    Attributes
    ----------
    unit : Unit
        As described, a bridge with the base that it really stands on.
    weights : UnitWeights
        Piece by piece.
    left, bottom : float
        Its left end along the wall and its underside above the floor [mm].
    below, above : tuple of str
        Units it stands on, and units that stand on it or hang from its side.
    said : tuple of str
        What was assumed for its place.
    """

    unit: Unit
    weights: UnitWeights
    left: float
    bottom: float
    below: tuple[str, ...] = ()
    above: tuple[str, ...] = ()
    said: tuple[str, ...] = ()

    @property
    def right(self) -> float:
        """Right end along the wall [mm]."""
        return self.left + self.weights.width

    @property
    def top(self) -> float:
        """Height of its top above the floor [mm]."""
        return self.bottom + self.weights.height


def arrange(project: Project, catalogue: Catalogue) -> dict[str, Placed]:
    """Place every unit, those below first; in the order of the description."""
    found: dict[str, Placed] = {}
    waiting = list(project.unit)
    while waiting:
        unit = next(u for u in waiting if all(name in found for name in carriers(u)))
        waiting.remove(unit)
        found[unit.name] = _placed(unit, found, catalogue)
    for placed in list(found.values()):
        for name in placed.below:
            carrier = found[name]
            found[name] = replace(carrier, above=(*carrier.above, placed.unit.name))
    return {unit.name: found[unit.name] for unit in project.unit}


def carriers(unit: Unit) -> tuple[str, ...]:
    """Return the names of the units that carry one."""
    if unit.between is not None:
        return (unit.between.left, unit.between.right)
    return unit.on


def _placed(unit: Unit, found: dict[str, Placed], catalogue: Catalogue) -> Placed:
    said: list[str] = []
    if (unit.hangs is not None or unit.between is not None) and unit.base != "sides":
        said.append(f"{unit.name}: nothing is under a unit that hangs, whatever its base")
        unit = unit.model_copy(update={"base": "sides"})
    weights = unit_weights(unit, catalogue)
    names = carriers(unit)
    if not names:
        return Placed(
            unit=unit,
            weights=weights,
            left=unit.left or 0.0,
            bottom=unit.underside or 0.0,
            said=tuple(said),
        )
    below = [found[name] for name in names]
    if unit.between is not None:
        left = below[0].right
        bottom = unit.underside or 0.0
        if unit.underside is None:
            said.append(f"{unit.name}: hung with its underside at the floor, as none is described")
        return Placed(
            unit=unit, weights=weights, left=left, bottom=bottom, below=names, said=tuple(said)
        )
    left = unit.left if unit.left is not None else min(one.left for one in below)
    if len(below) > 1 and all(one.unit.left is None for one in below):
        below = _apart(below, weights.width, left)
        said.append(f"{unit.name}: its ends are taken flush with the outer ends of what is below")
    elif unit.left is None:
        said.append(f"{unit.name}: its left end is taken flush with what it stands on")
    if len(below) > 1 and unit.base != "sides":
        said.append(f"{unit.name}: a bridge stands on its sides alone, whatever its base")
        unit = unit.model_copy(update={"base": "sides"})
    bottom = max(one.top for one in below)
    if unit.underside is not None and abs(unit.underside - bottom) > 1.0:
        at = figure(bottom, "length")
        said.append(f"{unit.name}: its underside is at {at}, the top of what it stands on")
    found.update({one.unit.name: one for one in below})
    return Placed(
        unit=unit, weights=weights, left=left, bottom=bottom, below=names, said=tuple(said)
    )


def _apart(below: list[Placed], width: float, left: float) -> list[Placed]:
    """Spread unplaced carriers: the first flush left, the last flush right, even gaps between."""
    room = width - sum(one.weights.width for one in below)
    gap = max(room / (len(below) - 1), 0.0)
    x, spread = left, []
    for one in below:
        spread.append(replace(one, left=x))
        x += one.weights.width + gap
    return spread


def stacks(
    project: Project, catalogue: Catalogue, placed: Mapping[str, Placed]
) -> dict[str, Stack]:
    """Walk every unit down, those above first, so that their feet load what is below."""
    found: dict[str, Stack] = {}
    waiting = list(project.unit)
    while waiting:
        unit = next(u for u in waiting if all(name in found for name in placed[u.name].above))
        waiting.remove(unit)
        here = placed[unit.name]
        landing = [
            foot for name in here.above for foot in landings(placed[name], found[name], here)
        ]
        unknown = next((found[name].unknown for name in here.above if found[name].unknown), "")
        found[unit.name] = unit_stack(here.unit, project.site, catalogue, tuple(landing), unknown)
    return {unit.name: found[unit.name] for unit in project.unit}


def landings(upper: Placed, stack: Stack, lower: Placed) -> list[UprightForce]:
    """Return the feet of one unit that land on another, in the lower one's measure."""
    if upper.unit.between is not None:
        return [_from_neighbour(upper, stack, lower)]
    shift = upper.left - lower.left
    moved = [
        replace(
            foot,
            upright=UprightAt(
                name=f"{upper.unit.name}, {foot.upright.name}",
                left=foot.upright.left + shift,
                right=foot.upright.right + shift,
            ),
        )
        for foot in stack.feet
    ]
    return [foot for foot in moved if 0.0 <= foot.upright.centre <= lower.weights.width]


def _from_neighbour(upper: Placed, stack: Stack, lower: Placed) -> UprightForce:
    """One end of a unit hung between two, as a load on the near side of one of them."""
    is_left = upper.unit.between is not None and upper.unit.between.left == lower.unit.name
    at = lower.weights.width if is_left else 0.0
    dead, imposed = hung_end(upper, stack, 0 if is_left else -1)
    return UprightForce(
        place=Place(unit=upper.unit.name, part="feet"),
        upright=UprightAt(name=upper.unit.name, left=at, right=at),
        level=-1,
        dead=dead,
        imposed=imposed,
    )


def hung_end(upper: Placed, stack: Stack, end: int) -> tuple[float, float]:
    """Return own weight and imposed load on an end, 0 or -1, of a unit hung between two [N].

    Half of it, or more where the walk down its shelves brings more there: uneven contents, and
    what stands on the unit.
    """
    dead, imposed = upper.weights.dead / 2, upper.weights.contents / 2
    if stack.feet:
        missing = upper.weights.dead - sum(foot.dead for foot in stack.feet)
        dead = max(dead, stack.feet[end].dead + missing / len(stack.feet))
        imposed = max(imposed, stack.feet[end].imposed)
    return dead, imposed
