"""An offcut on two supports under a known weight: how stiff the sheet is, and how surely."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from statistics import median
from typing import Any

import numpy as np

from shelfload import tables
from shelfload.advise.bench import Bench
from shelfload.advise.scatter import stiffness_cov
from shelfload.idealise.pieces import MM3_PER_M3
from shelfload.idealise.properties import Strength, stiffness, strength
from shelfload.solve.measured import (
    bending_stress,
    expanded,
    modulus_from_sag,
    stiffness_of_readings,
)
from shelfload.tables import Material
from shelfload.wording import figure

TOO_STIFF = 0.20
"""Relative half width of the interval above which a test tells little (judgement)."""
USELESS = 0.50
"""Likewise above which no figure is worth using (judgement)."""
TOO_LIMP = 1.0 / 50.0
"""Sag over span above which the linear formula errs by more than a part in a hundred or so,
and a board may start to set (judgement)."""
SHORT = 0.10
"""Share of the sag by shear above which E hangs on a guess at the shear modulus (judgement)."""
SAFE_STRESS = 0.4
"""Share of strength up to which bending tests load: EN 408, 0.4 of the greatest load."""
WIDE = 1.0 / 3.0
"""Width over span above which a strip starts to bend as a plate (judgement)."""
SHEAR_UNSURE = 0.30
"""How far the guess at E over G may be off, either way (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a test says.

    Attributes
    ----------
    bench : Bench
        The test.
    E, lower, upper : float
        True modulus of elasticity, and the interval that holds it 19 times in 20 [MPa].
    apparent : float
        Modulus with the shear sag left in [MPa].
    G, density : float
        Taken with it: shear modulus [MPa] and density [kg/m3].
    parts : tuple of (str, float)
        What each error alone brings to E, as a relative half width [-], largest first.
    warnings : tuple of str
        Why it may tell little.
    said : tuple of str
        What was assumed.
    strength : Strength or None
        Of the row it is taken for.
    """

    bench: Bench
    E: float
    lower: float
    upper: float
    apparent: float
    G: float
    density: float
    parts: tuple[tuple[str, float], ...]
    warnings: tuple[str, ...]
    said: tuple[str, ...]
    strength: Strength | None

    @property
    def half(self) -> float:
        """Relative half width of the interval [-]."""
        return self.upper / self.E - 1.0


def measured(bench: Bench) -> Measured:
    """Work out a test."""
    loads, sags = np.array(bench.readings).T
    k, scattered = stiffness_of_readings(loads, sags)
    E_over_G, said = _shear(bench)
    size = (bench.span, bench.width, bench.thickness)
    apparent = float(modulus_from_sag(k, *size, 0.0, bench.loading))
    E = float(modulus_from_sag(k, *size, E_over_G, bench.loading))
    by_shear = 1.0 - apparent / E
    # a figure read to within a lies evenly anywhere in between: standard error a / sqrt(3)
    most = {
        "reading the sag": bench.sag_error / float(np.sqrt(np.mean(sags**2))),
        "thickness": 3.0 * bench.thickness_error / bench.thickness,
        "span": 3.0 * bench.span_error / bench.span,
        "width": bench.width_error / bench.width,
        "weight": bench.weight_error,
        "shear modulus": SHEAR_UNSURE * by_shear,
    }
    others = {name: error / sqrt(3.0) for name, error in most.items()}
    half = float(expanded(scattered, len(sags), list(others.values()))[0])
    parts = {name: 2.0 * error for name, error in others.items()}
    if len(sags) > 1:
        parts["scatter of the readings"] = float(expanded(scattered, len(sags), [0.0])[0])
    density, said_density = _density(bench)
    return Measured(
        bench=bench,
        E=E,
        lower=E * (1.0 - half),
        upper=E * (1.0 + half),
        apparent=apparent,
        G=E / E_over_G,
        density=density,
        parts=tuple(sorted(parts.items(), key=lambda part: -part[1])),
        warnings=(
            *_warnings(bench, loads, sags, half, by_shear, parts),
            *_unlike(bench.like, E, half),
        ),
        said=(*said, *said_density),
        strength=None if bench.like is None else strength(bench.like, "along"),
    )


def _rows(kind: str) -> list[Material]:
    return [row for row in tables.materials().values() if row.kind == kind]


def _shear(bench: Bench) -> tuple[float, list[str]]:
    if bench.like is not None:
        stiff = stiffness(bench.like, "along")
        if stiff is not None:
            ratio = stiff.E / stiff.G
            return ratio, [f"E over G {figure(ratio, 'ratio')} of {bench.like.called}"]
    ratio = median(row.E_0 / row.G_0 for row in _rows(bench.kind) if row.G_0 is not None)
    return ratio, [f"E over G {figure(ratio, 'ratio')}, the middle of the table's {bench.kind}"]


def _density(bench: Bench) -> tuple[float, list[str]]:
    if bench.mass is not None and bench.length is not None:
        volume = bench.length * bench.width * bench.thickness
        return bench.mass / volume * MM3_PER_M3, []
    if bench.like is not None:
        return bench.like.density, [f"density of {bench.like.called}: weigh the offcut for its own"]
    most = max(row.density for row in _rows(bench.kind))
    return most, [
        f"density of the heaviest {bench.kind} in the table: weigh the offcut for its own"
    ]


def _warnings(
    bench: Bench,
    loads: np.ndarray[Any, np.dtype[np.float64]],
    sags: np.ndarray[Any, np.dtype[np.float64]],
    half: float,
    by_shear: float,
    parts: Mapping[str, float],
) -> list[str]:
    found = []
    if half > TOO_STIFF:
        worst = max(parts, key=lambda name: parts[name])
        found.append(
            f"Too stiff to tell: E is only known within {half:.0%}, mostly for {worst}. Put more "
            "weight on it, move the supports apart, or read the sag more finely."
        )
    if sags.max() > TOO_LIMP * bench.span:
        found.append(
            f"Too limp to tell: it sagged {figure(float(sags.max()), 'length')} on "
            f"{figure(bench.span, 'length')}, where the formula no longer holds and a board may "
            "set. Use less weight or move the supports together."
        )
    if by_shear > SHORT:
        found.append(
            f"A short test: {by_shear:.0%} of the sag is shear, which is a guess. Move the "
            "supports apart to 30 thicknesses or more."
        )
    if bench.width > WIDE * bench.span:
        found.append("A wide piece bends partly as a plate: cut a narrower strip.")
    if bench.like is not None:
        f_m = strength(bench.like, "along").f_m
        stress = float(bending_stress(loads.max(), bench.span, bench.width, bench.thickness,
                                      bench.loading))  # fmt: skip
        if f_m is not None and stress > SAFE_STRESS * f_m:
            found.append(
                f"It was bent to {figure(stress, 'stress')}, over {SAFE_STRESS:.0%} of its "
                "strength: it may have set or cracked. Use less weight."
            )
    return found


def _unlike(like: Material | None, E: float, half: float) -> list[str]:
    """Say so where a measured sheet can hardly be what it is taken for."""
    tabled = None if like is None else stiffness(like, "along")
    if like is None or tabled is None:
        return []
    scatter = 2.0 * stiffness_cov(like)[0]
    if abs(E / tabled.E - 1.0) <= scatter + half:
        return []
    return [
        f"Hardly {like.called}: the table has {figure(tabled.E, 'stress')}. Its strength may "
        "differ as much; leave the strengths out if in doubt."
    ]


def entry(found: Measured) -> str | None:
    """Return the entry to paste into a description; None where the test says too little.

    Where E is known but loosely, its lower end is given.
    """
    if found.half > USELESS:
        return None
    bench = found.bench
    E, note = found.E, f"at least {_three(found.lower)}: use that to be cautious"
    if found.half > TOO_STIFF:
        E, note = found.lower, f"lower end of a loose test; more likely {_three(found.E)}"
    count = len(bench.readings)
    lines = [
        f"[materials.{bench.name}]",
        f'kind = "{bench.kind}"',
        f'thickness = "{bench.thickness:g} mm"',
        f'density = "{found.density:.0f} kg/m3"',
        f'E = "{_three(E)} MPa"   # {note}',
        f'G = "{_three(found.G * E / found.E)} MPa"   # not measured',
    ]
    if found.strength is not None and bench.like is not None:
        note = f"# not measured: of {bench.like.name}, {found.strength.basis}"
        if found.strength.f_m is not None:
            lines.append(f'bending_strength = "{found.strength.f_m:.3g} MPa"   {note}')
        if found.strength.f_shear is not None:
            lines.append(f'shear_strength = "{found.strength.f_shear:.3g} MPa"   # likewise')
    plural = "s" if count > 1 else ""
    lines.append(
        f'source = "measured on an offcut: {count} reading{plural}, E within {found.half:.0%} '
        '19 times in 20"'
    )
    return "\n".join(lines) + "\n"


def _three(value: float) -> str:
    return f"{float(f'{value:.3g}'):.0f}" if value >= 100.0 else f"{value:.3g}"
