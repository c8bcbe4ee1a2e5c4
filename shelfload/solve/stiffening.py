"""The least change that stops a frame from moving freely."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from shelfload.solve.frame_model import Frame
from shelfload.solve.mechanism import free_motions


@dataclass(frozen=True, slots=True)
class AddedPanel:
    """A panel in a bay.

    Parameters
    ----------
    corners : tuple of int
        Four corner nodes in order round the edge [-]
    stiffness : float
        Shear flow per shear angle [N/mm]

    Notes
    -----
    Source: own definition.
    """

    corners: tuple[int, int, int, int]
    stiffness: float = 1.0


@dataclass(frozen=True, slots=True)
class StifferJoint:
    """A joint made sprung or rigid.

    Parameters
    ----------
    member : int
        The member [-]
    end : int
        0 for its first, 1 for its second end [-]
    stiffness : float
        Rotational stiffness, infinite for rigid [N mm/rad]

    Notes
    -----
    Source: own definition.
    """

    member: int
    end: int
    stiffness: float = float("inf")


@dataclass(frozen=True, slots=True)
class AddedSupport:
    """A node held against one movement.

    Parameters
    ----------
    node : int
        The node [-]
    movement : int
        0 to the side, 1 up and down, 2 turn [-]

    Notes
    -----
    Source: own definition.
    """

    node: int
    movement: int


Change = AddedPanel | StifferJoint | AddedSupport


def with_changes(frame: Frame, changes: Sequence[Change]) -> Frame:
    """Make a frame with changes in it.

    Parameters
    ----------
    frame : Frame
        The frame as it is [-]
    changes : sequence of Change
        What is changed; a joint never becomes softer than it was [-]

    Returns
    -------
    frame : Frame
        The changed frame [-]

    Notes
    -----
    Source: own definition.
    """
    joints, fixed = frame.joints.copy(), frame.fixed.copy()
    panels = [tuple(row) for row in frame.panels]
    stiffness = list(frame.panel_stiffness)
    for change in changes:
        if isinstance(change, AddedPanel):
            panels.append(change.corners)
            stiffness.append(change.stiffness)
        elif isinstance(change, StifferJoint):
            before = joints[change.member, change.end]
            joints[change.member, change.end] = max(before, change.stiffness)
        else:
            fixed[change.node, change.movement] = True
    return Frame(
        nodes=frame.nodes,
        members=frame.members,
        EA=frame.EA,
        EI=frame.EI,
        GA=frame.GA,
        joints=joints,
        fixed=fixed,
        springs=frame.springs,
        panels=panels,
        panel_stiffness=stiffness,
    )


def least_changes(
    frame: Frame, candidates: Sequence[Sequence[Change]], largest: int = 3
) -> list[tuple[int, ...]]:
    """Find the smallest sets of changes that stop every free motion.

    Parameters
    ----------
    frame : Frame
        A frame that moves freely [-]
    candidates : sequence of sequences of Change
        Each candidate is what is done in one go: a back in a bay, a joint made rigid, or
        both joints of a shelf [-]
    largest : int, optional
        Size up to which every set is tried; above it, candidates are taken one after
        the other as long as each stops a motion, then those that prove needless are left
        out [-]

    Returns
    -------
    sets : list of tuple of int
        Numbers of the candidates in each smallest set, in the order given: all sets up to
        ``largest``, else one set that works; [()] where nothing moves; empty where not
        even all candidates together are enough [-]

    Notes
    -----
    The test is the rank, not the stiffness: what is found stops the motion, how much it
    still sways is for :func:`solve_frame` to say.

    Source: own method.
    """

    def motions(chosen: Sequence[int]) -> int:
        changes = [change for number in chosen for change in candidates[number]]
        return len(free_motions(with_changes(frame, changes)))

    everything = range(len(candidates))
    before = motions(())
    if not before:
        return [()]
    if motions(everything):
        return []
    # A panel, a joint or a support stops one motion at most, so fewer can't be enough.
    fewest = -(-before // max(len(candidate) for candidate in candidates))
    for size in range(fewest, min(largest, len(candidates)) + 1):
        found = [chosen for chosen in combinations(everything, size) if not motions(chosen)]
        if found:
            return found
    kept = list(everything)
    for number in reversed(everything):
        without = [one for one in kept if one != number]
        if not motions(without):
            kept = without
    return [tuple(kept)]
