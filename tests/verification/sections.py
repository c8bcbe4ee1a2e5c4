"""Sections and lay-ups, rigidly glued."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, PUBLISHED, Case

from shelfload.solve.measured import modulus_from_sag
from shelfload.solve.section import Section, bonded, lying, plywood_layup, true_modulus

GERE = "Gere, Mechanics of Materials, section 6.2, from memory: "
INCH, FOOT, POUND = 25.4, 304.8, 4.4482216152605


@cache
def timber_on_steel() -> Section:
    """4 x 6 in of timber over a plate of 4 x 0.5 in, E 1500 and 30000 ksi."""
    return bonded(E=[1500.0, 30000.0], G=1.0, b=4.0, h=[6.0, 0.5], y=0.0, z=[3.0, 6.25])


@cache
def sandwich() -> Section:
    """Faces of 200 x 5 mm, E 72 GPa, on 150 mm of 800 MPa."""
    return bonded(
        E=[72e3, 800.0, 72e3], G=1.0, b=200.0, h=[5.0, 150.0, 5.0], y=0.0, z=[2.5, 80.0, 157.5]
    )


@cache
def brass_and_steel() -> Section:
    return bonded(
        E=[15e6, 29e6, 15e6], G=1.0, b=[0.4, 0.75, 0.4], h=3.0, y=[0.2, 0.775, 1.35], z=1.5
    )


def textbooks() -> Iterator[Case]:
    def stress(shape: Section, edge: str, part: int, moment: float) -> float:
        return moment * float(getattr(shape, edge)[part])

    yield Case(
        name="timber on a steel plate: neutral axis", reference="5.031", unit="in",
        ours=lambda: float(timber_on_steel().z_na), kind=FROM_MEMORY, source=GERE + "example 6-1",
    )  # fmt: skip
    three = "printed to three figures"
    for name, reference, edge, part, within in (
        ("top of the timber", "-1310", "stress_top", 0, 0.004),
        ("bottom of the timber", "251", "stress_bottom", 0, None),
        ("bottom of the steel", "7620", "stress_bottom", 1, 0.0007),
        ("top of the steel", "5030", "stress_top", 1, 0.001),
    ):
        yield Case(
            name=f"timber on a steel plate, 60 kip in: {name}", reference=reference, unit="psi",
            ours=lambda edge=edge, part=part: stress(timber_on_steel(), edge, part, 60e3),
            within=within, because=three if within else "", kind=FROM_MEMORY,
            source=GERE + "example 6-1",
        )  # fmt: skip
    for name, reference, edge, part in (
        ("bottom face", "19.0", "stress_bottom", 2),
        ("core", "0.198", "stress_bottom", 1),
    ):
        yield Case(
            name=f"sandwich of aluminium and plastic, 3 kN m: {name}", reference=reference,
            ours=lambda edge=edge, part=part: stress(sandwich(), edge, part, 3e6), unit="MPa",
            kind=FROM_MEMORY, source=GERE + "example 6-2",
        )  # fmt: skip
    for name, reference, part in (("brass", "11.85", 0), ("steel", "22.9", 1)):
        yield Case(
            name=f"steel between brass, 40 kip in: {name}", reference=reference,
            ours=lambda part=part: stress(brass_and_steel(), "stress_bottom", part, 40.0),
            unit="ksi", kind=FROM_MEMORY,
            source="Beer and Johnston, Mechanics of Materials, members of several materials, "
            "from memory",
        )  # fmt: skip


def layered(plies: int, thickness: float, width: float, E: float, E_cross: float) -> Section:
    """Crosswise layers of one thickness, the outer ones along; across the grain E / 30."""
    along = np.arange(plies) % 2 == 0
    return bonded(
        E=np.where(along, E, E_cross / 30), G=np.where(along, 731.0, 56.3), b=width, h=thickness,
        y=0.0, z=thickness * (0.5 + np.arange(plies)),
    )  # fmt: skip


def layers() -> Iterator[Case]:
    for plies, reference in ((3, "1088"), (5, "4166"), (7, "10306")):
        yield Case(
            name=f"{plies} crosswise layers of 35 mm, E 11700 and 9000: EI of 1 m",
            reference=reference,
            ours=lambda plies=plies: float(layered(plies, 35.0, 1e3, 11700.0, 9000.0).EI) / 1e9,
            unit="10^9 N mm2",
            kind=FROM_MEMORY,
            source="ANSI/APA PRG 320, table A2, lay-ups E1, from memory",
        )

    def imperial() -> float:
        psi = POUND / INCH**2
        EI = layered(3, 1.375 * INCH, FOOT, 1.5e6 * psi, 1.4e6 * psi).EI
        return float(EI) / (POUND * INCH**2) / 1e6

    yield Case(
        name="3 crosswise layers of 1 3/8 in, E 1.5 and 1.4 million psi: EI of 1 ft",
        reference="102",
        ours=imperial,
        within=0.006,
        because="101.5: the standard's E is 1.5 after rounding",
        unit="10^6 lbf in2",
        kind=PUBLISHED,
        source="ANSI/APA PRG 320-2019, table A2, lay-up E2, quoted by a public calculation sheet",
    )

    @cache
    def burnt() -> Section:
        # The example leaves the cross layer out: next to nothing here, as it must hold together.
        return bonded(
            E=[11700.0, 1e-3, 11700.0], G=700.0, b=1e3, h=[35.0, 35.0, 26.0], y=0.0,
            z=[17.5, 52.5, 83.0],
        )  # fmt: skip

    clt = "Canadian CLT Handbook, example 8.5.10, as quoted in the tests of a public package"
    yield Case(
        name="layers of 35, 35 and 26 mm, middle one idle: neutral axis",
        reference="45.4",
        ours=lambda: float(burnt().z_na),
        unit="mm",
        kind=PUBLISHED,
        source=clt,
    )
    yield Case(
        name="layers of 35, 35 and 26 mm, middle one idle: EI of 1 m",
        reference="807.8",
        ours=lambda: float(burnt().EI) / 1e9,
        unit="10^9 N mm2",
        kind=PUBLISHED,
        source=clt,
    )
    for name, which, reference in (
        ("along", 0, (26 * 13000 + 500) / 27),
        ("across", 1, (13000 + 26 * 500) / 27),
    ):
        yield Case(
            name=f"three equal plies, E 13000 and 500: E {name} the face grain",
            reference=reference,
            ours=partial(lambda which: float(plywood_layup(13e3, 500.0, [4, 4, 4])[which]), which),
            unit="MPa",
            kind=CLOSED_FORM,
            source="26/27 of I lies in the faces, any textbook on plywood",
        )


def shear_and_loose() -> Iterator[Case]:
    parts = {"E": [9000.0, 9000.0], "G": 600.0, "b": 300.0, "h": 18.0}

    def glued() -> Section:
        return bonded(**parts, y=0.0, z=[9.0, 27.0])

    t, c, b, G = 1e-3, 40.0, 300.0, 50.0
    d = c + t
    rows = (
        ("rectangle: shear stiffness", "N", 5 / 6 * 600 * 300 * 18, None,
         lambda: float(bonded([9000.0], [600.0], [300.0], [18.0], [0.0], [9.0]).GA),
         "shape factor 6/5, any textbook"),
        ("rectangle: largest shear stress for 1 N", "MPa", 1.5 / (300 * 18), None,
         lambda: float(
             np.max(bonded([9000.0], [600.0], [300.0], [18.0], [0.0], [9.0]).shear_peak)
         ),
         "3/2 V / A, any textbook"),
        ("two panels glued: EI", "N mm2", 9000 * 300 * 36**3 / 12, None,
         lambda: float(glued().EI), "b h^3 / 12"),
        ("two panels lying: EI", "N mm2", 2 * 9000 * 300 * 18**3 / 12, None,
         lambda: float(lying(**parts).EI), "twice b h^3 / 12"),
        ("two panels glued: shear flow in the glue for 1 N", "1/mm", 1.5 / 36, None,
         lambda: float(glued().glue_flow([True, False])), "V Q / I, any textbook"),
        ("sandwich with thin faces: shear stiffness", "N", G * b * d**2 / c, 1e-4,
         lambda: float(bonded([7e4, 1e-3, 7e4], [3e4, G, 3e4], b, [t, c, t], 0, [0, d / 2, d]).GA),
         "Allen, Analysis and Design of Structural Sandwich Panels, chapter 2, from memory"),
        ("true E of a test at span / depth 14, E / G 16: over the apparent one", "-",
         1 / (1 - 1.2 * 16 / 14**2), None,
         lambda: float(true_modulus(12000.0, 750.0)) / 12000.0,
         "shear share 1.2 (E / G) (h / L)^2 of the sag under a mid-span load, any textbook"),
        ("offcut 100 x 18 over 500 mm, 4 N/mm at mid-span: E", "MPa",
         4.0 * 500**3 / (48 * 100 * 18**3 / 12), None,
         lambda: float(modulus_from_sag(4.0, 500.0, 100.0, 18.0, 0.0, "centre")),
         "P L^3 / 48 E I turned round, any textbook"),
    )  # fmt: skip
    for name, unit, reference, within, ours, source in rows:
        yield Case(
            name=name, reference=reference, ours=ours, within=within, unit=unit, kind=CLOSED_FORM,
            source=source,
        )  # fmt: skip


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from textbooks()
    yield from layers()
    yield from shear_and_loose()
