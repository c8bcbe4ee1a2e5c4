"""The plate solver: patch tests, limits, equilibrium, symmetry, order of convergence, errors.

Symbols: D bending stiffness, S shear stiffness, L length, q load per area; alpha in the tables.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.errors import Mechanism
from shelfload.solve.plate import (
    AreaLoad,
    Edge,
    Edges,
    LineLoad,
    LineSupport,
    PlateResult,
    PointLoad,
    PointSupport,
    Stiffness,
    rectangle,
    sector,
    solve_plate,
    stiffness_of,
)
from shelfload.solve.plate_element import local_stiffness

HARD, SOFT, CLAMPED = Edge("hard"), Edge("soft"), Edge("clamped")
BOARD = stiffness_of(3000.0, 2000.0, 0.25, 1000.0, 100.0, 100.0, 18.0)
SOLID = stiffness_of(11000.0, 500.0, 0.4, 700.0, 700.0, 50.0, 18.0)
SHELF = rectangle(900.0, 300.0)
BACKED = Edges(left=HARD, right=HARD, far=HARD)
NAILED = Edges(left=HARD, right=HARD, far=Edge("elastic", k_w=1.0))
EVEN = [AreaLoad(value=1e-3)]


def total_reaction(result: PlateResult) -> np.ndarray:
    lines = sum(result.reaction(line.name) for line in result.lines)
    return np.asarray(lines + result.point_reactions.sum(axis=0))


def sag(result: PlateResult) -> float:
    return result.largest_deflection().value


# --- patch tests ---------------------------------------------------------------------------


def test_constant_twist_on_three_corners_is_exact():
    """A rectangle held at three corners, loaded at the fourth: M_xy = P / 2 everywhere.

    Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., art. 11;
    the load and supports act on small squares, so the middle is looked at.
    """
    corners = [
        PointSupport(along=x, across=y, footprint=1.0) for x, y in ((0, 0), (900, 0), (0, 300))
    ]
    load = PointLoad(value=10.0, along=900.0, across=300.0, footprint=1.0)
    thin = stiffness_of(3000.0, 2000.0, 0.25, 1000.0, 1000.0, 1000.0, 3.0)
    result = solve_plate(SHELF, thin, Edges(), [load], points=corners)
    M = result.moments([450.0, 300.0], [150.0, 100.0])[:, :, 0]
    assert M[:, 2] == pytest.approx(-5.0, rel=0.005)
    assert np.abs(M[:, :2]).max() < 0.05
    assert result.point_reactions[:, 0] == pytest.approx([-10.0, 10.0, 10.0], rel=0.01)


@pytest.mark.parametrize("patches", [[], [AreaLoad(value=0.0, along=(300.0, 500.0))]])
def test_linear_curvature_and_constant_shear_are_exact(patches):
    """A strip with nu = 0 fixed at one end, loaded at the other: w = P x^2 (3L - x) / 6D + P x/S.

    Exact at order 4, thin or thick, also where a patch of no load cuts the mesh.
    """
    for thickness in (300.0, 18.0, 1.0):
        plate = stiffness_of(3000.0, 2000.0, 0.0, 1000.0, 150.0, 100.0, thickness)
        result = solve_plate(
            SHELF, plate, Edges(left=CLAMPED), [LineLoad(value=0.2, along=900.0), *patches],
            order=4,
        )  # fmt: skip
        x = np.array([100.0, 450.0, 870.0])
        w = 0.2 * x**2 * (2700.0 - x) / (6 * plate.D11) + 0.2 * x / plate.S1
        assert result.deflection(x, 120.0)[:, 0] == pytest.approx(w, rel=1e-5)
        M = result.moments(x, 120.0)[:, :, 0]
        assert M[:, 0] == pytest.approx(-0.2 * (900.0 - x), rel=1e-4)
        assert np.abs(M[:, 1:]).max() < 1e-4 * 180.0
        Q = result.shears(x, 120.0)[:, :, 0]
        assert Q[:, 0] == pytest.approx(0.2, rel=1e-3)


def test_linear_deflection_costs_nothing():
    """A plane tilt on springs: deflection w = c0 + c1 x + c2 y and no moment, patch of order 0."""
    springs = Edge("elastic", k_w=1.0)
    load = PointLoad(value=1.0, along=450.0, across=150.0)
    stiff = Stiffness(*(1e12 * np.array([3.0, 2.0, 0.5, 1.0])), 1e10, 1e10)
    result = solve_plate(SHELF, stiff, Edges(left=springs, right=springs), [load])
    w = result.deflection([0.0, 300.0, 900.0], [0.0, 150.0, 300.0])
    assert w == pytest.approx(np.full((3, 1), 1.0 / 600.0), rel=1e-4)


# --- locking, limits -----------------------------------------------------------------------


@pytest.mark.parametrize("slenderness", [5, 20, 100, 500, 2000])
def test_no_shear_locking(slenderness):
    """All four edges hard, one sine half-wave each way is exact: w = q / (D k^4) + q / (S k^2).

    Source: double series of Mindlin's equations, R. D. Mindlin, J. Appl. Mech. 18 (1951) 31,
    whose deflection on hard simple supports is Kirchhoff's plus the shear part, term by term.
    """
    a, nu, E = 1000.0, 0.3, 1e4
    G = E / 2 / (1 + nu)
    plate = stiffness_of(E, E, nu, G, G, G, a / slenderness)
    result = solve_plate(
        rectangle(a, a), plate, Edges(left=HARD, right=HARD, near=HARD, far=HARD), EVEN
    )
    m, n = np.meshgrid(np.arange(1, 400, 2.0), np.arange(1, 400, 2.0))
    k2 = (np.pi / a) ** 2 * (m**2 + n**2)
    sign = np.sin(m * np.pi / 2) * np.sin(n * np.pi / 2)
    q_mn = 16e-3 / np.pi**2 / (m * n) * sign
    exact = float(np.sum(q_mn / (plate.D11 * k2**2) + q_mn / (plate.S1 * k2)))
    assert float(result.deflection(500.0, 500.0)[0, 0]) == pytest.approx(exact, rel=2e-4)


@pytest.mark.parametrize("plate", [BOARD, SOLID], ids=["board", "solid"])
def test_orthotropic_double_series(plate):
    """Each sine term solves Mindlin's three equations on hard supports exactly.

    Own derivation: w, a, b = W sin sin, A cos sin, B sin cos; virtual work gives a 3 x 3
    system per term with k = m pi / a, l = n pi / b.
    """
    a, b = 900.0, 500.0
    edges = Edges(left=HARD, right=HARD, near=HARD, far=HARD)
    result = solve_plate(rectangle(a, b), plate, edges, EVEN)
    m, n = (g.ravel() for g in np.meshgrid(np.arange(1, 120, 2.0), np.arange(1, 120, 2.0)))
    k, h = m * np.pi / a, n * np.pi / b
    cross = (plate.D12 + plate.D66) * k * h
    rows = [
        [plate.S1 * k**2 + plate.S2 * h**2, -plate.S1 * k, -plate.S2 * h],
        [-plate.S1 * k, plate.D11 * k**2 + plate.D66 * h**2 + plate.S1, cross],
        [-plate.S2 * h, cross, plate.D22 * h**2 + plate.D66 * k**2 + plate.S2],
    ]
    matrix = np.moveaxis(np.array(rows), 2, 0)
    q = 16e-3 / np.pi**2 / (m * n)
    W, A, B = np.linalg.solve(matrix, np.stack([q, 0 * q, 0 * q], axis=1)[..., None])[..., 0].T
    shape = np.sin(m * np.pi / 2) * np.sin(n * np.pi / 2)
    w = float(np.sum(W * shape))
    M_x = float(np.sum((plate.D11 * k * A + plate.D12 * h * B) * shape))
    M_y = float(np.sum((plate.D12 * k * A + plate.D22 * h * B) * shape))
    assert float(result.deflection(a / 2, b / 2)[0, 0]) == pytest.approx(w, rel=5e-4)
    M = result.moments(a / 2, b / 2)[0, :2, 0]
    assert M == pytest.approx([M_x, M_y], abs=0.005 * max(M_x, M_y))


@pytest.mark.parametrize("slenderness", [5, 50, 2000])
def test_no_shear_locking_on_a_sector(slenderness):
    """A far, shallow sector is a rectangle, at any thickness, grain along."""
    plate = stiffness_of(9000.0, 600.0, 0.3, 700.0, 700.0, 60.0, 900.0 / slenderness)
    flat = solve_plate(SHELF, plate, BACKED, EVEN)
    R = 1e6
    bent = solve_plate(sector(R - 150.0, R + 150.0, 900.0 / R), plate, BACKED, EVEN)
    assert sag(bent) == pytest.approx(sag(flat), rel=0.003)


def test_wide_strip_bends_to_a_cylinder():
    """Two held ends and very deep: w = 5 q L^4 / 384 D + q L^2 / 8 S in the middle.

    Source: S. Timoshenko, S. Woinowsky-Krieger, 2nd ed., art. 2, plus shear of a strip.
    """
    result = solve_plate(rectangle(400.0, 3000.0), BOARD, Edges(left=SOFT, right=SOFT), EVEN)
    exact = 5 * 1e-3 * 400.0**4 / (384 * BOARD.D11) + 1e-3 * 400.0**2 / (8 * BOARD.S1)
    assert float(result.deflection(200.0, 1500.0)[0, 0]) == pytest.approx(exact, rel=2e-4)


def test_soft_ends_sag_more_than_hard_with_low_rolling_shear():
    sags = [
        sag(solve_plate(sector(400.0, 800.0, 1.2), SOLID, Edges(left=e, right=e, far=e), EVEN))
        for e in (SOFT, HARD, CLAMPED)
    ]
    assert sags[0] > 1.05 * sags[1] > 1.05 * sags[2]


def test_elastic_edge_lies_between_free_and_supported():
    back = [Edge(), *(Edge("elastic", k_w=k) for k in (1e-5, 0.1, 1.0, 10.0, 1e4)), SOFT]
    sags = [
        sag(solve_plate(SHELF, BOARD, Edges(left=HARD, right=HARD, far=edge), EVEN))
        for edge in back
    ]
    assert all(a > b for a, b in pairwise(sags))
    assert sags[1] == pytest.approx(sags[0], rel=0.01)
    assert sags[-2] == pytest.approx(sags[-1], rel=0.01)


def test_turning_springs_lie_between_soft_and_clamped():
    back = [SOFT, *(Edge("soft", k_turn=k) for k in (1e2, 1e4, 1e7)), CLAMPED]
    sags = [sag(solve_plate(SHELF, BOARD, Edges(left=e, right=e, far=e), EVEN)) for e in back]
    assert all(a > b for a, b in pairwise(sags))
    assert sags[-2] == pytest.approx(sags[-1], rel=0.02)


@pytest.mark.parametrize("GA", [0.0, 1e6])
def test_edge_beams_add_their_stiffness(GA):
    """Two equal edge beams on a narrow strip: 5 q b L^4 / 384 (EI_plate + 2 EI).

    The strip does not shear, so that what shear stiffness the beams have makes no difference.
    """
    strip = stiffness_of(3000.0, 3000.0, 0.0, 1500.0, 1e5, 1e5, 10.0)
    lipped = Edge(EI=4e6, GA=GA)
    ends = {"left": SOFT, "right": SOFT}
    result = solve_plate(
        rectangle(1000.0, 60.0), strip, Edges(**ends, near=lipped, far=lipped), EVEN
    )
    EI = 3000.0 * 60.0 * 10.0**3 / 12 + 8e6
    exact = 5 * 1e-3 * 60.0 * 1000.0**4 / (384 * EI)
    assert sag(result) == pytest.approx(exact, rel=0.002)


def test_edge_beams_add_their_shear_stiffness():
    """Two Timoshenko beams carry a strip that is too soft to help: 5 q L^4 / 384 EI + q L^2 / 8 GA.

    Source: any beam table; the strip's own shear stiffness is a 400th of theirs.
    """
    EI, GA = 4e9, 2e4
    strip = stiffness_of(3000.0, 3000.0, 0.0, 1500.0, 0.2, 1e5, 10.0)
    lipped, ends = Edge(EI=EI, GA=GA), {"left": SOFT, "right": SOFT}
    result = solve_plate(
        rectangle(1000.0, 60.0), strip, Edges(**ends, near=lipped, far=lipped), EVEN
    )
    q = 1e-3 * 60.0 / 2
    exact = 5 * q * 1000.0**4 / (384 * EI) + q * 1000.0**2 / (8 * GA)
    assert sag(result) == pytest.approx(exact, rel=0.01)


@pytest.mark.parametrize(
    ("at", "reach", "cut", "end"),
    [({"across": 150.0}, "along", 300.0, 900.0), ({"along": 400.0}, "across", 100.0, 300.0)],
)
def test_two_half_springs_are_the_whole_one(at, reach, cut, end):
    whole, left, right = (
        LineSupport(**at, k_w=0.05, **{reach: ends})
        for ends in ((0.0, end), (0.0, cut), (cut, end))
    )
    edges = Edges(left=SOFT, right=SOFT)
    one, two, part = (
        solve_plate(SHELF, BOARD, edges, EVEN, lines=lines)
        for lines in ([whole], [left, right], [right])
    )
    assert sag(two) == pytest.approx(sag(one), rel=1e-3)
    assert sag(part) > 1.02 * sag(one)


@pytest.mark.parametrize(
    ("place", "at"), [(0.0, 20.0), (10.0, 20.0), (890.0, 880.0), (450.0, 450.0)]
)
def test_what_stands_at_the_end_of_a_plate_stands_within_it(place, at):
    """A foot of 40 mm whose middle is nearer than 20 mm to the end has its middle 20 mm in."""
    edges = Edges(left=SOFT, right=SOFT)
    given, meant = (
        solve_plate(
            SHELF, BOARD, edges, [PointLoad(value=10.0, along=x, across=150.0, footprint=40.0)]
        )
        for x in (place, at)
    )
    assert sag(given) == pytest.approx(sag(meant), rel=1e-9)
    # statics: the right end carries its share of the load
    assert given.reaction("right")[0] == pytest.approx(10.0 * at / 900.0, rel=1e-6)


def test_line_support_makes_two_spans():
    """Two equal spans: middle reaction 10/8 q L per length, moment -q L^2 / 8 (textbook)."""
    strip = stiffness_of(3000.0, 3000.0, 0.0, 1500.0, 1e5, 1e5, 10.0)
    result = solve_plate(
        rectangle(1000.0, 200.0), strip, Edges(left=SOFT, right=SOFT), EVEN,
        lines=[LineSupport(along=500.0)],
    )  # fmt: skip
    assert float(result.reaction("line 0")[0]) == pytest.approx(1.25 * 1e-3 * 500 * 200, rel=1e-3)
    assert result.moments(500.0, 100.0)[0, 0, 0] == pytest.approx(-1e-3 * 500**2 / 8, rel=1e-3)


def test_edge_held_over_part_of_its_length():
    """More of the rear held, less sag; all of it is the soft edge."""
    sags = []
    for share in (0.0, 0.3, 0.7, 1.0):
        half = 450.0 * share
        lines = [LineSupport(across=300.0, along=(450.0 - half, 450.0 + half))] if half else []
        ends = Edges(left=SOFT, right=SOFT)
        result = solve_plate(SHELF, BOARD, ends, EVEN, lines=lines, settle="deflection")
        assert total_reaction(result) == pytest.approx(result.loads, rel=1e-8)
        sags.append(sag(result))
    assert all(a > b for a, b in pairwise(sags))
    whole = solve_plate(SHELF, BOARD, Edges(left=SOFT, right=SOFT, far=SOFT), EVEN)
    assert sags[-1] == pytest.approx(sag(whole), rel=0.002)


def test_line_load_is_the_limit_of_a_narrow_patch():
    loads = [
        [LineLoad(value=0.5, along=300.0, across=(50.0, 200.0))],
        [AreaLoad(value=0.5, along=(299.5, 300.5), across=(50.0, 200.0))],
    ]
    w = solve_plate(SHELF, BOARD, BACKED, loads).deflection([300.0, 500.0], [100.0, 0.0])
    assert w[:, 0] == pytest.approx(w[:, 1], rel=2e-3)


def test_sprung_line_support_between_none_and_rigid():
    sags = [
        sag(solve_plate(SHELF, BOARD, Edges(left=SOFT, right=SOFT), EVEN, lines=lines))
        for lines in (
            [],
            [LineSupport(along=400.0, k_w=0.5)],
            [LineSupport(along=400.0, k_w=5.0)],
            [LineSupport(along=400.0)],
        )
    ]
    assert all(a > b for a, b in pairwise(sags))


def test_patch_loads_add_up_to_the_whole():
    halves = [[AreaLoad(value=1e-3, along=r)] for r in ((0.0, 450.0), (450.0, 900.0))]
    both = solve_plate(SHELF, BOARD, BACKED, [*halves, EVEN])
    w = both.deflection([200.0, 450.0, 700.0], [0.0, 100.0, 50.0])
    assert w[:, 0] + w[:, 1] == pytest.approx(w[:, 2], rel=1e-9)
    assert both.loads == pytest.approx([135.0, 135.0, 270.0])


def test_moment_under_a_point_load_grows_as_its_footprint_shrinks():
    M = [
        solve_plate(
            SHELF, BOARD, BACKED,
            [PointLoad(value=100.0, along=450.0, across=150.0, footprint=c)],
        ).largest_moment(0).value
        for c in (80.0, 40.0, 20.0)
    ]  # fmt: skip
    steps = np.diff(M)
    # each halving adds about P / (4 pi) (1 + nu) ln 2: the logarithm of Kirchhoff's plate
    assert steps == pytest.approx(100.0 / (4 * math.pi) * 1.25 * math.log(2), rel=0.35)


# --- equilibrium, symmetry, superposition --------------------------------------------------

edge_kinds = st.sampled_from([HARD, SOFT, CLAMPED, Edge("elastic", k_w=0.7, k_turn=30.0)])
rigid_kinds = st.sampled_from([HARD, SOFT, CLAMPED])
maybe_free = st.one_of(st.just(Edge()), edge_kinds)
few = settings(max_examples=15, deadline=None)


@few
@given(
    left=edge_kinds, right=edge_kinds, far=maybe_free,
    length=st.floats(400, 2000), depth=st.floats(150, 700), thickness=st.floats(6, 40),
    place=st.floats(0.1, 0.9), curved=st.booleans(),
)  # fmt: skip
def test_reactions_balance_loads(left, right, far, length, depth, thickness, place, curved):
    plate = stiffness_of(9000.0, 600.0, 0.3, 700.0, 700.0, 60.0, thickness)
    geometry = sector(length / 2, length / 2 + depth, 1.0) if curved else rectangle(length, depth)
    (a, b), (c, d) = geometry.along, geometry.across
    loads = [
        [AreaLoad(value=1e-3, along=(a, a + place * (b - a)))],
        [LineLoad(value=0.3, across=c), PointLoad(value=50.0, along=a + place * (b - a), across=d)],
    ]
    result = solve_plate(geometry, plate, Edges(left=left, right=right, far=far), loads, order=6)
    assert total_reaction(result) == pytest.approx(result.loads, rel=1e-8)


@few
@given(
    left=rigid_kinds, right=rigid_kinds, far=rigid_kinds, place=st.floats(0.1, 0.9),
    thickness=st.floats(6, 40), angle=st.floats(0.3, 2.5), curved=st.booleans(),
)  # fmt: skip
def test_moments_about_the_plan_axes_balance(left, right, far, place, thickness, angle, curved):
    """Forces and couples of all holding lines against a point load, about x and about y.

    The work of the holding forces on a tilt of the whole plate is minus that of the load.
    """
    plate = stiffness_of(9000.0, 600.0, 0.3, 700.0, 700.0, 60.0, thickness)
    geometry = sector(500.0, 800.0, angle) if curved else SHELF
    (a, b), (c, d) = geometry.along, geometry.across
    s, t = a + place * (b - a), c + 0.4 * (d - c)
    load = PointLoad(value=100.0, along=s, across=t, footprint=1.0)
    result = solve_plate(geometry, plate, Edges(left=left, right=right, far=far), [load], order=8)
    mesh = result.plate
    u, v = np.meshgrid(mesh.along.nodes, mesh.across.nodes, indexing="ij")
    turn = mesh.rotation(u)
    x, y = (v * np.sin(u), v * np.cos(u)) if curved else (u, v)
    h = v if curved else np.ones_like(v)
    at = (t * math.sin(s), t * math.cos(s)) if curved else (s, t)
    held = result.nodal[..., 0]
    for direction in (0, 1):
        w = (x, y)[direction]
        along = h * (np.cos(turn) if direction == 0 else -np.sin(turn))
        across = np.sin(turn) if direction == 0 else np.cos(turn)
        work = np.sum(held[:, 0] * w + held[:, 1] * along + held[:, 2] * across)
        assert work == pytest.approx(100.0 * at[direction], rel=1e-6, abs=1e-4 * 800.0)


@few
@given(x=st.floats(0.0, 0.3), pins=st.booleans())
def test_tilting_balance_with_pins(x, pins):
    """Four pins: forces and both moments of forces balance the load."""
    places = [(x * 900, 40.0), (900.0, 20.0), (30.0, 260.0), (870.0, 300.0)]
    points = [PointSupport(along=u, across=v, k_w=math.inf if pins else 800.0) for u, v in places]
    load = PointLoad(value=100.0, along=600.0, across=90.0)
    result = solve_plate(SHELF, BOARD, Edges(), [load], points=points, order=6)
    R = result.point_reactions[:, 0]
    at = np.clip(places, 5.0, [895.0, 295.0])
    assert R.sum() == pytest.approx(100.0, rel=1e-8)
    assert R @ at == pytest.approx([60000.0, 9000.0], rel=1e-6)


@few
@given(place=st.floats(0.05, 0.45), depth=st.floats(0.0, 1.0))
def test_mirror_image(place, depth):
    y = 300.0 * depth
    loads = [
        [PointLoad(value=10.0, along=900.0 * place, across=y)],
        [PointLoad(value=10.0, along=900.0 * (1 - place), across=y)],
    ]
    result = solve_plate(SHELF, BOARD, BACKED, loads, order=6)
    w = result.deflection([200.0, 700.0], [50.0, 50.0])
    assert w[0, 0] == pytest.approx(w[1, 1], rel=1e-7)
    M = result.moments([200.0, 700.0], [50.0, 50.0])
    assert M[0, :, 0] == pytest.approx(M[1, :, 1] * [1.0, 1.0, -1.0], rel=1e-5, abs=1e-6)


def test_reciprocity():
    """Maxwell-Betti: the mean deflection under one footprint by a load on the other."""
    spots = [(200.0, 40.0), (610.0, 210.0)]
    loads = [[PointLoad(value=1.0, along=x, across=y, footprint=1.0)] for x, y in spots]
    result = solve_plate(SHELF, SOLID, BACKED, loads)
    w = result.deflection(*np.transpose(spots))
    assert w[0, 1] == pytest.approx(w[1, 0], rel=1e-4)


@few
@given(st.floats(4.0, 60.0), st.floats(1.02, 2.0), st.floats(0.1, 10.0))
def test_thicker_sags_less_and_load_scales(thickness, factor, load):
    def at(t: float, q: float) -> float:
        plate = stiffness_of(3000.0, 2000.0, 0.25, 1000.0, 100.0, 100.0, t)
        return sag(solve_plate(SHELF, plate, BACKED, [AreaLoad(value=q)], order=6))

    thin = at(thickness, 1e-3)
    assert at(thickness * factor, 1e-3) < thin
    assert at(thickness, load * 1e-3) == pytest.approx(load * thin, rel=1e-9)


@few
@given(st.floats(0.01, 100.0), st.floats(1.05, 10.0))
def test_stiffer_pins_sag_less(k, factor):
    places = [(0.0, 40.0), (900.0, 40.0), (0.0, 260.0), (900.0, 260.0)]

    def at(k: float) -> float:
        points = [PointSupport(along=x, across=y, k_w=k) for x, y in places]
        return sag(solve_plate(SHELF, BOARD, Edges(), EVEN, points=points, order=6))

    assert at(k * factor) < at(k)


def test_shears_balance_the_load_over_a_cut():
    result = solve_plate(SHELF, BOARD, Edges(left=HARD, right=HARD), EVEN)
    y, weights = np.polynomial.legendre.leggauss(40)
    y = 150.0 * (y + 1)
    Q = result.shears(np.full(40, 300.0), y)[:, 0, 0]
    assert 150.0 * weights @ Q == pytest.approx(1e-3 * 300.0 * 150.0, rel=0.005)


@pytest.mark.parametrize(("kind", "thickness"), [("hard", 6.0), ("soft", 2.0)])
def test_corners_want_to_lift(kind, thickness):
    """All round supported and thin: the corner force nears Kirchhoff's 0.065 q a^2, upward.

    Source: S. Timoshenko, S. Woinowsky-Krieger, 2nd ed., Table 8 (digits from memory). On soft
    edges shear lowers it in proportion to the thickness, hence the thinner plate.
    """
    e = Edge(kind)
    thin = stiffness_of(3000.0, 3000.0, 0.3, *[3000.0 / 2.6] * 3, thickness=thickness)
    result = solve_plate(rectangle(900.0, 900.0), thin, Edges(left=e, right=e, near=e, far=e), EVEN)
    for corner in ("left near", "right near", "left far", "right far"):
        assert float(result.corner_uplift(corner)[0]) == pytest.approx(0.065 * 810.0, rel=0.03)
    free = solve_plate(SHELF, BOARD, Edges(left=e, right=e), EVEN)
    assert float(free.corner_uplift("left near")[0]) == 0.0


def test_corner_between_a_hard_and_a_soft_edge_shows_the_half_of_the_soft_one():
    """2 M_xy is M_xy from either edge; a hard edge carries its own as a couple along it."""
    thin = stiffness_of(3000.0, 3000.0, 0.3, *[3000.0 / 2.6] * 3, thickness=2.0)
    edges = Edges(left=HARD, right=HARD, near=SOFT, far=SOFT)
    result = solve_plate(rectangle(900.0, 900.0), thin, edges, EVEN)
    lift = float(result.corner_uplift("left near")[0])
    assert lift == pytest.approx(0.065 * 810.0 / 2, rel=0.03)


def test_shears_of_a_sector_balance_the_load():
    """A radial cut carries the load up to the middle; div Q = -q inside."""
    inner, outer = 600.0, 900.0
    result = solve_plate(sector(inner, outer, 1.0), BOARD, Edges(left=HARD, right=HARD), EVEN)
    r, weights = np.polynomial.legendre.leggauss(40)
    r = inner + (outer - inner) * (r + 1) / 2
    Q = result.shears(np.full(40, -0.25), r, "edge")[:, 0, 0]
    load = 1e-3 * 0.25 * (outer**2 - inner**2) / 2
    assert (outer - inner) / 2 * weights @ Q == pytest.approx(load, rel=0.01)
    angle, radius, step = 0.17, 740.0, 1e-3
    Q_1 = result.shears([angle - step, angle + step], radius, "edge")[:, 0, 0]
    Q_2 = result.shears(angle, [radius - 1, radius + 1], "edge")[:, 1, 0] * [radius - 1, radius + 1]
    divergence = (np.diff(Q_1) / (2 * step) + np.diff(Q_2) / 2) / radius
    assert divergence == pytest.approx(-1e-3, rel=0.02)
    plan = result.shears(angle, radius)[0, :, 0]
    local = result.shears(angle, radius, "edge")[0, :, 0]
    assert np.hypot(*plan) == pytest.approx(np.hypot(*local))
    assert plan[0] == pytest.approx(local[0] * math.cos(angle) + local[1] * math.sin(angle))


def test_reaction_distribution_integrates_to_the_total():
    result = solve_plate(SHELF, BOARD, BACKED, EVEN)
    x, weights = np.polynomial.legendre.leggauss(40)
    along = result.reaction_along("far", 450.0 * (x + 1))[:, 0]
    assert 450.0 * weights @ along == pytest.approx(float(result.reaction("far")[0]), rel=1e-9)


# --- axes ----------------------------------------------------------------------------------


def test_stiffness_turns_with_the_axes():
    quarter = local_stiffness(SOLID, np.array([math.pi / 2]))[0]
    assert quarter[0, 0] == pytest.approx(SOLID.D22)
    assert quarter[1, 1] == pytest.approx(SOLID.D11)
    assert quarter[3, 3] == pytest.approx(SOLID.S2)
    free_of_axes = local_stiffness(SOLID, np.linspace(0, 3, 7))
    invariant = free_of_axes[:, 0, 0] + free_of_axes[:, 1, 1] + 2 * free_of_axes[:, 0, 1]
    assert invariant == pytest.approx(SOLID.D11 + SOLID.D22 + 2 * SOLID.D12)


def test_moments_in_plan_axes_have_the_same_principal_values():
    result = solve_plate(sector(500.0, 800.0, 1.4), SOLID, Edges(left=SOFT, right=SOFT), EVEN)
    at = (np.array([-0.5, 0.2, 0.6]), np.array([520.0, 640.0, 790.0]))
    M = result.moments(*at)[:, :, 0]
    mean, half = (M[:, 0] + M[:, 1]) / 2, (M[:, 0] - M[:, 1]) / 2
    assert result.principal_moments(*at)[:, 0, 0] == pytest.approx(mean + np.hypot(half, M[:, 2]))
    peak = result.largest_moment(3, -1.0)
    there = result.principal_moments(peak.along, peak.across)[0, :, 0]
    assert peak.value == pytest.approx(there[1])
    assert peak.value <= result.largest_moment(1, -1.0).value
    # the material law in plan axes: M_x from curvatures is what it is in local axes, mirrored
    mirrored = result.moments(-at[0], at[1])[:, :, 0]
    assert mirrored == pytest.approx(M * [1.0, 1.0, -1.0], rel=1e-6, abs=1e-6)


# --- accuracy ------------------------------------------------------------------------------


def test_error_falls_exponentially_with_the_order():
    """Each two orders divide the error of sag by five and more on a smooth plate."""
    edges = Edges(left=HARD, right=HARD, near=HARD, far=HARD)
    exact = sag(solve_plate(rectangle(500.0, 400.0), BOARD, edges, EVEN, order=16))
    errors = [
        abs(sag(solve_plate(rectangle(500.0, 400.0), BOARD, edges, EVEN, order=p)) / exact - 1)
        for p in (4, 6, 8)
    ]
    assert all(fine < coarse / 5 for coarse, fine in pairwise(errors))
    assert errors[-1] < 1e-4


@pytest.mark.parametrize("plate", [BOARD, SOLID], ids=["board", "solid"])
@pytest.mark.parametrize(
    ("edges", "loads"),
    [
        (BACKED, EVEN),
        (Edges(left=SOFT, right=SOFT, far=SOFT), EVEN),
        (Edges(left=SOFT, right=SOFT), [LineLoad(value=0.2, across=0.0)]),
        (NAILED, [AreaLoad(value=1e-3, along=(0.0, 450.0))]),
        (Edges(left=CLAMPED, right=SOFT, far=HARD), EVEN),
        (BACKED, [PointLoad(value=100.0, along=300.0, across=10.0)]),
    ],
)  # fmt: skip
@pytest.mark.parametrize("curved", [False, True])
def test_automatic_order_keeps_its_promise(plate, edges, loads, curved):
    """Against order 16: sag to 0.5 %, the largest M_x and M_y to 2 % of the largest moment."""
    geometry = SHELF
    if curved:
        geometry = sector(700.0, 1000.0, 1.05)
        loads = [AreaLoad(value=1e-3)]
    result = solve_plate(geometry, plate, edges, loads)
    fine = solve_plate(geometry, plate, edges, loads, order=16)
    assert sag(result) == pytest.approx(sag(fine), rel=0.005)
    if not result.settled:
        return
    biggest = max(abs(fine.largest_moment(n, s).value) for n in (0, 1) for s in (1, -1))
    for n in (0, 1):
        for s in (1, -1):
            found, exact = result.largest_moment(n, s).value, fine.largest_moment(n, s).value
            assert found == pytest.approx(exact, abs=0.02 * biggest)


@pytest.mark.parametrize("seed", range(12))
def test_settled_results_are_within_their_promise(seed):
    """Random plates, edges and loads against order 16: sag to 0.5 %, moments to 2 % if settled."""
    rng = np.random.default_rng(300 + seed)
    E_x = rng.uniform(2500, 12000)
    plate = stiffness_of(
        E_x, E_x / rng.uniform(1, 22), rng.uniform(0, 0.3), rng.uniform(500, 1500),
        rng.uniform(60, 800), rng.uniform(40, 300), rng.uniform(6, 40),
    )  # fmt: skip
    depth = rng.uniform(150, 500)
    geometry = rectangle(rng.uniform(300, 1500), depth)
    if seed % 2:
        inner = rng.uniform(300, 1200)
        geometry = sector(inner, inner + depth, rng.uniform(0.3, 1.8))
    kinds = [HARD, SOFT, CLAMPED, Edge("elastic", k_w=1.0, k_turn=100.0)]
    left, right, far = (kinds[n] for n in rng.integers(0, 4, 3))
    (a, b), (c, _) = geometry.along, geometry.across
    loads = [[AreaLoad(value=1e-3)], [LineLoad(value=0.1, across=c, along=(a, (a + b) / 2))]]
    edges = Edges(left=left, right=right, far=far)
    result = solve_plate(geometry, plate, edges, loads)
    fine = solve_plate(geometry, plate, edges, loads, order=16)
    for case in (0, 1):
        exact = fine.largest_deflection(case).value
        assert result.largest_deflection(case).value == pytest.approx(exact, rel=0.005)
        peaks = np.array(
            [
                [r.largest_moment(n, s, case).value for n in (0, 1, 2) for s in (1, -1)]
                for r in (result, fine)
            ]
        )
        if result.settled:
            assert np.abs(peaks[0] - peaks[1]).max() < 0.02 * np.abs(peaks[1, :4]).max()


def test_load_straight_into_a_support_bends_nothing():
    result = solve_plate(SHELF, BOARD, BACKED, [LineLoad(value=0.2, across=300.0)])
    assert result.settled
    assert abs(sag(result)) < 1e-9
    assert float(result.reaction("far")[0]) == pytest.approx(180.0, rel=0.05)


def test_many_point_loads_in_one_case():
    rng = np.random.default_rng(1)
    places = np.stack([rng.uniform(0, 900, 8), rng.uniform(0, 300, 8)], axis=1)
    loads = [PointLoad(value=10.0, along=x, across=y) for x, y in places]
    together = solve_plate(SHELF, BOARD, BACKED, loads, order=6)
    alone = solve_plate(SHELF, BOARD, BACKED, [[load] for load in loads], order=6)
    w = [r.deflection([450.0, 100.0], [0.0, 200.0]).sum(axis=1) for r in (together, alone)]
    assert w[0] == pytest.approx(w[1], rel=1e-9)


# --- free motions and bad input ------------------------------------------------------------


@pytest.mark.parametrize(
    ("edges", "points", "free"),
    [
        (Edges(), [], (0, 1, 2)),
        (Edges(left=HARD), [], (1,)),
        (Edges(far=SOFT), [], (2,)),
        (Edges(), [PointSupport(along=450.0, across=0.0)], (1, 2)),
        (Edges(), [PointSupport(along=x, across=150.0) for x in (5.0, 895.0)], (2,)),
    ],
)
def test_free_motion_is_named(edges, points, free):
    with pytest.raises(Mechanism, match=r"free to") as caught:
        solve_plate(SHELF, BOARD, edges, EVEN, points=points)
    assert caught.value.free == free


def test_a_spring_against_turning_is_enough():
    result = solve_plate(SHELF, BOARD, Edges(far=Edge("soft", k_turn=50.0)), EVEN)
    assert total_reaction(result) == pytest.approx(result.loads, rel=1e-8)


def test_bad_input_is_refused():
    with pytest.raises(ValueError, match="off the plate"):
        solve_plate(SHELF, BOARD, BACKED, [PointLoad(value=1.0, along=901.0, across=0.0)])
    with pytest.raises(ValueError, match="must rise and lie within"):
        solve_plate(SHELF, BOARD, BACKED, [AreaLoad(value=1.0, along=(500.0, 1000.0))])
    with pytest.raises(ValueError, match="no load case"):
        solve_plate(SHELF, BOARD, BACKED, [])
    with pytest.raises(ValueError, match="exactly one"):
        LineLoad(value=1.0)
    with pytest.raises(ValueError, match="must be finite"):
        AreaLoad(value=float("nan"))
    with pytest.raises(ValueError, match="not both mixed"):
        solve_plate(SHELF, BOARD, BACKED, [EVEN[0], EVEN])
    with pytest.raises(KeyError, match="known: left, right"):
        solve_plate(SHELF, BOARD, BACKED, EVEN, order=4).line("front")
    with pytest.raises(ValueError, match="must exceed"):
        sector(200.0, 100.0, 1.0)
    with pytest.raises(ValueError, match="edge kind"):
        Edge("pinned")
    with pytest.raises(ValueError, match="k_turn does not go"):
        Edge("free", k_turn=1.0)
    with pytest.raises(ValueError, match="finite and not negative"):
        Edge("elastic", k_w=-1.0)
    with pytest.raises(ValueError, match="point support"):
        PointSupport(along=0.0, across=0.0, k_w=0.0)
    with pytest.raises(ValueError, match="line support"):
        LineSupport(along=0.0, k_w=-1.0)
    with pytest.raises(ValueError, match="off the plate"):
        solve_plate(SHELF, BOARD, BACKED, EVEN, lines=[LineSupport(along=950.0)])
    with pytest.raises(ValueError, match="full turn"):
        sector(100.0, 200.0, 7.0)
    with pytest.raises(ValueError, match="length"):
        rectangle(float("nan"), 1.0)
    with pytest.raises(ValueError, match="D12"):
        Stiffness(1.0, 1.0, 1.0, 1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="k_w belongs to an elastic"):
        Edge("hard", k_w=1.0)
    with pytest.raises(ValueError, match="near or far"):
        Edges(left=Edge(EI=1.0))
    with pytest.raises(ValueError, match="not admissible"):
        stiffness_of(100.0, 10000.0, 0.3, 10.0, 10.0, 10.0, 10.0)
