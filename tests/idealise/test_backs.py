"""What the back of a bay does for the rear edge of a shelf, by hand and at its limits."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Back
from shelfload.idealise.backs import BackHold, Sheet, back_hold, sheet_of

CATALOGUE = Catalogue()
SHELF = CATALOGUE.material("particleboard-p2", 19.0).material
SHEET = Sheet(height=400.0, span=919.0, clear=(919.0, 400.0))


def back(material="hardboard", thickness=3.2, fixed="nailed", spacing=100.0, **more):
    made = {"spacing": spacing, "diameter": None, "wall_spacing": None, "holds": "shelves"}
    made |= {"screws": None, **more}
    return Back.model_construct(material=material, thickness=thickness, fixed=fixed, **made)


def hold(one=None, sheet=SHEET, shelf=SHELF, service_class=1):
    return back_hold(one or back(), sheet, shelf, service_class, CATALOGUE)


def test_nailed_hardboard_by_hand():
    found = hold(back(diameter=2.0))
    # EN 1995-1-1:2004, Table 7.1, nails not predrilled: rho_m^1.5 d^0.8 / 30, rho_m from
    # (7.1); half of it, since the nails sit in edges of panels (own caution)
    rho = (950.0 * 660.0) ** 0.5
    K = 0.5 * rho**1.5 * 2.0**0.8 / 30.0
    shelf = 100.0 / K
    # the sheet as a deep beam of 3.2 x 400 over 919, E 3100, G 1300 (row of the table)
    bending = 5 * 919.0**4 / (384 * 3100.0 * 3.2 * 400.0**3 / 12)
    shear = 1.2 * 919.0**2 / (8 * 1300.0 * 3.2 * 400.0)
    # half of the line load to each upright, on 400 / 100 nails
    uprights = 919.0 / 2 / (4 * K)
    assert found.first_day.k_w == pytest.approx(1 / (shelf + bending + shear + uprights), rel=1e-9)
    # kdef 2.25 of hardboard and of particleboard P4 (Table 3.2), joint 2 x 2.25 (2.13)
    aged = 5.5 * (shelf + uprights) + 3.25 * (bending + shear)
    assert found.after_years.k_w == pytest.approx(1 / aged, rel=1e-9)
    assert found.first_day.k_turn == 0.0


def test_glued_back_has_no_slip_and_resists_turning():
    found = hold(back(material="birch-plywood", thickness=6.5, fixed="glued", spacing=None))
    row = CATALOGUE.material("birch-plywood", 6.5).material
    E, t = min(row.E_0, row.E_90), 6.4
    sheet = 5 * 919.0**4 / (32 * E * t * 400.0**3) + 1.2 * 919.0**2 / (8 * row.G_panel * t * 400)
    assert found.first_day.k_w == pytest.approx(1 / sheet, rel=1e-9)
    # strip clamped at the shelf and hinged at the next, 400 mm away: 3 E I / h
    assert found.first_day.k_turn == pytest.approx(3 * E * t**3 / 12 / 400.0, rel=1e-9)
    assert found.spacing is None


@given(st.floats(20.0, 400.0), st.sampled_from(["nailed", "screwed"]))
def test_fewer_fasteners_hold_less(spacing, fixed):
    close, wide = (hold(back(fixed=fixed, spacing=s)) for s in (spacing, 1.2 * spacing))
    assert close.first_day.k_w > wide.first_day.k_w
    assert close.after_years.k_w > wide.after_years.k_w
    assert close.first_day.k_w > close.after_years.k_w


def test_fasteners_ever_further_apart_hold_nothing_and_glue_is_their_limit():
    assert hold(back(spacing=1e9)).first_day.k_w < 1e-6
    glued = hold(back(fixed="glued", spacing=None)).first_day.k_w
    assert hold(back(spacing=1e-6)).first_day.k_w == pytest.approx(glued, rel=1e-6)


def test_back_fixed_to_the_wall_no_longer_spans_between_the_uprights():
    free, held = hold(), hold(back(wall_spacing=300.0))
    assert held.first_day.k_w > free.first_day.k_w
    wide = hold(back(wall_spacing=300.0), replace(SHEET, span=3000.0))
    assert wide.first_day.k_w == held.first_day.k_w


@pytest.mark.parametrize(
    ("one", "shelf", "words"),
    [
        (back(holds="edges"), SHELF, "round its edge only"),
        (back(), tables.material("mdf", 18.0).material, "no slip modulus"),
        (back(), replace(SHELF, duration_class="particleboard P4"), "no creep figure"),
    ],
)
def test_a_back_that_can_not_be_counted_says_why(one, shelf, words):
    found = hold(one, shelf=shelf, service_class=3 if words == "no creep figure" else 1)
    assert isinstance(found, str)
    assert words in found


def test_share_of_the_sheet_is_half_the_height_to_each_neighbour():
    assert sheet_of([400.0, 300.0], [600.0, 900.0]) == Sheet(
        height=350.0, span=900.0, clear=(900.0, 400.0)
    )


def test_described_screw_is_used_and_said_diameters_are_not_assumed():
    thin, thick = (hold(back(fixed="screwed", diameter=d)) for d in (3.0, 5.0))
    assert isinstance(thin, BackHold)
    assert isinstance(thick, BackHold)
    assert thick.first_day.k_w > thin.first_day.k_w
    assert not any("no diameter" in text for text in thick.said)
    assert any("no diameter" in text for text in hold().said)
