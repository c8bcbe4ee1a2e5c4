"""Random frames against general-purpose solvers.

PyNiteFEA 3.2 (three-dimensional, Euler-Bernoulli members, so GA is infinite here): frames
held in their plane. It has no sprung member ends; a joint is there a bar of 1 mm across the
plane, between the node and the member, whose twist is the spring and which is otherwise
very stiff (stiff enough for 3e-7 of the movements, and not so stiff that figures are lost).

For Timoshenko members: textbook stiffness matrix with the shear parameter Phi
(Przemieniecki, Theory of Matrix Structural Analysis, 1968, 5.6) assembled here with a turn
of its own for each member end and a spring between it and the node, solved by scipy.
"""

from __future__ import annotations

import numpy as np
import pytest
from Pynite import FEModel3D
from scipy.linalg import solve

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame

FLOOR = [True, True, False]


def random_frame(seed: int, *, sprung: bool, thin: bool) -> Frame:
    rng = np.random.default_rng(seed)
    columns, levels = rng.integers(2, 4), rng.integers(1, 4)
    x, z = np.meshgrid(np.arange(columns) * 800.0, np.arange(levels + 1) * 350.0)
    nodes = np.stack([x.ravel(), z.ravel()], axis=1) + rng.uniform(-50, 50, (x.size, 2))
    number = np.arange(x.size).reshape(x.shape)
    members = np.concatenate(
        [
            np.stack([number[:-1].ravel(), number[1:].ravel()], axis=1),
            np.stack([number[:, :-1].ravel(), number[:, 1:].ravel()], axis=1),
        ]
    )
    m = len(members)
    fixed = np.zeros((len(nodes), 3), dtype=bool)
    fixed[:columns] = FLOOR
    fixed[0, 2] = True
    springs = np.zeros((len(nodes), 3))
    springs[-1] = [rng.uniform(1, 100), rng.uniform(1, 100), 0.0]
    if sprung:
        joints = 10.0 ** rng.uniform(5, 8, (m, 2))
    else:
        joints = np.where(rng.random((m, 2)) < 0.3, 0.0, np.inf)
        joints[: columns * levels, 0] = np.inf
    return Frame(
        nodes=nodes,
        members=members,
        EA=rng.uniform(5e6, 2e7, m),
        EI=rng.uniform(2e8, 8e8, m),
        GA=np.inf if thin else rng.uniform(5e4, 1e6, m),
        joints=joints,
        fixed=fixed,
        springs=springs,
    )


def random_loads(frame: Frame, seed: int) -> tuple[LineLoads, PointLoads, np.ndarray]:
    rng = np.random.default_rng(seed + 1000)
    every = np.arange(len(frame.members))
    part = np.sort(rng.uniform(0.05, 0.95, (2, len(every))), axis=0) * frame.length
    lines = LineLoads(
        member=every,
        start=part[0],
        end=part[1],
        down=rng.uniform(0, 1, len(every)),
        down_end=rng.uniform(0, 1, len(every)),
        right=rng.uniform(-0.2, 0.2, len(every)),
        right_end=rng.uniform(-0.2, 0.2, len(every)),
    )
    points = PointLoads(
        member=every,
        at=rng.uniform(0.1, 0.9, len(every)) * frame.length,
        down=rng.uniform(0, 50, len(every)),
        right=rng.uniform(-20, 20, len(every)),
    )
    nodal = rng.uniform(-20, 20, (len(frame.nodes), 3, 1)) * np.array([1, 1, 0.0])[:, None]
    return lines, points, nodal


