"""Shelves that hang together through uprights on open spans, judged by the elevation frame.

A beam of its own is the right model of a shelf whose supports stand firm. Two kinds of
shelf are not: one on whose open span an upright of the level above lands, and one that runs
through over an upright which stands so. With the backs as webs they act as one deep beam;
without, they still share the load. For these the frame gives the verdict.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.frame_demand import (
    Demand,
    Part,
    along,
    fastener_demand,
    frame_demands,
    part_of,
)
from shelfload.check.result import Answer, Check, SafeLoad, Verdict, worst
from shelfload.check.safe_load import largest_load, safe_loads
from shelfload.check.shelves import shelf_checks
from shelfload.errors import Mechanism
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.stack import back_of
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve.frame_model import DOWN
from shelfload.solve.frame_result import FrameResult
from shelfload.wording import figure

Array = NDArray[np.float64]
Asked = Sequence[Criterion | Unanswered]

RELIED_ON = {"nailed": 60.0, "screwed": 150.0}
"""Force on one fastener of a back up to which it is counted on as a web [N].

Common practice, no source: well below what thin pins and screws in board edges carry.
"""
WORTH_IT = 0.95
"""Share of a beam's own figure above which the frame's help is left out: it is on the safe side."""
_FIRST_GUESS = 1.0  # [N/mm or N]


def frame_answer(whole: Whole, beam: ShelfBeam, asked: Asked, plain: Answer) -> Answer:
    """Return the answer for a shelf, by the frame where that is the better model.

    Parameters
    ----------
    whole : Whole
        The idealised description.
    beam : ShelfBeam
        The shelf as a beam of its own.
    asked : sequence
        What it must satisfy.
    plain : Answer
        What the beam of its own gives.
    """
    part = part_of(whole, beam)
    if part is None or not (part.carries or part.sinks):
        return plain
    results = part.elevation.under_weight(), part.elevation.under_weight(aged=True)
    if results[0] is None or results[1] is None:
        return plain
    overworked = _force_on_fastener(part, results[0])
    demands = list(frame_demands(whole, part, beam, asked, (results[0], results[1])))
    bound = list(asked)
    if part.carries and not overworked:
        bound = [_without_landing(beam, criterion) for criterion in asked]
    bounded = overworked or not part.carries or not _tied(whole, part)
    bounds = {check.question: check for check in shelf_checks(beam, bound)} if bounded else {}
    checks = tuple(_judged(part, check, demands, bounds, overworked) for check in plain.checks)
    # what rests on its supports is never more than its own and all that stands on it
    pressed = [one for one in asked if isinstance(one, Unanswered) or one.curve == "reaction"]
    caps = [safe_loads(beam, pressed), *([safe_loads(beam, bound)] if bounded else [])]
    webs = None
    if part.carries and not overworked:
        webs = fastener_demand(whole, part, beam, results[0], RELIED_ON)
    loads = [
        _safe(part, beam, number, load, demands, [cap[number] for cap in caps], webs)
        for number, load in enumerate(plain.safe_loads)
    ]
    changed = [(new, old) for new, old in zip(checks, plain.checks, strict=True) if new != old]
    if not changed:
        return plain
    told = [
        f"{new.question} {figure(new.value or 0.0, new.measure)}, as a beam of its own "
        f"{_figures(old)}"
        for new, old in changed
        if new.question.startswith("sag")
    ]
    told += [_joints_shown(part)] if part.carries else []
    words = f"elevation frame, because {_why(part)}: {'; '.join(told)}"
    return replace(
        plain,
        checks=checks,
        safe_loads=tuple(loads),
        models=(*plain.models, (beam.place, words)),
    )


def _why(part: Part) -> str:
    if part.carries:
        return "what stands on its open span helps to carry it"
    return "it runs over an upright that sinks with the shelf below"


def milder(one: Answer, other: Answer) -> Answer:
    """Of two models that each leave out what helps in the other, the one that asks less."""
    return min(one, other, key=_used)


def graver(one: Answer, other: Answer) -> Answer:
    """Of two models that each leave out what hurts in the other, the one that asks more."""
    return max(one, other, key=_used)


def _used(answer: Answer) -> tuple[int, float]:
    ratios = [check.ratio for check in answer.checks if check.value is not None]
    order = list(Verdict)
    verdict = worst(check.verdict for check in answer.checks)
    return order.index(verdict), max(ratios, default=0.0)


def _without_landing(beam: ShelfBeam, criterion: Criterion | Unanswered) -> Criterion | Unanswered:
    """The criterion of a shelf that what stands on it has let go of."""
    if isinstance(criterion, Unanswered):
        return criterion
    stays = np.array([not case.kind.startswith("landing") for case in beam.cases])
    return replace(
        criterion, always=criterion.always * stays, sometimes=criterion.sometimes * stays
    )


def _tied(whole: Whole, part: Part) -> bool:
    """Whether it can hang on what stands on it: by its corners, or by the backs above."""
    unit = whole.placed[part.line.unit].unit
    if horizontal(unit, part.line.number).loose:
        return False
    if unit.corners != "pinned":
        return True
    if part.line.number >= len(unit.level):
        return False
    back = back_of(unit, unit.level[part.line.number])
    return back is not None and back.holds == "shelves"


def _force_on_fastener(part: Part, result: FrameResult) -> str:
    """Say which fasteners of backs a deep beam would overwork; empty where none."""
    factors = part.elevation.factors(dead=1.0, contents=1.0, spot=1.0)
    flow = np.abs(result.shear_flow) @ factors
    found = ""
    for back, each in zip(part.plan.backs, flow, strict=True):
        if back.hold.spacing is None:
            continue
        force = float(each) * back.hold.spacing
        if force > RELIED_ON[back.hold.fixed]:
            found = (
                f"its back would put {figure(force, 'force')} on each of its fasteners, more "
                f"than the {figure(RELIED_ON[back.hold.fixed], 'force')} counted on"
            )
    return found


def _judged(
    part: Part,
    check: Check,
    demands: Sequence[Demand],
    bounds: Mapping[str, Check],
    overworked: str,
) -> Check:
    """The graver of the frame's figure and its bound, with the other one quoted."""
    asked = [demand for demand in demands if demand.question == check.question]
    if not asked or check.value is None or check.limit is None:
        return check
    best, value, limit = -1.0, 0.0, 0.0
    for demand in asked:
        ratios = demand.curve.worst(demand.always, demand.sometimes)
        at = int(np.argmax(ratios))
        if ratios[at] > best:
            best = float(ratios[at])
            value, limit = best * float(demand.limit[at]), float(demand.limit[at])
    if part.carries and not part.sinks and WORTH_IT * check.ratio < best <= check.ratio:
        return check
    bound = bounds.get(check.question)
    if bound is not None and bound.value is not None and bound.ratio >= best:
        if not part.carries or overworked:
            extra = f"; {overworked}" if overworked else ""
            return replace(check, governs=check.governs + extra)
        return replace(
            bound,
            method=f"{check.method}; alone, as what stands on it is not tied to it",
            governs=f"{bound.governs}; loaded by what stands on it: {_figures(check)}",
        )
    backed = any(back.bay.unit == part.line.unit for back in part.plan.backs)
    webs = ", backs as webs" if backed else ""
    return replace(
        check,
        value=value,
        limit=limit,
        method=f"elevation frame{webs}, worst pattern of full and empty bays",
        governs=f"{_why(part)}; as a beam of its own: {_figures(check)}",
    )


