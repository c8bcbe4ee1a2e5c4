"""Frames with known answers.

Portal frames: standard formulas for rigid frames with two hinged or two fixed feet, as
collected by Kleinlogel, Rigid Frame Formulas (frame with horizontal girder), from memory;
k = (I_girder-side ratio) I_2 h / (I_1 L) with I_1 the posts, I_2 the girder. They leave out
stretch and shear of the members, so both are made very stiff here, and the tolerance is
what that leaves.

Vierendeel girder and the deep beam: derived in the test, steps as comments.
Continuous beams and Timoshenko beams: textbook formulas.
"""

from __future__ import annotations

import numpy as np
import pytest

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame

STIFF = 1e5  # stretch is less than bending by about this
INEXTENSIBLE = 2e-4


def portal(*, h: float, L: float, post: float, girder: float, fixed_feet: bool) -> Frame:
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[[0, 3], :2] = True
    fixed[[0, 3], 2] = fixed_feet
    return Frame(
        nodes=[(0, 0), (0, h), (L, h), (L, 0)],
        members=[(0, 1), (1, 2), (3, 2)],
        EA=STIFF * max(post, girder) / min(h, L) ** 2 * 12,
        EI=[post, girder, post],
        fixed=fixed,
    )


SHAPES = [(2000.0, 900.0, 4e8, 1e8), (300.0, 900.0, 1e8, 3e8), (700.0, 700.0, 2e8, 2e8)]


@pytest.mark.parametrize(("h", "L", "post", "girder"), SHAPES)
def test_portal_hinged_feet_girder_load(h: float, L: float, post: float, girder: float) -> None:
    q, k = 0.8, girder / post * h / L
    frame = portal(h=h, L=L, post=post, girder=girder, fixed_feet=False)
    result = solve_frame(frame, lines=LineLoads(member=1, down=q))
    # H = q L2 / (4 h N), M_corner = -H h, N = 2 k + 3  (Kleinlogel, hinged feet)
    H = q * L**2 / (4 * h * (2 * k + 3))
    # The left foot is pushed outwards by the frame.
    assert result.support_forces[0, 0, 0] == pytest.approx(-H, rel=INEXTENSIBLE)
    moment = result.extremes("moment")
    assert moment.lowest[1, 0] == pytest.approx(-H * h, rel=INEXTENSIBLE)
    assert moment.highest[1, 0] == pytest.approx(q * L**2 / 8 - H * h, rel=INEXTENSIBLE)
    assert moment.highest_at[1, 0] == pytest.approx(L / 2)


@pytest.mark.parametrize(("h", "L", "post", "girder"), SHAPES)
def test_portal_hinged_feet_push(h: float, L: float, post: float, girder: float) -> None:
    P = 50.0
    frame = portal(h=h, L=L, post=post, girder=girder, fixed_feet=False)
    nodal = np.zeros((4, 3, 1))
    nodal[1, 0] = P
    result = solve_frame(frame, nodal=nodal)
    # Antisymmetric: M_corner = P h / 2, V = P h / L; sway by virtual work:
    # P h3 / (6 EI_1) + P h2 L / (12 EI_2)
    assert result.extremes("moment").largest[1, 0] == pytest.approx(P * h / 2, rel=INEXTENSIBLE)
    assert result.support_forces[3, 1, 0] == pytest.approx(P * h / L, rel=1e-9)
    sway = P * h**3 / (6 * post) + P * h**2 * L / (12 * girder)
    assert result.displacements[1:3, 0, 0].mean() == pytest.approx(sway, rel=INEXTENSIBLE)


@pytest.mark.parametrize(("h", "L", "post", "girder"), SHAPES)
def test_portal_fixed_feet_girder_load(h: float, L: float, post: float, girder: float) -> None:
    q, k = 0.8, girder / post * h / L
    frame = portal(h=h, L=L, post=post, girder=girder, fixed_feet=True)
    result = solve_frame(frame, lines=LineLoads(member=1, down=q))
    # M_foot = q L2 / (12 N1), M_corner = -q L2 / (6 N1), N1 = k + 2  (Kleinlogel, fixed feet)
    foot = q * L**2 / (12 * (k + 2))
    assert abs(result.along(0, 0.0, "moment")[0, 0]) == pytest.approx(foot, rel=INEXTENSIBLE)
    assert result.along(1, 0.0, "moment")[0, 0] == pytest.approx(-2 * foot, rel=INEXTENSIBLE)


