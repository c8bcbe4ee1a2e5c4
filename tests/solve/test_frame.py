"""Properties of random plane frames: equilibrium, superposition, extremes, monotone."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stacked import bays, grid

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.shear_panel import panel_shear_rows

QUICK = settings(max_examples=40, deadline=None)
CASES = 3


@dataclass(frozen=True)
class Loaded:
    """A frame with loads on it."""

    frame: Frame
    lines: LineLoads
    points: PointLoads
    nodal: np.ndarray

    def solved(self) -> FrameResult:
        return solve_frame(self.frame, lines=self.lines, points=self.points, nodal=self.nodal)


@st.composite
def random_frames(draw: st.DrawFn) -> Loaded:
    """Stacks of skewed bays with any joints, springs, backs and loads."""
    rng = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    columns, levels = draw(st.integers(2, 4)), draw(st.integers(1, 4))
    nodes, uprights, shelves = grid(columns, levels)
    nodes = nodes * rng.uniform(250.0, 900.0, 2) + rng.uniform(-60.0, 60.0, nodes.shape)
    members = np.concatenate([uprights, shelves])
    members = np.where(rng.random(len(members))[:, None] < 0.3, members[:, ::-1], members)
    m, n = len(members), len(nodes)
    fixed = np.zeros((n, 3), dtype=bool)
    fixed[:columns, :2] = True
    fixed[:columns, 2] = rng.random(columns) < 0.3
    springs = np.zeros((n, 3))
    if rng.random() < 0.5:
        springs[rng.integers(columns, n)] = rng.uniform(1.0, 1e3, 3)
    joints = 10.0 ** rng.uniform(5, 8, (m, 2))
    kind = rng.random((m, 2))
    joints[kind < 0.3] = np.inf
    panels = bays(columns, levels)[rng.random((columns - 1) * levels) < 0.5]
    frame = Frame(
        nodes=nodes,
        members=members,
        EA=10.0 ** rng.uniform(6.5, 7.5, m),
        EI=10.0 ** rng.uniform(8, 9, m),
        GA=np.where(rng.random(m) < 0.3, np.inf, 10.0 ** rng.uniform(4.5, 6, m)),
        joints=joints,
        fixed=fixed,
        springs=springs,
        panels=panels,
        panel_stiffness=10.0 ** rng.uniform(1, 4, len(panels)),
    )
    k = draw(st.integers(1, 8))
    line_member = rng.integers(0, m, k)
    length = frame.length[line_member]
    span = np.sort(rng.random((2, k)) + np.array([[0.0], [0.01]]), axis=0).clip(0, 1) * length
    span = np.where(rng.random(k) < 0.3, np.stack([0 * length, length]), span)
    point_member = rng.integers(0, m, 4)
    at = rng.choice([0.0, 0.25, 0.6180339, 1.0], 4) * frame.length[point_member]
    return Loaded(
        frame,
        LineLoads(
            member=line_member,
            case=rng.integers(0, CASES, k),
            start=span[0],
            end=span[1],
            down=rng.normal(size=k),
            down_end=rng.normal(size=k),
            right=rng.normal(size=k),
            right_end=rng.normal(size=k),
        ),
        PointLoads(
            member=point_member,
            case=rng.integers(0, CASES, 4),
            at=at,
            down=50 * rng.normal(size=4),
            right=50 * rng.normal(size=4),
        ),
        rng.normal(size=(n, 3, CASES)) * np.array([50.0, 50.0, 5e3])[:, None],
    )


def applied(loaded: Loaded) -> np.ndarray:
    """Total load to the right, down, and clockwise about the origin, shape (3, cases)."""
    frame, lines, points = loaded.frame, loaded.lines, loaded.points
    total = np.zeros((3, CASES))

    def add(case: int, right: float, down: float, x: float, z: float) -> None:
        total[:, case] += [right, down, down * x + right * z]

    def place(member: int, at: float) -> np.ndarray:
        first, second = frame.nodes[frame.members[member]]
        return first + (second - first) * at / frame.length[member]

    for i, member in enumerate(lines.member):
        reach = lines.end[i] - lines.start[i]
        # A linear load is two triangles, each with its resultant a third from its foot.
        for right, down, third in (
            (lines.right[i], lines.down[i], 1 / 3),
            (lines.right_end[i], lines.down_end[i], 2 / 3),
        ):
            x, z = place(member, lines.start[i] + third * reach)
            add(lines.case[i], right * reach / 2, down * reach / 2, x, z)
    for i, member in enumerate(points.member):
        add(points.case[i], points.right[i], points.down[i], *place(member, points.at[i]))
    for node in range(len(frame.nodes)):
        for case in range(CASES):
            right, down, turn = loaded.nodal[node, :, case]
            add(case, right, down, *frame.nodes[node])
            total[2, case] += turn
    return total


def about_origin(frame: Frame, forces: np.ndarray) -> np.ndarray:
    x, z = frame.nodes.T
    right, down, turn = forces[:, 0], forces[:, 1], forces[:, 2]
    moment = turn + down * x[:, None] + right * z[:, None]
    return np.stack([right.sum(0), down.sum(0), moment.sum(0)])


@QUICK
@given(random_frames())
def test_supports_carry_all_loads(loaded: Loaded) -> None:
    result = loaded.solved()
    scale = np.abs(loaded.nodal).max() * 4000
    assert about_origin(loaded.frame, result.support_forces) == pytest.approx(
        applied(loaded), rel=1e-8, abs=1e-8 * scale
    )


@QUICK
@given(random_frames())
def test_every_node_is_in_balance(loaded: Loaded) -> None:
    frame, result = loaded.frame, loaded.solved()
    rest = loaded.nodal - result.support_forces
    np.add.at(rest, frame.members, result.end_forces)
    if len(frame.panels):
        rows = panel_shear_rows(frame.nodes[frame.panels])[0].reshape(-1, 4, 2)
        np.add.at(rest[:, :2], frame.panels, -rows[..., None] * result.shear_flow[:, None, None])
    assert np.abs(rest[:, :2]).max() < 1e-8 * 1e3
    assert np.abs(rest[:, 2]).max() < 1e-8 * 1e6


@QUICK
@given(random_frames())
def test_members_meet_their_nodes_and_their_loads(loaded: Loaded) -> None:
    """Along a member, integration from the first node arrives at the second."""
    frame, result = loaded.frame, loaded.solved()
    every = np.arange(len(frame.members))
    c, s = frame.direction.T[:, :, None]
    far = result.displacements[frame.members[:, 1]]
    end = frame.length
    across = result.along(every, end, "deflection")
    assert across == pytest.approx(c * far[:, 1] - s * far[:, 0], rel=1e-7, abs=1e-7)
    stretch = result.along(every, end, "stretch")
    assert stretch == pytest.approx(c * far[:, 0] + s * far[:, 1], rel=1e-7, abs=1e-7)
    assert result.along(every, 0.0, "moment") == pytest.approx(
        -result.end_forces[:, 0, 2], rel=1e-7, abs=1e-4
    )
    assert result.along(every, end, "moment") == pytest.approx(
        result.end_forces[:, 1, 2], rel=1e-7, abs=1e-4
    )
    assert result.along(every, end, "sag") == pytest.approx(0.0, abs=1e-7)
    # Joint: the section turns more than the node by moment over stiffness.
    joint = frame.joints[:, :1]
    turn = result.along(every, 0.0, "slope") - result.displacements[frame.members[:, 0], 2]
    assert turn == pytest.approx(-result.along(every, 0.0, "moment") / joint, rel=1e-6, abs=1e-7)
    joint = frame.joints[:, 1:]
    turn = result.along(every, end, "slope") - far[:, 2]
    assert turn == pytest.approx(result.along(every, end, "moment") / joint, rel=1e-6, abs=1e-7)


@QUICK
@given(random_frames(), st.sampled_from(["axial", "shear", "moment", "deflection", "sag", "slope"]))
def test_extremes_bound_what_is_found_along_and_are_reached(loaded: Loaded, quantity: str) -> None:
    frame, result = loaded.frame, loaded.solved()
    most = result.extremes(quantity)  # type: ignore[arg-type]
    every = np.repeat(np.arange(len(frame.members)), 201)
    at = (frame.length[:, None] * np.linspace(0, 1, 201)).ravel()
    seen = result.along(every, at, quantity).reshape(-1, 201, CASES)  # type: ignore[arg-type]
    room = 1e-9 * (1 + np.abs(seen).max())
    assert (seen.max(axis=1) <= most.highest + room).all()
    assert (seen.min(axis=1) >= most.lowest - room).all()
    if quantity not in ("shear", "axial"):  # these jump at a force, both sides count
        for case in range(CASES):
            for value, at in ((most.highest, most.highest_at), (most.lowest, most.lowest_at)):
                reached = result.along(np.arange(len(frame.members)), at[:, case], quantity)
                assert reached[:, case] == pytest.approx(value[:, case], rel=1e-7, abs=1e-7)


@QUICK
@given(random_frames())
def test_cases_add_up(loaded: Loaded) -> None:
    result = loaded.solved()
    together = solve_frame(
        loaded.frame,
        lines=LineLoads(
            member=loaded.lines.member,
            start=loaded.lines.start,
            end=loaded.lines.end,
            down=2 * loaded.lines.down,
            down_end=2 * loaded.lines.down_end,
            right=2 * loaded.lines.right,
            right_end=2 * loaded.lines.right_end,
        ),
        points=PointLoads(
            member=loaded.points.member,
            at=loaded.points.at,
            down=2 * loaded.points.down,
            right=2 * loaded.points.right,
        ),
        nodal=2 * loaded.nodal.sum(axis=2, keepdims=True),
    )
    added = result.combine([[2.0] * CASES])
    for quantity in ("moment", "deflection", "shear", "axial"):
        one, other = added.extremes(quantity), together.extremes(quantity)
        scale = np.abs(other.largest).max()
        assert one.highest == pytest.approx(other.highest, rel=1e-7, abs=1e-8 * scale)
        assert one.lowest == pytest.approx(other.lowest, rel=1e-7, abs=1e-8 * scale)
    assert added.shear_flow == pytest.approx(together.shear_flow, rel=1e-7, abs=1e-8)


@QUICK
@given(random_frames(), st.integers(0, 2**31), st.floats(1.01, 1e3))
def test_nothing_moves_more_when_something_gets_stiffer(
    loaded: Loaded, pick: int, factor: float
) -> None:
    """The work of given loads never rises with any stiffness."""
    frame = loaded.frame
    nodal = loaded.nodal
    before = np.sum(solve_frame(frame, nodal=nodal).displacements * nodal, axis=(0, 1))
    name = ["EA", "EI", "GA", "joints", "springs", "panel_stiffness"][pick % 6]
    values = {
        "EA": frame.EA,
        "EI": frame.EI,
        "GA": frame.GA,
        "joints": frame.joints,
        "springs": frame.springs,
        "panel_stiffness": frame.panel_stiffness,
    }
    stiffer = values[name].copy()
    if stiffer.size:
        stiffer.flat[pick % stiffer.size] *= factor
    values[name] = stiffer
    changed = Frame(
        nodes=frame.nodes, members=frame.members, fixed=frame.fixed, panels=frame.panels, **values
    )
    after = np.sum(solve_frame(changed, nodal=nodal).displacements * nodal, axis=(0, 1))
    assert (after <= before * (1 + 1e-7)).all()
