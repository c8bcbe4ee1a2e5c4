"""Uprights of whole units: buckling by EN 1995-1-1, 6.3.2 worked by hand, and its properties."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
from described import PER_AREA, G, findings, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload import tables
from shelfload.check.uprights import (
    BORROWED_COMPRESSION,
    compression_strength,
    stiffness_05,
    weak_bending,
)


def test_side_under_half_a_load_by_hand():
    found = findings(unit(heights=(1000, 300), loads=(0, 100)))
    check = the(found, "level 1", "uprights buckle")
    # N at the foot of the lower side: half of shelf 1 and top (966 mm each, with 6 mm of
    # bearing), both sides above, half of 100 kg
    dead = PER_AREA * 300 * (966 + 1000 + 300)
    N = 1.35 * dead + 1.5 * 50 * G
    # the shelf on top of it hands over 50 kg and half its board, 7 mm beside the axis
    added = 1.35 * PER_AREA * 300 * (966 / 2 + 1000) + 1.5 * 50 * G
    M = added * (10 - 3)
    # no compression strength: half of 30 MPa; E 10000 less 1.645 x 20 %; beta_c 0.2
    f_c_k, E_05 = 15.0, 10000 * (1 - 1.645 * 0.2)
    rel = 1000 * sqrt(12) / 20 / pi * sqrt(f_c_k / E_05)
    k = 0.5 * (1 + 0.2 * (rel - 0.3) + rel**2)
    k_c = 1 / (k + sqrt(k**2 - rel**2))
    f_c_d, f_m_d = f_c_k * 0.7 / 1.2, 30 * 0.7 / 1.2
    ratio = N / (20 * 300) / (k_c * f_c_d) + M / (300 * 20**2 / 6) / f_m_d
    # the frame on centre lines has slightly longer shelves than the clear ones: 3 in 1000
    assert ratio <= check.value <= 1.003 * ratio


def test_foot_presses_on_the_panel_below_by_hand():
    found = findings(unit(heights=(300, 300), bays=(460, 460), loads=(0, 40), base="plinth"))
    check = the(found, "level 1", "uprights press")
    # divider under both bays: half of 40 kg in each of two bays meets there
    assert check.governs.startswith("divider 1")
    dead = PER_AREA * 300 * (466 + 466 + 300 + 300)
    N = 1.35 * dead + 1.5 * 40 * G
    # the frame on centre lines has slightly longer shelves than the clear ones: 3 in 1000
    assert N / (20 * 300) <= check.value <= 1.003 * N / (20 * 300)


def test_borrowed_compression_is_below_every_board_that_has_both():
    both = [
        material
        for material in tables.materials().values()
        if material.f_c_0 is not None and material.kind not in ("solid", "glulam")
    ]
    assert len(both) > 20
    for material in both:
        assert material.f_c_0 > 0.7 * weak_bending(material)
    assert BORROWED_COMPRESSION < 0.7


def test_compression_of_clear_wood_and_of_a_strength_class():
    # white oak: mean 51.3 MPa (Wood Handbook), less 1.645 x 0.16 of it, a half for grade
    oak, c24 = (tables.material(name, 20.0).material for name in ("white-oak", "c24"))
    assert compression_strength(oak) == pytest.approx(51.3 * (1 - 1.645 * 0.16) / 2)
    for cov, taken in ((0.2, 0.2), (None, 0.16)):  # 0.16 where none is known: as the handbook
        other = replace(oak, cov_f=cov)
        assert compression_strength(other) == pytest.approx(51.3 * (1 - 1.645 * taken) / 2)
    assert compression_strength(c24) == 21.0  # characteristic, EN 338:2016


def test_stiffness_for_stability_is_never_the_mean():
    for material in tables.materials().values():
        assert 0.0 < stiffness_05(material) <= material.E_0


def used(thickness="20 mm", heights=(700, 300), load=60, **more):
    sides = {"material": "board", "thickness": thickness, **more}
    found = findings(unit(heights=heights, loads=(0, load), sides=sides))
    return the(found, "level 1", "uprights buckle").value


@settings(max_examples=15, deadline=None)
@given(t=st.integers(12, 40), more=st.integers(1, 10))
def test_thicker_side_is_never_used_more(t, more):
    assert used(f"{t + more} mm") <= used(f"{t} mm") * (1 + 1e-9)


@settings(max_examples=15, deadline=None)
@given(height=st.integers(300, 2000), more=st.integers(1, 500))
def test_taller_level_is_never_used_less(height, more):
    assert used(heights=(height + more, 300)) >= used(heights=(height, 300)) * (1 - 1e-9)


def test_doubled_side_glued_beats_the_same_lying():
    glued = used("12 mm", panels=2, joined="glued", load=200)
    lying = used("12 mm", panels=2, joined="lying", load=200)
    single = used("12 mm", load=200)
    assert glued < lying < single
