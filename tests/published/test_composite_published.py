"""Mechanically jointed beams against published figures; the source stands beside each."""

from __future__ import annotations

import pytest
from printed import printed

from shelfload.solve import composite, composite_exact


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


class TestGirhammarGopu:
    """Girhammar and Gopu (1993), composite beam-columns with interlayer slip, exact analysis.

    Concrete 50 x 300 on timber 150 x 50, E 12 and 8 GPa, slip modulus 50 MPa, simply
    supported over 4 m, 1 kN/m, first order. Inputs and result from memory.
    """

    SECTION = (12000, 50 * 300, 300 * 50**3 / 12, 8000, 150 * 50, 50 * 150**3 / 12, 100)

    def test_stiffness_loose_and_glued(self):
        layers = composite_exact.two_layers(*self.SECTION, s=1, K=50)
        assert float(layers.EI_0) == pytest.approx(150e9)  # 150 kN m2
        assert float(layers.EI_inf) == pytest.approx(600e9)  # 600 kN m2

    def test_midspan_sag(self):
        layers = composite_exact.two_layers(*self.SECTION, s=1, K=50)
        assert float(composite_exact.midspan_sag_uniform(layers, 1.0, 4000)) == printed("7.56")

    def test_gamma_method_comes_close(self):
        # the same example by the code: the authors find the difference negligible
        EI_ef = composite.two_part_stiffness(*self.SECTION, s=1, K=50, L=4000)
        assert 5 * 4000**4 / (384 * float(EI_ef)) == pytest.approx(7.56, rel=0.005)
