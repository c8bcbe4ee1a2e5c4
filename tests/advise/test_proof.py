"""A proof load: the shelf as described, stiffer ends, a softer sheet."""

from __future__ import annotations

import pytest

from shelfload.advise.proof import proven
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError
from shelfload.idealise.place import Place

PLACE = Place(unit="shelf")
E, G, DEPTH, THICK, CLEAR, BEARING = 9000.0, 200.0, 300.0, 18.0, 900.0, 20.0


def described():
    return read_raw(
        {
            "materials": {
                "sheet": {
                    "kind": "plywood", "density": "680 kg/m3", "E": f"{E} MPa", "G": f"{G} MPa",
                    "source": "test",
                }
            },
            "shelf": [
                {
                    "name": "shelf", "depth": f"{DEPTH} mm", "spans": [f"{CLEAR} mm"],
                    "shelf": {"material": "sheet", "thickness": f"{THICK} mm",
                              "bearing": f"{BEARING} mm"},
                }
            ],
        }
    )  # fmt: skip


def by_hand():
    """Sag of 1 N at mid-span, ends free and clamped: beam tables, with shear."""
    L, EI, GA = CLEAR + BEARING, E * DEPTH * THICK**3 / 12, G * DEPTH * THICK * 5 / 6
    return L**3 / (48 * EI) + L / (4 * GA), L**3 / (192 * EI) + L / (4 * GA)


def test_computed_sags_are_those_of_beam_tables():
    found = proven(described(), PLACE, [(200.0, 3.0)], spread="point")
    free, clamped = by_hand()
    assert found.free == pytest.approx(free, rel=1e-9)
    assert found.clamped == pytest.approx(clamped, rel=1e-9)


@pytest.mark.parametrize(
    ("times", "word", "expected"),
    [
        (1.0, "as free as assumed", True),
        (1.1, "as free as assumed", True),
        (0.4, "hold it more than assumed", True),
        (2.2, "softer than described", False),
    ],
)
def test_what_a_reading_means(times, word, expected):
    free, _ = by_hand()
    readings = [(P, P * free * times) for P in (200.0, 200.0, 400.0)]
    found = proven(described(), PLACE, readings, spread="point", sag_error=0.05)
    assert any(word in text for text in found.words)
    assert found.expected is expected


def test_share_of_clamping_is_between_the_two():
    free, clamped = by_hand()
    near = free / 4.0 + clamped * 3.0 / 4.0
    found = proven(described(), PLACE, [(400.0, 400.0 * near)], spread="point", sag_error=0.02)
    assert any("75% of the way to clamped" in text for text in found.words)


def test_too_little_load_tells_nothing_and_is_no_pass_for_a_soft_shelf():
    free, _ = by_hand()
    found = proven(described(), PLACE, [(5.0, 5.0 * free)], spread="point")
    assert any("Too little load" in text for text in found.words)
    assert not found.expected


def test_even_load_is_shared_over_the_bay():
    found = proven(described(), PLACE, [(200.0, 2.0)], spread="even")
    L, a = CLEAR + BEARING, CLEAR
    EI, GA = E * DEPTH * THICK**3 / 12, G * DEPTH * THICK * 5 / 6
    # load over the middle a of a span L (standard beam table, from memory), 1 N in all
    q = 1.0 / a
    expected = q * a * (8 * L**3 - 4 * a**2 * L + a**3) / (384 * EI) + q * a * (2 * L - a) / (
        8 * GA
    )
    assert found.free == pytest.approx(expected, rel=1e-9)


def test_unknown_place_is_refused():
    with pytest.raises(DescriptionError, match="--shelf"):
        proven(described(), Place(unit="shelf", bay="bay 7"), [(1.0, 1.0)])
