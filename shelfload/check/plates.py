"""Shelves that bend as plates: the criteria of a beam asked of a plate, and those beyond it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import (
    EC5,
    EN1990,
    GAMMA_Q,
    Criterion,
    Unanswered,
    design,
    strength_factors,
)
from shelfload.check.result import Answer, Check, SafeLoad, Verdict, worst
from shelfload.idealise.loads import Duration
from shelfload.idealise.plates import ShelfPlate
from shelfload.idealise.properties import Strength, in_plane_strength, strength
from shelfload.idealise.sections import Piece
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.wording import Measure, figure

Array = NDArray[np.float64]

_STEADY = 0.9  # self-weight where it helps, EN 1990 Table A1.2(A), from memory
_ROUNDS = 60
_CLOSE_ENOUGH = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """A limit on a plate.

    Attributes
    ----------
    question, method, source, governs : str
        For the report.
    curves : tuple of ndarray, shape (points, cases)
        Each over its own limit [-]; several are combined.
    always, sometimes : ndarray, shape (cases,)
        Factors on cases that are always there, or there when they make things worse.
    per_load : float
        Factor on an unknown long-term load.
    limit : ndarray, shape (points,)
        What is allowed, in the measure shown.
    measure : Measure
        Of the figure shown.
    """

    question: str
    method: str
    source: str
    governs: str
    curves: tuple[Array, ...]
    always: Array
    sometimes: Array
    per_load: float
    limit: Array
    measure: Measure

    def ratios(self, sometimes: Array) -> Array:
        """Demand over what is allowed at each point, the worst pattern of loads there."""
        sizes, signs = [], []
        for curve in self.curves:
            steady = curve @ self.always
            parts = curve * sometimes
            high = steady + np.maximum(parts, 0.0).sum(axis=1)
            low = steady + np.minimum(parts, 0.0).sum(axis=1)
            sizes.append(np.maximum(high, -low))
            signs.append((high > 0.0, low < 0.0))
        if len(sizes) == 1:
            return np.asarray(sizes[0])
        total = sum(size**2 for size in sizes)
        (up, down), (up_2, down_2) = signs[0], signs[1]
        opposed = (up & down_2) | (down & up_2)
        return np.asarray(np.sqrt(total + np.where(opposed, sizes[0] * sizes[1], 0.0)))


def plate_demands(
    beam: ShelfBeam, plate: ShelfPlate, asked: Sequence[Criterion | Unanswered]
) -> list[Demand | Unanswered]:
    """Return what a plate must satisfy: the beam's criteria on its own fields, and its own."""
    found: list[Demand | Unanswered] = []
    for criterion in asked:
        if isinstance(criterion, Unanswered):
            found.append(criterion)
        elif criterion.curve == "sag":
            found.append(_sag(beam, plate, criterion))
        elif criterion.curve == "moment":
            found.append(_along(plate, criterion))
        elif criterion.curve == "shear":
            found.append(_shear(beam, plate, criterion))
    for duration in dict.fromkeys(_durations(beam)):
        found += _across(beam, plate, duration)
        if plate.hold is not None:
            found.append(_back(beam, plate, duration))
    return found


def _durations(beam: ShelfBeam) -> list[Duration]:
    kinds = {case.duration for case in beam.cases if case.kind not in ("even", "point")}
    order: tuple[Duration, ...] = ("permanent", "long-term", "medium-term", "short-term")
    return [duration for duration in order if duration in kinds]


def _both(plate: ShelfPlate, name: str) -> Array:
    """A field new and after years, one under the other."""
    return np.concatenate([getattr(plate.first_day, name), getattr(plate.crept, name)])


def _sag(beam: ShelfBeam, plate: ShelfPlate, criterion: Criterion) -> Demand:
    final = criterion.question == "sag after years"
    w = plate.sag_after_years if final else plate.first_day.w
    limit = criterion.allowed[plate.segment]
    always = np.array([float(case.kind in ("self", "landing dead")) for case in beam.cases])
    kinds = ("contents", "spot", "landing")
    sometimes = np.array([float(case.kind in kinds) for case in beam.cases])
    return Demand(
        question=criterion.question,
        method=plate.words + ("; shelf and fasteners creep" if final else ""),
        source=criterion.source,
        governs="",
        curves=(w / limit[:, None],),
        always=always,
        sometimes=sometimes,
        per_load=1.0,
        limit=limit,
        measure="length",
    )


