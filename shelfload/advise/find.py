"""Backwards: the span, load, thickness, strip or overhang at which a shelf just passes.

Each is found on the whole check, so that what is found passes as described.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, floor, inf
from typing import Any

from shelfload.advise.changes import LIPPING_MATERIAL, LIPPING_THICKNESS
from shelfload.advise.spot import Spot, spot
from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.describe.parts import Fill, Lipping
from shelfload.describe.reader import Description
from shelfload.errors import DescriptionError, Mistake
from shelfload.idealise.place import Place
from shelfload.units import Load
from shelfload.wording import figure

_HALVINGS = 60
_FACTORS = (1e-3, 1e3)


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


def find(description: Description, wanted: str) -> Found:
    """Find one quantity, a key of ``FINDERS``, of the one shelf of a description.

    Raises
    ------
    DescriptionError
        If nothing within reason passes.
    """
    at = spot(description.project, Place(unit=description.project.shelf[0].name))
    found = None if at is None else FINDERS[wanted](at, description.catalogue)
    if found is None:
        mistake = Mistake(
            key=f"--find {wanted}",
            found="nothing that passes",
            allowed="allowed: a shelf that can pass; without --find the check says what fails",
        )
        raise DescriptionError([mistake])
    words, project = found
    return Found(words=words, description=replace(description, project=project))


def headroom(description: Description, place: Place) -> Headroom:
    """Return by how much the load and the span of a shelf may grow, or must shrink."""
    at, catalogue = spot(description.project, place), description.catalogue
    if at is None:
        return Headroom(load=None, span=None)
    if at.lone is not None and at.lone.plan is not None:
        load = largest(lambda x: _passes(_load_times(at, x), place, catalogue), 0.01, 100.0, 2e-3)
        return Headroom(load=load, span=None)
    return Headroom(
        load=largest(lambda x: _passes(_load_times(at, x), place, catalogue), 0.01, 100.0, 2e-3),
        span=largest(lambda x: _passes(_span_times(at, x), place, catalogue), 0.1, 10.0, 2e-3),
    )


def largest(
    passes: Callable[[float], bool], low: float, high: float, within: float = 1e-5
) -> float | None:
    """Return the largest x that passes, for what fails beyond some x; None if none does."""
    if not passes(low):
        return None
    if passes(high):
        return high
    for _ in range(_HALVINGS):
        middle = (low * high) ** 0.5
        low, high = (middle, high) if passes(middle) else (low, middle)
        if high < low * (1.0 + within):
            break
    return low


def smallest(passes: Callable[[float], bool], low: float, high: float) -> float | None:
    """Return the smallest x that passes, for what passes beyond some x; None if none does."""
    found = largest(lambda x: passes(1.0 / x), 1.0 / high, 1.0 / low)
    return None if found is None else 1.0 / found


def _passes(project: Project, place: Place, catalogue: Catalogue) -> bool:
    return all(
        check.verdict in (Verdict.PASSES, Verdict.CLOSE)
        for check in assess(project, catalogue).checks
        if (check.place.unit, check.place.part) == (place.unit, place.part)
    )


Answer = tuple[str, Project] | None


def _span(at: Spot, catalogue: Catalogue) -> Answer:
    def with_span(span: float) -> Project:
        return at.with_lone(spans=(span,) * len(at.on_its_own.spans))

    span = largest(lambda x: _passes(with_span(x), at.place, catalogue), 50.0, 8000.0)
    if span is None:
        return None
    span = float(floor(span))
    return f"the largest clear span that passes is {figure(span, 'length')}", with_span(span)


def _load(at: Spot, catalogue: Catalogue) -> Answer:
    factor = largest(lambda x: _passes(_load_times(at, x), at.place, catalogue), *_FACTORS)
    if factor is None:
        return None
    words = f"it passes with up to {figure(factor, 'ratio')} times the load that was given"
    return words, _load_times(at, factor)


def _thickness(at: Spot, catalogue: Catalogue) -> Answer:
    row = catalogue.material(at.material, at.thickness).material
    sizes = catalogue.sheets(row) or [float(size) for size in range(3, 121)]
    for size in sizes:
        if _passes(at.with_shelf(thickness=size), at.place, catalogue):
            words = f"the thinnest {row.called} that passes is {figure(size, 'length')}"
            return words, at.with_shelf(thickness=size)
    return None


def _lipping(at: Spot, catalogue: Catalogue) -> Answer:
    def with_strip(height: float) -> Project:
        strip = Lipping.model_construct(
            material=LIPPING_MATERIAL, thickness=LIPPING_THICKNESS, height=height
        )
        return at.with_shelf(lipping_front=strip)

    height = smallest(lambda x: _passes(with_strip(x), at.place, catalogue), 5.0, 300.0)
    if height is None:
        return None
    height = float(ceil(height))
    size = f"{figure(LIPPING_THICKNESS, 'length')} x {figure(height, 'length')}"
    return f"the least softwood strip along the front that passes is {size}", with_strip(height)


def _overhang(at: Spot, catalogue: Catalogue) -> Answer:
    """Move two supports in from the ends of a board until its largest sag is least."""
    lone = at.on_its_own
    length = sum(lone.spans) + (lone.overhang_left or 0.0) + (lone.overhang_right or 0.0)

    def moved(overhang: float) -> Project:
        return at.with_lone(
            spans=(length - 2.0 * overhang,),
            contents=lone.contents[:1],
            overhang_left=overhang,
            overhang_right=overhang,
        )

    def sag(overhang: float) -> float:
        checks = assess(moved(overhang), catalogue).checks
        sags = [one.value for one in checks if one.question.startswith("sag")]
        return max((value for value in sags if value is not None), default=inf)

    low, high = length * 0.01, length * 0.45
    while high - low > 0.5:
        third = (high - low) / 3.0
        if sag(low + third) <= sag(high - third):
            high -= third
        else:
            low += third
    best = float(round((low + high) / 2.0))
    words = f"it sags least with each of two supports {figure(best, 'length')} in from its end"
    return words, moved(best)


FINDERS: dict[str, Callable[[Spot, Catalogue], Answer]] = {
    "span": _span,
    "load": _load,
    "thickness": _thickness,
    "lipping": _lipping,
    "overhang": _overhang,
}
"""What can be looked for, by the word typed."""


def _span_times(at: Spot, factor: float) -> Project:
    """Stretch every span, and with it the places of what stands on spots."""
    if at.lone is not None:
        return at.with_lone(
            spans=tuple(span * factor for span in at.lone.spans),
            contents=tuple(_moved(fill, factor) for fill in at.lone.fills),
        )
    levels = tuple(
        level.model_copy(
            update={
                "bays": tuple(bay * factor for bay in level.bays),
                "contents": tuple(_moved(fill, factor) for fill in level.fills),
            }
        )
        for level in at.in_unit.level
    )
    top = tuple(_moved(fill, factor) for fill in at.in_unit.top_contents)
    return at.with_unit(level=levels, top_contents=top)


def _moved(fill: Fill | None, factor: float) -> Fill | None:
    if fill is None:
        return None
    points = tuple(point.model_copy(update={"at": point.at * factor}) for point in fill.points)
    return fill.model_copy(update={"points": points})


def _load_times(at: Spot, factor: float) -> Project:
    def times(fills: tuple[Fill | None, ...]) -> tuple[Fill | None, ...]:
        return tuple(None if fill is None else _fill_times(fill, factor) for fill in fills)

    if at.lone is not None:
        return at.with_lone(contents=times(at.lone.fills))
    if at.number == len(at.in_unit.level):
        return at.with_unit(top_contents=times(at.in_unit.top_contents))
    return at.with_level(at.number, contents=times(at.in_unit.level[at.number].fills))


def _fill_times(fill: Fill, factor: float) -> Fill:
    update: dict[str, Any] = {
        "fill": fill.fill * factor,
        "points": tuple(
            point.model_copy(update={"load": Load("total", point.load.value * factor)})
            for point in fill.points
        ),
    }
    if fill.load is not None:
        update["load"] = Load(fill.load.kind, fill.load.value * factor)
    return fill.model_copy(update=update)
