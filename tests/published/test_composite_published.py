"""Mechanically jointed beams against published figures; the source stands beside each."""

from __future__ import annotations

import pytest
from printed import printed
from verification import annex_b
from verification.composites import BENDING_STRESS, SECTION

from shelfload.solve import composite, composite_exact, composite_stress


class TestSummation:
    """Unit test of a public package for EN 1995-1-1:2023, formula (E.1), the sum of (B.1).

    The figures are those of the package's own test, chosen for arithmetic, not for sense.
    """

    def test_three_parts(self):
        EI = composite.effective_stiffness(
            gamma=[1, 1, 0.2], E=[1, 1, 200], I=[1, 1, 400], A=[1, 1, 0.5], a=[1, 1, 0.25]
        )
        assert float(EI) == printed("80005.25")

    def test_equal_lists(self):
        ones = [1, 1, 2]
        assert float(composite.effective_stiffness(ones, ones, ones, ones, ones)) == printed("40")


class TestEfficiency:
    """Unit test of the same package, formula (E.2), the same as (B.5)."""

    def test_outer_part(self):
        gamma = composite.gamma_slip(E=8000, A=20000, s=200, K=8000, L=5000)
        assert float(gamma) == printed("0.3877")

    def test_nearly_rigid(self):
        # the package prints 0.9999 for 0.99999: cut off
        assert float(composite.gamma_slip(1, 1, 1, 1, 1000)) == pytest.approx(0.9999, abs=1e-4)


class TestThreeParts:
    """Unit tests of the same package, formulas (E.3) to (E.10), with one section behind them.

    60 / 80 / 60 deep, 1000 broad, E 12000 / 4000 / 12000, gamma 0.767: (EI)_ef
    6,015,486,104,925.15 N mm2.
    """

    EI_ef = 6015486104925.15
    gamma, E, h = [0.767, 1.0, 0.767], [12000.0, 4000.0, 12000.0], [60.0, 80.0, 60.0]
    A, I = [60e3, 80e3, 60e3], [1000 * 60**3 / 12, 1000 * 80**3 / 12, 1000 * 60**3 / 12]  # noqa: E741

    def offsets(self):
        g, E, A, h = self.gamma, self.E, self.A, self.h
        return composite.axis_offset(
            g[0], E[0], A[0], h[0], E[1], A[1], h[1], g[2], E[2], A[2], h[2]
        )

    def test_offsets(self):
        assert self.offsets() == pytest.approx([70, 0, 70])

    def test_effective_stiffness(self):
        EI = composite.effective_stiffness(self.gamma, self.E, self.I, self.A, self.offsets())
        # gamma has three digits: 0.0005 of it moves the stiffness by 0.06 %
        assert float(EI) == pytest.approx(self.EI_ef, rel=0.0006)

    def test_mean_stress(self):
        sigma = composite_stress.normal_stress(0.767, 12000, 70, 10e6, self.EI_ef)
        assert float(sigma) == pytest.approx(1.071035, abs=1e-6)  # 1.0710356, cut off

    @pytest.mark.parametrize(("E", "h", "M", "EI_ef", "result"), BENDING_STRESS)
    def test_bending_stress(self, E, h, M, EI_ef, result):
        assert float(composite_stress.bending_stress(E, h, M, EI_ef)) == printed(result)

    def test_shear_stress(self):
        # only the case with its neutral axis in the middle: elsewhere the package takes
        # (a_2 + h_2) / 2 for the distance to the edge, where (B.9) of 2004 has a_2 + h_2 / 2
        tau = composite_stress.shear_stress(
            0.767, 12000, 60000, 70, 4000, 1000, 40, 10e3, self.EI_ef
        )
        # printed from the unrounded gamma, 0.76712 by the stiffness: 0.016 % more
        assert float(tau) == pytest.approx(0.0695920, rel=0.0002)

    def test_uneven_offsets(self):
        # formula (E.4): E A gamma h = 1 1 1 1, 1 1 1 1, 2 2 2 2: a_2 = -1.10
        a = composite.axis_offset(1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2)
        assert float(a[1]) == printed("-1.10")

    def test_two_parts(self):
        # formula (E.4), 30 on 30: a_2 = 7.143; its gamma_2 of 0.8 is put on E_2 here
        a = composite.axis_offset(0.5, 1000, 2000, 30, 0.8 * 2000, 2000, 30)
        assert float(a[1]) == printed("7.143")


class TestGirhammarGopu:
    """Girhammar and Gopu (1993), composite beam-columns with interlayer slip, exact analysis.

    Concrete 50 x 300 on timber 150 x 50, E 12 and 8 GPa, slip modulus 50 MPa, simply
    supported over 4 m, 1 kN/m, first order. Inputs and result from memory.
    """

    def test_stiffness_loose_and_glued(self):
        layers = composite_exact.two_layers(*SECTION, s=1, K=50)
        assert float(layers.EI_0) == pytest.approx(150e9)  # 150 kN m2
        assert float(layers.EI_inf) == pytest.approx(600e9)  # 600 kN m2

    def test_midspan_sag(self):
        layers = composite_exact.two_layers(*SECTION, s=1, K=50)
        assert float(composite_exact.midspan_sag_uniform(layers, 1.0, 4000)) == printed("7.56")

    def test_gamma_method_comes_close(self):
        # the same example by the code: the authors find the difference negligible
        EI_ef = composite.two_part_stiffness(*SECTION, s=1, K=50, L=4000)
        assert 5 * 4000**4 / (384 * float(EI_ef)) == pytest.approx(7.56, rel=0.005)


@pytest.mark.parametrize("case", list(annex_b.cases()), ids=lambda case: case.name)
def test_whole_beams_of_annex_b(case):
    """A timber T-beam and a timber beam under a slab, from gammas to sag.

    Regression cases of the public package strutture-js, after workbooks by EN 1995-1-1; inputs
    and printed figures stand in tests/verification/annex_b.py.
    """
    assert float(case.ours()) == printed(case.reference)
