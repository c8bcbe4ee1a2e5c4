"""A shelf that is no beam: held by its back, cut on a curve, on four pins, or loaded on an edge."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.idealise.backs import BackHold, Spring, hold_in_words
from shelfload.idealise.loads import QUASI_PERMANENT
from shelfload.idealise.plate_panels import panels_of
from shelfload.idealise.plate_plan import PIN, Model, Plan
from shelfload.idealise.plate_response import Response
from shelfload.idealise.shelf_beam import Case, ShelfBeam
from shelfload.solve import plate

__all__ = ["PIN", "Response", "ShelfPlate", "bends_as_plate", "end_forces", "shelf_plate"]

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfPlate:
    """A shelf idealised as a plate, solved for the load cases of its beam.

    Attributes
    ----------
    model : str
        How it is held.
    first_day, crept : Response
        Load case by load case as in the beam, new and after years. The slip modulus of the
        ultimate limit state lies between the two, so that they bracket all forces.
    standing : ndarray, shape (cases,)
        Share of each case that stands for years.
    segment : ndarray, shape (points,)
        Which span of the beam each point lies in.
    along, across : ndarray, shape (points,)
        Place of each point from the left end and from the front edge [mm].
    moment_scale : float
        Beam moment that bends the section as a moment per length does [mm].
    across_stress, twist_stress : ndarray, shape (panels,)
        Largest stress in each panel per moment per length across, and per twist [1/mm2].
    thickness : float
        Of the panels together [mm].
    hold : BackHold or None
        What holds the rear edge.
    words : str
        The model in a few words.
    reason : str
        Why it is no beam.
    said : tuple of str
        What was assumed.
    """

    model: Model
    first_day: Response
    crept: Response
    standing: Array
    segment: NDArray[np.intp]
    along: Array
    across: Array
    moment_scale: float
    across_stress: Array
    twist_stress: Array
    thickness: float
    hold: BackHold | None
    words: str
    reason: str
    said: tuple[str, ...]

    @property
    def hold_words(self) -> str:
        """The back and its fixing, empty where there is none."""
        return self.hold.words if self.hold is not None else ""

    @property
    def sag_after_years(self) -> Array:
        """Sag of each case, its standing share grown by creep, shape (points, cases) [mm]."""
        return self.first_day.w * (1.0 - self.standing) + self.crept.w * self.standing


def bends_as_plate(beam: ShelfBeam) -> bool:
    """Whether a beam does not say all there is to say, and the creep of a plate is known."""
    return _model(beam) is not None and beam.creep is not None


def shelf_plate(beam: ShelfBeam, *, rear_held: bool = False) -> ShelfPlate | None:
    """Idealise a shelf as a plate and solve it; None where a beam says all there is to say.

    ``rear_held`` keeps the whole rear edge of a shelf without a known back from sinking.
    """
    model = _model(beam)
    if model is None or beam.creep is None:
        return None
    panels = panels_of(beam)
    stiff = panels.stiffness
    plan = Plan(beam, model)
    loads = [plan.loads(case, beam) for case in beam.cases]
    rear = beam.hold
    free = Spring(k_w=inf if rear_held else 0.0)

    def solved(spring: Spring, creep: float) -> Response:
        return plan.response(beam, stiff, creep, spring, loads)

    return ShelfPlate(
        model=model,
        first_day=solved(rear.first_day if rear else free, 0.0),
        crept=solved(rear.after_years if rear else free, beam.creep),
        standing=np.array([QUASI_PERMANENT[_lasts(case)] for case in beam.cases]),
        segment=plan.segment,
        along=plan.x,
        across=plan.y,
        moment_scale=beam.shape.EI_used / stiff.D11,
        across_stress=panels.across_stress,
        twist_stress=panels.twist_stress,
        thickness=beam.shape.thickness,
        hold=rear,
        words=_words(beam, model, stiff),
        reason=_reason(beam, model),
        said=(*panels.said, *(rear.said if rear else ()), *plan.said(beam)),
    )


def end_forces(beam: ShelfBeam, always: Array, sometimes: Array) -> tuple[Array, Array, Array]:
    """Return what a shelf cut on a curve hands to each of its supports.

    Parameters
    ----------
    beam : ShelfBeam
        The shelf, whose creep is known.
    always, sometimes : ndarray, shape (cases,)
        Factors on cases that are always there, and on those that may be.

    Returns
    -------
    steady, most : ndarray, shape (supports,)
        Under what is always there, and with all that presses it added [N].
    skew : ndarray, shape (supports,)
        Force on the harder pressed end quarter of it over an even share, at least 1 [-].
    """
    plate = shelf_plate(beam)
    if plate is None:
        raise ValueError(f"{beam.place}: a curved shelf whose creep is not known")
    force, quarters = plate.first_day.supports, plate.first_day.quarters
    steady = force @ always
    most = steady + np.maximum(force * sometimes, 0.0).sum(axis=1)
    full = always + sometimes
    whole = np.maximum(force @ full, 1e-9)
    skew = np.maximum(4.0 * (quarters @ full).max(axis=1) / whole, 1.0)
    return steady, most, skew


def _lasts(case: Case) -> Literal["permanent", "long-term", "medium-term", "short-term"]:
    # unit loads stand for stored contents
    return "long-term" if case.kind in ("even", "point") else case.duration


def _model(beam: ShelfBeam) -> Model | None:
    if beam.plan is not None:
        return "sector"
    if beam.shelf.pins is not None:
        return "pins"
    if beam.hold is not None:
        return "three edges"
    whole = not any(beam.result.is_overhang)
    return "two ends" if on_an_edge(beam) and whole else None


def on_an_edge(beam: ShelfBeam) -> bool:
    """Whether a load is said to stand off the middle of the depth."""
    return any(
        bay.load.line or any(y is not None for y in bay.load.from_front) for bay in beam.bays
    )


def _words(beam: ShelfBeam, model: Model, stiff: plate.Stiffness) -> str:
    if model == "sector":
        return "plate cut on a curve, held at its two ends"
    if model == "pins":
        return "plate on four pins"
    if model == "two ends" or beam.hold is None:
        return "plate held at its two ends"
    span = float(np.diff(beam.result.spans, axis=1).max())
    own = beam.shape.EI_used / (1.0 + (beam.creep or 0.0)) * (np.pi / span) ** 4
    kind = hold_in_words(beam.hold, own, stiff.D22, beam.shape.depth)
    return f"plate on three edges: two ends and the back ({kind})"


def _reason(beam: ShelfBeam, model: Model) -> str:
    if model == "sector":
        return "a curved shelf twists as it bends, which a beam can't show"
    if model == "pins":
        return "pins hold four spots and not whole edges"
    if model == "two ends" or beam.hold is None:
        return "the load stands on an edge, which a beam can't show"
    return f"a {beam.hold.words} holds its rear edge"
