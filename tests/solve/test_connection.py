"""Connection formulas: what must hold whatever the numbers, and where there is no value."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shelfload.solve import (
    connection,
    connection_combined,
    connection_rows,
    connection_steel,
    embedment,
    fastener,
    nds,
    placement,
    slip,
    spacing,
    wood_handbook,
    wood_handbook_lateral,
)
from shelfload.solve import withdrawal as axial
from shelfload.solve import withdrawal_nail as nail

STEADY = settings(deadline=None)
DIAMETER = st.floats(1.5, 12)
STRENGTH = st.floats(5, 120)
THICKNESS = st.floats(1, 120)
FORCE = st.floats(0, 5000)
CAP = st.sampled_from(sorted(set(connection.ROPE_CAP.values())))


@st.composite
def joints(draw):
    d = draw(DIAMETER)
    return {
        "f_h_1": draw(STRENGTH),
        "f_h_2": draw(STRENGTH),
        "t_1": draw(THICKNESS),
        "t_2": draw(THICKNESS),
        "d": d,
        "M_y_Rk": float(fastener.yield_moment(draw(st.floats(300, 1200)), d)),
        "F_ax_Rk": draw(FORCE),
        "rope_cap": draw(CAP),
    }


def least_single(**joint):
    return connection.governing(connection.single_shear(**joint), connection.SINGLE_SHEAR_MODES)[0]


def least_double(**joint):
    return connection.governing(connection.double_shear(**joint), connection.DOUBLE_SHEAR_MODES)[0]


class TestLateral:
    @STEADY
    @given(joint=joints(), which=st.sampled_from(["t_1", "t_2"]), share=st.floats(0.05, 1))
    def test_a_thinner_panel_is_never_stronger(self, joint, which, share):
        thinner = {**joint, which: share * joint[which]}
        for least in (least_single, least_double):
            assert least(**thinner) <= least(**joint) * (1 + 1e-9)

    @STEADY
    @given(
        joint=joints(),
        which=st.sampled_from(["f_h_1", "f_h_2", "M_y_Rk", "F_ax_Rk", "rope_cap"]),
        share=st.floats(0.05, 1),
    )
    def test_a_weaker_part_is_never_stronger(self, joint, which, share):
        weaker = {**joint, which: share * joint[which]}
        for least in (least_single, least_double):
            assert least(**weaker) <= least(**joint) * (1 + 1e-9)

    @STEADY
    @given(joint=joints())
    def test_turned_round_the_members_change_their_letters(self, joint):
        turned = {
            **joint,
            "f_h_1": joint["f_h_2"],
            "f_h_2": joint["f_h_1"],
            "t_1": joint["t_2"],
            "t_2": joint["t_1"],
        }
        there, back = connection.single_shear(**joint), connection.single_shear(**turned)
        # the root of (c) loses digits where one member is far weaker than the other
        assert back[[1, 0, 2, 4, 3, 5]] == pytest.approx(there, rel=1e-7)

    @STEADY
    @given(joint=joints())
    def test_mode_c_has_the_textbook_form(self, joint):
        """Force and moment balance of a stiff dowel, solved for its two turning points."""
        joint = {**joint, "F_ax_Rk": 0.0}
        F = float(connection.single_shear(**joint)[2])
        p_1, p_2 = joint["f_h_1"] * joint["d"], joint["f_h_2"] * joint["d"]
        # pressed one way over x, the other way over the rest: F = p (2 x - t), both members
        x_1, x_2 = (F / p_1 + joint["t_1"]) / 2, (F / p_2 + joint["t_2"]) / 2
        # moments about the interface, each member's two stretches
        m_1 = p_1 * (x_1**2 / 2 - (joint["t_1"] - x_1) * (joint["t_1"] + x_1) / 2)
        m_2 = p_2 * (x_2**2 / 2 - (joint["t_2"] - x_2) * (joint["t_2"] + x_2) / 2)
        scale = p_1 * joint["t_1"] ** 2 + p_2 * joint["t_2"] ** 2
        assert m_1 + m_2 == pytest.approx(0, abs=1e-9 * scale)

    def test_rope_effect_helps_only_modes_with_rotation(self):
        plain = connection.single_shear(20, 20, 15, 30, 4, 5000)
        roped = connection.single_shear(20, 20, 15, 30, 4, 5000, 400, 1.0)
        assert roped - plain == pytest.approx([0, 0, 100, 100, 100, 100])

    @STEADY
    @given(joint=joints())
    def test_rope_effect_is_capped(self, joint):
        plain = connection.single_shear(**{**joint, "F_ax_Rk": 0.0})
        roped = connection.single_shear(**joint)
        assert np.all(roped <= plain * (1 + joint["rope_cap"]) * (1 + 1e-12))
        assert np.all(roped - plain <= joint["F_ax_Rk"] / 4 + 1e-9)

    def test_caps_of_the_rope_effect(self):
        # EN 1995-1-1:2004, 8.2.2(2)
        assert connection.ROPE_CAP == {
            "round nail": 0.15,
            "square or grooved nail": 0.25,
            "other nail": 0.5,
            "screw": 1.0,
            "bolt": 0.25,
            "dowel": 0.0,
        }

    def test_one_call_for_a_whole_table(self):
        d = np.linspace(3, 8, 60)[:, None, None]
        t_1 = np.linspace(9, 40, 50)[None, :, None]
        t_2 = np.array([10.0, 20.0, 30.0])
        M_y = fastener.yield_moment(600, d)
        modes = connection.single_shear(20, 25, t_1, t_2, d, M_y)
        assert modes.shape == (60, 50, 3, 6)
        alone = connection.single_shear(20, 25, 40, 20, 8, fastener.yield_moment(600, 8))
        assert modes[-1, -1, 1] == pytest.approx(alone, rel=1e-12)

    @pytest.mark.parametrize("t", [0.0, -3.0])
    def test_no_thickness_no_value(self, t):
        for modes, letters in (
            (connection.single_shear(20, 20, 18, t, 4, 5000), connection.SINGLE_SHEAR_MODES),
            (connection.double_shear(20, 20, t, 18, 4, 5000), connection.DOUBLE_SHEAR_MODES),
            (connection_steel.thick_plate(20, t, 4, 5000), connection_steel.THICK_PLATE_MODES),
            (connection_steel.thin_plate(20, t, 4, 5000), connection_steel.THIN_PLATE_MODES),
            (connection_steel.outer_plates(20, t, 4, 5000, True), "lm"),
        ):
            F, letter = connection.governing(modes, letters)
            assert np.isnan(F)
            assert letter == ""

    def test_governing_takes_the_first_of_equals_and_batches(self):
        F, letter = connection.governing([[3.0, 2.0], [1.0, 1.0], [np.nan, 1.0]], "ab")
        assert F[:2] == pytest.approx([2, 1])
        assert np.isnan(F[2])
        assert list(letter) == ["b", "a", ""]

    def test_governing_wants_a_letter_for_each_mode(self):
        with pytest.raises(ValueError, match="3 modes on the last axis, 2 letters"):
            connection.governing([1.0, 2.0, 3.0], "ab")


class TestSteelPlate:
    def test_between_the_limits(self):
        between = connection_steel.between_thin_and_thick
        t = np.array([0.0, 2.0, 3.0, 4.0, 9.0])
        assert between(100, 200, t, 4.0) == pytest.approx([100, 100, 150, 200, 200])

    def test_a_wide_hole_makes_a_plate_thin(self):
        between = connection_steel.between_thin_and_thick
        assert float(between(100, 200, 9.0, 4.0, clearance=0.39)) == 200
        assert float(between(100, 200, 9.0, 4.0, clearance=0.5)) == 100

    @STEADY
    @given(f_h=STRENGTH, t=THICKNESS, d=DIAMETER, M=st.floats(300, 1e5), F_ax=FORCE, cap=CAP)
    def test_thick_plate_is_never_weaker_than_thin(self, f_h, t, d, M, F_ax, cap):
        thin = np.min(connection_steel.thin_plate(f_h, t, d, M, F_ax, cap))
        thick = np.min(connection_steel.thick_plate(f_h, t, d, M, F_ax, cap))
        assert thin <= thick * (1 + 1e-9)

    @STEADY
    @given(f_h=STRENGTH, t=THICKNESS, d=DIAMETER, M=st.floats(300, 1e5))
    def test_middle_plate_is_a_thick_plate_on_each_side(self, f_h, t, d, M):
        thick = connection_steel.thick_plate(f_h, t, d, M)
        middle = connection_steel.middle_plate(f_h, t, d, M)
        assert dict(zip(connection_steel.MIDDLE_PLATE_MODES, middle, strict=True)) == {
            "f": thick[2],
            "g": thick[0],
            "h": thick[1],
        }


class TestEmbedment:
    @STEADY
    @given(d=st.floats(2, 8), rho=st.floats(300, 700))
    def test_plywood_is_stronger_than_timber_of_its_density(self, d, rho):
        timber = embedment.embedment_not_predrilled(rho, d)
        assert embedment.embedment_plywood(rho, d) == pytest.approx(timber * 0.11 / 0.082)

    def test_no_value_beyond_the_clause(self):
        assert np.isnan(embedment.embedment_not_predrilled(350, 8.1))
        assert np.isnan(embedment.embedment_predrilled(350, 31))

    def test_angle_runs_from_along_to_across(self):
        k_90 = embedment.k_90(12, "softwood")
        assert float(k_90) == pytest.approx(1.35 + 0.015 * 12)
        f_h = embedment.embedment_at_angle(30, k_90, np.deg2rad([0, 45, 90]))
        assert f_h[0] == pytest.approx(30)
        assert f_h[2] == pytest.approx(30 / float(k_90))
        assert f_h[0] > f_h[1] > f_h[2]

    def test_unknown_wood(self):
        with pytest.raises(ValueError, match="MDF"):
            embedment.k_90(12, "MDF")

    def test_there_is_none_for_mdf(self):
        assert not [name for name in dir(embedment) if "mdf" in name.lower()]

    @STEADY
    @given(d=st.floats(2, 6), t=st.floats(6, 40))
    def test_panels_grow_with_thickness_and_shrink_with_diameter(self, d, t):
        for formula in (
            embedment.embedment_particleboard,
            embedment.embedment_particleboard_bolt,
            embedment.embedment_hardboard,
        ):
            assert formula(d, t) < formula(d, 1.1 * t)
            assert formula(d, t) > formula(1.1 * d, t)

    @pytest.mark.parametrize(
        ("formula", "coefficient", "of_d", "of_t"),
        [
            (embedment.embedment_particleboard, 65, -0.7, 0.1),  # EN 1995-1-1:2004, (8.22)
            (embedment.embedment_particleboard_bolt, 50, -0.6, 0.2),  # (8.37)
            (embedment.embedment_hardboard, 30, -0.3, 0.6),  # (8.21)
        ],
    )
    def test_panels_as_the_clause_prints_them(self, formula, coefficient, of_d, of_t):
        assert float(formula(1, 1)) == coefficient
        assert float(np.log2(formula(2, 1) / formula(1, 1))) == pytest.approx(of_d)
        assert float(np.log2(formula(1, 2) / formula(1, 1))) == pytest.approx(of_t)

    def test_grain_factor_of_each_wood(self):
        # EN 1995-1-1:2004, (8.33) with d 10: 0.15 more than its first term
        factors = {wood: float(embedment.k_90(10, wood)) for wood in embedment.K_90_BASE}
        assert factors == pytest.approx({"softwood": 1.50, "LVL": 1.45, "hardwood": 1.05})

    def test_plywood_under_bolts(self):
        assert float(embedment.embedment_plywood_bolt(600, 10)) == pytest.approx(0.11 * 0.9 * 600)


class TestFastener:
    def test_effective_diameter(self):
        ef = fastener.effective_diameter
        assert float(ef(4.0, 2.8, 16.0)) == 4.0
        assert float(ef(4.0, 2.8, 15.9)) == pytest.approx(1.1 * 2.8)
        assert float(ef(0.0, 2.8, 99.0)) == pytest.approx(1.1 * 2.8)

    def test_rules_for_bolts_begin_above_six(self):
        assert list(fastener.acts_as_bolt([5.9, 6.0, 6.1])) == [False, False, True]

    def test_wide_head(self):
        assert list(fastener.head_is_wide([7.9, 8.0], 4.0)) == [False, True]

    def test_square_nails(self):
        assert float(fastener.yield_moment_square(600, 4)) == pytest.approx(
            1.5 * float(fastener.yield_moment(600, 4))
        )


class TestAxial:
    @STEADY
    @given(
        l_ef=st.floats(5, 100),
        more=st.floats(1, 3),
        d=st.floats(3, 12),
        rho=st.floats(300, 700),
    )
    def test_more_thread_is_never_weaker(self, l_ef, more, d, rho):
        def value(length):
            f_ax = axial.screw_withdrawal_strength(d, length, rho)
            return np.nan_to_num(axial.screw_withdrawal(f_ax, d, length, np.pi / 2))

        assert value(l_ef) <= value(more * l_ef) * (1 + 1e-12)

    @pytest.mark.parametrize("formula", ["own", "declared"])
    def test_end_grain_has_no_value(self, formula):
        angles = np.deg2rad([0, 29, 30, 90])
        if formula == "own":
            F = axial.screw_withdrawal(12, 6, 40, angles)
        else:
            F = axial.screw_withdrawal_declared(12, 6, 40, angles, 350, 350)
        assert list(np.isnan(F)) == [True, True, False, False]
        assert F[2] < F[3]

    def test_withdrawal_as_the_clause_prints_it(self):
        # EN 1995-1-1:2004+A1:2008, (8.38), (8.40) and (8.40a)
        across = axial.screw_withdrawal(12, [6, 8, 10], 80, np.pi / 2)
        assert across == pytest.approx([12 * 6 * 80 * 0.75, 12 * 8 * 80, 12 * 10 * 80])
        slanted = axial.screw_withdrawal(12, 8, 80, np.deg2rad([30, 45]))
        assert slanted == pytest.approx([12 * 8 * 80 / 1.15, 12 * 8 * 80 / 1.1])
        dense = axial.screw_withdrawal_declared(12, 5, 40, np.pi / 2, 2 * 350, 350)
        assert float(dense) == pytest.approx(12 * 5 * 40 * 2**0.8)

    def test_short_thread_has_no_value(self):
        # 6 x 4.2 is not the double nearest to 25.2
        F = axial.screw_withdrawal_declared(12, 4.2, [25.2, 25.1], np.pi / 2, 350, 350)
        assert list(np.isnan(F)) == [False, True]

    def test_which_screws_the_formula_covers(self):
        d, d_1 = [5.9, 6, 8, 8, 8, 12, 12.1], [4, 4, 4.7, 4.9, 6.1, 9, 9]
        covered = axial.screw_formula_applies(d, d_1)
        assert list(covered) == [False, True, False, True, False, True, False]

    def test_tension(self):
        assert float(axial.screw_tension(7000, 3)) == 21000

    def test_smooth_nail_penetration(self):
        F = nail.smooth_nail_withdrawal(350, 3, [23.9, 24, 30, 36, 60], 18, 7)
        f_ax = 20e-6 * 350**2
        assert np.isnan(F[0])
        assert F[1] == pytest.approx(0, abs=1e-9)
        assert F[2:] == pytest.approx([f_ax * 3 * 30 / 2, f_ax * 3 * 36, f_ax * 3 * 60])

    def test_thin_head_side_governs_a_long_smooth_nail(self):
        f_ax, f_head = 20e-6 * 350**2, 70e-6 * 350**2
        F = nail.smooth_nail_withdrawal(350, 3, 1000, 4, 7)
        assert float(F) == pytest.approx(f_ax * 3 * 4 + f_head * 49)

    def test_profiled_nail(self):
        F = nail.profiled_nail_withdrawal(6, 20, 3, [17.9, 18, 21, 24, 300], 6)
        assert np.isnan(F[0])
        assert F[1:] == pytest.approx([0, 6 * 3 * 21 / 2, 6 * 3 * 24, 20 * 36], abs=1e-9)
        assert float(nail.profiled_nail_withdrawal(6, 20, 3, 30, 6)) == pytest.approx(6 * 3 * 30)

    @STEADY
    @given(
        F_ax=st.floats(0, 1000),
        F_v=st.floats(0, 1000),
        R_ax=st.floats(100, 2000),
        R_v=st.floats(100, 2000),
    )
    def test_combined(self, F_ax, F_v, R_ax, R_v):
        line = connection_combined.combined_linear(F_ax, R_ax, F_v, R_v)
        circle = connection_combined.combined_quadratic(F_ax, R_ax, F_v, R_v)
        # EN 1995-1-1, (8.27) and (8.28)
        assert line == pytest.approx(F_ax / R_ax + F_v / R_v)
        assert circle == pytest.approx((F_ax / R_ax) ** 2 + (F_v / R_v) ** 2)


class TestRows:
    @STEADY
    @given(n=st.integers(1, 40), ratio=st.floats(4, 30), d=DIAMETER)
    def test_more_fasteners_are_never_weaker(self, n, ratio, d):
        k_ef = connection_rows.k_ef(ratio * d, d, predrilled=True)
        for number in (
            lambda count: connection_rows.effective_number_nails(count, k_ef),
            lambda count: connection_rows.effective_number_bolts(count, ratio * d, d),
            axial.effective_number_axial,
        ):
            assert number(n) <= number(n + 1)
            assert number(n) <= n * (1 + 1e-12)

    def test_table_8_1(self):
        ratio = np.array([3.9, 4, 7, 8.5, 10, 14, 20])
        drilled = connection_rows.k_ef(ratio * 3, 3, predrilled=True)
        driven = connection_rows.k_ef(ratio * 3, 3, predrilled=False)
        assert np.isnan(drilled[0])
        assert drilled[1:] == pytest.approx([0.5, 0.7, 0.775, 0.85, 1, 1])
        assert np.isnan(driven[:2]).all()
        assert driven[2:] == pytest.approx(drilled[2:])

    def test_splitting_has_no_value_past_the_member(self):
        assert np.isnan(connection_rows.splitting_resistance(18, 100, 100))


class TestSlip:
    def test_nails_and_staples(self):
        nails = slip.slip_modulus_nail(400, 3)
        assert float(slip.slip_modulus_staple(400, 3)) == pytest.approx(float(nails) * 30 / 80)

    def test_creep_of_a_joint(self):
        assert float(slip.joint_creep(0.6, 0.6)) == pytest.approx(1.2)
        assert float(slip.joint_creep(0.6, 2.25)) == pytest.approx(2 * np.sqrt(0.6 * 2.25))
        assert float(slip.slip_modulus_final(1000, 1.5)) == pytest.approx(400)

    def test_row(self):
        assert float(slip.row_stiffness(1500, 100)) == pytest.approx(15)


class TestSpacing:
    """Table 8.2 of EN 1995-1-1:2004, 8.3.1.2, along (0) and across (90 degrees) the grain."""

    ACROSS = np.pi / 2

    @pytest.mark.parametrize(
        ("d", "rho", "drilled", "along", "across"),
        [
            (4, 350, False, (10, 5, 15, 10, 5, 5), (5, 5, 10, 10, 7, 5)),
            (5, 350, False, (12, 5, 15, 10, 5, 5), (5, 5, 10, 10, 10, 5)),
            (4, 450, False, (15, 7, 20, 15, 7, 7), (7, 7, 15, 15, 9, 7)),
            (5, 450, False, (15, 7, 20, 15, 7, 7), (7, 7, 15, 15, 12, 7)),
            (4, 600, True, (5, 3, 12, 7, 3, 3), (4, 4, 7, 7, 5, 3)),
            (5, 350, True, (5, 3, 12, 7, 3, 3), (4, 4, 7, 7, 7, 3)),
        ],
    )
    def test_table_8_2(self, d, rho, drilled, along, across):
        for angle, row in ((0.0, along), (self.ACROSS, across)):
            least = spacing.nail_distances(d, rho, angle, drilled)
            assert [float(value) / d for value in least] == pytest.approx(row)

    def test_the_steps_of_the_density(self):
        least = spacing.nail_distances(4, [420, 421, 500], 0.0, predrilled=False)
        assert least.a_2 == pytest.approx([20, 28, 28])
        t = spacing.splitting_thickness(6, 450, sensitive=False)
        assert float(t) == pytest.approx((13 * 6 - 30) * 450 / 400)
        assert list(spacing.predrilling_needed([6, 6.1], 350)) == [False, True]

    def test_dense_wood_must_be_drilled(self):
        least = spacing.nail_distances(4, [500, 501], 0.0, predrilled=False)
        assert all(not np.isnan(value[0]) and np.isnan(value[1]) for value in least)
        assert list(spacing.predrilling_needed([4, 4, 7], [500, 501, 350])) == [False, True, True]

    def test_panels_and_steel_close_up_the_rows_only(self):
        timber = spacing.nail_distances(4, 350, 0.0, predrilled=False)
        panel = spacing.with_other_material(timber, spacing.PANEL_FACTOR)
        assert float(panel.a_1) == pytest.approx(0.85 * 40)
        assert float(panel.a_2) == pytest.approx(0.85 * 20)
        assert panel[2:] == timber[2:]
        steel = spacing.with_other_material(timber, spacing.STEEL_FACTOR)
        assert float(steel.a_1) == pytest.approx(0.7 * 40)

    def test_plywood_rim(self):
        loaded, free = spacing.plywood_rim_distances(3, [0, self.ACROSS])
        assert loaded == pytest.approx([9, 21])
        assert free == pytest.approx(9)

    def test_bolts_across_the_grain(self):
        least = [float(value) for value in spacing.bolt_distances(8, self.ACROSS)]
        assert least == pytest.approx([32, 32, 80, 56, 32, 24])

    def test_unloaded_end_of_bolts_is_the_same_both_ways(self):
        angle = np.deg2rad([0, 20, 45, 80])
        there = spacing.bolt_distances(8, angle).a_3c
        assert there == pytest.approx(spacing.bolt_distances(8, np.pi - angle).a_3c)
        assert there[0] == 32

    def test_penetration_and_thickness_in_diameters(self):
        # EN 1995-1-1:2004, 8.3.1.2(1)-(2), 8.3.2(7), 8.7.2(2)-(3)
        assert spacing.PENETRATION == {"smooth nail": 8, "other nail": 6, "screw": 6}
        assert spacing.SCREW_MEMBER_THICKNESS == 12

    def test_axial(self):
        least = [float(value) for value in spacing.axial_distances(5)]
        assert least == pytest.approx([35, 25, 50, 50, 20, 20])

    def test_splitting_thickness(self):
        t = spacing.splitting_thickness([3, 5], 350, sensitive=False)
        assert t == pytest.approx([21, max(35, (13 * 5 - 30) * 350 / 400)])
        twice = spacing.splitting_thickness([3, 5], 350, sensitive=True)
        assert twice == pytest.approx(2 * t)

    def test_pilot_hole(self):
        assert float(spacing.screw_pilot_hole(5)) == pytest.approx(3.5)

    @STEADY
    @given(
        d=DIAMETER,
        rho=st.floats(250, 500),
        angle=st.floats(0, np.pi),
        drilled=st.booleans(),
    )
    def test_a_loaded_rim_needs_no_less_than_a_free_one(self, d, rho, angle, drilled):
        least = spacing.nail_distances(d, rho, angle, drilled)
        assert least.a_3t >= least.a_3c - 1e-9
        assert least.a_4t >= least.a_4c - 1e-9
        bolt = spacing.bolt_distances(d, angle)
        assert bolt.a_4t >= bolt.a_4c - 1e-9


class TestWoodHandbook:
    def test_lateral_groups(self):
        K = wood_handbook_lateral.lateral_coefficient(
            [0.28, 0.29, 0.42, 0.425, 0.43, 0.475, 0.48, 0.7], "wood screw", "softwood"
        )
        assert np.isnan(K[0])
        assert K[1:] == pytest.approx([23.17, 23.17, 23.17, 29.79, 29.79, 36.40, 36.40])
        hard = wood_handbook_lateral.lateral_coefficient(
            [0.33, 0.56, 0.57], "lag screw", "hardwood"
        )
        assert hard == pytest.approx([26.34, 29.51, 34.13])

    @pytest.mark.parametrize(("what", "wood"), [("bolt", "softwood"), ("nail", "MDF")])
    def test_unknown(self, what, wood):
        with pytest.raises(ValueError, match="no lateral coefficient"):
            wood_handbook_lateral.lateral_coefficient(0.5, what, wood)
        if wood == "MDF":
            with pytest.raises(ValueError, match="MDF"):
                wood_handbook.lead_hole(3, wood)

    def test_powers_of_the_diameter(self):
        assert float(wood_handbook_lateral.nail_lateral(50, 4)) == pytest.approx(400)
        assert float(wood_handbook_lateral.screw_lateral(23, 4)) == pytest.approx(368)

    def test_penetration(self):
        share = wood_handbook_lateral.penetration_share([15.9, 16, 21, 28, 40], 4)
        assert np.isnan(share[0])
        assert share[1:] == pytest.approx([4 / 7, 0.75, 1, 1])

    def test_lag_screws_in_soft_wood_go_deeper(self):
        full = wood_handbook_lateral.FULL_PENETRATION["lag screw, soft"]
        assert float(wood_handbook_lateral.penetration_share(55, 10, full)) == pytest.approx(0.5)

    def test_lag_factors_end_where_the_tables_end(self):
        side = wood_handbook_lateral.lag_side_member_factor([19.9, 20, 22.5, 35, 90], 10)
        assert np.isnan(side[0])
        assert side[1:] == pytest.approx([0.62, (0.62 + 0.77) / 2, 1.0, 1.22])
        across = wood_handbook_lateral.lag_across_grain_factor([4, 4.8, 8.7, 15.9, 16])
        assert across[:4] == pytest.approx([1, 1, (0.85 + 0.76) / 2, 0.6])
        assert np.isnan(across[4])

    def test_particleboard_edge_and_face(self):
        face = wood_handbook.particleboard_withdrawal(0.65, 4.83, 16, edge=False)
        edge = wood_handbook.particleboard_withdrawal(0.65, 4.83, 16, edge=True)
        assert float(edge / face) == pytest.approx(0.77, abs=0.005)  # McNatt: 75-80 %
        assert float(wood_handbook.particleboard_withdrawal(0.65, 4.8, 1.0, edge=False)) == 0

    def test_lead_hole(self):
        assert float(wood_handbook.lead_hole(3, "softwood")) == pytest.approx(2.1)
        assert float(wood_handbook.lead_hole(3, "hardwood")) == pytest.approx(2.7)

    def test_threaded_nail(self):
        F = wood_handbook.threaded_nail_withdrawal(0.5, 3, 40)
        assert F > wood_handbook.nail_withdrawal(0.5, 3, 40)
        # Wood Handbook, FPL-GTR-282, equation (8-2): 77.57 G^2 D L
        assert float(F) == pytest.approx(77.57 * 3 * 40 / 4)

    def test_working_load_is_near_the_american_one(self):
        G, D = 0.5, np.array([3.0, 4.2, 5.5])
        working = wood_handbook.WORKING_SHARE * wood_handbook.wood_screw_withdrawal(G, D, 1.0)
        ratio = working / nds.wood_screw_withdrawal_allowable(G, D)
        assert ratio == pytest.approx(5.5 / 5, rel=0.01)


def test_reduction_term_steps():
    R_d = nds.reduction_term(np.array([0.1, 0.17, 0.175, 0.2, 0.25]) * nds.INCH)
    assert R_d[:4] == pytest.approx([2.2, 2.2, 2.25, 2.5])
    assert np.isnan(R_d[4])


def test_reduction_term_divides_every_mode():
    members = {"F_em": 32.0, "F_es": 20.0, "l_m": 50.0, "l_s": 19.0, "D": 3.8, "F_yb": 620.0}
    whole = nds.single_shear_allowable(**members, R_d=1.0)
    assert nds.single_shear_allowable(**members, R_d=2.2) == pytest.approx(whole / 2.2, rel=1e-12)


class TestPlacement:
    @STEADY
    @given(
        length=st.floats(30, 3000),
        end=st.floats(0, 100),
        least=st.floats(1, 200),
        count=st.integers(1, 30),
        step=st.sampled_from([0.5, 1.0, 5.0, 10.0, 25.4 / 16]),
    )
    def test_every_rule_is_kept_or_it_raises(self, length, end, least, count, step):
        try:
            marks = placement.positions(length, count, end, least, step)
        except ValueError:
            assert count > 1 or length < 2 * end
            return
        assert len(marks) == count
        assert marks[0] >= end - 1e-6
        assert length - marks[-1] >= end - 1e-6
        assert np.all(np.diff(marks) >= least - 1e-6)
        assert marks + marks[::-1] == pytest.approx(length)
        first_half = marks[: count // 2] / step
        assert first_half == pytest.approx(np.rint(first_half), abs=1e-6)

    @STEADY
    @given(
        length=st.floats(30, 3000),
        end=st.floats(0, 100),
        least=st.floats(1, 200),
        step=st.sampled_from([1.0, 5.0]),
    )
    def test_raises_only_where_rounding_leaves_no_room(self, length, end, least, step):
        most = placement.count_that_fits(length, least, end)
        assume(most >= 1)
        # each distance may grow by a step, one at either side and between all
        roomy = placement.count_that_fits(length, least + step, end + step)
        for count in {1, roomy, roomy // 2} - {0}:
            placement.positions(length, count, end, least, step)
        with pytest.raises(ValueError, match="don't fit"):
            placement.positions(length, most + 1, end, least, step)

    @STEADY
    @given(
        length=st.floats(100, 3000),
        end=st.floats(0, 40),
        wanted=st.floats(10, 500),
        step=st.sampled_from([1.0, 5.0]),
    )
    def test_count_for_spacing_is_the_fewest(self, length, end, wanted, step):
        count = placement.count_for_spacing(length, wanted, end)
        gap = (length - 2 * end) / (count - 1)
        assert gap <= wanted * (1 + 1e-6)
        if count > 2:
            assert (length - 2 * end) / (count - 2) > wanted * (1 - 1e-6)
            marks = placement.positions(length, count, end, 1.0, step)
            assert np.max(np.diff(marks)) <= wanted + step + 1e-6

    def test_workshop_example(self):
        # a shelf of 787 mm, five screws, 30 mm from the ends
        marks = placement.positions(787, 5, end_distance=30, min_spacing=40)
        assert list(marks) == [30, 210, 393.5, 577, 757]

    def test_exact_fits(self):
        assert list(placement.positions(100, 2, 25, 50)) == [25, 75]
        assert list(placement.positions(150, 3, 25, 50)) == [25, 75, 125]
        # even marks would be 20 and 42.6: rounded up, the middle gap would be too small
        assert placement.positions(107.8, 4, 20, 19.9) == pytest.approx([20, 40, 67.8, 87.8])
        assert list(placement.positions(100, 1, 50, 10)) == [50]
        for impossible in ((99, 2, 25, 50), (99, 1, 50, 10)):
            with pytest.raises(ValueError, match="don't fit"):
                placement.positions(*impossible)

    def test_single_in_the_middle(self):
        assert list(placement.positions(300, 1, 40, 100)) == [150]

    @pytest.mark.parametrize(
        "bad",
        [
            {"count": 0},
            {"round_to": 0.0},
            {"end_distance": -1.0},
            {"min_spacing": 0.0},
            {"length": 50.0},
            {"length": float("nan")},
            {"length": float("inf")},
        ],
    )
    def test_impossible_rows(self, bad):
        good = {"length": 600.0, "count": 4, "end_distance": 40.0, "min_spacing": 50.0}
        with pytest.raises(ValueError, match=r"no row|don't fit"):
            placement.positions(**{**good, **bad})

    @pytest.mark.parametrize(
        ("length", "wanted", "end"), [(50, 100, 30), (500, 0, 30), (500, 100, -1), (60, 10, 30)]
    )
    def test_no_row_of_two(self, length, wanted, end):
        with pytest.raises(ValueError, match="no row of two"):
            placement.count_for_spacing(length, wanted, end)

    def test_count_that_fits(self):
        assert placement.count_that_fits(100, 20, 20) == 4
        assert placement.count_that_fits(0.1 * 3 + 40, 0.1, 20) == 4
        assert placement.count_that_fits(40, 20, 20) == 1
        assert placement.count_that_fits(39, 20, 20) == 0
        with pytest.raises(ValueError, match="no distance"):
            placement.count_that_fits(100, 0, 20)
