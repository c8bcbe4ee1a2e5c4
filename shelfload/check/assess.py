"""Every question asked of a whole description, in one result."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from shelfload.check.bridge import standing_on_units
from shelfload.check.clamped import beside_clamped
from shelfload.check.criteria import Criterion, Unanswered, criteria, limit_in_words
from shelfload.check.curved import (
    back_or_none,
    curved_units,
    known_only_straight,
    not_for_curves,
    straight_only,
)
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
from shelfload.idealise.plates import shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent
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


class _Alike:
    """A shelf that is the same as another when everything in it is, to the last bit."""

    def __init__(self, shelf: ShelfBeam) -> None:
        self.shelf = shelf
        self._all = pickle.dumps(shelf, pickle.HIGHEST_PROTOCOL)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Alike) and self._all == other._all

    def __hash__(self) -> int:
        return hash(self._all)


@lru_cache(maxsize=256)
def _by_itself(alike: _Alike) -> tuple[tuple[Criterion | Unanswered, ...], Answer, Answer | None]:
    """What a shelf must satisfy, its answer as a plain beam, and as a plate if it is one.

    Options change one shelf and ask again about all: those that are as before are not worked
    out again.
    """
    shelf = alike.shelf
    # the table of limits is the same for every catalogue
    limit = Catalogue().limit(shelf.limit)
    asked = tuple(criteria(shelf, limit))
    plain = Answer(
        checks=tuple(shelf_checks(shelf, asked)),
        safe_loads=tuple(safe_loads(shelf, asked)),
        assumptions=(*shelf.said, f"sag limit {limit_in_words(limit)}"),
        models=tuple((shelf.place, text) for text in shelf.shape.effects),
    )
    plate = shelf_plate(shelf)
    return asked, plain, None if plate is None else plate_answer(shelf, plate, asked, plain)


def carrying(whole: Whole) -> Iterable[Answer]:
    """Will each shelf carry what stands on it, and how much may it carry?"""
    for shelf in whole.shelves:
        yield _carries(whole, shelf)


def _carries(whole: Whole, shelf: ShelfBeam | Unbent) -> Answer:
    if not isinstance(shelf, ShelfBeam):
        return Answer(checks=(unbent_check(shelf),))
    asked, plain, flat = _by_itself(_Alike(shelf))
    if flat is None and shelf.plan is not None:
        return replace(plain, checks=tuple(straight_only(check) for check in plain.checks))
    is_plate = flat is not None
    if flat is None:
        flat = plain
    if shelf.backed:
        flat = back_or_none(shelf, asked, plain, flat)
    framed = frame_answer(whole, shelf, asked, plain)
    if framed is plain:
        clamped = shelf.shelf.ends == "clamped"
        return beside_clamped(shelf, asked, flat) if clamped else flat
    if not is_plate:
        return framed
    beyond = beyond_a_beam(shelf, whole.plates[shelf.place], asked)
    return _of_both(flat, framed, plain, beyond)


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
    known_only_straight,
)
"""What is asked of every description, in the order of the report. A new check is added here."""

KNOWS_CURVES: tuple[Callable[[Whole], Iterable[Answer]], ...] = (
    carrying,
    standing_up,
    uprights_carrying,
    standing_on_the_floor,
    putting_up,
    something_stands_on_it,
    known_only_straight,
)
"""Questions whose answers hold for units that are curved in plan, too."""


def _put(question: Callable[[Whole], Iterable[Answer]], whole: Whole) -> Iterable[Answer]:
    """Put a question to the whole; figures for straight units are no answer for curved ones."""
    if question in KNOWS_CURVES:
        return question(whole)
    curved = curved_units(whole)
    return (not_for_curves(answer, curved) for answer in question(whole))


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
    answers = [answer for question in QUESTIONS for answer in _put(question, whole)]
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


def checks_of_shelf(project: Project, catalogue: Catalogue, place: Place) -> tuple[Check, ...]:
    """Return what :func:`assess` says of one shelf, all its bays, and nothing else.

    Every question is asked; only the other shelves are not worked out.
    """
    whole = idealise(project, catalogue)
    own = [shelf for shelf in whole.shelves if shelf.place.same_part(place)]
    answers = [_carries(whole, shelf) for shelf in own]
    answers += [
        answer
        for question in QUESTIONS
        if question is not carrying
        for answer in _put(question, whole)
    ]
    return tuple(
        check for answer in answers for check in answer.checks if check.place.same_part(place)
    )
