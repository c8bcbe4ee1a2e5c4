"""How much may a shelf carry? The criteria of its checks, asked backwards."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.result import SafeLoad
from shelfload.check.shelves import curve_peaks, solved_together
from shelfload.idealise.shelf_beam import ShelfBeam

Array = NDArray[np.float64]

_STATIONS = 25
"""Places per span at which a first estimate is made; the estimate is then corrected.

Odd, so that the middle of a span is one of them: there the estimate is exact already.
"""
_CLOSE_ENOUGH = 1e-7
_ROUNDS = 60
_NO_LIMIT = 1e9  # a load that reaches nothing of what is asked [N or N/mm]


WorstRatio = Callable[[float], tuple[float, str]]
"""The worst ratio of all questions under a load [N/mm or N], and whose it is."""


def safe_loads(beam: ShelfBeam, asked: Sequence[Criterion | Unanswered]) -> list[SafeLoad]:
    """Return the safe even load and the safe mid-bay point load of every bay.

    The even load is per length and acts on all bays at once in the worst pattern of full
    and empty; the point load stands alone in its bay. What stands on the shelf through
    uprights above, and people, stay on it; the contents described are taken off. A
    question without an answer leaves the safe load unknown.
    """
    known = [one for one in asked if isinstance(one, Criterion) and one.per_load > 0.0]

    def largest(unit: Array) -> tuple[float, str]:
        return largest_load(
            lambda load: _demand(beam, known, unit, load), _estimate(beam, known, unit)
        )

    return bay_by_bay(beam, [one for one in asked if isinstance(one, Unanswered)], largest)


def bay_by_bay(
    beam: ShelfBeam,
    gaps: Sequence[Unanswered],
    largest: Callable[[Array], tuple[float, str]],
) -> list[SafeLoad]:
    """Return the safe loads of every bay, or what leaves them unknown.

    ``largest`` takes the load cases that the unknown load multiplies, as a row of 0 and 1.
    """
    places = [replace(beam.place, bay=beam.place.bay or bay.name) for bay in beam.bays]
    if gaps:
        reason = f"{gaps[0].question}: {gaps[0].reason}"
        return [SafeLoad(place=place, reason=reason) for place in places]
    even, even_by = largest(np.array([float(case.kind == "even") for case in beam.cases]))
    found = []
    for number, (bay, place) in enumerate(zip(beam.bays, places, strict=True)):
        alone = [float(case.kind == "point" and case.bay == number) for case in beam.cases]
        point, point_by = largest(np.array(alone))
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


def largest_load(demand: WorstRatio, estimate: float) -> tuple[float, str]:
    """Return the largest load whose demand is no more than 1, and the question that limits it.

    The demand never falls as the load grows; 0 where it is too much with nothing on it.
    """
    high = estimate
    above, governs = demand(high)
    if abs(above - 1.0) < _CLOSE_ENOUGH:
        return high, governs
    low = 0.0
    below, whose = demand(low)
    if below >= 1.0:
        return 0.0, whose
    while above < 1.0 and high < _NO_LIMIT:
        low, below, high = high, above, high * 4.0
        above, governs = demand(high)
    if above < 1.0:
        return high, governs
    for _ in range(_ROUNDS):
        # false position, with the Illinois rule so that neither end stays where it is
        load = low + (high - low) * (1.0 - below) / (above - below)
        ratio, whose = demand(load)
        if abs(ratio - 1.0) < _CLOSE_ENOUGH:
            return load, whose
        if ratio >= 1.0:
            high, above, governs = load, ratio, whose
            below = (below + 1.0) / 2.0
        else:
            low, below = load, ratio
            above = (above + 1.0) / 2.0
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
