"""Columns, sheets and whole frames that buckle."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from importlib.metadata import version
from math import pi, sqrt

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, PUBLISHED, Case

from shelfload.solve import column
from shelfload.solve.edge_hold import shear_buckling_stress
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_model import Frame
from shelfload.solve.sway_buckling import sway_buckling_factor

# C24, 100 x 160 mm, 2 m about z and 1 m about y, 20 kN, k_mod 0.8, gamma_M 1.3.
B, H, F_C, E_05, N = 100.0, 160.0, 21.0, 7400.0, 20e3
TIMBER_CHECK = "hand calculation in a unit test of the public crate timber_check, C24 100 x 160"
PORTEOUS = "Porteous and Kermani, Structural Timber Design to Eurocode 5, "


def axis(which: str) -> tuple[float, float, float, float]:
    """Slenderness, relative slenderness, k and k_c about an axis."""
    L, depth, width = (2000.0, B, H) if which == "z" else (1000.0, H, B)
    lam = column.slenderness(L, width * depth**3 / 12, width * depth)
    rel = column.relative_slenderness(lam, F_C, E_05)
    k = column.buckling_k(rel, column.BETA_C_SOLID)
    return float(lam), float(rel), float(k), float(column.instability_factor(rel, 0.2))


def ratio(which: str) -> float:
    """Compression over what the buckling column stands."""
    return N / (B * H) / (axis(which)[3] * 0.8 * F_C / 1.3)


def timber_columns() -> Iterator[Case]:
    rounded = "the source goes on from the rounded 1.1748"
    for name, which, place, reference, within in (
        ("slenderness about z", "z", 0, "69.28", None),
        ("relative slenderness about z", "z", 1, "1.1748", None),
        ("k about z", "z", 2, "1.2776", 1.2e-4),
        ("k_c about z", "z", 3, "0.5619", 2.7e-4),
        ("slenderness about y", "y", 0, "21.65", None),
        ("relative slenderness about y", "y", 1, "0.3671", None),
        ("k about y", "y", 2, "0.5741", None),
        ("k_c about y", "y", 3, "0.9848", None),
    ):
        yield Case(
            name=f"column of C24: {name}", reference=reference,
            ours=lambda which=which, place=place: axis(which)[place], within=within,
            because=rounded if within else "", kind=PUBLISHED, source=TIMBER_CHECK,
        )  # fmt: skip
    for which, reference, within in (("z", "0.1721", 6e-4), ("y", "0.0982", None)):
        yield Case(
            name=f"column of C24: utilisation about {which}", reference=reference,
            ours=partial(ratio, which), within=within, because=rounded if within else "",
            kind=PUBLISHED, source=TIMBER_CHECK,
        )  # fmt: skip
    staad = "STAAD.Pro help, verification V.EC5, timber column with bending, C24 73 x 198"
    for lam, reference in ((17.54, "0.298"), (47.62, "0.809")):
        yield Case(
            name=f"column of C24, slenderness {lam:g}: relative slenderness",
            reference=reference,
            ours=partial(column.relative_slenderness, lam, 21.0, 7370.0),
            kind=PUBLISHED,
            source=staad,
        )
    yield Case(
        name="stud of a wall panel, relative slenderness 2.32: k",
        reference="3.39",
        ours=partial(column.buckling_k, 2.32, column.BETA_C_SOLID),
        kind=PUBLISHED,
        source=PORTEOUS + "stud wall example",
    )


def theory() -> Iterator[Case]:
    gere = "Timoshenko and Gere, Theory of Elastic Stability, "

    def by_eigenvalue() -> float:
        """Least load of -EI w'' = N w with both ends pinned."""
        from scipy.sparse import diags
        from scipy.sparse.linalg import eigsh

        n, L, EI = 400, 700.0, 1.3e9
        step = L / n
        second = diags([1.0, -2.0, 1.0], [-1, 0, 1], shape=(n - 1, n - 1)) / step**2
        return EI * float(eigsh(-second.tocsc(), k=1, sigma=0.0, which="LM")[0][0])

    yield Case(
        name="pinned column, EI 1.3 kN m2, 700 mm: buckling load",
        reference=by_eigenvalue,
        ours=partial(column.euler_load, 1.3e9, 700.0),
        unit="N",
        within=1e-5,
        kind=LIBRARY,
        source=f"scipy {version('scipy')}, least eigenvalue of finite differences, 400 steps",
    )
    for ends, reference, place in (
        ("fixed-pinned", "0.699", "2.2: pi / u with tan u = u"),
        ("fixed-fixed", 0.5, "2.2"),
        ("fixed-free", 2.0, "2.2"),
    ):
        yield Case(
            name=f"column {ends}: Euler's length over its length",
            reference=reference,
            ours=partial(column.effective_length, 1.0, ends, ideal=True),
            kind=FROM_MEMORY,
            source=f"{gere}{place}, from memory",
        )
    yield Case(
        name="relative slenderness 2, glued laminated: k_c",
        reference=1 / (2.585 + sqrt(2.585**2 - 4)),
        ours=partial(column.instability_factor, 2.0, column.BETA_C_GLUED),
        kind=CLOSED_FORM,
        source="EN 1995-1-1:2004, (6.25) to (6.29) worked: k = 0.5 (1 + 0.1 x 1.7 + 4) = 2.585",
    )
    E, nu, t, b = 3000.0, 0.3, 3.2, 400.0
    plate = pi**2 * E / 12 / (1 - nu**2) * (t / b) ** 2
    for word, other, reference in (("square", 1.0, "9.34"), ("very long", 1e6, "5.34")):
        yield Case(
            name=f"{word} sheet in shear, edges free to turn: buckling coefficient",
            reference=reference,
            ours=lambda other=other: float(shear_buckling_stress(E, nu, t, other * b, b)) / plate,
            kind=FROM_MEMORY,
            source=f"{gere}9.7, and EN 1993-1-5, A.3, from memory",
        )


def sway() -> Iterator[Case]:
    L, EI = 800.0, 1e8

    def factor(frame: Frame, heads: int) -> float:
        nodal = np.zeros((len(frame.nodes), 3, 1))
        nodal[-heads:, 1, 0] = 1.0
        return float(sway_buckling_factor(solve_frame(frame, nodal=nodal))[0])

    def post(n: int, GA: float = np.inf) -> float:
        frame = Frame(
            nodes=[(0, z) for z in np.linspace(0, L, n + 1)],
            members=[(i, i + 1) for i in range(n)],
            EA=1e9,
            EI=EI,
            GA=GA,
            fixed=[[True] * 3] + [[False] * 3] * n,
        )
        return factor(frame, 1)

    def stiff_beam() -> float:
        frame = Frame(
            nodes=[(0, 0), (900, 0), (0, L), (900, L)],
            members=[(0, 2), (1, 3), (2, 3)],
            EA=1e9,
            EI=[EI, EI, 1e13],
            fixed=[[True] * 3, [True] * 3, [False] * 3, [False] * 3],
        )
        return factor(frame, 2)

    euler = np.pi**2 * EI / (4 * L**2)
    gere = "Timoshenko and Gere, Theory of Elastic Stability"
    yield Case(
        name="cantilever post in eight pieces buckles at",
        reference=euler,
        ours=partial(post, 8),
        unit="N",
        within=1e-4,
        kind=CLOSED_FORM,
        source=f"Euler, pi^2 EI / (2 L)^2; {gere}, 2.1",
    )
    yield Case(
        name="cantilever post that shears, in eight pieces, buckles at",
        reference=1 / (1 / euler + 1 / 1e3),
        ours=partial(post, 8, 1e3),
        unit="N",
        within=0.01,
        kind=CLOSED_FORM,
        source=f"Engesser; {gere}, 2.17",
    )
    yield Case(
        name="portal with a stiff beam and fixed feet buckles sideways at, each post",
        reference=np.pi**2 * EI / L**2,
        ours=stiff_beam,
        unit="N",
        within=0.014,
        kind=CLOSED_FORM,
        source=f"{gere}, 2.2; a post of one piece is up to 1.4 % too strong, as its notes say",
    )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from timber_columns()
    yield from theory()
    yield from sway()