@pytest.mark.parametrize(("h", "L", "post", "girder"), SHAPES)
def test_portal_fixed_feet_push(h: float, L: float, post: float, girder: float) -> None:
    P, k = 50.0, girder / post * h / L
    frame = portal(h=h, L=L, post=post, girder=girder, fixed_feet=True)
    nodal = np.zeros((4, 3, 1))
    nodal[1, 0] = P
    result = solve_frame(frame, nodal=nodal)
    # M_foot = P h (3 k + 1) / (2 N2), M_corner = P h 3 k / (2 N2), N2 = 6 k + 1  (Kleinlogel)
    foot = P * h / 2 * (3 * k + 1) / (6 * k + 1)
    corner = P * h / 2 * 3 * k / (6 * k + 1)
    ends = [abs(result.along(0, at, "moment")[0, 0]) for at in (0.0, h)]
    assert ends == pytest.approx([foot, corner], rel=INEXTENSIBLE)


def test_two_storeys_push_by_slope_deflection() -> None:
    # One bay, fixed feet, storeys of height h, posts EI, beams EI_b, push P at each level.
    # By antisymmetry each post takes half; a beam turns with 6 EI_b / L at each end.
    # Unknown per storey i: joint turn t_i and drift d_i (slope-deflection):
    #   post shear i: 12 EI/h3 d_i - 6 EI/h2 (t_i-1 + t_i) = Q_i / 2
    #   joint i: moments of posts below and above and of the beam sum to nothing.
    h, L, EI, EI_b, P = 350.0, 800.0, 3e8, 1.5e8, 40.0
    A = np.zeros((4, 4))  # t1, t2, d1, d2, turns positive with the drift
    b = np.zeros(4)
    for i, Q in enumerate((2 * P, P)):
        A[i, 2 + i] = 12 * EI / h**3
        A[i, i] -= 6 * EI / h**2
        if i:
            A[i, i - 1] -= 6 * EI / h**2
        b[i] = Q / 2
    # post below joint 1: 4 t1 - 6 d1/h; above: 4 t1 + 2 t2 - 6 d2/h; beam 6 EI_b/L t1
    A[2] = [8 * EI / h + 6 * EI_b / L, 2 * EI / h, -6 * EI / h**2, -6 * EI / h**2]
    A[3] = [2 * EI / h, 4 * EI / h + 6 * EI_b / L, 0, -6 * EI / h**2]
    t1, _, d1, d2 = np.linalg.solve(A, b)

    fixed = np.zeros((6, 3), dtype=bool)
    fixed[:2] = True
    frame = Frame(
        nodes=[(0, 0), (L, 0), (0, h), (L, h), (0, 2 * h), (L, 2 * h)],
        members=[(0, 2), (1, 3), (2, 4), (3, 5), (2, 3), (4, 5)],
        EA=1e5 * EI / h**2,
        EI=[EI, EI, EI, EI, EI_b, EI_b],
        fixed=fixed,
    )
    nodal = np.zeros((6, 3, 1))
    nodal[2:, 0] = P / 2
    result = solve_frame(frame, nodal=nodal)
    assert result.displacements[2, 0, 0] == pytest.approx(d1, rel=1e-3)
    assert result.displacements[4, 0, 0] == pytest.approx(d1 + d2, rel=1e-3)
    assert result.displacements[2, 2, 0] == pytest.approx(t1, rel=1e-3)


@pytest.mark.parametrize("spans", [(900.0, 900.0, 900.0), (600.0, 1200.0, 450.0)])
def test_continuous_beam_by_three_moments(spans: tuple[float, ...]) -> None:
    # Clapeyron: M0 L1 + 2 M1 (L1 + L2) + M2 L2 = -q (L1^3 + L2^3) / 4
    a, b, c = spans
    q, EI = 0.5, 4e8
    A = [[2 * (a + b), b], [b, 2 * (b + c)]]
    over = np.linalg.solve(A, [-q * (a**3 + b**3) / 4, -q * (b**3 + c**3) / 4])
    nodes = [(x, 0.0) for x in np.cumsum([0, a, b, c])]
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[:, 1] = True
    fixed[0, 0] = True
    frame = Frame(nodes=nodes, members=[(0, 1), (1, 2), (2, 3)], EA=1e6, EI=EI, fixed=fixed)
    result = solve_frame(frame, lines=LineLoads(member=[0, 1, 2], down=q))
    assert result.along([0, 1], [a, b], "moment")[:, 0] == pytest.approx(over, rel=1e-9)
    # Reaction at the first support: q a / 2 + M1 / a
    assert result.support_forces[0, 1, 0] == pytest.approx(q * a / 2 + over[0] / a)


