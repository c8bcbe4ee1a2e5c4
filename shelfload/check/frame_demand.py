"""What a shelf must satisfy within the elevation frame: its curves over what is allowed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import GAMMA_G, GAMMA_Q, Criterion, Unanswered
from shelfload.idealise.elevation import Elevation
from shelfload.idealise.elevation_loads import FrameCase, FrameLoads, point_on, spread_on
from shelfload.idealise.elevation_plan import Line, Plan
from shelfload.idealise.geometry import shelf_name, uprights
from shelfload.idealise.loads import QUASI_PERMANENT
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_model import DOWN
from shelfload.solve.frame_result import FrameResult

Array = NDArray[np.float64]
Asked = Sequence[Criterion | Unanswered]

STATIONS = 33
"""Places per member at which its curves are taken; a parabola's peak is missed by 0.1 %."""
TENSION_SHARE = 2.0
"""Stress along a shelf counts this often: boards bear at least half as much in tension."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A shelf within the frame: its members and nodes from left to right.

    ``carries``: an upright lands on its open span. ``sinks``: it runs over an upright that
    stands on an open span.
    """

    elevation: Elevation
    plan: Plan
    line: Line
    members: tuple[int, ...]
    nodes: tuple[int, ...]
    carries: bool
    sinks: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Demand over what is allowed at many places, shape (places, cases)."""

    main: Array
    axial: Array | None = None

    def worst(self, always: Array, sometimes: Array) -> Array:
        """Return the worst pattern of loads at each place."""
        total = _worst(self.main, always, sometimes)
        return total if self.axial is None else total + _worst(self.axial, always, sometimes)


def _worst(curve: Array, always: Array, sometimes: Array) -> Array:
    steady, parts = curve @ always, curve * sometimes
    high = steady + np.maximum(parts, 0.0).sum(axis=1)
    low = steady + np.minimum(parts, 0.0).sum(axis=1)
    return np.asarray(np.maximum(high, -low))


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """One criterion asked of the frame: its curve, that of unit loads, factors, limits."""

    question: str
    curve: Curve
    unit: Curve
    limit: Array
    always: Array
    sometimes: Array
    per_load: float

    def ratio(self, own: Array, load: Array) -> float:
        """Worst ratio with the shelf's own contents (``own``) off and unit loads on."""
        joined = Curve(
            main=np.concatenate([self.curve.main, self.unit.main], axis=1),
            axial=None
            if self.curve.axial is None or self.unit.axial is None
            else np.concatenate([self.curve.axial, self.unit.axial], axis=1),
        )
        always = np.concatenate([self.always, np.zeros(len(load))])
        sometimes = np.concatenate([np.where(own, 0.0, self.sometimes), load * self.per_load])
        return float(joined.worst(always, sometimes).max())


def part_of(whole: Whole, beam: ShelfBeam) -> Part | None:
    """Find a shelf in the frame; None where there is no frame."""
    elevation = next((one for one in whole.elevations if beam.place.unit in one.units), None)
    if elevation is None or elevation.plan is None:
        return None
    plan = elevation.plan
    unit = whole.placed[beam.place.unit].unit
    names = [shelf_name(unit, number) for number in range(len(unit.level) + 1)]
    line = plan.line(unit.name, names.index(beam.place.part))
    ends = line.outer
    if beam.place.bay:
        piece = int(beam.place.bay.removeprefix("bay "))
        ends = (line.carried[piece - 1], line.carried[piece])
    first, last = line.nodes.index(ends[0]), line.nodes.index(ends[1])
    nodes = line.nodes[first : last + 1]
    inner = set(nodes[1:-1])
    return Part(
        elevation=elevation,
        plan=plan,
        line=line,
        members=line.members[first:last],
        nodes=nodes,
        carries=bool(inner & set(line.landed)),
        sinks=bool(inner & set(line.carried) & plan.sinking),
    )


def frame_demands(
    whole: Whole,
    part: Part,
    beam: ShelfBeam,
    asked: Asked,
    results: tuple[FrameResult, FrameResult],
) -> Iterator[Demand]:
    """Ask the criteria of a beam of the frame's own curves."""
    units = [_unit_loads(whole, part, beam, aged) for aged in (False, True)]
    cases = part.elevation.cases
    shape = beam.shape
    stiffest = max(piece.stiffness.E for piece in shape.pieces) / float(shape.section.EA)
    for criterion in asked:
        if isinstance(criterion, Unanswered) or criterion.curve == "reaction":
            continue
        if criterion.curve == "sag":
            final = criterion.question == "sag after years"
            lasting = np.array([QUASI_PERMANENT[case.duration] for case in cases])
            grown = lasting if final else np.zeros(len(cases))
            allowed, new = _sag(whole, part, beam, results[0])
            _, old = _sag(whole, part, beam, results[1])
            _, unit = _sag(whole, part, beam, units[int(final)])
            yield Demand(
                question=criterion.question,
                curve=Curve(main=(new * (1.0 - grown) + old * grown) / allowed[:, None]),
                unit=Curve(main=unit / allowed[:, None]),
                limit=allowed,
                always=part.elevation.factors(dead=1.0),
                sometimes=part.elevation.factors(contents=1.0, spot=1.0),
                per_load=1.0,
            )
            continue
        strength = float(criterion.allowed[0] * criterion.scale[0])
        per_unit = float(criterion.scale[0]) / strength
        name: Literal["moment", "shear"] = criterion.curve
        pull = TENSION_SHARE * stiffest / strength
        imposed = 0.0 if not criterion.per_load else GAMMA_Q
        # creep hands load on between shelves and backs: new and old both count, 2.3.2.2
        for result, unit_loads in zip(results, units, strict=True):
            curves = [
                Curve(
                    main=along(part, one, name) * per_unit,
                    axial=along(part, one, "axial") * pull if name == "moment" else None,
                )
                for one in (result, unit_loads)
            ]
            yield Demand(
                question=criterion.question,
                curve=curves[0],
                unit=curves[1],
                limit=np.full(len(curves[0].main), strength),
                always=part.elevation.factors(dead=GAMMA_G),
                sometimes=imposed * _present(part, beam, criterion),
                per_load=criterion.per_load,
            )


