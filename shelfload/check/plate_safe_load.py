"""How much may a shelf that bends as a plate carry? Its demands, asked backwards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from shelfload.check.criteria import Unanswered
from shelfload.check.plate_demands import Demand
from shelfload.check.result import SafeLoad
from shelfload.idealise.shelf_beam import ShelfBeam

_ROUNDS = 60
_CLOSE_ENOUGH = 1e-7
_NO_LIMIT = 1e9  # a load that reaches nothing of what is asked [N or N/mm]


def plate_safe_loads(beam: ShelfBeam, demands: Sequence[Demand | Unanswered]) -> list[SafeLoad]:
    """Return the safe even load and the safe load on one spot at the front, bay by bay."""
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
        return max(pairs, default=(0.0, ""))

    below, governs = worst(0.0)
    if below >= 1.0:
        return 0.0, governs
    low, high = 0.0, 1.0
    above, governs = worst(high)
    while above < 1.0 and high < _NO_LIMIT:
        low, below, high = high, above, high * 4.0
        above, governs = worst(high)
    if above < 1.0:
        return high, governs
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
