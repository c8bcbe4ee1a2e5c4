"""Does a shelf slip off what it lies on? A sagging shelf shortens and has play at its ends."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from shelfload.check.criteria import sag_factors
from shelfload.check.curved import straight_only
from shelfload.check.result import Answer, Check
from shelfload.describe.parts import Shelf
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve.beam import envelope
from shelfload.solve.bearing import sag_at_slip
from shelfload.wording import figure

ASSUMED_PLAY = 2.0
"""Clear width less length of a shelf where it is not said, both ends together [mm] (judgement)."""


def slipping_off(whole: Whole) -> Iterable[Answer]:
    """Is enough bearing left at the ends of each shelf that lies loose?"""
    described = {lone.name: lone.shelf for lone in whole.project.shelf}
    by_place = {
        (unit.name, shelf_name(unit, number)): horizontal(unit, number)
        for unit in whole.project.unit
        for number in range(len(unit.level) + 1)
    }
    for beam in whole.beams:
        shelf = by_place.get((beam.place.unit, beam.place.part)) or described.get(beam.place.unit)
        if shelf is not None and (shelf.loose or shelf.pins is not None):
            answer = _asked(beam, shelf)
            if beam.plan is not None:
                answer = replace(answer, checks=tuple(map(straight_only, answer.checks)))
            yield answer


def _asked(beam: ShelfBeam, shelf: Shelf) -> Answer:
    play = ASSUMED_PLAY if shelf.play is None else shelf.play
    said = (
        ()
        if shelf.play is not None
        else (f"loose shelves have {figure(ASSUMED_PLAY, 'length')} of play between their ends",)
    )
    question = "slips off its supports"
    source = "own derivation: shortening of a sagging beam"
    if beam.creep is None:
        return Answer(
            checks=(
                Check(
                    place=beam.place, question=question, method="beam", source=source,
                    measure="length", reason="no sag after years is known",
                ),
            )
        )  # fmt: skip
    always, sometimes = sag_factors(beam, beam.creep)
    env = envelope(beam.result, always, sometimes)
    lengths = np.diff(beam.result.spans, axis=1)[:, 0]
    inner = ~np.asarray(beam.result.is_overhang)
    sag = np.maximum(env.extremes.w_max, -env.extremes.w_min)
    bearing = min(beam.supports[0].bearing, beam.supports[-1].bearing)
    allowed = np.asarray(sag_at_slip(bearing, play, lengths))
    share = np.where(inner, sag / np.maximum(allowed, 1e-9), 0.0)
    at = int(np.argmax(share))
    return Answer(
        checks=(
            Check(
                place=beam.place,
                question=question,
                method="sag after years against the sag at which it slips",
                source=source,
                measure="length",
                value=float(sag[at]),
                limit=float(allowed[at]),
                governs=f"bearing {figure(bearing, 'length')}, play {figure(play, 'length')}",
                remedy="Use longer pins or cleats under its ends, or a shelf that fits closely.",
            ),
        ),
        assumptions=said,
    )
