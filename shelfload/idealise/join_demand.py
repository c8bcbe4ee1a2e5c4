"""Forces on the joins of a unit: factored by load duration, and as they are in service."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from shelfload.idealise.joint import Force
from shelfload.idealise.loads import Duration
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.solve.beam import envelope, reaction_range

GAMMA_G, GAMMA_Q = 1.35, 1.5  # EN 1990 Table A1.2(B), eq. (6.10)
HANDLING = 250.0
"""Least force on a join that comes apart: a knock, a push, a unit dragged over the floor [N].

Common practice, no source: a third of an adult's weight.
"""
HANDLING_PULL = 100.0
"""Least force that pulls such a join open [N] (common practice, no source)."""
LEAN = 1.0 / 200.0  # sideways share of the weight above, EN 1995-1-1:2004, 5.4.4(2)
PUSH = 150.0  # someone leaning on one end [N] (common practice, no source)
_LASTING: tuple[Duration, ...] = ("permanent", "long-term", "medium-term", "short-term")


def passing(value: float) -> Force:
    """Return a force that comes and goes within days [N]."""
    return Force(design={"short-term": GAMMA_Q * value}, service=value)


def lasting(dead: float, imposed: float, duration: Duration = "long-term") -> Force:
    """Return a force of own weight and of what stands in a unit [N]."""
    design: dict[Duration, float] = {}
    if dead > 0.0:
        design["permanent"] = GAMMA_G * dead
    if imposed > 0.0:
        design[duration] = GAMMA_G * dead + GAMMA_Q * imposed
    return Force(design=design, service=dead + imposed)


def at_least(force: Force, floor: Force) -> Force:
    """Return a force with a floor under it: each duration by itself, the larger of the two."""
    design: Mapping[Duration, float] = {
        duration: max(force.design.get(duration, 0.0), floor.design.get(duration, 0.0))
        for duration in _LASTING
        if duration in force.design or duration in floor.design
    }
    return Force(design=design, service=max(force.service, floor.service))


def shelf_end(beam: ShelfBeam) -> Force:
    """Return the largest reaction at a support of a shelf, the worst pattern of bays full."""
    return _largest(beam, "reaction")


def shelf_shear(beam: ShelfBeam) -> Force:
    """Return the largest shear force along a shelf, the worst pattern of bays full."""
    return _largest(beam, "shear")


def _largest(beam: ShelfBeam, curve: str) -> Force:
    design: dict[Duration, float] = {}
    for number, duration in enumerate(_LASTING):
        lasting_ones = _LASTING[: number + 1]
        if number and not any(
            case.duration == duration and case.kind in ("contents", "landing", "spot")
            for case in beam.cases
        ):
            continue
        sometimes = np.array(
            [
                GAMMA_Q
                if case.kind in ("contents", "landing", "spot") and case.duration in lasting_ones
                else 0.0
                for case in beam.cases
            ]
        )
        always = beam.weights({"self": GAMMA_G, "landing dead": GAMMA_G})
        design[duration] = _peak(beam, curve, always, sometimes)
    service = _peak(
        beam,
        curve,
        beam.weights({"self": 1.0, "landing dead": 1.0}),
        beam.weights({"contents": 1.0, "landing": 1.0, "spot": 1.0}),
    )
    return Force(design=design, service=service)


def _peak(beam: ShelfBeam, curve: str, always: np.ndarray, sometimes: np.ndarray) -> float:
    if curve == "reaction":
        largest, _ = reaction_range(beam.result, always, sometimes)
        return float(np.max(largest))
    return float(np.max(envelope(beam.result, always, sometimes).extremes.V_abs_max))
