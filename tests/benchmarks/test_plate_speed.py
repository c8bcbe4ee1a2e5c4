"""Speed of the plate solver; side by side a general-purpose library (scikit-fem) on one plate."""

from __future__ import annotations

import numpy as np
import pytest
from Pynite import FEModel3D
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
    """Morley's thin-plate triangle, the coarsest of 4, 8, 16 rows within 0.5 % of its limit."""

    def run(rows: int = 8) -> float:
        mesh = MeshTri.init_tensor(np.linspace(0, 900, 2 * rows + 1), np.linspace(0, 300, rows + 1))
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

    assert benchmark(run) == pytest.approx(run(64), rel=0.005)


@pytest.mark.benchmark(group="plate on three edges, sag to 0.5 %")
def test_same_plate_by_pynite(benchmark):
    """PyNite's rectangle mesh of quadrilaterals, 4 rows, isotropic (it knows no other)."""

    def run() -> float:
        model = FEModel3D()
        model.add_material("board", 3000.0, 1200.0, 0.25, 0.0)
        model.add_rectangle_mesh("plate", 75.0, 900.0, 300.0, 5.0, "board", element_type="Quad")
        model.meshes["plate"].generate()
        for node in model.nodes.values():
            held = node.X < 1e-6 or node.X > 900 - 1e-6 or node.Y > 300 - 1e-6
            model.def_support(node.name, True, True, held, False, False, True)
        for quad in model.quads.values():
            model.add_quad_surface_pressure(quad.name, 1e-3, case="load")
        model.add_load_combo("load", {"load": 1.0})
        model.analyze_linear()
        return max(abs(node.DZ["load"]) for node in model.nodes.values())

    same = stiffness_of(3000.0, 3000.0, 0.25, 1200.0, 1200.0, 1200.0, 5.0)
    ours = solve_plate(rectangle(900.0, 300.0), same, BACKED, EVEN).largest_deflection().value
    assert benchmark.pedantic(run, rounds=3) == pytest.approx(ours, rel=0.01)


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
