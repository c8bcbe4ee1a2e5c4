"""What stands in and on units, as load cases of their frame."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.describe.catalogue import Catalogue
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.elevation_plan import Line, Plan
from shelfload.idealise.geometry import uprights
from shelfload.idealise.loads import BayLoad, Duration
from shelfload.idealise.stack import loaded_bays
from shelfload.solve.frame_loads import LineLoads, PointLoads

Array = NDArray[np.float64]
CaseKind = Literal["dead", "contents", "spot", "lean", "push"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameCase:
    """One load case of a frame.

    ``dead`` is all that always hangs on it; ``contents`` and ``spot`` are one bay's, standing
    on horizontal ``number`` of ``unit``; ``lean`` is every weight turned to the right;
    ``push`` is 1 N to the right at the top of a unit.
    """

    kind: CaseKind
    unit: str = ""
    number: int = 0
    bay: int = 0
    duration: Duration = "permanent"


@dataclass(slots=True, kw_only=True)
class FrameLoads:
    """Load cases being gathered; forces to the right and down on nodes are kept apart."""

    cases: list[FrameCase] = field(default_factory=list)
    lines: list[tuple[int, int, float, float, float]] = field(default_factory=list)
    points: list[tuple[int, int, float, float]] = field(default_factory=list)
    nodal: list[tuple[int, int, int, float]] = field(default_factory=list)

    def case(self, **what: object) -> int:
        """Add a case and return its number."""
        self.cases.append(FrameCase(**what))  # type: ignore[arg-type]
        return len(self.cases) - 1

    def line_loads(self) -> LineLoads | None:
        """Spread loads as the solver takes them."""
        if not self.lines:
            return None
        member, case, start, end, down = zip(*self.lines, strict=True)
        return LineLoads(member=member, case=case, start=start, end=end, down=down)

    def point_loads(self) -> PointLoads | None:
        """Forces along members as the solver takes them."""
        if not self.points:
            return None
        member, case, at, down = zip(*self.points, strict=True)
        return PointLoads(member=member, case=case, at=at, down=down)

    def nodal_loads(self, nodes: int) -> Array:
        """Forces on nodes, shape (nodes, 3, cases)."""
        loads = np.zeros((nodes, 3, len(self.cases)))
        for node, way, case, force in self.nodal:
            loads[node, way, case] += force
        return loads


def frame_loads(
    group: Sequence[Placed], plan: Plan, others: Mapping[str, Placed], catalogue: Catalogue
) -> FrameLoads:
    """Load a group of units with all that is in them.

    Parameters
    ----------
    group : sequence of Placed
        The units in the frame.
    plan : Plan
        Their frame.
    others : mapping of str to Placed
        All units by name: those hung between two of them load their near sides.
    catalogue : Catalogue
        Resolves names.
    """
    loads = FrameLoads()
    dead = loads.case(kind="dead")
    for placed in group:
        _weights(loads, dead, placed, plan)
        _contents(loads, placed, plan, catalogue)
        _hung_beside(loads, dead, placed, plan, others)
    _sideways(loads, group, plan)
    return loads


def spread_on(
    loads: FrameLoads, plan: Plan, line: Line, case: int, left: float, right: float, each: float
) -> None:
    """Spread a load [N/mm] between two places along the wall; what overhangs goes to the ends."""
    x = [plan.nodes[node][0] for node in line.nodes]
    for number, member in enumerate(line.members):
        start, end = max(left, x[number]), min(right, x[number + 1])
        if end - start > 1e-6:
            loads.lines.append((member, case, start - x[number], end - x[number], each))
    if left < x[0]:
        loads.nodal.append((line.nodes[0], 1, case, each * (min(right, x[0]) - left)))
    if right > x[-1]:
        loads.nodal.append((line.nodes[-1], 1, case, each * (right - max(left, x[-1]))))


def point_on(loads: FrameLoads, plan: Plan, line: Line, case: int, at: float, force: float) -> None:
    """Put a force [N] on a horizontal at a place along the wall [mm]."""
    x = np.array([plan.nodes[node][0] for node in line.nodes])
    number = int(np.clip(np.searchsorted(x, at) - 1, 0, len(line.members) - 1))
    place = float(np.clip(at - x[number], 0.0, x[number + 1] - x[number]))
    loads.points.append((line.members[number], case, place, force))


def _weights(loads: FrameLoads, dead: int, placed: Placed, plan: Plan) -> None:
    """Weigh the unit itself: horizontals spread, an upright at its foot, a back on its bays."""
    unit, weights = placed.unit, placed.weights
    standing = uprights(unit, unit.level[0])
    inner = (placed.left + standing[0].right, placed.left + standing[-1].left)
    lines = [plan.line(unit.name, number) for number in range(len(unit.level) + 1)]
    by_name = {panel.name: number for number, panel in enumerate(weights.panels)}
    for item in weights.items:
        if item.moving:
            continue
        if item.name in by_name:
            each = item.force / (inner[1] - inner[0])
            spread_on(loads, plan, lines[by_name[item.name]], dead, *inner, each)
            continue
        foot = lines[item.level]
        if item.name == "back":
            here = [b for b in plan.bays if (b.unit, b.level) == (unit.name, item.level)]
            across = sum(bay.width for bay in here)
            for bay in here:
                for node in bay.corners[:2]:
                    loads.nodal.append((node, 1, dead, item.force * bay.width / across / 2))
            continue
        node = min(foot.nodes, key=lambda node: abs(plan.nodes[node][0] - placed.left - item.y))
        loads.nodal.append((node, 1, dead, item.force))


def _contents(loads: FrameLoads, placed: Placed, plan: Plan, catalogue: Catalogue) -> None:
    unit = placed.unit
    for number in range(len(unit.level) + 1):
        line = plan.line(unit.name, number)
        above = unit.level[number] if number < len(unit.level) else None
        for bay, load in loaded_bays(unit, above, line.shape.depth, catalogue):
            start = placed.left + bay.left
            if load.even:
                case = _bay_case(loads, unit.name, number, bay.number)
                spread_on(loads, plan, line, case, start, placed.left + bay.right, load.even)
            _spots(loads, plan, line, bay.number, start, load)


def _spots(
    loads: FrameLoads, plan: Plan, line: Line, bay: int, start: float, load: BayLoad
) -> None:
    for force, at, duration in load.points:
        case = _bay_case(loads, line.unit, line.number, bay, duration)
        point_on(loads, plan, line, case, start + at, force)


def _bay_case(
    loads: FrameLoads, unit: str, number: int, bay: int, duration: Duration = "long-term"
) -> int:
    """Return the case of a bay's loads of one duration, made when it is first asked for."""
    wanted = FrameCase(
        kind="contents" if duration == "long-term" else "spot",
        unit=unit,
        number=number,
        bay=bay,
        duration=duration,
    )
    if wanted not in loads.cases:
        loads.cases.append(wanted)
    return loads.cases.index(wanted)


