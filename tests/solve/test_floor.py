"""Sheet over joists under one load: worst factors of one, two and three equal spans."""

from __future__ import annotations

import numpy as np
import pytest
from pycba import BeamAnalysis

from shelfload.solve import floor


def test_one_span_is_the_simple_beam() -> None:
    factors = floor.point_load_factors(1)
    assert factors.sagging == pytest.approx(1 / 4)
    assert factors.hogging == 0
    assert factors.deflection == pytest.approx(1 / 48)


@pytest.mark.parametrize("spans", [2, 3])
def test_factors_against_a_beam_program_over_all_places(spans: int) -> None:
    L, EI = 1.0, 1.0
    # No place anywhere in any span may beat the factors; the best must come close to them.
    sagging, hogging, deflection = [], [], []
    for span in range(1, spans + 1):
        for s in np.linspace(0.02, 0.98, 49):
            beam = BeamAnalysis([L] * spans, EI, [-1, 0] * (spans + 1))
            beam.add_pl(span, 1.0, s)
            beam.analyze(4 * 50)
            results = beam.beam_results.results
            sagging.append(results.M.max())
            hogging.append(-results.M.min())
            deflection.append(np.abs(results.D).max())
    factors = floor.point_load_factors(spans)
    for found, factor in [
        (sagging, factors.sagging),
        (hogging, factors.hogging),
        (deflection, factors.deflection),
    ]:
        assert max(found) <= factor * (1 + 1e-6)
        assert max(found) == pytest.approx(factor, rel=5e-3)


def test_more_spans_never_bend_more_between_joists() -> None:
    one, two, three = (floor.point_load_factors(n) for n in (1, 2, 3))
    assert one.sagging > two.sagging > three.sagging
    assert one.deflection > two.deflection > three.deflection


def test_side_of_a_box_on_sheet_by_hand() -> None:
    # Side 12 x 300 with 900 N along the joists, mid-way; sheet 22 over joists at 450, three spans:
    # only the 300 under it: M = 0.2049 x 900 x 450 = 82 990 N mm, W = 300 x 22^2/6 = 24 200 mm3,
    # 3.429 MPa. With a spread of 1.0: 300 + 225 x 0.5 = 412.5 wide.
    M = floor.point_load_factors(3).sagging * 900 * 450
    assert pytest.approx(82_990, rel=5e-4) == M
    assert pytest.approx(3.429, abs=2e-3) == M / (300 * 22**2 / 6)
    assert floor.effective_width(300, 225, 450, 1.0) == pytest.approx(412.5)
    assert floor.effective_width(300, 225, 450, 0.0) == pytest.approx(300)


@pytest.mark.parametrize("spans", [0, 4])
def test_other_numbers_of_spans_are_refused(spans: int) -> None:
    with pytest.raises(ValueError, match="allowed 1, 2, 3"):
        floor.point_load_factors(spans)