def _figures(check: Check) -> str:
    if check.value is None or check.limit is None:
        return "not known"
    return (
        f"{figure(check.value, check.measure)} where {figure(check.limit, check.measure)} "
        "is allowed"
    )


def _safe(
    part: Part,
    beam: ShelfBeam,
    number: int,
    load: SafeLoad,
    demands: Sequence[Demand],
    caps: Sequence[SafeLoad],
    webs: Demand | None,
) -> SafeLoad:
    """The safe load by the frame, no more than each cap allows.

    ``webs`` are the fasteners of backs that act as webs: beyond what is counted on there, the
    shelf is a beam of its own again.
    """
    if load.reason or not demands:
        return load
    own = np.array(
        [
            case.kind == "contents"
            and (case.unit, case.number) == (part.line.unit, part.line.number)
            for case in part.elevation.cases
        ]
    )
    count = len(beam.bays)
    everywhere = np.repeat([1.0, 0.0], count)
    spot = (np.arange(2 * count) == count + number).astype(float)
    even = [_largest(demands, own, everywhere)]
    point = [_largest(demands, own, spot)]
    even += [(cap.even_per_length or 0.0, cap.governed_by) for cap in caps]
    point += [(cap.point or 0.0, cap.point_governed_by) for cap in caps]
    if webs is not None:
        relied = _largest([webs], own, everywhere), _largest([webs], own, spot)
        even.append(max(relied[0], (load.even_per_length or 0.0, load.governed_by)))
        point.append(max(relied[1], (load.point or 0.0, load.point_governed_by)))
    bay = beam.bays[number]
    return replace(
        load,
        even=min(even)[0] * (bay.end - bay.start),
        even_per_length=min(even)[0],
        point=min(point)[0],
        governed_by=min(even)[1],
        point_governed_by=min(point)[1],
    )


def _largest(demands: Sequence[Demand], own: Array, unit: Array) -> tuple[float, str]:
    """Return the largest unit load at which no demand is above what is allowed, and whose."""

    def asked(load: float) -> tuple[float, str]:
        return max(
            (
                (demand.ratio(own, unit * load), demand.question)
                for demand in demands
                if load == 0.0 or demand.per_load
            ),
            default=(0.0, ""),
        )

    return largest_load(asked, _FIRST_GUESS)


def _joints_shown(part: Part) -> str:
    """Say how much the corners matter: sag on the first day with pinned and rigid ones."""
    factors = part.elevation.factors(dead=1.0, contents=1.0)

    def sag(joint: float | None) -> str:
        try:
            result = part.elevation.solved(part.plan.frame(joint=joint, plumb=True))
        except Mechanism:
            return "no end of sag"
        down = along(part, result, "deflection") @ factors
        ends = result.displacements[[part.nodes[0], part.nodes[-1]], DOWN] @ factors
        return figure(float(down.max() - ends.min()), "length")

    return (
        f"first-day sag with everything full {sag(0.0)} with pinned corners, {sag(None)} with "
        f"corners as described, {sag(np.inf)} with rigid ones"
    )
