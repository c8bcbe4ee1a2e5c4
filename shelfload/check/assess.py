"""Every question asked of a whole description, in one result."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from shelfload.check.bridge import standing_on_units
from shelfload.check.criteria import criteria, limit_in_words
from shelfload.check.described import something_stands_on_it
from shelfload.check.floor import standing_on_the_floor
from shelfload.check.frame_shelves import frame_answer, graver, milder
from shelfload.check.join_line import JoinLine
from shelfload.check.joins import holding_together
from shelfload.check.lifting import putting_up
from shelfload.check.people import people_beside_supports
from shelfload.check.plates import beyond_a_beam, least_of, only_helps, plate_answer
from shelfload.check.racking import staying_square
from shelfload.check.result import Answer, Check, SafeLoad, Verdict, worst
from shelfload.check.safe_load import safe_loads
from shelfload.check.shelves import shelf_checks, unbent_check
from shelfload.check.slipping import slipping_off
from shelfload.check.supports import staying_on_supports
from shelfload.check.tipping import standing_up
from shelfload.check.uprights import uprights_carrying
from shelfload.check.wall import staying_on_the_wall
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.idealise.place import Place
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole, idealise


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What the checks say of a description.

    Attributes
    ----------
    checks : tuple of Check
        In the order of the questions and of the description.
    safe_loads : tuple of SafeLoad
        For every bay of every shelf.
    joins : tuple of JoinLine
        What to drill and drive, join by join.
    models : tuple of str
        How shelves were worked out that are no plain beams, and what a beam would have given.
    assumptions : tuple of str
        What was assumed, each once.
    whole : Whole
        The idealised description behind the figures.
    """

    checks: tuple[Check, ...]
    safe_loads: tuple[SafeLoad, ...]
    joins: tuple[JoinLine, ...]
    assumptions: tuple[str, ...]
    whole: Whole
    models: tuple[str, ...] = ()

    @property
    def verdict(self) -> Verdict:
        """The gravest answer of all checks."""
        return worst(check.verdict for check in self.checks)


def carrying(whole: Whole) -> Iterable[Answer]:
    """Will each shelf carry what stands on it, and how much may it carry?"""
    for shelf in whole.shelves:
        if not isinstance(shelf, ShelfBeam):
            yield Answer(checks=(unbent_check(shelf),))
            continue
        limit = whole.catalogue.limit(shelf.limit)
        asked = criteria(shelf, limit)
        plain = Answer(
            checks=tuple(shelf_checks(shelf, asked)),
            safe_loads=tuple(safe_loads(shelf, asked)),
            assumptions=(*shelf.said, f"sag limit {limit_in_words(limit)}"),
            models=tuple((shelf.place, text) for text in shelf.shape.effects),
        )
        plate = whole.plates.get(shelf.place)
        framed = frame_answer(whole, shelf, asked, plain)
        if plate is None:
            yield framed
        else:
            flat = plate_answer(shelf, plate, asked, plain)
            if framed is plain:
                yield flat
            else:
                beyond = beyond_a_beam(shelf, plate, asked)
                yield _of_both(flat, framed, plain, beyond)


_DOUBTFUL = (Verdict.FAILS, Verdict.NOT_CHECKED)


def _of_both(flat: Answer, framed: Answer, plain: Answer, beyond: Sequence[SafeLoad]) -> Answer:
    """Choose between plate and frame: each knows something that the other leaves out.

    What only helps beyond the plain beam may be left out, so that the milder stands; what asks
    more, as a load on an edge or a support that sinks, may not; nor may what no beam is asked,
    which allows the safe loads ``beyond``.
    """
    plate_helps = only_helps(flat.checks, plain.checks)
    frame_helps = only_helps(framed.checks, plain.checks)
    if plate_helps and frame_helps:
        chosen = milder(flat, framed)
        # what the frame allows may rest on fasteners that give out before the plate does
        doubtful = worst(check.verdict for check in flat.checks) in _DOUBTFUL
        cap = flat.safe_loads
        if doubtful:
            # a load on one spot is taken at the front edge, of which the frame knows nothing
            cap = tuple(
                replace(own, point=spot.point, point_governed_by=spot.point_governed_by)
                if not spot.reason
                else spot
                for own, spot in zip(beyond, flat.safe_loads, strict=True)
            )
        return replace(chosen, safe_loads=least_of(framed.safe_loads, cap))
    chosen = graver(flat, framed)
    if plate_helps or frame_helps:
        chosen = framed if plate_helps else flat
    # under more load the other model may be the one that asks more
    return replace(chosen, safe_loads=least_of(flat.safe_loads, framed.safe_loads))


QUESTIONS: tuple[Callable[[Whole], Iterable[Answer]], ...] = (
    carrying,
    people_beside_supports,
    slipping_off,
    staying_on_the_wall,
    staying_on_supports,
    standing_up,
    standing_on_units,
    staying_square,
    uprights_carrying,
    holding_together,
    standing_on_the_floor,
    putting_up,
    something_stands_on_it,
)
"""What is asked of every description, in the order of the report. A new check is added here."""


def _together(said: Iterable[tuple[Place, str]]) -> tuple[str, ...]:
    """Say the same of several places once."""
    places: dict[tuple[str, str], list[str]] = {}
    for place, text in said:
        within = " ".join(part for part in (place.part, place.bay) if part)
        places.setdefault((place.unit, text), []).append(within)
    return tuple(
        f"{unit}{', ' if any(within) else ''}{', '.join(within)}: {text}"
        for (unit, text), within in places.items()
    )


def assess(project: Project, catalogue: Catalogue) -> Findings:
    """Check everything a description holds."""
    whole = idealise(project, catalogue)
    answers = [answer for question in QUESTIONS for answer in question(whole)]
    assumed = [f"service class {project.site.service_class} (EN 1995-1-1, 2.3.1.3)"]
    assumed += [text for answer in answers for text in answer.assumptions]
    return Findings(
        checks=tuple(check for answer in answers for check in answer.checks),
        safe_loads=tuple(load for answer in answers for load in answer.safe_loads),
        joins=tuple(line for answer in answers for line in answer.joins),
        models=_together(text for answer in answers for text in answer.models),
        assumptions=tuple(dict.fromkeys(assumed)),
        whole=whole,
    )
