"""What time does: creep, duration of load, a shelf that is turned over."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from verification.beams import TIMBER_BEAM, timber_beam
from verification.case import CLOSED_FORM, PUBLISHED, Case

from shelfload import tables
from shelfload.solve.creep import crept, set_left, turned_over, turned_until

EN = "EN 1995-1-1:2004, "


def factors() -> Iterator[Case]:
    for name, service_class, reference in (
        ("solid timber", 1, 0.6),
        ("plywood", 1, 0.8),
        ("OSB/3", 1, 1.5),
        ("particleboard P4", 1, 2.25),
        ("MDF.LA", 1, 2.25),
        ("solid timber", 3, 2.0),
    ):
        yield Case(
            name=f"creep factor of {name}, service class {service_class}",
            reference=reference,
            ours=lambda name=name, n=service_class: tables.kdef(name, n).value,
            kind=PUBLISHED,
            source=EN + "table 3.2",
        )

    def k_mod(service_class: int, duration: str) -> float:
        return tables.kmod("solid timber", service_class, duration).value

    def gamma_M() -> float:
        return tables.gamma_M("solid timber").value

    xc = "verification test test_EC5Wood_03 of the finite-element program XC"
    yield Case(
        name="C18 across the grain, permanent load, service class 3: design strength",
        reference="0.8461538",
        ours=lambda: 2.2 * k_mod(3, "permanent") / gamma_M(),
        unit="MPa",
        kind=PUBLISHED,
        source=xc,
    )
    yield Case(
        name="joist of 4.5 m, 0.5 and 1.5 kN/m2 at 500 mm: bending utilisation",
        reference="0.4557329",
        ours=lambda: (
            500 * (1.35 * 0.5e-3 + 1.5 * 1.5e-3) * 4500**2 / 8 / (75 * 200**2 / 6)
            / (1.1 * 24 * k_mod(1, "medium-term") / gamma_M())
        ),
        kind=PUBLISHED,
        source=TIMBER_BEAM + "; C24, k_sys 1.1, medium-term",
    )  # fmt: skip
    yield Case(
        name="joist of 4.5 m, 0.57 and a share 0.3 of 1.5 kN/m2 at 500 mm: sag that creep adds",
        reference="3.060428",
        ours=lambda: timber_beam(
            tables.kdef("solid timber", 1).value * 500 * (0.57e-3 + 0.3 * 1.5e-3)
        ),
        unit="mm",
        kind=PUBLISHED,
        source=TIMBER_BEAM,
    )


def steps() -> Iterator[Case]:
    k_def, full, m = 0.8, 10.0, 0.25
    source = "superposition of load steps, k_def (t / 10 years)^(1/4), worked in the row"

    def c(t: float) -> float:
        return k_def * min(t / full, 1.0) ** m

    law = (k_def, full, m)
    for name, unit, reference, ours in (
        ("creep after 10 / 16 years", "-", k_def * 0.5, partial(crept, full / 16, *law)),
        ("turned over after 5 years: at once", "-", 1 - c(5), partial(turned_over, 0.0, 5.0, *law)),
        ("turned over after 5 years: 3 years later", "-", 1 + 2 * c(3) - c(8),
         partial(turned_over, 3.0, 5.0, *law)),
        ("unloaded after 5 years: a year later", "-", c(6) - c(1),
         partial(set_left, 1.0, 5.0, *law)),
        ("turned over after 10 years: years until it sags as new", "years",
         full * 0.5**4, partial(turned_until, 1.0, 10.0, *law)),
    ):  # fmt: skip
        yield Case(
            name=f"shelf, {name}", reference=reference, ours=ours, unit=unit, within=1e-8,
            kind=CLOSED_FORM, source=source,
        )  # fmt: skip


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from factors()
    yield from steps()