def _along(plate: ShelfPlate, criterion: Criterion) -> Demand:
    """Bending along the shelf, by the moment that bends its section as much."""
    M = _both(plate, "M_x") * plate.moment_scale
    # all spans have one section
    return _as_demand(plate, criterion, M / criterion.allowed[0])


def _as_demand(plate: ShelfPlate, criterion: Criterion, curve: Array) -> Demand:
    limit = np.full(len(curve), criterion.allowed[0] * criterion.scale[0])
    return Demand(
        question=criterion.question,
        method=f"{plate.words}; {criterion.method}",
        source=criterion.source,
        governs=criterion.governs,
        curves=(curve,),
        always=criterion.always,
        sometimes=criterion.sometimes,
        per_load=criterion.per_load,
        limit=limit,
        measure=criterion.measure,
    )


def _shear(beam: ShelfBeam, plate: ShelfPlate, criterion: Criterion) -> Demand:
    """Shear along the shelf, and across it by the strength across."""
    Q = _both(plate, "Q")
    along = Q[:, 0] * beam.shape.depth / criterion.allowed[0]
    panels = _panels(beam)
    softest = min(
        (across_f / along_f)
        for piece in panels
        if (along_f := piece.strength.f_shear) and (across_f := _turned(piece).f_shear)
    )
    across = Q[:, 1] * beam.shape.depth / criterion.allowed[0] / softest
    return _as_demand(plate, criterion, np.concatenate([along, across]))


def _panels(beam: ShelfBeam) -> list[Piece]:
    return [piece for piece in beam.shape.pieces if piece.name.endswith("panel")]


def _turned(piece: Piece) -> Strength:
    return strength(piece.material, "across" if piece.direction == "along" else "along")


def _across(beam: ShelfBeam, plate: ShelfPlate, duration: Duration) -> list[Demand]:
    """Bending both ways and twist together, panel by panel."""
    always, sometimes = strength_factors(beam, duration)
    M_x = _both(plate, "M_x") * plate.moment_scale
    M_y, M_xy = _both(plate, "M_y"), _both(plate, "M_xy")
    found = []
    for number, piece in enumerate(_panels(beam)):
        strengths = [
            design(f, piece.material, beam.service_class, duration)
            for f in (piece.strength.f_m, _turned(piece).f_m, in_plane_strength(piece.material))
        ]
        known = [f for f in strengths if isinstance(f, float)]
        if len(known) < len(strengths):
            continue
        along = M_x * float(beam.shape.section.stress_free[number])
        found.append(
            Demand(
                question="bending both ways and twist",
                method=f"{plate.words}; factored loads, {duration} load; squares of the three "
                "stresses over their strengths, added",
                source=f"own choice, after Norris's criterion; loads {EN1990}",
                governs=piece.material.called,
                curves=(
                    along / known[0],
                    M_y * plate.across_stress[number] / known[1],
                    M_xy * plate.twist_stress[number] / known[2],
                ),
                always=always,
                sometimes=sometimes,
                per_load=0.0 if duration == "permanent" else GAMMA_Q,
                limit=np.ones(len(M_x)),
                measure="ratio",
            )
        )
    return found


def _back(beam: ShelfBeam, plate: ShelfPlate, duration: Duration) -> Demand:
    """The back must not buckle under what leans on it."""
    if plate.hold is None:
        raise AssertionError("asked of a plate with a back")
    always, sometimes = strength_factors(beam, duration)
    length = beam.supports[-1].at - beam.supports[0].at
    line = np.stack([plate.first_day.back, plate.crept.back]) / length
    limit = plate.hold.shear_allowed
    return Demand(
        question="back as a shear panel",
        method="buckling of a sheet in shear, half of the critical stress, E after years",
        source="EN 1993-1-5:2006, Annex A.3; half: own caution",
        governs=plate.hold.words,
        curves=(line / limit,),
        always=always,
        sometimes=sometimes,
        per_load=0.0 if duration == "permanent" else GAMMA_Q,
        limit=np.full(len(line), limit),
        measure="line load",
    )


def plate_checks(
    beam: ShelfBeam,
    plate: ShelfPlate,
    demands: Sequence[Demand | Unanswered],
    plain: Sequence[Check],
) -> list[Check]:
    """Ask a plate every question; ``plain`` are the answers of the plain beam."""
    asked: dict[str, Check] = {}
    for demand in demands:
        check = _check(beam, plate, demand, plain)
        before = asked.get(check.question)
        if (
            before is None
            or check.value is None
            or (before.value is not None and check.ratio > before.ratio)
        ):
            asked[check.question] = check
    kept = [check for check in plain if check.question in ("bearing", "held down on its supports")]
    return [*asked.values(), *kept, *_lifting_off(beam, plate), *_fixings(beam, plate, plain)]


