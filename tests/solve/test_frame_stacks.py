"""Stacks of boxes as plane frames: symmetry, joints, load paths; and input that makes no sense."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stacked import grid, stack

from shelfload.errors import Mechanism
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame
from shelfload.solve.load_path import cut_at, passed_down

QUICK = settings(max_examples=40, deadline=None)


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


def test_back_of_a_pinned_bay_takes_the_whole_push() -> None:
    """Shear flow = push over width; the bay leans by flow over stiffness (statics)."""
    push, width, height = 40.0, 800.0, 350.0
    nodal = np.zeros((4, 3, 1))
    nodal[2:, 0] = push / 2
    result = solve_frame(stack(2, 1, backs=[0]), nodal=nodal)
    assert result.shear_flow[0, 0] == pytest.approx(-push / width)
    lean = result.displacements[2:, 0, 0].mean() / height
    # Uprights stretch and shrink under P h / (2 b), half of the flow along each; the edges of
    # the panel go up and down by half of that on average, and by so much it turns.
    stretch = push * height / (2 * width) * height / 1.6e7
    assert lean == pytest.approx(push / width / 500.0 + stretch / width)
    # Two coincident backs share it.
    two = solve_frame(stack(2, 1, backs=[0, 0]), nodal=nodal)
    assert two.shear_flow[:, 0] == pytest.approx([-push / width / 2] * 2)


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
