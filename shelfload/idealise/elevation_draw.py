"""Units that stand on each other, drawn as one plane frame."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.corners import (
    LARGEST_KDEF,
    UprightStiffness,
    back_hold,
    corner_hold,
    kdef_of,
    upright_stiffness,
)
from shelfload.idealise.elevation_plan import BackedBay, Bay, Line, Plan, Stand
from shelfload.idealise.geometry import BayAt, bays, uprights
from shelfload.idealise.sections import NoFigure, ShelfSection
from shelfload.idealise.stack import back_of
from shelfload.idealise.time import section_creep
from shelfload.idealise.weights import horizontal
from shelfload.solve.frame_model import DOWN, RIGHT
from shelfload.wording import figure

CONTINUOUS = float("inf")
TIE = 100.0
"""What the ties of a unit to the wall give against sideways movement, together [N/mm].

Estimate, no source: a screw in a stud has ten times as much, a bent bracket takes most of it.
"""
SAME_PLACE = 1.0
"""Uprights whose middles are nearer than this stand on one line [mm]."""

Shapes = Mapping[tuple[str, int], ShelfSection]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A unit while it is drawn: its nodes by place for each horizontal."""

    placed: Placed
    nodes: tuple[Mapping[float, int], ...]
    shapes: Shapes
    service_class: int
    side: UprightStiffness
    divider: UprightStiffness

    @property
    def unit(self) -> Unit:
        return self.placed.unit

    def at(self, number: int, x: float) -> int:
        """Node of a horizontal at a place from the unit's left end."""
        nodes = self.nodes[number]
        return nodes[min(nodes, key=lambda place: abs(place - x - self.placed.left))]

    def outer(self, number: int) -> tuple[int, int]:
        """Nodes of a horizontal at the two sides."""
        standing = uprights(self.unit, self.unit.level[0])
        return self.at(number, standing[0].centre), self.at(number, standing[-1].centre)

    def carriers(self, number: int) -> list[int]:
        """Nodes of a horizontal with an upright, the floor or another unit below."""
        return [self.at(number, x) for x in _carrier_places(self.unit, number)]

    def is_cut(self, number: int) -> bool:
        """Whether a horizontal is cut between its carriers."""
        between = horizontal(self.unit, number).runs == "between"
        return between and len(_carrier_places(self.unit, number)) > 2

    def corner(self, number: int) -> float:
        """Stiffness of a corner at a horizontal [N mm/rad].

        Ends described as clamped do not count: nothing described holds them.
        """
        if horizontal(self.unit, number).loose:
            return 0.0  # it lies there, whatever holds the other corners
        panel = self.shapes[self.unit.name, number].thickness
        thin, thick = sorted((panel, self.side.thickness))
        return corner_hold(self.unit, self.side.material.kind, thin, thick).stiffness


def one_piece_sides(unit: Unit, number: int) -> bool:
    """Whether the sides run past horizontal ``number`` in one piece.

    A unit that comes apart, and one whose horizontal is doubled, is taken as boxes on boxes.
    """
    inner = 0 < number < len(unit.level)
    return inner and unit.comes_apart == "no" and horizontal(unit, number).panels == 1


def draw(group: Sequence[Placed], shapes: Shapes, service_class: int, catalogue: Catalogue) -> Plan:
    """Draw units that stand on each other, those below first.

    Parameters
    ----------
    group : sequence of Placed
        The units.
    shapes : mapping
        Cross-section of each horizontal, by unit and number.
    service_class : int
        Of the site, for creep.
    catalogue : Catalogue
        Resolves names.

    Raises
    ------
    NoFigure
        If an upright has no known stiffness.
    """
    plan = Plan()
    by_name = {placed.unit.name: placed for placed in group}
    for placed in group:
        above = [by_name[name] for name in placed.above if name in by_name]
        below = [by_name[name] for name in placed.below if name in by_name]
        feet = [x for upper in above if _touch(upper, placed) for x in _contacts(upper, placed)]
        drawn = _start(plan, placed, below, feet, shapes, service_class, catalogue)
        top = len(placed.unit.level)
        for number in range(top + 1):
            _draw_line(plan, drawn, number)
        for level in range(top):
            _draw_level(plan, drawn, level, catalogue)
        _support(plan, drawn, below)
    return plan


