"""How much may a shelf that bends as a plate carry? Its demands, asked backwards."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import Unanswered
from shelfload.check.plate_demands import Demand
from shelfload.check.result import SafeLoad
from shelfload.check.safe_load import bay_by_bay, largest_load
from shelfload.idealise.shelf_beam import ShelfBeam

_FIRST_GUESS = 1.0  # [N/mm or N]


def plate_safe_loads(beam: ShelfBeam, demands: Sequence[Demand | Unanswered]) -> list[SafeLoad]:
    """Return the safe even load and the safe load on one spot at the front, bay by bay."""
    stays = np.array([case.kind in ("landing", "spot") for case in beam.cases])
    asked = [one for one in demands if isinstance(one, Demand) and one.per_load > 0.0]

    def largest(unit: NDArray[np.float64]) -> tuple[float, str]:
        def worst(load: float) -> tuple[float, str]:
            pairs = [
                (
                    float(
                        one.ratios(
                            np.where(stays, one.sometimes, 0.0) + unit * load * one.per_load
                        ).max()
                    ),
                    one.question,
                )
                for one in asked
            ]
            return max(pairs, default=(0.0, ""))

        return largest_load(worst, _FIRST_GUESS)

    return bay_by_bay(beam, [one for one in demands if isinstance(one, Unanswered)], largest)
