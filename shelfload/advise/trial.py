"""A shelf as it is sampled: its sag and stresses split by what makes them grow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shelfload.advise import scatter
from shelfload.check.assess import Findings
from shelfload.check.criteria import Criterion, Unanswered, criteria
from shelfload.check.result import Check
from shelfload.check.shelves import curve_peaks
from shelfload.idealise.loads import QUASI_PERMANENT
from shelfload.idealise.place import Place
from shelfload.idealise.sections import Piece, stiffness_with
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.solve.beam import Envelope, envelope
from shelfload.solve.scatter import lognormal_spread
from shelfload.tables import Material, gamma_M

Array = NDArray[np.float64]

_NUDGE = 1e-4
_DEAD = ("self", "landing dead")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stress:
    """Share of a strength that dead and imposed loads use on the mean shelf [-].

    ``power`` is how it goes with thickness, ``spread`` how the strength's logarithm scatters
    about its median, ``of`` the number of the material.
    """

    dead: float
    imposed: float
    power: float
    spread: float
    of: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trial:
    """A shelf as it is sampled; every random factor is lognormal with mean 1.

    Attributes
    ----------
    place, when, limit, said
        As in :class:`ShelfOdds`.
    names : tuple of str
        Of the inputs: stiffness of each material, strength, thickness, contents, creep.
    spreads : ndarray
        Standard deviation of the logarithm of each input but the strength, whose is in
        ``stresses`` [-].
    EI_of_E, GA_of_E : ndarray, shape (materials,)
        Powers of each material's stiffness in EI and GA [-].
    EI_of_t, GA_of_t : float
        Powers of the thickness in EI and GA [-].
    sag : ndarray, shape (2, 3)
        First-day sag by bending and by shear [mm], from dead load, from imposed load, and from
        the part of the imposed load that lasts.
    creep : float
        kdef of the mean shelf; 0 where the first day is limited [-].
    stresses : tuple of Stress
        Bending, shear, bearing.
    """

    place: Place
    when: str
    limit: float
    said: tuple[str, ...]
    names: tuple[str, ...]
    spreads: Array
    EI_of_E: Array
    GA_of_E: Array
    EI_of_t: float
    GA_of_t: float
    sag: Array
    creep: float
    stresses: tuple[Stress, ...]


def trial_of(findings: Findings, beam: ShelfBeam) -> Trial | str:
    """Prepare a shelf for sampling, or say why it can't be."""
    limit = findings.whole.catalogue.limit(beam.limit)
    asked = criteria(beam, limit)
    known = [one for one in asked if isinstance(one, Criterion)]
    for gap in asked:
        if isinstance(gap, Unanswered):
            return f"{gap.question}: {gap.reason}"
    checks = {check.question: check for check in findings.checks if check.place == beam.place}
    materials = list(dict.fromkeys(piece.material.name for piece in beam.shape.pieces))
    by_name = {piece.material.name: piece.material for piece in beam.shape.pieces}
    (first,) = (one for one in known if one.curve == "sag")
    if first.question not in checks:
        return "it has no sag of its own"
    parts, allowed = _sag_parts(beam, first, checks[first.question])
    powers_E, power_t = _powers(beam, materials)
    spreads, said = _spreads(beam, [by_name[name] for name in materials])
    return Trial(
        place=beam.place,
        when=first.question,
        limit=allowed,
        said=said,
        names=(
            *(
                f"stiffness of {by_name[name].called}" if len(materials) > 1 else "stiffness"
                for name in materials
            ),
            "strength",
            "thickness",
            "contents",
            "creep",
        ),
        spreads=spreads,
        EI_of_E=powers_E[0],
        GA_of_E=powers_E[1],
        EI_of_t=power_t[0],
        GA_of_t=power_t[1],
        sag=parts,
        creep=beam.creep or 0.0 if limit.applies_to == "final" else 0.0,
        stresses=tuple(_stresses(beam, known, checks, materials, power_t)),
    )


