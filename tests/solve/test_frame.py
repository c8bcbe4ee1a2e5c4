"""Properties of the plane frame: equilibrium, superposition, symmetry, monotone, mechanisms."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.errors import Mechanism
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.load_path import cut_at, passed_down
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


def grid(columns: int, levels: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Nodes, uprights (bottom to top), shelves (left to right) of a stack of bays."""
    x, z = np.meshgrid(np.arange(columns), np.arange(levels + 1))
    number = np.arange(x.size).reshape(x.shape)
    uprights = np.stack([number[:-1].ravel(), number[1:].ravel()], axis=1)
    shelves = np.stack([number[:, :-1].ravel(), number[:, 1:].ravel()], axis=1)
    return np.stack([x.ravel(), z.ravel()], axis=1).astype(float), uprights, shelves


def bays(columns: int, levels: int) -> np.ndarray:
    number = np.arange(columns * (levels + 1)).reshape(levels + 1, columns)
    corners = [number[:-1, :-1], number[:-1, 1:], number[1:, 1:], number[1:, :-1]]
    return np.stack([corner.ravel() for corner in corners], axis=1)


@st.composite
def random_frames(draw: st.DrawFn, *, contrast: float = 1e3, held: bool = True) -> Loaded:
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
    joints = 10.0 ** rng.uniform(8 - np.log10(contrast), 8, (m, 2))
    kind = rng.random((m, 2))
    joints[kind < 0.3] = np.inf
    if held:
        panels = bays(columns, levels)[rng.random((columns - 1) * levels) < 0.5]
    else:
        panels = np.zeros((0, 4), dtype=int)
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
            reached = result.along(
                np.arange(len(frame.members)), most.highest_at[:, case], quantity
            )[:, case]
            assert reached == pytest.approx(most.highest[:, case], rel=1e-7, abs=1e-7)


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


@QUICK
@given(st.integers(2, 5), st.integers(1, 5), st.floats(3, 8), st.floats(0.1, 5.0))
def test_symmetric_in_symmetric_out(columns: int, levels: int, joint: float, load: float) -> None:
    nodes, uprights, shelves = grid(columns, levels)
    nodes = nodes * [800.0, 350.0]
    fixed = np.zeros((len(nodes), 3), dtype=bool)
    fixed[:columns, :2] = True
    frame = Frame(
        nodes=nodes,
        members=np.concatenate([uprights, shelves]),
        EA=1.6e7,
        EI=4e8,
        GA=7e5,
        joints=10.0**joint,
        fixed=fixed,
    )
    loaded = np.arange(len(uprights), len(frame.members))
    result = solve_frame(frame, lines=LineLoads(member=loaded, down=load))
    moved = result.displacements.reshape(levels + 1, columns, 3)
    mirrored = moved[:, ::-1] * [-1, 1, -1]
    assert moved == pytest.approx(mirrored, rel=1e-6, abs=1e-7 * np.abs(moved).max())
    sag = result.extremes("sag").highest[loaded].reshape(levels + 1, columns - 1)
    assert sag == pytest.approx(sag[:, ::-1], rel=1e-6)


def stack(
    columns: int, levels: int, *, joints: object, backs: object = (), **more: object
) -> Frame:
    """Straight stack of boxes on the floor."""
    nodes, uprights, shelves = grid(columns, levels)
    fixed = np.zeros((len(nodes), 3), dtype=bool)
    fixed[:columns, :2] = True
    panels = bays(columns, levels)[list(backs)] if len(list(backs)) else ()  # type: ignore[call-overload]
    given_ = {
        "nodes": nodes * [800.0, 350.0],
        "members": np.concatenate([uprights, shelves]),
        "EA": 1.6e7,
        "EI": 4e8,
        "GA": 7e5,
        "joints": joints,
        "fixed": fixed,
        "panels": panels,
        "panel_stiffness": 500.0 if len(panels) else (),
    }
    return Frame(**(given_ | more))  # type: ignore[arg-type]


