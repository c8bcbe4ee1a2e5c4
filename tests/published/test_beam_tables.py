"""Single-span and continuous beams against the usual tables.

Sources, all quoted from memory of the printed tables:

* "Roark": Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed., table 8.1.
* "AISC": AISC Steel Construction Manual, table 3-23, shears, moments and deflections.
* "Wood Handbook": FPL-GTR-282, table 9-1, in w = k_b W L^3 / (E I) + k_s W L / (G A').
* "continuous beam table": coefficients for equal spans under uniform load as printed in many
  handbooks, e.g. AISC table 3-22.

Coefficients that are fractions there are written as fractions and hold to rounding; the
decimals are compared to the printed digits.
"""

from __future__ import annotations

import numpy as np
import pytest
from printed import printed
from verification.beams import CENTRE, EI, GA, TABLE_9_1, UNIFORM, L, W, beam, w

from shelfload.solve.beam import Beam, Loads, envelope, solve

exact = pytest.approx


def simple(**kwargs):
    return Beam(**{"length": L, "support_at": [0.0, L], "EI": EI} | kwargs)


def clamped(**kwargs):
    return simple(turn_stiffness=np.inf, **kwargs)


def propped(**kwargs):
    return simple(turn_stiffness=[np.inf, 0.0], **kwargs)


@pytest.mark.parametrize(("name", "ends", "loads", "place", "k_b", "k_s"), TABLE_9_1)
def test_wood_handbook_table_9_1_sag(name, ends, loads, place, k_b, k_s):
    sag, _, _ = solve(beam(ends, GA=GA), loads).at(place)
    assert sag[0, 0] == exact(k_b * W * L**3 / EI + k_s * W * L / GA, rel=1e-11)


def test_aisc_case_1_simple_beam_uniform_load():
    result = solve(simple(), UNIFORM)
    most = result.extremes()
    assert result.reactions[0] == exact([W / 2, W / 2], rel=1e-12)
    assert most.M_max[0, 0] == exact(w * L**2 / 8, rel=1e-12)
    assert most.M_max_at[0, 0] == exact(L / 2, rel=1e-12)
    assert most.w_max[0, 0] == exact(5 * w * L**4 / (384 * EI), rel=1e-12)
    assert result.support_rotation[0] == exact(np.array([1, -1]) * w * L**3 / (24 * EI), rel=1e-12)


def test_aisc_case_2_simple_beam_load_rising_to_one_end():
    result = solve(simple(), Loads.linear(0, 0.0, L, 0.0, 2 * w))
    most = result.extremes()
    assert result.reactions[0] == exact([W / 3, 2 * W / 3], rel=1e-12)
    assert most.M_max_at[0, 0] / L == printed("0.5774")
    assert most.M_max[0, 0] / (W * L) == printed("0.1283")
    assert most.w_max_at[0, 0] / L == printed("0.5193")
    assert most.w_max[0, 0] * EI / (W * L**3) == printed("0.01304")


def test_roark_table_8_1_case_1e_load_off_centre():
    a = 0.25 * L
    b = L - a
    most = solve(simple(), Loads.point(0, b, W)).extremes()
    assert most.M_max[0, 0] == exact(W * a * b / L, rel=1e-12)
    assert most.w_max_at[0, 0] == exact(np.sqrt((L**2 - a**2) / 3), rel=1e-12)
    w_max = W * a * (L**2 - a**2) ** 1.5 / (9 * np.sqrt(3) * L * EI)
    assert most.w_max[0, 0] == exact(w_max, rel=1e-12)


def test_two_third_point_loads_as_in_a_four_point_bending_test():
    # AISC case 9 with a = L/3: P a (3 L^2 - 4 a^2) / 24 EI = 23 P L^3 / 648 EI, P each; shear
    # adds P a / GA (integration of the constant shear force)
    most = solve(simple(GA=GA), Loads.point(0, [L / 3, 2 * L / 3], W)).extremes()
    assert most.w_max[0, 0] == exact(23 * W * L**3 / (648 * EI) + W * L / (3 * GA), rel=1e-12)
    assert most.M_max[0, 0] == exact(W * L / 3, rel=1e-12)


