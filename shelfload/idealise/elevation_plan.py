"""What a plane frame of units is drawn with: horizontals, uprights, backs, bays.

A horizontal is a line through its middle, an upright one through its own; both meet in nodes.
Where a unit stands on another, its lowest horizontal shares nodes with the other's top.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from shelfload.idealise.corners import BackHold
from shelfload.idealise.geometry import UprightAt
from shelfload.idealise.sections import ShelfSection
from shelfload.solve.frame_model import RIGHT, Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A horizontal in the frame: its nodes from left to right and the members between.

    ``carried`` holds the nodes with an upright, the floor or another unit below, ``landed``
    those where something stands on the open span, ``outer`` those at the two sides.
    """

    unit: str
    number: int
    shape: ShelfSection
    nodes: tuple[int, ...]
    members: tuple[int, ...]
    carried: tuple[int, ...]
    landed: tuple[int, ...]
    outer: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """An upright of one level: its member runs from the foot up."""

    unit: str
    level: int
    upright: UprightAt
    member: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """Any bay, backed or not: its four corner nodes in order round the edge."""

    unit: str
    level: int
    number: int
    width: float
    height: float
    corners: tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class BackedBay:
    """A back in a bay; panels of the frame are in the order of these."""

    bay: Bay
    hold: BackHold


@dataclass(slots=True, kw_only=True)
class Plan:
    """The frame being drawn; turned into a :class:`Frame` when all units are in.

    ``held`` are movements of nodes, ``ties`` springs to the side [N/mm].
    """

    nodes: list[tuple[float, float]] = field(default_factory=list)
    members: list[tuple[int, int]] = field(default_factory=list)
    stiffness: list[tuple[float, float, float]] = field(default_factory=list)
    kdef: list[float] = field(default_factory=list)
    joints: list[tuple[float, float]] = field(default_factory=list)
    held: set[tuple[int, int]] = field(default_factory=set)
    ties: dict[int, float] = field(default_factory=dict)
    lines: list[Line] = field(default_factory=list)
    stands: list[Stand] = field(default_factory=list)
    backs: list[BackedBay] = field(default_factory=list)
    bays: list[Bay] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def line(self, unit: str, number: int) -> Line:
        """Return a horizontal of a unit."""
        return next(line for line in self.lines if (line.unit, line.number) == (unit, number))

    @property
    def sinking(self) -> set[int]:
        """Nodes that stand, through uprights or at once, on the open span of a horizontal."""
        found = {node for line in self.lines for node in line.landed}
        for stand in self.stands:
            foot, head = self.members[stand.member]
            if foot in found:
                found.add(head)
        return found

    def frame(
        self, *, joint: float | None = None, aged: bool = False, plumb: bool = False
    ) -> Frame:
        """Return the frame, new or after years of load.

        ``joint`` replaces the stiffness of every corner [N mm/rad]; ``plumb`` keeps every
        horizontal from moving sideways.
        """
        EA, EI, GA = np.array(self.stiffness).T / (1.0 + np.array(self.kdef) if aged else 1.0)
        joints = np.array(self.joints)
        if joint is not None:
            joints[np.isfinite(joints)] = joint
        fixed = np.zeros((len(self.nodes), 3), dtype=bool)
        for node, movement in self.held:
            fixed[node, movement] = True
        if plumb:
            fixed[[line.outer[0] for line in self.lines], RIGHT] = True
        springs = np.zeros(fixed.shape)
        for node, tie in self.ties.items():
            springs[node, RIGHT] = tie
        return Frame(
            nodes=self.nodes,
            members=self.members,
            EA=EA,
            EI=EI,
            GA=GA,
            joints=joints,
            fixed=fixed,
            springs=springs,
            panels=[back.bay.corners for back in self.backs],
            panel_stiffness=[
                back.hold.aged if aged else back.hold.stiffness for back in self.backs
            ],
        )

    def member(
        self,
        ends: tuple[int, int],
        stiffness: tuple[float, float, float],
        kdef: float,
        joints: tuple[float, float],
    ) -> int:
        """Add a member and return its number."""
        self.members.append(ends)
        self.kdef.append(kdef)
        self.stiffness.append(stiffness)
        self.joints.append(joints)
        return len(self.members) - 1

    def node(self, x: float, z: float) -> int:
        """Add a node and return its number."""
        self.nodes.append((x, z))
        return len(self.nodes) - 1