@pytest.mark.parametrize("GA", [np.inf, 2e5, 1e4])
def test_timoshenko_beam_on_two_supports(GA: float) -> None:
    L, q, EI = 900.0, 0.4, 3e8
    fixed = np.zeros((2, 3), dtype=bool)
    fixed[:, :2] = True
    frame = Frame(nodes=[(0, 0), (L, 0)], members=[(0, 1)], EA=1e6, EI=EI, GA=GA, fixed=fixed)
    sag = solve_frame(frame, lines=LineLoads(member=0, down=q)).extremes("deflection")
    # 5 q L4 / (384 EI) + q L2 / (8 GA), Timoshenko beam theory, textbook
    assert sag.highest[0, 0] == pytest.approx(5 * q * L**4 / (384 * EI) + q * L**2 / (8 * GA))
    assert sag.highest_at[0, 0] == pytest.approx(L / 2)


@pytest.mark.parametrize("GA", [np.inf, 2e5, 1e4])
def test_timoshenko_cantilever_with_force_on_it(GA: float) -> None:
    L, a, P, EI = 400.0, 250.0, 30.0, 3e8
    fixed = np.array([[True] * 3, [False] * 3])
    frame = Frame(nodes=[(0, 0), (L, 0)], members=[(0, 1)], EA=1e6, EI=EI, GA=GA, fixed=fixed)
    result = solve_frame(frame, points=PointLoads(member=0, at=a, down=P))
    # P a2 (3 L - a) / (6 EI) + P a / GA, textbook
    tip = P * a**2 * (3 * L - a) / (6 * EI) + P * a / GA
    assert result.displacements[1, 1, 0] == pytest.approx(tip)


def test_off_centre_force_sags_most_where_the_textbook_says() -> None:
    L, b, P, EI = 900.0, 250.0, 40.0, 3e8
    fixed = np.zeros((2, 3), dtype=bool)
    fixed[:, :2] = True
    frame = Frame(nodes=[(0, 0), (L, 0)], members=[(0, 1)], EA=1e6, EI=EI, fixed=fixed)
    result = solve_frame(frame, points=PointLoads(member=0, at=L - b, down=P))
    sag = result.extremes("deflection")
    # P b (L2 - b2)^1.5 / (9 sqrt(3) L EI) at sqrt((L2 - b2) / 3), textbook
    most = P * b * (L**2 - b**2) ** 1.5 / (9 * np.sqrt(3) * L * EI)
    assert sag.highest[0, 0] == pytest.approx(most, rel=1e-9)
    assert sag.highest_at[0, 0] == pytest.approx(np.sqrt((L**2 - b**2) / 3), rel=1e-9)


@pytest.mark.parametrize("joint", [np.inf, 2e6, 2e5])
def test_propped_with_a_sprung_end(joint: float) -> None:
    # Left end through a spring to a wall, right end on a roller, uniform load:
    # M = -q L2/8 / (1 + 3 EI / (k L)), from equal turns (own derivation, force method):
    # M (L / 3EI + 1/k) = q L3 / 24EI
    L, q, EI = 900.0, 0.4, 3e8
    fixed = np.array([[True, True, True], [False, True, False]])
    frame = Frame(
        nodes=[(0, 0), (L, 0)],
        members=[(0, 1)],
        EA=1e6,
        EI=EI,
        joints=[(joint, np.inf)],
        fixed=fixed,
    )
    result = solve_frame(frame, lines=LineLoads(member=0, down=q))
    moment = -q * L**2 / 8 / (1 + 3 * EI / (joint * L))
    assert result.along(0, 0.0, "moment")[0, 0] == pytest.approx(moment)
    # The section turns by M / k though the wall does not.
    assert result.along(0, 0.0, "slope")[0, 0] == pytest.approx(-moment / joint)


def boxed_bridge(
    *, bays: int, bay: float, depth: float, EA: float, EI: float, post: float, **more: object
) -> Frame:
    """Two horizontals tied by dividers, bottom ends on supports."""
    top = [(i * bay, depth) for i in range(bays + 1)]
    bottom = [(i * bay, 0.0) for i in range(bays + 1)]
    n = bays + 1
    chords = [(i, i + 1) for i in range(bays)] + [(n + i, n + i + 1) for i in range(bays)]
    posts = [(i, n + i) for i in range(n)]
    fixed = np.zeros((2 * n, 3), dtype=bool)
    fixed[0] = [True, True, False]
    fixed[bays, 1] = True
    return Frame(
        nodes=bottom + top,
        members=chords + posts,
        EA=EA,
        EI=[EI] * (2 * bays) + [post] * n,
        fixed=fixed,
        **more,  # type: ignore[arg-type]
    )