def plate_answer(
    beam: ShelfBeam,
    plate: ShelfPlate,
    asked: Sequence[Criterion | Unanswered],
    plain: Answer,
) -> Answer:
    """Answer for a shelf that bends as a plate; ``plain`` is the answer of its plain beam.

    A back that can't be counted on for what leans on it is left out: a shelf that carries
    everything as a plain beam needs none.
    """
    demands = plate_demands(beam, plate, asked)
    checks = plate_checks(beam, plate, demands, plain.checks)
    gravest = worst(check.verdict for check in checks)
    if plate.model == "three edges" and gravest in (Verdict.FAILS, Verdict.NOT_CHECKED):
        as_beam = worst(check.verdict for check in plain.checks)
        if as_beam in (Verdict.PASSES, Verdict.CLOSE):
            said = f"a plain beam, which passes; not counted is its {plate.hold_words}"
            return replace(plain, models=((beam.place, said),))
    return Answer(
        checks=tuple(checks),
        safe_loads=tuple(plate_safe_loads(beam, demands, asked)),
        assumptions=(*plain.assumptions, *plate.said),
        models=((beam.place, model_sentence(beam, plate, checks, plain.checks)),),
    )


def _check(
    beam: ShelfBeam, plate: ShelfPlate, demand: Demand | Unanswered, plain: Sequence[Check]
) -> Check:
    if isinstance(demand, Unanswered):
        return Check(
            place=beam.place,
            question=demand.question,
            method="none",
            source=demand.source,
            measure="stress",
            reason=demand.reason,
        )
    ratios = demand.ratios(demand.sometimes)
    at = int(np.argmax(ratios))
    governs = demand.governs
    if demand.measure == "length":
        governs = _sag_in_words(beam, plate, demand, plain, at)
    return Check(
        place=beam.place,
        question=demand.question,
        value=float(ratios[at] * demand.limit[at]),
        limit=float(demand.limit[at]),
        measure=demand.measure,
        method=demand.method,
        source=demand.source,
        governs=governs,
    )


def _sag_in_words(
    beam: ShelfBeam, plate: ShelfPlate, demand: Demand, plain: Sequence[Check], at: int
) -> str:
    first = plate.first_day.w[at]
    now = float(first @ (demand.always + demand.sometimes))
    words = [plate.words, f"first day {figure(now, 'length')}"]
    beam_sag = next((check for check in plain if check.question == demand.question), None)
    if beam_sag is not None and beam_sag.value is not None:
        words.append(f"a plain beam would give {figure(beam_sag.value, 'length')}")
    return "; ".join(words)


def model_sentence(
    beam: ShelfBeam, plate: ShelfPlate, checks: Sequence[Check], plain: Sequence[Check]
) -> str:
    """Say which model was used and why, and what the plain beam would have said."""
    mine = next((c for c in checks if c.question.startswith("sag") and c.value is not None), None)
    sentence = f"{plate.words}, because {plate.reason}"
    theirs = next((c for c in plain if c.question.startswith("sag") and c.value is not None), None)
    if mine is None or theirs is None or mine.value is None or theirs.value is None:
        return sentence
    sentence += f": sag {figure(mine.value, 'length')}, {mine.verdict.value}"
    sentence += (
        f"; as a plain beam {figure(theirs.value, 'length')}, {theirs.verdict.value} "
        f"(allowed {figure(theirs.limit or 0.0, 'length')})"
    )
    if plate.model == "three edges" and mine.value > theirs.value:
        spots = any(bay.load.points or bay.load.line for bay in beam.bays)
        sentence += (
            "; the front edge under its load sags more than a beam shows"
            if spots
            else "; held at the rear, a short deep shelf tips down a little at its front"
        )
    return sentence


def _lifting_off(beam: ShelfBeam, plate: ShelfPlate) -> list[Check]:
    """A pin or the corner of an end that the shelf would lift off."""
    if plate.model not in ("pins", "sector") or (beam.held_down and plate.model == "sector"):
        return []
    always = beam.weights({"self": _STEADY, "landing dead": _STEADY})
    sometimes = beam.weights({"contents": GAMMA_Q, "landing": GAMMA_Q, "spot": GAMMA_Q})
    lowest = np.inf
    for response in (plate.first_day, plate.crept):
        low = response.corners @ always + np.minimum(response.corners * sometimes, 0.0).sum(axis=1)
        lowest = min(lowest, float(low.min()))
    if lowest >= 0.0:
        return []
    what = "a pin" if plate.model == "pins" else "a corner of an end"
    return [
        Check(
            place=beam.place,
            question="held down on its supports",
            method=f"{plate.words}; factored loads, 0.9 of the shelf's own weight",
            source=EN1990,
            measure="force",
            reason=f"the shelf lifts off {what}: a fixing that holds "
            f"{figure(-lowest, 'force')} is needed and none is described",
        )
    ]