def _touch(upper: Placed, lower: Placed) -> bool:
    return upper.unit.between is None and abs(upper.bottom - lower.top) <= SAME_PLACE


def _carrier_places(unit: Unit, number: int) -> list[float]:
    """Middles of what carries a horizontal, from the unit's left end [mm]."""
    standing = uprights(unit, unit.level[max(number - 1, 0)])
    if number == 0 and unit.base == "sides":
        standing = (standing[0], standing[-1])
    return [upright.centre for upright in standing]


def _contacts(upper: Placed, lower: Placed) -> list[float]:
    """Places along the wall where one unit stands on another."""
    feet = [upper.left + x for x in _carrier_places(upper.unit, 0)]
    if upper.unit.base == "flat":
        heads = (lower.left + at.centre for at in uprights(lower.unit, lower.unit.level[-1]))
        feet += [x for x in heads if feet[0] <= x <= feet[-1]]
    return [x for x in feet if lower.left <= x <= lower.right]


def _start(
    plan: Plan,
    placed: Placed,
    below: Sequence[Placed],
    feet: Sequence[float],
    shapes: Shapes,
    service_class: int,
    catalogue: Catalogue,
) -> _Drawn:
    """Place the nodes of a unit; those of its feet are the nodes of what it stands on."""
    unit = placed.unit
    shared: dict[float, int] = {}
    for lower in below:
        if _touch(placed, lower):
            line = plan.line(lower.unit.name, len(lower.unit.level))
            for x in _contacts(placed, lower):
                shared[x] = min(line.nodes, key=lambda node: abs(plan.nodes[node][0] - x))
    middles = [panel.z + panel.thickness / 2 for panel in placed.weights.panels]
    base = placed.bottom
    if shared:
        base = plan.nodes[next(iter(shared.values()))][1] - middles[0]
    nodes: list[dict[float, int]] = []
    for number, middle in enumerate(middles):
        places = [
            placed.left + at.centre
            for level in unit.level[max(number - 1, 0) : number + 1]
            for at in uprights(unit, level)
        ]
        if number == 0:
            places += shared
        if number == len(unit.level):
            places += feet
        here: dict[float, int] = {}
        for x in sorted(places):
            if any(x - before <= SAME_PLACE for before in here):
                continue
            known = [node for at, node in shared.items() if abs(at - x) <= SAME_PLACE]
            is_shared = number == 0 and known
            here[x] = known[0] if is_shared else plan.node(x, base + middle)
        nodes.append(here)
    return _Drawn(
        placed=placed,
        nodes=tuple(nodes),
        shapes=shapes,
        service_class=service_class,
        side=_upright(unit, True, catalogue),
        divider=_upright(unit, False, catalogue),
    )


def _upright(unit: Unit, is_side: bool, catalogue: Catalogue) -> UprightStiffness:
    found = upright_stiffness(unit, is_side, catalogue)
    if found is None:
        raise NoFigure(f"{unit.name}: {'sides' if is_side else 'dividers'} of unknown stiffness")
    return found


def _draw_line(plan: Plan, drawn: _Drawn, number: int) -> None:
    unit, shape = drawn.unit, drawn.shapes[drawn.unit.name, number]
    section = shape.section
    stiffness = (float(section.EA), shape.EI_used, float(section.GA))
    creep = section_creep(shape, drawn.service_class)
    creep = LARGEST_KDEF if creep is None else creep
    corner = drawn.corner(number)
    carried = drawn.carriers(number)
    outer = drawn.outer(number)
    loose = set(outer) if one_piece_sides(unit, number) else set()
    if drawn.is_cut(number):
        loose |= set(carried) - set(outer)
    places = sorted(drawn.nodes[number])
    nodes = [drawn.nodes[number][x] for x in places]
    members = [
        plan.member(
            (near, far),
            stiffness,
            creep,
            (corner if near in loose else CONTINUOUS, corner if far in loose else CONTINUOUS),
        )
        for near, far in pairwise(nodes)
    ]
    standing = uprights(unit, unit.level[number]) if number < len(unit.level) else ()
    landing = {drawn.at(number, at.centre) for at in standing}
    if number == len(unit.level):
        heads = set(carried)
        landing = {node for node in nodes if node not in heads}
    plan.lines.append(
        Line(
            unit=unit.name,
            number=number,
            shape=shape,
            nodes=tuple(nodes),
            members=tuple(members),
            carried=tuple(node for node in nodes if node in carried),
            landed=tuple(node for node in nodes if node in landing and node not in carried),
            outer=outer,
        )
    )


