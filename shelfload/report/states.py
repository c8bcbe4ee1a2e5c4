"""What a drawing needs to know of each shelf: its verdict, how far it is used, its sag shape."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.check.assess import Findings
from shelfload.check.criteria import sag_factors
from shelfload.check.result import Check, Verdict, worst
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.report.document import MARKS

Array = NDArray[np.float64]
_STATIONS = 41
_LARGEST_SHOWN = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """The gravest check of a shelf: verdict, question, and share of what is allowed [-]."""

    verdict: Verdict
    question: str
    used: float | None

    @property
    def text(self) -> str:
        """Share and verdict in words, as the tables write them."""
        mark = MARKS[self.verdict]
        if self.used is None:
            return mark
        share = f"{self.used:.0%}" if self.used < _LARGEST_SHOWN else "over 999 %"
        return f"{share} {mark}"


UNKNOWN = State(verdict=Verdict.NOT_CHECKED, question="", used=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class SagShape:
    """How far a shelf sags [mm] at places along its beam [mm], with everything on it."""

    beam: ShelfBeam
    along: Array
    sag: Array
    when: str


def states(findings: Findings, unit: str) -> dict[str, State]:
    """Return the state of every part of a unit that was checked, by its name."""
    order = list(Verdict)

    def gravity(check: Check) -> tuple[int, float]:
        return order.index(check.verdict), -1.0 if check.value is None else check.ratio

    found: dict[str, Check] = {}
    for check in findings.checks:
        if check.place.unit == unit:
            before = found.get(check.place.part)
            if before is None or gravity(check) > gravity(before):
                found[check.place.part] = check
    return {
        part: State(
            verdict=check.verdict,
            question=check.question,
            used=None if check.value is None else check.ratio,
        )
        for part, check in found.items()
    }


def gravest(states_: Iterable[State]) -> Verdict:
    """Return the gravest verdict of several parts."""
    return worst(state.verdict for state in states_)


def sag_shapes(findings: Findings, unit: str) -> list[SagShape]:
    """Return the sag of each shelf of a unit: its shape full, as deep as the report says.

    The shape is that of the beam, or of the front edge where the shelf bends as a plate;
    its depth is scaled to the sag that the tables show, so that the two agree.
    """
    shapes = []
    for beam in findings.whole.beams:
        if beam.place.unit != unit:
            continue
        sag = next(
            (
                check
                for check in findings.checks
                if check.place == beam.place and check.question.startswith("sag")
            ),
            None,
        )
        if sag is None or sag.value is None:
            continue
        along, w = _shape(findings.whole, beam)
        deepest = float(np.abs(w).max())
        if deepest > 0.0:
            shapes.append(
                SagShape(beam=beam, along=along, sag=w * (sag.value / deepest), when=sag.question)
            )
    return shapes


def _shape(whole: Whole, beam: ShelfBeam) -> tuple[Array, Array]:
    plate = whole.plates.get(beam.place)
    if plate is not None and beam.plan is None:
        acting = np.array(
            [float(case.kind not in ("even", "point")) for case in beam.cases], dtype=np.float64
        )
        front = np.isclose(plate.across, plate.across.min())
        along = plate.along[front]
        order = np.argsort(along)
        return along[order], (plate.sag_after_years[front] @ acting)[order]
    length = beam.result.beam.length
    along = np.linspace(0.0, length, _STATIONS)
    always, sometimes = sag_factors(beam, beam.creep or 0.0)
    sag, _, _ = beam.result.at(along)
    return along, (always + sometimes) @ sag


def exaggeration(largest: float, per_mm: float, wanted: float) -> float:
    """Return the factor, ... 0.5, 1, 2, 5, 10, ..., that draws a sag [mm] up to ``wanted`` [px]."""
    if largest <= 0.0:
        return 1.0
    steps = [step * 10.0**power for power in range(-4, 4) for step in (1, 2, 5)]
    fitting = [step for step in steps if largest * per_mm * step <= wanted]
    return fitting[-1] if fitting else steps[0]


def drawn_as(times: float) -> str:
    """Say how far from true to scale a sag is drawn."""
    if times == 1.0:
        return "true to scale"
    if times > 1.0:
        return f"drawn {times:.0f} times too deep"
    return f"drawn {1.0 / times:.0f} times too flat"
