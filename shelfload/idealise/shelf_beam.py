"""One shelf as a beam: supports, load cases and the solved response to each case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.describe.parts import Arc, Shelf
from shelfload.describe.site import Site
from shelfload.idealise.backs import BackHold
from shelfload.idealise.loads import BayLoad, Duration
from shelfload.idealise.place import Place
from shelfload.idealise.sections import ShelfSection
from shelfload.idealise.time import section_creep
from shelfload.solve import beam as solver
from shelfload.wording import size

ASSUMED_BEARING = 6.0
"""Length of support under a shelf end where none is described [mm].

A third of an 18 mm side: the depth of a housing (common practice, no source).
"""

CaseKind = Literal["self", "landing dead", "contents", "spot", "landing", "even", "point"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """What carries the shelf at one place of its length."""

    name: str
    at: float
    bearing: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unbent:
    """A shelf without a beam: it lies flat on something, or ``reason`` says what is missing."""

    place: Place
    words: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedBay:
    """A clear width of shelf [mm] along the beam, and what stands on it."""

    name: str
    start: float
    end: float
    load: BayLoad


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """An upright of the level above that stands on the shelf: force [N] at a place [mm]."""

    name: str
    at: float
    dead: float
    imposed: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One load case; ``even`` and ``point`` are unit loads for the safe load.

    ``point`` says which of the bay's points a ``spot`` is; two may be as short-lived.
    """

    kind: CaseKind
    bay: int | None = None
    duration: Duration = "permanent"
    point: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfBeam:
    """A shelf idealised as a beam, with its response to every load case.

    Attributes
    ----------
    place : Place
        Which shelf.
    shape : ShelfSection
        Its cross-section.
    supports, bays : tuples
        What carries it and what stands on it, from left to right.
    cases : tuple of Case
        One for each case of ``result``.
    result : BeamResult
        Solved for all cases at once.
    creep : float or None
        Long-term over first-day stiffness loss, kdef of the whole section [-]; None where
        the code has no value.
    service_class : int
        Of the site.
    limit : str or None
        Row of the limits table; None is the default one.
    held_down : bool
        Its supports hold it against lifting off, as housings and screws do.
    said : tuple of str
        What was assumed.
    shelf : Shelf
        As described.
    landings : tuple of Landing
        Uprights that stand on it.
    hold : BackHold or None
        What holds its rear edge.
    plan : Arc or None
        Its curve in plan.
    backed : bool
        A back stands behind it that is not worked out: it may hold the rear edge, or not.
    loads : Loads
        The load cases as they were solved.
    clamped : bool
        Whether its outer ends were taken as held against turning; see
        :func:`with_clamped_ends`.
    """

    place: Place
    shape: ShelfSection
    supports: tuple[Support, ...]
    bays: tuple[LoadedBay, ...]
    cases: tuple[Case, ...]
    result: solver.BeamResult
    creep: float | None
    service_class: int
    limit: str | None
    held_down: bool
    said: tuple[str, ...]
    shelf: Shelf
    landings: tuple[Landing, ...] = ()
    hold: BackHold | None = None
    plan: Arc | None = None
    backed: bool = False
    loads: solver.Loads
    clamped: bool = False

    def weights(self, factors: dict[CaseKind, float]) -> NDArray[np.float64]:
        """Return one factor per case, 0 for kinds not named."""
        return np.array([factors.get(case.kind, 0.0) for case in self.cases])


def end_bearing(shelf: Shelf) -> tuple[float, list[str]]:
    """Return the length of support under each end [mm] and what was assumed for it."""
    if shelf.bearing is not None:
        return shelf.bearing, []
    assumed = size(ASSUMED_BEARING)
    return ASSUMED_BEARING, [f"no bearing described: {assumed} under each shelf end"]


def shelf_beam(
    *,
    place: Place,
    shape: ShelfSection,
    length: float,
    supports: Sequence[Support],
    bays: Sequence[LoadedBay],
    landings: Sequence[Landing] = (),
    shelf: Shelf,
    site: Site,
    held_down: bool = True,
    said: Sequence[str] = (),
    hold: BackHold | None = None,
    plan: Arc | None = None,
    backed: bool = False,
) -> ShelfBeam:
    """Set up and solve one shelf for all its load cases.

    Parameters
    ----------
    length : float
        Of the beam, overhangs included [mm].
    supports, bays, landings : sequences
        With places measured along the beam [mm].
    shelf : Shelf
        As described: limit and how a double is joined.
    site : Site
        Service class, and the limit where the shelf has none of its own.
    held_down : bool
        See :class:`ShelfBeam`.
    said : sequence of str
        Assumptions beyond those of the section.
    hold, plan, backed : BackHold or None, Arc or None, bool
        See :class:`ShelfBeam`.
    """
    beam = solver.Beam(
        length=length,
        support_at=np.array([support.at for support in supports]),
        EI=np.array(shape.EI_used),
        GA=shape.section.GA,
    )
    cases: list[Case] = []
    patches: list[tuple[int, float, float, float, float]] = []
    points: list[tuple[int, float, float]] = []

    def case(
        kind: CaseKind,
        bay: int | None = None,
        duration: Duration = "permanent",
        point: int | None = None,
    ) -> int:
        cases.append(Case(kind=kind, bay=bay, duration=duration, point=point))
        return len(cases) - 1

    patches.append((case("self"), 0.0, length, shape.weight, shape.weight))
    if landings:
        dead = case("landing dead")
        points += [(dead, landing.at, landing.dead) for landing in landings if landing.dead]
    for number, bay in enumerate(bays):
        lasting = case("contents", number, "long-term")
        if bay.load.even:
            first, last, density = bay.load.patch(bay.start, bay.end)
            patches.append((lasting, first, last, density, density))
        for index, (force, at, duration) in enumerate(bay.load.points):
            spot = lasting if duration == "long-term" else case("spot", number, duration, index)
            points.append((spot, bay.start + at, force))
    points += [
        (case("landing", None, "long-term"), landing.at, landing.imposed)
        for landing in landings
        if landing.imposed
    ]
    for number, bay in enumerate(bays):
        patches.append((case("even", number), bay.start, bay.end, 1.0, 1.0))
        points.append((case("point", number), (bay.start + bay.end) / 2, 1.0))
    loads = solver.Loads.of(cases=len(cases), patches=patches, points=points)
    return ShelfBeam(
        place=place,
        shape=shape,
        supports=tuple(supports),
        bays=tuple(bays),
        cases=tuple(cases),
        result=solver.solve(beam, loads),
        creep=section_creep(shape, site.service_class),
        service_class=site.service_class,
        limit=shelf.limit or site.limit,
        held_down=held_down,
        said=(*shape.said, *said),
        shelf=shelf,
        landings=tuple(landings),
        hold=hold,
        plan=plan,
        backed=backed,
        loads=loads,
    )


def with_clamped_ends(beam: ShelfBeam) -> ShelfBeam:
    """Return a shelf solved again with its outer ends held against turning.

    Shelves are free to turn at their ends, whatever a description says: this is what they
    would do if nothing turned at all.
    """
    turn = np.zeros(len(beam.supports))
    turn[[0, -1]] = np.inf
    held = replace(beam.result.beam, turn_stiffness=turn)
    return replace(beam, result=solver.solve(held, beam.loads), clamped=True)