def test_aisc_case_12_propped_cantilever_uniform_load():
    # The table measures from the propped end: w_max = w L^4 / 185 EI at 0.4215 L
    result = solve(propped(), UNIFORM)
    most = result.extremes()
    assert result.reactions[0] == exact([5 * W / 8, 3 * W / 8], rel=1e-12)
    assert most.M_min[0, 0] == exact(-w * L**2 / 8, rel=1e-12)
    assert most.M_max[0, 0] == exact(9 * w * L**2 / 128, rel=1e-12)
    assert most.M_max_at[0, 0] == exact(5 * L / 8, rel=1e-12)
    assert 1 - most.w_max_at[0, 0] / L == printed("0.4215")
    assert w * L**4 / (EI * most.w_max[0, 0]) == printed("185")


def test_aisc_case_13_propped_cantilever_load_at_the_centre():
    # From the propped end: R = 5 P / 16, w_max = 0.009317 P L^3 / EI at 0.4472 L
    result = solve(propped(), CENTRE)
    most = result.extremes()
    assert result.reactions[0] == exact([11 * W / 16, 5 * W / 16], rel=1e-12)
    assert result.support_moments[0] == exact([-3 * W * L / 16, 0.0], rel=1e-12)
    assert 1 - most.w_max_at[0, 0] / L == printed("0.4472")
    assert most.w_max[0, 0] * EI / (W * L**3) == printed("0.009317")


def test_aisc_case_15_clamped_beam_uniform_load():
    result = solve(clamped(), UNIFORM)
    most = result.extremes()
    assert result.support_moments[0] == exact(np.array([-1, 1]) * w * L**2 / 12, rel=1e-12)
    assert most.M_max[0, 0] == exact(w * L**2 / 24, rel=1e-12)
    assert most.w_max[0, 0] == exact(w * L**4 / (384 * EI), rel=1e-12)


def test_roark_table_8_1_case_1d_clamped_beam_load_off_centre():
    a = 0.3 * L
    result = solve(clamped(), Loads.point(0, a, W))
    left, right = W / L**3 * (L - a) ** 2 * (L + 2 * a), W / L**3 * a**2 * (3 * L - 2 * a)
    assert result.reactions[0] == exact([left, right], rel=1e-12)
    moments = [-W * a / L**2 * (L - a) ** 2, W * a**2 / L**2 * (L - a)]
    assert result.support_moments[0] == exact(moments, rel=1e-12)


def test_aisc_case_24_beam_overhanging_one_support_uniform_load():
    a = 0.4 * L
    beam = Beam(length=L + a, support_at=[0.0, L], EI=EI)
    result = solve(beam, Loads.uniform(0, 0.0, L + a, w))
    most = result.extremes()
    assert result.reactions[0, 0] == exact(w / (2 * L) * (L**2 - a**2), rel=1e-12)
    assert result.reactions[0, 1] == exact(w / (2 * L) * (L + a) ** 2, rel=1e-12)
    assert most.M_max[0, 0] == exact(w / (8 * L**2) * (L + a) ** 2 * (L - a) ** 2, rel=1e-12)
    assert most.M_min[0, 1] == exact(-w * a**2 / 2, rel=1e-12)
    tip, _, _ = result.at(L + a)
    w_tip = w * a / (24 * EI) * (4 * a**2 * L - L**3 + 3 * a**3)
    assert tip[0, 0] == exact(w_tip, rel=1e-11)


def test_aisc_case_26_load_at_the_end_of_an_overhang():
    a = 0.25 * L
    beam = Beam(length=L + a, support_at=[0.0, L], EI=EI)
    most = solve(beam, Loads.point(0, L + a, W)).extremes()
    assert most.w_max[0, 1] == exact(W * a**2 * (L + a) / (3 * EI), rel=1e-12)
    assert most.w_min[0, 0] == exact(-W * a * L**2 / (9 * np.sqrt(3) * EI), rel=1e-12)
    assert most.w_min_at[0, 0] == exact(L / np.sqrt(3), rel=1e-12)


def equal_spans(n):
    beam = Beam(length=n * L, support_at=L * np.arange(n + 1), EI=EI)
    bay = np.arange(n)
    return solve(beam, Loads.uniform(bay, bay * L, (bay + 1) * L, w))


def all_loaded(n):
    return equal_spans(n).combine(np.ones((1, n)))


def test_two_equal_spans_both_loaded():
    # AISC case 29 (one span loaded) and continuous beam table
    result = all_loaded(2)
    most = result.extremes()
    assert result.reactions[0] / W == exact([0.375, 1.25, 0.375], rel=1e-12)
    assert most.M_min[0, 0] == exact(-w * L**2 / 8, rel=1e-12)
    assert most.M_max[0, 0] / (w * L**2) == printed("0.0703")
    assert most.w_max[0, 0] * EI / (w * L**4) == printed("0.0054")
    assert most.w_max_at[0, 0] / L == printed("0.4215")


