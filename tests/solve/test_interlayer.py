"""A fastener across a gap: without the gap the code's modes, with it less and less."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from printed import printed

from shelfload.solve import interlayer

JOINT = st.fixed_dictionaries(
    {
        "f_h_1": st.floats(5, 60),
        "t_1": st.floats(6, 80),
        "f_h_2": st.floats(5, 60),
        "t_2": st.floats(6, 80),
        "d": st.floats(2, 10),
        "M_y": st.floats(500, 60_000),
    }
)
GAP = st.floats(0, 80)


@given(JOINT)
def test_no_gap_gives_the_modes_of_the_code(joint: dict[str, float]) -> None:
    h, t_1, d, M = (joint[k] for k in ("f_h_1", "t_1", "d", "M_y"))
    b, r = joint["f_h_2"] / h, joint["t_2"] / t_1
    # EN 1995-1-1:2004, (8.6) a to f, without 1.05 and 1.15 and without rope effect.
    code = [
        h * t_1 * d,
        joint["f_h_2"] * joint["t_2"] * d,
        h * t_1 * d / (1 + b)
        * (np.sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r)),
        h * t_1 * d / (2 + b)
        * (np.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * M / (h * d * t_1**2)) - b),
        h * joint["t_2"] * d / (1 + 2 * b)
        * (np.sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * M / (h * d * joint["t_2"] ** 2)) - b),
        np.sqrt(2 * b / (1 + b)) * np.sqrt(2 * M * h * d),
    ]  # fmt: skip
    assert interlayer.single_shear_over_gap(**joint, gap=0.0) == pytest.approx(code, rel=1e-9)


def test_mode_f_of_a_printed_hand_calculation() -> None:
    # Dutch hand calculation to EN 1995-1-1: nails 3.4 x 90, f_h 19.88, M_y 4336, 38 on 71 (52 in):
    # mode f without rope effect 880.5 N, 1.15 in it.
    modes = interlayer.single_shear_over_gap(19.88, 38, 19.88, 52, 3.4, 4336, 0)
    assert printed("880.5") == 1.15 * modes[5]


def test_gap_by_hand() -> None:
    # The same nail across 12.5 mm of board: p = 67.59 N/mm on both sides; two hinges:
    # F^2 / 67.59 + 12.5 F = 8672: F = 67.59/2 (sqrt(156.25 + 4 x 8672/67.59) - 12.5)
    #   = 33.80 (25.874 - 12.5) = 452.0 N, of 765.6 without the gap.
    modes = interlayer.single_shear_over_gap(19.88, 38, 19.88, 52, 3.4, 4336, [0, 12.5])
    assert modes[5] == pytest.approx([765.6, 452.0], abs=0.5)


@given(JOINT, GAP)
def test_mode_f_is_in_equilibrium(joint: dict[str, float], gap: float) -> None:
    F = interlayer.single_shear_over_gap(**joint, gap=gap)[5]
    # Hinge to hinge: crushed lengths and the gap; shear is zero at the hinges, so that the couple
    # of the two resultants is 2 M_y.
    crushed_1, crushed_2 = (F / (joint[h] * joint["d"]) for h in ("f_h_1", "f_h_2"))
    couple = F * (crushed_1 / 2 + gap + crushed_2 / 2)
    assert couple == pytest.approx(2 * joint["M_y"], rel=1e-9)


@given(JOINT, GAP, st.floats(0, 40))
def test_wider_gap_never_carries_more(joint: dict[str, float], gap: float, more: float) -> None:
    one, two = interlayer.single_shear_over_gap(**joint, gap=[gap, gap + more]).T
    assert np.all(two <= one * (1 + 1e-9))
    assert np.all(two > 0)


@given(JOINT, GAP)
def test_turned_round_the_joint_is_the_same(joint: dict[str, float], gap: float) -> None:
    swapped = {
        "f_h_1": joint["f_h_2"], "t_1": joint["t_2"], "f_h_2": joint["f_h_1"],
        "t_2": joint["t_1"], "d": joint["d"], "M_y": joint["M_y"],
    }  # fmt: skip
    one = interlayer.single_shear_over_gap(**joint, gap=gap)
    other = interlayer.single_shear_over_gap(**swapped, gap=gap)
    assert one[[1, 0, 2, 4, 3, 5]] == pytest.approx(other, rel=1e-9)


def test_bar_over_a_gap_by_hand() -> None:
    # 200 N over 20 mm: 2000 N mm in an S, 4000 as a cantilever.
    assert interlayer.bar_moment_over_gap(200, 20, [True, False]) == pytest.approx([2000, 4000])