@pytest.mark.parametrize("rigid", [True, False])
def test_soft_and_stiff_springs_end_at_pinned_and_rigid(rigid: bool) -> None:
    nodal = np.zeros((9, 3, 1))
    nodal[6, 0] = 50.0
    limit = np.inf if rigid else 0.0
    near = 1e15 if rigid else 1e-3
    exact, sprung = (
        solve_frame(stack(3, 2, joints=joints, backs=[0, 1, 2, 3]), nodal=nodal)
        for joints in (limit, near)
    )
    assert sprung.displacements[:, :2] == pytest.approx(exact.displacements[:, :2], rel=1e-6)
    assert sprung.extremes("moment").largest == pytest.approx(
        exact.extremes("moment").largest, rel=1e-6, abs=1e-3
    )


def test_softer_joints_sway_more_than_rigid_ones() -> None:
    nodal = np.zeros((15, 3, 1))
    nodal[12, 0] = 50.0
    sways = [
        solve_frame(stack(3, 4, joints=joints), nodal=nodal).displacements[12, 0, 0]
        for joints in (np.inf, 1e7, 1e6, 1e5, 1e4)
    ]
    assert sways == sorted(sways)
    assert sways[-1] > 20 * sways[0]


def test_boxed_bridge_sags_by_its_joints_and_is_held_by_a_back() -> None:
    """Two boards and dividers over three bays of 400 mm: joints decide, unless a back is on."""
    n = 4
    boards = [(r * n + i, r * n + i + 1) for r in (0, 1) for i in range(n - 1)]
    fixed = np.zeros((2 * n, 3), dtype=bool)
    fixed[0, :2] = fixed[n - 1, 1] = True

    def sag(joint: float, back: float) -> float:
        joints = np.full((len(boards) + n, 2), np.inf)
        joints[len(boards) :] = joint
        corners = [(i, i + 1, n + i + 1, n + i) for i in range(n - 1)]
        frame = Frame(
            nodes=[(400.0 * i, z) for z in (0.0, 350.0) for i in range(n)],
            members=boards + [(i, n + i) for i in range(n)],
            EA=1.6e7,
            EI=4e8,
            GA=7e5,
            joints=joints,
            fixed=fixed,
            panels=corners if back else (),
            panel_stiffness=back if back else (),
        )
        result = solve_frame(frame, lines=LineLoads(member=range(6), down=0.4))
        return float(result.displacements[:, 1, 0].max())

    with pytest.raises(Mechanism, match="sideways"):
        sag(0.0, 0.0)
    soft, stiff = sag(1e4, 0.0), sag(np.inf, 0.0)
    assert soft > 3 * stiff
    backed = sag(1e4, 200.0)
    assert backed < stiff / 2
    # Without any joint the back alone holds it nearly as well: it is the deep beam's web.
    assert backed <= sag(0.0, 200.0) < 1.1 * backed


def test_load_paths_add_up_to_the_weight_above() -> None:
    columns, levels = 4, 3
    frame = stack(columns, levels, joints=2e5, backs=[0, 4, 8])
    uprights = columns * levels
    shelves = np.arange(uprights, len(frame.members))
    load = np.linspace(0.2, 1.4, len(shelves))
    push = np.zeros((len(frame.nodes), 3, 1))
    push[-1, 0] = -30.0
    result = solve_frame(frame, lines=LineLoads(member=shelves, down=load), nodal=push)
    weight = (load * 800.0).reshape(levels + 1, columns - 1).sum(axis=1)
    for level in range(levels):
        above = weight[level + 1 :].sum()
        down = passed_down(result, np.arange(level * columns, (level + 1) * columns))
        assert down.sum() == pytest.approx(above)
        cut = cut_at(result, 350.0 * level + 100.0)
        assert cut[:2, 0] == pytest.approx([-30.0, above])
    # What a foot puts on the floor: its upright, and the floor shelf on either side.
    floor = np.zeros(columns)
    np.add.at(
        floor,
        frame.members[shelves[: columns - 1]],
        result.end_forces[shelves[: columns - 1], :, 1, 0],
    )
    received = passed_down(result, np.arange(columns))[:, 0] + floor
    assert received == pytest.approx(result.support_forces[:columns, 1, 0])
    without = passed_down(result, np.arange(columns), panels=False)[:, 0] + floor
    assert without != pytest.approx(result.support_forces[:columns, 1, 0], rel=1e-3)