def test_two_equal_spans_one_loaded():
    # AISC case 29: 7/16, 5/8, -1/16; 49/512; 1/16; 0.0092 at 0.472 L
    result = equal_spans(2)
    most = result.extremes()
    assert result.reactions[0] == exact(W * np.array([7 / 16, 5 / 8, -1 / 16]), rel=1e-12)
    assert most.M_max[0, 0] == exact(49 / 512 * w * L**2, rel=1e-12)
    assert most.M_min[0, 0] == exact(-w * L**2 / 16, rel=1e-12)
    assert most.w_max[0, 0] * EI / (w * L**4) == printed("0.0092")
    assert most.w_max_at[0, 0] / L == printed("0.472")


def test_three_equal_spans_all_loaded():
    # continuous beam table: 0.4, 1.1, 1.1, 0.4; 0.08, 0.025, -0.1; 0.0069 at 0.446 L
    result = all_loaded(3)
    most = result.extremes()
    assert result.reactions[0] / W == exact([0.4, 1.1, 1.1, 0.4], rel=1e-12)
    assert most.M_max[0] / (w * L**2) == exact([0.08, 0.025, 0.08], rel=1e-11)
    assert most.M_min[0] / (w * L**2) == exact([-0.1, -0.1, -0.1], rel=1e-12)
    assert most.w_max[0, 0] * EI / (w * L**4) == printed("0.0069")
    assert most.w_max_at[0, 0] / L == printed("0.446")


def test_three_equal_spans_worst_patterns():
    # continuous beam table: outer spans loaded 0.1013 and 0.0099 at 0.479 L; middle span
    # 0.075; two neighbouring spans -0.1167 with 1.2 and 0.617
    worst = envelope(equal_spans(3), np.zeros(3), np.ones(3))
    most = worst.extremes
    assert most.M_max[0] / (w * L**2) == printed("0.1013")
    assert most.M_max[1] / (w * L**2) == printed("0.075")
    assert most.M_min[0] / (w * L**2) == printed("-0.1167")
    assert most.w_max[0] * EI / (w * L**4) == printed("0.0099")
    assert most.w_max_at[0] / L == printed("0.479")
    assert worst.reaction_max[1] / W == printed("1.200")
    assert most.V_abs_max[0] / W == printed("0.617")
    assert worst.patterns["w_max"].tolist() == [
        [True, False, True],
        [False, True, False],
        [True, False, True],
    ]
    assert worst.patterns["M_min"][0].tolist() == [True, True, False]
    assert worst.reaction_max_pattern[1].tolist() == [True, True, False]


def test_four_equal_spans_all_loaded():
    # continuous beam table: 0.393, 1.143, 0.929; -0.107, -0.071; 0.0772, 0.0364; 0.0065 at 0.440 L
    result = all_loaded(4)
    most = result.extremes()
    assert result.reactions[0, 0] / W == printed("0.393")
    assert result.reactions[0, 1] / W == printed("1.143")
    assert result.reactions[0, 2] / W == printed("0.929")
    assert most.M_min[0, 0] / (w * L**2) == printed("-0.107")
    assert most.M_min[0, 1] / (w * L**2) == printed("-0.107")
    assert most.M_max[0, 0] / (w * L**2) == printed("0.0772")
    assert most.M_max[0, 1] / (w * L**2) == printed("0.0364")
    assert most.w_max[0, 0] * EI / (w * L**4) == printed("0.0065")
    assert most.w_max_at[0, 0] / L == printed("0.440")


def test_clamped_beam_that_shears_keeps_its_end_moments_under_even_load():
    # Symmetry: shear changes neither reactions nor end moments; sag gains w L^2 / 8 GA
    result = solve(clamped(GA=GA), UNIFORM)
    assert result.support_moments[0] == exact(np.array([-1, 1]) * w * L**2 / 12, rel=1e-12)


def test_propped_cantilever_that_shears():
    # Force method by hand: the prop carries w L (3/8 + phi/8) / (1 + phi/4), phi = 12 EI / GA L^2
    phi = 12 * EI / (GA * L**2)
    result = solve(propped(GA=GA), UNIFORM)
    prop = W * (1 / 8 + phi / 24) / (1 / 3 + phi / 12)
    assert result.reactions[0, 1] == exact(prop, rel=1e-12)
