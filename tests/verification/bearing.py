"""What is under the ends: pressure across the grain, and slipping off."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from importlib.metadata import version

import numpy as np
from verification.case import CLOSED_FORM, LIBRARY, PUBLISHED, Case

from shelfload.solve import bearing

CLAUSE = "EN 1995-1-1:2004+A1, 6.1.5(1): up to 30 mm a side, not more than a, l or l_1 / 2"


def pressure() -> Iterator[Case]:
    for name, arguments, reference in (
        ("40 long at 10 from the end, next contact at 50", (40, 10, 1000, 50), 75.0),
        ("18 long in the middle", (18, 500, 500), 54.0),
        ("60 long at the end", (60, 0, 500), 90.0),
        ("60 long in the middle", (60, 500, 500), 120.0),
    ):
        yield Case(
            name=f"contact {name}: effective length",
            reference=reference,
            ours=partial(bearing.effective_bearing_length, *arguments),
            unit="mm",
            kind=CLOSED_FORM,
            source=CLAUSE + ", by hand",
        )
    ourocode = "regression figure of a public package for EN 1995-1-1 (ourocode), GL24h 100 x 300"

    def length() -> float:
        return float(bearing.effective_bearing_length(50.0, 50.0, 0.0, 7000.0))

    yield Case(
        name="30 kN on 50 x 100 of glulam, free end on one side: pressure",
        reference="3.75",
        ours=lambda: 30e3 / (100 * length()),
        unit="MPa",
        kind=PUBLISHED,
        source=ourocode,
    )
    yield Case(
        name="30 kN on 50 x 100 of glulam, f_c,90,d 1.6, k_c,90 1.75: utilisation",
        reference="1.339285714",
        ours=lambda: bearing.bearing_ratio(30e3, 100.0, length(), 1.6, 1.75),
        kind=PUBLISHED,
        source=ourocode,
    )
    yield Case(
        name="2400 N on 18 x 300, f_c,90,d 1.5, k_c,90 1.25: utilisation",
        reference=2400 / (18 * 300) / (1.25 * 1.5),
        ours=lambda: bearing.bearing_ratio(2400.0, 18.0, 300.0, 1.5, 1.25),
        kind=CLOSED_FORM,
        source="EN 1995-1-1:2004+A1, (6.3), by hand",
    )


def slipping() -> Iterator[Case]:
    sag, L = 12.0, 900.0

    def slope(x: float) -> float:
        # w = (16/5) (s - 2 s^3 + s^4) of the sag, s = x / L: a simple beam under an even load
        s = x / L
        return 16 / 5 * sag / L * (1 - 6 * s**2 + 4 * s**3)

    def by_quad() -> float:
        from scipy.integrate import quad

        return quad(lambda x: slope(x) ** 2 / 2, 0.0, L, epsabs=1e-12)[0]

    yield Case(
        name="shelf of 900 that sags 12: its ends come closer by",
        reference=by_quad,
        ours=partial(bearing.uniform_shortening, sag, L),
        unit="mm",
        within=1e-6,
        kind=LIBRARY,
        source=f"scipy {version('scipy')}, quad over half the slope squared",
    )
    yield Case(
        name="shelf of 900 that sags 12: slope at its ends",
        reference=slope(0.0),
        ours=partial(bearing.uniform_end_slope, sag, L),
        unit="rad",
        kind=CLOSED_FORM,
        source="q L^3 / 24 EI over 5 q L^4 / 384 EI, any table of beams",
    )
    x = np.linspace(0, L, 20001)
    yield Case(
        name="parabola of 900 with a sag of 12: chord shorter by",
        reference=8 / 3 * sag**2 / L,
        ours=lambda: bearing.curve_shortening(x, 4 * sag * x * (L - x) / L**2),
        unit="mm",
        within=1e-6,
        kind=CLOSED_FORM,
        source="8 f^2 / 3 L, length of a flat parabola, any textbook on cables",
    )
    yield Case(
        name="ledge of 6 with a play of 2 under a shelf of 900: sag at which it slips off",
        reference=lambda: sag * np.sqrt(4.0 / by_quad()),
        ours=partial(bearing.sag_at_slip, 6.0, 2.0, L),
        unit="mm",
        within=1e-6,
        kind=LIBRARY,
        source=f"scipy {version('scipy')}, the same integral; it grows with the sag squared",
    )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from pressure()
    yield from slipping()
