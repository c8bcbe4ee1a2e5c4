"""Buckling of frames as a whole against the Euler cases and their like."""

from __future__ import annotations

import numpy as np
import pytest

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_model import Frame
from shelfload.solve.sway_buckling import sway_buckling_factor


def post(*, joint: float = np.inf, EI: float = 1e8, GA: float = np.inf, L: float = 800.0) -> Frame:
    return Frame(
        nodes=[(0, 0), (0, L)],
        members=[(0, 1)],
        EA=1e9,
        EI=EI,
        GA=GA,
        joints=[(joint, np.inf)],
        fixed=[[True] * 3, [False] * 3],
    )


def factor_under(frame: Frame, down: list[float]) -> float:
    nodal = np.zeros((len(frame.nodes), 3, 1))
    nodal[-len(down) :, 1, 0] = down
    return float(sway_buckling_factor(solve_frame(frame, nodal=nodal))[0])


def test_cantilever_post() -> None:
    # Euler: pi2 EI / (2 L)2; the cubic shape gives 2.5 EI / L2
    euler = np.pi**2 * 1e8 / (4 * 800.0**2)
    found = factor_under(post(), [1.0])
    assert euler <= found < 1.014 * euler


@pytest.mark.parametrize("GA", [1e5, 1e3, 300.0])
def test_post_soft_in_shear(GA: float) -> None:
    # Engesser: 1/P = 1/P_E + 1/GA (Timoshenko and Gere, Theory of Elastic Stability, 2.17)
    euler = np.pi**2 * 1e8 / (4 * 800.0**2)
    engesser = 1 / (1 / euler + 1 / GA)
    # A shape of constant shear is too stiff, the more so where bending and shear mix.
    assert engesser < factor_under(post(GA=GA), [1.0]) < 1.06 * engesser


def test_stiff_post_on_a_spring() -> None:
    # P L turn = k turn
    assert factor_under(post(joint=1e5, EI=1e15), [1.0]) == pytest.approx(1e5 / 800.0, rel=1e-5)


def test_portal_with_stiff_beam() -> None:
    # Posts fixed at both ends, free to sway: pi2 EI / L2 each
    L, EI = 800.0, 1e8
    frame = Frame(
        nodes=[(0, 0), (900, 0), (0, L), (900, L)],
        members=[(0, 2), (1, 3), (2, 3)],
        EA=1e9,
        EI=[EI, EI, 1e13],
        fixed=[[True] * 3, [True] * 3, [False] * 3, [False] * 3],
    )
    euler = np.pi**2 * EI / L**2
    assert factor_under(frame, [1.0, 1.0]) == pytest.approx(euler, rel=0.014)
    # All on one post: the other helps, so about the same in total.
    assert factor_under(frame, [0.0, 2.0]) == pytest.approx(euler, rel=0.02)


def test_cut_into_pieces_it_tends_to_euler() -> None:
    L, n = 800.0, 8
    frame = Frame(
        nodes=[(0, z) for z in np.linspace(0, L, n + 1)],
        members=[(i, i + 1) for i in range(n)],
        EA=1e9,
        EI=1e8,
        fixed=[[True] * 3] + [[False] * 3] * n,
    )
    assert factor_under(frame, [1.0]) == pytest.approx(np.pi**2 * 1e8 / (4 * L**2), rel=1e-4)


def test_pulled_or_empty_never_buckles() -> None:
    assert factor_under(post(), [-1.0]) == np.inf
    assert factor_under(post(), [0.0]) == np.inf
