"""What is asked of straight units only, and what is said of a curved one instead.

A question is put to a unit that is curved in plan only where its answer is worked out for the
curve. Of every other question the answer is "not checked": a new question is safe from the
start, and joins its list in `assess.py` once it knows a curve.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.plates import least_of, plate_answer
from shelfload.check.result import Answer, Check, worst_of_each_question
from shelfload.idealise.place import Place
from shelfload.idealise.plates import shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.wording import Measure

STRAIGHT = "worked out for straight units only, and this one is curved in plan"


_NOT_ASKED: tuple[tuple[str, Measure, str], ...] = (
    (
        "stays square",
        "length",
        "back every bay or tie each level back, and push it by hand before it is loaded",
    ),
    (
        "fasteners of its joins",
        "force",
        "an end of a curved shelf also pulls up at one corner: hold both corners",
    ),
)


def curved_units(whole: Whole) -> frozenset[str]:
    """Return the names of units that are curved in plan."""
    return frozenset(unit.name for unit in whole.project.unit if unit.plan is not None)


def not_for_curves(answer: Answer, curved: frozenset[str]) -> Answer:
    """Return an answer without the figures and the joins of curved units."""
    if not curved:
        return answer
    return replace(
        answer,
        checks=tuple(
            straight_only(check) if check.place.unit in curved else check for check in answer.checks
        ),
        joins=tuple(line for line in answer.joins if line.place.unit not in curved),
    )


def straight_only(check: Check) -> Check:
    """Return a check without its figures."""
    return replace(check, value=None, limit=None, method="none", governs="", reason=STRAIGHT)


def back_or_none(
    beam: ShelfBeam, asked: Sequence[Criterion | Unanswered], plain: Answer, free: Answer
) -> Answer:
    """Return the graver of two answers: the back does not hold the rear edge, or holds it firmly.

    Parameters
    ----------
    beam : ShelfBeam
        A shelf on a curve with a back behind it, of which nobody knows how well it holds.
    asked : sequence
        What it must satisfy.
    plain : Answer
        Of a plain beam.
    free : Answer
        As a plate without the back.

    Notes
    -----
    A back takes load off, but a deep short shelf that is held at its rear tips down at its front
    and sags there up to a sixth more than without.
    """
    plate = shelf_plate(beam, rear_held=True)
    if plate is None:
        return free
    held = plate_answer(beam, plate, asked, plain)
    return replace(
        free,
        checks=tuple(worst_of_each_question([*free.checks, *held.checks])),
        safe_loads=least_of(free.safe_loads, held.safe_loads),
    )


def known_only_straight(whole: Whole) -> Iterable[Answer]:
    """Say of each curved unit what is not asked of it at all."""
    for name in sorted(curved_units(whole)):
        place = Place(unit=name)
        yield Answer(
            checks=tuple(
                Check(
                    place=place,
                    question=question,
                    method="none",
                    source="",
                    measure=measure,
                    reason=f"{STRAIGHT}; {what}",
                )
                for question, measure, what in _NOT_ASKED
            ),
            assumptions=(f"{name}: curved in plan, no join list",),
        )
