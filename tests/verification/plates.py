"""Flat plates: rectangles on all usual edges, isotropic and with grain, thin and thick."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, Case

from shelfload.solve.plate import (
    AreaLoad,
    Edge,
    Edges,
    Load,
    PlateResult,
    PointLoad,
    Stiffness,
    rectangle,
    solve_plate,
    stiffness_of,
)

NU, SIDE, LOAD, MODULUS, THICKNESS = 0.3, 1000.0, 1e-3, 1e4, 1.0
THIN = stiffness_of(MODULUS, MODULUS, NU, *[MODULUS / 2 / (1 + NU)] * 3, thickness=THICKNESS)
HARD, CLAMPED, FREE = Edge("hard"), Edge("clamped"), Edge()
ALL_HARD = Edges(left=HARD, right=HARD, near=HARD, far=HARD)
ALL_CLAMPED = Edges(left=CLAMPED, right=CLAMPED, near=CLAMPED, far=CLAMPED)
THREE_HARD = Edges(left=HARD, right=HARD, near=HARD)
TWO_HARD = Edges(left=HARD, right=HARD)
WITHIN = 0.005
BECAUSE = "a plate is solved to half a per cent"

# S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), nu 0.3,
# from memory. Over q a^4 / D, q a^2 and q a, with the long side the ratio times a.
TABLE_8 = (
    # ratio, deflection, M_x, M_y in the middle, shear at the middle of the long edge, corner
    (1.0, "0.00406", "0.0479", "0.0479", "0.338", "0.065"),
    (1.2, "0.00564", "0.0627", "0.0501", "0.380", "0.074"),
    (1.5, "0.00772", "0.0812", "0.0498", "0.424", "0.085"),
    (2.0, "0.01013", "0.1017", "0.0464", "0.465", "0.092"),
    (3.0, "0.01223", "0.1189", "0.0406", "0.493", "0.093"),
)
TABLE_35 = (
    # ratio, deflection, M at the long edge, at the short edge, M_x and M_y in the middle
    (1.0, "0.00126", "-0.0513", "-0.0513", "0.0231", "0.0231"),
    (1.5, "0.00220", "-0.0757", "-0.0570", "0.0368", "0.0203"),
    (2.0, "0.00254", "-0.0829", "-0.0571", "0.0412", "0.0158"),
)
ART_48 = (
    # ratio, deflection and M_x in the middle of the free edge
    (1 / 2, "0.00710", "0.060"),
    (2 / 3, "0.00968", "0.083"),
    (1.0, "0.01286", "0.112"),
    (2.0, "0.01507", "0.132"),
)
CENTRE_LOAD = (
    # ratio, deflection over P a^2 / D simply supported (art. 34) and clamped (art. 44)
    (1.0, "0.01160", "0.00560"),
    (1.4, "0.01484", "0.00691"),
    (2.0, "0.01651", "0.00722"),
)
# Roark's Formulas for Stress and Strain, 7th ed., table 11.4, cases 1a and 8a, nu 0.3, from
# memory: w = alpha q b^4 / (E t^3), sigma = beta q b^2 / t^2, b the short side.
ROARK = (
    # ratio, alpha and beta simply supported, alpha and beta (at the long edge) clamped
    (1.0, "0.0444", "0.2874", "0.0138", "0.3078"),
    (1.4, "0.0770", "0.4530", "0.0226", "0.4356"),
    (1.8, "0.1017", "0.5688", "0.0267", "0.4872"),
)


def thin_plate(ratio: float, edges: Edges, loads: Load | None = None) -> PlateResult:
    """A plate of 1000 by the ratio times that, under an even load if no other."""
    return solve_plate(rectangle(SIDE, ratio * SIDE), THIN, edges, [loads or AreaLoad(value=LOAD)])


@cache
def solved(ratio: float, edges: str) -> PlateResult:
    held = {"hard": ALL_HARD, "clamped": ALL_CLAMPED, "three": THREE_HARD, "two": TWO_HARD}
    return thin_plate(ratio, held[edges])


def alpha(result: PlateResult, x: float, y: float) -> float:
    """Deflection over q a^4 / D at shares of the side."""
    return float(result.deflection(x * SIDE, y * SIDE)[0, 0]) * THIN.D11 / (LOAD * SIDE**4)


def beta(result: PlateResult, x: float, y: float) -> np.ndarray:
    """Moments over q a^2 at shares of the side."""
    return result.moments(x * SIDE, y * SIDE)[0, :, 0] / (LOAD * SIDE**2)


def tables() -> Iterator[Case]:
    book = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., from memory: "

    def row(
        name: str, reference: str, ours: Callable[[], float], place: str, within: float = WITHIN,
        because: str = BECAUSE,
    ) -> Case:  # fmt: skip
        return Case(
            name=f"plate, {name}", reference=reference, ours=ours, within=within,
            because=because, kind=FROM_MEMORY, source=book + place,
        )  # fmt: skip

    def w(ratio: float, edges: str, y: float) -> float:
        return alpha(solved(ratio, edges), 0.5, y)

    def M(ratio: float, edges: str, x: float, y: float, which: int) -> float:
        return float(beta(solved(ratio, edges), x, y)[which])

    def shear(ratio: float) -> float:
        return float(solved(ratio, "hard").shears(0.0, ratio * SIDE / 2)[0, 0, 0]) / (LOAD * SIDE)

    for ratio, a, b, b_1, g, _ in TABLE_8:
        name, place = f"four edges supported, {ratio:g}", "table 8"
        middle = (ratio, "hard", 0.5, ratio / 2)
        yield row(f"{name}: deflection", a, partial(w, ratio, "hard", ratio / 2), place)
        yield row(f"{name}: M across the short way", b, partial(M, *middle, 0), place)
        yield row(f"{name}: M the long way", b_1, partial(M, *middle, 1), place)
        yield row(f"{name}: shear at the edge", g, partial(shear, ratio), place)
    for ratio, a, m_long, m_short, m_x, _ in TABLE_35:
        name, place = f"four edges clamped, {ratio:g}", "table 35"
        yield row(f"{name}: deflection", a, partial(w, ratio, "clamped", ratio / 2), place)
        yield row(
            f"{name}: M at the long edge", m_long,
            partial(M, ratio, "clamped", 0.0, ratio / 2, 0), place,
        )  # fmt: skip
        yield row(
            f"{name}: M at the short edge", m_short, partial(M, ratio, "clamped", 0.5, 0.0, 1),
            place,
        )  # fmt: skip
        yield row(
            f"{name}: M in the middle", m_x, partial(M, ratio, "clamped", 0.5, ratio / 2, 0),
            place, 0.01, "0.0231 is printed for 0.02291 of the exact series",
        )  # fmt: skip
    for ratio, a, b in ART_48:
        name, place = f"three edges supported, depth over span {ratio:.3g}", "art. 48"
        yield row(f"{name}: free edge sags", a, partial(w, ratio, "three", ratio), place)
        yield row(f"{name}: M there", b, partial(M, ratio, "three", 0.5, ratio, 0), place)
    yield row("two ends supported: middle sags", "0.01309", partial(w, 1.0, "two", 0.5), "art. 48")
    yield row(
        "two ends supported: free edge sags", "0.01501", partial(w, 1.0, "two", 1.0), "art. 48"
    )


def centre_loads() -> Iterator[Case]:
    book = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., from memory: "

    def under_a_load(ratio: float, edges: Edges) -> float:
        load = PointLoad(value=1.0, along=SIDE / 2, across=ratio * SIDE / 2, footprint=20.0)
        result = thin_plate(ratio, edges, load)
        return float(result.deflection(SIDE / 2, ratio * SIDE / 2)[0, 0]) * THIN.D11 / SIDE**2

    for ratio, supported, clamped in CENTRE_LOAD:
        for word, edges, reference, place in (
            ("supported", ALL_HARD, supported, "art. 34"),
            ("clamped", ALL_CLAMPED, clamped, "art. 44"),
        ):
            yield Case(
                name=f"plate, four edges {word}, load in the middle, {ratio:g}: deflection",
                reference=reference,
                ours=partial(under_a_load, ratio, edges),
                within=WITHIN,
                because=BECAUSE,
                kind=FROM_MEMORY,
                source=book + place,
            )


def roark() -> Iterator[Case]:
    stiff = 12 * (1 - NU**2)

    def a(ratio: float, edges: str) -> float:
        return stiff * alpha(solved(ratio, edges), 0.5, ratio / 2)

    def b(ratio: float, edges: str, x: float) -> float:
        return 6 * abs(float(beta(solved(ratio, edges), x, ratio / 2)[0]))

    for ratio, a_s, b_s, a_c, b_c in ROARK:
        for case, edges, x, references in (
            ("1a", "hard", 0.5, (a_s, b_s)),
            ("8a", "clamped", 0.0, (a_c, b_c)),
        ):
            word = "supported" if edges == "hard" else "clamped"
            for what, reference, ours in (
                ("alpha", references[0], partial(a, ratio, edges)),
                ("beta", references[1], partial(b, ratio, edges, x)),
            ):
                yield Case(
                    name=f"plate, four edges {word}, {ratio:g}: {what}",
                    reference=reference,
                    ours=ours,
                    within=WITHIN,
                    because=BECAUSE,
                    kind=FROM_MEMORY,
                    source=f"Roark's Formulas, 7th ed., table 11.4, case {case}, from memory",
                )


# Birch plywood across and along, and a shelf of ordinary proportions.
GRAIN = stiffness_of(9000.0, 4500.0, 0.1, 600.0, 250.0, 150.0, thickness=18.0)
SHELF = (900.0, 300.0)


def navier(plate: Stiffness, length: float, depth: float, load: float) -> float:
    """Middle deflection of a simply supported plate that bends and shears, double sine series.

    Each term solves Mindlin's three equations for w, and the turns of x and y.
    """
    m, n = np.meshgrid(np.arange(1, 200, 2.0), np.arange(1, 200, 2.0))
    k, p = m * np.pi / length, n * np.pi / depth
    D, S = plate, (plate.S1, plate.S2)
    A = np.empty((*m.shape, 3, 3))
    A[..., 0, 0] = S[0] * k**2 + S[1] * p**2
    A[..., 0, 1] = A[..., 1, 0] = -S[0] * k
    A[..., 0, 2] = A[..., 2, 0] = -S[1] * p
    A[..., 1, 1] = D.D11 * k**2 + D.D66 * p**2 + S[0]
    A[..., 2, 2] = D.D22 * p**2 + D.D66 * k**2 + S[1]
    A[..., 1, 2] = A[..., 2, 1] = (D.D12 + D.D66) * k * p
    q = 16 * load / np.pi**2 / (m * n)
    right = np.stack([q, 0 * q, 0 * q], axis=-1)[..., None]
    w = np.linalg.solve(A, right)[..., 0, 0]
    return float(np.sum(w * np.sin(m * np.pi / 2) * np.sin(n * np.pi / 2)))


def with_grain() -> Iterator[Case]:
    def middle(plate: Stiffness, edges: Edges) -> float:
        result = solve_plate(rectangle(*SHELF), plate, edges, [AreaLoad(value=LOAD)])
        return float(result.deflection(SHELF[0] / 2, SHELF[1] / 2)[0, 0])

    source = "double sine series of Mindlin's equations, summed in the row (any textbook of plates)"
    thick = stiffness_of(9000.0, 4500.0, 0.1, 600.0, 50.0, 50.0, thickness=40.0)
    for name, plate in (("18 mm with grain", GRAIN), ("40 mm with rolling shear", thick)):
        yield Case(
            name=f"plate, four edges supported, 900 x 300, {name}: deflection",
            reference=partial(navier, plate, *SHELF, LOAD),
            ours=partial(middle, plate, ALL_HARD),
            unit="mm",
            within=0.001,
            kind=CLOSED_FORM,
            source=source,
        )
    no_poisson = stiffness_of(9000.0, 4500.0, 0.0, 600.0, 250.0, 150.0, thickness=18.0)
    yield Case(
        name="plate, two ends supported, no Poisson's ratio: sags like a beam that shears",
        reference=5 * LOAD * SHELF[0] ** 4 / 384 / no_poisson.D11
        + LOAD * SHELF[0] ** 2 / 8 / no_poisson.S1,
        ours=partial(middle, no_poisson, TWO_HARD),
        unit="mm",
        within=1e-4,
        kind=CLOSED_FORM,
        source="5 q L^4 / 384 EI + q L^2 / 8 GA, any textbook of beams",
    )


LIBRARY_EDGES = {
    "three edges held, front free": Edges(left=Edge("soft"), right=Edge("soft"), far=Edge("soft")),
    "two ends and a springy rear edge": Edges(
        left=Edge("soft"), right=Edge("hard"), far=Edge("elastic", k_w=0.5)
    ),
    "rear edge clamped": Edges(far=Edge("clamped")),
}


def libraries() -> Iterator[Case]:
    def by_scikit_fem(edges: Edges) -> float:
        from reference import test_plate_reference as fem  # here: only these rows pay for it

        basis, values = fem.by_scikit_fem(rectangle(*SHELF), GRAIN, edges, (32, 16))
        return float(fem.sag_at(basis, values, np.array([[SHELF[0] / 2], [0.0]]))[0])

    def ours(edges: Edges) -> float:
        result = solve_plate(rectangle(*SHELF), GRAIN, edges, [AreaLoad(value=LOAD)])
        return float(result.deflection(SHELF[0] / 2, 0.0)[0, 0])

    for name, edges in LIBRARY_EDGES.items():
        yield Case(
            name=f"plate 900 x 300 x 18 with grain, {name}: front sags",
            reference=partial(by_scikit_fem, edges),
            ours=partial(ours, edges),
            unit="mm",
            within=WITHIN,
            kind=LIBRARY,
            source=f"scikit-fem {version('scikit-fem')}, quadratic Mindlin elements, 32 x 16",
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from tables()
    yield from centre_loads()
    yield from roark()
    yield from with_grain()
    yield from libraries()