def _fixings(beam: ShelfBeam, plate: ShelfPlate, plain: Sequence[Check]) -> list[Check]:
    """Fixings of a back count only where the shelf would break without them."""
    if plate.hold is None or not any(_breaks(check) for check in plain):
        return []
    force = figure(back_force(beam, plate), "force" if plate.hold.spacing else "line load")
    each = "each" if plate.hold.spacing else "for each length"
    return [
        Check(
            place=beam.place,
            question="fixings of the back",
            method=plate.words,
            source=f"{EC5}, 8.3",
            measure="force",
            reason=f"without its back this shelf would break, and no rule gives a strength for "
            f"fixings in the edge of a panel; they must carry {force} {each}",
        )
    ]


def _breaks(check: Check) -> bool:
    return check.question in ("bearing", "bending", "shear", "rolling shear") and check.ratio > 1.0


def back_force(beam: ShelfBeam, plate: ShelfPlate) -> float:
    """Return the factored force on one fastener of the back [N], or per length for glue [N/mm]."""
    if plate.hold is None:
        return 0.0
    always, sometimes = strength_factors(beam, "short-term")
    rear = _both(plate, "rear")
    worst = rear @ always + np.maximum(rear * sometimes, 0.0).sum(axis=1)
    return float(worst.max()) * (plate.hold.spacing or 1.0)


def plate_safe_loads(
    beam: ShelfBeam,
    demands: Sequence[Demand | Unanswered],
    asked: Sequence[Criterion | Unanswered],
) -> list[SafeLoad]:
    """Return the safe even load and the safe load on one spot at the front, bay by bay.

    Bearing is that of the plain beam, whose ends carry everything.
    """
    places = [replace(beam.place, bay=beam.place.bay or bay.name) for bay in beam.bays]
    gaps = [question for question in demands if isinstance(question, Unanswered)]
    if gaps:
        reason = f"{gaps[0].question}: {gaps[0].reason}"
        return [SafeLoad(place=place, reason=reason) for place in places]
    known = [demand for demand in demands if isinstance(demand, Demand)]
    even, even_by = _largest(beam, known, "even", range(len(beam.bays)))
    found = []
    for number, (bay, place) in enumerate(zip(beam.bays, places, strict=True)):
        point, point_by = _largest(beam, known, "point", (number,))
        found.append(
            SafeLoad(
                place=place,
                even=even * (bay.end - bay.start),
                even_per_length=even,
                point=point,
                governed_by=even_by,
                point_governed_by=point_by,
            )
        )
    return found


def _largest(
    beam: ShelfBeam, demands: Sequence[Demand], kind: str, bays: Sequence[int]
) -> tuple[float, str]:
    """Return the largest load [N/mm or N] and the question that limits it."""
    unit = np.array([float(case.kind == kind and case.bay in bays) for case in beam.cases])
    stays = np.array([case.kind in ("landing", "spot") for case in beam.cases])
    asked = [demand for demand in demands if demand.per_load > 0.0]

    def worst(load: float) -> tuple[float, str]:
        pairs = [
            (
                float(
                    demand.ratios(
                        np.where(stays, demand.sometimes, 0.0) + unit * load * demand.per_load
                    ).max()
                ),
                demand.question,
            )
            for demand in asked
        ]
        return max(pairs)

    below, governs = worst(0.0)
    if below >= 1.0:
        return 0.0, governs
    low, high = 0.0, 1.0
    above, governs = worst(high)
    while above < 1.0:
        low, below, high = high, above, high * 4.0
        above, governs = worst(high)
    for _ in range(_ROUNDS):
        # false position, with the Illinois rule so that neither end stays where it is
        load = low + (high - low) * (1.0 - below) / (above - below)
        demand, at_load = worst(load)
        if demand >= 1.0:
            high, above, governs = load, demand, at_load
            below = (below + 1.0) / 2.0
        else:
            low, below = load, demand
            above = (above + 1.0) / 2.0
        if abs(demand - 1.0) < _CLOSE_ENOUGH:
            return load, at_load
    return low, governs
