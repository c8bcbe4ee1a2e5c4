"""Which studs a rail meets: exact counts against brute force; shares by the lever rule."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.errors import Mechanism
from shelfload.solve import studs

# Whole millimetres, so that counting by hand has no rounding to argue about.
OFFSET, WIDTH, EDGE = st.integers(0, 3000), st.integers(0, 2400), st.integers(0, 60)
SPACING = st.sampled_from([400, 450, 600, 406.4, 609.6])
FIRST = st.integers(0, 700)


@pytest.mark.parametrize(
    ("width", "spacing", "least"),
    [
        # usable 860: 860/400 = 2.15, /450 = 1.91, /600 = 1.43; 16 in 406.4: 2.1; 24 in 609.6: 1.4
        (900, 400, 2),
        (900, 450, 1),
        (900, 600, 1),
        (900, 406.4, 2),
        (900, 609.6, 1),
        # usable 560 and 360
        (600, 600, 0),
        (400, 400, 0),
        # exactly two pitches: 1240 - 40 = 1200
        (1240, 600, 2),
    ],
)
def test_least_number_of_studs(width: float, spacing: float, least: int) -> None:
    assert studs.least_studs_met(width, spacing, 20) == least


def test_studs_met_by_hand() -> None:
    # Studs at 100, 550, 1000, 1450; rail 500 to 1400, edge 50: usable 550 to 1350 takes 550 (on
    # the limit) and 1000.
    assert studs.studs_met(500, 900, 450, 100, 50) == 2
    assert studs.stud_places(500, 900, 450, 100, 50) == pytest.approx([50, 500])
    # Nothing is counted before the first stud.
    assert studs.studs_met(0, 900, 450, 600, 20) == 1


@given(OFFSET, WIDTH, SPACING, FIRST, EDGE)
def test_count_agrees_with_going_along_the_wall(
    offset: int, width: int, spacing: float, first: int, edge: int
) -> None:
    # A tenth of a millimetre is the finest step of these spacings: count in whole tenths.
    tenths = np.rint((first + spacing * np.arange(40)) * 10).astype(int)
    inside = (tenths >= (offset + edge) * 10) & (tenths <= (offset + width - edge) * 10)
    assert studs.studs_met(offset, width, spacing, first, edge) == inside.sum()
    assert studs.stud_places(offset, width, spacing, first, edge).size == inside.sum()


@given(WIDTH, SPACING, EDGE)
def test_least_number_is_the_least_over_all_offsets(width: int, spacing: float, edge: int) -> None:
    # A row that starts far to the left; offsets in half-tenths miss the exact alignments too.
    offsets = 5000 + np.arange(0, spacing, 0.55)
    met = studs.studs_met(offsets, width, spacing, 0, edge)
    least = studs.least_studs_met(width, spacing, edge)
    assert met.min() >= least
    assert met.max() <= least + 1
    # The worst place starts just behind a stud.
    assert studs.studs_met(5 * spacing + 0.001 - edge, width, spacing, 0, edge) == least


@pytest.mark.parametrize(("width", "spacing", "edge"), [(900, 0, 20), (-1, 400, 20), (9, 400, -1)])
def test_nonsense_is_refused(width: float, spacing: float, edge: float) -> None:
    with pytest.raises(ValueError, match="spacing must be"):
        studs.studs_met(0, width, spacing, 0, edge)
    with pytest.raises(ValueError, match="spacing must be"):
        studs.least_studs_met(width, spacing, edge)


def test_rail_on_two_studs_by_hand_with_an_overhang() -> None:
    # Studs at 50 and 500, rail 650. 300 N at 200: right 300 x 150/450 = 100, left 200.
    # 90 N at 590, 90 beyond the last: right 90 x 540/450 = 108, left -18.
    # Moments: under the 300 N 182 x 150 = 27 300; over the right stud 90 x 90 = 8100.
    rail = studs.continuous_rail([300, 90], [200, 590], [50, 500], 650)
    assert rail.reactions == pytest.approx([182, 208])
    assert rail.moment == pytest.approx(27_300)


def test_rail_over_three_studs_gives_the_middle_one_more() -> None:
    # Two equal spans, a load at each middle: outer 5/16, middle 11/8 of a load; hogging 3/16 F s
    # (beam tables, AISC "beam, two equal spans, concentrated loads").
    rail = studs.continuous_rail([[200, 200], [200, 0]], [275, 725], [50, 500, 950], 1000)
    assert rail.reactions[0] == pytest.approx([200 * 5 / 16, 200 * 11 / 8, 200 * 5 / 16])
    assert rail.moment[0] == pytest.approx(200 * 450 * 3 / 16)
    # One load only: 13/32, 11/16, -3/32; moment under the load 13/64 F s.
    assert rail.reactions[1] == pytest.approx([200 * 13 / 32, 200 * 11 / 16, -200 * 3 / 32])
    assert rail.moment[1] == pytest.approx(200 * 450 * 13 / 64)


@given(
    st.lists(st.tuples(st.floats(1, 500), st.floats(0, 1)), min_size=1, max_size=5),
    st.lists(st.floats(50, 700), min_size=1, max_size=4),
)
def test_rail_is_in_equilibrium(loads: list[tuple[float, float]], gaps: list[float]) -> None:
    place = 40 + np.concatenate([[0.0], np.cumsum(gaps)])
    length = float(place[-1]) + 60
    F, x = np.array(loads).T
    R = studs.continuous_rail(F, x * length, place, length).reactions
    assert R.sum() == pytest.approx(F.sum(), rel=1e-9)
    assert (R * place).sum() == pytest.approx((F * x).sum() * length, abs=1e-9 * F.sum() * length)


def test_rail_on_one_stud_turns() -> None:
    with pytest.raises(Mechanism):
        studs.continuous_rail([1], [100], [100], 300)
