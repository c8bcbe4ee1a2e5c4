"""Tipping, sliding, lifting."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from math import atan, degrees

import numpy as np
from verification.case import CLOSED_FORM, PUBLISHED, Case

from shelfload.solve import lifting, tipping

LBF, INCH, G = 4.4482216152605, 25.4, 9.80665
# A chest of 40 kg, 450 deep, its centre 200 from the back and 350 up, feet edge at 430.
CHEST = ([40 * G], [200.0], [350.0], 430.0)
HOLDS = 40 * G * 230.0


def tip() -> Iterator[Case]:
    def margin(**loads: float) -> float:
        return float(tipping.tipping_margin(*tipping.tipping_moments(*CHEST, **loads)))

    lean = atan(0.43 * INCH / 430)
    c, s = np.cos(lean), np.sin(lean)
    child = {"P": 60 * LBF, "d": 300.0, "z_P": 400.0}
    by_hand = "statics, moments about the edge, worked in the row; loads of 16 CFR 1261"
    moments = tipping.tipping_moments(*CHEST, H=10 * LBF, h=800.0)
    rows = (
        ("chest pulled with 10 lbf at 800: margin", "-", HOLDS / (10 * LBF * 800),
         partial(margin, H=10 * LBF, h=800.0)),
        ("child of 60 lb on a drawer 300 out: margin", "-", HOLDS / (60 * LBF * 300),
         partial(margin, **child)),
        ("the same on a carpet block of 0.43 in: margin", "-",
         40 * G * (230 * c - 350 * s) / (60 * LBF * (300 * c + 400 * s)),
         partial(margin, **child, tilt=lean)),
        ("push at 800 that tips the chest", "N", HOLDS / 800,
         lambda: tipping.push_to_tip(HOLDS, 0.0, 800.0)),
        ("restraint at 700 for a margin of 3 against the pull", "N",
         (3 * 10 * LBF * 800 - HOLDS) / 700,
         lambda: tipping.restraint_force(*moments, 700.0, 3.0)),
        ("lean at which the chest tips by itself", "rad", atan(230 / 350),
         lambda: tipping.tilt_to_tip(*CHEST)),
    )  # fmt: skip
    for name, unit, reference, ours in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, kind=CLOSED_FORM, source=by_hand
        )
    yield Case(
        name="carpet block of 0.43 in under a base of 400: lean",
        reference="1.56",
        ours=lambda: degrees(float(tipping.tilt_by_block(0.43 * INCH, 400.0))),
        unit="degrees",
        kind=CLOSED_FORM,
        source="atan 10.92 / 400; the block of ASTM F2057-23 from memory",
    )
    yield Case(
        name="30 N push on 100 N, friction 0.4: share of what slides",
        reference=0.75,
        ours=lambda: tipping.sliding_ratio(30.0, 100.0, 0.4),
        kind=CLOSED_FORM,
        source="H / (mu N), Coulomb",
    )


def lift() -> Iterator[Case]:
    ccohs = "CCOHS, NIOSH lifting equation, worked example"
    page = "worked answer on a homework page: H 25, V 55, lifted to 150 cm"
    for name, unit, reference, ours, source in (
        ("load of the example: recommended limit", "kg", "11.4",
         lambda: lifting.recommended_weight_limit(0.80, 0.80, 0.86, 1, 1, 0.90), ccohs),
        ("hands 55 cm up: vertical multiplier", "-", "0.94",
         lambda: lifting.vertical_multiplier(550), page),
        ("lifted by 95 cm: distance multiplier", "-", "0.87",
         lambda: lifting.distance_multiplier(950), page),
        ("hands 25 cm out: horizontal multiplier", "-", 1.0,
         lambda: lifting.horizontal_multiplier(250), page),
        ("compact load: recommended limit", "kg", "15.72",
         lambda: lifting.recommended_weight_limit(1, 0.94, 0.87, 1, 0.88, 0.95), page),
    ):  # fmt: skip
        yield Case(
            name=f"lifting, {name}", reference=reference, ours=ours, unit=unit, kind=PUBLISHED,
            source=source,
        )  # fmt: skip
    yield Case(
        name="lifting, panel of 200 N tilted up about its foot, centre at 900 of 2000",
        reference=200 * 900 / 2000,
        ours=lambda: lifting.tilting_up_force(200.0, 900.0, 2000.0),
        unit="N",
        kind=CLOSED_FORM,
        source="statics, moments about the foot",
    )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from tip()
    yield from lift()
