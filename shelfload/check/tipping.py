"""Will it tip over? Units that stand, with or without something that ties them back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from shelfload.check.restraint import UNDER_TOP, restraint_checks
from shelfload.check.result import Answer, Check
from shelfload.check.tipping_body import Body, Scenario, body_of, is_tall, moments, scenarios
from shelfload.check.tipping_curved import pull_needed, worst_edge
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.ring import RingPlan, ring_of
from shelfload.idealise.whole import Whole
from shelfload.solve.tipping import push_to_tip
from shelfload.wording import figure, size


def standing_up(whole: Whole) -> Iterable[Answer]:
    """Will each standing unit stay upright, and what must hold it?"""
    for placed in whole.placed.values():
        if placed.unit.hangs is None and placed.unit.between is None:
            yield _asked(whole, placed)


def _asked(whole: Whole, placed: Placed) -> Answer:
    unit = placed.unit
    ring = ring_of(unit)
    if ring is not None:
        return _curved(whole, placed, ring)
    body = body_of(whole, placed)
    place = Place(unit=unit.name, part="standing")
    asked = list(scenarios(whole, placed, body))
    checks: list[Check] = []
    said = list(body.said)
    if unit.restraint is None:
        checks += [_scenario_check(place, body, scenario) for scenario in asked]
    else:
        worst = max(
            (_scenario_check(place, body, scenario) for scenario in asked),
            key=lambda check: check.ratio,
        )
        said.append(_without_restraint(unit.name, worst))
    if unit.restraint is not None or is_tall(whole, placed):
        restrained, texts = restraint_checks(whole, placed, body, asked)
        checks += restrained
        said += texts
    if any(item.moving for item in body.items):
        said.append("tipping: contents are left out wherever they would hold a unit down")
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def _curved(whole: Whole, placed: Placed, ring: RingPlan) -> Answer:
    """Ask about every edge of the outline of the feet; no tie to a wall is counted on."""
    unit = placed.unit
    place = Place(unit=unit.name, part="standing")
    checks, said = [], [f"{unit.name}: curved in plan, it may go over any edge of its feet"]
    for scenario, side, body in worst_edge(whole, placed, ring):
        check = _scenario_check(place, body, scenario)
        checks.append(
            replace(
                check,
                method="moments about each edge of the outline of its feet, filling that tips "
                "soonest, no restraint",
                governs="; ".join(piece for piece in (f"over its {side}", check.governs) if piece),
                remedy="Give it more feet under its bulging side, a plinth, or less height.",
            )
        )
        said += body.said
    if unit.restraint is not None or is_tall(whole, placed):
        height = max(placed.weights.height - UNDER_TOP, placed.weights.height / 2)
        pull = pull_needed(whole, placed, ring, height)
        checks.append(
            Check(
                place=Place(unit=unit.name, part="restraint"),
                question="tied to the wall",
                method="moments about each edge of the outline of its feet, margin 1.5",
                source="ASTM F2057-23 and the Australian information standard of 2024: scope "
                "from 686 mm (published)",
                measure="force",
                reason="a curved unit touches a straight wall in a line or two, and a tie there "
                f"holds no other edge; needed at {_length(height)} above its underside is "
                f"{figure(pull, 'force')} against going over any edge",
                remedy="Tie it to walls or to units on more than one side, by a means that a "
                "licensed person accepts, or make it lower.",
            )
        )
    if any(item.moving for item in placed.weights.items):
        said.append("tipping: contents are left out wherever they would hold a unit down")
    return Answer(checks=tuple(checks), assumptions=tuple(dict.fromkeys(said)))


def _without_restraint(name: str, worst: Check) -> str:
    """Say how a unit would stand if what ties it back were left out."""
    return (
        f"{name} without its restraints, {worst.question}: tipping "
        f"{figure(worst.value or 0.0, 'moment')}, allowed {figure(worst.limit or 0.0, 'moment')}"
    )


def _scenario_check(place: Place, body: Body, scenario: Scenario) -> Check:
    holding, tipping = moments(body, scenario)
    spare = float(push_to_tip(holding, tipping, body.height))
    words = [f"a pull of {figure(spare, 'force')} more at the top tips it"] if spare > 0 else []
    if scenario.H:
        words.insert(0, f"{figure(scenario.H, 'force')} at {_length(scenario.h)}")
    if scenario.P:
        words.insert(
            0,
            f"{figure(scenario.P, 'force', as_mass=True)}, {_length(scenario.d)} in front of "
            "the feet",
        )
    return Check(
        place=place,
        question=scenario.question,
        method="moments about the front feet, filling that tips soonest, no restraint",
        source=scenario.source,
        measure="moment",
        value=tipping,
        limit=max(holding, 0.0) / scenario.margin,
        governs="; ".join(words),
        remedy="Tie its top back to the wall, or make it deeper or lower.",
    )


def _length(value: float) -> str:
    return size(value)
