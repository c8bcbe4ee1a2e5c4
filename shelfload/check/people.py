"""People on shelves, seats and benches: one of them right beside a support."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from shelfload.check.criteria import Criterion, criteria
from shelfload.check.curved import straight_only
from shelfload.check.result import Answer, Check
from shelfload.check.shelves import curve_peaks
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.solve.beam import envelope
from shelfload.wording import figure


def people_beside_supports(whole: Whole) -> Iterable[Answer]:
    """Does a shelf carry someone beside a support, where shear and bearing are largest?"""
    for beam in whole.beams:
        movers = [
            (number, bay.load.roaming) for number, bay in enumerate(beam.bays) if bay.load.roaming
        ]
        if not movers:
            continue
        limit = whole.catalogue.limit(beam.limit)
        asked = [one for one in criteria(beam, limit) if isinstance(one, Criterion)]
        number, force = max(movers, key=lambda mover: mover[1])
        checks = tuple(_moved(beam, number, force, asked))
        if beam.plan is not None:
            # near its end someone presses a corner of a curved shelf, which no beam shows
            checks = tuple(map(straight_only, checks))
        said = f"{beam.place}: one person, {figure(force, 'force', as_mass=True)}, anywhere on it"
        yield Answer(checks=checks, assumptions=(said,))


def _moved(
    beam: ShelfBeam, number: int, force: float, asked: Iterable[Criterion]
) -> Iterator[Check]:
    """Take one person from the middle of a bay and add the whole of them beside a support.

    No load between two supports brings more than itself to either of them, nor to the shear
    beside it.
    """
    own = next(
        index
        for index, case in enumerate(beam.cases)
        if case.kind == "spot" and case.bay == number and case.duration == "short-term"
    )
    for criterion in asked:
        factor = float(criterion.sometimes[own])
        if criterion.curve not in ("shear", "reaction") or factor == 0.0:
            continue
        others = criterion.sometimes.copy()
        others[own] = 0.0
        found = envelope(beam.result, criterion.always, others)
        peaks = curve_peaks(found, criterion) + factor * force
        at = int(np.argmax(peaks / criterion.allowed))
        yield Check(
            place=beam.place,
            question=f"{criterion.question}, someone beside a support",
            method=f"the whole person there, the rest where it is worst; {criterion.method}",
            source=criterion.source,
            measure=criterion.measure,
            value=float(peaks[at] * criterion.scale[at]),
            limit=float(criterion.allowed[at] * criterion.scale[at]),
            governs=criterion.governs,
            remedy="Give its ends more bearing, or a thicker panel.",
        )
