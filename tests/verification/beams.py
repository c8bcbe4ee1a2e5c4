"""Beams of one span: parts of loads, shear, springs, overhangs."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, PUBLISHED, Case

from shelfload.solve.beam import Beam, Loads, solve
from shelfload.solve.beam_result import BeamResult
from shelfload.solve.overhang import best_overhang, moment_factor

L, W, EI, GA = 800.0, 250.0, 3.1e9, 6.4e5
w = W / L
CANTILEVER, PROPPED, CLAMPED = "cantilever", "clamped at the left", "clamped"
SIMPLE = "simple"
TURN = {SIMPLE: 0.0, CLAMPED: np.inf, CANTILEVER: np.inf, PROPPED: [np.inf, 0.0]}

UNIFORM = Loads.uniform(0, 0.0, L, w)
CENTRE = Loads.point(0, L / 2, W)
QUARTERS = Loads.point(0, [L / 4, 3 * L / 4], W / 2)
END = Loads.point(0, L, W)

# Wood Handbook, FPL-GTR-282, table 9-1, from memory: w = k_b W L^3 / (E I) + k_s W L / (G A').
TABLE_9_1 = (
    # name of the load, ends, loads, place, k_b, k_s
    ("even load", SIMPLE, UNIFORM, L / 2, 5 / 384, 1 / 8),
    ("even load", CLAMPED, UNIFORM, L / 2, 1 / 384, 1 / 8),
    ("mid-span load", SIMPLE, CENTRE, L / 2, 1 / 48, 1 / 4),
    ("mid-span load", CLAMPED, CENTRE, L / 2, 1 / 192, 1 / 4),
    ("loads at the quarters, mid-span", SIMPLE, QUARTERS, L / 2, 11 / 768, 1 / 8),
    ("loads at the quarters, at a quarter", SIMPLE, QUARTERS, L / 4, 1 / 96, 1 / 8),
    ("even load", CANTILEVER, UNIFORM, L, 1 / 8, 1 / 2),
    ("load at the end", CANTILEVER, END, L, 1 / 3, 1.0),
)


def beam(ends: str, **more: object) -> Beam:
    """One span between supports, or from the left one."""
    supports = [0.0] if ends == CANTILEVER else [0.0, L]
    return Beam(length=L, support_at=supports, EI=EI, turn_stiffness=TURN[ends], **more)


@cache
def one_span(ends: str, load: str) -> BeamResult:
    loads = {
        "even": UNIFORM,
        "centre": CENTRE,
        "rising": Loads.linear(0, 0.0, L, 0.0, 2 * w),
        "left half": Loads.uniform(0, 0.0, L / 2, w),
        "thirds": Loads.point(0, [L / 3, 2 * L / 3], W),
    }[load]
    return solve(beam(ends), loads)


def wood_handbook() -> Iterator[Case]:
    def sag(ends: str, loads: Loads, place: float) -> float:
        return solve(beam(ends, GA=GA), loads).at(place)[0][0, 0]

    for load, ends, loads, place, k_b, k_s in TABLE_9_1:
        yield Case(
            name=f"beam, {ends}, {load}: sag with shear",
            reference=k_b * W * L**3 / EI + k_s * W * L / GA,
            ours=partial(sag, ends, loads, place),
            unit="mm",
            kind=CLOSED_FORM,
            source="Wood Handbook FPL-GTR-282, table 9-1, coefficients from memory",
        )


def printed_single_spans() -> Iterator[Case]:
    """Decimals as printed; each over W L, W L^3 / EI or L."""
    aisc = "AISC Steel Construction Manual, table 3-23, from memory: "
    roark = "Roark's Formulas, 7th ed., table 8.1, from memory: "

    def most(ends: str, load: str, what: str, over: float) -> float:
        return getattr(one_span(ends, load).extremes(), what)[0, 0] / over

    sag, moment = W * L**3 / EI, W * L
    for name, ends, load, what, over, reference, source in (
        ("load rising to one end: moment", SIMPLE, "rising", "M_max", moment, "0.1283", "case 2"),
        ("load rising to one end: its place", SIMPLE, "rising", "M_max_at", L, "0.5774", "case 2"),
        ("load rising to one end: sag", SIMPLE, "rising", "w_max", sag, "0.01304", "case 2"),
        ("load rising to one end: sag's place", SIMPLE, "rising", "w_max_at", L, "0.5193",
         "case 2"),
        ("mid-span load: sag", PROPPED, "centre", "w_max", sag, "0.009317", "case 13"),
    ):  # fmt: skip
        yield Case(
            name=f"beam, {ends}, {name}",
            reference=reference,
            ours=partial(most, ends, load, what, over),
            kind=FROM_MEMORY,
            source=aisc + source,
        )
    yield Case(
        name="beam, clamped, load rising to one end: sag",
        reference="0.001309",
        # total load w L, rising to 2 w: the table's load is the highest, half of which is the mean
        ours=partial(most, CLAMPED, "rising", "w_max", 2 * sag),
        kind=FROM_MEMORY,
        source=roark + "case 2d, y over w_a l^4 / EI",
    )
    yield Case(
        name="beam, clamped, load rising to one end: sag's place",
        reference="0.525",
        ours=partial(most, CLAMPED, "rising", "w_max_at", L),
        kind=FROM_MEMORY,
        source=roark + "case 2d",
    )


def closed_single_spans() -> Iterator[Case]:
    textbook = "any textbook of beams (Gere, Mechanics of Materials, appendix)"

    def most(ends: str, load: str, what: str) -> float:
        return getattr(one_span(ends, load).extremes(), what)[0, 0]

    rows: tuple[tuple[str, str, str, str, float, str], ...] = (
        ("even load: moment", SIMPLE, "even", "M_max", w * L**2 / 8, "N mm"),
        ("even load: sag 5 w L4 / 384 EI", SIMPLE, "even", "w_max", 5 * w * L**4 / 384 / EI, "mm"),
        ("even load: moment over the clamp", PROPPED, "even", "M_min", -w * L**2 / 8, "N mm"),
        ("even load: moment in the span", PROPPED, "even", "M_max", 9 * w * L**2 / 128, "N mm"),
        ("even load: moment in the span", CLAMPED, "even", "M_max", w * L**2 / 24, "N mm"),
        ("load rising to one end: moment at the heavy end", CLAMPED, "rising", "M_min",
         -2 * w * L**2 / 20, "N mm"),
        ("load on the left half: moment", SIMPLE, "left half", "M_max", 9 * w * L**2 / 128,
         "N mm"),
        ("loads at the thirds: sag 23 P L3 / 648 EI", SIMPLE, "thirds", "w_max",
         23 * W * L**3 / 648 / EI, "mm"),
    )  # fmt: skip
    for name, ends, load, what, reference, unit in rows:
        yield Case(
            name=f"beam, {ends}, {name}",
            reference=reference,
            ours=partial(most, ends, load, what),
            unit=unit,
            kind=CLOSED_FORM,
            source=textbook,
        )


def propped_in_the_middle(stiffness: float) -> float:
    """Share of the load that a spring under the middle of a simple beam carries."""
    on_spring = Beam(
        length=L, support_at=[0.0, L / 2, L], EI=EI, support_stiffness=[np.inf, stiffness, np.inf]
    )
    return solve(on_spring, UNIFORM).reactions[0, 1] / W


TIMBER_BEAM = (
    "verification test timber_beam_test_01 of the finite-element program XC, 75 x 200 mm C24, "
    "after Benoit, Legrand and Tastet, Calcul de structures en bois, 2.3.1"
)


def timber_beam(load: float) -> float:
    """Sag of that joist of 4.5 m under an even load [N/mm]."""
    b, h, span, E, G = 75.0, 200.0, 4500.0, 11000.0, 690.0
    joist = Beam(length=span, support_at=[0.0, span], EI=E * b * h**3 / 12, GA=5 / 6 * G * b * h)
    return solve(joist, Loads.uniform(0, 0.0, span, load)).extremes().w_max[0, 0]


def special() -> Iterator[Case]:
    k = 40.0
    yield Case(
        name="beam, simple, on a spring in the middle, even load: the spring's share",
        reference=5 / 384 * L**3 / EI / (L**3 / (48 * EI) + 1 / k),
        ours=partial(propped_in_the_middle, k),
        kind=CLOSED_FORM,
        source="force method: sag of the beam without the spring over sags of beam and spring",
    )
    yield Case(
        name="two supports, overhangs for the least moment",
        reference="0.207",
        ours=lambda: best_overhang(2, moment_factor),
        kind=CLOSED_FORM,
        source="a^2 / 2 = (1 - 2 a)^2 / 8 - a^2 / 2: a = (sqrt 2 - 1) / 2",
    )
    yield Case(
        name="two supports, overhangs for the least sag",
        reference="0.223",
        ours=lambda: best_overhang(2),
        kind=FROM_MEMORY,
        source="Airy's and Bessel's points and their like: 0.2232 of the length, from memory",
    )
    for load, reference in ((0.75, "7.501048"), (1.0, "10.001397")):
        yield Case(
            name=f"joist of 4.5 m under {load:g} kN/m: sag with shear",
            reference=reference,
            ours=partial(timber_beam, load),
            unit="mm",
            kind=PUBLISHED,
            source=TIMBER_BEAM,
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from wood_handbook()
    yield from closed_single_spans()
    yield from printed_single_spans()
    yield from special()