def _hung_beside(
    loads: FrameLoads, dead: int, placed: Placed, plan: Plan, others: Mapping[str, Placed]
) -> None:
    """Half of each unit that hangs between this one and another, on its near side."""
    for name in placed.above:
        upper = others[name]
        between = upper.unit.between
        if between is None:
            continue
        left, right = plan.line(placed.unit.name, len(placed.unit.level)).outer
        node = right if between.left == placed.unit.name else left
        loads.nodal.append((node, 1, dead, upper.weights.dead / 2))
        case = _bay_case(loads, name, -1, 0)
        loads.nodal.append((node, 1, case, upper.weights.contents / 2))


def _sideways(loads: FrameLoads, group: Sequence[Placed], plan: Plan) -> None:
    """Turn every weight to the right, and push each unit at its top."""
    lean = loads.case(kind="lean")
    for member, case, start, end, down in list(loads.lines):
        if loads.cases[case].kind in ("dead", "contents"):
            for node in plan.members[member]:
                loads.nodal.append((node, 0, lean, down * (end - start) / 2))
    for member, case, _, down in loads.points:
        if loads.cases[case].kind == "contents":
            for node in plan.members[member]:
                loads.nodal.append((node, 0, lean, down / 2))
    for node, way, case, force in list(loads.nodal):
        if way == 1 and loads.cases[case].kind in ("dead", "contents"):
            loads.nodal.append((node, 0, lean, force))
    for placed in group:
        push = loads.case(kind="push", unit=placed.unit.name)
        left, _ = plan.line(placed.unit.name, len(placed.unit.level)).outer
        loads.nodal.append((left, 0, push, 1.0))
