"""A sheet of labels to stick on shelves: what each may carry, and what that rests on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from shelfload.check.assess import Findings, carrying
from shelfload.check.criteria import limit_in_words
from shelfload.check.result import Check, SafeLoad, Verdict
from shelfload.idealise.place import Place
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.report.drawing import groups
from shelfload.report.page import environment
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

_CONDITIONS = ("floor", "restraint", "standing")
"""Parts whose open questions are told on a label; one elsewhere takes the figure off."""
_HELD = ("wall", "neighbours")
_ONCE = "lifting"  # a question of putting it up, not of loading it
_BOTH: tuple[UnitSystem, UnitSystem] = ("metric", "inch")
_NO_FIGURE = "No figure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label; ``even`` is empty where no figure may be given, and ``reason`` says why."""

    unit: str
    shelf: str
    bays: str
    even: str = ""
    point: str = ""
    reason: str = ""
    conditions: tuple[str, ...] = ()
    checked_for: str = ""
    rests_on: str = ""


def labels(findings: Findings) -> list[Label]:
    """Return a label for every shelf, bays that may carry the same on one label.

    A shelf with an open question has no figure on its label, nor has any shelf of a unit that
    does not itself pass: a label is read by people who never see the report. What hangs on a
    wall is checked there for the contents described, so its shelves get no more than these.
    """
    asked = {check.question for answer in carrying(findings.whole) for check in answer.checks}
    found = []
    for place, loads in groupby(
        findings.safe_loads, key=lambda load: (load.place.unit, load.place.part)
    ):
        unit, part = place
        alike = _alike(findings, list(loads))
        found += [_label(findings, unit, part, same, asked) for same in alike]
    described = {(load.place.unit, load.place.part) for load in findings.safe_loads}
    for shelf in findings.whole.shelves:
        if (shelf.place.unit, shelf.place.part) not in described:
            reason = getattr(shelf, "reason", "") or "it lies flat on what is below"
            found.append(
                Label(unit=shelf.place.unit, shelf=shelf.place.part, bays="", reason=reason)
            )
    return found


def labels_page(title: str, findings: Findings, made: date) -> str:
    """Return the sheet of labels as one HTML page."""
    return (
        environment()
        .get_template("labels.html")
        .render(
            title=title,
            made=made.isoformat(),
            labels=labels(findings),
            no_figure=_NO_FIGURE,
        )
    )


def _alike(findings: Findings, loads: list[SafeLoad]) -> Iterator[list[SafeLoad]]:
    alike: dict[tuple[str, ...], list[SafeLoad]] = {}
    for load in loads:
        shown = (load.even, load.point, _described(findings, load.place))
        alike.setdefault((*map(_mass, shown), load.reason), []).append(load)
    yield from alike.values()


def _described(findings: Findings, place: Place) -> float:
    """Return what is described to stand in one bay of a shelf [N]."""
    return sum(
        bay.load.even * (bay.end - bay.start) + sum(force for force, _, _ in bay.load.points)
        for beam in findings.whole.beams
        for bay in beam.bays
        if (beam.place.unit, beam.place.part) == (place.unit, place.part)
        and place.bay == (beam.place.bay or bay.name)
    )


def _label(
    findings: Findings, unit: str, part: str, loads: list[SafeLoad], asked: set[str]
) -> Label:
    first = loads[0]
    bays = ", ".join(load.place.bay for load in loads)
    together = next((group for group in groups(findings.whole) if unit in group), {unit})
    here = [
        check
        for check in findings.checks
        if check.place.unit in together and check.place.part != _ONCE
    ]
    reason = _withheld(here, first, asked)
    described = _described(findings, first.place)
    even, point = first.even or 0.0, first.point or 0.0
    if any(check.place.part in _HELD for check in here):
        if not described and not reason:
            reason = "nothing is described to stand here, and what holds it is checked for that"
        even, point = min(even, described), min(point, described)
    return Label(
        unit=unit,
        shelf=part or "shelf",
        bays=f"{bays} each" if len(loads) > 1 else bays,
        even="" if reason else _mass(even),
        # a middle over a support carries more than the shelf: that says nothing of other spots
        point="" if reason or point > even else _mass(point),
        checked_for="nothing" if not described else _mass(described),
        reason=spelled(reason, "metric"),
        conditions=tuple(
            f"{check.place.unit}, {check.place.part}: {check.question}"
            for check in here
            if check.verdict is Verdict.NOT_CHECKED and check.place.part in _CONDITIONS
        ),
        rests_on=_rests_on(findings, unit, part, first),
    )


def _withheld(here: list[Check], load: SafeLoad, asked: set[str]) -> str:
    """Why a shelf gets no figure; empty where it gets one."""
    if load.even is None or load.point is None:
        return load.reason or "not checked"
    shelves = {_shelf(check) for check in here if check.question in asked}
    for check in here:
        own = _shelf(check) == (load.place.unit, load.place.part)
        on_shelf = _shelf(check) in shelves
        if check.verdict is Verdict.NOT_CHECKED:
            if own or not (on_shelf or check.place.part in _CONDITIONS):
                return f"{check.question} is not checked: {check.reason}"
        elif check.verdict is Verdict.FAILS and (
            # a shelf that fails by its contents has a figure, and a smaller one
            not on_shelf or (own and check.question not in asked)
        ):
            where = "" if own else f"{check.place}: "
            return f"it does not pass: {where}{check.question}"
    return ""


def _shelf(check: Check) -> tuple[str, str]:
    return check.place.unit, check.place.part


def _rests_on(findings: Findings, unit: str, part: str, load: SafeLoad) -> str:
    beam = next(
        (
            beam
            for beam in findings.whole.beams
            if isinstance(beam, ShelfBeam) and (beam.place.unit, beam.place.part) == (unit, part)
        ),
        None,
    )
    limit = findings.whole.catalogue.limit(None if beam is None else beam.limit)
    words = f"governed by {load.governed_by}; " if load.governed_by else ""
    return spelled(f"{words}sag limit {limit_in_words(limit)}", "metric")


def _mass(force: float | None) -> str:
    """Write a load as kilograms and pounds, both rounded down."""
    if force is None:
        return ""
    metric, inch = (
        spelled(figure(force, "force", as_mass=True, down=True), system) for system in _BOTH
    )
    return f"{metric} ({inch})"