def pynite_model(
    frame: Frame, lines: LineLoads, points: PointLoads, nodal: np.ndarray, *, sprung: bool
) -> FEModel3D:
    model = FEModel3D()
    model.add_material("unit", 1.0, 1.0, 0.3, 0.0)
    joined = np.zeros(len(frame.nodes), dtype=bool)
    joined[frame.members[frame.joints > 0]] = True
    for node, (x, z) in enumerate(frame.nodes):
        model.add_node(f"N{node}", x, z, 0.0)
        right, down, turn = frame.fixed[node]
        turn = turn or not joined[node]  # it can't leave out a turn that nothing joins
        model.def_support(f"N{node}", right, down, True, True, True, turn)
        for movement, dof in enumerate(("DX", "DY", "RZ")):
            if frame.springs[node, movement]:
                model.def_support_spring(f"N{node}", dof, frame.springs[node, movement])
        model.add_node_load(f"N{node}", "FX", nodal[node, 0, 0])
        model.add_node_load(f"N{node}", "FY", -nodal[node, 1, 0])
    for i, pair in enumerate(frame.members):
        names = [f"N{node}" for node in pair]
        if sprung:
            aside = 1e-7 * i  # no two nodes in one place, or members are cut there
            for end, node in enumerate(pair):
                own = f"E{i}.{end}"
                model.add_node(own, *(frame.nodes[node] + aside), 1.0)
                model.def_support(own, False, False, True, True, True, False)
                model.add_section(f"J{i}.{end}", 1e10, 1e9, 1e9, frame.joints[i, end])
                model.add_member(f"T{i}.{end}", f"N{node}", own, "unit", f"J{i}.{end}")
                names[end] = own
        model.add_section(f"S{i}", frame.EA[i], frame.EI[i], frame.EI[i], frame.EI[i])
        model.add_member(f"M{i}", *names, "unit", f"S{i}")
        if not sprung:
            model.def_releases(f"M{i}", Rzi=frame.joints[i, 0] == 0, Rzj=frame.joints[i, 1] == 0)
    for i, member in enumerate(lines.member):
        where = (lines.start[i], lines.end[i])
        name = f"M{member}"
        model.add_member_dist_load(name, "FY", -lines.down[i], -lines.down_end[i], *where)
        model.add_member_dist_load(name, "FX", lines.right[i], lines.right_end[i], *where)
    for i, member in enumerate(points.member):
        model.add_member_pt_load(f"M{member}", "FY", -points.down[i], points.at[i])
        model.add_member_pt_load(f"M{member}", "FX", points.right[i], points.at[i])
    model.analyze_linear(check_stability=False)
    return model


@pytest.mark.parametrize("sprung", [False, True])
@pytest.mark.parametrize("seed", range(6))
def test_random_frames_as_pynite(seed: int, sprung: bool) -> None:
    frame = random_frame(seed, sprung=sprung, thin=True)
    lines, points, nodal = random_loads(frame, seed)
    result = solve_frame(frame, lines=lines, points=points, nodal=nodal)
    model = pynite_model(frame, lines, points, nodal, sprung=sprung)
    combo = "Combo 1"
    names = [f"N{node}" for node in range(len(frame.nodes))]
    theirs = np.array([[model.nodes[n].DX[combo], -model.nodes[n].DY[combo]] for n in names])
    scale = np.abs(theirs).max()
    assert result.displacements[:, :2, 0] == pytest.approx(theirs, rel=1e-6, abs=1e-6 * scale)
    ours, other = [], []
    for i, L in enumerate(frame.length):
        at = np.array([0.0, 0.21, 0.5, 0.83, 1.0]) * L
        member = model.members[f"M{i}"]
        # Its local y may point either way, its sagging is negative, its axial force pressure.
        c, s = frame.direction[i]
        side = -round(float(member.T()[1, :2] @ [-s, -c]))
        assert abs(side) == 1
        kinds = ("moment", "shear", "axial")
        ours.append([result.along(i, at, kind)[:, 0] for kind in kinds])  # type: ignore[arg-type]
        other.append(
            [
                [-side * member.moment("Mz", x, combo) for x in at],
                [side * member.shear("Fy", x, combo) for x in at],
                [-member.axial(x, combo) for x in at],
            ]
        )
    most = np.abs(other).max(axis=(0, 2))[:, None]
    # Through its stiff bars PyNite gets forces as differences of great figures: of its
    # forces 1e-5 is left, though of its movements 1e-6 (checked above).
    assert (np.abs(np.subtract(ours, other)) < (1e-5 if sprung else 1e-6) * most).all()


def textbook_member(frame: Frame, i: int) -> np.ndarray:
    """Stiffness in global axes (right, up, anticlockwise), Przemieniecki 5.6."""
    L, EI = frame.length[i], frame.EI[i]
    phi = 12 * EI / (frame.GA[i] * L**2)
    k = EI / (L**3 * (1 + phi))
    axial = frame.EA[i] / L
    local = np.zeros((6, 6))
    local[np.ix_([0, 3], [0, 3])] = axial * np.array([[1, -1], [-1, 1]])
    local[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = k * np.array(
        [
            [12, 6 * L, -12, 6 * L],
            [6 * L, (4 + phi) * L**2, -6 * L, (2 - phi) * L**2],
            [-12, -6 * L, 12, -6 * L],
            [6 * L, (2 - phi) * L**2, -6 * L, (4 + phi) * L**2],
        ]
    )
    first, second = frame.nodes[frame.members[i]]
    c, s = (second - first) / L
    turn = np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]])
    T = np.block([[turn, np.zeros((3, 3))], [np.zeros((3, 3)), turn]])
    return np.asarray(T.T @ local @ T)


