"""A proof load on a built shelf: does it sag as computed, and are its ends as free as assumed?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from shelfload.advise.asked import Reader, above_zero
from shelfload.advise.bench import reading
from shelfload.advise.sagged import is_at
from shelfload.advise.scatter import stiffness_cov
from shelfload.describe.reader import Description
from shelfload.errors import DescriptionError, Mistake
from shelfload.idealise.place import Place
from shelfload.idealise.plates import ShelfPlate, shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam, with_clamped_ends
from shelfload.idealise.whole import Whole, idealise
from shelfload.solve.measured import expanded, stiffness_of_readings
from shelfload.wording import figure

Spread = Literal["even", "point"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What a proof load says.

    Attributes
    ----------
    place : Place
        Which shelf and bay.
    measured : float
        Sag per load, as measured [mm/N].
    error : float
        Relative half width of its interval [-].
    free, clamped : float
        Sag per load as described, and with its ends clamped [mm/N].
    scatter : float
        How far E of such sheets strays, two standard deviations [-].
    load, sag : float
        The largest reading [N], [mm].
    words : tuple of str
        What it means.
    expected : bool
        Whether it sagged as it should, or less.
    """

    place: Place
    measured: float
    error: float
    free: float
    clamped: float
    scatter: float
    load: float
    sag: float
    words: tuple[str, ...]
    expected: bool


def proven(
    description: Description,
    place: Place,
    readings: Sequence[tuple[float, float]],
    *,
    spread: Spread = "even",
    sag_error: float = 0.25,
) -> Proof:
    """Compare the sag that a load adds to a shelf with what is computed.

    Parameters
    ----------
    place : Place
        Shelf, and the bay the load stands in; the first if it is left out.
    readings : sequence of (float, float)
        Load [N] and the sag that it adds at the front in the middle of the bay [mm].
    spread : "even" or "point"
        All over the bay, or on the middle of it.
    sag_error : float
        Most that a sag may be misread [mm].

    Raises
    ------
    DescriptionError
        If the description has no such shelf that bends.
    """
    project = description.project
    found = _sag_per_load(idealise(project, description.catalogue), place, spread)
    if found is None:
        mistake = Mistake(
            key="--shelf", found=str(place), allowed="allowed: a shelf that bends, and its bay"
        )
        raise DescriptionError([mistake])
    beam, free = found
    stiff = with_clamped_ends(beam)
    clamped = _sag(stiff, shelf_plate(stiff), place, spread)
    loads, sags = np.array(readings).T
    k, scattered = stiffness_of_readings(loads, sags)
    others = [sag_error / np.sqrt(3.0) / float(np.sqrt(np.mean(sags**2)))]
    error = float(expanded(scattered, len(sags), others)[0])
    scatter = 2.0 * max(stiffness_cov(piece.material)[0] for piece in beam.shape.pieces)
    measured = 1.0 / float(k)
    ratio = measured / free
    return Proof(
        place=beam.place,
        measured=measured,
        error=error,
        free=free,
        clamped=clamped,
        scatter=scatter,
        load=float(loads.max()),
        sag=float(sags[loads.argmax()]),
        words=tuple(_words(ratio, error, scatter, clamped / free)),
        expected=ratio <= 1.0 + error + scatter and error < 1.0,
    )


def _sag_per_load(whole: Whole, place: Place, spread: Spread) -> tuple[ShelfBeam, float] | None:
    """Sag in the middle of a bay per load in that bay [mm/N]."""
    for beam in whole.beams:
        if not is_at(Place(unit=beam.place.unit, part=beam.place.part), _shelf_of(place)):
            continue
        if _bay(beam, place) is not None:
            return beam, _sag(beam, whole.plates.get(beam.place), place, spread)
    return None


def _bay(beam: ShelfBeam, place: Place) -> int | None:
    """Which bay of a shelf is meant; None if it has no such bay."""
    return next(
        (
            number
            for number, bay in enumerate(beam.bays)
            if place.bay in ("", bay.name, beam.place.bay)
        ),
        None,
    )


def _sag(beam: ShelfBeam, plate: ShelfPlate | None, place: Place, spread: Spread) -> float:
    number = _bay(beam, place)
    bay = beam.bays[number or 0]
    case = next(
        index for index, one in enumerate(beam.cases) if one.kind == spread and one.bay == number
    )
    load = bay.end - bay.start if spread == "even" else 1.0
    if plate is None:
        w = beam.result.at([(bay.start + bay.end) / 2.0])[0][case, 0]
    else:
        w = np.abs(plate.first_day.w[:, case]).max()
    return float(w) / load


def _shelf_of(place: Place) -> Place:
    return Place(unit=place.unit, part=place.part)


def _words(ratio: float, error: float, scatter: float, clamped: float) -> list[str]:
    seen = f"It sags {figure(ratio, 'ratio')} times what was computed (read within {error:.0%})."
    band = error + scatter
    if error > 0.5:
        return [seen, "Too little load to tell: put more on it, or read the sag more finely."]
    if ratio > 1.0 + band:
        return [
            seen,
            f"That is more than such sheets stray ({scatter:.0%}): the sheet is softer than "
            f"described (its E {figure(1.0 / ratio, 'ratio')} times that), a support or joint "
            "gives, or the span is longer. Find out before filling it; count on "
            f"{figure(1.0 / ratio, 'ratio')} of its safe load for sag.",
        ]
    if ratio < 1.0 - band:
        held = max(0.0, min((1.0 - ratio) / (1.0 - clamped), 1.0)) if clamped < 0.999 else 0.0
        return [
            seen,
            "That is less than such sheets stray: its ends or back hold it more than assumed, or "
            "the sheet is stiffer. The check is on the safe side; joints that hold today may "
            "loosen, so do not count on it."
            + (
                f" Ends alone would have to hold it {held:.0%} of the way to clamped."
                if held
                else ""
            ),
        ]
    return [
        seen,
        f"That is within what such sheets stray ({scatter:.0%}): its ends are as free as assumed, "
        "as far as this test can tell.",
    ]


def readings_asked(options: Mapping[str, Any]) -> tuple[list[tuple[float, float]], float]:
    """Read what was read off, and how finely.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    reader = Reader()
    readings = [reader.read("--reading", reading, text, (1.0, 1.0)) for text in options["reading"]]
    sag_error = reader.read("--sag-error", above_zero, options["sag_error"], 1.0)
    reader.done()
    return readings, sag_error
