"""Shelf spans of the Architectural Woodwork Standards 2009, computed by the whole program.

AWS 2009, shelf table: simply supported, uniform load, first-day sag span / 144. The table
truncates most spans to a whole inch and rounds one (45.98 is printed as 46), so that one
inch either way is allowed.
"""

from __future__ import annotations

import pytest

from shelfload.describe.reader import read_raw
from shelfload.idealise.whole import idealise
from shelfload.solve.beam import envelope

ROWS = [
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
]


def sag_over_limit(E, thickness, load, span):
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


@pytest.mark.parametrize(("E", "thickness", "load", "printed_span"), ROWS)
def test_printed_span_lies_within_an_inch_of_where_sag_is_span_over_144(
    E, thickness, load, printed_span
):
    assert sag_over_limit(E, thickness, load, printed_span - 1) < 1.0
    assert sag_over_limit(E, thickness, load, printed_span + 1) > 1.0
