"""Speed of the plane frame, alone and beside a general-purpose library in the same run.

Run with: pytest tests/benchmarks --benchmark-only (one core: OMP_NUM_THREADS=1).
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from Pynite import FEModel3D

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads, PointLoads
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_result import Extremes
from shelfload.solve.mechanism import free_motions


def unit(columns: int, levels: int, *, joints: float = 1e7, backs: bool = True) -> Frame:
    """Stack of bays; 3 columns and 4 levels make 22 members."""
    x, z = np.meshgrid(np.arange(columns) * 800.0, np.arange(levels + 1) * 350.0)
    number = np.arange(x.size).reshape(x.shape)
    uprights = np.stack([number[:-1].ravel(), number[1:].ravel()], axis=1)
    shelves = np.stack([number[:, :-1].ravel(), number[:, 1:].ravel()], axis=1)
    corners = [number[:-1, :1], number[:-1, 1:2], number[1:, 1:2], number[1:, :1]]
    fixed = np.zeros((x.size, 3), dtype=bool)
    fixed[:columns, :2] = True
    return Frame(
        nodes=np.stack([x.ravel(), z.ravel()], axis=1),
        members=np.concatenate([uprights, shelves]),
        EA=1.6e7,
        EI=4e8,
        GA=7e5,
        joints=joints,
        fixed=fixed,
        panels=np.concatenate(corners, axis=1) if backs else (),
        panel_stiffness=500.0 if backs else (),
    )


def loads_on(frame: Frame, columns: int, levels: int) -> tuple[LineLoads, np.ndarray]:
    shelves = np.arange(columns * levels, len(frame.members))
    push = np.zeros((len(frame.nodes), 3, 1))
    push[-1, 0] = 50.0
    return LineLoads(member=shelves, down=0.4), push


def solved_with_extremes(
    frame: Frame, lines: LineLoads, push: np.ndarray, points: PointLoads | None = None
) -> list[Extremes]:
    result = solve_frame(frame, lines=lines, points=points, nodal=push)
    return [result.extremes(name) for name in ("moment", "shear", "axial", "deflection")]


@pytest.mark.benchmark(group="frame of 22 members")
def test_22_members_with_extremes(benchmark: Any) -> None:
    frame = unit(3, 4)
    assert len(frame.members) == 22
    lines, push = loads_on(frame, 3, 4)
    found = benchmark(solved_with_extremes, frame, lines, push)
    assert found[3].highest.max() > 0


@pytest.mark.benchmark(group="frame of 22 members")
def test_22_members_with_extremes_from_the_numbers(benchmark: Any) -> None:
    def whole() -> list[Extremes]:
        frame = unit(3, 4)
        return solved_with_extremes(frame, *loads_on(frame, 3, 4))

    assert len(benchmark(whole)) == 4


@pytest.mark.benchmark(group="frame of 22 members")
def test_22_members_force_and_part_loads_on_every_shelf(benchmark: Any) -> None:
    frame = unit(3, 4)
    lines, push = loads_on(frame, 3, 4)
    lines = LineLoads(member=lines.member, down=0.1, down_end=0.9, start=100.0, end=500.0)
    points = PointLoads(member=lines.member, at=300.0, down=50.0)
    assert len(benchmark(solved_with_extremes, frame, lines, push, points)) == 4


@pytest.mark.benchmark(group="frame of 22 members")
def test_22_members_each_bay_its_own_case_and_all_patterns(benchmark: Any) -> None:
    frame = unit(3, 4)
    lines, _ = loads_on(frame, 3, 4)
    bays = len(lines.member)
    each = LineLoads(member=lines.member, case=np.arange(bays), down=0.4)
    patterns = (np.arange(2**bays)[:, None] >> np.arange(bays)) & 1

    def worst() -> float:
        result = solve_frame(frame, lines=each).combine(patterns)
        return float(result.extremes("moment").highest.max())

    assert benchmark(worst) > 0


@pytest.mark.benchmark(group="frame of 22 members")
def test_22_members_mechanisms_by_rank(benchmark: Any) -> None:
    frame = unit(3, 4, joints=0.0, backs=False)
    assert len(benchmark(free_motions, frame)) == 4


@pytest.mark.benchmark(group="growth of the frame")
@pytest.mark.parametrize(("columns", "levels"), [(2, 2), (3, 4), (5, 8), (9, 12), (13, 20)])
def test_growth(benchmark: Any, columns: int, levels: int) -> None:
    frame = unit(columns, levels)
    lines, push = loads_on(frame, columns, levels)
    benchmark.extra_info["members"] = len(frame.members)
    assert len(benchmark(solved_with_extremes, frame, lines, push)) == 4


def pynite_unit(columns: int, levels: int) -> FEModel3D:
    model = FEModel3D()
    model.add_material("board", 3000.0, 150.0, 0.3, 0.0)
    model.add_section("board", 1.6e7 / 3000, 4e8 / 3000, 4e8 / 3000, 1.0)
    frame = unit(columns, levels, joints=np.inf, backs=False)
    for node, (x, z) in enumerate(frame.nodes):
        model.add_node(f"N{node}", x, z, 0.0)
        right, down, _ = frame.fixed[node]
        model.def_support(f"N{node}", right, down, True, True, True, False)
    for i, (a, b) in enumerate(frame.members):
        model.add_member(f"M{i}", f"N{a}", f"N{b}", "board", "board")
    for i in range(columns * levels, len(frame.members)):
        model.add_member_dist_load(f"M{i}", "FY", -0.4, -0.4)
    model.add_node_load(f"N{len(frame.nodes) - 1}", "FX", 50.0)
    return model


def pynite_extremes(model: FEModel3D) -> list[float]:
    model.analyze_linear(check_stability=False)
    combo = "Combo 1"
    found = []
    for member in model.members.values():
        found += [member.max_moment("Mz", combo), member.min_moment("Mz", combo)]
        found += [member.max_shear("Fy", combo), member.min_shear("Fy", combo)]
        found += [member.max_axial(combo), member.min_axial(combo)]
        found += [member.max_deflection("dy", combo), member.min_deflection("dy", combo)]
    return found


@pytest.mark.benchmark(group="the same rigid frame of 22 members, side by side")
def test_beside_pynite_ours(benchmark: Any) -> None:
    frame = unit(3, 4, joints=np.inf, backs=False)
    lines, push = loads_on(frame, 3, 4)
    assert len(benchmark(solved_with_extremes, frame, lines, push)) == 4


@pytest.mark.benchmark(group="the same rigid frame of 22 members, side by side")
def test_beside_pynite_theirs(benchmark: Any) -> None:
    model = pynite_unit(3, 4)
    assert len(benchmark(pynite_extremes, model)) == 8 * 22
