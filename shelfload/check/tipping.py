"""Will it tip over? Units that stand, with or without something that ties them back."""

from __future__ import annotations

from collections.abc import Iterable

from shelfload.check.restraint import restraint_checks
from shelfload.check.result import Answer, Check
from shelfload.check.tipping_body import Body, Scenario, body_of, is_tall, moments, scenarios
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole
from shelfload.solve.tipping import push_to_tip
from shelfload.wording import figure


def standing_up(whole: Whole) -> Iterable[Answer]:
    """Will each standing unit stay upright, and what must hold it?"""
    for placed in whole.placed.values():
        if placed.unit.hangs is None and placed.unit.between is None:
            yield _asked(whole, placed)


def _asked(whole: Whole, placed: Placed) -> Answer:
    unit = placed.unit
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
    return figure(value, "length")
