"""Ends said to be clamped: what they would change is shown, and nothing passes by it.

The end of a shelf in a housing or on screws turns: the joint gives, and so does the upright.
No join that can be described here says how little, so that the word alone holds nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.plates import least_of, plate_answer
from shelfload.check.result import Answer, Check, Verdict
from shelfload.check.safe_load import safe_loads
from shelfload.check.shelves import shelf_checks
from shelfload.idealise.plates import shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam, with_clamped_ends
from shelfload.wording import figure

SAID = (
    "shelf ends described as clamped are taken as free to turn: nothing described keeps them from "
    "turning"
)


def beside_clamped(
    beam: ShelfBeam, asked: Sequence[Criterion | Unanswered], free: Answer
) -> Answer:
    """Return the answer of a shelf whose ends are said to be clamped.

    Parameters
    ----------
    beam : ShelfBeam
        With its ends free to turn.
    asked : sequence
        What it must satisfy.
    free : Answer
        What it answers with its ends free.

    Notes
    -----
    The truth lies between the two. What passes both ways passes, by the graver figure; what
    fails both ways fails; what only clamped ends let pass is not checked.
    """
    held = with_clamped_ends(beam)
    plate = shelf_plate(held)
    clamped = Answer(
        checks=tuple(shelf_checks(held, asked)), safe_loads=tuple(safe_loads(held, asked))
    )
    if plate is not None:
        clamped = plate_answer(held, plate, asked, clamped)
    by_question = {check.question: check for check in clamped.checks}
    return replace(
        free,
        checks=tuple(_both(check, by_question.get(check.question)) for check in free.checks),
        safe_loads=least_of(free.safe_loads, clamped.safe_loads),
        assumptions=(*free.assumptions, SAID),
    )


def _both(free: Check, clamped: Check | None) -> Check:
    if clamped is None or clamped.value is None or free.value is None or free.limit is None:
        return free
    if free.verdict is Verdict.FAILS and clamped.ratio <= 1.0:
        # without a figure, so that nothing takes the one of clamped ends for what it will do
        return replace(
            free,
            value=None,
            limit=None,
            reason=f"with ends free to turn it is {figure(free.value, free.measure)} where "
            f"{figure(free.limit, free.measure)} is allowed; only ends that can't turn at all "
            f"let it pass ({figure(clamped.value, free.measure)}), and nothing described holds "
            "them",
        )
    if free.verdict is not Verdict.FAILS and clamped.ratio > free.ratio:
        return replace(clamped, method=f"{clamped.method}, ends clamped")
    return free
