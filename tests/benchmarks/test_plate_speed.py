"""Speed of the plate solver; side by side a general-purpose library (scikit-fem) on one plate."""

from __future__ import annotations

import numpy as np
import pytest
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd

from shelfload.solve.plate import (
    AreaLoad,
    Edge,
    Edges,
    PointSupport,
    rectangle,
    sector,
    solve_plate,
    stiffness_of,
)

HARD = Edge("hard")
BOARD = stiffness_of(3000.0, 2000.0, 0.25, 1000.0, 1000.0, 1000.0, 5.0)
BACKED = Edges(left=HARD, right=HARD, far=HARD)
EVEN = [AreaLoad(value=1e-3)]


@pytest.mark.benchmark(group="plate on three edges, sag to 0.5 %")
def test_plate_sag(benchmark):
    result = benchmark(
        lambda: solve_plate(rectangle(900.0, 300.0), BOARD, BACKED, EVEN, settle="deflection")
    )
    assert result.deflection_error < 0.005


@pytest.mark.benchmark(group="plate on three edges, sag to 0.5 %")
def test_same_plate_by_scikit_fem(benchmark):
    """Morley's thin-plate triangle on 64 x 32 cells: the coarsest of 16, 32, 64 within 0.5 %."""

    def run() -> float:
        mesh = MeshTri.init_tensor(np.linspace(0, 900, 65), np.linspace(0, 300, 33))
        basis = Basis(mesh, ElementTriMorley())

        @BilinearForm
        def energy(u, v, _):
            a, b = dd(u), dd(v)
            return (
                BOARD.D11 * a[0][0] * b[0][0]
                + BOARD.D22 * a[1][1] * b[1][1]
                + BOARD.D12 * (a[0][0] * b[1][1] + a[1][1] * b[0][0])
                + 4 * BOARD.D66 * a[0][1] * b[0][1]
            )

        @LinearForm
        def load(v, _):
            return 1e-3 * v

        held = mesh.facets_satisfying(
            lambda x: np.isclose(x[0], 0) | np.isclose(x[0], 900) | np.isclose(x[1], 300)
        )
        fixed = basis.get_dofs(held).all("u")
        w = solve(*condense(energy.assemble(basis), load.assemble(basis), D=fixed))
        return float(np.abs(w[basis.get_dofs(elements=True).all("u")]).max())

    found = benchmark.pedantic(run, rounds=3, warmup_rounds=1)
    ours = solve_plate(rectangle(900.0, 300.0), BOARD, BACKED, EVEN).largest_deflection().value
    assert found == pytest.approx(ours, rel=0.02)


@pytest.mark.benchmark(group="plate, sag and moments")
@pytest.mark.parametrize("shape", ["rectangle", "sector", "pins"])
def test_plate_sag_and_moments(benchmark, shape):
    geometry = sector(700.0, 1000.0, 1.0) if shape == "sector" else rectangle(900.0, 300.0)
    points = [PointSupport(along=x, across=y) for x in (0.0, 900.0) for y in (40.0, 260.0)]
    edges = Edges() if shape == "pins" else BACKED
    held = points if shape == "pins" else []
    benchmark(lambda: solve_plate(geometry, BOARD, edges, EVEN, points=held))


@pytest.mark.benchmark(group="plate, growth with order")
@pytest.mark.parametrize("order", [6, 8, 12, 16])
def test_growth_with_order(benchmark, order):
    benchmark(lambda: solve_plate(rectangle(600.0, 300.0), BOARD, BACKED, EVEN, order=order))


@pytest.mark.benchmark(group="plate, growth with load cases")
@pytest.mark.parametrize("cases", [1, 10, 100])
def test_growth_with_cases(benchmark, cases):
    loads = [EVEN] * cases
    benchmark(
        lambda: solve_plate(rectangle(900.0, 300.0), BOARD, BACKED, loads, settle="deflection")
    )