def _draw_level(plan: Plan, drawn: _Drawn, level: int, catalogue: Catalogue) -> None:
    unit = drawn.unit
    low, high = level, level + 1
    for at in uprights(unit, unit.level[level]):
        is_side = at.name.endswith("side")
        own = drawn.side if is_side else drawn.divider
        foot = drawn.corner(low)
        head = drawn.corner(high)
        if is_side:
            foot = CONTINUOUS if one_piece_sides(unit, low) else foot
            head = CONTINUOUS if one_piece_sides(unit, high) else head
        elif drawn.is_cut(high):
            head = CONTINUOUS
        plan.stands.append(
            Stand(
                unit=unit.name,
                level=level,
                upright=at,
                member=plan.member(
                    (drawn.at(low, at.centre), drawn.at(high, at.centre)),
                    (own.EA, own.EI, own.GA),
                    kdef_of(own.material, drawn.service_class),
                    (foot, head),
                ),
            )
        )
    back = back_of(unit, unit.level[level])
    for bay in bays(unit, unit.level[level]):
        _draw_bay(plan, drawn, level, bay)
        if back is not None:
            here = plan.bays[-1]
            hold = back_hold(
                back,
                drawn.side.material,
                here.width,
                here.height,
                drawn.service_class,
                catalogue,
            )
            plan.backs.append(BackedBay(bay=here, hold=hold))
            plan.said += [text for text in hold.said if text not in plan.said]


def _draw_bay(plan: Plan, drawn: _Drawn, level: int, bay: BayAt) -> None:
    standing = uprights(drawn.unit, drawn.unit.level[level])
    left, right = standing[bay.number - 1].centre, standing[bay.number].centre
    corners = (
        drawn.at(level, left),
        drawn.at(level, right),
        drawn.at(level + 1, right),
        drawn.at(level + 1, left),
    )
    plan.bays.append(
        Bay(
            unit=drawn.unit.name,
            level=level,
            number=bay.number,
            width=right - left,
            height=plan.nodes[corners[3]][1] - plan.nodes[corners[0]][1],
            corners=corners,
        )
    )


def _support(plan: Plan, drawn: _Drawn, below: Sequence[Placed]) -> None:
    placed, unit = drawn.placed, drawn.unit
    top = len(unit.level)
    if unit.hangs is not None:
        # what hangs is kept plumb by its own weight, whatever its corners do
        plan.held |= {(node, RIGHT) for line in drawn.nodes for node in line.values()}
        row = max(unit.hangs.heights, default=placed.weights.height)
        plan.held |= {(node, DOWN) for node in drawn.outer(_nearest_line(placed, row))}
        return
    if unit.between is not None:
        for number in range(top + 1):
            plan.held |= {(node, way) for node in drawn.outer(number) for way in (RIGHT, DOWN)}
        return
    if unit.restraint is not None:
        row = unit.restraint.height or placed.weights.height
        plan.ties[drawn.outer(_nearest_line(placed, row))[0]] = TIE
        plan.said.append(
            f"{unit.name}: its ties to the wall hold it sideways with {figure(TIE, 'stiffness')} "
            "(estimate)"
        )
    for x in _carrier_places(unit, 0):
        at = placed.left + x
        under = [lower for lower in below if lower.left <= at <= lower.right]
        if any(_touch(placed, lower) for lower in under) or (below and not under):
            continue
        plan.held |= {(drawn.at(0, x), way) for way in (RIGHT, DOWN)}


def _nearest_line(placed: Placed, height: float) -> int:
    panels = placed.weights.panels
    return min(
        range(len(panels)), key=lambda n: abs(panels[n].z + panels[n].thickness / 2 - height)
    )
