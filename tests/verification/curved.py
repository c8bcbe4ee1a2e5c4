"""Shelves curved in plan: annular sectors."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification.case import CLOSED_FORM, LIBRARY, Case

from shelfload.solve.plate import (
    AreaLoad,
    Edge,
    Edges,
    PlateResult,
    sector,
    solve_plate,
    stiffness_of,
)

NU, LOAD = 0.3, 1e-3
INNER, OUTER = 600.0, 900.0
HARD = Edge("hard")
THIN = stiffness_of(1e4, 1e4, NU, *[1e4 / 2 / (1 + NU)] * 3, thickness=1.0)
GRAIN = stiffness_of(9000.0, 4500.0, 0.1, 600.0, 250.0, 150.0, thickness=18.0)


def levy_of_a_sector(angle: float, inner: str, outer: str, r: float) -> tuple[float, float]:
    """Deflection times D and M_r on the middle radius of an isotropic sector, even load.

    Radial edges simply supported, so that each sine of the angle goes by itself; for each a
    particular solution q_m r^4 / ((16 - mu^2) (4 - mu^2)) and four powers of the radius, whose
    factors follow from two conditions on each arc.
    """
    total_w = total_M = 0.0
    for m in range(1, 80, 2):
        mu = m * np.pi / angle
        powers = np.array([mu, -mu, 2 + mu, 2 - mu])
        scale = np.where(powers > 0, OUTER, INNER)  # keeps the powers of the radii near 1
        particular = 4 * LOAD / (m * np.pi) / ((16 - mu**2) * (4 - mu**2))

        def terms(at: float, p: np.ndarray, over: np.ndarray | float, mu: float = mu) -> dict:
            value = (at / over) ** p
            slope, bend = p * value / at, p * (p - 1) * value / at**2
            # Laplacian of r^p sin: (p^2 - mu^2) r^(p-2)
            lap_slope = (p**2 - mu**2) * (p - 2) * value / at**3
            moment = bend + NU * (slope / at - mu**2 * value / at**2)
            # Q_r plus the change of twist along the arc
            shear = lap_slope - (1 - NU) * mu**2 / at * (slope / at - value / at**2)
            return {"w": value, "slope": slope, "moment": moment, "shear": shear}

        rows, right = [], []
        for edge, at in ((inner, INNER), (outer, OUTER)):
            conditions = {
                "free": ("moment", "shear"), "hard": ("w", "moment"), "clamped": ("w", "slope"),
            }[edge]  # fmt: skip
            powers_here, load_here = (
                terms(at, powers, scale), terms(at, np.array([4.0]), 1.0)
            )  # fmt: skip
            for which in conditions:
                rows.append(powers_here[which])
                right.append(-particular * load_here[which][0])
        rows_array, right_array = np.array(rows), np.array(right)
        size = np.abs(rows_array).max(axis=1)
        factors = np.linalg.solve(rows_array / size[:, None], right_array / size)
        here, load_here = terms(r, powers, scale), terms(r, np.array([4.0]), 1.0)
        sine = np.sin(m * np.pi / 2)
        total_w += sine * (here["w"] @ factors + particular * load_here["w"][0])
        total_M -= sine * (here["moment"] @ factors + particular * load_here["moment"][0])
    return float(total_w), float(total_M)


@cache
def isotropic(angle: float, inner: str, outer: str) -> PlateResult:
    edges = Edges(left=HARD, right=HARD, near=Edge(inner), far=Edge(outer))
    return solve_plate(sector(INNER, OUTER, angle), THIN, edges, [AreaLoad(value=LOAD)])


def series() -> Iterator[Case]:
    def reference(angle: float, inner: str, outer: str, r: float) -> float:
        return levy_of_a_sector(angle, inner, outer, r)[0] / THIN.D11

    def ours(angle: float, inner: str, outer: str, r: float) -> float:
        return float(isotropic(angle, inner, outer).deflection(0.0, r)[0, 0])

    for angle, inner, outer, r, words in (
        (0.8, "free", "free", OUTER, "two ends held: outer edge sags"),
        (0.8, "free", "free", INNER, "two ends held: inner edge sags"),
        (1.3, "free", "hard", INNER, "two ends and the outer edge held: inner edge sags"),
        (1.3, "free", "clamped", INNER, "outer edge clamped: inner edge sags"),
        (1.3, "hard", "free", OUTER, "two ends and the inner edge held: outer edge sags"),
        (2.5, "hard", "hard", (INNER + OUTER) / 2, "all edges held: middle sags"),
        (2.5, "hard", "free", OUTER, "two ends and the inner edge held: outer edge sags"),
    ):
        yield Case(
            name=f"sector of {angle:g} rad, {words}",
            reference=partial(reference, angle, inner, outer, r),
            ours=partial(ours, angle, inner, outer, r),
            unit="mm",
            within=0.005,
            kind=CLOSED_FORM,
            source="Levy's series in polar coordinates, summed in the row (Timoshenko and "
            "Woinowsky-Krieger, art. 62, has the method)",
        )


def bows() -> Iterator[Case]:
    R, width, thickness, E, G = 1000.0, 40.0, 2.0, 9000.0, 4500.0

    def ours(angle: float) -> float:
        plate = stiffness_of(E, E, 0.0, G, G, G, thickness)
        ends = Edges(left=Edge("clamped"), right=Edge("clamped"))
        result = solve_plate(
            sector(R - width / 2, R + width / 2, angle), plate, ends, [AreaLoad(value=1e-6)]
        )
        return float(result.deflection(0.0, R)[0, 0])

    def reference(angle: float) -> float:
        from published.test_plate_tables import curved_beam_sag

        GJ = G * width * thickness**3 / 3 * (1 - 0.63 * thickness / width)
        return curved_beam_sag(R, angle / 2, 1e-6 * width, E * width * thickness**3 / 12, GJ)

    for angle in (0.5, 1.5, 3.0):
        yield Case(
            name=f"narrow bow of {angle:g} rad, ends clamped: middle sags",
            reference=partial(reference, angle),
            ours=partial(ours, angle),
            unit="mm",
            within=0.005,
            kind=CLOSED_FORM,
            source="curved beam in bending and torsion by Castigliano (Roark has the same bar); "
            "torsion constant b t^3 / 3 (1 - 0.63 t / b)",
        )


def libraries() -> Iterator[Case]:
    held = {
        "two ends on ledges": Edges(left=Edge("soft"), right=Edge("soft")),
        "two ends on ledges, back springy": Edges(
            left=Edge("soft"), right=Edge("soft"), far=Edge("elastic", k_w=0.3)
        ),
    }

    def by_scikit_fem(edges: Edges) -> float:
        from reference import test_plate_reference as fem  # here: only these rows pay for it

        basis, values = fem.by_scikit_fem(sector(INNER, OUTER, 1.0), GRAIN, edges, (32, 16))
        return float(fem.sag_at(basis, values, np.array([[0.0], [INNER]]))[0])

    def ours(edges: Edges) -> float:
        result = solve_plate(sector(INNER, OUTER, 1.0), GRAIN, edges, [AreaLoad(value=LOAD)])
        return float(result.deflection(0.0, INNER)[0, 0])

    for name, edges in held.items():
        yield Case(
            name=f"sector of 1 rad, 18 mm, grain along the chord, {name}: inner edge sags",
            reference=partial(by_scikit_fem, edges),
            ours=partial(ours, edges),
            unit="mm",
            within=0.005,
            kind=LIBRARY,
            source=f"scikit-fem {version('scikit-fem')}, quadratic Mindlin elements, 32 x 16",
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from series()
    yield from bows()
    yield from libraries()
