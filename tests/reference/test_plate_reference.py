"""Plates against a general-purpose finite-element library.

scikit-fem 12.0.2: Mindlin's equations written out in plan coordinates (deflection and the two
Cartesian slopes, all quadratic on a fine mesh of quadrilaterals, full integration). Nothing is
shared with the project: other unknowns, other element, other geometry (sectors by isoparametric
quadratic meshes), other solver. Plates are 1/40 and thicker, so that these elements don't lock.
"""

from __future__ import annotations

import numpy as np
import pytest
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    MeshQuad2,
    condense,
    solve,
)

from shelfload.solve.plate import (
    AreaLoad,
    Edge,
    Edges,
    PlateGeometry,
    Stiffness,
    rectangle,
    sector,
    solve_plate,
    stiffness_of,
)

WITHIN = 0.01


def by_scikit_fem(
    geometry: PlateGeometry, plate: Stiffness, edges: Edges, cells: tuple[int, int]
) -> tuple[Basis, np.ndarray]:
    """Basis of three fields (w, slope x, slope y) and their values, load 0.001 N/mm2."""
    u = [
        np.linspace(*r, n + 1)
        for r, n in zip((geometry.along, geometry.across), cells, strict=True)
    ]
    mesh = MeshQuad.init_tensor(*u)
    names = {
        "left": mesh.facets_satisfying(lambda x: np.isclose(x[0], u[0][0])),
        "right": mesh.facets_satisfying(lambda x: np.isclose(x[0], u[0][-1])),
        "near": mesh.facets_satisfying(lambda x: np.isclose(x[1], u[1][0])),
        "far": mesh.facets_satisfying(lambda x: np.isclose(x[1], u[1][-1])),
    }
    if geometry.curved:
        mesh = MeshQuad2.from_mesh(mesh)
        angle, radius = mesh.doflocs
        mesh = MeshQuad2(np.stack([radius * np.sin(angle), radius * np.cos(angle)]), mesh.t)
    element = ElementVector(ElementQuad2(), 3)
    basis = Basis(mesh, element, intorder=5)

    @BilinearForm
    def energy(a, b, _):
        (w_x, w_y), (k_x, k_xy), (k_yx, k_y) = a.grad
        (v_x, v_y), (l_x, l_xy), (l_yx, l_y) = b.grad
        bending = (
            plate.D11 * k_x * l_x
            + plate.D22 * k_y * l_y
            + plate.D12 * (k_x * l_y + k_y * l_x)
            + plate.D66 * (k_xy + k_yx) * (l_xy + l_yx)
        )
        shear = plate.S1 * (w_x - a[1]) * (v_x - b[1]) + plate.S2 * (w_y - a[2]) * (v_y - b[2])
        return bending + shear

    @BilinearForm
    def spring(a, b, _):
        return a[0] * b[0]

    @LinearForm
    def load(b, _):
        return 1e-3 * b[0]

    matrix = energy.assemble(basis)
    fixed = []
    for name, facets in names.items():
        edge = getattr(edges, name)
        dofs = basis.get_dofs(facets)
        tangent = "u^2" if name in ("near", "far") else "u^3"
        held = {
            "free": [], "elastic": [], "soft": ["u^1"], "hard": ["u^1", tangent],
            "clamped": ["u^1", "u^2", "u^3"],
        }[edge.kind]  # fmt: skip
        assert not (geometry.curved and edge.kind == "hard")
        fixed += [dofs.all(component) for component in held]
        if edge.k_w:
            boundary = FacetBasis(mesh, element, facets=facets, intorder=5)
            matrix = matrix + edge.k_w * spring.assemble(boundary)
    return basis, solve(*condense(matrix, load.assemble(basis), D=np.unique(np.concatenate(fixed))))