def fastener_demand(
    whole: Whole,
    part: Part,
    beam: ShelfBeam,
    result: FrameResult,
    relied_on: Mapping[str, float],
) -> Demand | None:
    """Return what fasteners of backs take as webs, over what is counted on [N]; None if none."""
    per_flow = np.array(
        [
            0.0 if back.hold.spacing is None else back.hold.spacing / relied_on[back.hold.fixed]
            for back in part.plan.backs
        ]
    )
    if not per_flow.any():
        return None
    unit = _unit_loads(whole, part, beam, aged=False)
    return Demand(
        question="fasteners of the back",
        curve=Curve(main=np.abs(result.shear_flow) * per_flow[:, None]),
        unit=Curve(main=np.abs(unit.shear_flow) * per_flow[:, None]),
        limit=np.ones(len(per_flow)),
        always=part.elevation.factors(dead=1.0),
        sometimes=part.elevation.factors(contents=1.0, spot=1.0),
        per_load=1.0,
    )


def _present(part: Part, beam: ShelfBeam, criterion: Criterion) -> Array:
    """Imposed loads of a criterion's duration; those on other shelves count as long-term."""
    durations = {
        case.duration
        for case, factor in zip(beam.cases, criterion.sometimes, strict=True)
        if factor
    }

    def counts(case: FrameCase) -> bool:
        own = (case.unit, case.number) == (part.line.unit, part.line.number)
        return case.kind == "contents" or (
            case.kind == "spot" and (not own or case.duration in durations)
        )

    return np.array([float(counts(case)) for case in part.elevation.cases])


def _stations(part: Part) -> tuple[NDArray[np.intp], Array]:
    members = np.repeat(np.array(part.members, dtype=np.intp), STATIONS)
    x = np.array([part.plan.nodes[node][0] for node in part.nodes])
    return members, (np.diff(x)[:, None] * np.linspace(0.0, 1.0, STATIONS)).ravel()


def along(
    part: Part, result: FrameResult, name: Literal["moment", "shear", "axial", "deflection"]
) -> Array:
    """Values at evenly spaced places of every member of the shelf, by case."""
    return result.along(*_stations(part), name)


def _sag(whole: Whole, part: Part, beam: ShelfBeam, result: FrameResult) -> tuple[Array, Array]:
    """Allowed and actual sag [mm] of every place, from the lines between what carries it.

    First between its firm supports, then, where some of those that carry it sink, between
    each two that are next to each other.
    """
    limit = whole.catalogue.limit(beam.limit)
    x = np.array([part.plan.nodes[node][0] for node in part.nodes])
    place = (x[:-1, None] + np.diff(x)[:, None] * np.linspace(0.0, 1.0, STATIONS)).ravel()
    down = along(part, result, "deflection")
    ends = {part.nodes[0], part.nodes[-1]}
    carried = [node for node in part.nodes if node in part.line.carried or node in ends]
    firm = [node for node in carried if node in ends or node not in part.plan.sinking]
    allowed, sag = [], []
    for held in [firm, carried] if firm != carried else [firm]:
        at = np.array([part.plan.nodes[node][0] for node in held])
        settled = result.displacements[held, DOWN]
        segment = np.clip(np.searchsorted(at, place, side="right") - 1, 0, len(at) - 2)
        length = np.diff(at)[segment]
        share = ((place - at[segment]) / length)[:, None]
        sag.append(down - (1.0 - share) * settled[segment] - share * settled[segment + 1])
        most = np.full(length.shape, np.inf)
        if limit.ratio is not None:
            most = length / limit.ratio
        if limit.absolute is not None:
            most = np.minimum(most, limit.absolute)
        allowed.append(most)
    return np.concatenate(allowed), np.concatenate(sag)


def _unit_loads(whole: Whole, part: Part, beam: ShelfBeam, aged: bool) -> FrameResult:
    """Solve the frame for 1 N/mm on each bay of the shelf, then for 1 N at each one's middle."""
    placed = whole.placed[part.line.unit]
    unit = placed.unit
    below = uprights(unit, unit.level[max(part.line.number - 1, 0)])
    first = next(at for at in below if at.name == beam.supports[0].name)
    start = placed.left + first.right - beam.supports[0].bearing / 2
    loads = FrameLoads()
    for bay in beam.bays:
        case = loads.case(kind="contents")
        spread_on(loads, part.plan, part.line, case, start + bay.start, start + bay.end, 1.0)
    for bay in beam.bays:
        middle = start + (bay.start + bay.end) / 2
        point_on(loads, part.plan, part.line, loads.case(kind="contents"), middle, 1.0)
    frame = part.plan.frame(aged=aged, plumb=part.elevation.result is None)
    return solve_frame(
        frame,
        lines=loads.line_loads(),
        points=loads.point_loads(),
        nodal=loads.nodal_loads(len(frame.nodes)),
    )