def test_vierendeel_with_rigid_posts_shears_like_fixed_columns() -> None:
    # Posts stiff, chords stretch little: each bay shears as two chords fixed at both ends,
    # 12 EI / b3 each (textbook). A force P in the middle of 4 bays: V = P/2 in each,
    # sag = 2 bays * (P/2) / (2 * 12 EI / b3).
    bay, EI, P = 200.0, 4e8, 60.0
    frame = boxed_bridge(bays=4, bay=bay, depth=300.0, EA=1e11, EI=EI, post=1e14)
    nodal = np.zeros((10, 3, 1))
    nodal[2, 1] = nodal[7, 1] = P / 2
    result = solve_frame(frame, nodal=nodal)
    sag = 2 * (P / 2) / (24 * EI / bay**3)
    assert result.displacements[2, 1, 0] == pytest.approx(sag, rel=1e-3)
    # Moments at the ends of each chord piece: V/2 * b/2 each
    ends = result.along([0, 0, 4, 4], [0, bay, 0, bay], "moment")[:, 0]
    assert np.abs(ends) == pytest.approx(P / 4 * bay / 2, rel=1e-3)


def test_vierendeel_with_bending_posts_by_portal_points() -> None:
    # One bay as a cantilever: two chords of length b, end post of depth d, P at the tip.
    # Antisymmetric about mid-depth (hinge in the post): quarter model by virtual work;
    # moment at the post's corner M_c, at the wall M_w, M_c + M_w = P b / 2;
    # corner turn: M_c d / (6 EI_p) (post bent in double curvature)
    # chord, fixed at the wall, shear P/2: turn = (M_w b - M_c b) / (2 EI)
    b, d, EI, EI_p, P = 250.0, 300.0, 4e8, 1e8, 60.0
    M_c = (P * b / 2) * (b / (2 * EI)) / (d / (6 * EI_p) + b / EI)
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[[0, 1]] = True
    frame = Frame(
        nodes=[(0, 0), (0, d), (b, 0), (b, d)],
        members=[(0, 2), (1, 3), (2, 3)],
        EA=1e12,
        EI=[EI, EI, EI_p],
        fixed=fixed,
    )
    nodal = np.zeros((4, 3, 1))
    nodal[2:, 1] = P / 2
    result = solve_frame(frame, nodal=nodal)
    # Sag = P/2 b3/(3 EI) - M_c b2/(2 EI)
    sag = P / 2 * b**3 / (3 * EI) - M_c * b**2 / (2 * EI)
    assert result.along(0, b, "moment")[0, 0] == pytest.approx(M_c, rel=1e-4)
    assert result.displacements[2, 1, 0] == pytest.approx(sag, rel=1e-4)


@pytest.mark.parametrize("shear", [1e5, 300.0, 20.0, 1.0])
def test_boxed_bridge_with_a_back_is_a_deep_beam(shear: float) -> None:
    # Many narrow bays, dividers pinned: a sandwich of two faces (EA, EI) and a core of
    # shear stiffness S = (G t) d. With P in the middle (Allen, Analysis and Design of
    # Structural Sandwich Panels, thick faces; solution derived here):
    #   M_core = EI_c beta', Q_core = S (w' + beta), EI_f w''' ... gives
    #   w = P L3/(48 EI_0) + P L/(4 S) (EI_c/EI_0)^2 (1 - tanh(x)/x),  x = alpha L / 2,
    #   alpha^2 = S EI_0 / (EI_f EI_c),  EI_0 = EI_f + EI_c, EI_c = EA d2 / 2
    bays, bay, d = 80, 20.0, 300.0
    EA, EI = 2e7, 1.2e9
    L = bays * bay
    corners = [(i, i + 1, bays + 2 + i, bays + 1 + i) for i in range(bays)]
    n_members = 2 * bays + bays + 1
    joints = np.full((n_members, 2), np.inf)
    joints[2 * bays :] = 0.0
    frame = boxed_bridge(
        bays=bays,
        bay=bay,
        depth=d,
        EA=np.r_[np.full(2 * bays, EA), np.full(bays + 1, 1e12)],  # type: ignore[arg-type]
        EI=EI,
        post=1e9,
        joints=joints,
        panels=corners,
        panel_stiffness=shear,
    )
    P = 100.0
    nodal = np.zeros((2 * (bays + 1), 3, 1))
    nodal[bays // 2, 1] = nodal[bays + 1 + bays // 2, 1] = P / 2
    result = solve_frame(frame, nodal=nodal)
    S, EI_f, EI_c = shear * d, 2 * EI, EA * d**2 / 2
    EI_0 = EI_f + EI_c
    x = np.sqrt(S * EI_0 / (EI_f * EI_c)) * L / 2
    sag = P * L**3 / (48 * EI_0) + P * L / (4 * S) * (EI_c / EI_0) ** 2 * (1 - np.tanh(x) / x)
    # The bays are finite: a panel's shear is constant over 20 mm.
    assert result.displacements[bays // 2, 1, 0] == pytest.approx(sag, rel=2e-3)
    # The stiff panel's limit is one section, I = sum of A d2; none at all is two boards.
    assert P * L**3 / (48 * EI_0) < sag < P * L**3 / (48 * EI_f)
