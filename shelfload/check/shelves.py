"""Will each shelf carry what stands on it? Sag, bending, shear and bearing."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import GAMMA_Q, Criterion, Unanswered
from shelfload.check.result import Check
from shelfload.idealise.plates import on_an_edge
from shelfload.idealise.shelf_beam import Case, ShelfBeam, Unbent
from shelfload.solve.beam import Envelope, envelopes, reaction_range
from shelfload.wording import figure, size

Array = NDArray[np.float64]
_STEADY = 0.9  # self-weight where it helps, EN 1990 Table A1.2(A), from memory
Envelopes = dict[tuple[bytes, bytes], Envelope]


def shelf_checks(beam: ShelfBeam, criteria: Sequence[Criterion | Unanswered]) -> list[Check]:
    """Ask a shelf every question; the worst load duration of each is kept."""
    solved = solved_together(
        beam,
        [(one.always, one.sometimes) for one in criteria if isinstance(one, Criterion)]
        + [first_day_factors(beam)],
    )
    asked: dict[str, Check] = {}
    for criterion in criteria:
        check = (
            _unanswered(beam, criterion)
            if isinstance(criterion, Unanswered)
            else _answered(beam, criterion, solved)
        )
        before = asked.get(check.question)
        if before is None or _graver(check, before):
            asked[check.question] = check
    return [*asked.values(), *_lifting_off(beam), *_twisted(beam)]


def solved_together(beam: ShelfBeam, factors: Sequence[tuple[Array, Array]]) -> Envelopes:
    """Return the envelope of each pair of always and sometimes factors, each solved once."""
    wanted = {
        (always.tobytes(), sometimes.tobytes()): (always, sometimes)
        for always, sometimes in factors
    }
    always, sometimes = zip(*wanted.values(), strict=True)
    return dict(zip(wanted, envelopes(beam.result, always, sometimes), strict=True))


def first_day_factors(beam: ShelfBeam) -> tuple[Array, Array]:
    """Return the factors of sag on the first day: every load as it is."""
    return (
        beam.weights({"self": 1.0, "landing dead": 1.0}),
        beam.weights({"contents": 1.0, "landing": 1.0, "spot": 1.0}),
    )


def _lifting_off(beam: ShelfBeam) -> list[Check]:
    """A support that a pattern of loads lifts the shelf off needs a fixing that holds it."""
    always = beam.weights({"self": _STEADY, "landing dead": _STEADY})
    sometimes = beam.weights({"contents": GAMMA_Q, "landing": GAMMA_Q, "spot": GAMMA_Q})
    _, lowest = reaction_range(beam.result, always, sometimes)
    at = int(np.argmin(lowest))
    if beam.held_down or lowest[at] >= 0.0:
        return []
    force = figure(float(-lowest[at]), "force")
    where = beam.supports[at].name
    return [
        Check(
            place=beam.place,
            question="held down on its supports",
            method="factored loads, worst pattern, self-weight reduced",
            source="EN 1990 Table A1.2(A), from memory",
            measure="force",
            reason=f"loads lift it off {where} with {force}: fix it down there for that "
            "force and say fixed_down = true",
        )
    ]


def _twisted(beam: ShelfBeam) -> list[Check]:
    """A load on an edge of a shelf that reaches beyond its supports: no plate is made of it."""
    if beam.plan is not None or not any(beam.result.is_overhang) or not on_an_edge(beam):
        return []
    return [
        Check(
            place=beam.place,
            question="load on an edge",
            method="none",
            source="not known",
            measure="length",
            reason="a load off the middle of the depth twists a shelf, which is worked out only "
            "where it does not reach beyond its supports; all else takes it as at mid-depth",
            remedy="Set supports under its ends, or let the load stand over the whole depth.",
        )
    ]


def unbent_check(shelf: Unbent) -> Check:
    """Say of a shelf without a beam why it has none."""
    if shelf.reason:
        return Check(
            place=shelf.place,
            question="sag after years",
            method="beam",
            source="",
            measure="length",
            reason=shelf.reason,
        )
    return Check(
        place=shelf.place,
        question="sag after years",
        method="lies flat on what is below: it does not bend",
        source="as described",
        measure="length",
        value=0.0,
        limit=1.0,
    )


def curve_peaks(env: Envelope, criterion: Criterion) -> Array:
    """Return the largest size of a criterion's curve per segment or support."""
    if criterion.curve == "sag":
        return np.maximum(env.extremes.w_max, -env.extremes.w_min)
    if criterion.curve == "moment":
        return env.extremes.M_abs_max
    if criterion.curve == "shear":
        return env.extremes.V_abs_max
    return np.maximum(env.reaction_max, 0.0)


