"""How much may a shelf carry? The criteria of its checks, asked backwards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.result import SafeLoad
from shelfload.check.shelves import curve_peaks, solved_together
from shelfload.idealise.shelf_beam import CaseKind, ShelfBeam

Array = NDArray[np.float64]

_STATIONS = 25
"""Places per span at which a first estimate is made; the estimate is then corrected.

Odd, so that the middle of a span is one of them: there the estimate is exact already.
"""
_CLOSE_ENOUGH = 1e-7
_ROUNDS = 60


def safe_loads(beam: ShelfBeam, asked: Sequence[Criterion | Unanswered]) -> list[SafeLoad]:
    """Return the safe even load and the safe mid-bay point load of every bay.

    The even load is per length and acts on all bays at once in the worst pattern of full
    and empty; the point load stands alone in its bay. What stands on the shelf through
    uprights above, and people, stay on it; the contents described are taken off. A
    question without an answer leaves the safe load unknown.
    """
    places = [replace(beam.place, bay=beam.place.bay or bay.name) for bay in beam.bays]
    gaps = [question for question in asked if isinstance(question, Unanswered)]
    if gaps:
        reason = f"{gaps[0].question}: {gaps[0].reason}"
        return [SafeLoad(place=place, reason=reason) for place in places]
    criteria = [criterion for criterion in asked if isinstance(criterion, Criterion)]
    all_bays = tuple(range(len(beam.bays)))
    even, even_by = _largest(beam, criteria, "even", all_bays)
    found = []
    for number, (bay, place) in enumerate(zip(beam.bays, places, strict=True)):
        point, point_by = _largest(beam, criteria, "point", (number,))
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
    beam: ShelfBeam, criteria: Sequence[Criterion], kind: CaseKind, bays: Sequence[int]
) -> tuple[float, str]:
    """Return the largest load [N/mm or N] and the question that limits it.

    The demand never falls as the load grows. The first estimate comes from places along
    the beam, at each of which it grows linearly; the root on the true extremes follows.
    """
    asked = [criterion for criterion in criteria if criterion.per_load > 0.0]
    unit = np.array([1.0 if case.kind == kind and case.bay in bays else 0.0 for case in beam.cases])
    high = _estimate(beam, asked, unit)
    above, governs = _demand(beam, asked, unit, high)
    if abs(above - 1.0) < _CLOSE_ENOUGH:
        return high, governs
    empty, governs_empty = _demand(beam, asked, unit, 0.0)
    if empty >= 1.0:
        return 0.0, governs_empty
    while above < 1.0:
        high *= 2.0
        above, governs = _demand(beam, asked, unit, high)
    low, below = 0.0, empty
    for _ in range(_ROUNDS):
        # false position, with the Illinois rule so that neither end stays where it is
        load = low + (high - low) * (1.0 - below) / (above - below)
        demand, at_load = _demand(beam, asked, unit, load)
        if demand >= 1.0:
            high, above, governs = load, demand, at_load
            below = (below + 1.0) / 2.0
        else:
            low, below = load, demand
            above = (above + 1.0) / 2.0
        if abs(demand - 1.0) < _CLOSE_ENOUGH:
            return load, at_load
    return low, governs


def _demand(
    beam: ShelfBeam, criteria: Sequence[Criterion], unit: Array, load: float
) -> tuple[float, str]:
    """Return the worst ratio of all criteria under a load, and whose it is."""
    factors = [(one.always, _standing(beam, one) + unit * load * one.per_load) for one in criteria]
    solved = solved_together(beam, factors)
    worst, whose = 0.0, ""
    for criterion, (always, sometimes) in zip(criteria, factors, strict=True):
        env = solved[always.tobytes(), sometimes.tobytes()]
        ratio = float((curve_peaks(env, criterion) / criterion.allowed).max())
        if ratio > worst:
            worst, whose = ratio, criterion.question
    return worst, whose


def _standing(beam: ShelfBeam, criterion: Criterion) -> Array:
    """Factors of imposed loads that stay: what uprights above pass down, and people."""
    stays = np.array([case.kind in ("landing", "spot") for case in beam.cases])
    return np.where(stays, criterion.sometimes, 0.0)


def _estimate(beam: ShelfBeam, criteria: Sequence[Criterion], unit: Array) -> float:
    spans = beam.result.spans
    along = np.linspace(0.0, 1.0, _STATIONS)
    x = (spans[:, :1] + along * np.diff(spans, axis=1)).ravel()
    segment = np.repeat(np.arange(len(spans)), _STATIONS)
    curves = dict(zip(("sag", "moment", "shear"), beam.result.at(x), strict=True))
    curves["reaction"] = beam.result.reactions
    best = np.inf
    for criterion in criteria:
        curve = curves[criterion.curve]
        allowed = criterion.allowed
        if criterion.curve != "reaction":
            allowed = allowed[segment]
        steady = criterion.always @ curve
        share = _standing(beam, criterion)[:, None] * curve
        grows = (unit * criterion.per_load)[:, None] * curve
        for sign in (1.0,) if criterion.curve == "reaction" else (1.0, -1.0):
            base = sign * steady + np.maximum(sign * share, 0.0).sum(axis=0)
            slope = np.maximum(sign * grows, 0.0).sum(axis=0)
            with np.errstate(divide="ignore"):
                room = np.where(slope > 0.0, (allowed - base) / slope, np.inf)
            best = min(best, float(room.min()))
    return max(best, 1e-9)
