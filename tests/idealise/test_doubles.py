"""Screwed doubles: between loose and glued, and the force that their screws carry."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload import tables
from shelfload.idealise.doubles import (
    PanelOfDouble,
    double_slip,
    half_gain_spacing,
    screwed_double,
)

UPPER = PanelOfDouble(E=9000.0, width=300.0, thickness=12.0)
LOWER = PanelOfDouble(E=4000.0, width=300.0, thickness=18.0)
sizes = st.floats(6.0, 40.0)
moduli = st.floats(1500.0, 14000.0)


def test_limits_are_loose_panels_and_one_glued_section():
    found = screwed_double(UPPER, LOWER, span=900.0, slip_modulus=1500.0, spacing=100.0)
    # two panels apart, and the composite section about its own axis (parallel axis theorem)
    EI = 9000 * 300 * 12**3 / 12 + 4000 * 300 * 18**3 / 12
    EA_1, EA_2 = 9000 * 300 * 12, 4000 * 300 * 18
    assert found.EI_lying == pytest.approx(EI, rel=1e-12)
    glued = EI + EA_1 * EA_2 / (EA_1 + EA_2) * 15.0**2
    assert found.EI_glued == pytest.approx(glued, rel=1e-12)


def test_gamma_and_force_by_hand():
    # EN 1995-1-1, Annex B: (B.5), (B.6), (B.1), (B.10), worked step by step
    found = screwed_double(UPPER, LOWER, span=900.0, slip_modulus=1500.0, spacing=100.0)
    E_1, A_1, E_2, A_2 = 9000.0, 3600.0, 4000.0, 5400.0
    g = 1 / (1 + np.pi**2 * E_1 * A_1 * 100 / (1500 * 900**2))
    a_2 = g * E_1 * A_1 * 30 / (2 * (g * E_1 * A_1 + E_2 * A_2))
    a_1 = 15 - a_2
    EI = found.EI_lying + g * E_1 * A_1 * a_1**2 + E_2 * A_2 * a_2**2
    assert found.gamma[0] == pytest.approx(g, rel=1e-12)
    assert found.EI[0] == pytest.approx(EI, rel=1e-12)
    assert found.force_per_shear[0] == pytest.approx(g * E_1 * A_1 * a_1 * 100 / EI, rel=1e-12)


def test_close_rigid_screws_carry_the_shear_flow_of_glue():
    same = PanelOfDouble(E=9000.0, width=300.0, thickness=12.0)
    found = screwed_double(same, same, span=900.0, slip_modulus=1e12, spacing=50.0)
    # V S / I s of a solid rectangle at mid-height: 3 V / (2 h) over 24 mm
    assert found.force_per_shear[0] == pytest.approx(1.5 / 24.0 * 50.0, rel=1e-6)


@given(moduli, sizes, moduli, sizes, st.floats(300.0, 1500.0), st.floats(300.0, 5000.0))
def test_closer_screws_are_never_less_stiff(E_1, t_1, E_2, t_2, span, K):
    upper = PanelOfDouble(E=E_1, width=300.0, thickness=t_1)
    lower = PanelOfDouble(E=E_2, width=300.0, thickness=t_2)
    spacing = np.array([25.0, 50.0, 100.0, 200.0, 400.0])
    found = screwed_double(upper, lower, span=span, slip_modulus=K, spacing=spacing)
    assert np.all(np.diff(found.EI) <= 0.0)
    assert np.all(found.EI >= found.EI_lying * (1 - 1e-12))
    assert np.all(found.EI <= found.EI_glued * (1 + 1e-12))
    turned = screwed_double(lower, upper, span=span, slip_modulus=K, spacing=spacing)
    assert turned.EI == pytest.approx(found.EI, rel=1e-9)


@given(moduli, sizes, moduli, sizes, st.floats(300.0, 1500.0), st.floats(300.0, 5000.0))
def test_half_gain_spacing_gives_half_of_what_glue_adds(E_1, t_1, E_2, t_2, span, K):
    upper = PanelOfDouble(E=E_1, width=300.0, thickness=t_1)
    lower = PanelOfDouble(E=E_2, width=300.0, thickness=t_2)
    table = screwed_double(upper, lower, span=span, slip_modulus=K, spacing=[50.0, 100.0, 300.0])
    s = half_gain_spacing(table)
    there = screwed_double(upper, lower, span=span, slip_modulus=K, spacing=s)
    half = (there.EI_lying + there.EI_glued) / 2
    assert there.EI[0] == pytest.approx(half, rel=1e-6)


def test_two_rows_count_as_half_the_spacing():
    one = screwed_double(UPPER, LOWER, span=900.0, slip_modulus=1500.0, spacing=50.0)
    two = screwed_double(UPPER, LOWER, span=900.0, slip_modulus=1500.0, spacing=100.0, rows=2)
    assert two.EI[0] == pytest.approx(one.EI[0], rel=1e-12)
    assert two.force_per_shear[0] == pytest.approx(one.force_per_shear[0], rel=1e-12)


def test_slip_by_table_7_1_and_none_where_the_code_has_none():
    ply = tables.material("birch-plywood", 18.0).material
    spruce = tables.material("c24", 45.0).material
    screw = tables.fasteners()["chipboard-screw-4"]
    # K_ser = rho_m^1.5 d / 23, rho_m the geometric mean, d_ef = 1.1 x 2.5 (Table 7.1, 8.7.1)
    by_hand = np.sqrt(685.0 * 420.0) ** 1.5 * 2.75 / 23
    assert double_slip(ply, spruce, screw, 0.0) == pytest.approx(by_hand, rel=1e-12)
    assert double_slip(ply, tables.material("mdf", 18.0).material, screw, 0.0) is None