def _spreads(beam: ShelfBeam, materials: Sequence[Material]) -> tuple[Array, tuple[str, ...]]:
    covs, said = [], []
    for material in materials:
        cov, source = scatter.stiffness_cov(material)
        covs.append(cov)
        said.append(f"stiffness of {material.called} by {cov:.0%} ({source})")
        cov, source = scatter.strength_cov(material)
        said.append(f"its strength by {cov:.0%} ({source})")
    panels = [piece for piece in beam.shape.pieces if piece.name.endswith("panel")]
    thinnest = min(panels, key=lambda piece: piece.height)
    thickness, source = scatter.thickness_cov(thinnest.material, thinnest.height)
    said.append(f"thickness by {thickness:.1%} ({source}, as two standard deviations)")
    ranged = [bay.load.cov for bay in beam.bays if bay.load.cov is not None]
    stated = any(bay.load.cov is None and bay.load.even > 0.0 for bay in beam.bays)
    contents = max([*ranged, *([scatter.CONTENTS_UNKNOWN] if stated or not ranged else [])])
    source = "judgement" if contents not in ranged else "range of the contents table"
    said.append(f"contents by {contents:.0%} ({source})")
    said.append(f"creep by {scatter.CREEP:.0%} (judgement)")
    covs += [0.0, thickness, contents, scatter.CREEP]
    return np.asarray(lognormal_spread(covs)), tuple(said)


def _powers(
    beam: ShelfBeam, materials: Sequence[str]
) -> tuple[tuple[Array, Array], tuple[float, float]]:
    """Powers of stiffness and thickness in EI and GA, about the section as described."""
    shape = beam.shape
    start = np.log(stiffness_with(shape, shape.pieces))

    def power(changed: Sequence[Piece]) -> Array:
        after = np.log(stiffness_with(shape, changed))
        return np.asarray((after - start) / np.log1p(_NUDGE))

    by_E = [
        power([_stiffer(piece) if piece.material.name == name else piece for piece in shape.pieces])
        for name in materials
    ]
    by_t = power(
        [_thicker(piece) if piece.name.endswith("panel") else piece for piece in shape.pieces]
    )
    EI, GA = np.array(by_E).T
    return (EI, GA), (float(by_t[0]), float(by_t[1]))


def _stiffer(piece: Piece) -> Piece:
    """Return a piece a little stiffer; E and G go together."""
    E, G = piece.stiffness.E * (1.0 + _NUDGE), piece.stiffness.G * (1.0 + _NUDGE)
    return replace(piece, stiffness=replace(piece.stiffness, E=E, G=G))


def _thicker(piece: Piece) -> Piece:
    return replace(piece, height=piece.height * (1.0 + _NUDGE), z=piece.z * (1.0 + _NUDGE))


def _sag_parts(beam: ShelfBeam, criterion: Criterion, check: Check) -> tuple[Array, float]:
    """Sag at the place that governs, by bending and shear and by load, and what is allowed."""
    env = envelope(beam.result, criterion.always, criterion.sometimes)
    at = int(np.argmax(curve_peaks(env, criterion) / criterion.allowed))
    upward = -env.extremes.w_min[at] > env.extremes.w_max[at]
    name = "w_min" if upward else "w_max"
    x = float(getattr(env.extremes, f"{name}_at")[at])
    whole, by_shear = _sag_at(beam, x, at)
    sign = -1.0 if upward else 1.0
    on = env.patterns[name][at]
    parts = sign * np.array(
        [_by_load(beam, curve, criterion, on) for curve in (whole - by_shear, by_shear)]
    )
    # a plate's sag is shared out as the beam's
    creep = criterion.per_load - 1.0
    own = parts[:, :2].sum() + creep * parts[:, [0, 2]].sum()
    value = check.value if check.value is not None else own
    return parts * (value / own), float(check.limit or criterion.allowed[at])


