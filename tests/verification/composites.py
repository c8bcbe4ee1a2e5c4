"""Panels and strips that slip on their fasteners: gamma method, exact solution, slip moduli."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification import annex_b
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, PUBLISHED, Case

from shelfload.solve import composite, composite_exact, composite_stress, slip

PACKAGE = "unit test of a public package for EN 1995-1-1:2023, "
# Formula (E.7), the same as the bending part of (B.8): E, h, M, (EI)_ef, stress.
BENDING_STRESS = (
    (12000, 70, 10e6, 6015486104925.15, "0.6981979"),
    (4000, 20, 10e6, 6.2e12, "0.064516129"),
    (12000, 60, -8e6, 5.5e12, "-0.523636"),
)


def formulas() -> Iterator[Case]:
    rows = (
        ("three parts: effective stiffness", "80005.25", "N mm2", None, "",
         lambda: composite.effective_stiffness(
             [1, 1, 0.2], [1, 1, 200], [1, 1, 400], [1, 1, 0.5], [1, 1, 0.25]
         ), "formula (E.1), the sum of (B.1)"),
        ("outer part: gamma", "0.3877", "-", None, "",
         lambda: composite.gamma_slip(E=8000, A=20000, s=200, K=8000, L=5000),
         "formula (E.2), as (B.5)"),
        ("three parts with uneven gamma: offset of the middle", "-1.10", "mm", None, "",
         lambda: composite.axis_offset(1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2)[1],
         "formula (E.4), as (B.6)"),
        ("two parts of 30: offset of the second", "7.143", "mm", None, "",
         lambda: composite.axis_offset(0.5, 1000, 2000, 30, 0.8 * 2000, 2000, 30)[1],
         "formula (E.4), its gamma_2 of 0.8 put on E_2"),
        ("layers of 60, 80 and 60: effective stiffness", "6.015486", "10^12 N mm2", 0.0006,
         "its gamma of 0.767 has three digits", lambda: composite.effective_stiffness(
             [0.767, 1, 0.767], [12e3, 4e3, 12e3],
             [1e3 * 60**3 / 12, 1e3 * 80**3 / 12, 1e3 * 60**3 / 12], [60e3, 80e3, 60e3],
             [70, 0, 70],
         ) / 1e12, "formulas (E.1) to (E.5)"),
        ("layers of 60, 80 and 60: mean stress of the outer one", "1.0710356", "MPa", None, "",
         lambda: composite_stress.normal_stress(0.767, 12000, 70, 10e6, 6015486104925.15),
         "formula (E.6), as the mean part of (B.7)"),
        ("layers of 60, 80 and 60: shear stress in the middle", "0.0695920", "MPa", 0.0002,
         "printed from a gamma that was not rounded", lambda: composite_stress.shear_stress(
             0.767, 12000, 60000, 70, 4000, 1000, 40, 10e3, 6015486104925.15
         ), "formula (E.9), as (B.9)"),
    )  # fmt: skip
    for name, reference, unit, within, because, ours, source in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, within=within, because=because,
            kind=PUBLISHED, source=PACKAGE + source,
        )  # fmt: skip
    for E, h, M, EI, reference in BENDING_STRESS:
        yield Case(
            name=f"bending stress in a part {h} deep under {M / 1e6:g} kN m",
            reference=reference,
            ours=partial(composite_stress.bending_stress, E, h, M, EI),
            unit="MPa",
            kind=PUBLISHED,
            source=PACKAGE + "formula (E.7), as the bending part of (B.8)",
        )


def slip_moduli() -> Iterator[Case]:
    for name, reference, ours, source in (
        ("screw 6 in C24 on D50 (420 and 750 kg/m3): slip modulus", "3469",
         lambda: slip.slip_modulus(slip.mean_density(420, 750), 6),
         "Dlubal knowledge base article 000873, T-section by EN 1995-1-1, table 7.1; it prints the "
         "classes, not the densities"),
        ("nine nails 2.5 in OSB on glulam: slip modulus", "7197.87",
         lambda: 9 * slip.slip_modulus_nail(slip.mean_density(420, 620), 2.5),
         "regression figure of a public package for EN 1995-1-1 (ourocode)"),
        ("the same at the ultimate: two thirds", "4798.58",
         lambda: slip.slip_modulus_ultimate(
             9 * slip.slip_modulus_nail(slip.mean_density(420, 620), 2.5)
         ), "regression figure of a public package for EN 1995-1-1 (ourocode)"),
    ):  # fmt: skip
        yield Case(
            name=name, reference=reference, ours=ours, unit="N/mm", kind=PUBLISHED, source=source
        )


# Girhammar and Gopu (1993): concrete 50 x 300 on timber 150 x 50, slip modulus 50 MPa, 4 m, 1 kN/m.
SECTION = (12000, 50 * 300, 300 * 50**3 / 12, 8000, 150 * 50, 50 * 150**3 / 12, 100)
GIRHAMMAR = "Girhammar and Gopu (1993), composite beam-columns with interlayer slip, from memory"


def girhammar() -> Iterator[Case]:
    layers = composite_exact.two_layers(*SECTION, s=1, K=50)
    for name, reference, unit, within, because, ours in (
        ("lying loose: EI", "150", "kN m2", None, "", lambda: layers.EI_0 / 1e9),
        ("glued: EI", "600", "kN m2", None, "", lambda: layers.EI_inf / 1e9),
        ("slipping, 1 kN/m over 4 m: sag", "7.56", "mm", None, "",
         lambda: composite_exact.midspan_sag_uniform(layers, 1.0, 4000)),
        ("slipping, 1 kN/m over 4 m: sag by the gamma method", "7.56", "mm", 0.005,
         "the gamma method is exact for a sine load only",
         lambda: 5 * 4000**4 / 384 / composite.two_part_stiffness(*SECTION, s=1, K=50, L=4000)),
    ):  # fmt: skip
        yield Case(
            name=f"concrete on timber, {name}", reference=reference, ours=ours, unit=unit,
            within=within, because=because, kind=FROM_MEMORY, source=GIRHAMMAR,
        )  # fmt: skip


# Two panels of 18 mm birch plywood, 300 deep, screwed at 100 with 1500 N/mm, over 900 mm.
E, A, I_ONE, r, k, SPAN = 9000.0, 5400.0, 300 * 18**3 / 12, 18.0, 15.0, 900.0
DOUBLE = (E, A, I_ONE, E, A, I_ONE, r)
EI_0 = 2 * E * I_ONE


@cache
def by_scipy(load: str) -> tuple[float, float, float]:
    """Sag at mid-span and at a quarter, shear flow at the left end; load 0.5 N/mm or 300 N.

    Newmark's equations: N'' = k (N (1 / E A + 1 / E A) - r kappa), kappa = (M - N r) / EI_0.
    """
    from scipy.integrate import solve_bvp  # here: only these rows pay for it

    a = SPAN / 4

    def M(x: np.ndarray) -> np.ndarray:
        if load == "even":
            return 0.5 * x * (SPAN - x) / 2
        return 300.0 * np.minimum(x * (SPAN - a), a * (SPAN - x)) / SPAN

    def change(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        kappa = (M(x) - y[0] * r) / EI_0
        return np.array([y[1], k * (2 * y[0] / (E * A) - r * kappa), y[3], -kappa])

    def ends(left: np.ndarray, right: np.ndarray) -> np.ndarray:
        return np.array([left[0], right[0], left[2], right[2]])

    x = np.linspace(0, SPAN, 241)
    found = solve_bvp(change, ends, x, np.zeros((4, x.size)), tol=1e-9, max_nodes=50000)
    return float(found.sol(SPAN / 2)[2]), float(found.sol(a)[2]), float(found.sol(0.0)[1])


def exact() -> Iterator[Case]:
    layers = composite_exact.two_layers(*DOUBLE, s=1, K=k)
    source = f"scipy {version('scipy')}, solve_bvp on Newmark's equations written out in the row"

    def theirs(load: str, which: int) -> float:
        return by_scipy(load)[which]

    for name, unit, load, which, ours in (
        ("even load: sag at mid-span", "mm", "even", 0,
         lambda: composite_exact.midspan_sag_uniform(layers, 0.5, SPAN)),
        ("even load: sag at a quarter", "mm", "even", 1,
         lambda: composite_exact.sag_uniform(layers, SPAN / 4, 0.5, SPAN)),
        ("even load: shear flow at the end", "N/mm", "even", 2,
         lambda: composite_exact.end_slip_flow_uniform(layers, 0.5, SPAN)),
        ("load at a quarter: sag at mid-span", "mm", "point", 0,
         lambda: composite_exact.sag_point_load(layers, SPAN / 2, 300.0, SPAN / 4, SPAN)),
        ("load at a quarter: sag under it", "mm", "point", 1,
         lambda: composite_exact.sag_point_load(layers, SPAN / 4, 300.0, SPAN / 4, SPAN)),
    ):  # fmt: skip
        yield Case(
            name=f"two screwed panels, {name}", reference=partial(theirs, load, which), ours=ours,
            unit=unit, within=1e-5, kind=LIBRARY, source=source,
        )  # fmt: skip

    # N = N_0 sin(pi x / L) and M likewise put into Newmark's equations
    wave = np.pi**2 / SPAN**2
    N_0 = k * r / EI_0 / (wave + k * (r**2 / EI_0 + 2 / (E * A)))
    yield Case(
        name="two screwed panels, sine load: effective stiffness by the gamma method",
        reference=EI_0 / (1 - N_0 * r),
        ours=lambda: composite.two_part_stiffness(*DOUBLE, s=1, K=k, L=SPAN),
        unit="N mm2",
        kind=CLOSED_FORM,
        source="Newmark's equations with a sine, which the gamma method solves exactly",
    )
    for name, K, reference in (
        ("no fasteners", 1e-12, EI_0),
        ("glued", 1e12, E * 300 * 36**3 / 12),
    ):
        yield Case(
            name=f"two panels, {name}: effective stiffness by the gamma method",
            reference=reference,
            ours=lambda K=K: composite.two_part_stiffness(*DOUBLE, s=1, K=K, L=SPAN),
            unit="N mm2",
            within=1e-8,
            kind=CLOSED_FORM,
            source="twice b h^3 / 12 and b (2 h)^3 / 12",
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from formulas()
    yield from slip_moduli()
    yield from annex_b.cases()
    yield from girhammar()
    yield from exact()
