"""What a shelf that bends as a plate must satisfy: the beam's criteria, and those beyond them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import (
    EN1990,
    GAMMA_Q,
    Criterion,
    Unanswered,
    design,
    strength_factors,
)
from shelfload.idealise.loads import Duration
from shelfload.idealise.plates import PIN, ShelfPlate
from shelfload.idealise.properties import Strength, in_plane_strength, strength
from shelfload.idealise.sections import Piece
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.wording import Measure, figure

Array = NDArray[np.float64]


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
            if _unknown_across(beam):
                found.append(_plain_bending(beam, criterion))
        elif criterion.curve == "shear":
            found.append(_shear(beam, plate, criterion))
        else:
            found.append(_bearing(beam, plate, criterion))
    for duration in dict.fromkeys(_durations(beam)):
        found += _across(beam, plate, duration)
        if plate.hold is not None:
            found.append(_back(beam, plate, duration))
    return found


def _durations(beam: ShelfBeam) -> list[Duration]:
    kinds = {case.duration for case in beam.cases if case.kind not in ("even", "point")}
    order: tuple[Duration, ...] = ("permanent", "long-term", "medium-term", "short-term")
    return [duration for duration in order if duration in kinds]


def both(plate: ShelfPlate, name: str) -> Array:
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
    M = both(plate, "M_x") * plate.moment_scale
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
    Q = both(plate, "Q")
    along = Q[:, 0] * beam.shape.depth / criterion.allowed[0]
    if criterion.duration is None:
        raise AssertionError("shear is asked for loads of some duration")
    peaks = np.asarray(beam.shape.section.shear_peak)
    known = [
        f / float(peaks[number])
        for number, piece in enumerate(beam.shape.pieces)
        if piece.name.endswith("panel")
        and isinstance(
            f := design(
                _turned(piece).f_shear, piece.material, beam.service_class, criterion.duration
            ),
            float,
        )
    ]
    # each panel by its own strength, whichever piece is the weakest along
    across = Q[:, 1] * beam.shape.depth / min(known, default=float(criterion.allowed[0]))
    return _as_demand(plate, criterion, np.concatenate([along, across]))


def _bearing(beam: ShelfBeam, plate: ShelfPlate, criterion: Criterion) -> Demand:
    """Bearing under the ends of the plain beam, which carry everything; of a sector; on pins."""
    strength = criterion.allowed[0] * criterion.scale[0]
    if plate.model != "pins":
        curve = beam.result.reactions.T / criterion.allowed[:, None]
        if plate.model == "sector":
            # an end quarter bears on a quarter of the depth, and the corners press hardest
            allowed = criterion.allowed[:, None]
            new, old = plate.first_day, plate.crept
            curve = np.concatenate(
                [
                    part / allowed
                    for one in (new, old)
                    for part in (one.supports, *np.moveaxis(4.0 * one.quarters, 1, 0))
                ]
            )
        return replace(_as_demand(plate, criterion, curve), method=criterion.method)
    on_pins = np.concatenate([plate.first_day.corners, plate.crept.corners])
    area = figure(PIN, "length"), figure(PIN_REACH, "length")
    return replace(
        _as_demand(plate, criterion, on_pins / (PIN * PIN_REACH * strength)),
        governs=f"a pin bears on {area[0]} x {area[1]}; {criterion.governs}",
        question="bearing on pins",
    )


BACK_IN_SHEAR = "back as a shear panel"
PIN_REACH = 16.0
"""Length over which a shelf bears on a pin [mm].

8 mm of pin and as much beside it, EN 1995-1-1:2004, 6.1.5(1); the length of a pin is common
practice, no source.
"""


def _unknown_across(beam: ShelfBeam) -> bool:
    return any(_turned(piece).f_m is None for piece in _panels(beam))


def _plain_bending(beam: ShelfBeam, criterion: Criterion) -> Demand:
    """Bending without the help of strength across the grain, where none is published."""
    x = np.linspace(0.0, float(beam.result.spans[-1, 1]), _STATIONS)
    M = np.asarray(beam.result.at(x)[1]).T
    return Demand(
        question=criterion.question,
        method="plain beam, as no strength across the grain is published; " + criterion.method,
        source=criterion.source,
        governs=criterion.governs,
        curves=(M / criterion.allowed[0],),
        always=criterion.always,
        sometimes=criterion.sometimes,
        per_load=criterion.per_load,
        limit=np.full(len(M), criterion.allowed[0] * criterion.scale[0]),
        measure=criterion.measure,
    )


_STATIONS = 97  # places along the beam; every support of even spans among them


def _panels(beam: ShelfBeam) -> list[Piece]:
    return [piece for piece in beam.shape.pieces if piece.name.endswith("panel")]


def _turned(piece: Piece) -> Strength:
    return strength(piece.material, "across" if piece.direction == "along" else "along")


def _across(beam: ShelfBeam, plate: ShelfPlate, duration: Duration) -> list[Demand | Unanswered]:
    """Bending both ways and twist together, panel by panel."""
    always, sometimes = strength_factors(beam, duration)
    M_x = both(plate, "M_x") * plate.moment_scale
    M_y, M_xy = both(plate, "M_y"), both(plate, "M_xy")
    found: list[Demand | Unanswered] = []
    for number, piece in enumerate(_panels(beam)):
        strengths = [
            design(f, piece.material, beam.service_class, duration)
            for f in (piece.strength.f_m, _turned(piece).f_m, in_plane_strength(piece.material))
        ]
        known = [f for f in strengths if isinstance(f, float)]
        if len(known) < len(strengths):
            if plate.model != "three edges":
                # without its back such a shelf is a beam, which is asked; these never are
                missing = next(f for f in strengths if isinstance(f, str))
                found.append(
                    Unanswered(
                        question="bending both ways and twist",
                        reason=f"{piece.material.called}: across the grain or in twist, {missing}",
                        source="own choice, after Norris's criterion",
                    )
                )
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
        question=BACK_IN_SHEAR,
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