@pytest.mark.parametrize("seed", range(12))
def test_random_timoshenko_frames_with_springs_as_textbook_matrices(seed: int) -> None:
    frame = random_frame(seed, sprung=True, thin=False)
    rng = np.random.default_rng(seed)
    nodal = rng.uniform(-50, 50, (len(frame.nodes), 3, 2))
    n, m = len(frame.nodes), len(frame.members)
    K = np.zeros((3 * n + 2 * m, 3 * n + 2 * m))
    for i, (a, b) in enumerate(frame.members):
        own = [3 * n + 2 * i, 3 * n + 2 * i + 1]
        numbers = [3 * a, 3 * a + 1, own[0], 3 * b, 3 * b + 1, own[1]]
        K[np.ix_(numbers, numbers)] += textbook_member(frame, i)
        for end, node in enumerate((a, b)):
            pair = np.ix_([3 * node + 2, own[end]], [3 * node + 2, own[end]])
            K[pair] += frame.joints[i, end] * np.array([[1, -1], [-1, 1]])
    K[np.arange(3 * n), np.arange(3 * n)] += frame.springs.ravel()
    load = np.zeros((len(K), 2))
    load[: 3 * n] = (nodal * np.array([1, -1, -1])[:, None]).reshape(-1, 2)
    free = np.r_[~frame.fixed.ravel(), np.ones(2 * m, dtype=bool)]
    moved = np.zeros_like(load)
    moved[free] = solve(K[np.ix_(free, free)], load[free], assume_a="sym")
    theirs = moved[: 3 * n].reshape(n, 3, 2) * np.array([1, -1, -1])[:, None]
    result = solve_frame(frame, nodal=nodal)
    scale = np.abs(theirs).max(axis=(0, 2))[:, None]
    assert (np.abs(result.displacements - theirs) < 1e-8 * scale).all()


@pytest.mark.parametrize("seed", range(6))
def test_loads_along_sprung_timoshenko_members_as_many_short_ones(seed: int) -> None:
    """A part load as forces on the nodes of a member cut into pieces (midpoint rule)."""
    rng = np.random.default_rng(seed)
    L, pieces = 900.0, 400
    joints = 10.0 ** rng.uniform(5, 7, 2)
    EA, EI, GA = 1e7, 4e8, 10.0 ** rng.uniform(4.5, 6)
    direction = np.array([np.cos(rng.uniform(0, 3)), np.sin(rng.uniform(0, 3))])
    direction /= np.hypot(*direction)
    start, end = np.sort(rng.uniform(0, 1, 2)) * L
    w = rng.uniform(-1, 1, 4)
    ends = np.array([[True] * 3, [False, False, True]])
    springs = np.array([[0.0] * 3, [200.0, 30.0, 0.0]])
    one = solve_frame(
        Frame(
            nodes=np.array([0 * direction, L * direction]),
            members=[(0, 1)],
            EA=EA,
            EI=EI,
            GA=GA,
            joints=[joints],
            fixed=ends,
            springs=springs,
        ),
        lines=LineLoads(
            member=0, start=start, end=end, down=w[0], down_end=w[1], right=w[2], right_end=w[3]
        ),
    )
    at = np.linspace(start, end, 2 * pieces + 1)
    middle, step = at[1::2], (end - start) / pieces
    place = np.r_[0.0, middle, L]
    number = np.arange(len(place))
    fixed = np.zeros((len(place), 3), dtype=bool)
    fixed[[0, -1]] = ends
    all_springs = np.zeros((len(place), 3))
    all_springs[-1] = springs[1]
    all_joints = np.full((len(place) - 1, 2), np.inf)
    all_joints[0, 0], all_joints[-1, 1] = joints
    nodal = np.zeros((len(place), 3, 1))
    share = (middle - start) / (end - start)
    nodal[1:-1, 0, 0] = (w[2] + (w[3] - w[2]) * share) * step
    nodal[1:-1, 1, 0] = (w[0] + (w[1] - w[0]) * share) * step
    many = solve_frame(
        Frame(
            nodes=place[:, None] * direction,
            members=np.stack([number[:-1], number[1:]], axis=1),
            EA=EA,
            EI=EI,
            GA=GA,
            joints=all_joints,
            fixed=fixed,
            springs=all_springs,
        ),
        nodal=nodal,
    )
    theirs = many.displacements[[0, -1], :, 0]
    assert one.displacements[:, :, 0] == pytest.approx(theirs, rel=1e-4, abs=1e-6)
    sag = one.extremes("deflection").largest[0, 0]
    assert sag == pytest.approx(many.extremes("deflection").largest.max(), rel=1e-4)
