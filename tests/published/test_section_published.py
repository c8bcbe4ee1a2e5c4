"""Composite sections against textbook examples.

"Gere": J. M. Gere, Mechanics of Materials, section 6.2 (composite beams), examples 6-1 and
6-2, quoted from memory. "Beer": Beer & Johnston, Mechanics of Materials, section on bending
of members made of several materials, quoted from memory. In their own units: sections have
no unit of their own.
"""

from __future__ import annotations

import numpy as np
import pytest
from printed import printed

from shelfload.solve.section import bonded, lying, plywood_layup, true_modulus


def test_gere_example_6_1_timber_on_a_steel_plate():
    # 4 x 6 in timber, E = 1500 ksi, over a 4 x 0.5 in plate, E = 30000 ksi; M = 60 kip in
    shape = bonded(E=[1500.0, 30000.0], G=1.0, b=4.0, h=[6.0, 0.5], y=0.0, z=[3.0, 6.25])
    top, bottom = 60e3 * shape.stress_top, 60e3 * shape.stress_bottom  # psi
    assert shape.z_na == printed("5.031")
    assert top[0] == pytest.approx(-1310, abs=5)  # printed to three figures
    assert bottom[0] == printed("251")
    assert bottom[1] == pytest.approx(7620, abs=5)  # printed to three figures
    assert top[1] == pytest.approx(5030, abs=5)  # printed to three figures


def test_gere_example_6_2_sandwich_of_aluminium_and_plastic():
    # Faces 200 x 5 mm, E = 72 GPa; core 150 mm, E = 800 MPa; M = 3.0 kN m
    shape = bonded(
        E=[72e3, 800.0, 72e3], G=1.0, b=200.0, h=[5.0, 150.0, 5.0], y=0.0, z=[2.5, 80.0, 157.5]
    )
    assert 3.0e6 * shape.stress_bottom[2] == printed("19.0")
    assert 3.0e6 * shape.stress_top[0] == printed("-19.0")
    assert 3.0e6 * shape.stress_bottom[1] == printed("0.198")


def test_beer_example_steel_between_brass():
    # Side by side, 3 in deep: brass 0.4, steel 0.75, brass 0.4 in; E = 15e6, 29e6 psi;
    # M = 40 kip in. Transformed section 2.25 in wide: 11.85 ksi in brass, 22.9 ksi in steel
    shape = bonded(
        E=[15e6, 29e6, 15e6], G=1.0, b=[0.4, 0.75, 0.4], h=3.0, y=[0.2, 0.775, 1.35], z=1.5
    )
    assert 40.0 * shape.stress_bottom[0] == printed("11.85")
    assert 40.0 * shape.stress_bottom[1] == printed("22.9")


def test_rectangle_has_five_sixths_of_its_area_for_shear():
    # Any textbook: shape factor 6/5, peak shear stress 3/2 V / A
    shape = bonded(E=[9000.0], G=[600.0], b=[300.0], h=[18.0], y=[0.0], z=[9.0])
    assert pytest.approx(5 / 6 * 600 * 300 * 18, rel=1e-14) == shape.GA
    assert shape.shear_peak == pytest.approx(1.5 / (300 * 18), rel=1e-14)


def test_sandwich_with_thin_faces_shears_in_its_core():
    # Allen, Analysis and Design of Structural Sandwich Panels, chapter 2 (from memory):
    # GA -> G b d^2 / c for thin stiff faces on a weak core, d between face centres, c core
    t, c, b, G = 1e-3, 40.0, 300.0, 50.0
    d = c + t
    shape = bonded(E=[7e4, 1e-3, 7e4], G=[3e4, G, 3e4], b=b, h=[t, c, t], y=0, z=[0, d / 2, d])
    assert pytest.approx(G * b * d**2 / c, rel=1e-4) == shape.GA  # faces not quite thin


def test_two_panels_glued_are_four_times_as_stiff_as_lying():
    # 2^3 against 2: common practice, from the second moment of area
    parts = {"E": [9000.0, 9000.0], "G": 600.0, "b": 300.0, "h": 18.0}
    glued = bonded(**parts, y=0.0, z=[9.0, 27.0])
    loose = lying(**parts)
    assert pytest.approx(4 * loose.EI, rel=1e-14) == glued.EI
    assert pytest.approx(2 * 5 / 6 * 600 * 300 * 18, rel=1e-14) == loose.GA


def test_glue_line_of_two_equal_panels_carries_three_halves_of_the_mean():
    # Any textbook: VQ/I at the middle of a rectangle is 1.5 V / h
    glued = bonded(E=[9000.0, 9000.0], G=600.0, b=300.0, h=18.0, y=0.0, z=[9.0, 27.0])
    assert glued.glue_flow([True, False]) == pytest.approx(1.5 / 36, rel=1e-14)


def test_three_equal_plies():
    # Along: 26/27 of the volume's share of I lies in the faces (any textbook on plywood)
    along, across = plywood_layup(13000.0, 500.0, [4.0, 4.0, 4.0])
    assert along == pytest.approx((26 * 13000 + 500) / 27, rel=1e-14)
    assert across == pytest.approx((13000 + 26 * 500) / 27, rel=1e-14)


def test_wood_handbook_modulus_rises_by_about_ten_percent():
    # Wood Handbook, FPL-GTR-282, chapter 5 (from memory): add 10 % to remove shear, for its
    # test at span/depth 14; for E / G = 16, common practice for softwood
    E = 12000.0
    assert true_modulus(E, E / 16) / E == pytest.approx(1.10, abs=0.015)  # "about 10 %"


def test_true_modulus_gives_the_sag_of_the_test_back():
    # Wood Handbook, table 9-1: w = P L^3 / 48 EI + P L / (4 G A'), A' = 5 b h / 6
    b, h, P = 20.0, 20.0, 300.0
    L, G, E_apparent = 14 * h, 700.0, 11000.0
    E = true_modulus(E_apparent, G)
    second_moment = b * h**3 / 12
    sag = P * L**3 / (48 * E * second_moment) + P * L / (4 * G * 5 / 6 * b * h)
    assert sag == pytest.approx(P * L**3 / (48 * E_apparent * second_moment), rel=1e-12)


def test_unsymmetric_bending_of_an_angle_section():
    # Equal angle 100 x 100 x 10: axes of symmetry at 45 degrees, so that
    # EI_free = 2 I_u I_v / (I_u + I_v), any textbook on unsymmetric bending
    shape = bonded(E=[1.0, 1.0], G=1.0, b=[10.0, 90.0], h=[100.0, 10.0], y=[5, 55], z=[50, 95])
    area = np.array([1000.0, 900.0])
    y, z = np.array([5.0, 55.0]), np.array([50.0, 95.0])
    y, z = y - area @ y / area.sum(), z - area @ z / area.sum()
    product = area @ (y * z)
    I_u, I_v = shape.EI + abs(product), shape.EI - abs(product)
    assert shape.EI_free == pytest.approx(2 * I_u * I_v / (I_u + I_v), rel=1e-12)