def _by_load(
    beam: ShelfBeam, curve: Array, criterion: Criterion, on: NDArray[np.bool_]
) -> tuple[float, float, float]:
    """Sum a curve over dead cases, over imposed ones that are on, and over their lasting part."""
    dead = sum(float(y) for y, case in zip(curve, beam.cases, strict=True) if case.kind in _DEAD)
    imposed = lasting = 0.0
    for y, case, loaded, factor in zip(curve, beam.cases, on, criterion.sometimes, strict=True):
        if loaded and factor:
            imposed += float(y)
            lasting += float(y) * QUASI_PERMANENT[case.duration]
    return dead, imposed, lasting


def _sag_at(beam: ShelfBeam, x: float, segment: int) -> tuple[Array, Array]:
    """Sag of each case at a place [mm], and the part of it that shear brings."""
    start, end = beam.result.spans[segment]
    w, M, _ = (curve[:, 0] for curve in beam.result.at([x]))
    M_start = beam.result.at([start])[1][:, 0]
    M_end = beam.result.at([end], left=True)[1][:, 0]
    if beam.result.is_overhang[segment]:
        chord = M_end if end <= beam.supports[0].at else M_start
    else:
        share = (x - start) / (end - start)
        chord = M_start * (1.0 - share) + M_end * share
    return w, (M - chord) / float(beam.shape.section.GA)


def _stresses(
    beam: ShelfBeam,
    known: Sequence[Criterion],
    checks: dict[str, Check],
    materials: Sequence[str],
    power_t: tuple[float, float],
) -> list[Stress]:
    """Shares of the strengths used under the loads as they are, from the checks' ratios."""
    powers = {"moment": 1.0 - power_t[0], "shear": -power_t[1], "reaction": 0.0}
    found = []
    for curve, power in powers.items():
        worst: tuple[float, Criterion, float, float] | None = None
        for criterion in known:
            if criterion.curve != curve:
                continue
            env = envelope(beam.result, criterion.always, criterion.sometimes)
            ratio = float((curve_peaks(env, criterion) / criterion.allowed).max())
            if worst is None or ratio > worst[0]:
                worst = (ratio, criterion, *_dead_and_imposed(beam, criterion, env))
        if worst is None:
            continue
        ratio, criterion, dead, imposed = worst
        material = criterion.material
        if material is None:
            continue
        check = checks.get(criterion.question)
        if check is not None and check.value is not None:
            ratio = check.ratio
        factored = dead * criterion.always.max() + imposed * criterion.sometimes.max()
        scale = ratio / factored / gamma_M(material.gamma_M_class).value
        found.append(
            Stress(
                dead=dead * scale,
                imposed=imposed * scale,
                power=power,
                spread=float(lognormal_spread(scatter.strength_cov(material)[0])),
                of=materials.index(material.name),
            )
        )
    return found


def _dead_and_imposed(beam: ShelfBeam, criterion: Criterion, env: Envelope) -> tuple[float, float]:
    """Dead and imposed part of a curve, without factors, where it governs."""
    at = int(np.argmax(curve_peaks(env, criterion) / criterion.allowed))
    if criterion.curve == "reaction":
        values, on = beam.result.reactions[:, at], env.reaction_max_pattern[at]
    else:
        letter = "M" if criterion.curve == "moment" else "V"
        high, low = (
            getattr(env.extremes, f"{letter}_max")[at],
            getattr(env.extremes, f"{letter}_min")[at],
        )
        name = f"{letter}_max" if high >= -low else f"{letter}_min"
        x = float(getattr(env.extremes, f"{name}_at")[at])
        left = x >= float(beam.result.spans[at][1])
        values = beam.result.at([x], left=left)[1 if letter == "M" else 2][:, 0]
        values, on = values * (1.0 if high >= -low else -1.0), env.patterns[name][at]
    dead, imposed, _ = _by_load(beam, values, criterion, on)
    return dead, imposed