def sag_at(basis: Basis, solution: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Deflection at the nodes nearest to points, which are placed on nodes."""
    nodes = basis.get_dofs(elements=True).all("u^1")
    x = basis.doflocs[:, nodes]
    distance = np.hypot(*(x[:, :, None] - points[:, None, :]))
    assert distance.min(axis=0).max() < 1e-6 * np.ptp(x[0])
    return solution[nodes[distance.argmin(axis=0)]]


def values_at(basis: Basis, solution: np.ndarray, points: np.ndarray) -> np.ndarray:
    """All three fields anywhere on a rectangle."""
    scalar = basis.with_element(ElementQuad2())
    parts = [solution[basis.get_dofs(elements=True).all(f"u^{n}")] for n in (1, 2, 3)]
    return np.stack([scalar.probes(points) @ part for part in parts])


def random_plate(rng: np.random.Generator, size: float) -> Stiffness:
    E_x = rng.uniform(3000, 12000)
    return stiffness_of(
        E_x, E_x / rng.uniform(1, 22), rng.uniform(0.0, 0.3), rng.uniform(500, 1500),
        rng.uniform(80, 800), rng.uniform(40, 400), size / rng.uniform(10, 40),
    )  # fmt: skip


RECTANGLE_EDGES = [
    Edges(left=Edge("hard"), right=Edge("hard"), far=Edge("hard")),
    Edges(left=Edge("soft"), right=Edge("soft"), far=Edge("soft")),
    Edges(left=Edge("clamped"), right=Edge("soft"), near=Edge("hard")),
    Edges(left=Edge("soft"), right=Edge("hard"), far=Edge("elastic", k_w=0.5)),
    Edges(far=Edge("clamped")),
    Edges(left=Edge("soft"), right=Edge("soft")),
]


@pytest.mark.parametrize("n", range(6))
def test_random_rectangles(n):
    rng = np.random.default_rng(100 + n)
    length, depth = rng.uniform(500, 1200), rng.uniform(250, 600)
    plate, edges = random_plate(rng, depth), RECTANGLE_EDGES[n]
    basis, solution = by_scikit_fem(rectangle(length, depth), plate, edges, (40, 24))
    points = np.array([[0.5, 0.5, 0.3], [0.5, 0.0, 0.25]]) * [[length], [depth]]
    expected = sag_at(basis, solution, points)
    result = solve_plate(rectangle(length, depth), plate, edges, [AreaLoad(value=1e-3)])
    assert result.deflection(*points)[:, 0] == pytest.approx(expected, rel=WITHIN)
    # moment in the middle from the gradients of the reference
    x, h = points[:, :1], depth / 200
    shifted = x + h * np.array([[1.0, -1.0, 0.0, 0.0], [0.0, 0.0, 1.0, -1.0]])
    slopes = values_at(basis, solution, shifted)
    k_x = -(slopes[1, 0] - slopes[1, 1]) / (2 * h)
    k_y = -(slopes[2, 2] - slopes[2, 3]) / (2 * h)
    M = result.moments(*x)[0, :, 0]
    size = np.abs(M).max()
    assert M[0] == pytest.approx(plate.D11 * k_x + plate.D12 * k_y, abs=0.02 * size)
    assert M[1] == pytest.approx(plate.D12 * k_x + plate.D22 * k_y, abs=0.02 * size)


SECTOR_EDGES = [
    Edges(left=Edge("soft"), right=Edge("soft")),
    Edges(left=Edge("clamped"), right=Edge("clamped")),
    Edges(left=Edge("soft"), right=Edge("soft"), far=Edge("soft")),
    Edges(left=Edge("soft"), right=Edge("clamped"), near=Edge("elastic", k_w=0.3)),
    Edges(far=Edge("clamped")),
]


@pytest.mark.parametrize("n", range(5))
def test_random_sectors_with_the_grain_along_x(n):
    rng = np.random.default_rng(200 + n)
    inner, depth, angle = rng.uniform(300, 900), rng.uniform(200, 400), rng.uniform(0.5, 2.0)
    geometry, edges = sector(inner, inner + depth, angle), SECTOR_EDGES[n]
    plate = random_plate(rng, depth)
    basis, solution = by_scikit_fem(geometry, plate, edges, (48, 24))
    at = np.array([[0.0, 0.0, 0.25 * angle], [inner + depth / 2, inner, inner + depth * 0.25]])
    points = np.stack([at[1] * np.sin(at[0]), at[1] * np.cos(at[0])])
    expected = sag_at(basis, solution, points)
    result = solve_plate(geometry, plate, edges, [AreaLoad(value=1e-3)])
    assert result.deflection(*at)[:, 0] == pytest.approx(expected, rel=WITHIN)
