"""Backwards: the span, load, thickness, strip or stiffness at which a shelf just passes.

Each is found on the whole check, so that what is found passes as described.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from shelfload.advise.finders import FINDERS, SAG_BY_SPAN, demand
from shelfload.advise.scaled import load_times, span_times
from shelfload.advise.search import largest_below
from shelfload.advise.spot import concerned, spot
from shelfload.describe.reader import Description
from shelfload.errors import DescriptionError, Mistake
from shelfload.idealise.place import Place

MOST_LOAD, MOST_SPAN = 100.0, 10.0
"""Factors beyond which nobody looks: who reaches one has found no limit."""
_NEAR = 2e-3  # how near a factor on load or span is found


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What was looked for: the sentence, and the description that has it."""

    words: str
    description: Description


@dataclass(frozen=True, slots=True, kw_only=True)
class Headroom:
    """How far a shelf is from its limits: factors on its load and on its span [-].

    Above 1 there is room, below 1 it is too much already; None where nothing within reason
    passes.
    """

    load: float | None
    span: float | None


def find(description: Description, wanted: str, place: Place | None = None) -> Found:
    """Find one quantity, a key of ``FINDERS``, of a shelf: the first one on its own if None.

    What is found comes with all that belongs to the shelf, and no more.

    Raises
    ------
    DescriptionError
        If nothing within reason passes.
    """
    if place is None:
        place = Place(unit=description.project.shelf[0].name)
    at = spot(concerned(description.project, place), place)
    if at is not None and at.unit is not None and wanted == "overhang":
        allowed = "allowed: a shelf on its own, whose supports can be moved"
        raise DescriptionError(
            [Mistake(key="--find overhang", found="a shelf of a unit", allowed=allowed)]
        )
    found = None if at is None else FINDERS[wanted](at, description.catalogue)
    if found is None:
        mistake = Mistake(
            key=f"--find {wanted}",
            found="nothing that passes",
            allowed="allowed: a shelf that can pass; without --find the check says what fails",
        )
        raise DescriptionError([mistake])
    changed = replace(
        description,
        project=found.project,
        catalogue=found.catalogue or description.catalogue,
    )
    return Found(words=found.words, description=changed)


def headroom(description: Description, place: Place) -> Headroom:
    """Return by how much the load and the span of a shelf may grow, or must shrink."""
    at, catalogue = spot(description.project, place), description.catalogue
    if at is None:
        return Headroom(load=None, span=None)
    piece = at.unit if at.lone is None else at.lone
    curved = piece is not None and piece.plan is not None
    return Headroom(
        load=largest_below(
            lambda x: demand(load_times(at, x), place, catalogue),
            1.0 / MOST_LOAD,
            MOST_LOAD,
            start=1.0,
            within=_NEAR,
        ),
        span=None
        if curved
        else largest_below(
            lambda x: demand(span_times(at, x), place, catalogue),
            1.0 / MOST_SPAN,
            MOST_SPAN,
            start=1.0,
            power=SAG_BY_SPAN,
            within=_NEAR,
        ),
    )
