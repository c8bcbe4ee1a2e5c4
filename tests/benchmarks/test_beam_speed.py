"""How long beams take; run with --benchmark-only. Nothing is asserted on time."""

from __future__ import annotations

import numpy as np
import pytest

from shelfload.solve.beam import Beam, Loads, envelope, solve
from shelfload.solve.section import bonded


def equal_spans(n, **stiffness):
    beam = Beam(length=600.0 * n, support_at=600.0 * np.arange(n + 1), EI=2e9, GA=4e5)
    bay = np.arange(n)
    return beam, Loads.uniform(bay, 600.0 * bay, 600.0 * (bay + 1), 0.5)


@pytest.mark.parametrize("n", [1, 3, 10])
def test_solve(benchmark, n):
    beam, loads = equal_spans(n)
    together = Loads(1, loads.patches * [0, 1, 1, 1, 1])
    result = benchmark(solve, beam, together)
    assert result.reactions.shape == (1, n + 1)


@pytest.mark.parametrize("n", [1, 3, 10])
def test_solve_and_extremes(benchmark, n):
    beam, loads = equal_spans(n)
    together = Loads(1, loads.patches * [0, 1, 1, 1, 1])
    most = benchmark(lambda: solve(beam, together).extremes())
    assert most.w_max.shape == (1, n)


@pytest.mark.parametrize("n", [1, 3, 10])
def test_worst_pattern(benchmark, n):
    result = solve(*equal_spans(n))
    worst = benchmark(envelope, result, np.ones(n), np.ones(n))
    assert worst.extremes.w_max.shape == (n,)


def test_ten_thousand_beams(benchmark):
    EI = np.linspace(1e9, 4e9, 10_000)
    beam = Beam(length=1800.0, support_at=[0.0, 600.0, 1200.0, 1800.0], EI=EI, GA=EI / 5e3)
    loads = Loads.uniform(0, 0.0, 1800.0, 0.5)
    most = benchmark(lambda: solve(beam, loads).extremes())
    assert most.w_max.shape == (10_000, 1, 3)


def test_ten_thousand_sections(benchmark):
    h = np.linspace(12.0, 40.0, 10_000)[:, None] * [1.0, 2.0]
    shape = benchmark(
        bonded, [3000.0, 11000.0], [150.0, 700.0], [280.0, 20.0], h, [160.0, 10.0], h / 2
    )
    assert shape.EI.shape == (10_000,)
