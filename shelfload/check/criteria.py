"""What a shelf must satisfy, as limits on sag, moment, shear and reaction along its beam.

A criterion serves twice: asked with the loads described it gives a check, asked backwards
it gives the safe load. Both therefore rest on the same figures.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.idealise.loads import QUASI_PERMANENT, Duration
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.wording import Measure, figure

Array = NDArray[np.float64]

GAMMA_G = 1.35
GAMMA_Q = 1.5
"""Partial factors on self-weight and on imposed loads, EN 1990 Table A1.2(B), eq. (6.10)."""

EN1990 = "EN 1990 eq. (6.10)"
EC5 = "EN 1995-1-1:2004"
_DURATIONS: tuple[Duration, ...] = ("permanent", "long-term", "medium-term", "short-term")


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """A limit on one curve of a shelf's beam.

    Attributes
    ----------
    question : str
        What is asked.
    curve : "sag", "moment", "shear" or "reaction"
        What is limited.
    always, sometimes : ndarray, shape (cases,)
        Factor on each described case: always there, or there when it makes things worse.
    per_load : float
        Factor on an unknown long-term load, for the safe load.
    allowed : ndarray, shape (segments,) or (supports,)
        Largest value of the curve [mm, N mm or N].
    scale : ndarray, same shape
        Turns the curve into the figure shown, such as a stress.
    measure : Measure
        Of the figure shown.
    governs, method, source : str
        For the report.
    material : Material or None
        Whose strength it is; None for sag.
    duration : Duration or None
        Of the load that it is asked for; None for sag.
    """

    question: str
    curve: Literal["sag", "moment", "shear", "reaction"]
    always: Array
    sometimes: Array
    per_load: float
    allowed: Array
    scale: Array
    measure: Measure
    method: str
    source: str
    governs: str = ""
    material: tables.Material | None = None
    duration: Duration | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Unanswered:
    """A question that has no figure, and why."""

    question: str
    reason: str
    source: str


def criteria(beam: ShelfBeam, limit: tables.Limit) -> list[Criterion | Unanswered]:
    """Return everything a shelf must satisfy: sag, bending, shear, bearing."""
    found: list[Criterion | Unanswered] = [_sag(beam, limit)]
    for curve in ("moment", "shear", "reaction"):
        found += _strength(beam, curve)
    return found


def sag_factors(beam: ShelfBeam, creep: float) -> tuple[Array, Array]:
    """Return factors of always and of sometimes acting cases for sag after years.

    Source: EN 1995-1-1:2004, equations (2.2)-(2.5): each load's sag grows by
    psi_2 kdef.
    """
    always, sometimes = _nothing(beam), _nothing(beam)
    for number, case in enumerate(beam.cases):
        grown = 1.0 + QUASI_PERMANENT[case.duration] * creep
        if case.kind in ("self", "landing dead"):
            always[number] = grown
        elif case.kind in ("contents", "spot", "landing"):
            sometimes[number] = grown
    return always, sometimes


def sag_allowed(limit: tables.Limit, lengths: Array, overhang: NDArray[np.bool_]) -> Array:
    """Return the sag that a limit allows [mm] on spans and overhangs of some lengths [mm]."""
    allowed = np.full(lengths.shape, np.inf)
    if limit.ratio is not None:
        over = limit.cantilever_ratio or limit.ratio
        allowed = lengths / np.where(overhang, over, limit.ratio)
    if limit.absolute is not None:
        allowed = np.minimum(allowed, limit.absolute)
    return allowed


def _nothing(beam: ShelfBeam) -> Array:
    return np.zeros(len(beam.cases))


def _sag(beam: ShelfBeam, limit: tables.Limit) -> Criterion | Unanswered:
    final = limit.applies_to == "final"
    question = "sag after years" if final else "sag on the first day"
    creep = beam.creep if final else 0.0
    source = f"{EC5}, 2.2.3; limit: {limit.source} ({limit.status})"
    if creep is None:
        reason = f"no creep figure for this board in service class {beam.service_class}"
        return Unanswered(question=question, reason=reason, source=f"{EC5}, Table 3.2")
    always, sometimes = sag_factors(beam, creep)
    lengths = np.diff(beam.result.spans, axis=1)[:, 0]
    allowed = sag_allowed(limit, lengths, beam.result.is_overhang)
    return Criterion(
        question=question,
        curve="sag",
        always=always,
        sometimes=sometimes,
        per_load=1.0 + creep,
        allowed=allowed,
        scale=np.ones_like(allowed),
        measure="length",
        method="beam that bends and shears, worst pattern of full and empty bays"
        + (f", creep {creep:.2g}" if final else ""),
        source=source,
    )


def _strength(
    beam: ShelfBeam, curve: Literal["moment", "shear", "reaction"]
) -> Iterator[Criterion | Unanswered]:
    """One criterion for each load duration that the shelf meets."""
    present = {case.duration for case in beam.cases if case.kind not in ("even", "point")}
    for duration in _DURATIONS:
        if duration not in present:
            continue
        answer = _resisted(beam, curve, duration)
        yield answer
        if isinstance(answer, Unanswered):
            return


def _resisted(
    beam: ShelfBeam, curve: Literal["moment", "shear", "reaction"], duration: Duration
) -> Criterion | Unanswered:
    factors = strength_factors(beam, duration)
    shapes = {"moment": _bending, "shear": _shearing, "reaction": _bearing}
    found = shapes[curve](beam, duration)
    if isinstance(found, Unanswered):
        return found
    question, per_unit, strength, governs, source, material = found
    count = len(beam.supports) if curve == "reaction" else len(beam.result.spans)
    scale = np.broadcast_to(per_unit, (count,))
    return Criterion(
        question=question,
        curve=curve,
        always=factors[0],
        sometimes=factors[1],
        per_load=0.0 if duration == "permanent" else GAMMA_Q,
        allowed=strength / scale,
        scale=scale,
        measure="stress",
        method=f"factored loads, {duration} load",
        source=f"{source}; loads {EN1990}",
        governs=governs,
        material=material,
        duration=duration,
    )


def strength_factors(beam: ShelfBeam, duration: Duration) -> tuple[Array, Array]:
    """Factored loads that last at least as long as ``duration``."""
    lasting = _DURATIONS[: _DURATIONS.index(duration) + 1]
    always, sometimes = _nothing(beam), _nothing(beam)
    for number, case in enumerate(beam.cases):
        if case.kind in ("self", "landing dead"):
            always[number] = GAMMA_G
        elif case.kind in ("contents", "spot", "landing") and case.duration in lasting:
            sometimes[number] = GAMMA_Q
    return always, sometimes


Found = tuple[str, float | Array, float, str, str, tables.Material]
"""Question, figure per unit of the curve, design strength, which piece, source, its material."""


def _bending(beam: ShelfBeam, duration: Duration) -> Found | Unanswered:
    shape = beam.shape.section
    stress = np.asarray(shape.stress_free)  # as sag is found: free to move sideways
    strengths = [piece.strength.f_m for piece in beam.shape.pieces]
    names = ["bending"] * len(strengths)
    bases = [piece.strength.basis for piece in beam.shape.pieces]
    return _weakest(beam, duration, names, stress, strengths, bases, f"{EC5}, 6.1.6")


def _shearing(beam: ShelfBeam, duration: Duration) -> Found | Unanswered:
    stress = np.asarray(beam.shape.section.shear_peak)
    strengths = [piece.strength.f_shear for piece in beam.shape.pieces]
    names = [piece.strength.shear_kind for piece in beam.shape.pieces]
    bases = [piece.strength.shear_basis for piece in beam.shape.pieces]
    return _weakest(beam, duration, names, stress, strengths, bases, f"{EC5}, 6.1.7")


def _weakest(
    beam: ShelfBeam,
    duration: Duration,
    questions: list[str],
    per_unit: Array,
    strengths: list[float | None],
    bases: list[str],
    source: str,
) -> Found | Unanswered:
    """Return the piece whose stress comes nearest to its strength, per unit of the curve."""
    found: list[Found] = []
    for number, piece in enumerate(beam.shape.pieces):
        name = f"{piece.material.called} ({bases[number]})"
        strength = design(strengths[number], piece.material, beam.service_class, duration)
        if isinstance(strength, str):
            reason = f"{name}: {strength}"
            return Unanswered(question=questions[number], reason=reason, source=source)
        found.append(
            (questions[number], float(per_unit[number]), strength, name, source, piece.material)
        )
    return max(found, key=lambda one: float(one[1]) / one[2])


def _bearing(beam: ShelfBeam, duration: Duration) -> Found | Unanswered:
    question, source = "bearing", f"{EC5}, 6.1.5 with k_c,90 = 1"
    lowest = [piece for piece in beam.shape.pieces if piece.name.endswith("panel")][-1]
    strength = design(lowest.strength.f_bearing, lowest.material, beam.service_class, duration)
    name = f"{lowest.material.called} ({lowest.strength.bearing_basis})"
    if isinstance(strength, str):
        return Unanswered(question=question, reason=f"{name}: {strength}", source=source)
    area = np.array([support.bearing for support in beam.supports]) * lowest.width
    return question, 1.0 / area, strength, name, source, lowest.material


def design(
    characteristic: float | None,
    material: tables.Material,
    service_class: int,
    duration: Duration,
) -> float | str:
    """Return the design strength kmod f_k / gamma_M [MPa], or why there is none.

    Source: EN 1995-1-1:2004, equation (2.14).
    """
    if characteristic is None:
        return "no strength is published"
    kmod = tables.kmod(material.duration_class, service_class, duration)
    if kmod is None:
        return f"the code allows no {duration} load in service class {service_class}"
    return characteristic * kmod.value / tables.gamma_M(material.gamma_M_class).value


def limit_in_words(limit: tables.Limit) -> str:
    """Return a sag limit with its ratio or figure and its source."""
    parts = []
    if limit.ratio is not None:
        parts.append(f"span / {limit.ratio:g}")
    if limit.absolute is not None:
        parts.append(figure(limit.absolute, "length"))
    when = "after years" if limit.applies_to == "final" else "on the first day"
    return f"{limit.words}: {' and '.join(parts)} {when} ({limit.source}; {limit.status})"