def test_cut_carries_the_moment_of_a_push() -> None:
    frame = stack(2, 3, joints=np.inf, backs=[0, 1, 2])
    push = np.zeros((8, 3, 1))
    push[6, 0] = 40.0
    cut = cut_at(solve_frame(frame, nodal=push), 500.0)
    assert cut[:, 0] == pytest.approx([40.0, 0.0, 40.0 * (3 * 350.0 - 500.0)], abs=1e-6)


def test_vertical_push_and_force_at_the_very_end_of_a_member() -> None:
    """A force at a member's end is a force on its node."""
    frame = stack(2, 1, joints=1e6)
    shelf = 3
    for at, node in ((0.0, 2), (800.0, 3)):
        nodal = np.zeros((4, 3, 1))
        nodal[node, :2, 0] = [7.0, 11.0]
        one = solve_frame(frame, nodal=nodal)
        other = solve_frame(
            frame, points=PointLoads(member=shelf, at=at, down=11.0, right=7.0), cases=1
        )
        assert other.displacements == pytest.approx(one.displacements, rel=1e-9, abs=1e-12)
        places = [0.0, 240.0, 720.0]
        for quantity in ("moment", "shear", "deflection"):
            assert other.along(shelf, places, quantity) == pytest.approx(
                one.along(shelf, places, quantity), rel=1e-9, abs=1e-7
            )


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"nodes": [(0, 0), (0, np.nan)]}, "finite"),
        ({"nodes": [(0, 0), (0, 0)]}, "no length"),
        ({"members": [(0, 2)]}, "does not exist"),
        ({"members": [(0.0, 1.0)]}, "whole numbers"),
        ({"members": np.zeros((0, 2), dtype=int)}, "at least one"),
        ({"EI": 0.0}, "EI"),
        ({"EA": np.inf}, "EA"),
        ({"GA": np.nan}, "GA"),
        ({"joints": -1.0}, "joints"),
        ({"springs": np.inf}, "finite"),
        ({"fixed": [[0, 0, 0], [1, 1, 1]]}, "truth"),
        ({"nodes": [(0, 0), (0, 1), (1, 1)], "fixed": [[True] * 3] * 3}, "no member meets node 2"),
        ({"panels": [(0, 1, 1, 0)], "panel_stiffness": -1.0}, "panel_stiffness"),
    ],
)
def test_bad_frames_are_refused(changes: dict[str, object], message: str) -> None:
    good: dict[str, object] = {
        "nodes": [(0, 0), (0, 350)],
        "members": [(0, 1)],
        "EA": 1e7,
        "EI": 1e8,
        "fixed": [[True] * 3, [False] * 3],
    }
    with pytest.raises(ValueError, match=message):
        Frame(**(good | changes))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("loads", "message"),
    [
        ({"lines": LineLoads(member=9, down=1.0)}, "does not exist"),
        ({"lines": LineLoads(member=0, case=-1, down=1.0)}, "does not exist"),
        ({"lines": LineLoads(member=0, start=400.0, down=1.0)}, "off its member"),
        ({"lines": LineLoads(member=0, end=0.0, down=1.0)}, "off its member"),
        ({"lines": LineLoads(member=0, down=np.nan)}, "finite"),
        ({"points": PointLoads(member=0, at=351.0, down=1.0)}, "off its member"),
        ({"points": PointLoads(member=0, at=1.0, down=np.inf)}, "finite"),
        ({"nodal": np.zeros((4, 3))}, "shape"),
        ({"nodal": np.full((4, 3, 1), np.nan)}, "finite"),
    ],
)
def test_bad_loads_are_refused(loads: dict[str, object], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        solve_frame(stack(2, 1, joints=np.inf), **loads)  # type: ignore[arg-type]


def test_unknown_quantity_and_place_are_refused() -> None:
    result = solve_frame(stack(2, 1, joints=np.inf))
    with pytest.raises(ValueError, match="unknown quantity"):
        result.extremes("colour")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="off its member"):
        result.along(0, 351.0, "moment")


def test_moment_on_a_node_that_nothing_holds_is_a_mechanism() -> None:
    frame = stack(2, 1, joints=0.0, backs=[0])
    nodal = np.zeros((4, 3, 1))
    nodal[2, 2] = 1.0
    with pytest.raises(Mechanism) as caught:
        solve_frame(frame, nodal=nodal)
    assert caught.value.free == (8,)
