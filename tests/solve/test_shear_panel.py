"""Panels in bays: rigid movement is free, and slip of the fasteners counts."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.solve.shear_panel import (
    fastener_force,
    panel_shear_rows,
    shear_panel_stiffness,
    sheet_slenderness,
)

QUICK = settings(max_examples=60, deadline=None)
size = st.floats(50.0, 2000.0)


def rectangle(b: float, h: float, angle: float = 0.0) -> np.ndarray:
    corners = np.array([(0.0, 0.0), (b, 0.0), (b, h), (0.0, h)])
    c, s = np.cos(angle), np.sin(angle)
    return corners @ np.array([[c, s], [-s, c]])


@QUICK
@given(size, size, st.floats(0.0, 6.0), st.integers(0, 2**31), st.booleans())
def test_rigid_movement_gives_nothing(
    b: float, h: float, angle: float, seed: int, backwards: bool
) -> None:
    rng = np.random.default_rng(seed)
    corners = rectangle(b, h, angle) + rng.uniform(-0.1, 0.1, (4, 2)) * min(b, h)
    corners = corners[::-1] if backwards else corners
    rows, _ = panel_shear_rows(corners[None])
    x, down = corners[:, 0], -corners[:, 1]
    right, fall, turn = rng.normal(size=3)
    moved = np.stack([right - turn * down, fall + turn * x], axis=1)
    assert rows[0] @ moved.ravel() == pytest.approx(0.0, abs=1e-9 * (b + h) ** 2)


@QUICK
@given(size, size, st.floats(0.0, 6.0), st.integers(0, 3), st.booleans())
def test_rectangle_shears_by_its_angle(
    b: float, h: float, angle: float, first: int, backwards: bool
) -> None:
    corners = rectangle(b, h, angle)
    c, s = np.cos(angle), np.sin(angle)
    gamma = 1e-3
    sway = np.array([0.0, 0.0, gamma * h, gamma * h])  # along the lower edge
    moved = np.stack([sway * c, -sway * s], axis=1)  # right, down
    order = np.roll(np.arange(4), first)
    order = order[::-1] if backwards else order
    rows, area = panel_shear_rows(corners[order][None])
    assert area[0] == pytest.approx(b * h)
    assert abs(rows[0] @ moved[order].ravel()) == pytest.approx(gamma * b * h)
    # Stretching and bending in its own plane meet nothing.
    for shape in ([0, 1, 1, 0], [1, -1, 1, -1]):
        stretch = np.outer(shape, [c, -s])
        assert rows[0] @ stretch[order].ravel() == pytest.approx(0.0, abs=1e-9 * (b + h))


def test_crossed_or_flat_panels_are_refused() -> None:
    with pytest.raises(ValueError, match="convex"):
        panel_shear_rows([[(0, 0), (1, 1), (1, 0), (0, 1)]])
    with pytest.raises(ValueError, match="convex"):
        panel_shear_rows([[(0, 0), (1, 0), (2, 0), (3, 0)]])


def discrete_stiffness(
    G: float, t: float, b: float, h: float, K: float, s: float, *, across: bool
) -> float:
    """Energy of a panel with single fasteners in a frame sheared by 1, at its least.

    The frame's edges stay straight and of their length; free are the panel's own movement
    and turn and its shear angle. ``across``: fasteners resist movement across the edge too.
    """
    columns, rows = round(b / s), round(h / s)
    x = (np.arange(columns) + 0.5) * b / columns - b / 2
    y = (np.arange(rows) + 0.5) * h / rows - h / 2
    edges = [
        (x, np.full(columns, -h / 2), 0),
        (x, np.full(columns, h / 2), 0),
        (np.full(rows, -b / 2), y, 1),
        (np.full(rows, b / 2), y, 1),
    ]
    # Unknowns: u0, v0, turn, gamma of the panel: u = u0 - turn y + gamma y, v = v0 + turn x.
    lines, wanted, weight = [], [], []
    for X, Y, axis in edges:
        for px, py in zip(X, Y, strict=True):
            both = [([1, 0, -py, py], py), ([0, 1, px, 0], 0.0)]
            for component in (0, 1) if across else (axis,):
                row, frame = both[component]
                lines.append(row)
                wanted.append(frame)
                weight.append(K)
    lines.append([0, 0, 0, 1])
    wanted.append(0.0)
    weight.append(G * t * b * h)
    A, f, w = np.array(lines, dtype=float), np.array(wanted), np.sqrt(weight)
    best = np.linalg.lstsq(A * w[:, None], f * w, rcond=None)[0]
    return float(np.sum((w * (A @ best - f)) ** 2) / (b * h))


@pytest.mark.parametrize(("b", "h", "s"), [(800, 400, 20), (400, 400, 10), (300, 1500, 25)])
@pytest.mark.parametrize("K", [100.0, 1e3, 1e5])
def test_slip_as_fastener_by_fastener(b: float, h: float, s: float, K: float) -> None:
    G, t = 600.0, 5.0
    ours = float(shear_panel_stiffness(G, t, b, h, K, s))
    along = discrete_stiffness(G, t, b, h, K, s, across=False)
    assert ours == pytest.approx(along, rel=1e-9)
    # With edges that also hold the fasteners across, it is stiffer, never softer.
    assert ours < discrete_stiffness(G, t, b, h, K, s, across=True)


def test_square_bay_held_across_the_edges_is_a_third_stiffer() -> None:
    # Rigid panel: K_ef = (K/s) / (1/Sxx + 1/Syy) / (b h), continuous: 4/3 of ours.
    soft, a, s = 10.0, 400.0, 2.0
    ours = float(shear_panel_stiffness(1e9, 5.0, a, a, soft, s))
    held = discrete_stiffness(1e9, 5.0, a, a, soft, s, across=True)
    assert held / ours == pytest.approx(4 / 3, rel=1e-3)


@QUICK
@given(size, size, st.floats(1.0, 1e6), st.floats(10.0, 300.0), st.floats(1.0, 10.0))
def test_slip_only_softens(b: float, h: float, K: float, s: float, more: float) -> None:
    glued = float(shear_panel_stiffness(600, 5, b, h, np.inf, s))
    assert glued == pytest.approx(3000.0)
    nailed = float(shear_panel_stiffness(600, 5, b, h, K, s))
    assert 0 < nailed < glued
    assert float(shear_panel_stiffness(600, 5, b, h, K * more, s)) >= nailed
    assert float(shear_panel_stiffness(600, 5, b, h, K, s * more)) <= nailed


def test_limits_and_bad_input() -> None:
    assert float(shear_panel_stiffness(600, 5, 800, 400, 0.0, 100)) == 0.0
    assert float(shear_panel_stiffness(0.0, 5, 800, 400, 1e3, 100)) == 0.0
    for wrong in [(600, 0, 1, 1, 1, 1), (600, 5, 1, 1, -1, 1), (np.nan, 5, 1, 1, 1, 1)]:
        with pytest.raises(ValueError, match="must"):
            shear_panel_stiffness(*wrong)
    assert fastener_force([-0.5, 0.2], 100.0) == pytest.approx([50.0, 20.0])
    assert float(sheet_slenderness(400, 3)) == pytest.approx(400 / 3)
