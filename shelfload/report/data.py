"""The report as JSON: the same content, versioned; DEVELOPERS.md documents the keys."""

from __future__ import annotations

import json
from math import isfinite
from typing import Any

from shelfload import units
from shelfload.advise.outcome import Outcome
from shelfload.check.result import Check, SafeLoad
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.place import Place
from shelfload.report.joins import join_data
from shelfload.report.odds import odds_data
from shelfload.units import UnitSystem
from shelfload.wording import Measure, spelled

SCHEMA_VERSION = 1
_DIGITS = 6


def render(outcome: Outcome, system: UnitSystem) -> str:
    """Return the outcome as JSON text."""
    return (
        json.dumps(content(outcome, system), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
    )


def content(outcome: Outcome, system: UnitSystem) -> dict[str, Any]:
    """Return the outcome as plain lists and dicts."""
    findings = outcome.findings
    odds = {} if outcome.odds is None else {"odds": odds_data(outcome.odds, system)}
    return {
        "schema_version": SCHEMA_VERSION,
        "title": outcome.title,
        "units": system,
        "verdict": outcome.verdict.value,
        "checks": [check_data(check, system) for check in findings.checks],
        "safe_loads": [_safe_load(load, system) for load in findings.safe_loads],
        "joins": [join_data(line, system) for line in findings.joins],
        "uprights": [
            upright_data(force, system)
            for name in findings.whole.placed
            for force in findings.whole.upright_forces(name)
        ],
        "advice": [
            {"place": _place(advice.place), "text": spelled(advice.text, system)}
            for advice in outcome.advice
        ],
        "models": [spelled(text, system) for text in findings.models],
        "assumptions": [spelled(text, system) for text in findings.assumptions],
        "cautions": [spelled(text, system) for text in outcome.cautions],
        **odds,
    }


def upright_data(force: UprightForce, system: UnitSystem) -> dict[str, Any]:
    """Return what an upright carries down: always, and more when everything is full."""
    dead, unit = _figure(force.dead, "force", system, as_mass=True)
    imposed, _ = _figure(force.imposed, "force", system, as_mass=True)
    return {"place": _place(force.place), "dead": dead, "imposed": imposed, "unit": unit}


def _place(place: Place) -> dict[str, str]:
    return {"unit": place.unit, "part": place.part, "bay": place.bay}


def check_data(check: Check, system: UnitSystem) -> dict[str, Any]:
    """Return one check as a dict of the documented keys."""
    value, unit = _figure(check.value, check.measure, system, as_mass=check.as_mass)
    limit, _ = _figure(check.limit, check.measure, system, as_mass=check.as_mass)
    return {
        "place": _place(check.place),
        "question": check.question,
        "value": value,
        "limit": limit,
        "at_least": check.at_least,
        "unit": unit,
        "ratio": _rounded(check.ratio) if isfinite(check.ratio) else None,
        "verdict": check.verdict.value,
        "reason": spelled(check.reason, system),
        "governs": spelled(check.governs, system),
        "method": spelled(check.method, system),
        "source": spelled(check.source, system),
    }


def _safe_load(load: SafeLoad, system: UnitSystem) -> dict[str, Any]:
    even, unit = _figure(load.even, "force", system, as_mass=True)
    per_length, per_length_unit = _figure(load.even_per_length, "line load", system, as_mass=True)
    point, _ = _figure(load.point, "force", system, as_mass=True)
    return {
        "place": _place(load.place),
        "even": even,
        "point": point,
        "unit": unit,
        "even_per_length": per_length,
        "per_length_unit": per_length_unit,
        "governed_by": load.governed_by,
        "point_governed_by": load.point_governed_by,
        "reason": spelled(load.reason, system),
    }


def _figure(
    value: float | None, measure: Measure, system: UnitSystem, *, as_mass: bool
) -> tuple[float | None, str]:
    if measure == "ratio" or measure == "count":
        return (None if value is None else _rounded(value)), "-"
    _, unit = units.shown_value(value or 0.0, measure, system, as_mass)
    if value is None:
        return None, unit
    return _rounded(units.express(value, unit, measure)), unit


def _rounded(value: float) -> float:
    return float(f"{value:.{_DIGITS}g}")
