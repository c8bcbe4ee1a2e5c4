"""What to do about each shelf: how far it is off, and the first change that passes.

A remedy is a changed description put through the same checks; none is a rule of thumb.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shelfload import tables
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Check, Verdict
from shelfload.describe.model import Project, Unit
from shelfload.describe.parts import Lipping, Shelf
from shelfload.describe.reader import Description
from shelfload.errors import QuantityError
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.place import Place
from shelfload.wording import figure

LIPPING_THICKNESS = 20.0
LIPPING_HEIGHTS = (40.0, 60.0, 80.0)  # mm; strips that timber yards sell


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """One thing to do, or to leave alone.

    Attributes
    ----------
    place : Place
        Where.
    text : str
        What, in plain words.
    """

    place: Place
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Remedy:
    words: str
    project: Project


def advise(description: Description, findings: Findings) -> Iterator[Advice]:
    """Say what fails and what would help, then what can be left alone."""
    by_part: dict[Place, list[Check]] = {}
    for check in findings.checks:
        by_part.setdefault(check.place, []).append(check)
    calm = []
    for verdict in (Verdict.FAILS, Verdict.NOT_CHECKED, Verdict.CLOSE, Verdict.PASSES):
        for place, checks in by_part.items():
            gravest = max(checks, key=_gravity)
            if gravest.verdict is not verdict:
                continue
            if verdict is Verdict.PASSES:
                calm.append(place)
            else:
                yield Advice(place=place, text=_sentence(description, gravest))
    if calm:
        yield Advice(place=Place(unit=""), text=_leave_alone(calm, len(by_part)))


def _gravity(check: Check) -> tuple[int, float]:
    return list(Verdict).index(check.verdict), check.ratio if check.value is not None else 0.0


def _leave_alone(calm: list[Place], count: int) -> str:
    if len(calm) == count:
        return "Everything checked passes: leave it as it is."
    many = f"The other {len(calm)} places pass" if len(calm) > 1 else f"{calm[0]} passes"
    return f"{many}: leave as described."


def _sentence(description: Description, check: Check) -> str:
    if check.verdict is Verdict.NOT_CHECKED:
        return f"{check.question} is not checked: {check.reason}. {check.remedy}".rstrip()
    value, limit = _figures(check)
    if check.verdict is Verdict.CLOSE:
        return f"passes, but close: {check.question} {value} of {limit} allowed."
    off = f"{check.question} is {value}, allowed is {limit} ({check.ratio:.1f} times)."
    return f"{off} {check.remedy or _first_that_passes(description, check)}"


def _figures(check: Check) -> tuple[str, str]:
    if check.value is None or check.limit is None:
        raise AssertionError("a verdict of figures has figures")
    return (
        figure(check.value, check.measure, as_mass=check.as_mass),
        figure(check.limit, check.measure, as_mass=check.as_mass),
    )


def _first_that_passes(description: Description, check: Check) -> str:
    tried = []
    for remedy in _remedies(description, check.place):
        after = assess(remedy.project, description.catalogue)
        there = [one for one in after.checks if _same_shelf(one.place, check.place)]
        if there and all(one.verdict in (Verdict.PASSES, Verdict.CLOSE) for one in there):
            same = max((one for one in there if one.question == check.question), key=_gravity)
            return f"Passes with {remedy.words} ({check.question} {_figures(same)[0]})."
        tried.append(remedy.words)
    if not tried:
        return "Less load, a shorter span or a stiffer section is needed."
    return f"Not enough alone: {'; '.join(tried)}. Less load or a shorter span is needed."


def _same_shelf(one: Place, other: Place) -> bool:
    return (one.unit, one.part) == (other.unit, other.part)


def _remedies(description: Description, place: Place) -> Iterator[_Remedy]:
    """Changes to one shelf, the least addition first."""
    found = _shelf_at(description.project, place)
    if found is None:
        return
    shelf, material, thickness = found
    for height in LIPPING_HEIGHTS:
        strip = Lipping.model_construct(
            material="european-oak", thickness=LIPPING_THICKNESS, height=height
        )
        words = (
            f"a glued front lipping {figure(LIPPING_THICKNESS, 'length')} x "
            f"{figure(height, 'length')} of oak"
        )
        yield _changed(description.project, place, shelf, words, lipping_front=strip)
    for thicker in _sold_thicker(description, material, thickness):
        words = f"{figure(thicker, 'length')} {material}"
        yield _changed(description.project, place, shelf, words, thickness=thicker)
    if shelf.panels == 1:
        yield _changed(
            description.project, place, shelf, "a second panel glued on", panels=2, joined="glued"
        )
    elif shelf.joined != "glued":
        yield _changed(description.project, place, shelf, "the two panels glued", joined="glued")


def _sold_thicker(description: Description, material: str, thickness: float) -> list[float]:
    row = description.catalogue.material(material, thickness).material
    sizes = [
        sheet.thickness_nominal
        for sheet in tables.families().get(row.family, ())
        if sheet.thickness_nominal is not None
    ]
    found = []
    for size in sorted(sizes):
        if size > thickness + 1.0:
            try:
                description.catalogue.material(material, size)
            except QuantityError:
                continue
            found.append(size)
    return found[:3]


def _shelf_at(project: Project, place: Place) -> tuple[Shelf, str, float] | None:
    for lone in project.shelf:
        if lone.name == place.unit and lone.shelf.material and lone.shelf.thickness:
            return lone.shelf, lone.shelf.material, lone.shelf.thickness
    for unit in project.unit:
        if unit.name == place.unit and place.part:
            number = _number(unit, place.part)
            own = unit.top if number == len(unit.level) else unit.level[number].shelf
            shelf = own or unit.shelf
            return (
                shelf,
                shelf.material or unit.panel.material,
                shelf.thickness or unit.panel.thickness,
            )
    return None


def _number(unit: Unit, part: str) -> int:
    return next(n for n in range(len(unit.level) + 1) if shelf_name(unit, n) == part)


def _changed(project: Project, place: Place, shelf: Shelf, words: str, **update: object) -> _Remedy:
    new = shelf.model_copy(update=update)
    if any(lone.name == place.unit for lone in project.shelf):
        shelves = tuple(
            lone.model_copy(update={"shelf": new}) if lone.name == place.unit else lone
            for lone in project.shelf
        )
        return _Remedy(words=words, project=project.model_copy(update={"shelf": shelves}))
    units = []
    for unit in project.unit:
        if unit.name == place.unit:
            number = _number(unit, place.part)
            if number == len(unit.level):
                unit = unit.model_copy(update={"top": new})
            else:
                levels = list(unit.level)
                levels[number] = levels[number].model_copy(update={"shelf": new})
                unit = unit.model_copy(update={"level": tuple(levels)})
        units.append(unit)
    return _Remedy(words=words, project=project.model_copy(update={"unit": tuple(units)}))
