"""Floors: sheets over joists under a load that moves, joists under a part load."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from importlib.metadata import version

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, Case

from shelfload.solve import floor, joist


def sheets() -> Iterator[Case]:
    influence = "influence lines of equal spans, as tabulated in handbooks, from memory"
    for spans, what, reference in (
        (2, "sagging", "0.2074"),
        (2, "hogging", "0.0962"),
    ):
        yield Case(
            name=f"sheet over {spans} spans, load at its worst: {what} moment over P L",
            reference=reference,
            ours=lambda spans=spans, what=what: getattr(floor.point_load_factors(spans), what),
            kind=FROM_MEMORY,
            source=influence,
        )
    for what, reference in (("sagging", 1 / 4), ("deflection", 1 / 48)):
        yield Case(
            name=f"sheet over one span, load in its middle: {what} factor",
            reference=reference,
            ours=lambda what=what: getattr(floor.point_load_factors(1), what),
            kind=CLOSED_FORM,
            source="P L / 4 and P L^3 / 48 EI, any table of beams",
        )

    def by_pycba(spans: int, what: str) -> float:
        """Move a load of 1 over the first of equal spans of 1."""
        import pycba  # here: only these rows pay for it

        most = 0.0
        for at in np.linspace(0.3, 0.7, 201):
            free = [-1, 0] * (spans + 1)
            analysis = pycba.BeamAnalysis(
                np.ones(spans), np.ones(spans), free, [[1, 2, 1.0, float(at)]]
            )
            analysis.analyze(npts=20)
            found = analysis.beam_results.vRes
            if what == "hogging":
                most = max(most, abs(float(found[1].M[1])))
            else:
                # Under the load the moment is that of the first span less its share over the
                # support.
                over = abs(float(found[1].M[1]))
                most = max(most, float(at) * (1 - float(at)) - float(at) * over)
        return most

    for what in ("sagging", "hogging"):
        yield Case(
            name=f"sheet over three spans, load at its worst: {what} moment over P L",
            reference=partial(by_pycba, 3, what),
            ours=lambda what=what: getattr(floor.point_load_factors(3), what),
            within=1e-5,
            kind=LIBRARY,
            source=f"pycba {version('pycba')}, the load at 201 places",
        )
    yield Case(
        name="load 100 wide, 200 from the support of a 400 span: width of slab that helps",
        reference=100 + 2.4 * 200 * 0.5,
        ours=lambda: floor.effective_width(100.0, 200.0, 400.0, 2.4),
        unit="mm",
        kind=FROM_MEMORY,
        source="BS 8110-1:1997, 3.5.2.2, from memory: 1.2 x (1 - x / l) on either side",
    )


def joists() -> Iterator[Case]:
    L, EI, w, c = 3600.0, 3e11, 1.2, 900.0
    W = w * c
    middle = (L - c) / 2
    end_R = w * c * (L - c / 2) / L
    table = "table of simple beams with part loads (AISC table 3-23), worked in the row"
    for name, unit, reference, ours in (
        ("load over 900 in the middle: moment", "N mm", W / 4 * (L - c / 2),
         partial(joist.joist_moment, 0.0, w, middle, c, L)),
        ("load over 900 in the middle: sag", "mm",
         W * (8 * L**3 - 4 * L * c**2 + c**3) / (384 * EI),
         partial(joist.joist_deflection, 0.0, w, middle, c, L, EI)),
        ("load over 900 at one end: shear", "N", end_R,
         partial(joist.joist_shear, 0.0, w, 0.0, c, L)),
        ("load over 900 at one end: moment", "N mm", end_R**2 / (2 * w),
         partial(joist.joist_moment, 0.0, w, 0.0, c, L)),
        ("even load: sag", "mm", 5 * 0.8 * L**4 / (384 * EI),
         partial(joist.joist_deflection, 0.8, 0.0, 0.0, c, L, EI)),
    ):  # fmt: skip
        yield Case(
            name=f"joist of 3.6 m, {name}", reference=reference, ours=ours, unit=unit, within=1e-8,
            kind=CLOSED_FORM, source=table,
        )  # fmt: skip
    yield Case(
        name="body of 1000 N, 100 off the middle of three joists at 400: the most loaded takes",
        reference=1000 / 3 + 1000 * 100 * 400 / (2 * 400**2),
        ours=lambda: joist.shared_by_joists(1000.0, 100.0, [-400.0, 0.0, 400.0])[2],
        unit="N",
        kind=CLOSED_FORM,
        source="equal springs under a rigid bar, W / n + W e y / sum y^2",
    )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from sheets()
    yield from joists()