def _unanswered(beam: ShelfBeam, question: Unanswered) -> Check:
    return Check(
        place=beam.place,
        question=question.question,
        method="none",
        source=question.source,
        measure="stress",
        reason=question.reason,
    )


def _answered(beam: ShelfBeam, criterion: Criterion, solved: Envelopes) -> Check:
    env = solved[criterion.always.tobytes(), criterion.sometimes.tobytes()]
    peaks = curve_peaks(env, criterion)
    at = int(np.argmax(peaks / criterion.allowed))
    return Check(
        place=beam.place,
        question=criterion.question,
        value=float(peaks[at] * criterion.scale[at]),
        limit=float(criterion.allowed[at] * criterion.scale[at]),
        measure=criterion.measure,
        method=criterion.method,
        source=criterion.source,
        governs=_where(beam, criterion, env, at, solved),
    )


def _where(beam: ShelfBeam, criterion: Criterion, env: Envelope, at: int, solved: Envelopes) -> str:
    if criterion.curve == "reaction":
        return f"{beam.supports[at].name}; {criterion.governs}"
    start, end = beam.result.spans[at]
    kind = "overhang" if beam.result.is_overhang[at] else "span"
    words = [f"{kind} {size(float(end - start))}"]
    if len(beam.bays) > 1:
        words.append(_pattern(beam, criterion, env, at))
    if criterion.curve == "sag":
        always, sometimes = first_day_factors(beam)
        first_day = solved[always.tobytes(), sometimes.tobytes()].extremes
        sag = float(max(first_day.w_max[at], -first_day.w_min[at]))
        words.append(f"first day {figure(sag, 'length')}")
    return "; ".join([*words, *([criterion.governs] if criterion.governs else [])])


def _pattern(beam: ShelfBeam, criterion: Criterion, env: Envelope, at: int) -> str:
    """Say which bays are full in the worst pattern."""
    low, high = {
        "sag": ("w_min", "w_max"),
        "moment": ("M_min", "M_max"),
        "shear": ("V_min", "V_max"),
    }[criterion.curve]
    upward = -getattr(env.extremes, low)[at] > getattr(env.extremes, high)[at]
    loaded = env.patterns[low if upward else high][at]
    full = [
        beam.bays[case.bay].name
        if case.kind == "contents"
        else f"someone on {beam.bays[case.bay].name}"
        for case, on in zip(beam.cases, loaded, strict=True)
        if on and case.kind in ("contents", "spot") and case.bay is not None
    ]
    loads = {
        (case.kind, case.bay, case.duration)
        for case, factor in zip(beam.cases, criterion.sometimes, strict=True)
        if factor and case.kind in ("contents", "spot") and _is_loaded(beam, case)
    }
    if not loads:
        return "nothing on it"
    if len(full) >= len(loads):
        return "all loads on"
    return f"worst with {' and '.join(full)} full" if full else "worst with empty bays"


def _is_loaded(beam: ShelfBeam, case: Case) -> bool:
    if case.kind == "spot" or case.bay is None:
        return True
    load = beam.bays[case.bay].load
    return load.even > 0.0 or any(duration == "long-term" for _, _, duration in load.points)


def _graver(check: Check, before: Check) -> bool:
    if check.value is None:
        return True
    return before.value is not None and check.ratio > before.ratio
