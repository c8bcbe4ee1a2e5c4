"""What can be looked for: each a search over descriptions that are checked in full."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil, floor, inf

from shelfload.advise.changes import LIPPING_MATERIAL, LIPPING_THICKNESS
from shelfload.advise.needed import needed_stiffness, sheets_that_pass
from shelfload.advise.scaled import load_times, span_times
from shelfload.advise.search import largest_below, smallest
from shelfload.advise.spot import Spot
from shelfload.check.assess import checks_of_shelf
from shelfload.check.result import Verdict
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.describe.parts import Lipping
from shelfload.errors import QuantityError
from shelfload.idealise.lone import laid_out
from shelfload.idealise.place import Place
from shelfload.wording import figure, size

SAG_BY_SPAN = 3.0  # about how sag over its limit grows with the span
_FACTORS = (1e-3, 1e3)
_SHORTEST, _LONGEST = 50.0, 8000.0
_STRIPS = range(20, 301, 10)
"""Heights of a strip that are tried one after the other [mm]."""
_NAMED = 6  # sheets that are named


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What was found, the description that has it, and its catalogue where that is another."""

    words: str
    project: Project
    catalogue: Catalogue | None = None


def demand(project: Project, place: Place, catalogue: Catalogue) -> float:
    """Return the largest ratio of a shelf's checks; infinite where one has no pass to give."""
    checks = checks_of_shelf(project, catalogue, place)
    if any(check.verdict is Verdict.NOT_CHECKED for check in checks):
        return inf
    return max((check.ratio for check in checks), default=inf)


def _passes(project: Project, place: Place, catalogue: Catalogue) -> bool:
    return demand(project, place, catalogue) <= 1.0


def _span(at: Spot, catalogue: Catalogue) -> Answer | None:
    """Stretch the whole shelf, and in a unit every bay of it, until it just passes."""
    widest = _widest(at)
    if widest is None:
        return None
    factor = largest_below(
        lambda x: demand(span_times(at, x), at.place, catalogue),
        _SHORTEST / widest,
        max(_LONGEST / widest, 1.0),
        start=1.0,
        power=SAG_BY_SPAN,
    )
    if factor is None or (span := float(floor(factor * widest + 1e-6))) <= 0.0:
        return None
    words = f"the largest clear span that passes is {size(span, down=True)}"
    if at.unit is not None:
        words += f", all bays {figure(span / widest, 'ratio')} times as wide as described"
    return Answer(words=words, project=span_times(at, span / widest))


def _widest(at: Spot) -> float | None:
    """Largest clear width of the shelf [mm]; None for one on a curve."""
    if at.lone is not None:
        return None if at.lone.plan is not None else max(laid_out(at.lone).spans)
    levels = at.in_unit.level[max(at.number - 1, 0) : at.number + 1]
    return max(width for level in levels for width in level.bays)


def _load(at: Spot, catalogue: Catalogue) -> Answer | None:
    factor = largest_below(
        lambda x: demand(load_times(at, x), at.place, catalogue), *_FACTORS, start=1.0
    )
    if factor is None:
        return None
    words = f"it passes with up to {figure(factor, 'ratio')} times the load that was given"
    return Answer(words=words, project=load_times(at, factor))


def _thickness(at: Spot, catalogue: Catalogue) -> Answer | None:
    row = catalogue.material(at.material, at.thickness).material
    for sheet in catalogue.sheets(row) or _planed(at.material, catalogue):
        if _passes(at.with_shelf(thickness=sheet), at.place, catalogue):
            words = f"the thinnest {row.called} that passes is {size(sheet)}"
            return Answer(words=words, project=at.with_shelf(thickness=sheet))
    return None


def _planed(material: str, catalogue: Catalogue) -> Iterator[float]:
    """Whole millimetres for which a material that is not sold by thickness has a row."""
    for thick in range(3, 121):
        try:
            catalogue.material(material, float(thick))
        except QuantityError:
            continue
        yield float(thick)


def _lipping(at: Spot, catalogue: Catalogue) -> Answer | None:
    """Raise the strip step by step; a strip far too tall may fail again by something else."""

    def with_strip(height: float) -> Project:
        strip = Lipping.model_construct(
            material=LIPPING_MATERIAL, thickness=LIPPING_THICKNESS, height=height
        )
        return at.with_shelf(lipping_front=strip)

    def passes(height: float) -> bool:
        return _passes(with_strip(height), at.place, catalogue)

    enough = next((float(height) for height in _STRIPS if passes(float(height))), None)
    if enough is None:
        return None
    found = smallest(passes, enough - _STRIPS.step, enough)
    height = enough if found is None else min(float(ceil(found - 1e-6)), enough)
    if not passes(height):
        height = enough
    strip = f"{size(LIPPING_THICKNESS, up=True)} x {size(height, up=True)}"
    words = f"the least softwood strip along the front that passes is {strip}"
    return Answer(words=words, project=with_strip(height))


def _overhang(at: Spot, catalogue: Catalogue) -> Answer | None:
    """Move the outer supports in from the ends of a board until its largest sag is least."""
    if at.lone is None or at.lone.plan is not None or len(set(at.lone.fills)) > 1:
        return None
    lone = laid_out(at.lone)
    length = sum(lone.spans) + (lone.overhang_left or 0.0) + (lone.overhang_right or 0.0)
    count = len(lone.spans)

    def moved(overhang: float) -> Project:
        return at.with_lone(
            spans=((length - 2.0 * overhang) / count,) * count,
            contents=lone.contents[:1],
            overhang_left=overhang,
            overhang_right=overhang,
        )

    def sag(overhang: float) -> float:
        checks = checks_of_shelf(moved(overhang), catalogue, at.place)
        sags = [one.value for one in checks if one.question.startswith("sag")]
        return max((value for value in sags if value is not None), default=inf)

    low, high = length * 0.01, length * 0.45 / count
    while high - low > 0.5:
        third = (high - low) / 3.0
        if sag(low + third) <= sag(high - third):
            high -= third
        else:
            low += third
    best = float(round((low + high) / 2.0))
    outer = "two supports" if count == 1 else f"the outer two of {count + 1} supports"
    words = f"it sags least with each of {outer} {size(best)} in from its end"
    return Answer(words=words, project=moved(best))


def _stiffness(at: Spot, catalogue: Catalogue) -> Answer | None:
    """Find the least modulus that passes, and the sheets of the tables that pass."""
    needed = needed_stiffness(at, catalogue)
    if needed is None:
        return None
    words = (
        f"the least modulus along the span that passes is {figure(needed.E, 'stress')}, all else "
        f"as of {needed.like}"
    )
    fitting = sheets_that_pass(at, catalogue, most=_NAMED)
    thick = size(at.thickness)
    if fitting:
        named = ", ".join(f"{one.called} ({figure(one.E, 'stress')})" for one in fitting)
        words += f"; of the tables, at {thick}, the first that pass are {named}"
    else:
        words += f"; nothing of {thick} in the tables passes"
    return Answer(words=words, project=needed.project, catalogue=needed.catalogue)


FINDERS: dict[str, Callable[[Spot, Catalogue], Answer | None]] = {
    "span": _span,
    "load": _load,
    "thickness": _thickness,
    "lipping": _lipping,
    "overhang": _overhang,
    "stiffness": _stiffness,
}
"""What can be looked for, by the word typed."""
