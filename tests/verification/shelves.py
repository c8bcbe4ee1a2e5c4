"""Whole shelves through the whole program: described, idealised, solved, checked."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial

from described import PER_AREA, G, findings
from verification.case import CLOSED_FORM, PUBLISHED, Case

from shelfload.describe.reader import read_raw
from shelfload.idealise.whole import idealise
from shelfload.solve.beam import envelope

# Architectural Woodwork Standards 2009, shelf table: simply supported, even load, sag span / 144.
AWS = (
    # E [psi], thickness [in], load [psf], printed span [in]
    (950_000, "3/4", 40, 40),
    (950_000, "3/4", 50, 37),
    (950_000, "1", 40, 53),
    (950_000, "1", 50, 49),
    (1_800_000, "3/4", 40, 49),
    (1_800_000, "3/4", 50, 46),
    (1_800_000, "1", 40, 66),
    (1_800_000, "1", 50, 61),
    (1_820_000, "3/4", 40, 49),
    (1_820_000, "3/4", 50, 46),
)


def sag_over_limit(E: float, thickness: str, load: float, span: float) -> float:
    """First-day sag of a shelf over a 144th of its span [in]."""
    raw = {
        # AWS leaves out shear and self-weight: a stiff web, and no mass worth the name
        "materials": {
            "sheet": {
                "kind": "plywood",
                "density": "50 kg/m3",
                "E": f"{E} psi",
                "G": "900 GPa",
                "source": "AWS 2009",
            }
        },
        "shelf": [
            {
                "name": "shelf",
                "depth": "12 in",
                "spans": [f"{span - 0.004} in"],
                "shelf": {"material": "sheet", "thickness": f"{thickness} in", "bearing": "0.1 mm"},
                "contents": {"load": f"{load} psf"},
            }
        ],
    }
    description = read_raw(raw)
    (beam,) = idealise(description.project, description.catalogue).beams
    found = envelope(beam.result, beam.weights({"contents": 1.0}), beam.weights({}))
    return float(found.extremes.w_max[0]) / (span * 25.4 / 144)


def architectural_woodwork() -> Iterator[Case]:
    def span_that_sags_so(E: float, thickness: str, load: float, near: float) -> float:
        """Sag over the limit grows with the cube of the span: one step of that is exact."""
        span = float(near)
        for _ in range(2):
            span /= sag_over_limit(E, thickness, load, span) ** (1 / 3)
        return span

    for E, thickness, load, span in AWS:
        yield Case(
            name=f"shelf of {thickness} in, E {E} psi, {load} psf: span that sags a 144th",
            reference=str(span),
            ours=partial(span_that_sags_so, E, thickness, load, span),
            within=1 / span,
            because="most spans are cut to a whole inch",
            unit="in",
            kind=PUBLISHED,
            source="Architectural Woodwork Standards 2009, shelf table",
        )


# 20 mm of E 10000, G 500, plywood for creep (k_def 0.8), 900 by 300 on 0.1 mm at each end.
SPAN, DEPTH = 900.1, 300.0


@cache
def plain() -> object:
    shelf = {
        "name": "shelf",
        "depth": f"{DEPTH} mm",
        "spans": ["900 mm"],
        "shelf": {"material": "board", "thickness": "20 mm", "bearing": "0.1 mm"},
        "contents": {"load": "30 kg/m"},
    }
    return findings(shelf=[shelf])


def by_hand() -> Iterator[Case]:
    load = 30 * G / 1000 * 900 / SPAN  # N/mm on the clear span, as if spread over the span
    own = PER_AREA * DEPTH
    W = DEPTH * 20**2 / 6
    EI, GA = 10000 * DEPTH * 20**3 / 12, 5 / 6 * 500 * DEPTH * 20
    sag = 5 * (load + own) * SPAN**4 / (384 * EI) + (load + own) * SPAN**2 / (8 * GA)

    def value(question: str) -> float:
        (found,) = [check for check in plain().checks if check.question.startswith(question)]
        return found.value

    source = "simple span, EN 1990 (6.10) and EN 1995-1-1:2004, 2.2.3, worked in the row"
    # The contents leave 0.05 mm at each end of the span free.
    for name, question, unit, reference in (
        ("sag after years", "sag", "mm", sag * 1.8),
        ("bending stress", "bending", "MPa", (1.5 * load + 1.35 * own) * SPAN**2 / 8 / W),
        ("shear stress", "rolling shear", "MPa",
         1.5 * (1.5 * load + 1.35 * own) * SPAN / 2 / (DEPTH * 20)),
    ):  # fmt: skip
        yield Case(
            name=f"shelf of 900 x 300 x 20 under 30 kg/m: {name}", reference=reference,
            ours=partial(value, question), unit=unit, within=2e-4, kind=CLOSED_FORM, source=source,
        )  # fmt: skip


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from architectural_woodwork()
    yield from by_hand()
