"""Free motions of frames: found by rank, named by what moves, and what stops them."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from stacked import stack

from shelfload.errors import Mechanism
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_stiffness import assemble
from shelfload.solve.mechanism import free_motions, idle_turns, motions_in_words
from shelfload.solve.stiffening import (
    AddedPanel,
    AddedSupport,
    Change,
    StifferJoint,
    least_changes,
    with_changes,
)

QUICK = settings(max_examples=40, deadline=None)


def bay(columns: int, level: int, column: int = 0) -> tuple[int, int, int, int]:
    low, high = level * columns + column, (level + 1) * columns + column
    return (low, low + 1, high + 1, high)


def test_pinned_stack_sways_level_by_level() -> None:
    columns, levels = 3, 4
    motions = free_motions(stack(columns, levels))
    assert len(motions) == levels
    swaying = sorted(motion.members.tolist() for motion in motions)
    # Each motion turns the uprights of one level and nothing else; all above goes along.
    assert swaying == [[3 * level, 3 * level + 1, 3 * level + 2] for level in range(levels)]
    for motion in motions:
        level = motion.members[0] // columns
        assert motion.nodes.tolist() == list(range(columns * (level + 1), columns * (levels + 1)))
        assert motion.sideways == pytest.approx(1.0)
        assert motion.vertical == 0.0
        assert motion.turning[motion.members] == pytest.approx(1.0 / 350.0)


def test_level_without_a_back_is_the_one_that_sways() -> None:
    columns, levels = 3, 4
    backs = [bay(columns, level) for level in (0, 1, 3)]
    frame = stack(columns, levels, panels=backs, panel_stiffness=100.0)
    (motion,) = free_motions(frame)
    assert motion.members.tolist() == [6, 7, 8]
    with pytest.raises(Mechanism, match=r"members \[6, 7, 8\] turn, sideways") as caught:
        solve_frame(frame)
    # Third shelf and fourth, to the side: no other movement takes part.
    assert caught.value.free == tuple(3 * node for node in range(9, 15))


def test_unit_on_rollers_slides() -> None:
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[:2, 1] = True
    (motion,) = free_motions(stack(2, 1, fixed=fixed, joints=np.inf))
    assert not motion.members.size
    assert motion.shape == pytest.approx(np.array([[1.0, 0.0, 0.0]] * 4))
    assert "slide sideways" in motions_in_words([motion])


def test_unit_hung_by_one_node_swings() -> None:
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[2, :2] = True
    (motion,) = free_motions(stack(2, 1, fixed=fixed, joints=np.inf))
    # A rigid turn about node 2: every member turns alike.
    assert np.ptp(motion.turning) == pytest.approx(0.0, abs=1e-12)
    assert motion.nodes.tolist() == [0, 1, 3]


def test_boxed_bridge_with_pinned_dividers_folds() -> None:
    # Two boards in three bays on two supports, dividers pinned, joints of boards pinned too:
    # each bay folds on its own but for the two ends being held.
    n = 4
    nodes = [(i * 400.0, z) for z in (0.0, 300.0) for i in range(n)]
    chords = [(r * n + i, r * n + i + 1) for r in (0, 1) for i in range(n - 1)]
    posts = [(i, n + i) for i in range(n)]
    fixed = np.zeros((8, 3), dtype=bool)
    fixed[0, :2] = True
    fixed[3, 1] = True
    common = {
        "nodes": nodes,
        "members": chords + posts,
        "EA": 1e7,
        "EI": 1e9,
        "fixed": fixed,
    }
    joints = np.zeros((10, 2))
    motions = free_motions(Frame(joints=joints, **common))  # type: ignore[arg-type]
    # 6 chord pieces + 4 posts = 10 bars, 16 movements, 3 held: 3 motions (Maxwell's rule).
    assert len(motions) == 16 - 3 - 10
    # Boards through (rigid in themselves), dividers pinned: the top board slides off sideways.
    joints[:6] = np.inf
    (motion,) = free_motions(Frame(joints=joints, **common))  # type: ignore[arg-type]
    assert motion.members.tolist() == [6, 7, 8, 9]
    assert motion.nodes.tolist() == [4, 5, 6, 7]


def test_turn_of_an_all_pinned_node_is_no_mechanism() -> None:
    frame = stack(2, 1, panels=[bay(2, 0)], panel_stiffness=1.0)
    assert idle_turns(frame)[:, 2].all()
    assert not free_motions(frame)
    nodal = np.zeros((4, 3, 1))
    nodal[2, 0] = 1.0
    assert np.isfinite(solve_frame(frame, nodal=nodal).displacements).all()


def test_bracket_on_a_hinge_turns_with_all_its_nodes() -> None:
    frame = Frame(
        nodes=[(0, 0), (0, 350), (400, 350)],
        members=[(0, 1), (1, 2)],
        EA=1e7,
        EI=1e8,
        fixed=[[True, True, False], [False] * 3, [False] * 3],
    )
    (motion,) = free_motions(frame)
    assert motion.spinning.tolist() == [0, 1, 2]
    assert motion.members.tolist() == [0, 1]
    # Its tip goes 400 mm to the side of the hinge and 350 above: down 400 to right 350.
    assert motion.shape[2, 1] / motion.shape[2, 0] == pytest.approx(400 / 350)
    assert motion.shape[:, 2] == pytest.approx(motion.turning[0])


def test_one_rigid_corner_holds_a_level() -> None:
    """With three hinges left a portal stands (three-hinged arch, textbook)."""
    joints = np.zeros((4, 2))
    joints[0, 1] = joints[3, 0] = np.inf
    assert not free_motions(stack(2, 1, joints=joints))
    joints[0, 1] = 0.0
    assert len(free_motions(stack(2, 1, joints=joints))) == 1


@QUICK
@given(
    st.integers(2, 4),
    st.integers(1, 5),
    st.lists(st.booleans(), min_size=5, max_size=5),
    st.floats(-3, 9),
    st.integers(0, 2**31),
)
def test_levels_without_back_are_counted_whatever_the_stiffness(
    columns: int, levels: int, backed: list[bool], exponent: float, seed: int
) -> None:
    rng = np.random.default_rng(seed)
    backs = [bay(columns, i, rng.integers(0, columns - 1)) for i in range(levels) if backed[i]]
    m = len(stack(columns, levels).members)
    frame = stack(
        columns,
        levels,
        panels=backs or (),
        panel_stiffness=10.0**exponent if backs else (),
        EA=10.0 ** rng.uniform(4, 10, m),
        EI=10.0 ** rng.uniform(6, 12, m),
    )
    motions = free_motions(frame)
    assert len(motions) == levels - len(backs)
    if motions:
        with pytest.raises(Mechanism):
            solve_frame(frame)
    else:
        solve_frame(frame)
    # No motion meets any resistance, and they are independent.
    whole = assemble(frame).whole
    for motion in motions:
        resistance = np.abs(whole @ motion.shape.ravel()).max()
        assert resistance < 1e-9 * whole.max()
    shapes = np.array([motion.shape.ravel() for motion in motions])
    if motions:
        assert np.linalg.matrix_rank(shapes) == len(motions)


@QUICK
@given(st.integers(2, 4), st.integers(1, 6), st.floats(0, 6), st.integers(0, 2**31))
def test_soft_joints_are_never_taken_for_none(
    columns: int, levels: int, contrast: float, seed: int
) -> None:
    """Joints up to a million times softer than each other: held, and in balance."""
    rng = np.random.default_rng(seed)
    m = len(stack(columns, levels).members)
    joints = 1e7 * 10.0 ** (-contrast * rng.random((m, 2)))
    frame = stack(columns, levels, joints=joints)
    assert not free_motions(frame)
    nodal = np.zeros((len(frame.nodes), 3, 1))
    nodal[columns:, :2, 0] = rng.uniform(-30.0, 30.0, (len(frame.nodes) - columns, 2))
    result = solve_frame(frame, nodal=nodal)
    total = result.support_forces.sum(axis=0)[:2, 0]
    assert total == pytest.approx(nodal.sum(axis=0)[:2, 0], abs=1e-8 * np.abs(nodal).sum())
    rest = nodal - result.support_forces
    np.add.at(rest, frame.members, result.end_forces)
    assert np.abs(rest[:, :2]).max() < 1e-8 * np.abs(nodal).sum()


def exact_rank(rows: list[list[Fraction]]) -> int:
    """Rank by elimination in fractions: no rounding, no threshold."""
    rank = 0
    for column in range(len(rows[0])):
        pivot = next((i for i in range(rank, len(rows)) if rows[i][column]), None)
        if pivot is None:
            continue
        rows[rank], rows[pivot] = rows[pivot], rows[rank]
        for i in range(rank + 1, len(rows)):
            if rows[i][column]:
                factor = rows[i][column] / rows[rank][column]
                pairs = zip(rows[i], rows[rank], strict=True)
                rows[i] = [a - factor * b for a, b in pairs]
        rank += 1
    return rank


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_count_of_motions_is_the_exact_one(seed: int) -> None:
    """Whole-number places, some members and joints left out: rank worked out in fractions."""
    rng = np.random.default_rng(seed)
    columns, levels = rng.integers(2, 4), rng.integers(1, 4)
    x, z = np.meshgrid(np.arange(columns) * 40, np.arange(levels + 1) * 20)
    nodes = np.stack([x.ravel(), z.ravel()], axis=1)
    n = len(nodes)
    askew = rng.random(n) < 0.3
    nodes[askew] += rng.integers(-3, 4, (askew.sum(), 2))
    number = np.arange(n).reshape(x.shape)
    uprights = np.stack([number[:-1].ravel(), number[1:].ravel()], axis=1)
    shelves = np.stack([number[:, :-1].ravel(), number[:, 1:].ravel()], axis=1)
    members = np.concatenate([uprights, shelves])
    members = members[rng.random(len(members)) < 0.93]
    assume(len(np.unique(members)) == n)
    m = len(members)
    fixed = np.zeros((n, 3), dtype=bool)
    fixed[:columns, :2] = rng.random((columns, 2)) < 0.9
    pinned = rng.random((m, 2)) < rng.choice([0.5, 0.8, 0.95])
    joints = np.where(pinned, 0.0, 10.0 ** rng.uniform(1, 9, (m, 2)))
    frame = Frame(
        nodes=nodes.astype(float),
        members=members,
        EA=10.0 ** rng.uniform(4, 8, m),
        EI=10.0 ** rng.uniform(6, 10, m),
        joints=joints,
        fixed=fixed,
    )
    able = np.flatnonzero(~(fixed | idle_turns(frame)).ravel())
    rows = []
    for i, (a, b) in enumerate(members.tolist()):
        dx, rise = (nodes[b] - nodes[a]).tolist()
        stretch = {3 * a: -dx, 3 * a + 1: rise, 3 * b: dx, 3 * b + 1: -rise}
        rows.append(stretch)
        # Turn of a node against the chord, times length squared.
        chord = {3 * a: rise, 3 * a + 1: dx, 3 * b: -rise, 3 * b + 1: -dx}
        for end, node in enumerate((a, b)):
            if not pinned[i, end]:
                rows.append(chord | {3 * node + 2: dx * dx + rise * rise})
    dense = [[Fraction(row.get(k, 0)) for k in able.tolist()] for row in rows]
    free = len(able) - exact_rank(dense)
    assert len(free_motions(frame)) == free
    if free:
        with pytest.raises(Mechanism):
            solve_frame(frame)
    else:
        solve_frame(frame)


def test_joints_too_soft_for_any_figure_are_told() -> None:
    """Held by rank, but all figures of the sway would be rounding: refused, not guessed."""
    with pytest.raises(Mechanism, match="so softly") as caught:
        solve_frame(stack(2, 2, joints=1e-12))
    # Nodes 2 to 5 sway.
    assert {number // 3 for number in caught.value.free} == {2, 3, 4, 5}


def test_tall_narrow_stack_is_held() -> None:
    """Sixty levels on soft joints: the weakest motion of all, yet no mechanism."""
    frame = stack(2, 60, joints=1e3)
    assert not free_motions(frame)
    nodal = np.zeros((len(frame.nodes), 3, 1))
    nodal[-1, 0] = 1.0
    assert solve_frame(frame, nodal=nodal).displacements[-1, 0, 0] > 0


def test_pole_in_many_short_pieces_is_held() -> None:
    n = 300
    fixed = np.zeros((n + 1, 3), dtype=bool)
    fixed[0] = True
    pole = Frame(
        nodes=[(0.0, 10.0 * i) for i in range(n + 1)],
        members=[(i, i + 1) for i in range(n)],
        EA=1e7,
        EI=1e8,
        fixed=fixed,
    )
    assert not free_motions(pole)


def test_least_change_is_the_missing_back() -> None:
    frame = stack(3, 3, panels=[bay(3, 0), bay(3, 2, 1)], panel_stiffness=50.0)
    candidates = [[AddedPanel(bay(3, level, column))] for level in range(3) for column in (0, 1)]
    assert least_changes(frame, candidates) == [(2,), (3,)]


def test_least_change_by_joints() -> None:
    # Two pinned levels: one rigid corner holds the upper, another the lower; a middle node
    # whose upper and lower upright are both joined to the shelf holds both.
    frame = stack(2, 2)
    lower: list[Change] = [StifferJoint(0, 1), StifferJoint(5, 0)]
    upper: list[Change] = [StifferJoint(3, 1), StifferJoint(6, 1)]
    assert least_changes(frame, [lower]) == []
    assert least_changes(frame, [lower, upper]) == [(0, 1)]
    both: list[Change] = [*lower, StifferJoint(2, 0)]
    assert least_changes(frame, [lower, upper, both]) == [(2,)]
    # One end alone joins nothing to nothing.
    assert least_changes(stack(2, 1), [[StifferJoint(0, 1)]]) == []
    held: list[Change] = [AddedSupport(4, 0), AddedSupport(2, 0)]
    assert least_changes(frame, [lower, held]) == [(1,)]


def test_many_levels_need_as_many_backs() -> None:
    levels = 5
    frame = stack(2, levels)
    candidates = [[AddedPanel(bay(2, level))] for level in range(levels)]
    doubled = [candidates[0], candidates[0], *candidates[1:]]
    (chosen,) = least_changes(frame, doubled)
    assert len(chosen) == levels
    assert not free_motions(with_changes(frame, [doubled[i][0] for i in chosen]))
    assert least_changes(stack(2, 1, joints=1.0), candidates[:1]) == [()]


def test_change_never_softens_a_joint() -> None:
    frame = stack(2, 1, joints=np.inf)
    changed = with_changes(frame, [StifferJoint(0, 1, 1e3)])
    assert np.isinf(changed.joints).all()


def test_nothing_moves_has_no_words_of_motion() -> None:
    assert "can't be computed" in motions_in_words([])
